"""Where each valve stands and what is to be done with it next: for the job sheet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from seatwright.cards import figures
from seatwright.cards.card import Table
from seatwright.cards.figures import Shown, limits, shown
from seatwright.cards.words import NONE, STATUS, bold, span
from seatwright.job.model import Job
from seatwright.planning.plan import IfBig, Setting, Status, ValvePlan

_FINE = 5  # decimals, of a figure whose zeros are dropped
SAID_HERE = frozenset({"bore-small", "bore-big", "bore-cannot-be-told", "turn-insert"})
"""Messages whose figures and whose advice stand in this table."""


def standing(job: Job, valves: Sequence[ValvePlan], settings: Sequence[Setting]) -> Table | None:
    """Every valve with where it stands and what comes next; None while all are still to bore, as their cards say."""
    if all(valve.cut is None and valve.finished is None for valve in valves):
        return None
    by_number = {setting.number: setting for setting in settings}
    awaited = takers(valves)
    rows = []
    for valve in valves:
        setting = by_number.get(valve.setting) if valve.setting is not None else None
        then = wait(awaited, valve) or _next(job, valve, setting)
        rows.append((bold(valve.name), bold(STATUS[valve.status]), _bored(job, valve), then))
    head = ("Valve", "Stands", f"Bored {figures.bench(job).unit} at 20 °C", "Next")
    return Table(head, tuple(rows), "Where it stands")


def takers(valves: Sequence[ValvePlan]) -> Mapping[str, Sequence[str]]:
    """Whose insert may serve another bore, that came out big: which others may take it, by its valve."""
    found: dict[str, list[str]] = {}
    for other in valves:
        if other.cut is not None and other.cut.verdict == "big":
            for name in dict.fromkeys(way.valve for way in other.if_big if way.do == "insert" and way.valve):
                found.setdefault(name, []).append(other.name)
    return found


def wait(takers_of: Mapping[str, Sequence[str]], valve: ValvePlan) -> str:
    """Why a valve is not to be gone on with: its insert may be taken; "" else. takers_of: see `takers`."""
    names = takers_of.get(valve.name)
    if not names or valve.status in (Status.HOLD, Status.FINISHED):
        return ""
    return f"WAIT: {' or '.join(names)} may take its insert. Settle that first, and build again."


def _bored(job: Job, valve: ValvePlan) -> str:
    cut = valve.cut
    return shown(cut.bore, figures.judged(job)).text if cut is not None and cut.bore is not None else NONE


def _next(job: Job, valve: ValvePlan, setting: Setting | None) -> str:
    match valve.status:
        case Status.HOLD:
            return "Nothing, until the hold is lifted: see its box above."
        case Status.TO_BORE:
            return f"Bore it by setting {setting.number}." if setting is not None else "Bore it."
        case Status.KEPT:
            return "Its pocket stays as it is. Press card."
        case Status.TO_CUT:
            return "Its insert stays. Seat card."
        case Status.BORE_AGAIN:
            return _open(job, valve, setting)
        case Status.MEASURE_AGAIN | Status.OVERSIZE if valve.cut is not None and valve.cut.verdict == "big":
            return _big(job, valve)
        case Status.MEASURE_AGAIN if valve.cut is None:
            return "Its pocket as found, cold and clean, the gauge checked on its ring; write it behind a slash."
        case Status.MEASURE_AGAIN:
            return "Cold and clean, the gauge checked on its ring; write it under a later cut. Take no metal off."
        case Status.OVERSIZE:
            return "Build again for the next size before anything is cut."
        case Status.ACCEPTED:
            return _accepted(job, valve)
        case Status.FINISHED:
            return "Nothing: it is on the record."
    return NONE


def _open(job: Job, valve: ValvePlan, setting: Setting | None) -> str:
    cut = valve.cut
    if cut is None or cut.open_by is None:
        return "Bore it again: see its card."
    gauge = figures.bore_gauge(job)
    by = shown(cut.open_by, gauge)
    given = job.gauge.indicator if job.gauge is not None else None
    needle = setting.indicator if setting is not None else given.text if given is not None else None
    # Half of a whole step may lie between two of them: it is set on another dial.
    half = shown(cut.open_by.value / 2, figures.Instrument(gauge.unit, gauge.step / 2 if gauge.step else None))
    radius = "" if needle == "diameter" else f", {figures.plain(float(half.text), _FINE)} on radius"
    said = f"Small: open by {by} on diameter{radius}"
    if setting is not None:
        # One reading only: that of its card, which counts on all that the trial cuts told.
        return f"{said}, by setting {setting.number}."
    if cut.new_reading is not None:
        return f"{said}: setting gauge to {_reading(job, cut.new_reading.value)}."
    return f"{said}."


def _reading(job: Job, value: float) -> Shown:
    gauge = job.gauge
    if gauge is None:
        return shown(value, figures.bench(job))
    step = gauge.step.value if gauge.step is not None else None
    return shown(value, figures.Instrument("in" if gauge.marked == "inch" else "mm", step))


def _big(job: Job, valve: ValvePlan) -> str:
    steps = [_way(job, way) for way in valve.if_big]
    numbered = " ".join(f"({place}) {step}" for place, step in enumerate(steps, start=1))
    return f"Big, in this order: {numbered}"


def _way(job: Job, way: IfBig) -> str:
    unit = figures.bench(job)
    gives = f", which gives {shown(way.interference, unit)}" if way.interference is not None else ""
    size = f" of {shown(way.od, unit)}" if way.od is not None else ""
    match way.do:
        case Status.MEASURE_AGAIN:
            return "measure again, cold and clean;"
        case "insert":
            whose = f"the {way.insert} of {way.valve}" if way.valve else f"{way.insert} from the shelf"
            return f"take {whose}{size}{gives};"
        case "turned":
            return f"a ring turned to about {shown(way.od, unit)} at 20 °C;" if way.od is not None else "a turned ring;"
        case Status.OVERSIZE:
            return f"oversize {way.insert}: build again for its bore;" if way.insert else "the next oversize;"
    return "else leave it and ask."


def _accepted(job: Job, valve: ValvePlan) -> str:
    if valve.finished is not None and valve.finished.verdict == "fail":
        failed = [name.replace("_", " ") for name, verdict in valve.finished.verdicts if verdict == "fail"]
        return f"Finished, and fails: {', '.join(failed)}. See the warnings."
    if valve.finished is not None:
        return "Measure what is still missing: see its cards."
    insert = valve.insert
    if valve.turned and insert is not None and valve.at20.insert_od is None:
        if insert.od_least is not None and insert.od_most is not None:
            pair = limits(insert.od_least, insert.od_most, figures.bench(job))
            return f"Turn its ring to {span(pair)} {pair[0].unit} at 20 °C, measure it, build again."
        return "Turn its ring, measure it, build again."
    return "Press card."
