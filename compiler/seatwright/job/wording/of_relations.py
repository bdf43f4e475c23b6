"""The wording of figures that cannot both be true."""

from __future__ import annotations

from seatwright.job.model import Given, Limits, Reading
from seatwright.job.wording.of_values import error, sentence
from seatwright.text import Message, Related, Severity, Span

_Typed = Given | Reading | Limits


def _of(one: _Typed, text: str) -> tuple[Related, ...]:
    return (Related(one.span, text),) if one.span.line else ()


def stem_over_guide(valve: str, stem: Given, guide: Reading) -> Message:
    return error(
        "stem-over-guide",
        stem.span,
        f"the stem of {valve}, {stem.typed}, cannot stand in a guide of {guide.typed}",
        "if the two are exchanged, exchange them; else measure again: a guide before reaming is under size by less "
        "than half a millimetre",
        _of(guide, "the guide stands here"),
    )


def throat_over_pocket(valve: str, throat: Reading, pocket: Reading) -> Message:
    return error(
        "throat-over-pocket",
        throat.span,
        f"the throat of {valve}, {throat.typed}, is not smaller than its pocket, {pocket.typed}",
        "measure both again; a seat that was cut in the head itself is written `seat integral`",
        _of(pocket, "the pocket stands here"),
    )


def setback_wide(valve: str, setback: Given, head: Given) -> Message:
    return error(
        "setback-wide",
        setback.span,
        f"a setback of {setback.typed} leaves nothing of a valve of {head.typed} ({valve})",
        "setback is radial, from the valve's edge in to the outer edge of the contact",
        _of(head, "the valve stands here"),
    )


def seat_wide(valve: str, width: Limits, head: Given, inner: float) -> Message:
    return error(
        "seat-wide",
        width.span,
        f"a seat {width.typed} wide on a valve of {head.typed} ({valve}) would reach in to "
        f"{f'{inner:.1f} mm, into the stem' if inner > 0 else 'the middle and beyond'}",
        "correct the width, the setback or the valve's head",
        _of(head, "the valve stands here"),
    )


def angles_order(valve: str, upper: str, one: Given, lower: str, other: Given) -> Message:
    return error(
        "angles-order",
        one.span,
        f"{upper} of {valve}, {one.typed}, is not flatter than its {lower}, {other.typed}",
        "angles count from the plane square to the stem: the top cut is the flattest, the throat cut the steepest; "
        "from the stem they are written `from-axis`",
        _of(other, f"{lower} stands here"),
    )


def wear_limit_small(valve: str, limit: Given, clearance: Given) -> Message:
    return error(
        "wear-limit-small",
        limit.span,
        f"the wear limit of {valve}, {limit.typed}, is less than a new guide must have, {clearance.typed}",
        "correct one of them",
        _of(clearance, "guide-clearance stands here"),
    )


def od_under_bore(valve: str, od: Limits, bore: Limits) -> Message:
    return error(
        "od-under-bore",
        od.span,
        f"the insert, {od.typed}, never grips in its bore, {bore.typed} ({valve})",
        "the insert is the larger of the two; correct one",
        _of(bore, "the bore stands here"),
    )


def fit_disagrees(valve: str, given: Limits, od: Limits, bore: Limits, least: float, most: float) -> Message:
    help = (
        "least is od least minus bore most, most is od most minus bore least, within 0.005 mm (.0002 in): correct the "
        "one that is misprinted, or leave one of the three out"
    )
    pairs = ((given.least, least), (given.most, most))
    if all(one is not None and abs(2 * one.value - made) < 0.006 for one, made in pairs):
        help = "it looks radial, and interference is diametral here: double it"
    return error(
        "fit-disagrees",
        given.span,
        f"interference of {valve} is given as {given.typed}, but od {od.typed} in a bore {bore.typed} "
        f"makes {least:.3f} to {most:.3f} mm",
        help,
        (*_of(od, "the od stands here"), *_of(bore, "the bore stands here")),
    )


def od_measured(valve: str, od: Reading, least: str, most: str, place: Span | None) -> Message:
    related = (Related(place, "its limits stand here"),) if place is not None else ()
    return Message(
        Severity.WARNING,
        "insert-od-measured",
        od.span,
        f"the insert for {valve} measures {od.typed}; its limits are {least} to {most}",
        sentence("measure it again, in three places, at the temperature of the gauge; the measured figure is used"),
        related,
        (valve,),
    )
