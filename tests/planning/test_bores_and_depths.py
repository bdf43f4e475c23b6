"""Bore and depth windows, what the bore gauge shows, what is left under the floor."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.pocket_side import one

from seatwright.planning.basis.findings import Findings
from seatwright.planning.found.brought_to_20 import start
from seatwright.planning.plan import ValvePlan, into
from seatwright.planning.plan.figure import assumed
from seatwright.planning.serves.candidates import OwnBores, own_bores
from seatwright.planning.serves.depths import NoDepth, depth_for, no_depth
from seatwright.planning.serves.offers import stock_offers
from seatwright.planning.serves.wants import wants_of
from seatwright.planning.serves.whose_interference import FitLimits

A = jobs.insert("A", 44.30)


def test_the_depth_window_cleans_the_floor_and_lets_the_insert_stand_as_wanted():
    # Worked figure: reference/worked-checks.md 20: height 6.50, stand 0-0.10, old floor 6.52, clean-up 0.05: 6.57-6.60.
    plan, _ = one(jobs.valve(found={"pocket_depth": 6.52}), jobs.insert("A", 44.30, height=6.5))
    assert (plan.depth.least.value, plan.depth.most.value) == pytest.approx((6.57, 6.60))
    assert plan.depth.aim.value == pytest.approx(6.585)


def test_the_metal_left_under_the_floor_is_that_at_the_deepest():
    plan, _ = one(jobs.valve(found={"floor_thickness": 9.0}), A)
    assert plan.floor_left.value == pytest.approx(9.0 - (7.10 - 7.0))


def test_the_least_floor_cuts_the_depth_window():
    plan, _ = one(jobs.valve(found={"floor_thickness": 9.0}), A, head={"least_floor": 8.93})
    assert plan.depth.most.value == pytest.approx(7.07)


def test_a_single_depth_of_the_maker_has_the_tolerance_of_the_shop_either_way():
    # 7.10 +/- 0.03, inside what the insert (7.00, stands 0.00 to 0.10 below) asks for.
    printed = jobs.limits(None, None, "manual", 7.10)
    plan, _ = one(jobs.valve(stand=None, depth=printed), A)
    assert (plan.depth.least.value, plan.depth.most.value) == (pytest.approx(7.07), pytest.approx(7.13))
    shop = jobs.shop(inserts=(A,), practice=jobs.practice(depth_tolerance=None))
    plan, findings = one(jobs.valve(stand=None, depth=printed), shop=shop)
    assert plan.depth is None
    assert "depth-tolerance-not-given" in jobs.slugs(findings)
    plan, findings = one(jobs.valve(depth=printed), shop=shop)
    assert "maker-depth-not-used" in findings.not_checked()


def test_an_integral_seat_is_bored_from_the_deck():
    # Worked figure: reference/worked-checks.md 13: insert 47.60 x 8.0, 13.0 to the water: 5.0 left.
    valve = jobs.valve(
        seat_integral=jobs.span(), head_diameter=42.0, setback=0.8, stand=jobs.stand(0.0, 0.0),
        found={"pocket_a": None, "pocket_b": None, "pocket_depth": None, "pocket_offset": None,
               "floor_thickness": 13.0},
    )  # fmt: skip
    plan, _ = one(valve, jobs.insert("A", 47.60, height=8.0))
    assert plan.floor_left.value == pytest.approx(5.0)


def test_a_single_stand_is_widened_by_the_shops_tolerance_or_holds():
    valve = jobs.valve(stand=jobs.stand(0.10))
    plan, _ = one(valve, A)
    assert (plan.depth.least.value, plan.depth.most.value) == pytest.approx((7.07, 7.13))
    shop = jobs.shop(inserts=(A,), practice=jobs.practice(depth_tolerance=None))
    plan, findings = one(valve, shop=shop)
    assert plan.depth is None
    assert findings.holds_of("E1")[0].slug == "depth-tolerance-not-given"


def test_the_makers_depth_alone_is_enough_and_beside_the_stand_it_narrows():
    plan, _ = one(jobs.valve(stand=None, depth=(7.05, 7.15)), A)
    assert (plan.depth.least.value, plan.depth.most.value) == pytest.approx((7.05, 7.15))
    plan, _ = one(jobs.valve(depth=(7.06, 7.15)), A)
    assert (plan.depth.least.value, plan.depth.most.value) == pytest.approx((7.06, 7.10))


def test_without_a_stand_there_is_no_depth_and_that_is_said():
    plan, findings = one(jobs.valve(stand=None), A)
    assert plan.bore is not None
    assert plan.depth is None
    assert "stand-not-given" in findings.not_checked()


def test_a_skim_still_to_come_puts_the_insert_lower_by_as_much():
    # reference/worked-checks.md 1: stand must be at least the skim plus what is wanted.
    head = {"skim": jobs.skim(0.20, "still-to-come")}
    plan, _ = one(jobs.valve(), A, head=head)
    assert (plan.depth.least.value, plan.depth.most.value) == pytest.approx((7.20, 7.30))


def test_a_skim_after_measuring_takes_the_pocket_depth_with_it():
    plan, _ = one(jobs.valve(found={"pocket_depth": 7.2}), A, head={"skim": jobs.skim(0.20, "after-measuring")})
    assert plan.depth.least.value == pytest.approx(7.05)


@pytest.mark.parametrize("when, said", [("before-measuring", True), ("after-measuring", False)])
def test_a_skim_after_measuring_brings_damage_nearer_to_the_rim(when, said):
    # Damage 7.25 deep, the floor at most 7.10 deep: what is left of it after 0.20 off the deck lies at 7.05.
    valve = jobs.valve(found={"damage": 44.1, "damage_depth": 7.25})
    findings = one(valve, A, head={"skim": jobs.skim(0.20, when)})[1]
    assert ("damage-below-floor" in jobs.slugs(findings)) is said


@pytest.mark.parametrize("follows, when, fallen", [
    (False, "before-measuring", 0.0), (False, "still-to-come", 0.0), (True, "still-to-come", 0.2),
    (True, "after-measuring", 0.2),
])  # fmt: skip
def test_metal_under_the_seat_is_the_same_whether_the_skim_is_done_or_still_to_come(follows, when, fallen):
    # Insert 7.0 high, its face at the deck at the highest; the seat ends 1.0 + 1.5 + 1.5*tan 45 + 2.0*sin 45 = 5.4142
    # below the deck that the head will have; where the most recession falls with the skim, 0.20 less.
    head = {"depth_from": "deck", "skim": jobs.skim(0.20, when)}
    if follows:
        head["recession_limit_follows"] = jobs.named("valve-train")
    valve = jobs.valve(
        recession=(0.5, 1.0), seat_width=(1.6, 2.0), margin=1.5, setback=1.5, seat_angle=45.0, face_angle=45.0,
        head_diameter=43.0,
    )  # fmt: skip
    made = jobs.head([valve], **head)
    job, findings = jobs.job(made, shop=jobs.shop()), Findings()
    plan = into(ValvePlan, start(job, made, findings)[0])
    wants = wants_of(job, made, plan, findings)
    assert 7.0 + wants.below[0].value - wants.seat_bottom.value == pytest.approx(7.0 - 5.414214 + fallen)


def test_a_skim_nobody_knows_when_leaves_the_old_floor_out():
    plan, findings = one(jobs.valve(), A, head={"skim": jobs.skim(0.20, None)})
    assert plan.depth.least.value == pytest.approx(7.0)
    assert "skim-when-not-said" in findings.not_checked()


def test_bench_limits_are_rounded_inwards_to_the_bore_gauges_step():
    plan, _ = one(jobs.valve(), jobs.insert("A", 44.3013), bore_gauge=jobs.bore_gauge(step=0.002))
    assert plan.bore.least.value == pytest.approx(44.1863)
    assert plan.bore.most.value == pytest.approx(44.2163)
    assert (plan.bore.bench_least.value, plan.bore.bench_most.value) == (44.188, 44.216)


def test_a_warm_aluminium_head_is_bored_to_a_larger_reading():
    shop = jobs.shop(inserts=(A,), interference=(jobs.interference_row(0.08, 0.12, head="aluminium"),))
    plan, _ = one(
        jobs.valve(), shop=shop, head={"material_name": "aluminium", "temperature": jobs.degrees(40)},
        bore_gauge=jobs.bore_gauge(step=0.0001, temperature=22),
    )  # fmt: skip
    # Worked figure: reference/worked-checks.md 2: 17.8 µm over 44.02.
    assert plan.bore.bench_aim.value - plan.bore.aim.value == pytest.approx(0.0178, abs=0.0006)


def test_without_a_bore_gauge_limits_are_not_rounded_and_that_is_said():
    plan, findings = one(jobs.valve(), A, bore_gauge=None)
    assert plan.bore.bench_least.value == pytest.approx(plan.bore.least.value)
    assert "bore-gauge-not-given" in findings.not_checked()


def test_damage_below_the_new_floor_is_a_warning():
    valve = jobs.valve(found={"damage": 44.1, "damage_depth": 7.3})
    assert "damage-below-floor" in jobs.slugs(one(valve, A)[1])


def test_the_lean_of_the_floor_is_that_over_the_bore():
    plan, _ = one(jobs.valve(), jobs.insert("A", 50.0))
    assert "bore" in [figure.symbol for figure in plan.pilot.tilt.inputs]


def test_a_bore_rests_on_the_insert_and_the_interference_only():
    stock = jobs.insert("A", 44.30)
    row = jobs.interference_row(0.08, 0.12)
    plan, _ = one(jobs.valve(), shop=jobs.shop(inserts=(stock,), interference=(row,)))
    assert set(plan.bore.aim.lines()) == {stock.od_least.span, stock.od_most.span, row.least.span, row.most.span}


def test_a_throat_that_stands_off_leaves_the_smaller_ledge_on_its_worst_side():
    # By hand: half of bore less throat, less what the throat stands off, less the radial leg of the chamfer.
    true, _ = one(jobs.valve(), A)
    off, _ = one(jobs.valve(found={"throat_offset": 0.3}), A)
    assert off.ledge.value == pytest.approx(true.ledge.value - 0.3)


def test_where_depths_are_counted_from_the_old_floor_it_is_said_that_stand_is_not_used():
    _, findings = one(jobs.valve(), A, head={"depth_from": "floor"})
    assert "stand-not-used" in findings.not_checked()
    _, findings = one(jobs.valve(), A)
    assert "stand-not-used" not in findings.not_checked()


def test_the_lower_edge_of_the_seat_is_counted_along_a_tilted_stem():
    # By hand: 1.0 square to the deck is 1.0/cos 20 along the stem, and a skim of 0.20 still to come 0.20/cos 20.
    ends = []
    for tilt in (None, 20.0):
        valve = jobs.valve(
            recession=(0.5, 1.0), seat_width=(1.6, 2.0), margin=1.5, setback=1.5, seat_angle=45.0, face_angle=45.0,
            head_diameter=43.0, **({} if tilt is None else {"valve_tilt": tilt}),
        )  # fmt: skip
        made = jobs.head([valve], depth_from="deck", skim=jobs.skim(0.20, "still-to-come"))
        job, findings = jobs.job(made, shop=jobs.shop()), Findings()
        ends.append(wants_of(job, made, into(ValvePlan, start(job, made, findings)[0]), findings).seat_bottom.value)
    assert ends[1] - ends[0] == pytest.approx(1.2 / math.cos(math.radians(20)) - 1.2, abs=1e-9)


def test_the_floor_goes_down_to_damage_where_the_window_allows_it():
    # By hand: the insert of 7.00 stands 0.00 to 0.10 below, the floor cleans up at 7.05: 7.05 to 7.10.
    plan, findings = one(jobs.valve(found={"damage_depth": 7.08}), jobs.insert("A", 44.30))
    assert (plan.depth.least.value, plan.depth.most.value) == pytest.approx((7.08, 7.10))
    assert "damage-below-floor" not in jobs.slugs(findings)


def test_damage_below_the_window_stays_is_said_and_rules_no_insert_out():
    plan, findings = one(jobs.valve(found={"damage_depth": 7.11}), jobs.insert("A", 44.30))
    assert (plan.depth.least.value, plan.depth.most.value) == pytest.approx((7.05, 7.10))
    assert "some of it stays" in jobs.texts(findings, "damage-below-floor")


def test_a_taller_oversize_under_the_makers_depth_is_held_outside_stand_and_where_it_would_be_proud():
    maker = {"depth": (7.05, 7.15)}
    taller = jobs.insert("A50", 44.60, height=7.26)
    _, findings = one(jobs.valve(**maker), taller)
    assert "A50 needs 7.26 mm at least to stand as wanted" in findings.holds_of("E1")[0].text
    _, findings = one(jobs.valve(stand=None, **maker), taller)
    hold = findings.holds_of("E1")[0]
    assert "A50 is 7.26 mm high; at the maker's depth of 7.15 mm at most it would stand proud" in hold.text
    said = jobs.valve(stand=jobs.stand(-0.20, -0.05), **maker)
    plan, findings = one(said, taller)
    assert findings.holds_of("E1") == ()
    assert (plan.depth.least.value, plan.depth.most.value) == pytest.approx((7.06, 7.15))


def test_under_the_makers_depth_alone_an_insert_goes_down_until_it_is_flush():
    plan, _ = one(jobs.valve(stand=None, depth=(7.05, 7.15)), jobs.insert("A", 44.30, height=7.08))
    assert (plan.depth.least.value, plan.depth.most.value) == pytest.approx((7.08, 7.15))


@st.composite
def depths_wanted(draw):
    """What may be asked of a depth, each left out or within a few hundredths of the rest, so that every limit binds."""

    def maybe(*of):
        return draw(st.none() | st.tuples(*(figure(about) for about in of)))

    def figure(about):
        return st.integers(-12, 12).map(lambda steps: assumed("limit", "mm", about + 0.01 * steps, "test"))

    def in_order(pair):
        return pair and tuple(sorted(pair, key=lambda one: one.value))

    def alone(pair):
        return pair and pair[0]

    return {
        "below": in_order(maybe(0.0, 0.1)),
        "maker_depth": in_order(maybe(7.0, 7.1)),
        "pocket_depth": alone(maybe(7.0)),
        "floor_clean_up": alone(maybe(0.05)),
        "deepest": alone(maybe(7.1)),
        "damage_depth": alone(maybe(7.05)),
        "integral": draw(st.booleans()),
        "face": draw(st.sampled_from(("deck", "floor"))),
    }, alone(maybe(7.0))


@given(depths_wanted())
def test_no_depth_is_said_of_an_insert_where_its_depth_cannot_be_made_and_nowhere_else(wanted):
    figures, height = wanted
    made = jobs.head([jobs.valve()])
    job = jobs.job(made, shop=jobs.shop())
    plan = into(ValvePlan, start(job, made, Findings())[0])
    wants = replace(wants_of(job, made, plan, Findings()), **figures)
    whole = depth_for(job, wants, height)
    assert no_depth(job, wants, height) == (whole if isinstance(whole, NoDepth) else None)


def test_the_bores_of_a_shelf_are_worked_out_for_each_insert_and_each_fit_of_its_own():
    job = jobs.job(jobs.head([jobs.valve()]), shop=jobs.shop(inserts=(A, jobs.insert("B", 44.80))))
    fits = [
        FitLimits(assumed("I_least", "mm", least, "test"), assumed("I_most", "mm", 0.12, "test"), "test")
        for least in (0.08, 0.09, 0.12)
    ]
    bores = OwnBores(job)
    for offer in stock_offers(job) * 2:
        for fit in fits:
            assert bores.of(offer, fit) == own_bores(job, offer, fit)
    assert len(bores.known) == 6
