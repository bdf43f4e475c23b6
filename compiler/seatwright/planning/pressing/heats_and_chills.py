"""Every pair of heat and chill that the shop has, and the clearance it gives an insert (handbook 10)."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from seatwright.handbook import assembly as sums
from seatwright.handbook import thermal
from seatwright.job.model import Head, Job, Material
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.temperatures import mean_expansion, room
from seatwright.planning.basis.wording import degrees
from seatwright.planning.certainty.as_made import MadePair
from seatwright.planning.plan import HeatAndChill, Judged
from seatwright.planning.plan.figure import Figure, assumed, computed, given

NO_CHILL = "none"
"""The name of a chill that is none: the insert lies at the bench."""

_SOURCE = "handbook 10, mean expansion from 20 °C"


class Cold(Struct, frozen=True):
    """An insert on its way in. taken: what it comes out of the chill at; arrives: what it is in the bore."""

    name: str
    taken: Figure
    arrives: Figure


class Way(Struct, frozen=True):
    """One pair for one insert. bore_hot: the tightest bore, hot. od_cold: the largest insert, as it arrives."""

    pair: HeatAndChill
    cold: Cold
    bore_hot: Figure
    od_cold: Figure


def heats(job: Job, head: Head, findings: Findings) -> tuple[Figure, ...]:
    """What the head may be at when the insert goes in, coolest first: as it lies, and out of the oven.

    An oven hotter than `heat-limit` is set to the limit.
    """
    lies_at = room_temperature(job, head)
    oven = job.shop.assembly.oven
    if oven is None:
        return (lies_at,)
    limit = head.heat_limit
    hot = given("T_head", "C", oven)
    if limit is None:
        findings.unchecked(
            "heat-limit-not-given",
            f"`heat-limit` is not given: whether this head bears the oven's {degrees(job, oven.value)} "
            "was not checked.",
            "Ask the engine maker how hot the head may be taken, and write `heat-limit 180 C` under `head`.",
            head.span,
            tuple(valve.name for valve in head.valves),
        )
    elif hot.value > limit.value:
        findings.notice(
            "oven-over-heat-limit",
            f"The oven reaches {degrees(job, oven.value)}; this head may be taken to {degrees(job, limit.value)}.",
            f"Set the oven to {degrees(job, limit.value)} for this head.",
            limit.span,
            tuple(valve.name for valve in head.valves),
        )
        hot = given("T_head", "C", limit)
    return (lies_at, hot) if hot.value > lies_at.value else (lies_at,)


def room_temperature(job: Job, head: Head) -> Figure:
    """What head and insert lie at: the head's temperature, else that of the gauge that was given, else 20 °C."""
    typed = room(job, head)
    if typed is not None:
        return given("T_room", "C", typed)
    return assumed("T_room", "C", thermal.REFERENCE, "no temperature given: sizes count as those of 20 °C")


def chills(job: Job, lies_at: Figure, findings: Findings) -> tuple[Cold, ...]:
    """The ways to have the insert, warmest first: as it lies, and out of each chill."""
    found = []
    for chill in job.shop.assembly.chills:
        taken = given("T_chill", "C", chill.temperature)
        if chill.arrives is None:
            findings.notice(
                "arrives-not-given",
                f"What an insert out of {chill.name} arrives at in the bore is not given: it is counted as cold as the "
                f"{chill.name} itself, {degrees(job, taken.value)}, which it never is.",
                f'Measure it once and write `chill "{chill.name}" {chill.temperature.typed} arrives -40 C`.',
                chill.span,
            )
        arrives = taken if chill.arrives is None else given("T_arrives", "C", chill.arrives)
        found.append(Cold(chill.name, taken, arrives.called("T_insert")))
    as_it_lies = Cold(NO_CHILL, lies_at, lies_at)
    return (as_it_lies, *sorted(found, key=lambda cold: (-cold.arrives.value, cold.name)))


def ways(
    job: Job, plan: Judged, made: MadePair, metal: Material, alloy: Material, hot: Sequence[Figure],
    cold: Sequence[Cold], slip: Figure, findings: Findings,
) -> tuple[Way, ...]:  # fmt: skip
    """Every pair that can be computed for this insert: least bore, largest insert; the coolest head first."""

    def bore_at(heat: Figure) -> _Grown | None:
        return _grown(job, plan, made.bore_least, "bore_hot", metal, "head", heat, findings)

    # What is not known is said in this order: of the head as it lies, of the insert, of the hotter head.
    as_it_lies = bore_at(hot[0])
    ods = [_grown(job, plan, made.od_most, "od_cold", alloy, "insert", each.arrives, findings) for each in cold]
    bores = (as_it_lies, *map(bore_at, hot[1:]))
    return tuple(
        _way(bore, od, chill, slip)
        for bore in bores
        if bore is not None
        for chill, od in zip(cold, ods, strict=True)
        if od is not None
    )


def key_of(way: Way) -> tuple[float, str]:
    """The heat and the chill of a pair, by which those of several parts are one."""
    return way.pair.heat_C.value, way.pair.chill


def best_for_all(each: Sequence[Sequence[Way]], slip: float) -> tuple[float, str] | None:
    """The heat and chill for all these parts, by the one that is tightest in each pair; None where no pair is known for
    every one."""
    tightest, common = [], []
    for way in each[0]:
        at = [next((other for other in ways_ if key_of(other) == key_of(way)), None) for ways_ in each]
        known = [one for one in at if one is not None]
        if len(known) == len(each):
            common.append(key_of(way))
            clearance = min(one.pair.clearance.value for one in known)
            tightest.append(sums.HeatChillPair(way.pair.heat_C.value, way.cold.arrives.value, clearance))
    best = sums.best_way(tightest, slip)
    return None if best is None else common[best]


class _Grown(Struct, frozen=True):
    """A part at its temperature. at20: its size there. inputs: of its growth; at 20 °C nothing has grown, whatever the
    expansion, which is then no input. rise: over 20 °C."""

    at20: Figure
    expansion: Figure
    at: Figure
    rise: float
    inputs: tuple[Figure, ...]
    size: Figure


def _grown(
    job: Job, plan: Judged, at20: Figure, symbol: str, material: Material, part: str, at: Figure, findings: Findings
) -> _Grown | None:
    expansion = _expansion(job, plan, material, part, at, findings)
    if expansion is None:
        return None
    rise = at.value - thermal.REFERENCE
    inputs = (at20, expansion) if rise else (at20,)
    formula = f"{at20.symbol}*(1 + {expansion.symbol}*({at.symbol} - 20))" if rise else at20.symbol
    value = thermal.at_bench(at20.value, 0.0, thermal.REFERENCE, expansion.value, at.value)
    size = computed(symbol, "mm", value, formula, (*inputs, at), _SOURCE)
    return _Grown(at20, expansion, at, rise, inputs, size)


def _way(bore: _Grown, od: _Grown, cold: Cold, slip: Figure) -> Way:
    temperatures = (bore.at,) if od.at is bore.at else (bore.at, od.at)
    value = sums.assembly_clearance(
        bore.at20.value, od.at20.value, bore.expansion.value, bore.rise, od.expansion.value, od.rise
    )
    formula = f"{bore.size.formula} - {od.size.formula}"
    clearance = computed("clearance", "mm", value, formula, (*bore.inputs, *od.inputs, *temperatures), _SOURCE)
    pair = HeatAndChill(bore.at, cold.name, clearance, sums.kind(value, slip.value))
    return Way(pair, cold, bore.size, od.size)


def _expansion(job: Job, plan: Judged, material: Material, part: str, at: Figure, findings: Findings) -> Figure | None:
    found = mean_expansion(material, part, at, findings)
    if found is None and at.value == thermal.REFERENCE:
        return assumed(f"a_{part}", "1/C", 0.0, "not needed at 20 °C")
    if found is None:
        findings.unchecked(
            "expansion-not-that-far",
            f"The expansion of {material.name} is not known at {degrees(job, at.value)}: "
            "no clearance was computed for it.",
            "Give `expansion` lines that reach this temperature under `material` or `alloy` in the shop file; "
            "a figure for warm metal is far too large for cold.",
            material.span or plan.valve.span,
            (plan.name,),
        )
    return found
