"""Job models made by hand for the tests of planning: a figure each, every one on a line of its own.

Lengths in mm. `given(…)`, `reading(…)`, `limits(…)` make figures; `valve(…)`, `head(…)`, `shop(…)`, `job(…)` put them
together. All figures are of an invented scenario unless a test names a source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import count
from typing import Any

from seatwright.handbook import materials
from seatwright.job.model import (
    BoreGauge,
    Cutter,
    ExpansionLine,
    Gauge,
    Given,
    Head,
    Hole,
    Insert,
    InsertWish,
    InterferenceLine,
    Job,
    Limits,
    Machine,
    Master,
    Material,
    Measured,
    Named,
    OvercutLine,
    Pilot,
    Place,
    Practice,
    Reading,
    Shop,
    Skim,
    Spacing,
    Specification,
    Spread,
    SpreadLine,
    Stand,
    Stated,
    Valve,
)
from seatwright.planning.basis.findings import Findings
from seatwright.text import Span

_lines = count(1)


def span(file: str = "test.seat") -> Span:
    """A place of its own."""
    line = next(_lines)
    return Span(file, line, 1, line, 10)


def given(value: float, typed: str | None = None, source: str = "") -> Given:
    return Given(value, f"{value:g} mm" if typed is None else typed, span(), 0.0, source)


def degrees(value: float) -> Given:
    """A temperature or an angle."""
    return given(value, f"{value:g} C")


def reading(*values: float, at: float | None = None, date: str | None = None) -> Reading:
    """A cell with one or several readings. at: °C that the table says."""
    return Reading(
        sum(values) / len(values),
        max(values),
        min(values),
        "/".join(f"{value:.3f}" for value in values),
        span(),
        0.0005,
        len(values),
        None if at is None else degrees(at),
        date,
    )


def limits(least: float | None, most: float | None, source: str = "", nominal: float | None = None) -> Limits:
    return Limits(
        None if least is None else given(least, source=source),
        None if most is None else given(most, source=source),
        None if nominal is None else given(nominal, source=source),
        f"{least} to {most}",
        span(),
        source,
    )


def named(text: str) -> Named:
    return Named(text, span())


def spread(value: float, rectangular: bool = False) -> Spread:
    return Spread(value / math.sqrt(3) if rectangular else value, f"{value:g} mm", span(), rectangular)


def stand(below_least: float, below_most: float | None = None) -> Stand:
    """Below the depth face, proud negative; one figure alone wants the shop's depth-tolerance."""
    most = below_least if below_most is None else below_most
    return Stand(given(below_least), given(most), below_most is None, "stand", span())


def wish(kind: str = "choose", name: str | None = None) -> InsertWish:
    return InsertWish(kind, name, span())


def material(name: str) -> Material:
    """A built-in head material or alloy as the job room hands it on."""
    row = materials.MATERIALS.get(name) or materials.ALLOYS[name]

    def stated(sourced: materials.Sourced | None) -> Stated | None:
        return None if sourced is None else Stated(sourced.value, sourced.source)

    friction, cutting = row.friction, row.cutting_force
    return Material(
        name=name,
        built_in=True,
        stiffness=stated(row.stiffness),
        poisson=stated(row.poisson),
        expansion=tuple(ExpansionLine(line.to_C, line.per_C, line.source) for line in row.expansion),
        strength=stated(row.strength),
        yield_strength=stated(row.yield_strength),
        friction_least=Stated(friction.least, friction.source) if friction else None,
        friction_most=Stated(friction.most, friction.source) if friction else None,
        cutting_force=Stated(cutting.kc11, cutting.source) if cutting else None,
        cutting_exponent=Stated(cutting.exponent, cutting.source) if cutting else None,
    )


def insert(
    name: str,
    od: float,
    half: float | None = 0.005,
    *,
    height: float | None = 7.0,
    id: float | None = 36.0,
    chamfer: float | None = 0.9,
    chamfer_angle: float | None = 30.0,
    alloy: str | None = "tool steel",
    seat: str = "any",
    on_hand: int | None = None,
) -> Insert:
    """An insert in stock. half: its od is ± this, None without limits. on_hand None: not counted."""

    def maybe(value: float | None) -> Given | None:
        return None if value is None else given(value)

    return Insert(
        named(name),
        given(od),
        None if half is None else given(od - half),
        None if half is None else given(od + half),
        maybe(height),
        maybe(id),
        maybe(chamfer),
        maybe(chamfer_angle),
        None if alloy is None else named(alloy),
        seat,
        on_hand=None if on_hand is None else given(on_hand, str(on_hand)),
    )


def pilot(name: str, diameter: float, length: float | None = 120.0, kind: str = "dead") -> Pilot:
    return Pilot(named(name), kind, span(), given(diameter), length=None if length is None else given(length))


def gripping_pilot(
    name: str,
    smallest: float,
    largest: float,
    kind: str = "expanding",
    offset: float | None = 0.002,
    tir_at: float | None = None,
) -> Pilot:
    return Pilot(
        named(name),
        kind,
        span(),
        None,
        given(smallest),
        given(largest),
        given(120.0),
        None if offset is None else given(offset),
        None if tir_at is None else given(tir_at),
    )


def cutter(
    name: str = "C1", least: float = 30.0, most: float = 60.0, *, corner: float | None = 0.4, tip_width: float = 7.5
) -> Cutter:
    return Cutter(
        named(name),
        limits(least, most),
        given(tip_width),
        given(1, "1"),
        named("carbide"),
        None if corner is None else given(corner),
        given(25.0),
        (OvercutLine(None, given(0.006)),),
        (SpreadLine(None, spread(0.002)),),
    )


def gauge(step: float = 0.002, temperature: float | None = 20.0, expansion: float | None = 11.5e-6) -> Gauge:
    return Gauge(
        named("setting gauge"),
        "mm",
        limits(30.0, 60.0),
        given(step),
        (Master(given(40.0), given(40.002)),),
        spread(0.001),
        spread(0.001),
        named("radius"),
        given(0.01),
        None if temperature is None else degrees(temperature),
        None,
        None if expansion is None else given(expansion, "11.5 um/m/C"),
    )


def bore_gauge(step: float = 0.002, temperature: float | None = 20.0, expansion: float | None = 11.5e-6) -> BoreGauge:
    return BoreGauge(
        named("bore gauge"),
        "mm",
        limits(30.0, 60.0),
        given(step),
        (Master(given(44.0), given(44.0)),),
        spread(0.001),
        spread(0.001),
        None if temperature is None else degrees(temperature),
        None,
        None if expansion is None else given(expansion, "11.5 um/m/C"),
    )


def machine(**fields_: Any) -> Machine:
    """A machine with the pilot as its guide and four speeds, unless fields say otherwise."""
    base: dict[str, Any] = {
        "name": named("boring machine"),
        "speeds": tuple(given(rpm, f"{rpm} rpm") for rpm in (35, 50, 70, 100)),
        "feeds": (given(0.05), given(0.10)),
        "torque_limit": given(40.0),
        "dial": "mm",
        "dial_step": given(0.02),
        "guides_by": named("pilot"),
    }
    return Machine(**{**base, **fields_})


def interference_row(
    least: float, most: float, *, head: str = "grey iron", alloy: str = "any", seat: str = "any",
    over: float | None = None, to: float | None = None, source: str = "shop practice",
) -> InterferenceLine:  # fmt: skip
    def maybe(value: float | None) -> Given | None:
        return None if value is None else given(value)

    return InterferenceLine(head, alloy, seat, maybe(over), maybe(to), given(least), given(most), source, span())


def practice(**figures: Any) -> Practice:
    """A shop's practice: usual figures, each of which may be replaced, or None to be without it."""
    usual: dict[str, Any] = {
        "clean_up": 0.05,
        "floor_clean_up": 0.05,
        "trial_under": 0.10,
        "bore_round": 0.010,
        "bore_taper": 0.010,
        "floor_square": 0.02,
        "runout": 0.05,
        "least_land": 0.5,
        "least_ledge": 1.0,
        "least_under_seat": 1.0,
        "pilot_clearance": 0.003,
        "depth_tolerance": 0.03,
        "slip": 0.03,
        "guard": 1.65,
    }
    figures = {**usual, **figures}
    return Practice(
        **{name: given(value) if isinstance(value, int | float) else value for name, value in figures.items()}
    )


def shop(**parts: Any) -> Shop:
    """A shop with pilots, one cutter, a practice and an interference row for grey iron; parts replace."""
    base: dict[str, Any] = {
        "cutters": (cutter(),),
        "pilots": tuple(pilot(f"P{round(d * 100)}", d) for d in (9.000, 9.010, 9.017, 9.030)),
        "inserts": (),
        "interference": (interference_row(0.08, 0.12),),
        "practice": practice(),
        "materials": tuple(material(name) for name in sorted(materials.MATERIALS)),
        "alloys": tuple(material(name) for name in sorted(materials.ALLOYS)),
    }
    return Shop(**{**base, **parts})


_COLUMNS = set(Measured.__struct_fields__)


def measured(**cells: Any) -> Measured:
    """Cells: a figure, or several readings as a tuple."""
    made: dict[str, Any] = {}
    for column, cell in cells.items():
        if column not in _COLUMNS:
            raise TypeError(f"`measured` has no column {column}")
        if isinstance(cell, int | float):
            made[column] = reading(float(cell))
        elif isinstance(cell, tuple):
            made[column] = reading(*cell)
        else:
            made[column] = cell
    return Measured(**made)


def specification(**fields_: Any) -> Specification:
    """What `valves` says; plain numbers become figures, pairs become limits."""
    made: dict[str, Any] = {}
    for name, value in fields_.items():
        if isinstance(value, int | float) and not isinstance(value, bool):
            made[name] = given(float(value))
        elif isinstance(value, tuple) and len(value) == 2 and name != "alloys":
            made[name] = limits(*value)
        elif isinstance(value, str):
            made[name] = named(value)
        else:
            made[name] = value
    return Specification(**made)


GUIDE: dict[str, Any] = {"guide_top": 9.022, "guide_middle": 9.020, "guide_bottom": 9.024}
"""A good guide: P902 at 9.017 enters it with 0.003."""

POCKET: dict[str, Any] = {
    "pocket_a": 44.00,
    "pocket_b": 44.01,
    "pocket_depth": 7.00,
    "pocket_offset": 0.01,
    "throat": 37.0,
    "floor_thickness": 9.0,
}

VALVE: dict[str, Any] = {
    "stand": stand(0.0, 0.10),
    "guide_length": 62.0,
    "guide_to_floor": 28.0,
    "guide_wear_limit": 0.10,
    "stem": 8.97,
}


def valve(
    name: str = "E1", *, insert: InsertWish | None = None, found: dict[str, Any] | None = None, planned: bool = True,
    bare: bool = False, holds: tuple[Any, ...] = (), **spec: Any,
) -> Valve:  # fmt: skip
    """A valve as usual: a good guide, a pocket of 44.01, an insert to be chosen. bare: nothing but what is said."""
    cells = {} if bare else {**GUIDE, **POCKET}
    usual = {} if bare else VALVE
    cells.update(found or {})
    letter = name[2:] if len(name) > 2 else ""
    fields_: dict[str, Any] = {**usual, **spec}
    fields_.setdefault("insert", insert if insert is not None or bare else wish())
    return Valve(
        name,
        "exhaust" if name.startswith("E") else "intake",
        int(name[1]),
        letter,
        planned,
        span(),
        specification(**fields_),
        measured(**{column: cell for column, cell in cells.items() if cell is not None}),
        holds=holds,
    )


def place(valve: str, x: float, y: float) -> Place:
    return Place(valve, given(x), given(y), span())


def spacing(first: str, second: str, distance: float) -> Spacing:
    return Spacing(first, second, given(distance), span())


def hole(name: str, x: float, y: float, diameter: float, kind: str = "hole") -> Hole:
    return Hole(name, given(x), given(y), given(diameter), kind, span())


def head(valves: Sequence[Valve], *, material_name: str | None = "grey iron", number: int = 1, **fields_: Any) -> Head:
    """A head of these valves; plain numbers become figures."""
    made: dict[str, Any] = {"temperature": degrees(20.0)}
    for name, value in fields_.items():
        number_typed = isinstance(value, int | float) and not isinstance(value, bool)
        made[name] = given(float(value)) if number_typed else named(value) if isinstance(value, str) else value
    return Head(
        number,
        "",
        "a head",
        span(),
        material(material_name) if material_name else None,
        valves=tuple(each for each in valves if each.planned),
        neighbours=tuple(each for each in valves if not each.planned),
        **made,
    )


def job(*heads: Head, shop: Shop, units: str = "mm", **fields_: Any) -> Job:
    """A job in this shop, with a machine, a setting gauge and a bore gauge unless fields say otherwise."""
    base: dict[str, Any] = {"machine": machine(), "gauge": gauge(), "bore_gauge": bore_gauge()}
    return Job("2214", "a job", span(), units, (), tuple(heads), shop, **{**base, **fields_})


def slugs(findings: Findings) -> list[str]:
    """The slugs of all that was said, in order, each once."""
    return list(dict.fromkeys(message.slug for message in findings.messages()))


def texts(findings: Findings, slug: str) -> str:
    """What was said under a slug."""
    return " ".join(f"{each.text} {each.help}" for each in findings.messages() if each.slug == slug)


def skim(amount: float, when: str | None) -> Skim:
    """Metal off the deck: before-measuring, after-measuring, still-to-come, or None where it is not said."""
    return Skim(given(amount), when, span())
