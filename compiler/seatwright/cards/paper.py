"""The paper a card is printed on; card.css is filled in from it. How far a card reaches is the browser's affair."""

from __future__ import annotations

from msgspec import Struct


class Paper(Struct, frozen=True):
    """A paper, upright: sizes and margins in mm; the foot stands in the lower margin. narrow: half of a sheet, on which
    wide tables take two lines a valve and a card two or more sheets."""

    name: str
    width: float
    height: float
    top: float
    sides: float
    bottom: float
    narrow: bool = False

    @property
    def room(self) -> float:
        """Width for print."""
        return self.width - 2 * self.sides


PAPERS = {
    "a4": Paper("a4", 210.0, 297.0, 9.0, 12.0, 13.0),
    "letter": Paper("letter", 215.9, 279.4, 8.0, 12.0, 12.0),
    "a5": Paper("a5", 148.0, 210.0, 7.0, 8.0, 11.0, narrow=True),
    "half-letter": Paper("half-letter", 139.7, 215.9, 7.0, 8.0, 11.0, narrow=True),
}


class NoSheet(Exception):
    """Two cards of a paper do not go on one sheet; the text says which do."""


def sheet_of_two(paper: Paper) -> Paper:
    """The sheet that two cards of a paper fill side by side, lying. Raises NoSheet."""
    whole = {"a5": "a4", "half-letter": "letter"}.get(paper.name)
    if whole is None:
        raise NoSheet(f"two cards of {paper.name} do not go on one sheet; two of a5 or of half-letter do")
    return Paper(whole, PAPERS[whole].height, PAPERS[whole].width, paper.top, paper.sides, paper.bottom, narrow=True)
