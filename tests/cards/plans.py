"""Plans made by hand for the tests of the cards, of an invented scenario: every figure is put in, none computed.

`bench_plan()` is a whole job: an iron head of eight valves, two settings, one pocket kept, one valve on hold.
`as_found_plan()` has a head and its valves and nothing measured.
"""

from __future__ import annotations

from msgspec.structs import replace
from tests.planning import jobs

from seatwright.job.model import Extra, Head, Job, Note
from seatwright.planning.plan import (
    At20,
    Bore,
    Bridge,
    Depth,
    DepthStop,
    Fetch,
    FetchInsert,
    FirstCut,
    GuidePlan,
    Hold,
    IfBig,
    InsertPlan,
    Interference,
    Order,
    Overcut,
    PilotPlan,
    Plan,
    Position,
    Setting,
    ValvePlan,
)
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.planning.whole_job.cautions import cautions
from seatwright.text import Message, Severity, Source

TITLE = "iron head, *loose* seats <after> a boil-over | 3*4*5"


def figure(value: float, symbol: str = "x", unit: str = "mm") -> Figure:
    return computed(symbol, unit, value, "by hand", (), "test")


def valve_plan(
    name: str, aim: float, *, status: str = "to-bore", setting: int | None = 1, depth: float = 7.55, x: float = 0.0
) -> ValvePlan:
    """A valve to be bored: aim ± 0.0125 at 20 °C, a hair more at the bench."""
    intake = name.startswith("I")
    valve = jobs.valve(
        name,
        found={
            "pocket_a": aim - 0.55,
            "pocket_b": aim - 0.53,
            "recession": 1.05,
            "stem_height": 47.20,
            "guide_middle": (9.020, 9.022, 9.021),
        },
        guide_clearance=(0.025, 0.055),
    )
    low, high, wide = aim - 0.0125, aim + 0.0125, 1.00002
    return ValvePlan(
        name=name,
        head=1,
        kind=valve.kind,
        status=status,
        valve=valve,
        found=valve.measured,
        at20=At20(pocket=figure(aim - 0.53, "pocket"), throat=figure(35.5 if intake else 30.0, "throat")),
        guide=GuidePlan("fit", clearance=figure(0.054), least=figure(0.025), wear_limit=figure(0.10)),
        insert=InsertPlan(
            "N46A" if intake else "X41",
            True,
            od=figure(aim + 0.0725),
            height=figure(depth - 0.05),
            id=figure(36.0 if intake else 30.5),
            chamfer=figure(0.8),
            chamfer_angle=figure(45.0, unit="deg"),
            alloy="bench-ring" if intake else "tool-steel",
        ),
        interference=Interference(figure(0.060), figure(0.085), figure(0.0725), "common practice of this shop, iron"),
        bore=Bore(
            figure(low),
            figure(high),
            figure(aim),
            figure(low * wide),
            figure(high * wide),
            figure(aim * wide),
            u=figure(0.0031),
            accept_least=figure(low * wide + 0.002),
            accept_most=figure(high * wide - 0.002),
            u_accept=figure(0.0012),
        ),
        depth=Depth(figure(depth), figure(depth - 0.05), figure(depth + 0.05), "deck"),
        floor_left=figure(9.3),
        corner_radius=figure(0.4),
        pilot=PilotPlan("P9005", "dead", figure(9.005), figure(0.004), figure(0.006), figure(0.012), figure(0.05)),
        cutter="C2",
        setting=setting,
        depth_stop=1,
        passes=(figure(aim - 0.3), figure(aim)),
        rpm=figure(70.0, unit="rpm"),
        feed_mm_rev=figure(0.10, unit="mm/rev"),
        minutes=figure(1.35, unit="min"),
        position=Position(figure(x), figure(0.0)),
        if_big=(IfBig("measure-again"), IfBig("oversize", "N47", figure(aim + 0.5)), IfBig("hold")),
    )


def held_plan(name: str, x: float) -> ValvePlan:
    """A valve whose guide is worn out."""
    hold = Hold(
        "guide-worn",
        f"The guide of {name} has 0.132 mm to the stem, at its widest; 0.12 mm is the most. The pilot stands in it.",
        "Replace or sleeve the guide, size it, then measure guide and pocket runout again.",
        figure(0.132),
        figure(0.12),
    )
    return replace(
        valve_plan(name, 41.0, status="hold", setting=None, x=x),
        guide=GuidePlan("worn", clearance=figure(0.132), wear_limit=figure(0.12)),
        holds=(hold,),
        order=Order(figure(41.6), figure(8.0), figure(31.0), ("tool-steel",)),
    )


def setting(number: int, aim: float, names: tuple[str, ...], stop: float = 7.56) -> Setting:
    """A setting of C2 with everything on it, its readings in whole steps of a gauge of 0.002."""
    reading = round((aim - 0.004) / 0.002) * 0.002
    return Setting(
        name=f"C2 at {reading:.3f}",
        number=number,
        head=1,
        cutter="C2",
        reading=figure(reading),
        reading_unit="mm",
        aim=figure(aim),
        least=figure(aim - 0.01),
        most=figure(aim + 0.01),
        valves=names,
        rounding_left=figure(0.0007),
        machine="boring machine",
        gauge="setting gauge",
        temperature_C=figure(22.0, unit="C"),
        indicator="radius",
        indicator_step=figure(0.001),
        master=figure(40.0),
        master_reads=figure(40.002),
        first=FirstCut(figure(aim - 0.1), figure(reading - 0.1)),
        trial_under=figure(0.10),
        overcut=Overcut(figure(0.006), "shop", 0, figure(0.002)),
        pilots=tuple((name, "P9005") for name in names),
        depth_stops=(DepthStop(1, figure(stop), names, figure(stop), "mm"),),
        bench_aim=figure(aim * 1.00002),
    )


def bench_head(temperature: float = 22.0) -> Head:
    names = ("I1", "E1", "I2", "E2", "I3", "E3", "I4", "E4")
    head = jobs.head([jobs.valve(name) for name in names], temperature=jobs.degrees(temperature), least_bridge=2.0)
    return replace(head, notes=(Note("E1 sat askew.", jobs.span(), ("E1",)),))


def bench_job(head: Head, **fields: object) -> Job:
    shop = jobs.shop()
    sources = (Source("job.seat", "job 2214\n", "0" * 64), Source("bench.shop", "shop\n", "1" * 64))
    base: dict[str, object] = {
        "customer": jobs.named("the haulage yard"),
        "notes": (Note("Old inserts back in a bag, 1. & 2. marked_by_cylinder.", jobs.span()),),
        "extras": (Extra("x-bin", "shelf 4, left", jobs.span()),),
    }
    made = jobs.job(head, shop=shop, **{**base, **fields})  # type: ignore[arg-type]
    return replace(made, title=TITLE, sources=sources)


def bench_plan(**fields: object) -> Plan:
    """The whole job; fields: of the job (`units`, `gauge`, …)."""
    head = bench_head()
    job = bench_job(head, **fields)
    intakes, exhausts = ("I1", "I2", "I3", "I4"), ("E1", "E3")
    valves: list[ValvePlan] = []
    for cylinder in (1, 2, 3, 4):
        x = cylinder * 122.0
        valves.append(valve_plan(f"I{cylinder}", 46.517, x=x))
        if cylinder == 2:
            valves.append(held_plan("E2", x + 46.5))
        elif cylinder == 4:
            kept = valve_plan("E4", 40.016, status="kept", setting=None, x=x + 46.5)
            valves.append(replace(kept, bore=None, cutter=None, if_big=(), passes=()))
        else:
            valves.append(valve_plan(f"E{cylinder}", 41.018, setting=2, depth=8.25, x=x + 46.5))
    messages = (
        Message(
            Severity.WARNING,
            "bridge-near",
            jobs.span(),
            "Between I1 and E1 2.2 mm are left; 2 mm is the least.",
            "Measure the centres over two pins.",
            valves=("I1", "E1"),
        ),
        Message(
            Severity.NOTICE, "metal-around-not-given", jobs.span(), "`metal-around` is not given: ranges.", "Give it."
        ),
        Message(Severity.HOLD, "guide-worn", jobs.span(), valves[3].holds[0].text, "", valves=("E2",)),
    )
    plans = tuple(valves)
    bridges = (Bridge(("I1", "E1"), 1, figure(46.48), figure(2.2), figure(2.0)),)
    return Plan(
        job=job,
        heads=(head,),
        valves=plans,
        settings=(setting(1, 41.018, exhausts, 8.26), setting(2, 46.517, intakes)),
        bridges=bridges,
        fetch=Fetch(
            cutters=("C2",),
            pilots=("P9005",),
            gauge="setting gauge",
            bore_gauge="bore gauge",
            master=figure(40.0),
            ring=figure(44.0),
            inserts=(FetchInsert("N46A", 4, 0), FetchInsert("X41", 2, None)),
            order=(Order(figure(41.6), figure(8.0), figure(31.0), ("tool-steel",)),),
        ),
        cautions=cautions(job, plans, bridges),
        not_checked=("metal-around-not-given",),
        messages=messages,
    )


def as_found_plan() -> Plan:
    """A head and its valves: nothing measured."""
    names = ("I1", "E1", "I2", "E2")
    head = jobs.head(
        [jobs.valve(name, bare=True, stem=8.0, sodium_filled=name.startswith("E")) for name in names],
        material_name="aluminium",
    )
    job = bench_job(head)
    valves = tuple(
        ValvePlan(each.name, 1, each.kind, "not-planned", each, each.measured, At20()) for each in head.valves
    )
    return Plan(job, (head,), valves, cautions=cautions(job, valves, ()))


def one_reading_changed(plan: Plan) -> Plan:
    """The same plan with another reading for the second setting."""
    second = plan.settings[1]
    changed = replace(second, name="C2 at 46.519", reading=given("reading", "mm", jobs.given(46.519)))
    return replace(plan, settings=(plan.settings[0], changed))
