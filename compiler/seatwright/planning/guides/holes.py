"""The hole that a new guide goes into: the head's with the old guide out, or, for a liner, the old guide's own bore."""

from __future__ import annotations

from msgspec import Struct

from seatwright.job.model import Head, Job, Measured, Reading
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.temperatures import pocket_at20
from seatwright.planning.plan import Started
from seatwright.planning.plan.figure import Figure, computed, given

_SOURCE = "handbook 16"


class FoundHole(Struct, frozen=True):
    """Smallest and largest of all readings of a hole, at 20 °C; the maker's limits where it is not measured."""

    least: Figure
    most: Figure
    measured: bool


def hole_of(job: Job, head: Head, plan: Started, kind: str, findings: Findings) -> FoundHole | None:
    """What there is to go into. kind: guide, or liner; None where nobody knows it."""
    if kind == "liner":
        old = _old_guide(plan)
        cells = (
            ("guide_top", old.guide_top),
            ("guide_middle", old.guide_middle),
            ("guide_bottom", old.guide_bottom),
        )
        return _measured(job, head, cells, findings)
    found = plan.found
    holes = (
        ("hole_top", found.guide_hole_top),
        ("hole_middle", found.guide_hole_middle),
        ("hole_bottom", found.guide_hole_bottom),
    )
    return _measured(job, head, holes, findings) or _makers(plan)


def _old_guide(plan: Started) -> Measured:
    """The readings of the guide that a liner goes into; once it is in, they stand with what it took the place of."""
    for one in reversed(plan.valve.replaced):
        if one.part == "guide" and (one.found.guide_top or one.found.guide_middle or one.found.guide_bottom):
            return one.found
    return plan.found if not plan.guide_renewed else Measured()


def _measured(
    job: Job, head: Head, cells: tuple[tuple[str, Reading | None], ...], findings: Findings
) -> FoundHole | None:
    read = [(symbol, cell) for symbol, cell in cells if cell is not None]
    if not read:
        return None

    def at20(largest: bool) -> list[Figure]:
        return [
            pocket_at20(job, head, cell, symbol, cell.largest if largest else cell.smallest, findings)
            for symbol, cell in read
        ]

    return FoundHole(_extreme("hole_least", at20(False), "min"), _extreme("hole_most", at20(True), "max"), True)


def _extreme(symbol: str, figures: list[Figure], pick: str) -> Figure:
    if len(figures) == 1:
        return figures[0].called(symbol)
    value = (max if pick == "max" else min)(figure.value for figure in figures)
    names = ", ".join(figure.symbol for figure in figures)
    return computed(symbol, "mm", value, f"{pick}({names})", figures, _SOURCE)


def _makers(plan: Started) -> FoundHole | None:
    limits = plan.valve.specification.guide_hole
    if limits is None or limits.least is None or limits.most is None:
        return None
    return FoundHole(given("hole_least", "mm", limits.least), given("hole_most", "mm", limits.most), False)
