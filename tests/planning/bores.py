"""Valves as they stand before the cutter is set: bore, depth and cutter decided, made by hand."""

from __future__ import annotations

from msgspec.structs import replace
from tests.planning import jobs

from seatwright.job.model import Head, Job
from seatwright.planning.plan import At20, Bore, Depth, GuidePlan, InsertPlan, Interference, PilotPlan, ValvePlan
from seatwright.planning.plan.figure import Figure, given


def figure(value: float, symbol: str = "x", unit: str = "mm") -> Figure:
    return given(symbol, unit, jobs.given(value))


def bored(
    name: str,
    least: float,
    most: float,
    *,
    aim: float | None = None,
    depth: tuple[float, float] | None = (7.0, 7.1),
    pocket: float = 40.0,
    offset: float = 0.01,
    throat: float = 37.0,
    cutter: str = "C1",
    od: float | None = None,
    status: str = "to-bore",
    head: int = 1,
    **cells: object,
) -> ValvePlan:
    """A valve with this bore. aim: the middle unless said; od: of its insert, 0.10 over the aim unless said."""
    middle = (least + most) / 2 if aim is None else aim
    valve = jobs.valve(name, found={"pocket_a": pocket, "pocket_offset": offset, "throat": throat, **cells})
    plan = ValvePlan(
        name=name,
        head=head,
        kind=valve.kind,
        status=status,
        valve=valve,
        found=valve.measured,
        at20=At20(pocket=figure(pocket, "pocket"), throat=figure(throat, "throat")),
        guide=GuidePlan("fit"),
        insert=InsertPlan("X44", True, od=figure(middle + 0.10 if od is None else od, "od")),
        interference=Interference(figure(0.08), figure(0.12), figure(0.10), "manual"),
        bore=Bore(*(figure(value, "D") for value in (least, most, middle, least, most, middle))),
        cutter=cutter,
        pilot=PilotPlan("P900", "dead", offset=figure(0.005, "e")),
    )
    if depth is None:
        return plan
    shallow, deep = depth
    aimed = figure((shallow + deep) / 2, "t")
    return replace(plan, depth=Depth(aimed, figure(shallow, "t"), figure(deep, "t"), "rim"))


def bench(plans: tuple[ValvePlan, ...], **shop_and_job: object) -> tuple[Job, Head]:
    """A job of one head with these valves; keywords of `jobs.job`, and `shop`."""
    head = jobs.head([plan.valve for plan in plans])
    shop = shop_and_job.pop("shop", None) or jobs.shop(cutters=(replace(jobs.cutter(), reach=jobs.given(25)),))
    return jobs.job(head, shop=shop, **shop_and_job), head  # type: ignore[arg-type]
