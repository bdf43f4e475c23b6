"""The finished valve: what was found in the end, held against its limits (handbook 13).

A valve is finished when its bore is accepted, or its pocket kept, or its seat was cut in what stays, and all that has a
limit was measured and passes. What was measured and fails is said with its figures; what has a limit and was not
measured keeps the valve from being finished, and its card on the bench. Over a bore that is open nothing is judged: the
readings go on the record as they are. A valve that is left alone is judged too, and stays left alone.
"""

from __future__ import annotations

from msgspec.structs import replace

from seatwright.job.model import Finished, Head, Job
from seatwright.planning.after.finished_limits import checks, maybe, say_failed, say_not_judged
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.verdicts import ACCEPTED
from seatwright.planning.basis.wording import listed
from seatwright.planning.plan import Closed, FinishedPlan, Judged, Status, into
from seatwright.planning.plan.figure import given

_SLACK = 1e-9
_MAY_BE_FINISHED = (Status.ACCEPTED, Status.KEPT, Status.TO_CUT)


def finished(job: Job, head: Head, plans: tuple[Judged, ...], findings: Findings) -> tuple[Closed, ...]:
    """Judge every valve that has a row under `finished`; one on hold, or left alone, keeps its status."""
    _say_never_tested(head, plans, findings)
    return tuple(
        into(Closed, plan) if plan.valve.finished is None else _judged(job, head, plan, plan.valve.finished, findings)
        for plan in plans
    )


def _judged(job: Job, head: Head, plan: Judged, found: Finished, findings: Findings) -> Closed:
    made = replace(_as_read(found), earlier=tuple(_as_read(before) for before in found.earlier))
    if made.pressure_test == "fail":
        _say_pressure_fails(plan, found, findings)
    if _bore_open(plan):
        _say_bore_open(plan, findings)
        return into(Closed, plan, finished=made)
    verdicts, missing = _verdicts(job, head, plan, found, findings)
    verdict = _verdict(plan, verdicts, missing, findings)
    passes = verdict == "pass" and plan.status in _MAY_BE_FINISHED
    return into(
        Closed,
        plan,
        finished=replace(made, verdicts=tuple(verdicts), verdict=verdict),
        status=Status.FINISHED if passes else plan.status,
    )


def _as_read(found: Finished) -> FinishedPlan:
    return FinishedPlan(
        stand=maybe("stand", found.stand),
        seat_tir=maybe("seat_tir", found.seat_tir),
        seat_width=maybe("seat_width", found.seat_width),
        recession=maybe("recession", found.recession),
        stem_height=maybe("stem_height", found.stem_height),
        spring_height=maybe("spring_height", found.spring_height),
        leak=None if found.leak is None else found.leak.text,
        leak_s=None if found.leak_seconds is None else given("leak", "s", found.leak_seconds),
        pressure_test=None if found.pressure_test is None else found.pressure_test.text,
        date=found.date,
    )


def _bore_open(plan: Judged) -> bool:
    """Whether an insert is to go in here, and the bore that it goes into was neither accepted nor kept as found."""
    if not plan.gets_insert or (plan.cut is not None and plan.cut.verdict == ACCEPTED):
        return False
    return not plan.kept or plan.cut is not None or plan.status == Status.MEASURE_AGAIN


def _verdicts(
    job: Job, head: Head, plan: Judged, found: Finished, findings: Findings
) -> tuple[list[tuple[str, str]], list[str]]:
    """What passes and what fails, each figure by itself, and what has a limit and was not measured."""
    verdicts: list[tuple[str, str]] = []
    missing: list[str] = []
    for check in checks(job, head, plan, found):
        if check.figure is None:
            missing += [check.word] if check.limited else []
        elif not check.limited:
            say_not_judged(check.word, plan, findings)
        else:
            limit = check.missed(check.figure)
            verdicts.append((_name(check.word), "pass" if limit is None else "fail"))
            if limit is not None:
                say_failed(job, plan, check, check.figure, limit, findings)
    verdicts += _leak(job, plan, found, missing, findings)
    if found.pressure_test is not None:
        verdicts.append(("pressure_test", found.pressure_test.text))
    return verdicts, missing


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
            say_not_judged("leak", plan, findings)
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


def _say_pressure_fails(plan: Judged, found: Finished, findings: Findings) -> None:
    findings.warning(
        "pressure-test-fails",
        "The head does not hold its pressure test here.",
        "Find where it weeps before anything else: under an insert, a floor bored too thin; between seats, a "
        "crack. The head does not leave like this.",
        found.pressure_test.span if found.pressure_test else None,
        (plan.name,),
    )


def _say_bore_open(plan: Judged, findings: Findings) -> None:
    if plan.cut is None:
        how = "nobody wrote what was bored"
    elif plan.cut.verdict is None:
        how = "the bore as cut could not be judged"
    else:
        how = "the bore as cut is not accepted"
    findings.warning(
        "finished-on-open-bore",
        f"There are readings of a finished valve, and {how}: they are on the record as read, without a verdict, and "
        "the valve is not finished.",
        "Write what was bored, with its readings, under `cut`; where that was done, settle the bore first. Where "
        "nothing was bored, say `insert stays` or `insert none`.",
        plan.valve.span,
        (plan.name,),
    )


def _say_never_tested(head: Head, plans: tuple[Judged, ...], findings: Findings) -> None:
    """A head of which something is finished, and nobody says that it held pressure after the work; the `pressure-test`
    of the head itself is that of before."""
    rows = [plan.valve.finished for plan in plans if plan.valve.finished is not None]
    if not rows or any(row.pressure_test is not None for row in rows):
        return
    before = "" if head.pressure_test is None else f" That of before says: {head.pressure_test.text}."
    findings.unchecked_risk(
        "pressure-test-not-made",
        "Nobody wrote that this head was pressure-tested after the work: whether it holds water now is not known, and "
        f"the record says so.{before}",
        "Test the whole head once every insert is in, and write `pressure-test` under `finished`.",
        head.span,
    )
