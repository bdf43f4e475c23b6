"""The built-in typeface: what the pages are reckoned with is what is in its files."""

from __future__ import annotations

import io
from importlib import resources

import pytest
from fontTools.ttLib import TTFont
from tests.cards.demo import DEMO_JOBS, made

from seatwright.cards import letters
from seatwright.cards.paper import width_of

FOLDER = resources.files("seatwright.templates").joinpath("face")


@pytest.mark.parametrize("name,groups", [("regular", letters.REGULAR), ("bold", letters.BOLD)])
def test_the_widths_of_letters_are_those_of_the_face(name: str, groups: dict[int, str]) -> None:
    font = TTFont(io.BytesIO(FOLDER.joinpath(f"{name}.woff2").read_bytes()))
    advances, per = font["hmtx"], font["head"].unitsPerEm
    found = {chr(code): round(advances[glyph][0] * 1000 / per) for code, glyph in font.getBestCmap().items()}
    assert {letter: width for width, group in groups.items() for letter in group} == found
    # What moves letters nearer to each other would make a line shorter than reckoned; marks above them may stay.
    placed = {record.FeatureTag for record in font["GPOS"].table.FeatureList.FeatureRecord} if "GPOS" in font else set()
    assert "kern" not in {*placed, *font.keys()}


def test_figures_are_of_one_width_in_both_weights() -> None:
    assert len({round(width_of(figure, bold=bold), 6) for figure in "0123456789" for bold in (0.0, 1.0)}) == 1


def test_its_licence_is_kept_and_its_name_is_not_the_one_it_was_cut_from() -> None:
    assert "SIL OPEN FONT LICENSE Version 1.1" in FOLDER.joinpath("OFL.txt").read_text("utf-8")
    font = TTFont(io.BytesIO(FOLDER.joinpath("regular.woff2").read_bytes()))
    assert font["name"].getDebugName(1).startswith("Bench Sheet")


def test_every_letter_that_our_own_words_use_is_in_the_face() -> None:
    known = {letter for group in letters.REGULAR.values() for letter in group} | {"\n"}
    for name in DEMO_JOBS:
        assert set(made(name, "a4").markdown) <= known
