"""The spring of each valve (handbook 17): its force where it will stand, what sinking costs, room at full lift."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.handbook import springs as sums
from seatwright.job.model import ForceAt, Head, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, said, spring_force
from seatwright.planning.plan import SpringPlan, Sprung, Stood, into
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.seat.full_lift import at_full_lift

_SOURCE = "handbook 17"
_SLACK = 1e-9
_SAME_HEIGHT = 0.005
_A_TENTH = 0.10
"""How much of its force a used spring may have lost, where the maker gives no least; common practice."""


class _Line(Struct, frozen=True):
    """The rate of a spring, and the two heights that it holds between."""

    rate: Figure
    short: Figure
    long: Figure

    def holds(self, *heights: Figure) -> bool:
        return all(sums.rate_holds(one.value, self.short.value, self.long.value) for one in heights)


class _Point(Struct, frozen=True):
    """A force at a height."""

    force: Figure
    at: Figure


def springs(job: Job, head: Head, plans: tuple[Stood, ...], findings: Findings) -> tuple[Sprung, ...]:
    """The spring of each valve of which anything is given; one whose valve is left alone is judged too."""
    return tuple(into(Sprung, plan, spring=_spring(job, plan, findings)) for plan in plans)


def _spring(job: Job, plan: Stood, findings: Findings) -> SpringPlan | None:
    spec, found = plan.valve.specification, plan.found
    told = (
        spec.valve_lift,
        spec.coil_bind,
        spec.bind_room,
        spec.retainer_room,
        found.spring_force,
        found.retainer_to_seal,
    )
    if not spec.spring_force and not spec.spring_least and all(one is None for one in told):
        return None
    line, points = _line(spec.spring_force), [_point(one, "F_new") for one in spec.spring_force]
    used = [_point(one, "F_least") for one in spec.spring_least]
    read = _read(plan, findings)
    verdicts: list[tuple[str, str]] = []
    _judge_measured(job, plan, read, line, used, points, verdicts, findings)
    made = SpringPlan(measured=read is not None, rate=None if line is None else line.rate)
    made = _force(job, plan, made, read, line, used, verdicts, findings)
    made = at_full_lift(job, plan, made, verdicts, findings)
    return replace(made, verdicts=tuple(verdicts))


def _point(one: ForceAt, symbol: str) -> _Point:
    return _Point(given(symbol, "N", one.force), given("h_limit", "mm", one.at))


def _line(points: Sequence[ForceAt]) -> _Line | None:
    if len(points) != 2:
        return None
    low, high = sorted(points, key=lambda point: point.at.value)
    figures = (
        given("F_1", "N", low.force), given("F_2", "N", high.force), given("h_2", "mm", high.at),
        given("h_1", "mm", low.at),
    )  # fmt: skip
    value = sums.spring_rate(low.force.value, low.at.value, high.force.value, high.at.value)
    rate = computed("k", "N/mm", value, "(F_1 - F_2)/(h_2 - h_1)", figures, _SOURCE)
    return _Line(rate, figures[3], figures[2])


def _read(plan: Stood, findings: Findings) -> _Point | None:
    """The spring as it was measured; a force without its height says nothing."""
    read, at = plan.found.spring_force, plan.found.spring_at
    if read is None:
        return None
    if at is None:
        findings.unchecked(
            "spring-not-judged",
            "The force of the spring was read, and `spring-at`, the height of that reading, is not given: it is not "
            "judged.",
            "Write the height that it was pressed to as `spring-at` beside it.",
            read.span,
            (plan.name,),
        )
        return None
    return _Point(given("F", "N", read), given("h", "mm", at))


def _brought(one: _Point, line: _Line | None, height: Figure) -> Figure | None:
    """A force brought to another height; None where no rate holds there."""
    if abs(one.at.value - height.value) < _SAME_HEIGHT:
        return one.force
    if line is None or not line.holds(one.at, height):
        return None
    value = sums.force_at_height(one.force.value, one.at.value, line.rate.value, height.value)
    symbol = f"{one.force.symbol}_there"
    formula = f"{one.force.symbol} + k*({one.at.symbol} - {height.symbol})"
    return computed(symbol, "N", value, formula, (one.force, line.rate, one.at, height), _SOURCE)


def _judge_measured(
    job: Job, plan: Stood, read: _Point | None, line: _Line | None, used: Sequence[_Point], new: Sequence[_Point],
    verdicts: list[tuple[str, str]], findings: Findings,
) -> None:  # fmt: skip
    """The spring in the hand against the maker's least, or, where he gives none, against a new one."""
    limits = used or new
    if read is None or not limits:
        return
    there = [(limit, brought) for limit in limits if (brought := _brought(read, line, limit.at)) is not None]
    where = plan.found.spring_force.span if plan.found.spring_force else plan.valve.span
    if not there:
        why = "one more `spring-force` gives its rate" if line is None else "its rate does not hold that far"
        findings.unchecked(
            "spring-not-judged",
            f"The spring was read at {said(job, read.at)} and its limit stands at {said(job, limits[0].at)}: {why}. It "
            "is not judged.",
            "Read it at the height of the limit, or give the maker's force at two heights.",
            where,
            (plan.name,),
        )
        return
    weak = [(limit, at) for limit, at in there if at.value < limit.force.value - _SLACK]
    if used:
        verdicts.append(("force", "fail" if weak else "pass"))
    if not weak:
        return
    limit, at = weak[0]
    has = f"The spring has {spring_force(job, at.value, limit.force.value)} at {said(job, limit.at)}"
    if used:
        findings.warning(
            "spring-weak",
            f"{has}; {_typed_force(job, limit.force)} is the least of a used one.",
            "Take a new spring: a shim makes up for height, not for a tired spring.",
            where,
            (plan.name,),
        )
        return
    lost = 1 - at.value / limit.force.value
    practice = "; a tenth is what is usually let pass" if lost > _A_TENTH else ""
    findings.notice(
        "spring-under-new",
        f"{has}, {lost * 100:.0f} % under a new one{practice}. The maker's least of a used one is not given.",
        "Give it as `spring-least`, and the spring is judged.",
        where,
        (plan.name,),
    )


def _height(plan: Stood) -> tuple[Figure | None, Figure | None]:
    """Where the spring will stand without a shim, and over the one that goes under it; as measured when finished."""
    done, seat = plan.valve.finished, plan.seat
    if done is not None and done.spring_height is not None:
        one = given("height", "mm", done.spring_height)
        return one, one
    bare = None if seat is None else seat.spring_after
    if bare is None:
        # Nothing moves it where no seat is cut.
        if plan.found.spring_height is None or not plan.left_alone:
            return None, None
        bare = given("spring_found", "mm", plan.found.spring_height)
    shim = None if seat is None else seat.shim
    if shim is None:
        one = bare.called("height")
        return one, one
    over = computed("height", "mm", bare.value - shim.value, f"{bare.symbol} - {shim.symbol}", (bare, shim), _SOURCE)
    return bare.called("height_unshimmed"), over


def _force(
    job: Job, plan: Stood, made: SpringPlan, read: _Point | None, line: _Line | None, limits: Sequence[_Point],
    verdicts: list[tuple[str, str]], findings: Findings,
) -> SpringPlan:  # fmt: skip
    """Force shut and open at the finished height, and what the sinking costs."""
    bare, height = _height(plan)
    made = replace(made, height=height, shim=None if plan.seat is None else plan.seat.shim)
    sink = None if plan.seat is None else plan.seat.sink
    if line is not None and sink is not None:
        cost = sums.force_lost(line.rate.value, sink.value)
        made = replace(made, loss=computed("loss", "N", cost, f"k*{sink.symbol}", (line.rate, sink), _SOURCE))
    base = read or _maker(plan, line)
    if base is None or height is None or bare is None:
        return made
    shut, unshimmed = _brought(base, line, height), _brought(base, line, bare)
    lift = plan.valve.specification.valve_lift
    opened = None
    if lift is not None:
        up = given("lift", "mm", lift)
        low = computed("height_open", "mm", height.value - up.value, "height - lift", (height, up), _SOURCE)
        opened = _brought(base, line, low)
    if shut is None or (lift is not None and opened is None):
        findings.unchecked(
            "spring-force-not-computed",
            "The force of the spring where it will stand is not computed"
            + (": its rate is not known." if line is None else ": its rate does not hold that far."),
            "Give the maker's `spring-force` at two heights, shut and open.",
            None,
            (plan.name,),
        )
    elif read is None:
        findings.unchecked(
            "spring-not-measured",
            "The force of the spring is not measured: it is reckoned by the maker's line of a new one.",
            "Read it on the tester, as `spring-force` and `spring-at` under `measured`.",
            None,
            (plan.name,),
        )
    made = replace(
        made,
        force_shut=None if shut is None else shut.called("force_shut"),
        force_unshimmed=None if unshimmed is None or bare is height else unshimmed.called("force_unshimmed"),
        force_open=None if opened is None else opened.called("force_open"),
    )
    return _against_limit(job, plan, made, limits, verdicts, findings)


def _maker(plan: Stood, line: _Line | None) -> _Point | None:
    """The maker's line, from its longer height."""
    points = plan.valve.specification.spring_force
    if line is None or not points:
        return None
    long = max(points, key=lambda point: point.at.value)
    return _Point(given("F_new", "N", long.force), given("h_new", "mm", long.at))


def _against_limit(
    job: Job, plan: Stood, made: SpringPlan, limits: Sequence[_Point], verdicts: list[tuple[str, str]],
    findings: Findings,
) -> SpringPlan:  # fmt: skip
    """The force shut held against the least of a used spring whose height lies within those of the installed one.

    What a new one has there is no limit: within the maker's own heights a new spring stands under it too.
    """
    between = plan.valve.specification.spring_height
    if between is None or made.force_shut is None or made.height is None:
        return made
    inside = [
        limit
        for limit in limits
        if (between.least is None or limit.at.value >= between.least.value - _SLACK)
        and (between.most is None or limit.at.value <= between.most.value + _SLACK)
        and (between.least is not None or between.most is not None)
    ]
    if not inside:
        return made
    limit = max(inside, key=lambda one: one.at.value)
    low = made.force_shut.value < limit.force.value - _SLACK
    verdicts.append(("shut", "fail" if low else "pass"))
    if low and ("force", "fail") not in verdicts:  # a tired spring is said already
        way = _back_in_force(job, plan, made.height, limit, measured=made.measured)
        findings.warning(
            "spring-force-low",
            f"With the valve shut, at {length(job, made.height.value)}, the spring will have "
            f"{spring_force(job, made.force_shut.value, limit.force.value)}; {_typed_force(job, limit.force)} is the "
            "least.",
            way,
            plan.valve.span,
            (plan.name,),
        )
    return replace(made, least=limit.force)


def _back_in_force(job: Job, plan: Stood, height: Figure, limit: _Point, *, measured: bool) -> str:
    """What brings back the force of a spring that stands too long: a shim, where it leaves room between the coils."""
    over = height.value - limit.at.value
    if over <= _SLACK:
        return "It stands as short as the limit does: a new spring."
    spec = plan.valve.specification
    shim, back = f"A shim of {length(job, over)}", f"it back to {said(job, limit.at)}"
    if spec.valve_lift is not None and spec.coil_bind is not None and spec.bind_room and spec.bind_room.least:
        least = given("bind_least", "mm", spec.bind_room.least)
        room = sums.room_at_lift(limit.at.value, spec.valve_lift.value, spec.coil_bind.value)
        if room < least.value - _SLACK:
            return (
                f"{shim} would bring {back}, and leave {length(job, room)} between the coils at full lift; "
                f"{said(job, least)} is the least. A stronger spring, or an insert that lets the valve sit higher."
            )
    renew = "; or a new spring" if measured else ""
    return f"{shim} brings {back}, and takes as much off the room between the coils{renew}."


def _typed_force(job: Job, figure: Figure) -> str:
    """A force as its owner typed it; of another unit than the job's with what it comes to there."""
    here = spring_force(job, figure.value)
    if figure.origin is None:
        return here
    typed = figure.origin.typed
    return typed if typed.rpartition(" ")[2] == here.rpartition(" ")[2] else f"{typed}, {here},"
