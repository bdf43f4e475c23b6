"""The drawings of the cards: what they promise to the rest of the room.

Each function gives one self-contained inline SVG, or None where the job does not give what it would be drawn from.
The SVG has a `viewBox` whose units are millimetres on A4 paper and neither width nor height: the card prints it at that
size, smaller on narrow paper. At most 180 wide; a head at most 75 high, a pocket 60, an indicator 38. Black
on white, lettering at least 3.6 high, no colour, no script, no id, no style element, nothing loaded; text of the job is
escaped; figures go through `seatwright.cards.figures`. The same plan gives the same bytes.
"""

from __future__ import annotations

from seatwright.job.model import Head
from seatwright.planning.plan import Plan, Setting, ValvePlan


def head_drawing(plan: Plan, head: Head) -> str | None:
    """The head seen from the deck, to scale from `layout` and `holes`; None without a layout.

    Each valve with its name, insert, bore and the number of its setting; a valve on hold is crossed out; bridges are
    marked where near their limit.
    """
    return None


def pocket_drawing(plan: Plan, valve: ValvePlan) -> str | None:
    """A section of the pocket, dimensioned at bench temperature: bore, depth and the face it is measured from, corner
    left at the floor, throat, floor left, the insert in it; None without a bore and a depth."""
    return None


def indicator_drawing(setting: Setting) -> str | None:
    """The indicator's face with the needle and what one turn of it means (radius or diameter); None without one."""
    return None
