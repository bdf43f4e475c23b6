"""The drawings of the cards: what they promise to the rest of the room.

Each function gives one self-contained inline SVG, or None where the job does not give what it would be drawn from.
The SVG has a `viewBox` whose units are millimetres on the paper and neither width nor height: the card prints it at
that size. It is at most 180 wide, or 122 on narrow paper, so that no paper shrinks it. Black on white, lettering 3.6
high (10 points), no colour, no script, no id, no style element, nothing loaded; text of the job is escaped; figures go
through `seatwright.cards.figures`. Lines are those of ISO 128, dimensions those of ISO 129. A figure that the plan
lacks is left out of a drawing, never made up. The same plan gives the same bytes.
"""

from __future__ import annotations

from seatwright.cards.drawings.bar import bore_bar
from seatwright.cards.drawings.clearance import clearance_against_heat
from seatwright.cards.drawings.head import head_from_deck
from seatwright.cards.drawings.indicator import indicator_face
from seatwright.cards.drawings.pocket import pocket_in_section
from seatwright.cards.drawings.seat import seat_in_section
from seatwright.cards.drawings.svg import svg
from seatwright.job.model import Head
from seatwright.planning.plan import Plan, Setting, ValvePlan

WIDE, NARROW = 180.0, 122.0
"""Widths of a drawing [mm]: on A4 and Letter, on A5 and half Letter."""


def head_drawing(plan: Plan, head: Head, narrow: bool = False) -> str | None:
    """The head seen from the deck, to scale from `layout` and `holes`; None without a layout.

    Each valve with its name, insert, bore and the number of its setting; a valve on hold is crossed out; bridges are
    marked where near their limit.
    """
    drawing = head_from_deck(plan, head, _width(narrow))
    return None if drawing is None else svg(drawing)


def pocket_drawing(plan: Plan, valve: ValvePlan, narrow: bool = False) -> str | None:
    """A section of the pocket, dimensioned at bench temperature: bore, depth and the face it is measured from, corner
    left at the floor, throat, floor left, the insert in it; None without a bore and a depth."""
    drawing = pocket_in_section(plan, valve, _width(narrow))
    return None if drawing is None else svg(drawing)


def indicator_drawing(plan: Plan, setting: Setting) -> str | None:
    """The indicator's face with the needle and what it is to do after the first cut, in radius or diameter as it shows;
    None without one, or without a setting gauge."""
    drawing = indicator_face(plan.job, setting)
    return None if drawing is None else svg(drawing)


def bore_bar_drawing(plan: Plan, valve: ValvePlan, narrow: bool = False) -> str | None:
    """The bore's least, aim and most as a bar, its guard band, and after the cut what was measured; None without a
    bore."""
    drawing = bore_bar(plan, valve, _width(narrow))
    return None if drawing is None else svg(drawing)


def seat_drawing(plan: Plan, valve: ValvePlan, narrow: bool = False) -> str | None:
    """A section of the finished seat with its three cuts and the valve on it; None without its edges and angle."""
    drawing = seat_in_section(plan, valve, _width(narrow))
    return None if drawing is None else svg(drawing)


def clearance_drawing(plan: Plan, valve: ValvePlan, narrow: bool = False) -> str | None:
    """The clearance that each heat and chill gives, the chosen one marked; None without an assembly."""
    drawing = clearance_against_heat(plan, valve, _width(narrow))
    return None if drawing is None else svg(drawing)


def _width(narrow: bool) -> float:
    return NARROW if narrow else WIDE
