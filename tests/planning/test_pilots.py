"""The pilot each guide gets, and how far the bore can stand off."""

import pytest
from tests.planning import jobs

from seatwright.planning.basis.findings import Findings
from seatwright.planning.found.brought_to_20 import start
from seatwright.planning.found.guides import guides
from seatwright.planning.found.pilots import pilots

THREE = {"guide_top": 9.020, "guide_middle": 9.020, "guide_bottom": 9.047}


def piloted(valve, shop=None, **job_fields):
    findings = Findings()
    head = jobs.head([valve])
    job = jobs.job(head, shop=shop or jobs.shop(), **job_fields)
    plans = guides(job, head, start(job, head, findings), findings)
    return pilots(job, head, plans, findings)[0], findings


def test_the_largest_dead_pilot_that_enters_the_tightest_station_is_taken():
    plan, _ = piloted(jobs.valve())
    assert plan.pilot.name == "P902"
    assert plan.pilot.diameter.value == 9.017
    assert plan.pilot.clearance.value == pytest.approx(0.003)


def test_a_bell_mouthed_port_end_does_not_count_as_if_the_pilot_leaned_on_it():
    # Worked figure: reference/worked-checks.md 12, .003/.003/.030 over 62, h 35: 0.0079.
    plan, _ = piloted(jobs.valve(found=THREE))
    assert plan.pilot.offset.value == pytest.approx(0.0079, abs=5e-5)
    assert plan.pilot.runout.value == pytest.approx(0.0158, abs=1e-4)


def test_the_height_is_that_of_the_rim():
    plan, _ = piloted(jobs.valve(found=THREE))
    height = next(figure for figure in plan.pilot.offset.walk() if figure.symbol == "h")
    assert height.value == pytest.approx(28.0 + 7.0)


@pytest.mark.parametrize("when, high", [("after-measuring", 34.8), ("before-measuring", 35.0), ("still-to-come", 35.0)])
def test_a_skim_after_measuring_brings_the_rim_nearer_to_the_guide(when, high):
    # handbook 2, h is to the rim: 28.0 + 7.0 as measured, less the 0.20 that came off the deck since.
    findings = Findings()
    head = jobs.head([jobs.valve()], skim=jobs.skim(0.20, when))
    job = jobs.job(head, shop=jobs.shop())
    plan = pilots(job, head, start(job, head, findings), findings)[0]
    height = next(figure for figure in plan.pilot.offset.walk() if figure.symbol == "h")
    assert height.value == pytest.approx(high)
    assert ("skim" in {figure.symbol for figure in height.walk()}) is (when == "after-measuring")


def test_a_pilot_shorter_than_the_guide_leans_more():
    # Worked figure: reference/worked-checks.md 12, clearance 0.010, 40 of 62: 0.0138 instead of 0.0106.
    shop = jobs.shop(pilots=(jobs.pilot("P9", 9.0, 40.0),))
    even = {"guide_top": 9.010, "guide_middle": 9.010, "guide_bottom": 9.010}
    plan, _ = piloted(jobs.valve(found=even), shop)
    assert plan.pilot.offset.value == pytest.approx(0.0138, abs=1e-4)
    long = jobs.shop(pilots=(jobs.pilot("P9", 9.0, 62.0),))
    assert piloted(jobs.valve(found=even), long)[0].pilot.offset.value == pytest.approx(0.0106, abs=1e-4)


def test_a_left_out_clearance_is_0_003_with_a_notice():
    shop = jobs.shop(practice=jobs.practice(pilot_clearance=None))
    plan, findings = piloted(jobs.valve(), shop)
    assert plan.pilot.name == "P902"
    assert "0.003 mm" in jobs.texts(findings, "pilot-clearance-left-out").replace("0.00 mm", "")


def test_a_pilot_that_leans_too_much_gives_way_to_one_that_grips():
    worn = {"guide_top": 9.028, "guide_middle": 9.027, "guide_bottom": 9.029}
    shop = jobs.shop(
        pilots=(jobs.pilot("P900", 9.000), jobs.gripping_pilot("X9", 8.95, 9.25)),
        practice=jobs.practice(runout=0.03),
    )
    plan, findings = piloted(jobs.valve(found=worn), shop)
    assert plan.pilot.name == "X9"
    assert plan.pilot.offset.value == 0.002
    assert not findings.holds_of("E1")


def test_a_dead_pilot_within_the_limit_is_not_given_up_for_one_that_grips():
    shop = jobs.shop(pilots=(jobs.gripping_pilot("X9", 8.95, 9.25), jobs.pilot("P902", 9.017)))
    assert piloted(jobs.valve(), shop)[0].pilot.name == "P902"


def test_where_every_pilot_leans_too_much_the_valve_is_on_hold_with_both_figures():
    worn = {"guide_top": 9.028, "guide_middle": 9.027, "guide_bottom": 9.029}
    shop = jobs.shop(pilots=(jobs.pilot("P900", 9.000),), practice=jobs.practice(runout=0.03))
    plan, findings = piloted(jobs.valve(found=worn), shop)
    hold = findings.holds_of("E1")[0]
    assert hold.slug == "pilot-leans"
    assert hold.figure.value == plan.pilot.runout.value > hold.limit.value == 0.03
    assert "9.027 mm" in hold.help


def test_no_pilot_that_enters_is_a_hold():
    shop = jobs.shop(pilots=(jobs.pilot("P903", 9.030),))
    plan, findings = piloted(jobs.valve(), shop)
    assert plan.pilot is None
    assert findings.holds_of("E1")[0].slug == "pilot-none-enters"


def test_a_pilot_by_hand_is_used_if_it_enters():
    assert piloted(jobs.valve(pilot="P900"))[0].pilot.name == "P900"
    _, findings = piloted(jobs.valve(pilot="P903"))
    assert findings.holds_of("E1")[0].slug == "pilot-does-not-enter"


def test_a_spindle_that_guides_stands_off_by_centring_and_level():
    # Worked figure: reference/worked-checks.md 12, level 0.02/100 mm, h 35, L 60: 0.013; over 44: 0.009.
    machine = jobs.machine(guides_by=jobs.named("spindle"), centring=jobs.given(0.0), level=jobs.given(0.0002, "0.2"))
    plan, _ = piloted(jobs.valve(guide_length=60.0), machine=machine)
    assert plan.pilot.kind == "spindle"
    assert plan.pilot.offset.value == pytest.approx(0.013, abs=1e-9)
    assert plan.pilot.tilt.value == pytest.approx(0.0088, abs=1e-4)


def test_a_live_pilot_finds_the_guide_for_the_spindle():
    machine = jobs.machine(guides_by=jobs.named("spindle"), centring=jobs.given(0.01), level=jobs.given(0.0, "0"))
    shop = jobs.shop(pilots=(jobs.pilot("L900", 9.000, kind="live"), jobs.pilot("L901", 9.010, kind="live")))
    plan, _ = piloted(jobs.valve(), shop, machine=machine)
    assert (plan.pilot.name, plan.pilot.kind) == ("L901", "live")
    assert plan.pilot.offset.value == pytest.approx(0.01)


def test_a_tapered_pilot_needs_only_the_mouth_in_its_range():
    shop = jobs.shop(pilots=(jobs.gripping_pilot("T9", 9.04, 9.10, "tapered"),))
    assert piloted(jobs.valve(found=THREE), shop)[0].pilot.name == "T9"
    _, findings = piloted(jobs.valve(), shop)
    assert findings.holds_of("E1")[0].slug == "pilot-none-enters"


def test_a_gripping_pilot_without_tir_counts_as_true_and_that_is_said():
    shop = jobs.shop(pilots=(jobs.gripping_pilot("X9", 8.95, 9.25, offset=None),))
    plan, findings = piloted(jobs.valve(), shop)
    assert plan.pilot.offset.value == 0.0
    assert "pilot-tir-left-out" in jobs.slugs(findings)


@pytest.mark.parametrize(
    "without, slug",
    [
        ({"guide_length": None}, "guide-length-not-given"),
        ({"guide_to_floor": None}, "guide-to-floor-not-given"),
        ({"found": {"pocket_depth": None}}, "pocket-depth-not-given"),
    ],
)
def test_without_a_length_or_height_the_lean_is_not_computed_and_that_is_said(without, slug):
    plan, findings = piloted(jobs.valve(**without))
    assert plan.pilot.name == "P902"
    assert plan.pilot.offset is None
    assert slug in findings.not_checked()


def test_without_pilots_or_guide_readings_there_is_no_pilot_and_that_is_said():
    plan, findings = piloted(jobs.valve(), jobs.shop(pilots=()))
    assert plan.pilot is None
    assert "pilots-not-given" in findings.not_checked()
    plan, findings = piloted(jobs.valve(found=dict.fromkeys(jobs.GUIDE)))
    assert plan.pilot is None
    assert "guide-not-measured" in findings.not_checked()


def test_an_oval_guide_lets_the_pilot_lean_the_way_it_is_wide():
    # By hand: c .043 at the port, .033 at the spring, over 60, the rim 35.4 above: .0215 + .038*35.4/60 = .0439.
    found = {"guide_top": (8.008, 8.038), "guide_middle": None, "guide_bottom": (8.008, 8.048), "pocket_depth": 7.40}
    shop = jobs.shop(pilots=(jobs.pilot("P8000", 8.000, 85.0), jobs.pilot("P8005", 8.005, 85.0)))
    plan, _ = piloted(jobs.valve(found=found, stem=7.95, guide_length=60.0), shop)
    assert plan.pilot.name == "P8005", "the smallest reading tells what enters"
    assert plan.pilot.offset.value == pytest.approx(0.0439, abs=5e-5)


def test_a_gripping_pilot_suits_a_guide_only_if_its_range_holds_the_widest_reading_too():
    found = {"guide_top": (8.008, 8.020), "guide_middle": None, "guide_bottom": (8.008, 8.048)}
    for largest, enters in ((8.05, True), (8.03, False)):
        shop = jobs.shop(pilots=(jobs.gripping_pilot("X8", 7.90, largest),))
        plan, findings = piloted(jobs.valve(found=found, stem=7.95, guide_wear_limit=0.2), shop)
        assert (plan.pilot is not None) is enters
        assert ("pilot-none-enters" in jobs.slugs(findings)) is not enters


@pytest.mark.parametrize("kind", ["expanding", "tapered"])
def test_what_a_gripping_pilot_runs_out_by_grows_from_where_it_was_read(kind):
    # By hand: tir .012 read 25 above the port end, the rim 28 + 7 above it: .006*35/25 = .0084.
    pilot = jobs.gripping_pilot("X9", 8.9, 9.1, kind, 0.006, tir_at=25.0)
    plan, findings = piloted(jobs.valve(), jobs.shop(pilots=(pilot,)))
    assert plan.pilot.offset.value == pytest.approx(0.0084)
    assert plan.pilot.runout.value == pytest.approx(0.0168)
    assert plan.pilot.tilt.value == pytest.approx(0.006 / 25 * 44.01)
    assert "pilot-tir-at-not-given" not in jobs.slugs(findings)


def test_a_gripping_pilot_read_at_no_known_height_counts_half_its_tir_and_that_is_said():
    pilot = jobs.gripping_pilot("X9", 8.9, 9.1, "expanding", 0.006)
    plan, findings = piloted(jobs.valve(), jobs.shop(pilots=(pilot,)))
    assert plan.pilot.offset.value == pytest.approx(0.006)
    assert plan.pilot.tilt is None
    assert "pilot-tir-at-not-given" in findings.not_checked()
