"""Where each valve stands and what is to be done with it next: for the job sheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from seatwright.cards.parts import figures
from seatwright.cards.parts.figures import Shown, limits, shown
from seatwright.cards.parts.words import span
from seatwright.job.model import Job
from seatwright.planning.basis import instruments
from seatwright.planning.plan import IfBig, Plan, Setting, Status, ValvePlan

_FINE = 5  # decimals, of a figure whose zeros are dropped
SAID_HERE = frozenset({"bore-small", "bore-big", "bore-cannot-be-told", "turn-insert"})
"""Messages whose figures and whose advice these are."""


def nexts(plan: Plan) -> Iterator[tuple[str, str]]:
    """What is to be done with each valve that its card alone does not say: what was cut and is not settled."""
    by_number = {setting.number: setting for setting in plan.settings}
    awaited = takers(plan.valves)
    for valve in plan.valves:
        setting = by_number.get(valve.setting) if valve.setting is not None else None
        why = wait(awaited, valve)
        said = f"WAIT: {why}" if why else _next(plan, valve, setting)
        if said:
            yield valve.name, said


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
    return f"{' or '.join(names)} may take its insert. Settle that first, and build again."


def _next(plan: Plan, valve: ValvePlan, setting: Setting | None) -> str:
    job = plan.job
    match valve.status:
        case Status.GUIDE_FIRST if valve.guide_to_renew:
            name = f": {valve.guide.name}" if valve.guide.name is not None else ""
            what = "liner" if valve.guide.action == "line" else "new guide"
            return f"A {what} first{name}. Size it, measure it and the pocket from it, and build again."
        case Status.GUIDE_FIRST:
            return "Measure its new guide, and build again."
        case Status.BORE_AGAIN:
            return _open(plan, valve, setting)
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
    return ""


def _open(plan: Plan, valve: ValvePlan, setting: Setting | None) -> str:
    job = plan.job
    cut = valve.cut
    if cut is None or cut.open_by is None:
        return "Bore it again: see its card."
    gauge = instruments.bore_gauge(job)
    by = shown(cut.open_by, gauge)
    given = job.gauge.indicator if job.gauge is not None else None
    needle = setting.indicator if setting is not None else given.text if given is not None else None
    # Half of a whole step may lie between two of them: it is set on another dial.
    half = shown(cut.open_by.value / 2, instruments.Instrument(gauge.unit, gauge.step / 2 if gauge.step else None))
    radius = "" if needle == "diameter" else f", {figures.plain_number(float(half.text), _FINE)} on radius"
    said = f"Small: open by {by} on diameter{radius}"
    if setting is not None:
        # One reading only: that of its card, which counts on all that the trial cuts told.
        return f"{said}, by {setting.name}."
    if cut.new_reading is not None:
        return f"{said}: setting gauge to {_reading(job, cut.new_reading.value)}."
    return f"{said}."


def _reading(job: Job, value: float) -> Shown:
    gauge = job.gauge
    if gauge is None:
        return shown(value, figures.bench(job))
    step = gauge.step.value if gauge.step is not None else None
    return shown(value, instruments.Instrument("in" if gauge.marked == "inch" else "mm", step))


def _big(job: Job, valve: ValvePlan) -> str:
    steps = [_way(job, way) for way in valve.if_big]
    numbered = " ".join(f"({place}) {step}" for place, step in enumerate(steps, start=1))
    return f"Big, in this order: {numbered}"


def _way(job: Job, way: IfBig) -> str:
    unit = figures.bench(job)
    gives = f", which gives {shown(way.interference, unit)}" if way.interference is not None else ""
    size = f" of {shown(way.od, unit)}" if way.od is not None else ""
    match way.do:
        case "measure-again":
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
        return f"Fails: {', '.join(failed)}. See below."
    if valve.finished is not None:
        return "Measure what is still missing: see its cards."
    insert = valve.insert
    if valve.turned and insert is not None and valve.at20.insert_od is None:
        if insert.od_least is not None and insert.od_most is not None:
            pair = limits(insert.od_least, insert.od_most, figures.bench(job))
            return f"Turn its ring to {span(pair)} {pair[0].unit} at 20 °C, measure it, build again."
        return "Turn its ring, measure it, build again."
    return ""
