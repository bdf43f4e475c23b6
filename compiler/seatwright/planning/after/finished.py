"""The finished valve: what was found in the end, held against its limits (handbook 13).

A valve is finished when all that has a limit was measured and passes. What was measured and fails is said with its
figures; what has a limit and was not measured keeps the valve from being finished, and its card on the bench.
"""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.model import Finished, Head, Job, Limits, Reading
from seatwright.planning.basis.faces import below_limits
from seatwright.planning.plan.figure import Figure, given
from seatwright.planning.basis.findings import Findings
from seatwright.planning.plan import FinishedPlan, HeightLimits, ValvePlan
from seatwright.planning.basis.wording import length, listed, said

_SLACK = 1e-9
_MAY_BE_FINISHED = ("plan", "accepted", "kept")


class _Check(Struct, frozen=True):
    """One column against its limits. word: the column. low, high: what to do when under the least, over the most."""

    word: str
    figure: Figure | None
    least: Figure | None
    most: Figure | None
    low: str
    high: str

    @property
    def limited(self) -> bool:
        return self.least is not None or self.most is not None

    @property
    def too_small(self) -> bool:
        return self.figure is not None and self.least is not None and self.figure.value < self.least.value - _SLACK

    @property
    def too_big(self) -> bool:
        return self.figure is not None and self.most is not None and self.figure.value > self.most.value + _SLACK


def finished(job: Job, head: Head, plans: tuple[ValvePlan, ...], findings: Findings) -> tuple[ValvePlan, ...]:
    """Judge every valve that has a row under `finished`; one on hold, or left alone, keeps its status."""
    return tuple(
        plan if plan.valve.finished is None else _judged(job, head, plan, plan.valve.finished, findings)
        for plan in plans
    )


def _judged(job: Job, head: Head, plan: ValvePlan, found: Finished, findings: Findings) -> ValvePlan:
    checks = _checks(job, head, plan, found)
    verdicts: list[tuple[str, str]] = []
    missing: list[str] = []
    for check in checks:
        if check.figure is None:
            missing += [check.word] if check.limited else []
        elif not check.limited:
            _say_not_judged(check.word, plan, findings)
        else:
            failed = check.too_small or check.too_big
            verdicts.append((_name(check.word), "fail" if failed else "pass"))
            if failed:
                _say_failed(job, plan, check, findings)
    verdicts += _leak(job, plan, found, missing, findings)
    if found.pressure_test is not None:
        verdicts.append(("pressure_test", found.pressure_test.text))
        if found.pressure_test.text == "fail":
            findings.warning(
                "pressure-test-fails",
                "The head does not hold its pressure test here.",
                "Find where it weeps before anything else: under an insert, a floor bored too thin; between seats, a "
                "crack. The head does not leave like this.",
                found.pressure_test.span,
                (plan.name,),
            )
    verdict = _verdict(plan, verdicts, missing, findings)
    made = FinishedPlan(
        stand=_maybe("stand", found.stand),
        seat_tir=_maybe("seat_tir", found.seat_tir),
        seat_width=_maybe("seat_width", found.seat_width),
        recession=_maybe("recession", found.recession),
        tip_height=_maybe("tip_height", found.tip_height),
        spring_height=_maybe("spring_height", found.spring_height),
        leak=None if found.leak is None else found.leak.text,
        leak_s=None if found.leak_seconds is None else given("leak", "s", found.leak_seconds),
        pressure_test=None if found.pressure_test is None else found.pressure_test.text,
        verdicts=tuple(verdicts),
        verdict=verdict,
    )
    status = plan.status
    if verdict == "pass":
        if status in _MAY_BE_FINISHED:
            status = "finished"
        elif status not in ("hold", "left-alone", "not-planned"):
            _say_bore_open(plan, findings)
    return replace(plan, finished=made, status=status)


def _verdict(plan: ValvePlan, verdicts: list[tuple[str, str]], missing: list[str], findings: Findings) -> str | None:
    """fail where anything fails; pass where all that has a limit was measured; else not yet told."""
    if any(verdict == "fail" for _, verdict in verdicts):
        return "fail"
    if missing and plan.status not in ("left-alone", "not-planned"):
        words = listed(f"`{word}`" for word in missing)
        findings.unchecked(
            "not-yet-finished",
            f"Not finished yet: {words} {'has' if len(missing) == 1 else 'have'} a limit and "
            f"{'is' if len(missing) == 1 else 'are'} not measured.",
            "Write it under `finished`.",
            plan.valve.span,
            (plan.name,),
        )
        return None
    return "pass" if verdicts else None


def _checks(job: Job, head: Head, plan: ValvePlan, found: Finished) -> tuple[_Check, ...]:
    spec, seat = plan.valve.specification, plan.seat
    below = below_limits(job, head, plan)
    least, most = below or ((plan.stand.least, plan.stand.most) if plan.stand is not None else (None, None))
    width = _two(spec.seat_width)
    recession = seat.recession if seat else None
    tip = seat.tip if seat else None
    spring = seat.spring if seat else None
    return (
        _Check(
            "stand", _maybe("stand", found.stand), least, most,
            "It stands high: press it down again, warm, and feel all round; look for a chip or a burr under it.",
            "It stands low: look whether the pocket was cut too deep; a taller insert, if it has to come up.",
        ),
        _Check(
            "seat-tir", _maybe("seat_tir", found.seat_tir), None,
            None if spec.seat_runout is None else given("seat_runout", "mm", spec.seat_runout),
            "", "Look at the pilot's fit in the guide and at the guide itself, then take a light cut over the seat.",
        ),
        _Check(
            "seat-width", _maybe("seat_width", found.seat_width), *width,
            "A light pass with the seat cutter makes it wider, and sinks the valve.",
            "Narrow it from the top or from the throat, by where the contact stands on the valve's face.",
        ),
        _Check(
            "recession", _maybe("recession", found.recession), *_limits(recession),
            "The valve stands too near the piston: cut the seat deeper.",
            "The valve sits too deep: another valve with more margin, or another insert.",
        ),
        _Check(
            "tip-height", _maybe("tip_height", found.tip_height), *_limits(tip),
            "The tip stands low: cut the seat deeper if the recession allows.",
            "The tip stands high: grind it as far as `tip-grind-most` allows, else another valve or another insert.",
        ),
        _Check(
            "spring-height", _maybe("spring_height", found.spring_height), *_limits(spring),
            "The spring is short: take shims out.",
            "The spring is long: shim it, up to `shim-limit`.",
        ),
    )  # fmt: skip


def _two(limits: Limits | None) -> tuple[Figure | None, Figure | None]:
    if limits is None:
        return None, None
    least = None if limits.least is None else given("w_least", "mm", limits.least)
    most = None if limits.most is None else given("w_most", "mm", limits.most)
    return least, most


def _limits(limits: HeightLimits | None) -> tuple[Figure | None, Figure | None]:
    return (None, None) if limits is None else (limits.least, limits.most)


def _maybe(symbol: str, reading: Reading | None) -> Figure | None:
    return None if reading is None else given(symbol, "mm", reading)


def _name(word: str) -> str:
    return word.replace("-", "_")


def _leak(job: Job, plan: ValvePlan, found: Finished, missing: list[str], findings: Findings) -> list[tuple[str, str]]:
    """pass, fail, or a time held against the shop's."""
    limit = job.shop.practice.leak
    if found.leak is not None:
        verdict = found.leak.text
        took = ""
        span = found.leak.span
    elif found.leak_seconds is not None:
        if limit is None:
            _say_not_judged("leak", plan, findings)
            return []
        verdict = "pass" if found.leak_seconds.value >= limit.seconds.value - _SLACK else "fail"
        took = f" ({found.leak_seconds.typed}; at least {limit.seconds.typed}, {limit.text}, is wanted)"
        span = found.leak_seconds.span
    else:
        missing += ["leak"] if limit is not None else []
        return []
    if verdict == "fail":
        findings.warning(
            "leak-fails",
            f"The seat leaks{took}.",
            "Clean and dry seat and valve and test again. Grease shows where: at the face, take a light cut or dress "
            "the valve; between insert and head, the insert has to be replaced.",
            span,
            (plan.name,),
        )
    return [("leak", verdict)]


def _say_failed(job: Job, plan: ValvePlan, check: _Check, findings: Findings) -> None:
    assert check.figure is not None
    limit = check.least if check.too_small else check.most
    assert limit is not None
    side = "least" if check.too_small else "most"
    words = said(job, limit) if limit.origin is not None else length(job, limit.value)
    findings.warning(
        f"{check.word}-fails",
        f"`{check.word}` is {said(job, check.figure)}; {words} is the {side}.",
        check.low if check.too_small else check.high,
        check.figure.origin.span if check.figure.origin else plan.valve.span,
        (plan.name,),
    )


def _say_not_judged(word: str, plan: ValvePlan, findings: Findings) -> None:
    findings.unchecked(
        f"{word}-not-judged",
        f"`{word}` was measured on the finished head, and has no limit: it is on the record and was not judged.",
        "Give its limits under `valves`, or in the shop's `practice`.",
        None,
        (plan.name,),
    )


def _say_bore_open(plan: ValvePlan, findings: Findings) -> None:
    findings.warning(
        "finished-on-open-bore",
        "All that was measured on the finished valve passes, but its bore was never accepted.",
        "Settle the bore first: measure it again, or say with a later `cut` what was done to it.",
        plan.valve.span,
        (plan.name,),
    )
