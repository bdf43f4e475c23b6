"""Plans to draw, and what is read back off a drawing."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from pathlib import Path as File
from typing import Any
from xml.etree import ElementTree

from msgspec.structs import replace
from tests.cards import plans
from tests.planning import jobs

from seatwright.cards.drawings.head import head_from_deck
from seatwright.cards.drawings.pocket import pocket_in_section
from seatwright.cards.drawings.seat import seat_in_section
from seatwright.cards.drawings.shapes import Drawing
from seatwright.cards.drawings.svg import svg
from seatwright.cards.templating import texts
from seatwright.commands.jobs.outcome import read_and_plan
from seatwright.job.model import Head
from seatwright.planning.plan import (
    AssemblyPlan,
    HeatAndChill,
    HeightLimits,
    Plan,
    SeatCut,
    SeatPlan,
    ValvePlan,
)

JOBS = File(__file__).resolve().parents[2] / "jobs"

JOBS = File(__file__).resolve().parents[2] / "jobs"


def laid_out(places: Sequence[tuple[str, float, float]], bore: float, **fields: Any) -> Plan:
    """A plan whose valves lie at these places, all bored to one size, in four settings."""
    valves = [replace(jobs.valve("I1"), name=name) for name, _, _ in places]
    bored = tuple(
        replace(plans.valve_plan("I1", bore), name=valve.name, valve=valve, setting=index % 4 + 1)
        for index, valve in enumerate(valves)
    )
    layout = tuple(jobs.place(*place) for place in places)
    head = jobs.head(valves, temperature=jobs.degrees(22.0), layout=layout, **fields)
    return Plan(plans.bench_job(head), (head,), bored)


def in_line(count: int) -> list[tuple[str, float, float]]:
    """Valves in one row, two a cylinder."""
    return [(f"{'IE'[n % 2]}{n // 2 + 1}", 60.0 * n, 0.0) for n in range(count)]


def in_two_rows(count: int) -> list[tuple[str, float, float]]:
    """Valves in two rows, four a cylinder."""
    spots = (("I%dA", -20.0, 20.0), ("I%dB", 20.0, 20.0), ("E%dA", -20.0, -20.0), ("E%dB", 20.0, -20.0))
    return [(spots[n % 4][0] % (n // 4 + 1), spots[n % 4][1] + 100.0 * (n // 4), spots[n % 4][2]) for n in range(count)]


def iron_head() -> tuple[Plan, Head]:
    """The eight-valve head with its layout, its injectors and its cylinders, one bridge near its least."""
    plan = plans.bench_plan()
    places, holes = [], []
    for cylinder in (1, 2, 3, 4):
        x = cylinder * 122.0
        places += [jobs.place(f"I{cylinder}", x, 0), jobs.place(f"E{cylinder}", x + 46.48, 0)]
        holes += [
            jobs.hole(f"injector {cylinder}", x + 23, 24, 7),
            jobs.hole(f"cylinder-{cylinder}", x + 23, 0, 104, "cylinder"),
        ]
    head = replace(plan.heads[0], layout=tuple(places), holes=tuple(holes))
    return replace(plan, heads=(head,)), head


def seated() -> tuple[Plan, ValvePlan]:
    """A valve of 42.0 with a margin of 1.6 and a setback of 0.8 that is to lie 0.9 below the deck, on a seat of 45°."""
    figure = plans.figure
    plan = plans.bench_plan()
    first = plan.valves[0]
    said = replace(
        first.valve.specification,
        head_diameter=jobs.given(42.0),
        margin=jobs.given(1.6),
        face_angle=jobs.given(44.5),
        setback=jobs.given(0.8),
    )
    depth = 0.9 + 1.6 + 0.8 * math.tan(math.radians(44.5))
    seat = SeatPlan(
        outer=figure(40.4),
        inner=figure(38.0),
        width=figure(1.7),
        width_least=figure(1.5),
        width_most=figure(1.9),
        angle=figure(45.0),
        cuts=(
            SeatCut("top", figure(30.0), inner=figure(40.4)),
            SeatCut("seat", figure(45.0), figure(40.4), figure(38.0), figure(1.7)),
            SeatCut("throat", figure(60.0), outer=figure(38.0)),
        ),
        gauge_depth=figure(depth),
        carries="outer",
        recession=HeightLimits(figure(0.7), figure(1.1), figure(0.9)),
    )
    pairs = (
        HeatAndChill(figure(22.0), "none", figure(-0.08), "press"),
        HeatAndChill(figure(160.0), "none", figure(-0.01), "press"),
        HeatAndChill(figure(22.0), "dry ice", figure(-0.05), "press"),
        HeatAndChill(figure(160.0), "dry ice", figure(0.04), "drop-in"),
    )
    going_in = AssemblyPlan(figure(160.0), "dry ice", "drop-in", figure(0.04), pairs, 1, grabs_at_C=figure(12.0))
    valve = replace(first, valve=replace(first.valve, specification=said), seat=seat, assembly=going_in)
    return replace(plan, valves=(valve, *plan.valves[1:])), valve


def all_drawings(plan: Plan) -> list[str]:
    """Every drawing of a plan."""
    found: list[Drawing | None] = [head_from_deck(plan, head) for head in plan.heads]
    for valve in plan.valves:
        found += [pocket_in_section(plan, valve), seat_in_section(plan, valve)]
    return [as_svg(each) for each in found if each is not None]


def demo_plans() -> list[Plan]:
    """The plans of the demo jobs."""
    found = [read_and_plan(str(job)).plan for job in sorted(JOBS.glob("*.seat"))]
    return [plan for plan in found if plan is not None]


def as_svg(drawing: Drawing) -> str:
    """A drawing as the cards have it, without a shop's own templates."""
    return svg(drawing, texts({}))


def read(drawn: Drawing | str | None) -> ElementTree.Element:
    """An SVG, which must be well-formed XML by itself."""
    assert drawn is not None
    return ElementTree.fromstring(drawn if isinstance(drawn, str) else as_svg(drawn))


def lettering(drawn: Drawing | None) -> list[str]:
    """All words: in the drawing, and below it."""
    assert drawn is not None
    return [*("".join(text.itertext()) for text in read(drawn).iter("text")), drawn.caption]


def scale_of(drawing: Drawing) -> float:
    """The scale that the drawing says it is made to."""
    found = re.match(r"([\d.]+) : ([\d.]+)", drawing.caption)
    assert found is not None
    return float(found[1]) / float(found[2])


def overlaps(drawing: Drawing) -> list[tuple[str, str]]:
    texts = drawing.texts
    return [(a.words, b.words) for i, a in enumerate(texts) for b in texts[i + 1 :] if a.box.meets(b.box)]


def outside(drawing: Drawing) -> list[str]:
    return [
        text.words
        for text in drawing.texts
        if text.box.left < -0.01 or text.box.top < -0.01
        or text.box.right > drawing.width + 0.01 or text.box.bottom > drawing.height + 0.01
    ]  # fmt: skip
