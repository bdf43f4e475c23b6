"""Which guide goes to which valve: one choice over all valves of all heads, since there is one stock (handbook 16).

As many valves as possible are served; then as few liners, then as few holes that are cut as can be, those that a reamer
of the shop cuts before those that are bored on the machine; then the smallest guides.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct, field

from seatwright.handbook.assignment import assign
from seatwright.job.model import Head, Job
from seatwright.planning.basis.wording import name_key
from seatwright.planning.guides.serving import GuideNotServing, ServingGuide
from seatwright.planning.plan import GuideBore, ValvePlan

_APART = 0.10
"""A measured guide belongs to the listed one whose od is nearest and at most so far away [mm]; language.md."""

_NM = 1_000_000


class Case(Struct):
    """A valve that gets a guide: its head, what its bore is to come to, the guides that serve it, and why others do
    not. in_hand: place of the guide that was measured for it; strange: one was, and none of the shop's is near."""

    head: Head
    plan: ValvePlan
    bore: GuideBore | None
    allowed: tuple[int, ...] = ()
    in_hand: int | None = None
    strange: bool = False
    serving: dict[int, ServingGuide] = field(default_factory=dict)
    reasons: dict[int, GuideNotServing] = field(default_factory=dict)


def allowed_guides(job: Job, plan: ValvePlan) -> tuple[tuple[int, ...], int | None, bool]:
    """Places of the guides that the job allows a valve, the one that was measured, and whether it is nobody's."""
    wish, measured = plan.valve.specification.guide, plan.found.guide_od
    places = tuple(
        place
        for place, guide in enumerate(job.shop.guides)
        if wish is not None and (wish.name is None or name_key(guide.name.text) == name_key(wish.name))
    )
    if measured is None:
        return places, None, False
    near = {
        place: abs(guide.od.value - measured.value)
        for place in places
        for guide in (job.shop.guides[place],)
        if guide.od is not None
    }
    nearest = min(near, key=lambda place: near[place], default=None)
    if nearest is None:
        return places, None, False
    if near[nearest] > _APART + 1e-9:
        return places, None, True
    return (nearest,), nearest, False


def choose_guides(job: Job, cases: Sequence[Case]) -> Mapping[str, ServingGuide]:
    """The guide of each valve that gets one. A guide that was measured for a valve is there, whatever is counted."""
    columns = sorted({place for case in cases for place in case.serving})
    if not columns:
        return {}
    costs = [[_cost(case.serving.get(place)) for place in columns] for case in cases]
    on_hand = [_on_hand(job, cases, place) for place in columns]
    # What was missing already when they were counted is not taken from them again: which those were is settled first.
    gone = [[_missing_already(job, case, place) for place in columns] for case in cases]
    if any(map(any, gone)):
        more = [sum(column) for column in zip(*gone, strict=True)]
        first = assign(costs, _with_more(on_hand, more)).columns
        taken = [column if column is not None and gone[at][column] else None for at, column in enumerate(first)]
        costs = [
            row if column is None else [cost if at == column else None for at, cost in enumerate(row)]
            for row, column in zip(costs, taken, strict=True)
        ]
        on_hand = _with_more(on_hand, [taken.count(at) for at in range(len(columns))])
    found = assign(costs, on_hand)
    return {
        case.plan.name: case.serving[columns[column]]
        for case, column in zip(cases, found.columns, strict=True)
        if column is not None
    }


def _missing_already(job: Job, case: Case, place: int) -> bool:
    """Whether a valve's new guide was in, and so off the shelf, when this kind was counted."""
    counted, left = job.shop.guides[place].counted, case.plan.valve.guide_left_shelf
    return place in case.serving and counted is not None and left is not None and left.before_count(counted.date)


def _with_more(on_hand: Sequence[int | None], more: Sequence[int]) -> list[int | None]:
    return [None if count is None else count + add for count, add in zip(on_hand, more, strict=True)]


def _cost(one: ServingGuide | None) -> tuple[int, int, int] | None:
    if one is None:
        return None
    middle = (one.od_least.value + one.od_most.value) / 2
    return int(one.guide.kind == "liner"), one.cut, round(middle * _NM)


def _on_hand(job: Job, cases: Sequence[Case], place: int) -> int | None:
    told = job.shop.guides[place].told
    in_hand = sum(case.in_hand == place for case in cases)
    return None if told is None else max(told, in_hand)
