"""What there is to say over many jobs: bores out of run, a tip that wears, instruments that are not what is said."""

from __future__ import annotations

from collections.abc import Iterator

from seatwright.over_jobs.history.rows import JobHistory
from seatwright.over_jobs.history.runs import FEWEST_BORES, Run
from seatwright.over_jobs.history.whole import History, Repeatability, SizeOverTime
from seatwright.over_jobs.history.wording import fine_length, in_unit, rounded_up, run_named
from seatwright.text import Message, Severity, Span
from seatwright.text.slugs import NoticeSlug, WarningSlug


def history_messages(found: History) -> tuple[Message, ...]:
    """All of it. Of a tip that was changed since nothing is said: what it did stands on its card."""
    said: list[Message] = []
    for run in found.runs:
        if run.now:
            said += [*_rules(run), *_wear(run), *_notices(run)]
    said += [message for each in found.repeats for message in _worse(each)]
    said += [_drifts(each) for each in found.sizes if each.drifts]
    said += [_undated(job) for job in found.undated]
    return tuple(said)


def _rules(run: Run) -> Iterator[Message]:
    units = run.last.units
    by_number = {bore.number: bore.point for bore in run.bores}
    for number in run.outside:
        point, limits = by_number[number], run.limits_at(number)
        assert limits is not None
        what = f"job {point.job} {point.valve}" if point.valve else f"a trial of job {point.job}"
        yield _warning(
            "bore-out-of-run",
            point.span,
            f"{what} bored {fine_length(point.overcut, units)} {in_unit(units)} over its setting; the limits of "
            f"{run_named(run)} are {fine_length(limits[0], units)} to {fine_length(limits[2], units)}.",
            _EXPLAIN.format(valve=point.valve or "E1", date=point.date),
        )
    if run.one_side:
        last, chart = by_number[run.one_side[-1]], run.chart
        assert chart is not None
        middle = (run.limits_at(run.one_side[-1]) or (0.0, chart.mean, 0.0))[1]
        side = "over" if last.overcut > middle else "under"
        yield _warning(
            "run-on-one-side",
            last.span,
            f"{run_named(run)}: eight bores in a row, up to job {last.job} {last.valve or '(its trial)'}, lie {side} "
            f"the middle, {fine_length(middle, units)} {in_unit(units)}.",
            "Find out what has changed since. Where it was the tip, write `tip-changed` with the day under the cutter.",
        )


_EXPLAIN = 'Find out why. If it was a slip: `not-counted {valve} {date} "a chip under the tip"` in that job.'


def _wear(run: Run) -> Iterator[Message]:
    if run.line is not None:
        units, since = run.last.units, run.last.tip_since or run.bores[0].point.date
        slope = fine_length(run.line.slope, units, 5 if units == "mm" else 6)
        yield _warning(
            "tip-wears",
            run.last.span,
            f"{run_named(run)} gains {slope} {in_unit(units)} a bore since {since}.",
            "Change the tip and write `tip-changed` under the cutter, or make a trial before each setting.",
        )


def _notices(run: Run) -> Iterator[Message]:
    units = run.last.units
    if run.chart is None:
        since, count = run.last.tip_since or run.bores[0].point.date, len(run.counted)
        yield _notice(
            "few-bores",
            run.last.span,
            f"{run_named(run)} since {since}: {count} {'bore' if count == 1 else 'bores'}; limits are drawn from "
            f"{FEWEST_BORES}.",
            "Write each bore with the reading it was cut at under `cut`.",
        )
    if run.pasted is not None and run.pasted.lifted:
        yield _notice(
            "step-hides-spread",
            run.last.span,
            f"{run_named(run)}: the bores scatter less than the gauges' steps: {rounded_up(run.pasted.spread, units)} "
            f"{in_unit(units)} is used.",
            "A gauge with a finer step would show whether they are as good as that.",
        )


def _worse(one: Repeatability) -> Iterator[Message]:
    if one.worse:
        of = one.of
        yield _warning(
            "repeatability-worse",
            of.span,
            f'the gauge "{of.instrument}" repeats to {rounded_up(one.found.s, of.units)} {in_unit(of.units)} on a '
            f"{of.kind} ({one.found.degrees} degrees of freedom); {of.shelf} says {of.stated_typed}.",
            f"Look at the gauge and how it is held; or write `repeatability {rounded_up(one.found.s, of.units)} "
            f"{in_unit(of.units)}` under it.",
        )


def _drifts(one: SizeOverTime) -> Message:
    first, last = one.first, one.last
    was = f"{first.reads_typed} on {first.since}" if first.since else f"{first.reads_typed} at first"
    size = fine_length(last.size, last.units, 3 if last.units == "mm" else 4)
    return _warning(
        "master-drifts",
        last.span,
        f'{size} on the gauge "{last.instrument}": it read {was}, and {last.reads_typed} on {last.since}, more than a '
        "step apart.",
        "Have the master and the gauge checked: which of the two has moved, nobody can tell from here.",
    )


def _undated(job: JobHistory) -> Message:
    assert job.undated is not None
    return _notice(
        "cut-without-date",
        job.undated,
        f"job {job.number}: `cut` or `trial` without a date: its bores are left out of the history.",
        "Write the day on the section's line, such as `cut 2026-11-20`.",
    )


def _warning(slug: WarningSlug, span: Span, text: str, help: str) -> Message:
    return Message(Severity.WARNING, slug, span, text, help)


def _notice(slug: NoticeSlug, span: Span, text: str, help: str) -> Message:
    return Message(Severity.NOTICE, slug, span, text, help)
