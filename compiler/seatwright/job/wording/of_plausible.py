"""The wording of readings that cannot belong together."""

from __future__ import annotations

import re

from seatwright.job.model import Given, Limits, Reading, Stand
from seatwright.job.wording.of_values import error, sentence
from seatwright.text import Message, Related, Severity


def _at(one: Reading | Given, text: str) -> tuple[Related, ...]:
    return (Related(one.span, text),) if one.span.line else ()


def readings_apart(valve: str, reading: Reading, apart: float) -> Message:
    return error(
        "readings-apart",
        reading.span,
        f"the readings {reading.typed} of {valve} are {apart:.3g} mm apart: they are not of one thing",
        "correct the one that is mistyped; a later reading goes in a section with its own date",
    )


def far_apart(valve: str, what: str, one: Reading, other: Reading, radius: bool) -> Message:
    kinds = {
        "pocket": "one pocket cannot be so far out of round or so tapered; where metal is missing write `damage`",
        "guide": "one guide cannot be so worn",
        "bore": "one bore cannot be so far out of round or so tapered",
        "depth": "one floor cannot be so far out of square",
    }
    help = "one of them looks like a radius: sizes are diameters" if radius else f"{kinds[what]}; correct the wrong one"
    return error(
        "readings-apart",
        one.span,
        f"the {what} of {valve} cannot be {other.typed} in one place and {one.typed} in another",
        help,
        _at(other, "the other reading stands here"),
    )


def insert_under_pocket(valve: str, od: Reading, pocket: Reading, meant: str | None) -> Message:
    help = meant or "measure both again, or take another insert"
    return error(
        "insert-under-pocket",
        od.span,
        f"the insert for {valve}, {od.typed}, is more than 3 mm smaller than the pocket, {pocket.typed}",
        help,
        _at(pocket, "the pocket stands here"),
    )


def insert_over_pocket(valve: str, od: Reading, pocket: Reading, radius: bool) -> Message:
    help = (
        "is the pocket a radius, or the insert a slip? Sizes are diameters; measure both again"
        if radius
        else ("measure both again; a seat that was cut in the head itself is written `seat integral`")
    )
    return error(
        "insert-over-pocket",
        od.span,
        f"the insert for {valve}, {od.typed}, is more than 8 mm larger than the pocket, {pocket.typed}",
        help,
        _at(pocket, "the pocket stands here"),
    )


def guide_over_pocket(valve: str, guide: Reading, pocket: Reading) -> Message:
    return error(
        "guide-over-pocket",
        guide.span,
        f"the guide of {valve}, {guide.typed}, is not smaller than its pocket, {pocket.typed}",
        "the two look exchanged: put each in its own column",
        _at(pocket, "the pocket stands here"),
    )


def stem_tight(valve: str, stem: Given, guide: Reading) -> Message:
    return Message(
        Severity.WARNING,
        "stem-tight",
        stem.span,
        f"the stem of {valve}, {stem.typed}, is larger than its guide, {guide.typed}",
        sentence(
            "a slip of the pen, or the two are exchanged: measure both again; with an oversize stem, or a guide that "
            "is not yet reamed, it is right like this"
        ),
        _at(guide, "the guide stands here"),
        (valve,),
    )


def stem_loose(valve: str, stem: Given, guide: Reading) -> Message:
    return Message(
        Severity.WARNING,
        "stem-loose",
        stem.span,
        f"the stem of {valve}, {stem.typed}, is more than 0.10 mm (.004 in) loose in its guide, {guide.typed}",
        sentence("measure both again; a guide so worn comes first: give its `guide-wear-limit`"),
        _at(guide, "the guide stands here"),
        (valve,),
    )


def damage_inside(valve: str, damage: Reading, pocket: Reading) -> Message:
    return Message(
        Severity.WARNING,
        "damage-inside",
        damage.span,
        f"the damage of {valve}, {damage.typed}, reaches no further than its pocket, {pocket.typed}",
        sentence("damage is a diameter, and the largest that is spoilt: measure it again, or leave it out"),
        _at(pocket, "the pocket stands here"),
        (valve,),
    )


def guide_length_odd(valve: str, length: Given, stem: Given) -> Message:
    return Message(
        Severity.WARNING,
        "guide-length-odd",
        length.span,
        f"a guide {length.typed} long does not go with the stem of {valve}, {stem.typed}",
        sentence("guides are four to eleven stems long: look at its decimal point and its unit"),
        _at(stem, "the stem stands here"),
        (valve,),
    )


def guide_to_floor_odd(valve: str, away: Given, head: Given) -> Message:
    return Message(
        Severity.WARNING,
        "guide-to-floor-odd",
        away.span,
        f"a floor {away.typed} from the guide's port end does not go with the valve of {valve}, {head.typed} across",
        sentence("measure it again: look at its decimal point and its unit"),
        _at(head, "the valve stands here"),
        (valve,),
    )


def stand_far(valve: str, stand: Stand) -> Message:
    return Message(
        Severity.WARNING,
        "stand-far",
        stand.span,
        f"`stand {stand.typed}` of {valve}: inserts stand some hundredths below their face, within a tenth or two",
        sentence("look at its decimal point; every depth stop rests on it"),
        (),
        (valve,),
    )


def depth_floor(valve: str, depth: Reading, floor: Reading, known: Reading | Given) -> Message:
    return Message(
        Severity.WARNING,
        "depth-floor",
        depth.span,
        f"the pocket of {valve} is {depth.typed} deep with {floor.typed} under its floor, but its insert goes with "
        f"{known.typed}",
        sentence("pocket-depth and floor-thickness look exchanged: measure again, and put each in its own column"),
        (*_at(floor, "floor-thickness stands here"), *_at(known, "what it goes with stands here")),
        (valve,),
    )


def limits_apart(valve: str, what: str, limits: Limits, least: Given, most: Given) -> Message:
    meant = _with_the_digit_of(least.typed.split(" ")[0], most.typed.split(" ")[0])
    return error(
        "limits-apart",
        limits.span,
        f"{what} of {valve}: {limits.typed} are {most.value - least.value:.3g} mm apart, and two limits of one size "
        "never are",
        f"was `{meant}` meant for the smaller?" if meant else "look at the first digits: one of the two is misprinted",
    )


def _with_the_digit_of(low: str, high: str) -> str:
    """The smaller limit with its first digit that differs taken from the larger; empty where that is no help."""
    if len(low) != len(high) or low.find(".") != high.find("."):
        return ""
    at = next((place for place, (one, other) in enumerate(zip(low, high, strict=True)) if one != other), None)
    if at is None:
        return ""
    meant = low[:at] + high[at] + low[at + 1 :]
    both_plain = re.fullmatch(r"[0-9]*\.?[0-9]+", meant) and re.fullmatch(r"[0-9]*\.?[0-9]+", high)
    return meant if both_plain and float(meant) < float(high) else ""


def interference_large(valve: str, fit: Limits, across: float) -> Message:
    return error(
        "interference-large",
        fit.span,
        f"interference of {valve}: {fit.typed} is too much for a diameter of {across:.4g} mm",
        "it is diametral, and commonly two to four thousandths of the diameter at most: look at its decimal point",
    )
