"""What clearance the insert has while it goes in, against how hot the head is, for every chill the shop has."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from seatwright.cards import figures
from seatwright.cards.drawings.dimensions import apart
from seatwright.cards.drawings.sections import unit_word
from seatwright.cards.drawings.shapes import (
    DASHED,
    LEADING,
    LETTERING,
    THICK,
    Circle,
    Drawing,
    Path,
    Sketch,
    words_width,
    wrapped,
)
from seatwright.planning.plan import AssemblyPlan, HeatAndChill, Plan, ValvePlan
from seatwright.planning.pressing.heats_and_chills import NO_CHILL

_TOP, _HIGH = 3.0, 36.0  # of the field [mm]
_LEFT, _RIGHT = 30.0, 30.0  # beside it [mm]
_DASHES = ("", "3 1", "1 1", "5 1 1 1")

Place = Callable[[float], float]


def clearance_against_heat(plan: Plan, valve: ValvePlan, width: float) -> Drawing | None:
    """The drawing at a width [mm]; None without an assembly, or with nothing to compare."""
    made = valve.assembly
    if made is None or not made.pairs:
        return None
    heats = sorted({pair.heat_C.value for pair in made.pairs})
    slip = plan.job.shop.practice.slip.value if plan.job.shop.practice.slip is not None else None
    shown = [pair.clearance.value for pair in made.pairs] + [0.0] + ([slip] if slip is not None else [])
    low, high = min(shown), max(shown)
    room = width - _LEFT - _RIGHT
    span = heats[-1] - heats[0]

    def x(heat: float) -> float:
        return _LEFT + 5.0 + ((heat - heats[0]) / span * (room - 10.0) if span > 0 else (room - 10.0) / 2)

    def y(clearance: float) -> float:
        return _TOP + 3.0 + (high - clearance) / (high - low or 1.0) * (_HIGH - 6.0)

    sketch = Sketch()
    sketch.area((_LEFT, _TOP), (_LEFT + room, _TOP), (_LEFT + room, _TOP + _HIGH), (_LEFT, _TOP + _HIGH), weight=0.3)
    sketch.line((_LEFT, y(0.0)), (_LEFT + room, y(0.0)), weight=THICK)
    levels = [(_figure(plan, 0.0), y(0.0))]
    if slip is not None:
        sketch.line((_LEFT, y(slip)), (_LEFT + room, y(slip)), dashes=DASHED)
        levels.append((f"slip {_figure(plan, slip)}", y(slip)))
    _lines(sketch, made, x, y, _LEFT + room)
    chosen_x, chosen_y = x(made.head_C.value), y(made.clearance.value)
    sketch.add(Circle(chosen_x, chosen_y, 2.2, THICK))
    sketch.line((_LEFT, chosen_y), (chosen_x - 2.2, chosen_y))
    levels.append((_figure(plan, made.clearance.value), chosen_y))
    levels.sort(key=lambda level: level[1])
    places = apart([level for _, level in levels], [LEADING] * len(levels), _TOP, _TOP + _HIGH)
    for (words, level), place in zip(levels, places, strict=True):
        sketch.text(_LEFT - 3.0, place + LETTERING * 0.35, words, "end")
        sketch.line((_LEFT - 2.4, place), (_LEFT, level))
    _heats(sketch, plan, [(heat, x(heat)) for heat in heats], width)
    note = _note(plan, valve, made, slip)
    level = max(_TOP + _HIGH + 6.4, sketch.lowest) + LEADING
    for line in wrapped(note, width):
        sketch.text(0.0, level, line, "start")
        level += LEADING
    says = "; ".join(_said(plan, pair) for pair in made.pairs)
    return sketch.done(width, level - LEADING + 1.4, f"Clearance of the insert in {valve.name}", f"{note} {says}.")


def _said(plan: Plan, pair: HeatAndChill) -> str:
    heat = figures.temperature(pair.heat_C.value, plan.job)
    return f"head {heat}, {_chill(pair.chill)}: {_figure(plan, pair.clearance.value)}"


def _figure(plan: Plan, clearance: float) -> str:
    return figures.shown(clearance, figures.bench(plan.job)).text


def _lines(sketch: Sketch, made: AssemblyPlan, x: Place, y: Place, right: float) -> None:
    """A line for each chill, its name at the right end; marks where it was computed."""
    chills = list(dict.fromkeys(pair.chill for pair in made.pairs))
    ends = []
    for index, chill in enumerate(chills):
        pairs = sorted((pair for pair in made.pairs if pair.chill == chill), key=_heat)
        points = tuple((x(pair.heat_C.value), y(pair.clearance.value)) for pair in pairs)
        if len(points) > 1:
            sketch.add(Path(points, THICK, _DASHES[index % len(_DASHES)]))
        for point in points:
            sketch.add(Circle(*point, 0.9, 0.3, fill="black"))
        ends.append((points[-1], chill))
    ends.sort(key=lambda end: end[0][1])
    words = [wrapped(_chill(chill), _RIGHT - 5.0) for _, chill in ends]
    sizes = [len(lines) * LEADING for lines in words]
    places = apart([end[1] for end, _ in ends], sizes, _TOP - 1.0, _TOP + _HIGH + 6.0)
    for (end, _), lines, place, size in zip(ends, words, places, sizes, strict=True):
        sketch.lines(right + 4.0, place - size / 2 + LETTERING, lines)
        sketch.line((end[0] + 0.9, end[1]), (right, end[1]), (right + 3.2, place))


def _chill(name: str) -> str:
    return "no chill" if name == NO_CHILL else name


def _heat(pair: HeatAndChill) -> float:
    return pair.heat_C.value


def _heats(sketch: Sketch, plan: Plan, heats: Sequence[tuple[float, float]], width: float) -> None:
    words = [figures.temperature(heat, plan.job) for heat, _ in heats]
    places = apart([at for _, at in heats], [words_width(each) + 2.0 for each in words], 0.0, width)
    edge = _TOP + _HIGH
    for (_, at), text, place in zip(heats, words, places, strict=True):
        sketch.line((at, edge - 1.5), (at, edge), (place, edge + 1.8))
        sketch.text(place, edge + 5.4, text)


def _note(plan: Plan, valve: ValvePlan, made: AssemblyPlan, slip: float | None) -> str:
    unit = unit_word(figures.job_unit(plan.job))
    note = f"{valve.name}: clearance in {unit} as the insert goes in, against the head's temperature; a line a chill."
    note += f" Ringed: head {figures.temperature(made.head_C.value, plan.job)}, {_chill(made.chill)}."
    if slip is not None:
        note += " Above the dashed line it drops in;"
    else:
        note += " Above 0 it goes in free;"
    note += " below 0 it must be pressed."
    if made.grabs_at_C is not None:
        note += f" The insert grabs once it has come to about {figures.about(made.grabs_at_C.value, plan.job)}."
    return note
