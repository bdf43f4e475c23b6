"""Valves whose insert and bore are decided, with what was cut and finished; and the demo jobs of the later life."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from msgspec.structs import replace
from tests.planning import jobs

from seatwright.job import read
from seatwright.job.model import CutReadings, Finished, Reading
from seatwright.planning.basis.findings import Findings
from seatwright.planning.found.brought_to_20 import start
from seatwright.planning.plan import Bore, CleanUp, Depth, InsertPlan, Interference, Plan, ValvePlan, into
from seatwright.planning.plan.figure import Figure, computed
from seatwright.planning.planner import plan as plan_job

Cell = float | tuple[float, ...]
DEMO_JOBS = Path(__file__).parents[2] / "jobs"


def figure(symbol: str, value: float) -> Figure:
    return computed(symbol, "mm", value, "", (), "test")


def started(job: Any, findings: Findings | None = None) -> tuple[ValvePlan, ...]:
    """The valves of the first head as planning begins."""
    return tuple(into(ValvePlan, plan) for plan in start(job, job.heads[0], findings or Findings()))


def cut_readings(*bores: Cell, low: tuple[Cell, ...] = (), depths: tuple[Cell, ...] = (), **more: Any) -> CutReadings:
    """bores: bore-a and bore-b; low: the same near the floor; depths: a to d. A cell of several readings is a tuple."""

    def cell(typed: Cell) -> Reading:
        return jobs.reading(*typed) if isinstance(typed, tuple) else jobs.reading(typed)

    cells: dict[str, Any] = dict(zip(("bore_a", "bore_b"), map(cell, bores), strict=False))
    cells |= dict(zip(("bore_low_a", "bore_low_b"), map(cell, low), strict=False))
    names = ("depth_a", "depth_b", "depth_c", "depth_d")
    cells |= dict(zip(names, map(cell, depths), strict=False))
    for name, value in more.items():
        cells[name] = jobs.reading(value) if isinstance(value, float) else value
    return CutReadings(**cells)


def finished_readings(**cells: Any) -> Finished:
    made = {
        name: jobs.reading(cell) if isinstance(cell, float) else jobs.named(cell) if isinstance(cell, str) else cell
        for name, cell in cells.items()
    }
    return Finished(**made)


def decided(
    plan: ValvePlan, *, od: float = 44.10, least: float = 0.08, most: float = 0.12, name: str = "X44",
    depth: tuple[float, float] = (7.00, 7.10), needed: float = 43.90,
) -> ValvePlan:  # fmt: skip
    """A valve with its insert, fit, bore and depth: 44.10 less 0.08 to 0.12 is a bore of 43.98 to 44.02."""
    measured = plan.at20.insert_od
    size = measured or figure("od", od)
    limits = [figure(symbol, value) for symbol, value in (("I_least", least), ("I_most", most))]
    bore_least, bore_most = size.value - most, size.value - least
    figures = [figure(s, v) for s, v in (("least", bore_least), ("most", bore_most), ("aim", size.value - 0.10))]
    return replace(
        plan,
        insert=InsertPlan(name, measured is not None, size, size, size, figure("height", 7.0)),
        interference=Interference(*limits, figure("I_aim", (least + most) / 2), "test"),
        bore=Bore(*figures, *figures),
        depth=Depth(figure("t", sum(depth) / 2), figure("t_least", depth[0]), figure("t_most", depth[1]), "deck"),
        clean_up=CleanUp(figure("D_clean", needed)),
    )


@cache
def demo(name: str) -> Plan:
    """A demo job, read and planned as the commands do."""
    job, messages = read(name, lambda path: (DEMO_JOBS / path).read_bytes())
    assert job is not None, [message.text for message in messages]
    return plan_job(job)
