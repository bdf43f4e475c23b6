"""Valves with insert, interference and bore decided, for what planning makes of the fit; every figure on its own line.

`plan_of` is a pure function of the job, so that `changed` can move one line and all that rests on it moves along.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from msgspec import Struct
from msgspec.structs import replace
from tests.planning import jobs

from seatwright.job.model import (
    Assembly,
    Chill,
    ExpansionLine,
    Given,
    Head,
    Job,
    Material,
    Reading,
    Spread,
    Stated,
    Valve,
)
from seatwright.planning.plan import At20, Bore, Bridge, GuidePlan, InsertPlan, Interference, ValvePlan
from seatwright.planning.plan.figure import Figure, computed, given
from seatwright.text import Span


def metal(
    name: str, *, E: float = 71e3, nu: float = 0.33, expansion: Any = ((300.0, 22e-6),), **more: float
) -> Material:
    """A material or alloy of the shop's own, a line each."""

    def stated(value: float | None) -> Stated | None:
        return None if value is None else Stated(value, "shop", jobs.given(value, f"{value:g}"))

    return Material(
        name,
        False,
        stated(E),
        stated(nu),
        tuple(ExpansionLine(to, per, "shop", jobs.given(per, f"{per:g}")) for to, per in expansion),
        stated(more.get("strength")),
        stated(more.get("yield_strength")),
        stated(more.get("friction_least", 0.10)),
        stated(more.get("friction_most", 0.16)),
        span=jobs.span(),
    )


def chill(name: str, temperature: float, arrives: float | None = None) -> Chill:
    return Chill(name, jobs.degrees(temperature), None if arrives is None else jobs.degrees(arrives), jobs.span())


def assembly(oven: float | None = None, *chills: Chill, press: float | None = None) -> Assembly:
    return Assembly(
        None if oven is None else jobs.degrees(oven),
        chills,
        None if press is None else jobs.given(press, f"{press:g} N"),
    )


def valve(name: str = "E1", od: float = 38.1, interference: tuple[float, float] = (0.07, 0.09), **more: Any) -> Valve:
    """A valve whose insert I38 of this od is measured, with the maker's interference."""
    found = {"insert_od": od, **more.pop("found", {})}
    return jobs.valve(name, insert=jobs.wish("stock", "I38"), bare=True, found=found, interference=interference, **more)


def bench(
    *valves: Valve,
    material: Material | str = "aluminium",
    alloy: Material | str = "tool steel",
    insert: Any = None,
    head: Any = None,
    **more: Any,
) -> Job:
    """A job of one head in this metal; the one insert in stock is 30/38.1, 8 high, without a chamfer."""
    made = [jobs.material(one) if isinstance(one, str) else one for one in (material, alloy)]
    stock = insert or jobs.insert("I38", 38.1, height=8.0, id=30.0, chamfer=None, alloy=made[1].name)
    shop_parts = {key: more.pop(key) for key in ("practice", "assembly", "cutters") if key in more}
    others = [
        jobs.material(name)
        for name in ("tool steel", "cobalt alloy", "nickel alloy", "sintered")
        if name != made[1].name
    ]
    shop = jobs.shop(inserts=(stock,), materials=(made[0],), alloys=(made[1], *others), **shop_parts)
    one = replace(jobs.head(valves, **(head or {})), material=made[0])
    return jobs.job(one, shop=shop, **more)


def _mean(pockets: list[Figure]) -> Figure | None:
    if not pockets:
        return None
    return _sum("pocket_mean", sum(one.value for one in pockets) / len(pockets), "mean", *pockets)


def plan_of(job: Job, head: Head, valve: Valve, status: str = "to-bore") -> ValvePlan:
    """The valve as the stages before have left it."""
    spec, stock = valve.specification, job.shop.inserts[0]
    limits = spec.interference
    assert limits is not None
    assert limits.least is not None
    assert limits.most is not None
    least, most = given("I_least", "mm", limits.least), given("I_most", "mm", limits.most)
    middle = _sum("I_aim", (least.value + most.value) / 2, "(I_least + I_most)/2", least, most)
    measured = valve.measured.insert_od
    if measured is not None:
        od = od_least = od_most = given("od", "mm", measured)
    else:
        assert stock.od is not None
        od = given("od", "mm", stock.od)
        od_least = given("od_least", "mm", stock.od_least) if stock.od_least else od
        od_most = given("od_most", "mm", stock.od_most) if stock.od_most else od
    low = _sum("bore_least", od_most.value - most.value, "od_most - I_most", od_most, most)
    high = _sum("bore_most", od_least.value - least.value, "od_least - I_least", od_least, least)
    aim = _sum("bore_aim", (low.value + high.value) / 2, "(bore_least + bore_most)/2", low, high)

    def maybe(symbol: str, what: Given | None) -> Figure | None:
        return None if what is None else given(symbol, "mm", what)

    found = valve.measured
    pockets = [given("pocket", "mm", cell) for cell in (found.pocket_a, found.pocket_b) if cell is not None]
    return ValvePlan(
        valve.name,
        head.number,
        valve.kind,
        status,
        valve,
        found,
        At20(
            pocket=max(pockets, key=lambda one: one.value, default=None),
            pocket_smallest=min(pockets, key=lambda one: one.value, default=None),
            pocket_mean=_mean(pockets),
        ),
        guide=GuidePlan("fit"),
        insert=InsertPlan(
            stock.name.text,
            measured is not None,
            od,
            od_least,
            od_most,
            maybe("height", stock.height),
            maybe("id", stock.id),
            maybe("chamfer", stock.chamfer),
            alloy=stock.alloy.text if stock.alloy else None,
        ),
        interference=Interference(least, most, middle, "manual"),
        bore=Bore(low, high, aim, low, high, aim),
        cutter="C1",
    )


def plans_of(job: Job) -> tuple[ValvePlan, ...]:
    head = job.heads[0]
    return tuple(plan_of(job, head, one) for one in head.valves)


def bridge(first: str, second: str, left: float) -> Bridge:
    return Bridge((first, second), 1, given("centres", "mm", jobs.given(50.0)), given("left", "mm", jobs.given(left)))


def changed(part: Any, place: Span, by: float) -> Any:
    """The same model with the figure typed at one place moved by a share of itself."""
    if isinstance(part, tuple):
        return tuple(changed(each, place, by) for each in part)
    if isinstance(part, ExpansionLine) and part.given is not None and part.given.span == place:
        return replace(part, per_degree=part.per_degree * (1 + by), given=changed(part.given, place, by))
    if isinstance(part, Stated) and part.given is not None and part.given.span == place:
        return replace(part, value=part.value * (1 + by), given=changed(part.given, place, by))
    if isinstance(part, Given | Spread) and part.span == place:
        return replace(part, value=part.value * (1 + by))
    if isinstance(part, Reading) and part.span == place:
        return replace(
            part, value=part.value * (1 + by), largest=part.largest * (1 + by), smallest=part.smallest * (1 + by)
        )
    if not isinstance(part, Struct) or isinstance(part, Span):
        return part
    return replace(part, **{field: changed(getattr(part, field), place, by) for field in part.__struct_fields__})


def places(part: Any) -> Iterator[Span]:
    """Every place in a model where a figure was typed."""
    if isinstance(part, tuple):
        for each in part:
            yield from places(each)
    elif isinstance(part, Given | Reading | Spread):
        yield part.span
    elif isinstance(part, Struct) and not isinstance(part, Span):
        for field in part.__struct_fields__:
            yield from places(getattr(part, field))


def rests_wrongly(job: Job, figures: Callable[[Job], dict[str, Figure]], by: float = 1e-5) -> list[tuple[str, Span]]:
    """Figures that move with a line they do not name, or name a line they do not move with."""
    before = figures(job)
    rests = {name: set(one.lines()) for name, one in before.items()}
    wrong = []
    for place in dict.fromkeys(places(job)):
        after = figures(changed(job, place, by))
        assert after.keys() == before.keys()
        for name, one in before.items():
            moved = abs(after[name].value - one.value) > 1e-12 * max(1.0, abs(one.value))
            if moved != (place in rests[name]):
                wrong.append((name, place))
    return wrong


def _sum(symbol: str, value: float, formula: str, *inputs: Figure) -> Figure:
    return computed(symbol, "mm", value, formula, inputs, "handbook 5")
