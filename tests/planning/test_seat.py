"""The seat: cuts, gauge depth, recession, tip and spring. Sources stand beside each check."""

import math

import pytest
from hypothesis import given as for_all
from hypothesis import strategies as some
from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.later_life import demo, started
from tests.planning.phases import at

from seatwright.job.model import Leak, Skim
from seatwright.planning.basis.findings import Findings
from seatwright.planning.plan import InsertPlan, Pocketed
from seatwright.planning.plan.figure import Figure
from seatwright.planning.seat.seat import seat

SEAT = {
    "head_diameter": 35.0,
    "margin": 1.5,
    "setback": 0.8,
    "seat_width": (1.6, 2.0),
    "face_angle": 45.0,
    "seat_angle": 45.0,
    "top_angle": 30.0,
    "throat_angle": 60.0,
    "recession": (0.5, 0.9),
}


def seated(found=None, head=None, practice=None, **spec):
    """The seat of one valve, and what was said."""
    findings = Findings()
    valve = jobs.valve("E1", found=found, **{**SEAT, **spec})
    job = jobs.job(jobs.head([valve], **(head or {})), shop=jobs.shop(practice=jobs.practice(**(practice or {}))))
    return seat(job, job.heads[0], at(Pocketed, started(job)), findings)[0].seat, findings


def skim(amount, when):
    return Skim(jobs.given(amount), when, jobs.span())


def moved(name, made):
    return next(cut for cut in made.cuts if cut.name == name).deeper_0_1


def test_the_contact_lies_setback_inside_the_valve_and_its_width_along_the_seat():
    # head-diameter - 2*setback; less 2*w*cos(45) (geometry; handbook 12)
    made, _ = seated()
    assert made.outer.value == pytest.approx(33.4)
    assert made.inner.value == pytest.approx(33.4 - 2 * 1.8 * math.sqrt(0.5))
    assert (made.width.value, made.width_least.value, made.width_most.value) == pytest.approx((1.8, 1.6, 2.0))


def test_what_the_cuts_move_with_the_commonest_set_of_angles():
    # 30/45/60 is the commonest set (trade-facts S44, S64, S82); figures of worked check 5, by cones cut with each other
    made, _ = seated()
    assert moved("seat", made).outer.value == pytest.approx(0.473, abs=5e-4)
    assert moved("seat", made).inner.value == pytest.approx(-0.273, abs=5e-4)
    assert moved("top", made).outer.value == pytest.approx(-0.473, abs=5e-4)
    assert moved("top", made).inner is None
    assert moved("throat", made).inner.value == pytest.approx(0.273, abs=5e-4)


def edge_of(outer_cone, inner_cone):
    """Diameter at which two cones meet; a cone is (angle, depth at the axis), depth = z0 - r*tan(angle)."""
    (a, za), (b, zb) = outer_cone, inner_cone
    return 2 * (za - zb) / (math.tan(math.radians(a)) - math.tan(math.radians(b)))


@for_all(top=some.floats(0, 35), seat_angle=some.floats(40, 50), throat=some.floats(55, 80))
def test_the_moves_are_those_of_cones_cut_with_each_other(top, seat_angle, throat):
    # An own intersection of straight lines, without the handbook's formulas.
    made, _ = seated(top_angle=top, seat_angle=seat_angle, throat_angle=throat)
    z = 40.0
    outside = edge_of((top, z), (seat_angle, z + 10)), edge_of((top, z), (seat_angle, z + 10 + 0.10))
    inside = edge_of((seat_angle, z), (throat, z + 10)), edge_of((seat_angle, z + 0.10), (throat, z + 10))
    assert moved("seat", made).outer.value == pytest.approx(outside[1] - outside[0], rel=1e-6)
    assert moved("seat", made).inner.value == pytest.approx(inside[1] - inside[0], rel=1e-6)


def test_cuts_in_the_wrong_order_move_nothing_and_are_said():
    made, findings = seated(top_angle=60.0)
    assert moved("top", made) is None
    assert moved("seat", made).outer is None
    assert moved("seat", made).inner is not None
    assert "from-axis" in jobs.texts(findings, "angles-order")


def test_a_missing_angle_is_said_once_and_what_does_not_need_it_is_computed():
    made, findings = seated(top_angle=None)
    assert [cut.name for cut in made.cuts] == ["seat", "throat"]
    assert moved("seat", made).inner is not None
    assert "`top-angle` is not given" in jobs.texts(findings, "cut-angle-not-given")
    assert made.gauge_depth is not None


def test_the_whole_width_carries_when_seat_and_face_have_one_angle():
    # R 0.7, margin 1.5, setback 0.8: 3.000 below the deck (worked check 6)
    made, findings = seated()
    assert made.gauge_depth.value == pytest.approx(3.000)
    assert made.carries == "whole"
    assert "inner-edge-carries" not in jobs.slugs(findings)


def test_the_inner_edge_carries_when_the_seat_is_flatter_and_the_seat_lies_deeper():
    # 44 against 45 degrees, width 1.8: 3.044 (worked check 6). Makers differ: 44.5 on 45 (S13), 46 on 45 (S28, S90)
    made, findings = seated(seat_angle=44.0)
    assert made.gauge_depth.value == pytest.approx(3.044, abs=5e-4)
    assert made.carries == "inner"
    assert "inner" in jobs.texts(findings, "inner-edge-carries")


def test_where_the_outer_edge_carries_the_depth_rests_on_no_line_of_the_width():
    made, _ = seated()
    typed = {figure.symbol for figure in made.gauge_depth.walk()}
    assert not typed & {"w", "w_least", "w_most", "seat_angle"}


def test_a_tilted_valve_counts_its_recession_along_the_stem():
    # 0.7 below the deck is 0.7/cos(20) along the stem (worked check 7)
    made, _ = seated(valve_tilt=20.0)
    assert made.gauge_depth.value == pytest.approx(0.7 / math.cos(math.radians(20)) + 2.3)
    assert made.recession.aim.value == pytest.approx(0.7)


def test_the_aim_is_the_middle_of_what_recession_and_tip_allow_together():
    # Tip limits 40.95 to 41.45 (trade-facts S21); from 0.70 and 41.05 it allows 0.60 to 1.10, recession 0.50 to 0.90
    made, _ = seated({"recession": 0.70, "stem_height": 41.05}, stem_height=(40.95, 41.45))
    assert made.recession.aim.value == pytest.approx(0.75)
    assert made.sink.value == pytest.approx(0.05)
    assert made.stem_after.value == pytest.approx(41.10)


def test_a_skim_after_measuring_is_no_sinking_of_the_valve():
    # Found 0.90 below the old deck, 0.70 wanted below the new, skim 0.20: the tip does not move (worked check 1)
    made, _ = seated({"recession": 0.90, "stem_height": 41.20}, {"skim": skim(0.20, "after-measuring")})
    assert made.stem_change.value == pytest.approx(0.0)
    assert made.stem_after.value == pytest.approx(41.20)


def test_a_skim_before_measuring_is_in_the_reading_already():
    made, _ = seated({"recession": 0.70, "stem_height": 41.20}, {"skim": skim(0.20, "before-measuring")})
    assert made.stem_change.value == pytest.approx(0.0)


def test_the_least_recession_moves_with_a_skim_only_where_the_maker_says_that_both_do():
    # 0.45 to 0.90 mm: under the least the valve may touch the piston (TM 10-4320-310-14, S96)
    for follows in (None, jobs.named("valve-train")):
        made, _ = seated(
            head={"skim": skim(0.20, "before-measuring"), "recession_limit_follows": follows},
            recession=(0.45, 0.90),
        )
        assert made.recession.least.value == pytest.approx(0.45)
    both, _ = seated(
        head={"skim": skim(0.20, "before-measuring"), "recession_limit_follows": jobs.named("valve-train both")},
        recession=(0.45, 0.90),
    )
    assert (both.recession.least.value, both.recession.most.value) == pytest.approx((0.25, 0.70))


def test_the_most_recession_falls_by_the_skim_only_as_a_limit_of_the_valve_train():
    # "the allowed valve depth drops by the same amount" (S83)
    shallow, _ = seated(
        head={"skim": skim(0.20, "before-measuring"), "recession_limit_follows": jobs.named("valve-train")},
        recession=(0.45, 0.90),
    )
    stays, _ = seated(head={"skim": skim(0.20, "before-measuring")}, recession=(0.45, 0.90))
    assert (shallow.recession.most.value, stays.recession.most.value) == pytest.approx((0.70, 0.90))


def test_a_skim_that_leaves_no_recession_is_said_and_nothing_is_aimed_at():
    made, findings = seated(
        head={"skim": skim(0.50, "before-measuring"), "recession_limit_follows": jobs.named("valve-train")}
    )
    assert made.recession.aim is None
    assert made.gauge_depth is None
    assert "piston" in jobs.texts(findings, "skim-leaves-no-recession")


def test_without_the_skims_second_word_the_sums_for_tip_and_spring_are_not_made():
    made, findings = seated(
        {"recession": 0.90, "stem_height": 41.20, "spring_height": 38.0}, {"skim": skim(0.20, None)}
    )
    assert (made.stem_after, made.spring_after, made.sink) == (None, None, None)
    assert made.recession.aim.value == pytest.approx(0.7)
    assert "skim-when-not-said" in findings.not_checked()


def test_a_skim_still_to_come_counts_the_seat_from_the_deck_as_it_will_be():
    made, findings = seated({"recession": 0.90, "stem_height": 41.20}, {"skim": skim(0.20, "still-to-come")})
    assert made.stem_change.value == pytest.approx(0.0)
    assert "gauge-depth-after-skim" in jobs.slugs(findings)


def high_tip(**practice):
    return seated(
        {"recession": 0.70, "stem_height": 41.55}, practice=practice, stem_height=(41.40, 41.45), recession=(0.65, 0.75)
    )


def test_a_tip_is_ground_only_where_the_shop_says_how_much():
    made, findings = high_tip()
    assert made.grind is None
    assert "stem-grind-most" in jobs.texts(findings, "stem-high")
    made, findings = high_tip(stem_grind_most=0.20)
    # With the grind the tip allows -0.15 + 0.70 to 0.80: the aim stays 0.70, and 0.10 comes off.
    assert made.grind.value == pytest.approx(0.10)
    assert made.stem.expected.value == pytest.approx(41.45)
    assert "stem-high" not in jobs.slugs(findings)


def test_a_sodium_filled_valve_is_warned_of_before_its_tip_is_ground():
    made, findings = seated(
        {"recession": 0.70, "stem_height": 41.55}, practice={"stem_grind_most": 0.20}, stem_height=(41.40, 41.45),
        recession=(0.65, 0.75), sodium_filled=True,
    )  # fmt: skip
    assert made.grind is not None
    assert "sodium" in jobs.texts(findings, "stem-grind-sodium")


def test_a_long_spring_gets_a_shim_that_the_shop_has():
    # Shims .015, .030 and .060 in, not more than .060 together (trade-facts S102)
    inch = [jobs.given(25.4 * size, f"{size} in") for size in (0.015, 0.030, 0.060)]
    made, _ = seated(
        {"recession": 0.70, "spring_height": 38.9}, recession=(0.65, 0.75), spring_height=(37.7, 38.3),
        practice={"shims": tuple(inch), "shim_limit": 25.4 * 0.060},
    )  # fmt: skip
    assert made.shim.value == pytest.approx(0.762)
    assert made.spring.expected.value == pytest.approx(38.138)


def test_where_nothing_suits_all_the_one_that_gives_way_is_named():
    made, findings = seated({"recession": 0.70, "stem_height": 41.00}, stem_height=(41.40, 41.60))
    # The stem asks for 1.10 to 1.30, the recession for 0.50 to 0.90.
    said = jobs.texts(findings, "no-common-recession")
    assert "the stem gives way" in said
    assert "1.10 to 1.30 mm" in said
    assert made.recession.aim.value == pytest.approx(0.90)


def test_windows_that_meet_in_one_figure_are_met_there():
    # Recession 0.40 to 0.80; the stem, found 41.10 at 0.60, wants 41.30 at the least: 0.80 suits both.
    made, findings = seated(
        {"recession": 0.60, "stem_height": 41.10}, stem_height=(41.30, 41.90), recession=(0.40, 0.80)
    )
    assert made.recession.aim.value == pytest.approx(0.80)
    assert made.stem_after.value == pytest.approx(41.30)
    assert "no-common-recession" not in jobs.slugs(findings)
    # .024 to .044 in, and a spring of 1.490 at .050 that wants 1.484 at the least: .044 in.
    inch = 25.4
    made, findings = seated(
        {"recession": 0.050 * inch, "spring_height": 1.490 * inch}, recession=(0.024 * inch, 0.044 * inch),
        spring_height=(1.484 * inch, 1.508 * inch),
    )  # fmt: skip
    assert made.recession.aim.value == pytest.approx(0.044 * inch)
    assert "no-common-recession" not in jobs.slugs(findings)


def test_past_a_gap_the_nearer_end_is_taken_and_a_stem_too_low_is_not_ground():
    made, findings = seated(
        {"recession": 0.60, "stem_height": 41.10}, stem_height=(41.32, 41.90), recession=(0.40, 0.80)
    )
    assert made.recession.aim.value == pytest.approx(0.80)
    said = next(each for each in findings.messages() if each.slug == "no-common-recession")
    assert "0.02 mm too low" in said.help
    assert "Nothing is ground" in said.help
    assert made.grind is None


def test_a_spring_too_short_is_not_shimmed():
    # Found 38.0 at 0.70; 38.5 at the least would want 1.20, and the recession ends at 0.90.
    made, findings = seated({"recession": 0.70, "spring_height": 38.0}, spring_height=(38.5, 38.9))
    said = next(each for each in findings.messages() if each.slug == "no-common-recession")
    assert "0.30 mm too short" in said.help
    assert "shims out" in said.help
    assert made.shim is None


# --- a stem measured to the head's edge or the cam ------------------------------------------------------------------


@pytest.mark.parametrize("place", ["head-edge", "cam"])
def test_a_stem_measured_to_the_edge_or_the_cam_shrinks_as_the_seat_sinks(place):
    # Found 8.0 at 0.70, 7.9 to 9.0 wanted: the recession may go to 0.80 and not beyond.
    made, _ = seated({"recession": 0.70, "stem_height": 8.0}, stem_height=(7.9, 9.0), stem_height_from=place)
    assert made.recession.aim.value == pytest.approx((0.5 + 0.8) / 2)
    assert made.stem_change.value == pytest.approx(0.05)
    assert made.stem_after.value == pytest.approx(8.05)


def test_such_a_stem_is_ground_where_it_comes_out_below_the_least():
    measured = {"recession": 0.40, "stem_height": 8.0}
    made, _ = seated(measured, practice={"stem_grind_most": 0.30}, stem_height=(7.9, 9.0), stem_height_from="cam")
    # At the aim of (0.5 + 0.8)/2 = 0.65 it stands at 7.75: 0.15 comes off, and it stands at 7.90.
    assert made.recession.aim.value == pytest.approx(0.65)
    assert made.grind.value == pytest.approx(0.15)
    assert made.stem.expected.value == pytest.approx(7.90)
    _, findings = seated({"recession": 0.40, "stem_height": 7.7}, stem_height=(7.9, 9.0), stem_height_from="cam")
    assert "stem-high" in jobs.slugs(findings)


def test_over_the_spring_seat_it_grows():
    plain, _ = seated({"recession": 0.70, "stem_height": 41.0}, stem_height=(40.9, 41.3))
    said, _ = seated({"recession": 0.70, "stem_height": 41.0}, stem_height=(40.9, 41.3), stem_height_from="spring-seat")
    assert plain.stem_after.value == said.stem_after.value


# --- a seat that stays ----------------------------------------------------------------------------------------------


def staying(recession, **more):
    return seated({"recession": recession}, insert=jobs.wish("stays"), **more)


def test_a_seat_that_stays_only_goes_deeper():
    made, findings = staying(0.75)
    assert made.recession.aim.value == pytest.approx((0.75 + 0.90) / 2)
    assert findings.holds_of("E1") == ()
    above, _ = staying(0.30)
    assert above.recession.aim.value == pytest.approx(0.70)


@pytest.mark.parametrize("found", [0.90, 1.20])
def test_a_seat_that_stays_and_lies_at_its_most_is_a_hold(found):
    _, findings = staying(found)
    (hold,) = findings.holds_of("E1")
    assert hold.slug == "seat-sunk"
    assert "insert choose" in hold.help
    _, findings = seated({"recession": found})
    assert findings.holds_of("E1") == ()


# --- the top cut on the insert --------------------------------------------------------------------------------------


def topped(od, stand=(0.0, 0.10), **more):
    findings = Findings()
    valve = jobs.valve("E1", **{**SEAT, "stand": jobs.stand(*stand), **more})
    job = jobs.job(jobs.head([valve], depth_from="deck"), shop=jobs.shop(practice=jobs.practice(least_land=0.5)))
    size = InsertPlan("X", True, od=Figure(od, "mm", "od"))
    plans = tuple(replace(plan, insert=size) for plan in at(Pocketed, started(job)))
    made = seat(job, job.heads[0], plans, findings)[0].seat
    return made, findings


def test_a_top_cut_that_runs_over_the_insert_is_said():
    # Outer edge of the seat 33.4, 3.0 below the deck: at 30 degrees the cone is 33.4 + 2*3.0/tan 30 = 43.79 there.
    made, findings = topped(44.32)
    top = next(cut for cut in made.cuts if cut.name == "top")
    assert made.gauge_depth.value == pytest.approx(3.0)
    assert top.outer.value == pytest.approx(33.4 + 6.0 / math.tan(math.radians(30)))
    assert "43.792 mm" in jobs.texts(findings, "top-cut-off-insert")
    # With a land of 0.5 outside it an insert of 44.792 would do.
    said = next(each for each in findings.messages() if each.slug == "top-cut-off-insert")
    assert "at least 44.792 mm" in said.help
    _, findings = topped(44.80)
    assert "top-cut-off-insert" not in jobs.slugs(findings)


def test_an_insert_that_stands_lower_takes_less_of_the_cone():
    _, findings = topped(44.32, stand=(0.20, 0.30))
    assert "top-cut-off-insert" not in jobs.slugs(findings)


def test_one_open_side_gives_nothing_to_aim_at():
    made, findings = seated(recession=(None, 1.1))  # most 0.043 in (1.1 mm): TM 9-2815-257-24, S98
    assert made.gauge_depth is None
    assert made.recession.most.value == pytest.approx(1.1)
    assert "recession-no-aim" in findings.not_checked()


def test_an_aim_alone_is_aimed_at_and_nothing_is_judged_by_it():
    made, findings = seated(recession=jobs.limits(None, None, nominal=0.7))
    assert made.gauge_depth.value == pytest.approx(3.0)
    assert (made.recession.least, made.recession.most) == (None, None)
    assert "aim-not-a-limit" in findings.not_checked()


def test_an_aim_beyond_what_the_tip_allows_is_moved_and_said():
    made, findings = seated(
        {"recession": 0.70, "stem_height": 41.00}, stem_height=(41.10, 41.60),
        recession=jobs.limits(None, None, nominal=0.7),
    )  # fmt: skip
    assert made.recession.aim.value == pytest.approx(0.80)
    assert "recession-aim-moved" in jobs.slugs(findings)


def test_a_width_with_one_limit_gives_no_inner_edge():
    made, findings = seated(seat_width=(1.6, None))
    assert (made.width, made.inner) == (None, None)
    assert made.width_least.value == pytest.approx(1.6)
    assert "seat-width-no-aim" in findings.not_checked()


def test_a_seat_above_the_face_of_its_insert_is_warned_of():
    _, findings = seated(head={"depth_from": "deck"}, stand=jobs.stand(3.0, 3.2))
    assert "seat-above-insert" in jobs.slugs(findings)


def test_the_leak_limit_carries_the_words_of_what_is_tested():
    # 85 to 58 kPa in 3 s or more (K19, S8)
    leak = Leak(jobs.given(3.0, "3 s"), "85 to 58 kPa")
    made, _ = seated(practice={"leak": leak})
    assert made.leak_limit_s.value == 3.0
    assert made.leak_limit_s.origin.source == "85 to 58 kPa"


def test_the_sums_of_the_skimmed_demo_job_are_those_done_by_hand():
    # ready-to-leave: 0.20 off after measuring; by hand the most falls from -0.20 to -0.40 and the least stays
    seats = {valve.name: valve.seat for valve in demo("ready-to-leave.seat").valves}
    for limits in (each.recession for each in seats.values()):
        assert (limits.least.value, limits.most.value) == pytest.approx((-0.85, -0.40))
    finished = {"I1": -0.57, "E1": -0.55, "I2": -0.61, "E2": -0.59}
    by_hand = {"I1": (41.23, 37.98), "E1": (41.05, 37.95), "I2": (41.19, 37.99), "E2": (41.01, 37.91)}
    for name, s in seats.items():
        deeper = finished[name] - s.recession.aim.value
        assert s.stem_after.value + deeper == pytest.approx(by_hand[name][0], abs=1e-6)
        assert s.spring_after.value + deeper == pytest.approx(by_hand[name][1], abs=1e-6)
