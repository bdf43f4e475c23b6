"""The built-in typeface: what its files hold."""

from __future__ import annotations

import io
from importlib import resources

import pytest
from fontTools.ttLib import TTFont
from tests.cards.demo import DEMO_JOBS, made

FOLDER = resources.files("seatwright.templates").joinpath("face")


def font(name: str) -> TTFont:
    return TTFont(io.BytesIO(FOLDER.joinpath(f"{name}.woff2").read_bytes()))


@pytest.mark.parametrize("name", ["regular", "bold"])
def test_figures_are_of_one_width_and_no_letters_are_moved_together(name: str) -> None:
    face = font(name)
    advances, letters = face["hmtx"], face.getBestCmap()
    assert len({advances[letters[ord(figure)]][0] for figure in "0123456789"}) == 1
    placed = {record.FeatureTag for record in face["GPOS"].table.FeatureList.FeatureRecord} if "GPOS" in face else set()
    assert "kern" not in {*placed, *face.keys()}


def test_its_licence_is_kept_and_its_name_is_not_the_one_it_was_cut_from() -> None:
    assert "SIL OPEN FONT LICENSE Version 1.1" in FOLDER.joinpath("OFL.txt").read_text("utf-8")
    assert font("regular")["name"].getDebugName(1).startswith("Bench Sheet")


def test_every_letter_that_our_own_words_use_is_in_the_face() -> None:
    known = {chr(code) for code in font("regular").getBestCmap()} | {"\n"}
    for name in DEMO_JOBS:
        assert set(made(name, "a4").markdown) <= known
