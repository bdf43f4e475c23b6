"""The wording of figures that have no like in the job, and do not go with the list or with their own pocket."""

from __future__ import annotations

from seatwright.job.model import Given, Insert, Reading
from seatwright.job.wording.of_values import sentence
from seatwright.text import Message, Related, Severity, Span
from seatwright.text.slugs import WarningSlug

_AGAIN = "measure it again; a true one is written as two readings joined by a slash"


def _warn(slug: WarningSlug, valve: str, reading: Reading, text: str, place: Span, what: str) -> Message:
    weighs = Severity.NOTICE if reading.count > 1 else Severity.WARNING
    related = (Related(place, f"{what} stands here"),) if place.line else ()
    help = "it was read twice, so it counts" if reading.count > 1 else _AGAIN
    return Message(weighs, slug, reading.span, text, sentence(help), related, (valve,))


def height_unlike_list(valve: str, height: Reading, insert: Insert, known: Given) -> Message:
    text = f"the insert for {valve} is {height.typed} high, and {insert.name.text} is {known.typed} on the list"
    return _warn("height-unlike-list", valve, height, text, known.span, "its list height")


def depth_unlike_insert(valve: str, depth: Reading, near: Given) -> Message:
    text = (
        f"the pocket of {valve} is {depth.typed} deep, and the nearest in height of the listed inserts of its size is "
        f"{near.typed}"
    )
    return _warn("depth-unlike-insert", valve, depth, text, near.span, "that height")


def throat_unlike(valve: str, throat: Reading, pocket: Reading) -> Message:
    text = f"a throat of {throat.typed} does not go with the pocket of {valve}, {pocket.typed}"
    return _warn("throat-unlike", valve, throat, text, pocket.span, "the pocket")
