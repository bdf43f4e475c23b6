"""What the new bore must clean up."""

import pytest
from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.later_life import cut_readings

from seatwright.planning.basis.findings import Findings
from seatwright.planning.found.brought_to_20 import start
from seatwright.planning.found.clean_up import clean_up
from seatwright.planning.found.guides import guides
from seatwright.planning.found.pilots import pilots


def cleaned(valve, shop=None, units="mm", **head_fields):
    findings = Findings()
    head = jobs.head([valve], **head_fields)
    job = jobs.job(head, shop=shop or jobs.shop(), units=units)
    plans = start(job, head, findings)
    for stage in (guides, pilots, clean_up):
        plans = stage(job, head, plans, findings)
    return plans[0], findings


def test_the_bore_cleans_the_widest_reading_off_centre_with_stock():
    # Handbook 3 by hand: 44.10 + 2*(0.05 + e) + 0.05.
    plan, _ = cleaned(jobs.valve(found={"pocket_a": 44.08, "pocket_b": 44.10, "pocket_offset": 0.05}))
    assert plan.clean_up.needed.value == pytest.approx(44.25 + 2 * plan.pilot.offset.value)


def test_a_pocket_wider_below_counts_there():
    plan, _ = cleaned(jobs.valve(found={"pocket_low_b": 44.30}))
    assert plan.clean_up.needed.value > 44.35


def test_damage_that_reaches_further_counts():
    plan, _ = cleaned(jobs.valve(found={"damage": 44.60}))
    assert plan.clean_up.needed.value == pytest.approx(44.67 + 2 * plan.pilot.offset.value)


BIG_INSERT = jobs.insert("X46", 44.50)


@pytest.mark.parametrize(
    "insert, largest, counts",
    [
        ("X46", 44.21, True),  # cut for a smaller insert: 44.50 is 0.29 over it
        ("X46", 44.38, False),  # its own size, small by less than a fit
        (None, 44.21, False),  # left to choose, the bore stays with what it was chosen for
    ],
)
def test_a_bore_cut_for_a_smaller_insert_counts_with_its_largest_reading(insert, largest, counts):
    # By hand: 44.21 + 2*e + 0.05 beside 44.01 + 2*(0.01 + e) + 0.05 of the pocket as found.
    wish = jobs.wish() if insert is None else jobs.wish("stock", insert)
    valve = replace(jobs.valve(insert=wish), cut=cut_readings(largest - 0.04, (largest - 0.02, largest)))
    plan, _ = cleaned(valve, shop=jobs.shop(inserts=(BIG_INSERT,)))
    by_hand = largest if counts else 44.03
    assert plan.clean_up.needed.value == pytest.approx(by_hand + 0.05 + 2 * plan.pilot.offset.value)
    assert ("cut_bore_b" in {each.symbol for each in plan.clean_up.needed.walk()}) is counts


def test_a_pocket_that_the_smaller_cut_did_not_clean_up_counts_still():
    valve = jobs.valve(insert=jobs.wish("stock", "X46"), found={"damage": 44.60})
    plan, _ = cleaned(replace(valve, cut=cut_readings(44.10, 44.12)), shop=jobs.shop(inserts=(BIG_INSERT,)))
    assert plan.clean_up.needed.value == pytest.approx(44.67 + 2 * plan.pilot.offset.value)


def test_an_integral_seat_is_covered_not_cleaned_up():
    # reference/worked-checks.md 13: what must be covered is the old seat's outer diameter.
    valve = jobs.valve(
        seat_integral=jobs.span(),
        head_diameter=42.6,
        setback=0.8,
        found={"pocket_a": None, "pocket_b": None, "pocket_depth": None, "pocket_offset": None},
    )
    plan, findings = cleaned(valve)
    assert plan.clean_up.needed.value == pytest.approx(41.0 + 2 * plan.pilot.offset.value)
    assert "clean-up-not-given" not in findings.not_checked()


@pytest.mark.parametrize("kind", ["choose", "turned"])
def test_an_integral_seat_without_a_setback_is_asked_for_what_the_bore_must_cover(kind):
    valve = jobs.valve(insert=jobs.wish(kind), seat_integral=jobs.span(), head_diameter=42.6)
    plan, findings = cleaned(valve)
    assert plan.clean_up is None
    hold = findings.holds_of("E1")[0]
    assert hold.slug == "seat-outer-not-known"
    assert "setback" in hold.text
    given, lifted = cleaned(replace(valve, specification=replace(valve.specification, setback=jobs.given(0.8))))
    assert given.clean_up is not None
    assert lifted.holds_of("E1") == ()


def test_what_is_not_given_is_not_counted_and_is_said():
    plan, findings = cleaned(
        jobs.valve(guide_length=None, found={"pocket_offset": None}), jobs.shop(practice=jobs.practice(clean_up=None))
    )
    assert plan.clean_up.needed.value == pytest.approx(44.01)
    assert {"pocket-runout-not-measured", "clean-up-not-given", "lean-not-counted"} <= set(findings.not_checked())


@pytest.mark.parametrize("kind", ["choose", "turned"])
@pytest.mark.parametrize("damage", [None, 44.6])
def test_without_a_measured_pocket_there_is_nothing_to_choose_by(kind, damage):
    found = {"pocket_a": None, "pocket_b": None, "damage": damage}
    plan, findings = cleaned(jobs.valve(insert=jobs.wish(kind), found=found))
    assert plan.clean_up is None
    assert [hold.slug for hold in findings.holds_of("E1")] == ["pocket-not-measured"]
    assert "`pocket-a` and `pocket-b`" in findings.holds_of("E1")[0].help


def test_a_named_insert_without_a_measured_pocket_is_a_warning():
    plan, findings = cleaned(jobs.valve(insert=jobs.wish("stock", "A"), found={"pocket_a": None, "pocket_b": None}))
    assert plan.clean_up is None
    assert findings.holds_of("E1") == ()
    assert "whether the bore for A is large enough" in jobs.texts(findings, "pocket-not-measured")
    assert "pocket-not-measured" in findings.not_checked()


@pytest.mark.parametrize("over, said", [(0.10, False), (0.11, True)])
def test_more_than_0_10_over_the_makers_size_is_an_earlier_oversize(over, said):
    _, findings = cleaned(jobs.valve(oversize_of=44.01 - over))
    assert ("earlier-oversize" in jobs.slugs(findings)) == said


def test_in_inches_the_step_is_004():
    _, findings = cleaned(jobs.valve(oversize_of=44.01 - 0.1015), units="inch")
    assert "earlier-oversize" not in jobs.slugs(findings)
