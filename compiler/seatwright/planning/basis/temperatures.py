"""One temperature (handbook 0): what was read warm or cold is brought to 20 °C, what will be read is taken back.

Which expansion counts for which part: the head's material for pockets, throats and bores; the insert's alloy for an
insert. An insert lies at the bench, so it and the instrument that measures it are at the gauge's temperature. A guide,
a stem and a pilot are read at one temperature and compared with each other only: they are not corrected, and their
materials are not asked for. Depths and heights are some millimetres: what temperature does to them is below any
depth gauge, so they are not corrected either.
"""

from __future__ import annotations

from msgspec import Struct

from seatwright.handbook import thermal
from seatwright.job.model import BoreGauge, Gauge, Given, Head, Job, Material, Reading
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import degrees, name_key
from seatwright.planning.plan.figure import Figure, assumed, computed, given

STEEL = 11.5e-6
"""Expansion of a gauge that does not say its own [1/°C]; the language's figure."""

ALUMINIUM_APART = 3.0
"""How far an aluminium head may be from its gauge before it has to wait [°C]; common practice, no source."""

_SOURCE = "handbook 0, ISO 1"


class Conditions(Struct, frozen=True):
    """What an instrument and the part that it measures are at, and how they expand from 20 °C."""

    gauge_expansion: Figure
    gauge_temperature: Figure
    part_expansion: Figure
    part_temperature: Figure

    @property
    def inputs(self) -> tuple[Figure, ...]:
        """In the order of the formula."""
        return (self.gauge_expansion, self.gauge_temperature, self.part_expansion, self.part_temperature)

    def at20(self, figure: Figure, symbol: str) -> Figure:
        """The size at 20 °C of a part that reads `figure`."""
        gauge, gauge_at, part, part_at = self.inputs
        value = thermal.at20(figure.value, gauge.value, gauge_at.value, part.value, part_at.value)
        return computed(symbol, "mm", value, self._formula(figure, "*", "/"), (figure, *self.inputs), _SOURCE)

    def at_bench(self, figure: Figure, symbol: str) -> Figure:
        """What the instrument shows at the bench for a size at 20 °C."""
        value = self.shown(figure.value)
        return computed(symbol, "mm", value, self._formula(figure, "/", "*"), (figure, *self.inputs), _SOURCE)

    def shown(self, size: float) -> float:
        """The bare figure of `at_bench` [mm]."""
        gauge, gauge_at, part, part_at = self.inputs
        return thermal.at_bench(size, gauge.value, gauge_at.value, part.value, part_at.value)

    def _formula(self, figure: Figure, with_gauge: str, with_part: str) -> str:
        gauge, gauge_at, part, part_at = self.inputs
        return (
            f"{figure.symbol} {with_gauge} (1 + {gauge.symbol}*({gauge_at.symbol} - 20)) "
            f"{with_part} (1 + {part.symbol}*({part_at.symbol} - 20))"
        )


def head_at_bench(
    job: Job, head: Head, findings: Findings, at: Given | None = None, gauge: Gauge | BoreGauge | None = None
) -> Conditions | None:
    """The head and the gauge that reads it; None where no correction can be made, which is said.

    at : what the table says that head and gauge were at; left out: the head's and the gauge's own temperatures
    gauge : left out: the bore gauge
    """
    gauge = gauge or job.bore_gauge
    key = ("head at bench", id(head), id(gauge), id(at))
    return findings.once(key, lambda: _head_at_bench(job, head, gauge, at, findings))


def _head_at_bench(
    job: Job, head: Head, gauge: Gauge | BoreGauge | None, at: Given | None, findings: Findings
) -> Conditions | None:
    of_head, of_gauge = _temperatures(job, head, gauge, at)
    if of_head is None or of_gauge is None:
        findings.unchecked(
            "temperature-not-given",
            "Neither the head's nor the gauge's temperature is given: no figure is brought to 20 °C.",
            "Let head and gauge lie side by side overnight, and say `temperature 22 C` under `head`.",
            head.span,
        )
        return None
    if head.material is None:
        return None
    _warm_aluminium(job, head, of_head, of_gauge, findings)
    expansion = mean_expansion(head.material, "head", of_head, findings)
    if expansion is None:
        findings.unchecked(
            "expansion-unknown",
            f"How {head.material.name} expands to {degrees(job, of_head.value)} is not known: "
            "nothing is brought to 20 °C.",
            "Give the material's `expansion` in the shop file, from a table that reaches this temperature.",
            head.span,
        )
        return None
    return Conditions(gauge_expansion(gauge, findings, head), of_gauge, expansion, of_head)


def insert_at_bench(
    job: Job, head: Head, alloy: str | None, findings: Findings, at: Given | None = None
) -> Conditions | None:
    """An insert and what measures it, both lying at the gauge; None where nothing is known to correct by.

    alloy : the insert's; without one there is no correction, which is said
    """
    key = ("insert at bench", id(head), alloy, id(at))
    return findings.once(key, lambda: _insert_at_bench(job, head, alloy, at, findings))


def _insert_at_bench(
    job: Job, head: Head, alloy: str | None, at: Given | None, findings: Findings
) -> Conditions | None:
    gauge = job.bore_gauge
    of_gauge = _temperatures(job, head, gauge, at)[1]
    if of_gauge is None:
        return None
    material = next((one for one in job.shop.alloys if alloy and name_key(one.name) == name_key(alloy)), None)
    expansion = None if material is None else mean_expansion(material, "insert", of_gauge, findings)
    if expansion is None:
        findings.unchecked(
            "insert-expansion-unknown",
            f"How an insert of {alloy or 'an unnamed alloy'} expands is not known: its od is taken as read.",
            "Give the insert's alloy, and the alloy's `expansion`, in the shop file.",
            head.span,
        )
        return None
    return Conditions(gauge_expansion(gauge, findings, head), of_gauge, expansion, of_gauge)


def pocket_at20(job: Job, head: Head, reading: Reading, symbol: str, value: float, findings: Findings) -> Figure:
    """A diameter in the head at 20 °C. value: which of the readings is meant (mean, largest, smallest)."""
    as_read = given(symbol, "mm", reading, value)
    conditions = head_at_bench(job, head, findings, reading.at)
    return as_read if conditions is None else conditions.at20(as_read, f"{symbol}_20")


def insert_at20(job: Job, head: Head, reading: Reading, alloy: str | None, symbol: str, findings: Findings) -> Figure:
    """The measured diameter of an insert at 20 °C, the mean of its readings."""
    as_read = given(symbol, "mm", reading)
    conditions = insert_at_bench(job, head, alloy, findings, reading.at)
    return as_read if conditions is None else conditions.at20(as_read, f"{symbol}_20")


def mean_expansion(material: Material, part: str, temperature: Figure, findings: Findings) -> Figure | None:
    """Mean expansion from 20 °C of a head's material or an insert's alloy, out of the lines of its table.

    part : `head` or `insert`, for the symbol. Only the lines that the mean is taken between are its inputs.
    """
    # Kept beside the temperature, so that no other can come to have its id.
    key = ("mean expansion", id(material), part, id(temperature))
    at = (temperature.value, temperature.symbol, (temperature,))
    return findings.once(key, lambda: (temperature, _mean_expansion(material, part, *at)))[1]


def mean_expansion_where(material: Material, part: str, value: float) -> Figure | None:
    """Mean expansion from 20 °C to a temperature T that is itself looked for: it is no input of its own."""
    return _mean_expansion(material, part, value, "T", ())


def expansion_lines(material: Material) -> tuple[tuple[float, float], ...]:
    """The table of a material as the handbook takes it: (temperature [°C], mean expansion from 20 °C to there)."""
    return tuple([(line.to, line.per_degree) for line in material.expansion])


def _mean_expansion(
    material: Material, part: str, value: float, at: str, temperature: tuple[Figure, ...]
) -> Figure | None:
    mean = thermal.mean_expansion(expansion_lines(material), value)
    if mean is None:
        return None
    below = above = None
    for line in material.expansion:
        if line.to <= value:
            below = line
        if above is None and line.to >= value:
            above = line
    lines = [line for line in (below, above if above is not below else None) if line is not None]
    symbol = f"a_{part}"
    used = []
    for line in lines:
        name = f"a_{line.to:.0f}".replace("-", "minus")
        made = given(name, "1/C", line.given) if line.given else assumed(name, "1/C", line.per_degree, line.source)
        used.append(made)
    source = f"{material.name}: {lines[0].source}"
    if len(used) == 1:
        return computed(symbol, "1/C", mean, used[0].symbol, used, source)
    formula = f"{used[0].symbol} to {used[1].symbol} in a straight line at {at}"
    return computed(symbol, "1/C", mean, formula, (*used, *temperature), source)


def gauge_expansion(gauge: Gauge | BoreGauge | None, findings: Findings, head: Head) -> Figure:
    """Expansion of an instrument: its own, else the language's for steel, with a notice."""
    if gauge is not None and gauge.expansion is not None:
        return given("a_gauge", "1/C", gauge.expansion)
    name = f'gauge "{gauge.name.text}"' if gauge is not None else "gauge that measures"
    findings.notice(
        "gauge-expansion-left-out",
        f"The expansion of the {name} is left out: 11.5 um/m/C, that of steel, is used.",
        "Say `expansion` under the gauge in the shop file.",
        gauge.name.span if gauge is not None else head.span,
    )
    return assumed("a_gauge", "1/C", STEEL, "language: gauge expansion left out")


def room(job: Job, head: Head) -> Given | None:
    """What the head lies at: its own temperature, else that of the gauge that was given, which lay beside it."""
    gauges = (job.bore_gauge, job.gauge)
    return head.temperature or next((each.temperature for each in gauges if each and each.temperature), None)


def _temperatures(
    job: Job, head: Head, gauge: Gauge | BoreGauge | None, at: Given | None
) -> tuple[Figure | None, Figure | None]:
    """What head and gauge are at. A table's `at` is both; where only one is given the other lay beside it."""
    if at is not None:
        return given("T_head", "C", at), given("T_gauge", "C", at)
    own = None if gauge is None else gauge.temperature
    of_head = head.temperature or own or room(job, head)
    of_gauge = own or of_head
    if of_head is None or of_gauge is None:
        return None, None
    return given("T_head", "C", of_head), given("T_gauge", "C", of_gauge)


def _apart(job: Job, celsius: float) -> str:
    """How far two temperatures are apart: `8 °C`, `14.4 °F`."""
    return f"{celsius * 9 / 5:.3g} °F" if job.units == "inch" else f"{celsius:.3g} °C"


def _warm_aluminium(job: Job, head: Head, of_head: Figure, of_gauge: Figure, findings: Findings) -> None:
    apart = abs(of_head.value - of_gauge.value)
    if head.material is None or "aluminium" not in name_key(head.material.name) or apart <= ALUMINIUM_APART:
        return
    findings.warning(
        "aluminium-warm",
        f"The aluminium head is at {degrees(job, of_head.value)} and the gauge at {degrees(job, of_gauge.value)}: "
        f"more than {_apart(job, ALUMINIUM_APART)} apart costs a good part of the tolerance, and this is "
        f"{_apart(job, apart)}.",
        "Wait until head and gauge have lain side by side long enough, then measure again.",
        head.temperature.span if head.temperature else head.span,
    )
