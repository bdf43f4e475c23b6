"""The bore's limits as a bar: least, aim, most, the guard band at either end, and after the cut what was measured."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.cards import figures
from seatwright.cards.drawings.dimensions import apart, arrow
from seatwright.cards.drawings.hatching import hatching
from seatwright.cards.drawings.sections import unit_word
from seatwright.cards.drawings.shapes import LEADING, THICK, Drawing, Sketch, words_width, wrapped
from seatwright.cards.words import at, bench_at
from seatwright.planning.plan import Plan, ValvePlan

_LEFT, _THICK, _ABOVE = 14.0, 6.0, 15.0  # beside the bar, its thickness, above it for what was measured [mm]
_GAP = 2.0  # between two figures of a row [mm]


def bore_bar(plan: Plan, valve: ValvePlan, width: float) -> Drawing | None:
    """The drawing at a width [mm]; None without a bore."""
    if valve.bore is None:
        return None
    bore, gauge = valve.bore, figures.bore_gauge(plan.job)
    least, most, aim = bore.bench_least.value, bore.bench_most.value, bore.bench_aim.value
    readings = _measured(valve)
    low, high = min([least, *readings]), max([most, *readings])
    room = width - 2 * _LEFT
    # What was measured far outside would leave nothing of the bar: it stands at the end, with an arrow outwards.
    low, high = max(low, least - (most - least)), min(high, most + (most - least))
    per = room / (high - low) if high > low else 0.0

    def x(value: float) -> float:
        return _LEFT + (min(max(value, low), high) - low) * per

    top = _ABOVE if readings else 2.5
    bottom = top + _THICK
    sketch = Sketch()
    sketch.line((_LEFT - 3.0, bottom), (width - _LEFT + 3.0, bottom))
    says = [f"Bore {_figures(least, aim, most, gauge)}"]
    sketch.area((x(least), top), (x(most), top), (x(most), bottom), (x(least), bottom))
    marks = [("least", least, figures.shown(least, gauge, "up")), ("aim", aim, figures.shown(aim, gauge))]
    marks.append(("most", most, figures.shown(most, gauge, "down")))
    guarded = bore.accept_least is not None and bore.accept_most is not None
    if bore.accept_least is not None and bore.accept_most is not None:
        for start, end in ((least, bore.accept_least.value), (bore.accept_most.value, most)):
            if x(end) - x(start) > 0.2:
                corners = ((x(start), top), (x(end), top), (x(end), bottom), (x(start), bottom))
                sketch.add(*hatching(corners, 45, 1.4))
                sketch.area(*corners, weight=0.3)
    sketch.line((x(aim), top - 1.5), (x(aim), bottom + 1.5), weight=THICK)
    _row(sketch, [(f"{name} {shown.text}", x(value)) for name, value, shown in marks], bottom, width)
    if readings:
        says.append("measured " + ", ".join(figures.shown(value, gauge).text for value in readings))
        above = [
            (figures.shown(value, gauge).text, x(value), _beyond(value, low, high), least <= value <= most)
            for value in readings
        ]
        _row_above(sketch, above, (top, bottom), width)
    head = next(each for each in plan.heads if each.number == valve.head)
    note = f"Bore of {valve.name}, {unit_word(gauge.unit)}{at(bench_at(plan.job, head))}."
    if guarded:
        note += " Hatched: too near a limit for this gauge to tell; measure again."
    if readings:
        note += " Arrows above: as measured."
    level = bottom + 10.5
    for line in wrapped(note, width):
        sketch.text(0.0, level, line, "start")
        level += LEADING
    title = f"Limits of the bore of {valve.name}"
    return sketch.done(width, level - LEADING + 1.5, title, f"{'; '.join(says)}. {note}")


def _figures(least: float, aim: float, most: float, gauge: figures.Instrument) -> str:
    low, high = figures.shown(least, gauge, "up"), figures.shown(most, gauge, "down")
    return f"least {low.text}, aim {figures.shown(aim, gauge).text}, most {high.text} {gauge.unit}"


def _measured(valve: ValvePlan) -> list[float]:
    """The bore's readings of the last cut as the gauge showed them, smallest and largest."""
    cut = valve.valve.cut
    if cut is None:
        return []
    cells = [cell for cell in (cut.bore_a, cut.bore_b, cut.bore_low_a, cut.bore_low_b) if cell is not None]
    if not cells:
        return []
    smallest, largest = min(cell.smallest for cell in cells), max(cell.largest for cell in cells)
    return [smallest] if smallest == largest else [smallest, largest]


def _beyond(value: float, low: float, high: float) -> int:
    return -1 if value < low - 1e-9 else 1 if value > high + 1e-9 else 0


def _row(sketch: Sketch, marks: Sequence[tuple[str, float]], edge: float, width: float) -> None:
    sizes = [words_width(words) + _GAP for words, _ in marks]
    level = edge + 4.6
    for (words, at_), middle in zip(marks, apart([m for _, m in marks], sizes, 0.0, width), strict=True):
        sketch.line((at_, edge), (middle, level - 3.0))
        sketch.text(middle, level, words)


def _row_above(
    sketch: Sketch, marks: Sequence[tuple[str, float, int, bool]], edges: tuple[float, float], width: float
) -> None:
    """Readings above the bar, each with an arrow down to it, or down to its base line outside it."""
    sizes = [words_width(words, True) + _GAP for words, *_ in marks]
    middles = apart([mark[1] for mark in marks], sizes, 0.0, width)
    for (words, at_, beyond, within), middle in zip(marks, middles, strict=True):
        tip = edges[0] if within else edges[1]
        sketch.text(middle, 4.2, words, bold=True)
        sketch.line((middle, 5.6), (at_, 8.5), (at_, tip - 0.3))
        arrow(sketch, (at_, tip), 90)
        if beyond:
            sketch.line((at_, 11.0), (at_ + beyond * 8.0, 11.0))
            arrow(sketch, (at_ + beyond * 8.0, 11.0), 0 if beyond > 0 else 180)
