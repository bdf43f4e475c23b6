"""The built-in materials and alloys, as the model keeps them."""

from __future__ import annotations

from functools import cache

from seatwright.handbook import materials
from seatwright.job.model import ExpansionLine, Material, Named, Stated
from seatwright.job.typed.names import key
from seatwright.text import Span

_NOWHERE = Span("", 0, 0, 0, 0)


@cache
def built_in_materials(kind: str) -> dict[str, Material]:
    """The built-in materials (kind "material") or alloys (kind "alloy") by name."""
    table = materials.MATERIALS if kind == "material" else materials.ALLOYS
    return {name: _of(one) for name, one in table.items()}


@cache
def _built_in_names(kind: str) -> dict[str, str]:
    return {key(name): name for name in built_in_materials(kind)}


def material_name(kind: str, typed: str) -> str:
    """The one spelling of a material ("material") or alloy ("alloy"): the built-in's, else in small letters, apart."""
    return _built_in_names(kind).get(key(typed), key(typed))


def _of(one: materials.PublishedMaterial) -> Material:
    friction, force = one.friction, one.cutting_force
    return Material(
        one.name,
        True,
        _stated(one.stiffness),
        _stated(one.poisson),
        tuple(ExpansionLine(line.to_C, line.per_C, line.source) for line in one.expansion),
        _stated(one.strength),
        _stated(one.yield_strength),
        Stated(friction.least, friction.source) if friction else None,
        Stated(friction.most, friction.source) if friction else None,
        Stated(force.kc11, force.source) if force else None,
        Stated(force.exponent, force.source) if force else None,
        Named(one.hazard, _NOWHERE),
    )


def _stated(figure: materials.Sourced | None) -> Stated | None:
    return None if figure is None else Stated(figure.value, figure.source)
