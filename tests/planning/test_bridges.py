"""The metal left between pockets, holes and rims."""

import time

import pytest
from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.pocket_side import passed_over, pocket_side

from seatwright.job.model import CutReadings
from seatwright.planning.metal.bridges import bridges as bridges_of
from seatwright.planning.plan import CutPlan

A, B = jobs.insert("A", 44.30), jobs.insert("B", 44.60)


def two(distance=48.0, stock=(A, B), e2=None, least_bridge=2.0, **head_fields):
    valves = [jobs.valve("E1"), e2 or jobs.valve("E2")]
    head_fields.setdefault("spacings", (jobs.spacing("E1", "E2", distance),))
    return pocket_side(jobs.head(valves, least_bridge=least_bridge, **head_fields), shop=jobs.shop(inserts=stock))


def test_the_bridge_is_worst_case_at_both_upper_limits_and_both_leans():
    plans, _, bridges = two()
    bore, e = plans["E1"].bore.most.value, plans["E1"].pilot.offset.value
    assert bridges[0].left.value == pytest.approx(48.0 - bore - 2 * e)
    assert bridges[0].least.value == 2.0


@pytest.mark.parametrize("verdict, counts", [("accepted", 44.260), ("big", 44.260), ("bore-again", None)])
def test_a_bore_that_was_cut_counts_at_its_widest_unless_it_is_to_be_cut_again(verdict, counts):
    cut = CutReadings(bore_a=jobs.reading(44.250), bore_b=jobs.reading(44.260))
    head = jobs.head([replace(jobs.valve("E1"), cut=cut), jobs.valve("E2")],
                     least_bridge=2.0, spacings=(jobs.spacing("E1", "E2", 48.0),))  # fmt: skip
    shop = jobs.shop(inserts=(A, B))
    plans, findings, _ = pocket_side(head, shop=shop)
    plans["E1"] = replace(plans["E1"], cut=CutPlan(verdict=verdict))
    found = bridges_of(jobs.job(head, shop=shop), head, tuple(plans.values()), findings)
    most, e = plans["E1"].bore.most.value, plans["E1"].pilot.offset.value
    assert found[0].left.value == pytest.approx(48.0 - (most + (counts or most)) / 2 - 2 * e)


def test_a_thin_bridge_holds_the_valve_that_is_still_to_be_bored_before_the_one_that_was():
    def held(*cut):
        valves = [
            replace(jobs.valve(name), cut=CutReadings(bore_a=jobs.reading(44.30)) if name in cut else None)
            for name in ("E1", "E2")
        ]
        head = jobs.head(valves, least_bridge=3.80, spacings=(jobs.spacing("E1", "E2", 48.0),))
        shop = jobs.shop(inserts=(A,))
        made, findings, _ = pocket_side(jobs.head(valves, spacings=head.spacings), shop=shop)
        bridges_of(jobs.job(head, shop=shop), head, tuple(made.values()), findings)
        return {name: holds[0].help for name in made if (holds := findings.holds_of(name))}

    assert list(held()) == ["E1", "E2"]
    assert list(held("E1")) == ["E2"]
    both = held("E1", "E2")
    assert list(both) == ["E1", "E2"]
    assert "It is cut so" in both["E1"]


def test_an_integral_seat_beside_an_open_pocket():
    # Worked figure: reference/worked-checks.md 13: 50.0 - (47.52 + 41.0)/2 = 5.74, here plus the lean.
    integral = jobs.valve(
        seat_integral=jobs.span(), head_diameter=42.0, setback=0.8, stand=jobs.stand(0.0, 0.0),
        interference=(0.08, 0.08),
        found={"pocket_a": None, "pocket_b": None, "pocket_depth": None, "pocket_offset": None},
    )  # fmt: skip
    neighbour = jobs.valve("I1", planned=False, bare=True, found={"pocket_a": 41.0})
    head = jobs.head([integral, neighbour], spacings=(jobs.spacing("E1", "I1", 50.0),))
    plans, _, bridges = pocket_side(head, shop=jobs.shop(inserts=(jobs.insert("A", 47.60, 0.0, height=8.0),)))
    assert bridges[0].left.value + plans["E1"].pilot.offset.value == pytest.approx(5.74)


def test_a_pair_too_close_for_both_large_bores_gives_one_of_them_the_smaller():
    # Either alone could have B; together they leave 48 - 44.515 - 2e. Both A is impossible: one A on hand.
    stock = (jobs.insert("A", 44.30, on_hand=1), jobs.insert("B", 44.60, on_hand=1), jobs.insert("C", 45.0))
    plans, findings, bridges = two(46.9, stock)
    assert sorted(plan.insert.name for plan in plans.values()) == ["A", "B"]
    assert bridges[0].left.value >= 2.0
    assert not findings.holds_of("E1") + findings.holds_of("E2")


def test_one_size_for_the_set_gives_way_to_the_bridge():
    # A set of one size would be B, B; the bridge bears only A and B.
    wide = jobs.valve("E2", found={"pocket_a": 44.30})
    bore_a, bore_b = 44.215, 44.515
    distance = 2.0 + (bore_a + bore_b) / 2 + 0.06
    plans, _, bridges = two(distance, e2=wide)
    assert [plans[name].insert.name for name in ("E1", "E2")] == ["A", "B"]
    assert bridges[0].left.value >= 2.0


def test_an_insert_that_no_neighbour_leaves_room_for_is_passed_over():
    plans, _, _ = two(46.4, stock=(A, B, jobs.insert("C", 45.0)))
    assert passed_over(plans["E1"])["C"] == "bridge-thin"


def test_where_no_insert_leaves_the_bridge_but_a_smaller_one_would_both_are_told_what_to_order():
    # 46.3 - 44.215 leaves less than 2; what cleans up, 44.01 + .02 + 2e + .05, would leave enough.
    plans, findings, _ = two(46.2)
    for name in ("E1", "E2"):
        assert plans[name].insert is None
        assert plans[name].order is not None
        assert "would leave" in findings.holds_of(name)[0].text


def test_a_bridge_that_does_not_bear_the_least_clean_up_gets_no_oversize_offered():
    plans, findings, _ = two(46.05)
    for name in ("E1", "E2"):
        assert plans[name].order is None
        assert [hold.slug for hold in findings.holds_of(name)] == ["bridge-bears-no-oversize"]
        assert "Order" not in findings.holds_of(name)[0].help


def test_a_bridge_too_thin_as_found_is_said_and_no_oversize_offered():
    # By hand: 45.9 - 44.01, less what both pockets stand off, .01 each: 1.87.
    plans, findings, _ = two(45.9)
    hold = findings.holds_of("E1")[0]
    assert hold.slug == "bridge-thin-as-found"
    assert hold.figure.value == pytest.approx(1.87)
    assert hold.limit.value == 2.0
    assert plans["E1"].order is None
    assert "Order" not in hold.help


def test_the_hold_is_on_the_one_whose_bore_grows():
    named = jobs.valve("E1", insert=jobs.wish("turned"))
    left = jobs.valve("E2", insert=jobs.wish("none"))
    head = jobs.head([named, left], least_bridge=2.0, spacings=(jobs.spacing("E1", "E2", 45.0),))
    _, findings, bridges = pocket_side(head, shop=jobs.shop())
    assert bridges[0].left.value < 2.0
    assert [hold.slug for hold in findings.holds_of("E1")] == ["bridge-thin"]
    assert not findings.holds_of("E2")


def beside(**neighbour):
    """What the neighbour of a bored valve counts with, what was said, and its bridge."""
    valves = [jobs.valve("E1"), jobs.valve("I1", planned=False, bare=True, **neighbour)]
    head = jobs.head(valves, spacings=(jobs.spacing("E1", "I1", 50.0),))
    plans, findings, bridges = pocket_side(head, shop=jobs.shop(inserts=(A,)))
    if not bridges:
        return None, findings, None
    own = plans["E1"].bore.most.value / 2 + plans["E1"].pilot.offset.value
    return 2 * (50.0 - own - bridges[0].left.value), findings, bridges[0]


def test_a_neighbour_that_is_not_bored_counts_with_its_pocket_and_what_that_stands_off():
    assert beside(found={"pocket_a": 40.0}, head_diameter=38.0)[0] == pytest.approx(40.0)
    assert beside(found={"pocket_a": 40.0, "pocket_offset": 0.03})[0] == pytest.approx(40.0 + 2 * 0.03)


def test_else_with_the_insert_that_is_known_to_be_in_it():
    assert beside(found={"old_insert_od": 40.09}, oversize_of=39.5)[0] == pytest.approx(40.09)


def test_only_a_seat_cut_in_the_casting_counts_with_its_own_outer_diameter():
    integral = {"seat_integral": jobs.span()}
    assert beside(head_diameter=38.0, setback=0.5, **integral)[0] == pytest.approx(37.0)
    assert beside(head_diameter=38.0, **integral)[0] == pytest.approx(38.0)
    assert beside(head_diameter=38.0, setback=0.5)[0] is None


@pytest.mark.parametrize("maker", [{"oversize_of": 44.0}, {"bore": (43.98, 44.0)}])
def test_beside_a_pocket_known_as_made_only_the_bridge_is_at_most_and_that_is_a_warning(maker):
    counted, findings, bridge = beside(head_diameter=38.0, setback=0.5, **maker)
    assert counted == pytest.approx(44.0)
    assert bridge.at_most
    said = jobs.texts(findings, "bridge-at-most")
    assert "at most 5." in said
    assert "old-insert-od" in said


def test_beside_a_pocket_that_nobody_knows_the_bridge_is_not_checked_and_that_is_a_warning():
    _, findings, bridge = beside(head_diameter=38.0, setback=0.5)
    assert bridge is None
    assert "bridge-neighbour-unknown" in findings.not_checked()
    assert [one.severity for one in findings.messages() if one.slug == "bridge-neighbour-unknown"] == ["warning"]


def test_where_layout_and_spacing_differ_the_smaller_is_used():
    layout = (jobs.place("E1", 0, 0), jobs.place("E2", 0, 48.0))
    _, _, bridges = two(48.2, layout=layout)
    assert bridges[0].centres.value == pytest.approx(48.0)
    _, _, bridges = two(47.95, layout=layout)
    assert bridges[0].centres.value == pytest.approx(47.95)


def test_holes_count_as_neighbours_and_a_rim_must_not_be_left():
    layout = (jobs.place("E1", 0, 0), jobs.place("E2", 100.0, 0))
    holes = (jobs.hole("injector", 27.0, 0, 7.0), jobs.hole("cylinder", 0, 0, 46.0, "cylinder"))
    _, findings, bridges = two(layout=layout, holes=holes, spacings=(), stock=(A,), least_bridge=1.0)
    left = {bridge.between: bridge.left.value for bridge in bridges}
    assert left["E1", "injector"] == pytest.approx(27.0 - (44.215 + 7.0) / 2, abs=0.02)
    assert left["E1", "cylinder"] == pytest.approx(23.0 - 44.215 / 2, abs=0.02)
    assert not findings.holds_of("E1")
    tight = (jobs.hole("cylinder", 0, 0, 44.0, "cylinder"),)
    _, findings, _ = two(layout=layout, holes=tight, spacings=(), stock=(A,))
    assert "reaches" in findings.holds_of("E1")[0].text
    assert "stay inside" in findings.holds_of("E1")[0].text


def test_different_tilts_are_not_checked_unless_the_distance_was_measured():
    layout = (jobs.place("E1", 0, 0), jobs.place("E2", 0, 48.0))
    tilted = jobs.valve("E2", valve_tilt=20.0)
    _, findings, bridges = two(layout=layout, spacings=(), e2=tilted)
    assert bridges == ()
    assert "bridge-tilted" in findings.not_checked()
    _, findings, bridges = two(layout=layout, e2=tilted)
    assert len(bridges) == 1
    assert "bridge-tilted" not in findings.not_checked()


def test_without_places_or_a_least_bridge_it_is_said():
    _, findings, _ = two(spacings=(), least_bridge=None)
    assert {"spacing-not-given", "least-bridge-not-given"} <= set(findings.not_checked())


def test_a_bridge_rests_on_the_spacing_and_what_the_bores_rest_on():
    plans, _, bridges = two()
    own = {span for name in ("E1", "E2") for span in plans[name].bore.most.lines()}
    lines = set(bridges[0].left.lines())
    assert own <= lines
    assert bridges[0].centres.origin.span in lines


@pytest.mark.slow
def test_a_long_head_takes_no_longer_a_valve_than_a_short_one():
    def seconds(count):
        names = [f"E{number % 9 + 1}{chr(65 + number // 9 % 26)}{number // 234}" for number in range(count)]
        valves = [jobs.valve(name) for name in names]
        layout = tuple(jobs.place(name, 48.0 * place, 0.0) for place, name in enumerate(names))
        head = jobs.head(valves, least_bridge=2.0, layout=layout)
        stock = tuple(jobs.insert(f"S{step}", 44.0 + step / 10) for step in range(12))
        began = time.process_time()
        plans, _, bridges = pocket_side(head, shop=jobs.shop(inserts=stock))
        assert len(plans) == count
        assert len(bridges) == count - 1
        return time.process_time() - began

    assert seconds(800) < 8 * max(seconds(200), 0.2)
