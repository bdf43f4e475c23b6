"""What is fetched from the rack."""

from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.bores import bench, bored, figure
from tests.planning.phases import at

from seatwright.job.model import Assembly, Chill, Master
from seatwright.planning.basis.findings import Findings
from seatwright.planning.machine.settings import settings
from seatwright.planning.plan import AssemblyPlan, Next, Order, Passed, ValvePlan, into
from seatwright.planning.whole_job.fetch import fetch


def fetched(*plans, inserts=(), assembly=None, gauge=None):
    tools = (replace(jobs.cutter(), reach=jobs.given(25)),)
    shop = jobs.shop(cutters=tools, inserts=inserts, pilots=(jobs.pilot("P900", 9.0),), assembly=assembly or Assembly())
    job, head = bench(plans, shop=shop, gauge=gauge or jobs.gauge())
    made = settings(job, head, at(Passed, plans), Findings(), 1)
    return fetch(
        job,
        tuple(into(ValvePlan, one, assembly=plan.assembly) for one, plan in zip(made.plans, plans, strict=True)),
        made.settings,
    )


def test_cutters_pilots_and_both_gauges_that_the_settings_use():
    got = fetched(bored("E1", 44.0, 44.02), bored("E2", 44.0, 44.02))
    assert (got.cutters, got.pilots) == (("C1",), ("P900",))
    assert (got.gauge, got.bore_gauge) == ("setting gauge", "bore gauge")


def test_the_master_nearest_the_size():
    masters = tuple(Master(jobs.given(size), jobs.given(size)) for size in (35.0, 43.0, 50.0))
    got = fetched(bored("E1", 44.0, 44.02), gauge=replace(jobs.gauge(), masters=masters))
    assert got.master.value == 43.0


def test_inserts_are_counted_with_what_stays_on_the_shelf():
    stock = (jobs.insert("X40", 40.0, on_hand=1), jobs.insert("X44", 44.1, on_hand=3))
    got = fetched(bored("E1", 44.0, 44.02), bored("E2", 44.0, 44.02), inserts=stock)
    assert [(each.name, each.count, each.left) for each in got.inserts] == [("X44", 2, 1)]


def test_where_the_bore_has_outgrown_its_insert_the_next_oversize_is_fetched():
    stock = (jobs.insert("X44", 44.1, on_hand=3), jobs.insert("X45", 44.6, on_hand=2))
    big = replace(bored("E1", 44.0, 44.02, status="oversize"), next=Next("X45"))
    got = fetched(big, bored("E2", 44.0, 44.02), inserts=stock)
    assert [(each.name, each.count, each.left) for each in got.inserts] == [("X44", 1, 2), ("X45", 1, 1)]


def test_what_was_never_counted_has_no_number_left():
    got = fetched(bored("E1", 44.0, 44.02), inserts=(jobs.insert("X44", 44.1),))
    assert got.inserts[0].left is None


def test_a_valve_on_hold_is_fetched_nothing():
    got = fetched(bored("E1", 44.0, 44.02, status="hold"), inserts=(jobs.insert("X44", 44.1, on_hand=3),))
    assert got.inserts == ()
    assert got.cutters == ()


def test_two_valves_that_want_the_same_are_one_line_to_order():
    orders = [
        Order(figure(45.0), figure(7.0), figure(36.0), ("tool steel",), figure(most), (name,))
        for name, most in (("E1", 7.4), ("E2", 7.4), ("E3", 7.1))
    ]
    plans = [replace(bored(order.valves[0], 44.0, 44.02), order=order) for order in orders]
    assert fetched(*plans).order == (replace(orders[0], valves=("E1", "E2")), orders[2])


def test_the_hottest_head_the_coldest_chill_and_the_greatest_force():
    ice = Chill("dry ice", jobs.degrees(-78.5), None, jobs.span())

    def way(head_C, chill, press=None):
        return AssemblyPlan(
            figure(head_C, "T", "C"), chill, "push", figure(0.02), (), 1, press_N=press and figure(press, "F", "N")
        )

    plans = (
        replace(bored("E1", 44.0, 44.02), assembly=way(120.0, "dry ice", 4000.0)),
        replace(bored("E2", 44.0, 44.02), assembly=way(160.0, "none", 6000.0)),
    )
    got = fetched(*plans, assembly=Assembly(chills=(ice,)))
    assert (got.heat_C.value, got.chill.name, got.press_N.value) == (160.0, "dry ice", 6000.0)
