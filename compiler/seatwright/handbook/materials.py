"""The built-in materials of heads and alloys of inserts, each figure with the publisher that gives it.

A property that no source gives is absent, and what needs it is not computed. Where publishers differ, one row is
taken whole as far as it goes; the choice is said in the line above the row. A figure that was not seen in print when
this table was made ends in ", from memory". A shop file replaces a material or an alloy by naming it.
"""

from __future__ import annotations

from msgspec import Struct

__all__ = [
    "ALLOYS",
    "MATERIALS",
    "CuttingForce",
    "Expansion",
    "FrictionSpan",
    "PublishedMaterial",
    "Sourced",
]


class Sourced(Struct, frozen=True):
    """One figure and who publishes it."""

    value: float
    source: str


class Expansion(Struct, frozen=True):
    """Mean linear expansion from 20 °C to a temperature: `to_C` [°C], `per_C` [1/°C]."""

    to_C: float
    per_C: float
    source: str


class FrictionSpan(Struct, frozen=True):
    """Least and greatest coefficient of friction [-] of a steel or iron insert in this head."""

    least: float
    most: float
    source: str


class CuttingForce(Struct, frozen=True):
    """Specific cutting force at 1 mm thickness of chip, `kc11` [MPa], and its exponent [-]: kc = kc11·h^(−exponent)."""

    kc11: float
    exponent: float
    source: str


class PublishedMaterial(Struct, frozen=True):
    """What a head or an insert is made of.

    `stiffness`, `strength` (tensile) and `yield_strength` [MPa], `poisson` [-]; `expansion` in rising temperature;
    `hazard` is `none` or a word of the language; `source` says what was taken for the row as a whole.
    """

    name: str
    stiffness: Sourced | None = None
    poisson: Sourced | None = None
    expansion: tuple[Expansion, ...] = ()
    strength: Sourced | None = None
    yield_strength: Sourced | None = None
    friction: FrictionSpan | None = None
    cutting_force: CuttingForce | None = None
    hazard: str = "none"
    source: str = ""

    @property
    def expansion_table(self) -> tuple[tuple[float, float], ...]:
        """The rows of `expansion` as (temperature [°C], mean expansion from 20 °C [1/°C])."""
        return tuple((row.to_C, row.per_C) for row in self.expansion)


_MH = "a machinist's reference book"
_VDI = "published cutting data, VDI 3323"
_DIN_5_3 = "DIN 7190-1, section 5.3, fits joined by heat or cold"
_COLD_STEEL = "a carbon steel, not a tool steel; from a university textbook problem, from memory"


def _steel_below_20() -> tuple[Expansion, ...]:
    # Mean from 20 °C (68 °F) of alpha(T) = 6.015e-6 + 6.1946e-9 T − 1.2278e-11 T² per °F, T in °F: the only curve
    # for steel that our sources give down to liquid nitrogen.
    def grown(f: float) -> float:
        return 6.015e-6 * f + 6.1946e-9 * f**2 / 2 - 1.2278e-11 * f**3 / 3

    def mean(celsius: float) -> float:
        f = celsius * 1.8 + 32
        return (grown(f) - grown(68)) / (f - 68) * 1.8

    return tuple(Expansion(t, round(mean(t), 8), _COLD_STEEL) for t in (-195.8, -150.0, -100.0, -78.5, -40.0))


# Class 30 (207 MPa) is the softer of the two classes with figures in print, so push-out is not flattered. Poisson from
# the printed G = 0.40 E. The expansion is that of EN-GJL-250, the only one with its temperatures. Grey iron has no
# yield point, so none is given. Cutting force of the 180 HB group; the 260 HB group takes about four tenths more.
_GREY_EXPANSION = (
    Expansion(-100.0, 10.0e-6, "EN 1561 annex, EN-GJL-250, from memory"),
    Expansion(200.0, 11.7e-6, "EN 1561 annex, EN-GJL-250, from memory"),
    Expansion(400.0, 13.0e-6, "EN 1561 annex, EN-GJL-250, from memory"),
)
_GREY_STIFFNESS = Sourced(100_000.0, f"{_MH}, class 30, 14.5e6 psi")
_GREY_POISSON = Sourced(0.25, f"{_MH}, from its shear modulus of 0.40 times the stiffness")
_GREY_STRENGTH = Sourced(207.0, f"{_MH}, class 30, least")

_grey_iron = PublishedMaterial(
    name="grey iron",
    stiffness=_GREY_STIFFNESS,
    poisson=_GREY_POISSON,
    expansion=_GREY_EXPANSION,
    strength=_GREY_STRENGTH,
    friction=FrictionSpan(0.10, 0.16, f"{_DIN_5_3}, steel in cast iron, oil to degreased"),
    cutting_force=CuttingForce(1150.0, 0.20, f"{_VDI} group 15, grey iron of 180 HB"),
    source="grey iron of class 30, with the expansion of EN-GJL-250",
)

# EN-GJS-500-7, the common middle grade; the lower of two published stiffnesses.
_ductile_iron = PublishedMaterial(
    name="ductile iron",
    stiffness=Sourced(169_000.0, "a foundry's data sheet, EN-GJS-500-7"),
    poisson=Sourced(0.28, "another foundry's data sheet, EN-GJS-500-7"),
    expansion=(Expansion(400.0, 12.5e-6, "EN 1563 annex, EN-GJS-500-7, from memory"),),
    strength=Sourced(500.0, "a foundry's data sheet, EN-GJS-500-7"),
    yield_strength=Sourced(320.0, "a foundry's data sheet, EN-GJS-500-7"),
    friction=FrictionSpan(0.10, 0.16, f"{_DIN_5_3}, steel in cast iron, oil to degreased"),
    cutting_force=CuttingForce(1225.0, 0.25, f"{_VDI} group 17, nodular iron of 160 HB"),
    source="ductile iron EN-GJS-500-7",
)

# GJV-400, the middle of the standard's grades; nothing on its cutting force was found.
_compacted_iron = PublishedMaterial(
    name="compacted iron",
    stiffness=Sourced(140_000.0, "ISO 16112 annex, GJV-400, lower end, from memory"),
    poisson=Sourced(0.26, "ISO 16112 annex, GJV-400, from memory"),
    expansion=(
        Expansion(100.0, 11.0e-6, "ISO 16112 annex, from memory"),
        Expansion(400.0, 12.5e-6, "ISO 16112 annex, from memory"),
    ),
    strength=Sourced(400.0, "ISO 16112, GJV-400, least"),
    friction=FrictionSpan(0.10, 0.16, f"{_DIN_5_3}, steel in cast iron, oil to degreased"),
    source="compacted iron GJV-400",
)

# A356.0-T6 sand cast: the row with the most figures from one publisher, and one for each of two temperatures.
_aluminium = PublishedMaterial(
    name="aluminium",
    stiffness=Sourced(72_400.0, "a light-metal association's data, A356.0-T6 sand cast"),
    poisson=Sourced(0.33, "a light-metal association's data, A356.0-T6 sand cast"),
    expansion=(
        Expansion(100.0, 21.4e-6, "a light-metal association's data, A356.0-T6 sand cast"),
        Expansion(300.0, 23.2e-6, "a light-metal association's data, A356.0-T6 sand cast"),
    ),
    strength=Sourced(234.0, "a light-metal association's data, A356.0-T6 sand cast, least"),
    yield_strength=Sourced(165.0, "a light-metal association's data, A356.0-T6 sand cast, least"),
    friction=FrictionSpan(0.10, 0.15, f"{_DIN_5_3}, steel in MgAl, dry"),
    cutting_force=CuttingForce(700.0, 0.25, f"{_VDI} groups 23 and 24, cast aluminium up to 12 % silicon"),
    source="cast aluminium A356.0-T6",
)

MATERIALS: dict[str, PublishedMaterial] = {
    material.name: material for material in (_grey_iron, _ductile_iron, _compacted_iron, _aluminium)
}
"""Built-in head materials by name."""

_iron_insert = PublishedMaterial(
    name="grey iron",
    stiffness=_GREY_STIFFNESS,
    poisson=_GREY_POISSON,
    expansion=_GREY_EXPANSION,
    strength=_GREY_STRENGTH,
    source="grey iron of class 30, with the expansion of EN-GJL-250",
)

# Hot-work steel H13; the least of the printed strengths, the middle of the printed Poisson's ratios (.27 to .30).
_tool_steel = PublishedMaterial(
    name="tool steel",
    stiffness=Sourced(215_000.0, "a supplier's data sheet, H13"),
    poisson=Sourced(0.285, "a supplier's data sheet, H13, middle of .27 to .30"),
    expansion=(
        *_steel_below_20(),
        Expansion(100.0, 10.4e-6, "a supplier's data sheet, H13"),
        Expansion(204.0, 11.3e-6, "another supplier's data sheet, H13"),
        Expansion(400.0, 12.6e-6, "another supplier's data sheet, H13, from memory"),
    ),
    strength=Sourced(1200.0, "a supplier's data sheet, H13, least"),
    yield_strength=Sourced(1000.0, "a supplier's data sheet, H13, least"),
    source="hot-work tool steel H13",
)

# Annealed 440C, the only high-chrome martensitic steel found with stiffness, Poisson's ratio and expansion together.
_440C = "a published materials database, 440C annealed"
_high_chrome = PublishedMaterial(
    name="high-chrome steel",
    stiffness=Sourced(200_000.0, _440C),
    poisson=Sourced(0.28, _440C),
    expansion=(Expansion(100.0, 10.0e-6, f"{_440C}; its range, to 100 °C, from memory"),),
    strength=Sourced(710.0, _440C),
    yield_strength=Sourced(450.0, _440C),
    source="martensitic stainless steel 440C, annealed",
)

# Copper-infiltrated FX-1008-50. No expansion: sintered seat alloys run from about 11 to 15.9 um/m/C, a spread that
# decides whether the fit holds hot, and no sheet gives it together with the stiffness. The shop states its own.
_sintered = PublishedMaterial(
    name="sintered",
    stiffness=Sourced(160_000.0, "MPIF 35, FX-1008-50"),
    poisson=Sourced(0.28, "MPIF 35, FX-1008-50, from memory"),
    strength=Sourced(600.0, "MPIF 35, FX-1008-50"),
    yield_strength=Sourced(410.0, "MPIF 35, FX-1008-50"),
    source="copper-infiltrated sintered steel FX-1008-50",
)

# Wrought Ni-Cr alloy 600, annealed; the lower end of its stiffness and yield.
_nickel = PublishedMaterial(
    name="nickel alloy",
    stiffness=Sourced(207_000.0, "a supplier's data sheet, Ni-Cr alloy 600, from memory"),
    poisson=Sourced(0.29, "a supplier's data sheet, Ni-Cr alloy 600, from memory"),
    expansion=(Expansion(100.0, 13.3e-6, "a supplier's data sheet, Ni-Cr alloy 600, from memory"),),
    yield_strength=Sourced(240.0, "a supplier's data sheet, Ni-Cr alloy 600 annealed, lower end, from memory"),
    source="nickel-chrome alloy 600; austenitic nickel irons differ, up to 18.7 um/m/C",
)

# Co-Cr-W alloy 6: expansion by temperature from the cast maker's sheet, stiffness and yield from the printed wrought
# row (its yield is the lower of the two).
_CAST_6 = "a supplier's data sheet, cast Co-Cr-W alloy 6, from memory"
_cobalt = PublishedMaterial(
    name="cobalt alloy",
    stiffness=Sourced(220_000.0, "a published materials database, Co-Cr-W alloy R30016"),
    poisson=Sourced(0.28, "a published materials database, Co-Cr-W alloy R30016"),
    expansion=(
        Expansion(100.0, 11.4e-6, _CAST_6),
        Expansion(200.0, 13.0e-6, _CAST_6),
        Expansion(300.0, 13.6e-6, _CAST_6),
        Expansion(400.0, 13.9e-6, _CAST_6),
    ),
    strength=Sourced(850.0, _CAST_6),
    yield_strength=Sourced(580.0, "a published materials database, Co-Cr-W alloy R30016"),
    source="Co-Cr-W alloy 6",
)

# Stiffness and expansion of C17200; strength of C17510 TF00, the lower of the published alloys.
_copper_beryllium = PublishedMaterial(
    name="copper beryllium",
    stiffness=Sourced(131_000.0, "a supplier's data sheet, C17200, 19e6 psi"),
    poisson=Sourced(0.33, "a published materials database, C17300 family"),
    expansion=(Expansion(300.0, 17.8e-6, "two suppliers' data sheets, C17200"),),
    strength=Sourced(758.0, "another supplier's data sheet, C17510 TF00"),
    yield_strength=Sourced(621.0, "another supplier's data sheet, C17510 TF00"),
    hazard="beryllium",
    source="copper beryllium C17200, with the strength of C17510",
)

# Leaded phosphor bronze C54400, hard rod of 25 mm: one association prints all of it, the shear modulus in place of
# Poisson's ratio. A guide of iron is `grey iron` above.
_C54400 = "a copper association's data, C54400 hard rod"
_guide_bronze = PublishedMaterial(
    name="guide bronze",
    stiffness=Sourced(103_400.0, f"{_C54400}, 15e6 psi"),
    poisson=Sourced(0.339, f"{_C54400}, from its shear modulus of 5.6e6 psi"),
    expansion=(Expansion(300.0, 17.3e-6, f"{_C54400}, 9.6e-6 per °F from 68 to 572 °F"),),
    strength=Sourced(469.0, f"{_C54400}, 68e3 psi"),
    yield_strength=Sourced(393.0, f"{_C54400}, 57e3 psi"),
    hazard="lead",
    source="leaded phosphor bronze C54400",
)

ALLOYS: dict[str, PublishedMaterial] = {
    alloy.name: alloy
    for alloy in (
        *(_iron_insert, _tool_steel, _high_chrome, _sintered, _nickel, _cobalt, _copper_beryllium),
        _guide_bronze,
    )
}
"""Built-in alloys of inserts and guides by name."""
