"""What to fetch from the rack for this job, and what to order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from msgspec.structs import replace

from seatwright.job.model import Job, standing_masters
from seatwright.planning.basis.masters import nearest_master
from seatwright.planning.basis.wording import name_key
from seatwright.planning.plan import AssemblyPlan, Fetch, FetchChill, FetchInsert, Order, Setting, Status, ValvePlan
from seatwright.planning.plan.figure import Figure, given
from seatwright.planning.whole_job.caution_conditions import BURNS_FROM


def fetch(job: Job, plans: tuple[ValvePlan, ...], settings: tuple[Setting, ...]) -> Fetch:
    """Cutters, pilots, gauges, master and ring nearest the size, inserts by name and count, heat, chill, press."""
    working = [plan for plan in plans if plan.status not in (Status.HOLD, Status.FINISHED) and not plan.left_alone]
    ways = [plan.assembly for plan in working if plan.assembly is not None]
    renewed = [plan for plan in plans if plan.guide_to_renew and plan.status is not Status.HOLD]
    ways += [plan.guide.assembly for plan in renewed if plan.guide.assembly is not None]
    bored = [setting.reading or setting.aim for setting in settings]
    pilots = {
        plan.pilot.name
        for plan in working
        if plan.pilot and plan.pilot.name and (plan.setting is not None or plan.insert_stays)
    }
    master = nearest_master(standing_masters(job.gauge.masters), _middle(bored)) if job.gauge and bored else None
    bench = [plan.bore.bench_aim for plan in working if plan.bore is not None]
    ring = nearest_master(standing_masters(job.bore_gauge.rings), _middle(bench)) if job.bore_gauge and bench else None
    return Fetch(
        cutters=tuple(dict.fromkeys(setting.cutter for setting in settings)),
        pilots=tuple(each.name.text for each in job.shop.pilots if each.name.text in pilots),
        gauge=job.gauge.name.text if job.gauge and settings else None,
        bore_gauge=job.bore_gauge.name.text if job.bore_gauge and bench else None,
        master=given("master", "mm", master.size) if master else None,
        ring=given("ring", "mm", ring.size) if ring else None,
        inserts=_inserts(job, plans, working),
        guides=_guides(job, renewed),
        reamers=_reamers(job, [*renewed, *(plan for plan in plans if plan.guide.verdict == "tight")]),
        order=_orders(plans),
        heat_C=_most([way.head_C for way in ways if way.head_C.value > BURNS_FROM]),
        chill=_chill(job, ways),
        press_N=_most([way.press_N for way in ways if way.press_N is not None]),
    )


def _middle(figures: Sequence[Figure]) -> float:
    values = [figure.value for figure in figures]
    return (min(values) + max(values)) / 2


def _most(figures: Sequence[Figure]) -> Figure | None:
    return max(figures, key=lambda figure: figure.value, default=None)


def _inserts(job: Job, plans: Sequence[ValvePlan], working: Sequence[ValvePlan]) -> tuple[FetchInsert, ...]:
    """In the order of the shop's list, each with how many stay on the shelf where they are counted.

    Of a count without a date nobody knows which pieces were missing: those that are in already are taken to be.
    """
    names = [name for plan in working if (name := _goes_in(plan)) is not None]
    wanted = Counter(name_key(name) for name in names)
    listed = {name_key(insert.name.text): insert for insert in job.shop.inserts}
    found = []
    for key, insert in listed.items():
        if key in wanted:
            counted_on = insert.counted.date if insert.counted is not None else None
            taken = sum(
                name_key(_goes_in(plan) or "") == key
                and not (plan.valve.left_shelf is not None and plan.valve.left_shelf.before_count(counted_on))
                for plan in (working if counted_on is None else _served(plans))
            )
            left = None if insert.told is None else insert.told - taken
            found.append(FetchInsert(insert.name.text, wanted[key], left))
    others = {name_key(name): name for name in names if name_key(name) not in listed}
    return (*found, *(FetchInsert(name, wanted[key]) for key, name in others.items()))


def _guides(job: Job, plans: Sequence[ValvePlan]) -> tuple[FetchInsert, ...]:
    """Guides and liners in the order of the shop's list."""
    found = []
    for guide in job.shop.guides:
        served = [plan for plan in plans if name_key(plan.guide.name or "") == name_key(guide.name.text)]
        counted_on = None if guide.counted is None else guide.counted.date
        taken = sum(
            plan.valve.guide_left_shelf is None or not plan.valve.guide_left_shelf.before_count(counted_on)
            for plan in served
        )
        if served:
            left = None if guide.told is None else max(guide.told - taken, 0)
            found.append(FetchInsert(guide.name.text, len(served), left))
    return tuple(found)


def _reamers(job: Job, plans: Sequence[ValvePlan]) -> tuple[str, ...]:
    """For the holes, and for the guides once they are in."""
    used = {plan.guide.reamer for plan in plans}
    used |= {plan.guide.bore.reamer for plan in plans if plan.guide.bore is not None}
    return tuple(each.name.text for each in job.shop.reamers if each.name.text in used)


def _served(plans: Sequence[ValvePlan]) -> list[ValvePlan]:
    return [plan for plan in plans if plan.status is not Status.HOLD and not plan.left_alone]


def _goes_in(plan: ValvePlan) -> str | None:
    """The insert that goes in: the next oversize where the bore has outgrown the one that was chosen."""
    if plan.status == Status.OVERSIZE and plan.next is not None:
        return plan.next.insert
    return None if plan.insert is None else plan.insert.name


def _orders(plans: Sequence[ValvePlan]) -> tuple[Order, ...]:
    """Each different order once, in the order of the valves, with all valves that it is for."""
    kept: dict[tuple[object, ...], Order] = {}
    for plan in plans:
        order = plan.order
        if order is not None:
            figures = (order.od, order.height, order.height_most, order.id)
            sizes = tuple(round(figure.value, 6) if figure is not None else None for figure in figures)
            key = (*sizes, order.alloy)
            kept[key] = _joined(kept[key], order) if key in kept else order
    return tuple(kept.values())


def _joined(one: Order, other: Order) -> Order:
    """One order for the valves of both, and the listed inserts that serve them all."""
    serves = tuple(name for name in one.serves if name in other.serves)
    return replace(one, valves=(*one.valves, *other.valves), serves=serves)


def _chill(job: Job, ways: Sequence[AssemblyPlan]) -> FetchChill | None:
    """The coldest that any valve's way asks for."""
    names = {way.chill for way in ways}
    chills = [chill for chill in job.shop.assembly.chills if chill.name in names]
    coldest = min(chills, key=lambda chill: chill.temperature.value, default=None)
    return None if coldest is None else FetchChill(coldest.name, given("chill", "C", coldest.temperature))
