"""The history of a folder: what all jobs tell together."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from statistics import fmean, stdev

from msgspec import Struct

from seatwright.handbook.capability import Performance, Repeats, performance, repeatability_of, repeats_worse
from seatwright.over_jobs.history.rows import (
    CheckOfInstrument,
    FitMade,
    GroupKey,
    JobHistory,
    KnownSize,
    OpenSetting,
    SeveralReadings,
)
from seatwright.over_jobs.history.runs import Run, runs_of
from seatwright.over_jobs.serving import number_key

FEWEST_FITS = 25  # for a performance index
FEWEST_DEGREES = 10  # of freedom, to judge an instrument by
_YEAR = 365.2425  # days


class Fits(Struct, frozen=True):
    """How well the fits of a cutter in a material are held. made: None for fewer than 25, or without any spread; mean
    and s: also then, from two on."""

    shelf: str
    cutter: str
    material: str
    bores: int
    mean: float
    s: float | None
    made: Performance | None


class Repeatability(Struct, frozen=True):
    """How an instrument repeats on a kind of thing. readings: the cells that say so. worse: than the shop's figure, by
    more than chance; None where it cannot be judged."""

    readings: tuple[SeveralReadings, ...]
    found: Repeats
    worse: bool | None

    @property
    def of(self) -> SeveralReadings:
        """Any of them, for its instrument and its kind; the latest, for what the shop says."""
        return self.readings[-1]


class SizeOverTime(Struct, frozen=True):
    """A master or ring over the years. drifts: by more than a step of its instrument; a_year: mm, None where one of the
    two readings has no date."""

    first: KnownSize
    last: KnownSize
    a_year: float | None
    drifts: bool

    @property
    def moved(self) -> float:
        """From the first reading to the last [mm]."""
        return self.last.reads - self.first.reads


class CheckNow(Struct, frozen=True):
    """How the checks of an instrument stand: at the latest day of a job with it. late: jobs done since it was due."""

    now: CheckOfInstrument
    late: tuple[str, ...]


class CauseCounted(Struct, frozen=True):
    """A cause, how often, which jobs, and its share of all with those before it."""

    what: str
    slug: str
    count: int
    jobs: tuple[str, ...]
    share: float


class MinutesCut(Struct, frozen=True):
    """What was cut in a month on a machine, by its planned time."""

    month: str
    machine: str
    bores: int
    minutes: float


class TrialNeeded(Struct, frozen=True):
    """Whether a setting that is still to be bored wants a trial. least, most: where 95 % of its bores will lie [mm];
    None where that is not known. why: "" where none is needed."""

    setting: OpenSetting
    least: float | None
    most: float | None
    why: str = ""


class History(Struct, frozen=True):
    """All of it. jobs: how many were read."""

    jobs: int
    runs: tuple[Run, ...]
    trials: tuple[TrialNeeded, ...]
    fits: tuple[Fits, ...]
    repeats: tuple[Repeatability, ...]
    sizes: tuple[SizeOverTime, ...]
    checks: tuple[CheckNow, ...]
    causes: tuple[CauseCounted, ...]
    minutes: tuple[MinutesCut, ...]
    undated: tuple[JobHistory, ...]
    several: tuple[SeveralReadings, ...]
    since: str = ""


def whole_history(jobs: Sequence[JobHistory], since: str = "") -> History:
    """What the jobs tell together; the same whatever their order. since: the first day that counts, "" for all."""
    ordered = sorted(jobs, key=lambda job: (number_key(job.number), job.file))
    counting = [job for job in ordered if not since or job.day >= since]
    runs = runs_of((point for job in ordered for point in job.points), since)
    several = sorted((one for job in ordered for one in job.several if (one.date or "") >= since), key=_cell_order)
    return History(
        jobs=len(ordered),
        runs=runs,
        trials=tuple(_trials(counting, runs)),
        fits=tuple(_fits(job_fit for job in ordered for job_fit in job.fits if (job_fit.date or "") >= since)),
        repeats=tuple(_repeats(several)),
        sizes=tuple(_sizes(known for job in ordered for known in job.sizes)),
        checks=tuple(_checks(check for job in counting for check in job.checks)),
        causes=tuple(_causes(counting)),
        minutes=tuple(_minutes(ordered, since)),
        undated=tuple(job for job in counting if job.undated is not None),
        several=tuple(several),
        since=since,
    )


def _cell_order(one: SeveralReadings) -> tuple[object, ...]:
    return one.shelf, one.instrument, one.kind, one.date or "", number_key(one.job), one.file, one.line, one.column


def _trials(jobs: Iterable[JobHistory], runs: Sequence[Run]) -> Iterator[TrialNeeded]:
    by_group = {run.group: run for run in runs}
    for job in jobs:
        for setting in job.settings:
            group: GroupKey = (setting.shelf, setting.cutter, setting.material, setting.tip_since)
            yield _trial(setting, by_group.get(group))


def _trial(setting: OpenSetting, run: Run | None) -> TrialNeeded:
    if run is None or run.chart is None:
        bores = 0 if run is None else len(run.counted)
        return TrialNeeded(setting, None, None, f"{bores} {'bore' if bores == 1 else 'bores'} with this tip")
    coming = run.next
    if coming is None:
        return TrialNeeded(setting, None, None, "its last bores are out of run")
    # The reading was made with the overcut in use: what the cutter really does moves the bores by the difference.
    middle = setting.aim + coming.middle - setting.overcut
    least, most = middle - coming.half, middle + coming.half
    if run.line is not None:
        return TrialNeeded(setting, least, most, "its tip wears")
    if least < setting.least:
        return TrialNeeded(setting, least, most, f"below the least of {setting.least_of}")
    if most > setting.most:
        return TrialNeeded(setting, least, most, f"above the most of {setting.most_of}")
    return TrialNeeded(setting, least, most)


def _fits(made: Iterable[FitMade]) -> Iterator[Fits]:
    groups: dict[tuple[str, str, str], list[float]] = {}
    for each in made:
        groups.setdefault((each.shelf, each.cutter, each.material), []).append(each.x)
    for key in sorted(groups):
        xs = groups[key]
        yield Fits(
            *key,
            len(xs),
            fmean(xs),
            stdev(xs) if len(xs) > 1 else None,
            performance(xs) if len(xs) >= FEWEST_FITS else None,
        )


def _repeats(several: Sequence[SeveralReadings]) -> Iterator[Repeatability]:
    groups: dict[tuple[str, str, str], list[SeveralReadings]] = {}
    for each in several:
        groups.setdefault((each.shelf, each.instrument, each.kind), []).append(each)
    for key in sorted(groups):
        cells = sorted(groups[key], key=lambda each: each.date or "")
        found = repeatability_of(each.readings for each in cells)
        if found is None:
            continue
        stated = cells[-1].stated
        judged = bool(stated) and found.degrees >= FEWEST_DEGREES
        yield Repeatability(tuple(cells), found, repeats_worse(found, stated or 0.0) if judged else None)


def _sizes(known: Iterable[KnownSize]) -> Iterator[SizeOverTime]:
    groups: dict[tuple[str, str, float], dict[str, KnownSize]] = {}
    for each in known:
        groups.setdefault((each.shelf, each.instrument, each.size), {})[each.since] = each
    for key in sorted(groups):
        days = sorted(groups[key])
        if len(days) < 2:
            continue
        first, last = groups[key][days[0]], groups[key][days[-1]]
        a_year = None
        if first.since:
            apart = (date.fromisoformat(last.since) - date.fromisoformat(first.since)).days
            a_year = (last.reads - first.reads) * _YEAR / apart
        drifts = last.step is not None and abs(last.reads - first.reads) > last.step * (1 + 1e-9)
        yield SizeOverTime(first, last, a_year, drifts)


def _checks(checks: Iterable[CheckOfInstrument]) -> Iterator[CheckNow]:
    groups: dict[tuple[str, str], list[CheckOfInstrument]] = {}
    for each in checks:
        groups.setdefault((each.shelf, each.instrument), []).append(each)
    for key in sorted(groups):
        by_day = sorted(groups[key], key=lambda each: (each.day, number_key(each.job)))
        yield CheckNow(by_day[-1], tuple(dict.fromkeys(each.job for each in by_day if each.overdue)))


def _causes(jobs: Iterable[JobHistory]) -> Iterator[CauseCounted]:
    counts: Counter[tuple[str, str]] = Counter()
    where: dict[tuple[str, str], dict[str, None]] = {}
    for job in jobs:
        for cause in job.causes:
            counts[cause.what, cause.slug] += 1
            where.setdefault((cause.what, cause.slug), {})[job.number] = None
    total, running = sum(counts.values()), 0
    for key in sorted(counts, key=lambda key: (-counts[key], key)):
        running += counts[key]
        yield CauseCounted(*key, counts[key], tuple(where[key]), running / total)


def _minutes(jobs: Iterable[JobHistory], since: str) -> Iterator[MinutesCut]:
    groups: dict[tuple[str, str], list[float]] = {}
    for job in jobs:
        for time in job.times:
            if time.month >= since[:7]:
                groups.setdefault((time.month, time.machine), []).append(time.minutes)
    for (month, machine), minutes in sorted(groups.items()):
        yield MinutesCut(month, machine, len(minutes), sum(minutes))
