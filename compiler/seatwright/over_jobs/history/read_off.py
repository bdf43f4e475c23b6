"""From a plan to the rows that the history is made of."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from msgspec import Struct

from seatwright.job.model import (
    BoreGauge,
    CutReadings,
    Cutter,
    Finished,
    Gauge,
    Head,
    Job,
    Master,
    Measured,
    Reading,
)
from seatwright.over_jobs.history.rows import (
    BorePoint,
    Cause,
    CheckOfInstrument,
    CutTime,
    FitMade,
    JobHistory,
    KnownSize,
    OpenSetting,
    SeveralReadings,
)
from seatwright.planning.basis.check_dates import check_state
from seatwright.planning.basis.verdicts import ACCEPTED, BIG, REWORK
from seatwright.planning.basis.wording import name_key
from seatwright.planning.machine.speeds import minutes_to_bore
from seatwright.planning.plan import CutPlan, Plan, Setting, ValvePlan
from seatwright.planning.plan.figure import Figure
from seatwright.text import Span

_LAST_DAY = "9999-12-31"
_PLACES = ("-a", "-b", "-c", "-d", "-top", "-middle", "-bottom", "-low")


class _Job(Struct):
    """A plan, and how its files and places are seen from the folder and from where the command runs."""

    plan: Plan
    file: str
    shelves: Mapping[str, str]
    seen: Callable[[Span], Span]

    @property
    def job(self) -> Job:
        return self.plan.job

    def cutter(self, name: str) -> Cutter | None:
        """The cutter that a job calls so."""
        key = name_key(name)
        return next((one for one in self.job.shop.cutters if name_key(one.name.text) == key), None)

    def shelf(self, span: Span) -> str:
        """The shop file that a place is in."""
        return self.shelves.get(span.file, span.file)

    def head(self, number: int) -> Head:
        """A head by its number."""
        return next(head for head in self.plan.heads if head.number == number)


def history_of(plan: Plan, file: str, shelves: Mapping[str, str], seen: Callable[[Span], Span]) -> JobHistory:
    """All that a job tells.

    file : the job, as seen from the folder
    shelves : each shop file as the job names it, and as it is seen from the folder
    seen : a place in a file as it is seen from where the command runs
    """
    of = _Job(plan, file, shelves, seen)
    points = tuple(_points(of))
    undated = next((point.span for point in points if point.date is None), None)
    return JobHistory(
        number=plan.job.number,
        file=file,
        day=plan.job.day or "",
        points=points,
        several=tuple(_several(of)),
        fits=tuple(_fits(of)),
        sizes=tuple(_sizes(of)),
        checks=tuple(_checks(of)),
        causes=tuple(_causes(of)),
        times=tuple(_times(of)),
        settings=tuple(_open_settings(of)),
        undated=undated,
    )


def _points(of: _Job) -> Iterator[BorePoint]:
    for made, trial in zip(of.plan.trials, (each for head in of.plan.heads for each in head.trials), strict=True):
        yield from _point(
            of, of.head(made.head), made.cutter, made.read, made.bored, made.overcut, trial.read, "", None
        )
    for valve in of.plan.valves:
        for made_cut, readings in _cuts(valve):
            cutter = made_cut.cutter or (valve.cut.cutter if valve.cut is not None else None)
            read = readings.read
            if cutter is None or read is None or read.date != readings.date or made_cut.bore is None:
                continue  # a row without a reading of its own says no more than the bore was measured again
            yield from _point(
                of, of.head(valve.head), cutter, made_cut.read, made_cut.bore, made_cut.overcut, read, valve.name,
                made_cut.not_counted,
            )  # fmt: skip


def _cuts(valve: ValvePlan) -> Iterator[tuple[CutPlan, CutReadings]]:
    """Every cut of a valve, the replaced ones too, as planned with and as read, the latest first."""
    if valve.cut is None or valve.valve.cut is None:
        return
    yield valve.cut, valve.valve.cut
    yield from zip(valve.cut.earlier, valve.valve.cut.earlier, strict=True)


def _point(
    of: _Job,
    head: Head,
    name: str,
    read: Figure | None,
    bored: Figure,
    overcut: Figure | None,
    typed: Reading,
    valve: str,
    not_counted: str | None,
) -> Iterator[BorePoint]:
    cutter = of.cutter(name)
    if cutter is None or overcut is None or read is None or head.material is None:
        return
    gauges = (of.job.gauge, of.job.bore_gauge)
    stated, spread = cutter.overcut(head.material.name), cutter.overcut_spread(head.material.name)
    yield BorePoint(
        shelf=of.shelf(cutter.name.span),
        cutter=cutter.name.text,
        material=head.material.name,
        tip_since=(cutter.tip_since(typed.date) if typed.date else None) or "",
        tip_now=cutter.tip_since(_LAST_DAY) or "",
        units=cutter.units,
        date=typed.date,
        job=of.job.number,
        file=of.file,
        line=typed.span.line,
        valve=valve,
        read=read.value,
        bored=bored.value,
        overcut=overcut.value,
        steps=tuple(gauge.step.value for gauge in gauges if gauge is not None and gauge.step is not None),
        span=of.seen(typed.span),
        not_counted=not_counted,
        stated="" if stated is None else stated.typed,
        stated_spread="" if spread is None else spread.typed,
    )


def _several(of: _Job) -> Iterator[SeveralReadings]:
    """Every cell with several readings: of `trial`, `measured`, `cut` and `finished`, the replaced ones too."""
    for head in of.plan.heads:
        for trial in head.trials:
            yield from _cell(of, "", "read", trial.read)
            yield from _cell(of, "", "bored", trial.bored)
    for valve in of.plan.valves:
        tables: list[Measured | CutReadings | Finished] = [valve.found]
        tables += [renewed.found for renewed in valve.valve.replaced]
        tables += [readings for _, readings in _cuts(valve)]
        tables += [valve.valve.finished, *valve.valve.finished.earlier] if valve.valve.finished is not None else []
        seen: set[Span] = set()
        for table in tables:
            for attribute in type(table).__struct_fields__:
                value = getattr(table, attribute)
                for reading in (value, *value.earlier) if isinstance(value, Reading) else ():
                    if reading.span not in seen:
                        seen.add(reading.span)
                        yield from _cell(of, valve.name, attribute.replace("_", "-"), reading)


def _cell(of: _Job, valve: str, column: str, reading: Reading) -> Iterator[SeveralReadings]:
    if len(reading.each) < 2:
        return
    kind = column
    for place in _PLACES:
        kind = kind.removesuffix(place)
    kind = {"bored": "bore"}.get(kind.removesuffix("-low"), kind.removesuffix("-low"))
    gauge = of.job.gauge if kind == "read" else of.job.bore_gauge if kind in ("bore", "pocket") else None
    stated = gauge.repeatability if gauge is not None else None
    yield SeveralReadings(
        shelf=of.shelf(gauge.name.span) if gauge is not None else "",
        instrument=gauge.name.text if gauge is not None else "",
        column=column,
        kind=kind,
        units=gauge.marked if gauge is not None else of.job.units,
        date=reading.date,
        job=of.job.number,
        file=of.file,
        line=reading.span.line,
        valve=valve,
        readings=reading.each,
        span=of.seen(reading.span),
        stated=stated.value if stated is not None else None,
        stated_typed=stated.typed if stated is not None else "",
    )


def _fits(of: _Job) -> Iterator[FitMade]:
    """Of every bore that is done with, good or bad: not of one that is small and goes under the cutter again."""
    for valve in of.plan.valves:
        cut, wanted = valve.cut, valve.interference
        cutter = of.cutter(cut.cutter) if cut is not None and cut.cutter is not None else None
        material = of.head(valve.head).material
        if cut is None or cut.interference is None or wanted is None or cutter is None or material is None:
            continue
        half = (wanted.most.value - wanted.least.value) / 2
        if cut.bore_verdict in (None, REWORK) or cut.not_counted is not None or half <= 0:
            continue
        x = (cut.interference.value - (wanted.least.value + wanted.most.value) / 2) / half
        yield FitMade(
            of.shelf(cutter.name.span), cutter.name.text, material.name, of.job.number, of.file, valve.name, x, cut.date
        )


def _sizes(of: _Job) -> Iterator[KnownSize]:
    for gauge in of.job.shop.gauges:
        yield from (_size(of, gauge, known) for known in gauge.masters)
    for bore_gauge in of.job.shop.bore_gauges:
        yield from (_size(of, bore_gauge, known) for known in bore_gauge.rings)


def _size(of: _Job, gauge: Gauge | BoreGauge, known: Master) -> KnownSize:
    return KnownSize(
        shelf=of.shelf(gauge.name.span),
        instrument=gauge.name.text,
        units=gauge.marked,
        size=known.size.value,
        since=known.since or "",
        reads=known.reads.value,
        reads_typed=known.reads.typed,
        step=gauge.step.value if gauge.step is not None else None,
        span=of.seen(known.reads.span),
    )


def _checks(of: _Job) -> Iterator[CheckOfInstrument]:
    for gauge in (of.job.gauge, of.job.bore_gauge):
        if gauge is None or gauge.check_every is None or of.job.day is None:
            continue
        state = check_state(gauge, of.job.day)
        yield CheckOfInstrument(
            of.shelf(gauge.name.span),
            gauge.name.text,
            of.job.day,
            of.job.number,
            state.checked if state is not None else "",
            state.due if state is not None else "",
            state is not None and state.overdue,
        )


def _causes(of: _Job) -> Iterator[Cause]:
    for valve in of.plan.valves:
        for hold in valve.holds:
            yield Cause("hold", hold.slug, valve.name)
        for place, (made, _) in enumerate(_cuts(valve)):
            verdict = made.verdict if not place else _verdict_of_earlier(valve, made)
            if verdict is not None and verdict != ACCEPTED:
                yield Cause("cut", str(verdict), valve.name)
        if valve.finished is not None:
            for name, verdict in valve.finished.verdicts:
                if verdict == "fail":
                    yield Cause("finished", name.replace("_", "-"), valve.name)
            limit = valve.seat.leak_limit_s if valve.seat is not None else None
            for before in valve.finished.earlier:
                short = limit is not None and before.leak_s is not None and before.leak_s.value < limit.value
                if before.leak == "fail" or short:
                    yield Cause("finished", "leak", valve.name)
                if before.pressure_test == "fail":
                    yield Cause("finished", "pressure-test", valve.name)


def _verdict_of_earlier(valve: ValvePlan, made: CutPlan) -> str | None:
    """What came of a bore that was cut again: by the limits as they stand now."""
    if made.bore is None or valve.bore is None:
        return None
    if made.bore.value < valve.bore.least.value:
        return REWORK
    return BIG if made.bore.value > valve.bore.most.value else ACCEPTED


def _times(of: _Job) -> Iterator[CutTime]:
    machine = of.job.machine.name.text if of.job.machine is not None else ""
    for valve in of.plan.valves:
        for made, _ in _cuts(valve):
            cutter = of.cutter(made.cutter) if made.cutter is not None else None
            if cutter is None or made.bore is None:
                continue
            minutes = minutes_to_bore(of.job, of.head(valve.head), valve, cutter, made.bore)
            if minutes is not None:
                yield CutTime(machine, (made.date or "")[:7], minutes.value)


def _open_settings(of: _Job) -> Iterator[OpenSetting]:
    valves = {valve.name: valve for valve in of.plan.valves}
    for setting in of.plan.settings:
        cutter, material = of.cutter(setting.cutter), of.head(setting.head).material
        if setting.overcut is None or cutter is None or material is None:
            continue
        least, most = _accepted(setting, valves)
        if least is None or most is None:
            continue
        yield OpenSetting(
            shelf=of.shelf(cutter.name.span),
            cutter=cutter.name.text,
            material=material.name,
            tip_since=cutter.tip_since(_LAST_DAY) or "",
            units=cutter.units,
            name=setting.name,
            job=of.job.number,
            file=of.file,
            aim=(setting.bench_aim or setting.aim).value,
            overcut=setting.overcut.value.value,
            least=least[0],
            most=most[0],
            least_of=least[1],
            most_of=most[1],
            valves=setting.valves,
        )


def _accepted(
    setting: Setting, valves: Mapping[str, ValvePlan]
) -> tuple[tuple[float, str] | None, tuple[float, str] | None]:
    """The tightest limits of all bores of a setting, and whose they are; accepted limits, where they could be drawn."""
    bores = [(name, bore) for name in setting.valves if (bore := valves[name].bore) is not None]
    least = [((bore.accept_least or bore.bench_least).value, name) for name, bore in bores]
    most = [((bore.accept_most or bore.bench_most).value, name) for name, bore in bores]
    return max(least, default=None, key=lambda each: each[0]), min(most, default=None, key=lambda each: each[0])
