"""The sections of a shop file that describe one thing each: machine, gauges, cutter, material, alloy."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from msgspec.structs import replace

from seatwright.job.declarations import SectionDeclared, shop_sections
from seatwright.job.model import (
    BoreGauge,
    Cutter,
    Dated,
    ExpansionLine,
    Gauge,
    Given,
    Machine,
    Material,
    Named,
    Stated,
)
from seatwright.job.shop_file.materials import material_name
from seatwright.job.typed.fields import Fields
from seatwright.text import Span


def machine(name: Named, fields: Fields, units: str) -> Machine:
    """The machine; its depth stop is marked in the file's units where it does not say."""
    found = fields.attributes(shop_sections.MACHINE)
    speeds, stepless = found.pop("speeds", ((), False))
    feeds = found.pop("feeds", ((), False))
    by_hand = feeds if isinstance(feeds, Span) else None
    steps, feeds_stepless = ((), False) if isinstance(feeds, Span) else feeds
    dial = found.pop("dial", None)
    return Machine(name, speeds, stepless, steps, feeds_stepless, by_hand, dial=dial.text if dial else units, **found)


def gauge(name: Named, fields: Fields, units: str) -> Gauge:
    """The setting gauge; marked in the file's units where it does not say."""
    found = fields.attributes(shop_sections.GAUGE)
    marked = found.pop("marked", None)
    masters = tuple(sorted(found.pop("masters", ()), key=lambda master: (master.size.value, master.since or "")))
    checks = _by_day(found.pop("checks", ()))
    return Gauge(name, marked.text if marked else units, masters=masters, checks=checks, **found)


def _bore_gauge(name: Named, fields: Fields, units: str) -> BoreGauge:
    """The bore gauge; marked in the file's units where it does not say."""
    found = fields.attributes(shop_sections.BORE_GAUGE)
    marked = found.pop("marked", None)
    rings = tuple(sorted(found.pop("rings", ()), key=lambda ring: (ring.size.value, ring.since or "")))
    checks = _by_day(found.pop("checks", ()))
    return BoreGauge(name, marked.text if marked else units, rings=rings, checks=checks, **found)


def cutter(name: Named, fields: Fields, units: str) -> Cutter:
    """The cutter; its materials in the one spelling that they have."""
    found = fields.attributes(shop_sections.CUTTER)
    overcuts = tuple(replace(line, material=_one_spelling(line.material)) for line in found.pop("overcuts", ()))
    spreads = tuple(replace(line, material=_one_spelling(line.material)) for line in found.pop("overcut_spreads", ()))
    return Cutter(
        name,
        units=units,
        overcuts=overcuts,
        overcut_spreads=spreads,
        tip_changes=_by_day(found.pop("tip_changes", ())),
        **found,
    )


def _one_spelling(material: Named | None) -> Named | None:
    return None if material is None else Named(material_name("material", material.text), material.span)


def _by_day(done: Iterable[Dated]) -> tuple[Dated, ...]:
    return tuple(sorted(done, key=lambda each: each.date))


def head_material(name: Named, fields: Fields, units: str) -> Material:
    """A head material of the shop's own."""
    return _material("material", name, fields)


def alloy(name: Named, fields: Fields, units: str) -> Material:
    """An insert's alloy of the shop's own."""
    return _material("alloy", name, fields)


def _material(kind: str, name: Named, fields: Fields) -> Material:
    # Its figures are those of its `source`, or of the shop file.
    source = fields.get("source")
    says = source.text if source else f"the shop's figure, {name.span.file}"

    def stated(given: Given | None) -> Stated | None:
        return None if given is None else Stated(given.value, says, given)

    least, most = fields.get("friction") or (None, None)
    force, exponent = fields.get("cutting-force") or (None, None)
    lines = sorted(fields.get("expansion") or (), key=lambda line: line[1].value)
    return Material(
        material_name(kind, name.text),
        False,
        stated(fields.get("stiffness")),
        stated(fields.get("poisson")),
        tuple(ExpansionLine(to.value, grows.value, says, grows) for grows, to in lines),
        stated(fields.get("strength")),
        stated(fields.get("yield")),
        stated(least),
        stated(most),
        stated(force),
        stated(exponent),
        fields.get("hazard"),
        name.span,
    )


ITEMS: dict[str, tuple[SectionDeclared, Callable[[Named, Fields, str], Any]]] = {
    "machine": (shop_sections.MACHINE, machine),
    "gauge": (shop_sections.GAUGE, gauge),
    "bore-gauge": (shop_sections.BORE_GAUGE, _bore_gauge),
    "cutter": (shop_sections.CUTTER, cutter),
    "material": (shop_sections.MATERIAL, head_material),
    "alloy": (shop_sections.ALLOY, alloy),
}
