"""The wording of figures of guides and springs that cannot be true together."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.job.model import ForceAt, Given, Limits, Reading
from seatwright.job.wording.of_values import error, sentence
from seatwright.text import Message, Related, Severity
from seatwright.text.slugs import WarningSlug


def hole_small(valve: str, hole: Reading, bore: Reading) -> Message:
    return _odd(
        "guide-hole-small",
        hole,
        valve,
        f"the hole of {valve}'s guide, {hole.typed}, is no larger than the guide's own bore, {bore.typed}",
        "`guide-hole-…` is the hole in the head with the old guide out, `guide-top` and the others the guide's bore",
        Related(bore.span, "the guide stands here"),
    )


def od_odd(valve: str, od: Reading, hole: Reading) -> Message:
    way = "falls through" if od.value <= hole.largest else "never goes into"
    return _odd(
        "guide-od-odd",
        od,
        valve,
        f"a guide of {od.typed} {way} the hole of {valve}, {hole.typed}",
        "measure both again, at one temperature; `guide-od` is of the guide that goes in",
        Related(hole.span, "the hole stands here"),
    )


def spring_at_free(valve: str, at: Reading, free: Reading) -> Message:
    return _odd(
        "spring-at-free",
        at,
        valve,
        f"the spring of {valve} was read at {at.typed}, and is {free.typed} free: it has no force there",
        "`spring-at` is the height that it was pressed to; look whether the two are exchanged",
        Related(free.span, "its free length stands here"),
    )


def _odd(slug: WarningSlug, figure: Reading, valve: str, text: str, help: str, related: Related) -> Message:
    return Message(Severity.WARNING, slug, figure.span, text, sentence(help), (related,), (valve,))


def bore_under_stem(valve: str, bore: Limits, stem: Given) -> Message:
    return error(
        "guide-bore-small",
        bore.span,
        f"a guide of {bore.typed} does not take the stem of {valve}, {stem.typed}",
        "correct one of them: `guide-bore` is the finished bore, larger than the stem by its clearance",
        (Related(stem.span, "the stem stands here"),),
    )


def points_many(valve: str, points: Sequence[ForceAt]) -> Message:
    return error(
        "spring-points",
        points[2].force.span,
        f"`spring-force` of {valve} stands {len(points)} times",
        "give the force at two heights: shut and open",
        (Related(points[0].force.span, "the first stands here"),),
    )


def points_crossed(valve: str, low: ForceAt, high: ForceAt) -> Message:
    return error(
        "spring-points",
        low.force.span,
        f"the spring of {valve} would have {low.force.typed} at {low.at.typed} and {high.force.typed} at "
        f"{high.at.typed}: a spring is stronger the shorter it is",
        "look whether forces or heights are exchanged",
        (Related(high.force.span, "the other point stands here"),),
    )


def least_over_new(valve: str, used: ForceAt, new: ForceAt) -> Message:
    return error(
        "spring-least-over-new",
        used.force.span,
        f"a used spring of {valve} would need {used.force.typed} at {used.at.typed}, and a new one has "
        f"{new.force.typed} there",
        "`spring-least` is the least of a used spring, `spring-force` the force of a new one",
        (Related(new.force.span, "the new one stands here"),),
    )


def bind_high(valve: str, bind: Given, point: ForceAt) -> Message:
    return error(
        "coil-bind-high",
        bind.span,
        f"the coils of {valve} would touch at {bind.typed}, and its force is given at {point.at.typed}",
        "`coil-bind` is the height at which the coils touch, shorter than any that the spring works at",
        (Related(point.at.span, "that height stands here"),),
    )
