"""What holds for any job of the inserts that it asks for: nothing is bored on what nobody measured, nor outside the
maker's limits, and what a hold says lifts it."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.whole.generated import Files, jobs

from seatwright.job import read
from seatwright.planning.plan import Order, Plan, Status, ValvePlan
from seatwright.planning.planner import plan

_WISH = "  insert choose\n"
_WISHES = (_WISH, "  insert X0\n", "  insert X1\n", "  insert turned\n", "  insert stays\n", "  insert none\n")
_POCKET = (4, 5)  # the columns pocket-a and pocket-b


@st.composite
def asking(draw: st.DrawFn) -> Files:
    """A job whose first valve may lack its pocket, with any wish, and perhaps the maker's bore."""
    files = draw(jobs(4))
    job = files.job.replace(_WISH, draw(st.sampled_from(_WISHES)))
    if draw(st.booleans()):
        least = 37.9 + draw(st.integers(0, 30)) / 10
        job = job.replace("  guide-length", f'  bore {least:.3f} to {least + 0.03:.3f} mm "made up"\n  guide-length')
    return replace(files, job=_without_pocket(job) if draw(st.booleans()) else job)


def _without_pocket(job: str) -> str:
    head, _, rows = job.partition("throat\n")
    first, _, others = rows.partition("\n")
    cells = first.split()
    cells = ["-" if place in _POCKET else cell for place, cell in enumerate(cells)]
    return f"{head}throat\n  {'  '.join(cells)}\n{others}"


def planned(files: Files) -> Plan:
    job, messages = read("job.seat", files.load)
    errors = {message.slug for message in messages if message.severity == "error"}
    assert errors <= {"od-under-bore"}, errors
    assume(job is not None)  # a named insert that never grips in the maker's bore is an error, not a plan
    assert job is not None
    return plan(job)


def held(files: Files, valve: str) -> set[str]:
    return {hold.slug for each in planned(files).valves if each.name == valve for hold in each.holds}


@settings(max_examples=300, deadline=None)
@given(asking())
def test_no_valve_is_to_bore_without_a_measured_pocket_or_a_word(files: Files) -> None:
    made = planned(files)
    for valve in made.valves:
        if valve.bore is None or valve.status != Status.TO_BORE or valve.at20.pocket is not None:
            continue
        wish = valve.valve.specification.insert
        assert wish is not None
        assert wish.kind == "stock", valve.name
        said = [message for message in made.messages if message.slug == "pocket-not-measured"]
        assert any(valve.name in message.valves and message.severity == "warning" for message in said)


@settings(max_examples=300, deadline=None)
@given(asking())
def test_no_bore_lies_outside_the_makers_limits_or_below_what_cleans_up(files: Files) -> None:
    for valve in planned(files).valves:
        maker, bore = valve.valve.specification.bore, valve.bore
        if bore is None:
            continue
        assert bore.least.value <= bore.aim.value <= bore.most.value
        if maker is not None and maker.least is not None and maker.most is not None:
            assert maker.least.value - 1e-9 <= bore.least.value
            assert bore.most.value <= maker.most.value + 1e-9
        if valve.clean_up is not None:
            assert bore.least.value >= valve.clean_up.needed.value - 1e-9


@settings(max_examples=300, deadline=None)
@given(asking())
def test_every_hold_says_what_lifts_it_and_does(files: Files) -> None:
    for valve in planned(files).valves:
        for hold in valve.holds:
            assert hold.help
            lifted = _lifted(files, valve, hold.slug)
            if lifted is not None:
                assert hold.slug not in held(lifted, valve.name), hold


def _lifted(files: Files, valve: ValvePlan, slug: str) -> Files | None:
    """The job with what the hold asks for; None where that is not a thing to write."""
    if slug == "pocket-not-measured":
        return replace(files, job=files.job.replace("  -  -  ", "  38.00 mm  38.01 mm  "))
    if slug in ("bore-over-maker", "outside-makers-bore", "no-makers-insert"):
        return replace(files, job="\n".join(line for line in files.job.split("\n") if not line.startswith("  bore ")))
    if valve.order is None or "  bore " in files.job:
        return None
    shop = files.shop.replace("practice\n", f"{_row(valve.order)}practice\n")
    if slug == "no-insert-fits":
        return replace(files, shop=shop)
    if slug in ("does-not-clean-up", "floor-does-not-clean-up"):  # of the insert that was asked for by name
        job = files.job.replace("  insert X0\n", "  insert ORDERED\n").replace("  insert X1\n", "  insert ORDERED\n")
        return replace(files, job=job, shop=shop)
    return None


def _row(order: Order) -> str:
    """A row of the stock of what was to be ordered. Within one insert's limits, the least od is what is asked for."""
    od = (40.0 if order.od is None else order.od.value) + 0.006
    height = 7.0 if order.height is None else order.height.value + 0.01
    return f"  ORDERED  {od:.3f}  {od - 0.004:.3f}  {od + 0.004:.3f}  {height:.3f}  28  0.8  tool-steel  any  8\n"
