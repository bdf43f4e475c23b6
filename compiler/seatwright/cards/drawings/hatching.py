"""Hatching: thin parallel lines across what the section cuts, and the scales that a drawing may be made to."""

from __future__ import annotations

import math
from collections.abc import Sequence

from seatwright.cards.drawings.shapes import Path, Point

# ISO 5455 recommends 1, 2 and 5 times ten; the steps between keep a small part large enough to read.
_SCALES = (10.0, 8.0, 6.0, 5.0, 4.0, 3.0, 2.5, 2.0, 1.5, 1.25, 1.0)
_SMALLER = (1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 100.0)
SCALES = (*_SCALES, *(1 / each for each in _SMALLER))


def scale_that_fits(largest: float) -> float:
    """The largest scale of the row that is no larger; the figure itself below the row."""
    return next((scale for scale in SCALES if scale <= largest + 1e-9), largest)


def scale_said(scale: float) -> str:
    """`scale 2 : 1`, `scale 1 : 2.5`."""
    return f"scale {scale:.4g} : 1" if scale >= 1 else f"scale 1 : {1 / scale:.4g}"


def hatching(outline: Sequence[Point], angle: float, spacing: float) -> list[Path]:
    """Lines at an angle [degrees] and a spacing [mm] that fill a closed outline."""
    turn = math.radians(angle)
    cos, sin = math.cos(turn), math.sin(turn)
    turned = [(x * cos + y * sin, y * cos - x * sin) for x, y in outline]
    low, high = min(v for _, v in turned), max(v for _, v in turned)
    found: list[Path] = []
    # Lines lie on a grid of the paper, so that two areas of one part match.
    row = math.ceil(low / spacing)
    while row * spacing < high:
        crossings = _crossings(turned, row * spacing)
        for start, end in zip(crossings[::2], crossings[1::2], strict=False):
            if end - start > 0.05:
                v = row * spacing
                ends = tuple((u * cos - v * sin, u * sin + v * cos) for u in (start, end))
                found.append(Path(ends))
        row += 1
    return found


def _crossings(outline: Sequence[Point], level: float) -> list[float]:
    found = []
    for (x1, y1), (x2, y2) in zip(outline, [*outline[1:], outline[0]], strict=True):
        if (y1 <= level) != (y2 <= level):
            found.append(x1 + (level - y1) / (y2 - y1) * (x2 - x1))
    return sorted(found)
