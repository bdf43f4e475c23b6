"""Changing one typed figure changes exactly the figures that name its line.

Each figure of the demo jobs is moved by one in its last digit in the source text and the job planned again. A figure
that does not name the place must stand as it was. Where a choice turns over (an insert, a pilot, a setting's members,
a cutter, a status and the like) everything may follow, so such a nudge is passed over, counted, their share bounded.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import pytest
from tests.planning.nudges import Cell, choices, figures, measured_cells, planned_with, typed_cells
from tests.planning.sources import JOBS

from seatwright.planning.plan.figure import Figure
from seatwright.text import Span

DEMO = sorted(path.name for path in JOBS.glob("*.seat"))
ALTERNATIVE = re.compile(
    r"\b(max|min|largest|smallest|least over|nearest|middle|midway|step|steps|straight line|abs|mean of)\b|^\d+ \* \("
)
"""What a formula says that takes one of several figures, rounds, or counts passes: what it names may not matter now."""


@dataclass
class Found:
    """What came of many nudges."""

    compared: int = 0
    skipped: int = 0
    moved: int = 0
    unnamed: list[str] = field(default_factory=list)
    idle: list[str] = field(default_factory=list)


def nudge(job: str, cells: Iterable[Cell]) -> Found:
    """Compare every figure of a job after each nudge with what it was before."""
    found = Found()
    before = planned_with(job)
    assert before is not None
    was, chosen = figures(before), choices(before)
    rests_on = {name: set(figure.lines()) for name, figure in was.items()}
    for cell in cells:
        after = planned_with(job, cell)
        if after is None or choices(after) != chosen:
            found.skipped += 1
            continue
        found.compared += 1
        now = figures(after)
        for name in was.keys() | now.keys():
            one, other = was.get(name), now.get(name)
            moves = one is None or other is None or abs(one.value - other.value) > 1e-12
            names = one is not None and cell.span in rests_on[name]
            found.moved += moves
            if moves and not names:  # also a figure that comes or goes
                found.unnamed.append(f"{job}: {cell.name} {cell.typed} moves {name}, which does not name it")
            sure = one is not None and one.symbol == "P" and min(one.value, 1 - one.value) < 1e-9
            if names and not moves and one is not None and not sure and not _has_alternative(one, cell.span):
                found.idle.append(
                    f"{job}: {name} = {one.formula} names {cell.name} {cell.typed}, which does not matter"
                )
    return found


def _has_alternative(figure: Figure, place: Span) -> bool:
    """Whether a formula between a figure and a place takes one of several, or rounds."""
    return any(ALTERNATIVE.search(part.formula) and place in set(part.lines()) for part in figure.walk())


def measured(job: str) -> list[Cell]:
    before = planned_with(job)
    assert before is not None
    return [cell for cell in measured_cells(before.job) if cell.is_one]


def every_third() -> dict[str, Sequence[Cell]]:
    """A sample that takes every column: the step of 3 goes through the rows."""
    return {job: measured(job)[::3] for job in DEMO}


def test_a_measured_figure_moves_only_figures_that_name_it():
    sample = every_third()
    assert sum(map(len, sample.values())) >= 150
    found = [nudge(job, cells) for job, cells in sample.items()]
    assert [text for each in found for text in each.unnamed] == []
    assert [text for each in found for text in each.idle] == []
    assert sum(each.moved for each in found) > 500
    assert sum(each.skipped for each in found) < 0.05 * sum(each.compared for each in found)


@pytest.mark.slow
@pytest.mark.parametrize("job", DEMO)
def test_every_measured_figure_moves_only_figures_that_name_it(job):
    cells = measured(job)
    found = nudge(job, cells)
    assert found.unnamed == []
    assert found.idle == []
    assert found.skipped <= 0.10 * max(len(cells), 10)


@pytest.mark.slow
@pytest.mark.parametrize("job", DEMO)
def test_a_typed_figure_of_job_or_shop_moves_only_figures_that_name_it(job):
    before = planned_with(job)
    assert before is not None
    cells = [cell for cell in typed_cells(before.job) if cell.is_one][::4]
    found = nudge(job, cells)
    assert found.unnamed == []
    assert found.skipped <= 0.15 * max(len(cells), 10)
