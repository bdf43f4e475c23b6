"""The finished valve: what was found in the end, held against its limits (handbook 13).

A valve is finished when all that has a limit was measured and passes. What was measured and fails is said with its
figures; what has a limit and was not measured keeps the valve from being finished, and its card on the bench.
"""

from __future__ import annotations

from msgspec import Struct

from seatwright.job.model import Finished, Head, Job, Limits, Reading
from seatwright.planning.basis.faces import below_limits
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, listed, said
from seatwright.planning.plan import Closed, FinishedPlan, HeightLimits, Judged, Status, into
from seatwright.planning.plan.figure import Figure, given
from seatwright.text.slugs import NoticeSlug, WarningSlug

_SLACK = 1e-9
_MAY_BE_FINISHED = (Status.TO_BORE, Status.ACCEPTED, Status.KEPT, Status.TO_CUT)


_SLUGS: dict[str, tuple[WarningSlug, NoticeSlug]] = {
    "stand": ("stand-fails", "stand-not-judged"),
    "seat-tir": ("seat-tir-fails", "seat-tir-not-judged"),
    "seat-width": ("seat-width-fails", "seat-width-not-judged"),
    "recession": ("recession-fails", "recession-not-judged"),
    "stem-height": ("stem-height-fails", "stem-height-not-judged"),
    "spring-height": ("spring-height-fails", "spring-height-not-judged"),
    "leak": ("leak-fails", "leak-not-judged"),
}


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

    def missed(self, figure: Figure) -> Figure | None:
        """The limit that a figure is beyond, the least first; None where it keeps both."""
        if self.least is not None and figure.value < self.least.value - _SLACK:
            return self.least
        return self.most if self.most is not None and figure.value > self.most.value + _SLACK else None


def finished(job: Job, head: Head, plans: tuple[Judged, ...], findings: Findings) -> tuple[Closed, ...]:
    """Judge every valve that has a row under `finished`; one on hold, or left alone, keeps its status."""
    return tuple(
        into(Closed, plan) if plan.valve.finished is None else _judged(job, head, plan, plan.valve.finished, findings)
        for plan in plans
    )


def _judged(job: Job, head: Head, plan: Judged, found: Finished, findings: Findings) -> Closed:
    checks = _checks(job, head, plan, found)
    verdicts: list[tuple[str, str]] = []
    missing: list[str] = []
    for check in checks:
        if check.figure is None:
            missing += [check.word] if check.limited else []
        elif not check.limited:
            _say_not_judged(check.word, plan, findings)
        else:
            limit = check.missed(check.figure)
            verdicts.append((_name(check.word), "pass" if limit is None else "fail"))
            if limit is not None:
                _say_failed(job, plan, check, check.figure, limit, findings)
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
        stem_height=_maybe("stem_height", found.stem_height),
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
            status = Status.FINISHED
        elif status != Status.HOLD and not plan.left_alone:
            _say_bore_open(plan, findings)
    return into(Closed, plan, finished=made, status=status)


def _verdict(plan: Judged, verdicts: list[tuple[str, str]], missing: list[str], findings: Findings) -> str | None:
    """fail where anything fails; pass where all that has a limit was measured; else not yet told."""
    if any(verdict == "fail" for _, verdict in verdicts):
        return "fail"
    if missing and not plan.left_alone:
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


def _checks(job: Job, head: Head, plan: Judged, found: Finished) -> tuple[_Check, ...]:
    spec, seat = plan.valve.specification, plan.seat
    below = below_limits(job, head, plan) if plan.gets_insert else None
    least, most = below or ((plan.stand.least, plan.stand.most) if plan.stand is not None else (None, None))
    width = _two(spec.seat_width)
    recession = seat.recession if seat else None
    stem = seat.stem if seat else None
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
            "stem-height", _maybe("stem_height", found.stem_height), *_limits(stem),
            "The stem stands low: cut the seat deeper if the recession allows.",
            "The stem stands high: grind it as far as `stem-grind-most` allows, else another valve or another insert.",
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


def _leak(job: Job, plan: Judged, found: Finished, missing: list[str], findings: Findings) -> list[tuple[str, str]]:
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


def _say_failed(job: Job, plan: Judged, check: _Check, figure: Figure, limit: Figure, findings: Findings) -> None:
    side = "least" if limit is check.least else "most"
    words = said(job, limit) if limit.origin is not None else length(job, limit.value)
    findings.warning(
        _SLUGS[check.word][0],
        f"`{check.word}` is {said(job, figure)}; {words} is the {side}.",
        check.low if limit is check.least else check.high,
        figure.origin.span if figure.origin else plan.valve.span,
        (plan.name,),
    )


def _say_not_judged(word: str, plan: Judged, findings: Findings) -> None:
    findings.unchecked(
        _SLUGS[word][1],
        f"`{word}` was measured on the finished head, and has no limit: it is on the record and was not judged.",
        "Give its limits under `valves`, or in the shop's `practice`.",
        None,
        (plan.name,),
    )


def _say_bore_open(plan: Judged, findings: Findings) -> None:
    findings.warning(
        "finished-on-open-bore",
        "All that was measured on the finished valve passes, but its bore was never accepted.",
        "Settle the bore first: measure it again, or say with a later `cut` what was done to it.",
        plan.valve.span,
        (plan.name,),
    )
