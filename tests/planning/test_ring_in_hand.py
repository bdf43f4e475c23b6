"""The ring that was measured: which of the stock it is, and when nobody can tell."""

import pytest
from tests.planning import jobs
from tests.planning.pocket_side import one

A, B = jobs.insert("A", 44.30), jobs.insert("B", 44.60)


def slugs(findings):
    return [hold.slug for hold in findings.holds_of("E1")]


@pytest.mark.parametrize("wish", [jobs.wish(), jobs.wish("stock", "A")])
@pytest.mark.parametrize("od, held", [(44.295, False), (44.305, False), (44.294, True), (44.3061, True)])
def test_a_measured_od_outside_its_list_limits_is_the_wrong_ring_or_a_slip(wish, od, held):
    # A is 44.295 to 44.305 by the list, and the shop gives no uncertainty of its inserts.
    plan, findings = one(jobs.valve(insert=wish, found={"insert_od": od}), A, B)
    assert slugs(findings) == (["measured-insert-off-list"] if held else [])
    assert plan.insert.measured is not held, "what is in doubt is not bored for"


def test_outside_by_no_more_than_what_is_not_known_of_the_insert_it_is_believed():
    # 1.65 * 0.002 = 0.0033 on top of 44.305.
    shop = jobs.shop(inserts=(A,), practice=jobs.practice(insert_uncertainty=jobs.spread(0.002)))
    for od, held in ((44.308, []), (44.309, ["measured-insert-off-list"])):
        assert slugs(one(jobs.valve(found={"insert_od": od}), shop=shop)[1]) == held


@pytest.mark.parametrize("units, most", [("mm", 0.05), ("inch", 0.0508)])
def test_without_list_limits_two_thou_are_believed(units, most):
    bare = jobs.insert("A", 44.30, None)
    for off, held in ((most, []), (most + 0.001, ["measured-insert-off-list"])):
        wish = jobs.wish("stock", "A")
        _, findings = one(jobs.valve(insert=wish, found={"insert_od": 44.30 + off}), bare, units=units)
        assert slugs(findings) == held


def test_the_hold_names_both_figures_and_each_way_out_of_it_lifts_it():
    held = jobs.valve(found={"insert_od": 44.240})
    _, findings = one(held, A, B)
    assert "44.24 mm" in findings.holds_of("E1")[0].text
    assert "44.295 to 44.305 mm" in findings.holds_of("E1")[0].text
    again = jobs.valve(found={"insert_od": 44.302})
    named = jobs.valve(insert=jobs.wish("stock", "C"), found={"insert_od": 44.240})
    own_row = jobs.insert("C", 44.240)
    assert slugs(one(again, A, B)[1]) == []
    assert slugs(one(named, A, B, own_row)[1]) == []


def test_of_two_lines_of_one_od_the_wishes_decide():
    tool, cobalt = jobs.insert("X", 44.30, alloy="tool steel"), jobs.insert("Y", 44.30, alloy="cobalt alloy")
    wanted = jobs.valve(found={"insert_od": 44.301}, alloys=(jobs.named("cobalt alloy"),))
    plan, findings = one(wanted, tool, cobalt)
    assert slugs(findings) == []
    assert (plan.insert.name, plan.insert.measured) == ("Y", True)
    other_seat = jobs.insert("X", 44.30, seat="intake")
    assert one(jobs.valve(found={"insert_od": 44.301}), other_seat, cobalt)[0].insert.name == "Y"


def test_whatever_is_on_hand_the_ring_in_hand_is_there():
    plan, findings = one(jobs.valve(found={"insert_od": 44.301}), jobs.insert("A", 44.30, on_hand=0))
    assert slugs(findings) == []
    assert plan.insert.measured


def test_two_as_near_are_a_hold_until_one_is_named():
    twins = (jobs.insert("X", 44.30), jobs.insert("Y", 44.30))
    _, findings = one(jobs.valve(found={"insert_od": 44.301}), *twins)
    assert slugs(findings) == ["measured-insert-which"]
    assert "X (44.3 mm) or Y (44.3 mm)" in findings.holds_of("E1")[0].text
    plan, findings = one(jobs.valve(insert=jobs.wish("stock", "Y"), found={"insert_od": 44.301}), *twins)
    assert slugs(findings) == []
    assert plan.insert.measured


def test_a_ring_that_the_alloy_wish_rules_out_is_named():
    _, findings = one(jobs.valve(found={"insert_od": 44.301}, alloys=(jobs.named("cobalt alloy"),)), A)
    assert "measured-insert-unknown" in slugs(findings)
    assert "A (tool steel, any), which is ruled out" in findings.holds_of("E1")[0].text


def test_the_ring_of_another_size_is_counted_nowhere_for_the_chosen_insert():
    # A was in hand and is too small; B's list figures serve.
    found = {"pocket_a": 44.28, "pocket_b": 44.28, "insert_od": 44.301}
    plan, findings = one(jobs.valve(found=found, pocket="bore"), A, B)
    assert (plan.insert.name, plan.insert.measured) == ("B", False)
    assert plan.at20.insert_od is None
    assert "another-insert-measured" in jobs.slugs(findings)


def test_an_insert_made_for_the_other_seat_and_named_by_hand_is_a_warning():
    intake = jobs.insert("A", 44.30, seat="intake")
    plan, findings = one(jobs.valve(insert=jobs.wish("stock", "A")), intake)
    assert slugs(findings) == []
    assert plan.bore is not None
    assert "made for intake seats and named for E1, an exhaust" in jobs.texts(findings, "insert-for-another-seat")
