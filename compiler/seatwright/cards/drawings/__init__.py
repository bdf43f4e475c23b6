"""The drawings of the cards: what they promise to the rest of the room.

Each function gives one self-contained inline SVG with the words that stand below it, or None where the job does not
give what it would be drawn from. The SVG is as wide and as high in millimetres as it says, to a scale of ISO 5455, no
wider than half a sheet, so that no paper shrinks it, and has a bar to check the printer by. Black on white, lettering
3.3 high (9.4 points), no colour, no script, no id, no style element, nothing loaded; text of the job is escaped;
figures go through `seatwright.cards.parts.figures`. Lines are those of ISO 128, dimensions those of ISO 129. A figure
that the plan lacks is left out of a drawing, never made up. The same plan gives the same bytes.
"""

from __future__ import annotations

from msgspec import Struct

from seatwright.cards.drawings.head import head_from_deck
from seatwright.cards.drawings.pocket import pocket_in_section
from seatwright.cards.drawings.seat import seat_in_section
from seatwright.cards.drawings.shapes import Drawing
from seatwright.cards.drawings.svg import svg
from seatwright.job.model import Head
from seatwright.planning.plan import Plan, ValvePlan


class Drawn(Struct, frozen=True):
    """A drawing as SVG. caption: scale, unit, what its lines are. says: its figures in words."""

    svg: str
    caption: str
    says: str


def head_drawing(plan: Plan, head: Head) -> Drawn | None:
    """The head seen from the deck, to scale from `layout` and `holes`; None without a layout.

    Each valve with its name, and its bore, insert and setting where these have room; bridges are marked where near
    their limit.
    """
    return _drawn(head_from_deck(plan, head))


def pocket_drawing(plan: Plan, valve: ValvePlan) -> Drawn | None:
    """A section of the pocket, dimensioned at bench temperature: bore, depth, corner left at the floor, throat, metal
    left, the insert in it; None without a bore and a depth."""
    return _drawn(pocket_in_section(plan, valve))


def seat_drawing(plan: Plan, valve: ValvePlan) -> Drawn | None:
    """A section of the finished seat with its three cuts and the valve on it; None without its edges and angle."""
    return _drawn(seat_in_section(plan, valve))


def _drawn(drawing: Drawing | None) -> Drawn | None:
    return None if drawing is None else Drawn(svg(drawing), drawing.caption, drawing.says)
