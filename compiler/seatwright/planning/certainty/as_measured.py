"""The readings of a bore that was cut (handbook 11): its mean, roundness and taper at 20 °C, its depth and floor."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from msgspec import Struct

from seatwright.job.model import CutReadings, Given, Head, Job, Reading
from seatwright.planning.basis.bore_gauge import bore_at20
from seatwright.planning.basis.findings import Findings
from seatwright.planning.plan.figure import Figure, computed, given

_SOURCE = "handbook 11"


class _Cell(Struct, frozen=True):
    """One cell: its mean, largest and smallest at 20 °C."""

    mean: Figure
    largest: Figure
    smallest: Figure
    reading: Reading


class AsMeasured(Struct, frozen=True):
    """A bore as measured, at 20 °C. bore: the mean of all readings, which carries the fit.

    largest, smallest : of all readings. round : largest less smallest at one height, the greater of both heights; None
    where a height was measured one way only. taper : mean above less mean below; None where it was not measured low.
    at : what the table says that head and gauge were at. bore_a, bore_b : where measured.
    """

    bore: Figure
    largest: Figure
    smallest: Figure
    bore_a: Figure | None
    bore_b: Figure | None
    round: Figure | None
    taper: Figure | None
    at: Given | None


def as_measured(job: Job, head: Head, cut: CutReadings, findings: Findings) -> AsMeasured | None:
    """A bore from its readings; None where none was taken."""
    upper = _cells(job, head, (("bore_a", cut.bore_a), ("bore_b", cut.bore_b)), findings)
    lower = _cells(job, head, (("bore_low_a", cut.bore_low_a), ("bore_low_b", cut.bore_low_b)), findings)
    cells = (*upper, *lower)
    if not cells:
        return None
    by_name = {name: cell.mean for name, cell in zip(_given_names(cut), cells, strict=True)}
    return AsMeasured(
        bore=_mean("bore", [cell.mean for cell in cells], f"{_SOURCE}, the mean carries the fit"),
        largest=_extreme("bore_largest", [cell.largest for cell in cells], max),
        smallest=_extreme("bore_smallest", [cell.smallest for cell in cells], min),
        bore_a=by_name.get("bore_a"),
        bore_b=by_name.get("bore_b"),
        round=_round(upper, lower),
        taper=_taper(upper, lower),
        at=cells[-1].reading.at,
    )


def depth(cut: CutReadings) -> Figure | None:
    """The depth of the pocket, the mean of its places; None where it was not measured."""
    places = _depths(cut)
    return _mean("depth", places, _SOURCE) if places else None


def deepest(cut: CutReadings) -> Figure | None:
    """The deepest place of the pocket; None where it was not measured."""
    columns = _depth_cells(cut)
    if not columns:
        return None
    figures = [given(symbol, "mm", reading, reading.largest) for symbol, reading in columns]
    value = max(each.value for each in figures)
    formula = f"max({', '.join(each.symbol for each in figures)})"
    return computed("deepest", "mm", value, formula, figures, _SOURCE)


def floor_square(cut: CutReadings) -> Figure | None:
    """How far the floor is out of square: greatest less least depth; None from fewer than three places, since two at
    right angles show nothing of a tilt between them."""
    places = _depths(cut)
    if len(places) < 3:
        return None
    names = ", ".join(each.symbol for each in places)
    values = [each.value for each in places]
    return computed("floor_square", "mm", max(values) - min(values), f"max({names}) - min({names})", places, _SOURCE)


def _given_names(cut: CutReadings) -> list[str]:
    names = ("bore_a", "bore_b", "bore_low_a", "bore_low_b")
    return [name for name in names if getattr(cut, name) is not None]


def _cells(
    job: Job, head: Head, columns: Sequence[tuple[str, Reading | None]], findings: Findings
) -> tuple[_Cell, ...]:
    cells = []
    for symbol, reading in columns:
        if reading is None:
            continue
        mean = bore_at20(job, head, reading, reading.at, symbol, reading.value, findings)
        if reading.count == 1:
            cells.append(_Cell(mean, mean, mean, reading))
            continue
        largest = bore_at20(job, head, reading, reading.at, f"{symbol}_largest", reading.largest, findings)
        smallest = bore_at20(job, head, reading, reading.at, f"{symbol}_smallest", reading.smallest, findings)
        cells.append(_Cell(mean, largest, smallest, reading))
    return tuple(cells)


def _depths(cut: CutReadings) -> list[Figure]:
    return [given(symbol, "mm", reading) for symbol, reading in _depth_cells(cut)]


def _depth_cells(cut: CutReadings) -> list[tuple[str, Reading]]:
    columns = (("depth_a", cut.depth_a), ("depth_b", cut.depth_b), ("depth_c", cut.depth_c), ("depth_d", cut.depth_d))
    return [(symbol, reading) for symbol, reading in columns if reading is not None]


def _mean(symbol: str, figures: Sequence[Figure], source: str) -> Figure:
    names = [each.symbol for each in figures]
    formula = names[0] if len(names) == 1 else f"({' + '.join(names)})/{len(names)}"
    value = sum(each.value for each in figures) / len(figures)
    return computed(symbol, "mm", value, formula, figures, source)


def _extreme(symbol: str, figures: Sequence[Figure], pick: Callable[[Iterable[float]], float]) -> Figure:
    """The largest or smallest reading: it rests on all of them, since any of them may be it."""
    if len(figures) == 1:
        return figures[0]
    formula = f"{pick.__name__}({', '.join(each.symbol for each in figures)})"
    return computed(symbol, "mm", pick(each.value for each in figures), formula, figures, _SOURCE)


def _round(upper: Sequence[_Cell], lower: Sequence[_Cell]) -> Figure | None:
    heights = [cells for cells in (upper, lower) if len(cells) > 1 or any(cell.reading.count > 1 for cell in cells)]
    if not heights:
        return None
    value, parts, inputs = 0.0, [], []
    for cells in heights:
        most, least = [cell.largest for cell in cells], [cell.smallest for cell in cells]
        value = max(value, max(one.value for one in most) - min(one.value for one in least))
        parts.append(f"max({', '.join(one.symbol for one in most)}) - min({', '.join(one.symbol for one in least)})")
        inputs += list({id(one): one for one in (*most, *least)}.values())
    formula = parts[0] if len(parts) == 1 else f"max({parts[0]}, {parts[1]})"
    return computed("out_of_round", "mm", value, formula, inputs, f"{_SOURCE}, at one height")


def _taper(upper: Sequence[_Cell], lower: Sequence[_Cell]) -> Figure | None:
    if not upper or not lower:
        return None
    above = _mean("bore_upper", [cell.mean for cell in upper], _SOURCE)
    below = _mean("bore_lower", [cell.mean for cell in lower], _SOURCE)
    return computed("taper", "mm", above.value - below.value, "bore_upper - bore_lower", (above, below), _SOURCE)
