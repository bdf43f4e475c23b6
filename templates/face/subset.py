"""Makes the two faces of the cards from the package `@fontsource/atkinson-hyperlegible-next` (npm), unpacked.

    npm pack @fontsource/atkinson-hyperlegible-next && tar xzf fontsource-*.tgz
    python templates/face/subset.py package/files    (fonttools, brotli)

Latin and Latin Extended-A are put into one file a weight. Its figures are made tabular for good, so that columns stand
under each other in a browser, in a PDF and in a drawing alike, and its kerning is left out, so that a line breaks at
the same word wherever it is printed.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from fontTools import merge, subset
from fontTools.ttLib import TTFont

HERE = Path(__file__).parent
WEIGHTS = {"regular": 400, "bold": 700}
NAME = "Bench Sheet"
KEPT = [*range(0x20, 0x7F), *range(0xA0, 0x180), 0x2010, 0x2011, 0x2013, 0x2014, 0x2018, 0x2019, 0x201C, 0x201D]
KEPT += [0x2022, 0x2026, 0x2032, 0x2033, 0x2044, 0x20AC, 0x2122, 0x2192, 0x2212, 0x2248, 0x2264, 0x2265]


def face(files: Path, weight: int) -> TTFont:
    """One weight: its two files as one, figures tabular, no kerning."""
    stem = f"atkinson-hyperlegible-next-{{}}-{weight}-normal.woff2"
    with tempfile.TemporaryDirectory() as folder:
        parts = []
        for block in ("latin-ext", "latin"):
            font = TTFont(files / stem.format(block))
            for table in ("GPOS", "GDEF", "GSUB", "STAT"):
                if block == "latin-ext" and table in font:
                    del font[table]
            font.flavor = None
            parts.append(f"{folder}/{block}.ttf")
            font.save(parts[-1])
        whole = merge.Merger().merge(parts[::-1])
    tabular(whole)
    options = subset.Options(
        layout_features=[], hinting=False, name_IDs=[0, 1, 2, 3, 4, 6, 13, 14], notdef_outline=True
    )
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=KEPT)
    cutter.subset(whole)
    for record in whole["name"].names:
        if record.nameID in (1, 3, 4, 6):
            record.string = f"{NAME} {weight}" if record.nameID != 6 else f"BenchSheet-{weight}"
    whole["head"].created = whole["head"].modified = 0
    whole.recalcTimestamp = False
    whole.flavor = "woff2"
    return whole


def tabular(font: TTFont) -> None:
    """Figures of one width in the place of those that the font shows when nothing is asked of it."""
    gsub = font["GSUB"].table
    for record in gsub.FeatureList.FeatureRecord:
        if record.FeatureTag != "tnum":
            continue
        for index in record.Feature.LookupListIndex:
            for change in gsub.LookupList.Lookup[index].SubTable:
                for table in font["cmap"].tables:
                    for code, glyph in table.cmap.items():
                        table.cmap[code] = change.mapping.get(glyph, glyph)


def main() -> None:
    files = Path(sys.argv[1])
    for name, weight in WEIGHTS.items():
        face(files, weight).save(HERE / f"{name}.woff2")


if __name__ == "__main__":
    main()
