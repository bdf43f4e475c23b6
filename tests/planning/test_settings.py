"""The fewest settings, through the stage: readings, corrections, first cut, stops, proof."""

from itertools import combinations
from unittest.mock import patch

import pytest
from hypothesis import given, strategies
from hypothesis import settings as hypothesis_settings
from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.bores import bench, bored, figure
from tests.planning.later_life import demo
from tests.planning.phases import at

from seatwright.job.model import OvercutLine
from seatwright.planning.basis.findings import Findings
from seatwright.planning.machine.passes import passes
from seatwright.planning.machine.settings import settings
from seatwright.planning.plan import Closed, Passed, Waits


def planned(*plans, first=1, u=None, **shop_and_job):
    findings = Findings()
    job, head = bench(plans, **shop_and_job)
    passed = findings.held(passes(job, head, at(Closed, plans), findings))
    with patch("seatwright.planning.certainty.windows.planned_uncertainty", u or (lambda *_: None)):
        return settings(job, head, passed, findings, first), findings


def shop(**cutter):
    return jobs.shop(cutters=(replace(jobs.cutter(), reach=jobs.given(25), **cutter),))


# --- the reading ----------------------------------------------------------------------------------------------------


def test_a_master_that_reads_two_over_and_a_cutter_that_bores_six_over_read_four_under_the_aim():
    # handbook 6, worked check: aim 44.020, master 40.000 reads 40.002, overcut .006 -> 44.016.
    made, _ = planned(bored("E1", 44.010, 44.030))
    assert made.settings[0].reading.value == 44.016


def test_the_corrections_make_the_reading_from_the_aim_and_nothing_is_left():
    made, _ = planned(bored("E1", 44.0103, 44.0197), gauge=jobs.gauge(temperature=26.0))
    one = made.settings[0]
    parts = (one.aim, one.correction.temperature, one.correction.master, one.correction.overcut)
    total = sum(part.value for part in parts)
    assert total == pytest.approx(one.reading.value, abs=1e-12)


def test_what_rounding_leaves_over_is_in_the_expected_interference():
    made, _ = planned(bored("E1", 44.010, 44.025, od=44.100))
    one, plan = made.settings[0], made.plans[0]
    assert one.rounding_left.value == pytest.approx(one.aim.value - 44.0175)
    assert abs(one.rounding_left.value) <= 0.001 + 1e-9
    assert plan.interference.expected.value == pytest.approx(44.100 - one.aim.value)


def test_a_warm_aluminium_head_is_set_bigger_by_what_it_has_grown_beyond_the_gauge():
    # Worked check 2: aluminium 30/30, 44.02: 4.4 um (expansion 21.4 against 11.5 um/m/C).
    plans = (bored("E1", 44.010, 44.030),)
    job, _ = bench(plans, shop=shop(), gauge=jobs.gauge(temperature=30.0))
    head = jobs.head([plans[0].valve], material_name="aluminium", temperature=jobs.degrees(30.0))
    made = settings(job, head, at(Passed, plans), Findings(), 1)
    assert made.settings[0].correction.temperature.value == pytest.approx(0.0044, abs=0.0005)


def test_an_inch_gauge_is_set_on_its_own_marks():
    gauge = replace(jobs.gauge(), step=jobs.given(0.0127), marked="inch")
    made, _ = planned(bored("E1", 44.00, 44.03), gauge=gauge)
    one = made.settings[0]
    assert one.reading_unit == "in"
    assert one.reading.value / 0.0127 == pytest.approx(round(one.reading.value / 0.0127), abs=1e-9)


def test_windows_are_cut_to_whole_steps_before_they_are_grouped():
    # Worked check 25: 44.0103-.0185 and .0183-.0245 share 44.0184, but no step of .002: two settings.
    true_gauge = replace(jobs.gauge(), masters=())
    plans = bored("E1", 44.0103, 44.0185), bored("E2", 44.0183, 44.0245)
    made, _ = planned(*plans, shop=shop(overcuts=(OvercutLine(None, jobs.given(0.0)),)), gauge=true_gauge)
    assert len(made.settings) == 2
    fine, _ = planned(
        *plans,
        shop=shop(overcuts=(OvercutLine(None, jobs.given(0.0)),)),
        gauge=replace(true_gauge, step=jobs.given(0.0001)),
    )
    assert len(fine.settings) == 1


# --- overcut --------------------------------------------------------------------------------------------------------


def trial(read, bored_to, cutter="C1"):
    from seatwright.job.model import Trial

    return Trial(jobs.named(cutter), jobs.reading(read), jobs.reading(bored_to), jobs.span())


def with_trials(*trials, **shop_and_job):
    plans = (bored("E1", 44.010, 44.030),)
    job, head = bench(plans, **shop_and_job)
    findings = Findings()
    return settings(job, replace(head, trials=trials), at(Passed, plans), findings, 1), findings


def test_a_trial_tells_the_overcut_and_takes_the_place_of_the_shops():
    # handbook 6, worked check: read 44.480, bored 44.487, master two over -> overcut .009.
    made, _ = with_trials(trial(44.480, 44.487))
    assert made.trials[0].overcut.value == pytest.approx(0.009)
    assert made.settings[0].overcut.from_ == "trial"
    assert made.settings[0].correction.overcut.value == pytest.approx(-0.009)


def test_several_trials_count_with_their_mean():
    made, _ = with_trials(trial(44.480, 44.487), trial(44.480, 44.491))
    assert made.settings[0].overcut.value.value == pytest.approx(0.011)
    assert made.settings[0].overcut.trials == 2


def test_a_trial_of_another_cutter_does_not_count():
    made, _ = with_trials(trial(44.480, 44.487, "C9"))
    assert made.settings[0].overcut.from_ == "shop"


def test_the_shops_overcut_rests_on_the_shops_line_alone():
    made, _ = with_trials()
    assert len(list(made.settings[0].overcut.value.lines())) == 1


# --- what is not known is said --------------------------------------------------------------------------------------


def test_without_a_setting_gauge_there_is_no_reading_but_still_a_setting():
    made, findings = planned(bored("E1", 44.010, 44.030), gauge=None)
    assert made.settings[0].reading is None
    assert made.settings[0].aim.value == pytest.approx(44.020)
    assert "no-setting-gauge" in findings.not_checked()


def test_a_gauge_without_a_master_is_said_to_be_taken_as_it_reads():
    made, findings = planned(bored("E1", 44.010, 44.030), gauge=replace(jobs.gauge(), masters=()))
    assert made.settings[0].correction.master.value == 0.0
    assert "gauge-not-on-master" in findings.not_checked()


def test_beyond_the_last_of_several_masters_no_reading_is_computed():
    masters = (jobs.Master(jobs.given(30.0), jobs.given(30.0)), jobs.Master(jobs.given(40.0), jobs.given(40.002)))
    made, findings = planned(bored("E1", 44.010, 44.030), gauge=replace(jobs.gauge(), masters=masters))
    assert made.settings == ()
    assert "beyond-masters" in findings.not_checked()


def test_a_reading_beyond_the_gauge_is_a_warning():
    made, findings = planned(bored("E1", 44.010, 44.030), gauge=replace(jobs.gauge(), range=jobs.limits(30.0, 44.0)))
    assert made.settings[0].reading.value == 44.016
    assert "beyond-gauge" in jobs.slugs(findings)


def test_a_valve_on_hold_is_in_no_setting():
    made, _ = planned(bored("E1", 44.010, 44.030), bored("E2", 44.010, 44.030, status="hold"))
    assert made.settings[0].valves == ("E1",)
    assert made.plans[1].setting is None


# --- windows that leave no step -------------------------------------------------------------------------------------


def test_a_window_without_a_whole_step_is_set_to_the_nearest_and_tried_in_that_bore():
    made, findings = planned(bored("E1", 44.0105, 44.0115))
    assert made.plans[0].trial_here is True
    assert abs(made.settings[0].aim.value - 44.011) <= 0.001 + 1e-9
    assert "trial-in-this-bore" in jobs.slugs(findings)


def test_windows_are_drawn_in_by_the_guard_times_what_is_planned_to_be_uncertain():
    wide = bored("E1", 44.000, 44.020), bored("E2", 44.016, 44.036)
    assert len(planned(*wide)[0].settings) == 1
    drawn, _ = planned(*wide, u=lambda *_: figure(0.003, "u"))
    assert len(drawn.settings) == 2
    assert drawn.plans[0].bore.u.value == 0.003
    assert not drawn.plans[0].trial_here


def test_a_window_that_the_guard_empties_is_no_hold():
    made, findings = planned(bored("E1", 44.010, 44.020), u=lambda *_: figure(0.0034, "u"))
    assert made.plans[0].trial_here is True
    assert not findings.holds_of("E1")
    assert abs(made.settings[0].aim.value - 44.015) <= 0.001 + 1e-9


# --- the first cut --------------------------------------------------------------------------------------------------


def test_the_first_cut_is_below_size_by_the_shops_figure():
    made, _ = planned(bored("E1", 44.010, 44.030))
    first = made.settings[0].first
    assert first.bore.value == pytest.approx(made.settings[0].aim.value - 0.10)
    assert first.reading.value == pytest.approx(43.916)


def test_the_first_cut_is_in_a_bore_that_does_not_wait_where_one_is_right_for_it():
    waits = Waits(("E3",), "E3 may take the insert of E1: settle that first.")
    made, _ = planned(replace(bored("E1", 44.010, 44.030), waits=waits), bored("E2", 44.010, 44.030))
    assert (made.settings[0].valves, made.settings[0].waits) == (("E2", "E1"), ("E1",))


def test_a_bore_that_is_opened_proves_the_setting_and_one_that_waits_is_not_cut_for_that():
    # In half-way E2 is bored already, and opened from what that cut did; E3, bored too big, may take the insert of E4.
    plan = demo("half-way.seat")
    (setting,) = plan.settings
    assert (setting.valves, setting.waits, setting.first) == (("E2", "E4"), ("E4",), None)
    assert {each.name: each.waits.for_ for each in plan.valves if each.waits} == {"E4": ("E3",)}
    assert "first-cut-elsewhere" not in {each.slug for each in plan.messages}


def test_a_first_cut_that_is_not_round_here_goes_to_the_pocket_where_it_is():
    made, findings = planned(bored("E1", 44.010, 44.030, pocket=43.95), bored("E2", 44.010, 44.030, pocket=43.80))
    assert made.settings[0].valves == ("E2", "E1")
    assert "first-cut-elsewhere" in jobs.slugs(findings)


def test_a_first_cut_that_is_round_nowhere_is_the_largest_step_that_is():
    # aim 44.020, pocket 43.95 off by .01, pilot .005: 44.020 - 43.98 = .040, twenty steps of .002.
    made, findings = planned(bored("E1", 44.010, 44.030, pocket=43.95))
    assert made.settings[0].trial_under.value == pytest.approx(0.040)
    assert "first-cut-smaller" in jobs.slugs(findings)


def test_where_no_cut_below_size_is_round_it_is_proved_in_scrap():
    made, findings = planned(bored("E1", 44.010, 44.030, pocket=44.0))
    assert made.settings[0].first is None
    assert "no-first-cut" in jobs.slugs(findings)


def test_without_trial_under_no_first_cut_is_planned_and_that_is_said():
    made, findings = planned(
        bored("E1", 44.010, 44.030),
        shop=jobs.shop(cutters=(jobs.cutter(),), practice=jobs.practice(trial_under=None)),
    )
    assert "trial-under" in findings.not_checked()
    assert all(setting.first is None for setting in made.settings)


# --- passes and depth stops -----------------------------------------------------------------------------------------


def test_a_floor_wider_than_the_tip_is_cleared_in_passes_the_wall_last():
    # Throat 30, tip 4: 30 + 8 = 38, then to 44.02 in steps of at most 7.
    made, _ = planned(bored("E1", 44.010, 44.030, throat=30.0, throat_offset=0.0), shop=shop(tip_width=jobs.given(4.0)))
    diameters = [each.value for each in made.plans[0].passes]
    assert diameters == pytest.approx([38.0, made.settings[0].aim.value])


def test_a_first_pass_smaller_than_the_cutter_goes_is_a_hold():
    made, findings = planned(
        bored("E1", 44.010, 44.030, throat=20.0, throat_offset=0.0), shop=shop(tip_width=jobs.given(4.0))
    )
    assert [hold.slug for hold in findings.holds_of("E1")] == ["cutter-first-pass"]
    assert made.settings == ()


def test_a_pocket_deeper_than_the_cutter_reaches_is_a_hold():
    _, findings = planned(bored("E1", 44.010, 44.030, depth=(29.0, 29.1)), shop=shop())
    assert [hold.slug for hold in findings.holds_of("E1")] == ["cutter-not-deep-enough"]


def test_one_stop_serves_every_depth_that_allows_it_and_the_dial_shows_its_own_unit():
    inch = jobs.machine(dial="inch", dial_step=jobs.given(0.0254))
    made, _ = planned(
        bored("E1", 44.01, 44.03, depth=(7.00, 7.10)),
        bored("E2", 44.01, 44.03, depth=(7.06, 7.16)),
        bored("E3", 44.01, 44.03, depth=(7.30, 7.40)),
        machine=inch,
    )
    stops = made.settings[0].depth_stops
    assert [stop.valves for stop in stops] == [("E1", "E2"), ("E3",)]
    assert stops[0].dial_unit == "in"
    assert stops[0].dial.value == pytest.approx(round(stops[0].dial.value, 3))
    assert 7.06 <= stops[0].stop.value <= 7.10
    assert [plan.depth_stop for plan in made.plans] == [1, 1, 2]


def test_depths_between_two_marks_are_a_warning():
    _, findings = planned(bored("E1", 44.01, 44.03, depth=(7.005, 7.015)))
    assert "depth-between-steps" in jobs.slugs(findings)


# --- fewest, proved -------------------------------------------------------------------------------------------------

_step = strategies.integers(0, 14)
_window = strategies.tuples(_step, strategies.integers(0, 6))


def fewest_by_trying(windows):
    ends = sorted({last for _, last in windows})
    for count in range(1, len(windows) + 1):
        for chosen in combinations(ends, count):
            if all(any(first <= point <= last for point in chosen) for first, last in windows):
                return count
    return 0


@hypothesis_settings(max_examples=300, deadline=None)
@given(strategies.lists(_window, min_size=1, max_size=6))
def test_no_smaller_number_of_settings_serves_all(drawn):
    windows = [(start, start + width) for start, width in drawn]
    plans = [
        bored(f"E{place}", 44.0 + 0.002 * first - 0.0005, 44.0 + 0.002 * last + 0.0005)
        for place, (first, last) in enumerate(windows, start=1)
    ]
    made, _ = planned(*plans)
    assert len(made.settings) == fewest_by_trying(windows) == len(made.proof)
    served = sorted(name for setting in made.settings for name in setting.valves)
    assert served == sorted(plan.name for plan in plans)
    for setting in made.settings:
        assert setting.least.value - 1e-9 <= setting.aim.value <= setting.most.value + 1e-9
    limits = {plan.name: (plan.bore.least.value, plan.bore.most.value) for plan in plans}
    for one, other in combinations(made.proof, 2):
        (a, b), (c, d) = limits[one], limits[other]
        assert b - 0.0005 < c or d - 0.0005 < a, "the proof names valves that one setting could serve"
    readings = [setting.reading.value for setting in made.settings]
    assert readings == sorted(readings)
    assert [setting.number for setting in made.settings] == list(range(1, len(readings) + 1))


@hypothesis_settings(max_examples=40, deadline=None)
@given(strategies.lists(_window, min_size=1, max_size=6))
def test_the_same_valves_give_the_same_settings(drawn):
    plans = [
        bored(f"E{place}", 44.0 + 0.002 * first, 44.001 + 0.002 * (first + width))
        for place, (first, width) in enumerate(drawn, start=1)
    ]
    once, again = planned(*plans)[0], planned(*plans)[0]
    assert [(one.valves, one.reading.value, one.aim.value) for one in once.settings] == [
        (one.valves, one.reading.value, one.aim.value) for one in again.settings
    ]
    assert once.proof == again.proof
