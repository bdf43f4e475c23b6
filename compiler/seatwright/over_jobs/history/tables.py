"""The history in tables, as text, cards and Markdown show it: every cell in words, in the units of its shop file."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from seatwright.over_jobs.history.runs import NumberedBore, Run
from seatwright.over_jobs.history.whole import (
    FEWEST_FITS,
    CauseCounted,
    CheckNow,
    Fits,
    History,
    MinutesCut,
    Repeatability,
    SizeOverTime,
    TrialNeeded,
)
from seatwright.over_jobs.history.wording import (
    fine_length,
    in_unit,
    lines_to_paste,
    rounded_up,
    small_length,
    small_unit,
)

_CAUSES = {
    "hold": "on hold",
    "cut": "bored",
    "finished": "finished",
}
_VERDICTS = {
    "bore-again": "small, bored again",
    "big": "big",
    "measure-again": "measured again",
    "stop": "out of form or depth",
    "hold-by-hand": "by hand",
}


class NamedTable(Struct, frozen=True):
    """A table under a title. columns: each with how wide it is on a card; rows: their cells. below: sentences."""

    title: str
    columns: tuple[tuple[str, int], ...]
    rows: tuple[tuple[str, ...], ...]
    below: tuple[str, ...] = ()


def bores_table(run: Run, shown: Sequence[NumberedBore]) -> NamedTable:
    """The bores of a run, a row each: all that a point of its chart stands for."""
    units = run.last.units
    columns = (
        ("Bore", 11), ("Date", 26), ("Job", 18), ("Valve", 16), (f"Read {in_unit(units)}", 22),
        (f"Bored {in_unit(units)}, 20 °C", 28), (f"Over {small_unit(units)}", 20), ("Remark", 45),
    )  # fmt: skip
    return NamedTable("", columns, tuple(_bore_row(run, bore) for bore in shown))


def _bore_row(run: Run, bore: NumberedBore) -> tuple[str, ...]:
    point, places = bore.point, 3 if bore.point.units == "mm" else 4
    remarks = []
    if point.not_counted is not None:
        remarks.append(f"not counted: {point.not_counted}")
    if bore.number in run.outside:
        remarks.append("OUT of its limits")
    if bore.number in run.one_side:
        remarks.append("eight on one side")
    return (
        str(bore.number),
        point.date or "",
        point.job,
        point.valve or "trial",
        fine_length(point.read, point.units, places),
        fine_length(point.bored, point.units, places + 1),
        small_length(point.overcut, point.units),
        "; ".join(remarks),
    )


def cutter_tables(found: History) -> tuple[NamedTable, ...]:
    """What all runs together say of the work at the machine, what there is nothing for left out."""
    return _with_rows(_trials(found.trials), _pasted(found.runs), _fits(found.fits))


def instrument_tables(found: History) -> tuple[NamedTable, ...]:
    """Instruments, causes and time, likewise."""
    return _with_rows(
        _repeats(found.repeats), _sizes(found.sizes), _checks(found.checks), _causes(found.causes),
        _minutes(found.minutes),
    )  # fmt: skip


def _with_rows(*every: NamedTable) -> tuple[NamedTable, ...]:
    return tuple(table for table in every if table.rows)


def _trials(trials: Sequence[TrialNeeded]) -> NamedTable:
    columns = (
        ("Job", 14), ("Setting", 30), ("Valves", 16), ("Next bores", 48), ("Accepted", 42), ("Trial", 36),
    )  # fmt: skip
    return NamedTable("Settings still open: is a trial needed?", columns, tuple(_trial_row(each) for each in trials))


def _trial_row(each: TrialNeeded) -> tuple[str, ...]:
    setting, places = each.setting, 4 if each.setting.units == "mm" else 5

    def span(least: float | None, most: float | None, digits: int) -> str:
        if least is None or most is None:
            return "-"
        unit = in_unit(setting.units)
        return f"{fine_length(least, setting.units, digits)} to {fine_length(most, setting.units, digits)} {unit}"

    return (
        setting.job,
        setting.name,
        " ".join(setting.valves),
        span(each.least, each.most, places),
        span(setting.least, setting.most, places - 1),
        f"yes: {each.why}" if each.why else "not needed",
    )


def _pasted(runs: Sequence[Run]) -> NamedTable:
    rows = [
        (run.last.shelf, run.last.cutter, line, _stands(run, place))
        for run in runs
        if run.now
        for place, line in enumerate(lines_to_paste(run))
    ]
    columns = (("Shop file", 30), ("Cutter", 16), ("Line to paste under it", 100), ("Stands there", 40))
    return NamedTable("Lines for the shop file", columns, tuple(rows))


def _stands(run: Run, place: int) -> str:
    return (run.last.stated_spread if place else run.last.stated) or "-"


def _fits(fits: Sequence[Fits]) -> NamedTable:
    columns = (
        ("Cutter", 18), ("Material", 30), ("Bores", 16), ("Middle", 30), ("Scatter", 30), ("Ppk", 18),
        ("at least, 95 % sure", 44),
    )  # fmt: skip
    below = ("Middle and scatter in halves of the limits of the fit: 0 is the aim, 1 is a limit.",)
    return NamedTable("How the fits are held", columns, tuple(_fit_row(each) for each in fits), below)


def _fit_row(each: Fits) -> tuple[str, ...]:
    made = each.made
    return (
        each.cutter,
        each.material,
        str(each.bores),
        f"{each.mean:+.2f}".replace("-0.00", "+0.00"),
        "-" if each.s is None else f"{each.s:.2f}",
        f"from {FEWEST_FITS}" if made is None else f"{made.Ppk:.2f}",
        "-" if made is None else f"{made.bound:.2f}",
    )


def _repeats(repeats: Sequence[Repeatability]) -> NamedTable:
    columns = (
        ("Instrument", 40), ("On", 22), ("Cells", 16), ("Degrees", 20), ("Repeats to", 26), ("The shop says", 30),
        ("Verdict", 32),
    )  # fmt: skip
    return NamedTable("How instruments repeat", columns, tuple(_repeat_row(each) for each in repeats))


def _repeat_row(each: Repeatability) -> tuple[str, ...]:
    of = each.of
    verdict = "WORSE than that" if each.worse else "as it says" if each.worse is not None else "not judged"
    return (
        of.instrument or "-",
        of.kind,
        str(len(each.readings)),
        str(each.found.degrees),
        f"{rounded_up(each.found.s, of.units)} {in_unit(of.units)}" if each.found.s > 0 else "0",
        of.stated_typed or "-",
        verdict,
    )


def _sizes(sizes: Sequence[SizeOverTime]) -> NamedTable:
    columns = (
        ("Instrument", 40), ("Size", 22), ("First read", 36), ("Last read", 36), ("A year", 26), ("Verdict", 26),
    )  # fmt: skip
    return NamedTable("Masters and rings over the years", columns, tuple(_size_row(each) for each in sizes))


def _size_row(each: SizeOverTime) -> tuple[str, ...]:
    first, last = each.first, each.last
    a_year = "-"
    if each.a_year is not None:
        a_year = f"{small_length(each.a_year, last.units)} {small_unit(last.units)}"
    return (
        last.instrument,
        fine_length(last.size, last.units, 3 if last.units == "mm" else 4),
        f"{first.reads_typed}, {first.since or 'no date'}",
        f"{last.reads_typed}, {last.since}",
        a_year,
        "MOVED" if each.drifts else "within a step",
    )


def _checks(checks: Sequence[CheckNow]) -> NamedTable:
    columns = (("Instrument", 44), ("Last check", 28), ("Due", 28), ("Jobs since it was due", 86))
    return NamedTable("Checks of instruments", columns, tuple(_check_row(each) for each in checks))


def _check_row(each: CheckNow) -> tuple[str, ...]:
    now = each.now
    return now.instrument, now.checked or "-", now.due or "-", " ".join(each.late) or "none"


def _causes(causes: Sequence[CauseCounted]) -> NamedTable:
    columns = (("Stage", 26), ("What", 48), ("How often", 22), ("Share so far", 24), ("Jobs", 66))
    return NamedTable("What cost time", columns, tuple(_cause_row(each) for each in causes))


def _cause_row(each: CauseCounted) -> tuple[str, ...]:
    what = _VERDICTS.get(each.slug, each.slug)
    if each.what == "finished":
        what = f"{each.slug} failed"
    return _CAUSES[each.what], what, str(each.count), f"{each.share:.0%}".replace("%", " %"), " ".join(each.jobs)


def _minutes(minutes: Sequence[MinutesCut]) -> NamedTable:
    columns = (("Month", 30), ("Machine", 70), ("Bores", 30), ("Planned minutes", 56))
    return NamedTable("Planned minutes of what was cut", columns, tuple(_minute_row(each) for each in minutes))


def _minute_row(each: MinutesCut) -> tuple[str, ...]:
    return each.month or "no date", each.machine or "-", str(each.bores), f"{each.minutes:.1f}"


def plain_lines(table: NamedTable) -> Iterator[str]:
    """A table as lines of a terminal."""
    rows = [tuple(name.lower() for name, _ in table.columns), *table.rows]
    widths = [max(len(row[place]) for row in rows) for place in range(len(table.columns))]
    for row in rows:
        yield "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
    yield from table.below
