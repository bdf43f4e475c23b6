"""The history as programs get it: JSON, and two tables for a spreadsheet.

`python -m seatwright.over_jobs.history.document > grammar/history.schema.json` renews its schema, which is made from
the records here.
"""

from __future__ import annotations

from collections.abc import Iterable
from statistics import fmean, stdev
from typing import Literal, get_args

from msgspec import UNSET, Struct, UnsetType, to_builtins

from seatwright.over_jobs.history.runs import NumberedBore, Run
from seatwright.over_jobs.history.whole import History, Repeatability, SizeOverTime, TrialNeeded
from seatwright.over_jobs.history.wording import lines_to_paste
from seatwright.over_jobs.spreadsheets import csv_rows
from seatwright.text.forms import schema_of
from seatwright.text.showing import for_programs
from seatwright.told.plan_json import rounded
from seatwright.version import VERSION

HistoryForm = Literal["seatwright-history/1"]

OVERCUT_COLUMNS = (
    "shelf", "cutter", "material", "tip_since", "number", "date", "job", "file", "line", "valve", "from", "read_mm",
    "bored_20_mm", "overcut_mm", "counted", "why_not",
)  # fmt: skip
READING_COLUMNS = (
    "instrument", "column", "date", "job", "file", "line", "valve", "readings", "mean_mm", "s_mm",
)  # fmt: skip


class BoreEntry(Struct, frozen=True, rename={"from_": "from"}):
    """A bore. from: `cut` or `trial`; bored: at 20 °C; why_not: where it does not count."""

    number: int
    date: str
    job: str
    file: str
    line: int
    from_: str
    read: float
    bored_20: float
    overcut: float
    counted: bool
    valve: str | UnsetType = UNSET
    why_not: str | UnsetType = UNSET


class ChartEntry(Struct, frozen=True):
    """The chart of single values. Of a tip that wears least and most are what lies off the line."""

    mean: float
    mean_range: float
    sigma: float
    least: float
    most: float
    most_range: float


class WearEntry(Struct, frozen=True):
    """The straight line of a tip that wears: at bore 0, and a bore."""

    at_0: float
    a_bore: float
    a_bore_error: float


class NextEntry(Struct, frozen=True):
    """Where 95 % of the next bores lie over their setting, 95 % sure; of a tip that wears, the next one."""

    least: float
    middle: float
    most: float


class RunEntry(Struct, frozen=True):
    """The bores of a cutter in a material with a tip. outside, one_side: numbers of the bores that break a rule. paste:
    lines for the shop file. Absent: too few bores, or not to be had."""

    shelf: str
    cutter: str
    material: str
    counted: int
    outside: list[int]
    one_side: list[int]
    paste: list[str]
    bores: list[BoreEntry]
    tip_since: str | UnsetType = UNSET
    chart: ChartEntry | UnsetType = UNSET
    wear: WearEntry | UnsetType = UNSET
    next: NextEntry | UnsetType = UNSET


class TrialEntry(Struct, frozen=True):
    """A setting that is still open: bores as the bore gauge shows them at the bench. why: the figure that says yes."""

    job: str
    file: str
    setting: str
    valves: list[str]
    aim: float
    accept_least: float
    accept_most: float
    needed: bool
    next_least: float | UnsetType = UNSET
    next_most: float | UnsetType = UNSET
    why: str | UnsetType = UNSET


class FitEntry(Struct, frozen=True):
    """How the fits are held: 0 is the middle of the limits, 1 an end."""

    shelf: str
    cutter: str
    material: str
    bores: int
    mean: float
    s: float | UnsetType = UNSET
    Ppk: float | UnsetType = UNSET
    Ppk_least: float | UnsetType = UNSET


class RepeatEntry(Struct, frozen=True):
    """How an instrument repeats on a kind of thing. stated: in the shop file; worse: absent where it is not judged."""

    instrument: str
    column: str
    cells: int
    degrees: int
    s: float
    stated: float | UnsetType = UNSET
    worse: bool | UnsetType = UNSET


class SizeEntry(Struct, frozen=True):
    """A master or ring over the years. since: absent where it has no date."""

    shelf: str
    instrument: str
    size: float
    first: float
    last: float
    last_since: str
    drifts: bool
    first_since: str | UnsetType = UNSET
    a_year: float | UnsetType = UNSET


class CheckEntry(Struct, frozen=True):
    """How the checks of an instrument stand on the day of the latest job with it. late: jobs done since it was due."""

    shelf: str
    instrument: str
    day: str
    overdue: bool
    late: list[str]
    checked: str | UnsetType = UNSET
    due: str | UnsetType = UNSET


class CauseEntry(Struct, frozen=True):
    """What cost time. what: hold, cut, finished. share: with all before it."""

    what: str
    slug: str
    count: int
    jobs: list[str]
    share: float


class MinutesEntry(Struct, frozen=True):
    """Planned minutes of what was cut in a month. month: absent without a date."""

    machine: str
    bores: int
    minutes: float
    month: str | UnsetType = UNSET


class HistoryDocument(Struct, frozen=True):
    """What all jobs of a folder tell together, lengths in mm. left_out: jobs with errors."""

    format: HistoryForm
    made_by: str
    jobs: int
    left_out: list[str]
    runs: list[RunEntry]
    trials: list[TrialEntry]
    fits: list[FitEntry]
    repeats: list[RepeatEntry]
    masters: list[SizeEntry]
    checks: list[CheckEntry]
    causes: list[CauseEntry]
    minutes: list[MinutesEntry]
    since: str | UnsetType = UNSET


def history_as_json(found: History, left_out: Iterable[str]) -> str:
    """The document."""
    document = HistoryDocument(
        format=get_args(HistoryForm)[0],
        made_by=f"seatwright {VERSION}",
        jobs=found.jobs,
        left_out=sorted(left_out),
        runs=[_run(run) for run in found.runs],
        trials=[_trial(each) for each in found.trials],
        fits=[
            FitEntry(
                each.shelf, each.cutter, each.material, each.bores, rounded(each.mean), _or_unset(each.s),
                _or_unset(None if each.made is None else each.made.Ppk),
                _or_unset(None if each.made is None else each.made.bound),
            )
            for each in found.fits
        ],
        repeats=[_repeat(each) for each in found.repeats],
        masters=[_size(each) for each in found.sizes],
        checks=[
            CheckEntry(
                each.now.shelf, each.now.instrument, each.now.day, each.now.overdue, list(each.late),
                each.now.checked or UNSET, each.now.due or UNSET,
            )
            for each in found.checks
        ],
        causes=[
            CauseEntry(each.what, each.slug, each.count, list(each.jobs), rounded(each.share)) for each in found.causes
        ],
        minutes=[
            MinutesEntry(each.machine, each.bores, rounded(each.minutes), each.month or UNSET) for each in found.minutes
        ],
        since=found.since or UNSET,
    )  # fmt: skip
    return for_programs(to_builtins(document))


def _run(run: Run) -> RunEntry:
    shelf, cutter, material, tip = run.group
    chart, line, coming = run.chart, run.line, run.next
    return RunEntry(
        shelf, cutter, material, len(run.counted), list(run.outside), list(run.one_side), list(lines_to_paste(run)),
        [_bore(bore) for bore in run.bores],
        tip or UNSET,
        UNSET if chart is None else ChartEntry(
            *map(rounded, (chart.mean, chart.mean_range, chart.sigma, chart.least, chart.most, chart.most_range))
        ),
        UNSET if line is None else WearEntry(*map(rounded, (line.at_0, line.slope, line.slope_error))),
        UNSET if coming is None else NextEntry(*map(rounded, (coming.least, coming.middle, coming.most))),
    )  # fmt: skip


def _bore(bore: NumberedBore) -> BoreEntry:
    point = bore.point
    return BoreEntry(
        bore.number, point.date or "", point.job, point.file, point.line, point.kind, rounded(point.read),
        rounded(point.bored), rounded(point.overcut), bore.counts, point.valve or UNSET, point.not_counted or UNSET,
    )  # fmt: skip


def _trial(each: TrialNeeded) -> TrialEntry:
    setting = each.setting
    return TrialEntry(
        setting.job, setting.file, setting.name, list(setting.valves), rounded(setting.aim), rounded(setting.least),
        rounded(setting.most), bool(each.why), _or_unset(each.least), _or_unset(each.most), each.why or UNSET,
    )  # fmt: skip


def _repeat(each: Repeatability) -> RepeatEntry:
    of = each.of
    worse = UNSET if each.worse is None else each.worse
    return RepeatEntry(
        of.instrument, of.kind, len(each.readings), each.found.degrees, rounded(each.found.s), _or_unset(of.stated),
        worse,
    )  # fmt: skip


def _size(each: SizeOverTime) -> SizeEntry:
    first, last = each.first, each.last
    return SizeEntry(
        last.shelf, last.instrument, rounded(last.size), rounded(first.reads), rounded(last.reads), last.since,
        each.drifts, first.since or UNSET, _or_unset(each.a_year),
    )  # fmt: skip


def _or_unset(value: float | None) -> float | UnsetType:
    return UNSET if value is None else rounded(value)


def overcuts_csv(found: History) -> str:
    """Every bore that is in a run, a row each."""
    rows = [_overcut_row(run, bore) for run in found.runs for bore in run.bores]
    return csv_rows([OVERCUT_COLUMNS, *rows])


def _overcut_row(run: Run, bore: NumberedBore) -> tuple[str | float | int | bool | None, ...]:
    point = bore.point
    return (
        *run.group, bore.number, point.date, point.job, point.file, point.line, point.valve, point.kind, point.read,
        point.bored, point.overcut, bore.counts, point.not_counted,
    )  # fmt: skip


def readings_csv(found: History) -> str:
    """Every cell with several readings, a row each."""
    rows = [
        (
            one.instrument, one.column, one.date, one.job, one.file, one.line, one.valve,
            " ".join(f"{rounded(each):.6f}".rstrip("0").rstrip(".") for each in one.readings), fmean(one.readings),
            stdev(one.readings),
        )
        for one in found.several
    ]  # fmt: skip
    return csv_rows([READING_COLUMNS, *rows])


def schema() -> str:
    """The JSON Schema of `history --as json`."""
    return schema_of(
        HistoryDocument, get_args(HistoryForm)[0], "What all jobs tell together: `seatwright history --as json`"
    )


if __name__ == "__main__":
    print(schema(), end="")
