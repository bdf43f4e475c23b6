"""The maker's sizes: which table counts, which size an insert is of, what a found pocket was bored to, what binds."""

from __future__ import annotations

import pytest
from tests.published.test_makers_sizes import SHOP

from seatwright.job import read
from seatwright.planning.plan import Plan
from seatwright.planning.planner import plan

# Invented: a shelf of rings by their od, and a maker's table of three sizes that step by a quarter of a millimetre.
RINGS = "".join(
    f"  {name}  {od:.3f}  {od - 0.004:.3f}  {od + 0.004:.3f}  7.0  20  0.5  any  4\n"
    for name, od in (("R00", 40.070), ("R25", 40.320), ("R50", 40.570), ("R37", 40.445))
)
COLUMNS = "  size  bore-least  bore-most  insert-od-least  insert-od-most  depth-least  depth-most\n"
TABLE = (
    'pocket-sizes all "p. 20"\n' + COLUMNS + "  standard  40.000  40.016  40.064  40.076  7.00  7.10\n"
    "  +0.25     40.250  40.266  40.314  40.326  7.00  7.10\n"
    "  +0.50     40.500  40.516  40.564  40.576  7.13  7.23\n"
)
ENGINE = 'engine T1\n  units mm\n  source "manual 3"\n  material aluminium\n'


def planned(lines: str, engine: str = TABLE, pocket: float = 40.010, more: str = "") -> Plan:
    """E1 with a pocket as found; lines: of its `valves` section; more: below the head."""
    job = (
        'job 1 "x"\n  units mm\nuse "b.shop"\nuse "t1.engine"\nhead "h"\n  temperature 20 C\n'
        f"valves E1\n  pocket bore\n{lines}{more}"
        f"measured\n  valve  pocket-a  pocket-b  pocket-depth\n  E1  {pocket:.3f}  {pocket:.3f}  6.5\n"
    )
    files = {"job.seat": job, "b.shop": SHOP.format(inserts=RINGS), "t1.engine": ENGINE + engine}
    found, messages = read("job.seat", lambda name: files[name].encode())
    assert found is not None, [message.text for message in messages if message.severity == "error"]
    return plan(found)


def slugs(made: Plan) -> set[str]:
    return {message.slug for message in made.messages}


CHOOSE = "  insert choose\n"


def test_the_smallest_size_that_cleans_up_is_taken_with_its_own_depth() -> None:
    for pocket, ring, size, bore, depth in (
        (40.010, "R25", "+0.25", (40.250, 40.266), (7.00, 7.10)),
        (40.262, "R50", "+0.50", (40.500, 40.516), (7.13, 7.23)),
    ):
        (valve,) = planned(CHOOSE, pocket=pocket).valves
        assert valve.insert is not None
        assert valve.bore is not None
        assert valve.depth is not None
        assert valve.maker is not None
        assert (valve.insert.name, valve.insert.size, valve.maker.size) == (ring, size, size)
        assert bore[0] - 1e-9 <= valve.bore.least.value <= valve.bore.most.value <= bore[1] + 1e-9
        assert (valve.depth.least.value, valve.depth.most.value) == pytest.approx(depth)
        # By hand: od 40.314 to 40.326 less bore 40.250 to 40.266, and the same a quarter further.
        assert valve.interference is not None
        assert (valve.interference.least.value, valve.interference.most.value) == pytest.approx((0.048, 0.076))


def test_a_ring_between_two_sizes_is_of_none() -> None:
    (valve,) = planned("  insert R37\n").valves
    assert [hold.slug for hold in valve.holds] == ["no-makers-size"]


def test_the_row_that_names_a_ring_is_its_size_whatever_its_od() -> None:
    rows = TABLE.replace("depth-most\n", "depth-most  insert\n").replace("7.10\n", "7.10  -\n")
    rows = rows.replace("7.13  7.23\n", "7.13  7.23  R37\n")
    (valve,) = planned("  insert R37\n", rows).valves
    assert [hold.slug for hold in valve.holds] == ["outside-makers-bore"]


def test_a_size_that_is_asked_for_is_looked_at_alone() -> None:
    (valve,) = planned(CHOOSE + "  size +0.50\n").valves
    assert valve.insert is not None
    assert valve.insert.name == "R50"
    assert {one.reason for one in valve.insert.passed_over} == {"no-makers-size"}
    made = planned(CHOOSE + "  size any\n", pocket=40.250)
    assert made.valves[0].insert is not None
    assert made.valves[0].insert.name == "R37"
    assert made.valves[0].maker is None
    assert "makers-bore-not-kept" in slugs(made)


def test_the_makers_bore_cuts_what_the_insert_allows_and_the_aim_lies_in_the_middle_of_what_is_left() -> None:
    made = planned(CHOOSE, "valves all\n  bore 40.245 to 40.258\n")
    (valve,) = made.valves
    assert valve.bore is not None
    assert valve.insert is not None
    # By hand: R25 is 40.316 to 40.324, its fit 0.05 to 0.09, so 40.234 to 40.266 by itself.
    limits = (valve.bore.least.value, valve.bore.aim.value, valve.bore.most.value)
    assert limits == pytest.approx((40.245, 40.2515, 40.258))
    assert "makers-bore-binds" in slugs(made)
    assert valve.maker is not None
    assert valve.maker.binds


def test_an_earlier_oversize_is_named_by_the_makers_size_and_the_standard_stands_for_oversize_of() -> None:
    made = planned(CHOOSE, pocket=40.270)
    said = [message.text for message in made.messages if message.slug == "earlier-oversize"]
    assert said == ["The pocket of E1 is 40.27 mm, the maker's +0.25: an earlier oversize is in there."]
    assert made.valves[0].found_size == "+0.25"
    between = planned(CHOOSE, pocket=40.130)
    (text,) = (message.text for message in between.messages if message.slug == "earlier-oversize")
    assert "0.122 mm over the maker's" in text
    assert "earlier-oversize" not in slugs(planned(CHOOSE, pocket=40.020))


def test_the_narrowest_table_counts_whole_and_one_in_the_job_takes_the_place_of_the_engines() -> None:
    narrow = 'pocket-sizes E1 "p. 21"\n' + COLUMNS + "  +0.50  40.500  40.516  40.564  40.576  -  -\n"
    (valve,) = planned(CHOOSE, TABLE + narrow).valves
    assert valve.insert is not None
    assert valve.insert.name == "R50"
    own = (
        'pocket-sizes exhaust "measured off a new head"\n' + COLUMNS + "  +0.37  40.375  40.391  40.439  40.451  -  -\n"
    )
    made = planned(CHOOSE, TABLE, more=own)
    assert made.valves[0].insert is not None
    assert made.valves[0].insert.name == "R37"
    said = [message.text for message in made.messages if message.slug == "engine-overridden"]
    assert said == ["pocket-sizes is a table of 1 size; the maker has a table of 3 sizes (t1.engine:5, p. 20)."]
    (beyond,) = (message for message in made.messages if message.slug == "beyond-the-maker")
    assert beyond.help == 'It goes by "measured off a new head"; the record names both.'


def test_the_pocket_of_the_job_replaces_the_makers_table_as_one_thing() -> None:
    made = planned("  insert R37\n  bore 40.375 to 40.391\n")
    assert made.valves[0].bore is not None
    assert made.valves[0].depth is None
    assert "engine-overridden" in slugs(made)
    (beyond,) = (message for message in made.messages if message.slug == "beyond-the-maker")
    assert beyond.help == "Say whose figure it is, in quotes behind it, or use the maker's."


def test_a_fit_of_the_job_counts_for_every_size_of_the_maker() -> None:
    made = planned(CHOOSE + '  interference 0.055 to 0.070 "ours"\n')
    (valve,) = made.valves
    assert valve.interference is not None
    assert (valve.interference.least.value, valve.interference.most.value) == (0.055, 0.070)
    assert "engine-overridden" in slugs(made)
    assert "beyond-the-maker" not in slugs(made)
    assert "beyond-the-maker" in slugs(planned(CHOOSE + '  interference 0.055 to 0.085 "ours"\n'))


def test_a_pocket_beyond_the_makers_largest_is_a_matter_for_him() -> None:
    for insert in ("choose", "turned"):
        (valve,) = planned(f"  insert {insert}\n", pocket=40.460).valves
        assert [hold.slug for hold in valve.holds] == ["bore-over-maker"]
    blank = TABLE + "  repair  -  41.000  -  -  -  -\n"
    (valve,) = planned("  insert turned\n", blank, pocket=40.460).valves
    assert valve.bore is not None
    assert valve.bore.most.value <= 41.0


def test_a_largest_bore_is_allowed_by_whoever_gave_it() -> None:
    own = "  insert turned\n  bore most 40.100"
    for lines, who in (
        ("  insert turned\n", "the maker allows 40.516 mm."),
        (f"{own}\n", "the job itself allows 40.10 mm."),
        (f'{own} "their letter"\n', '"their letter" allows 40.10 mm.'),
    ):
        (valve,) = planned(lines, pocket=40.460).valves
        assert [hold.slug for hold in valve.holds] == ["bore-over-maker"]
        assert valve.holds[0].text.endswith(who), valve.holds[0].text


def test_what_is_ordered_for_a_maker_s_bore_grips_in_it() -> None:
    # His next bore is 40.700 at least, and no ring of the shelf is near: od 40.700 and the shop's least interference.
    table = (
        'pocket-sizes all "p. 20"\n  size  bore-least  bore-most\n  standard  40.000  40.016\n  +0.70  40.700  40.716\n'
    )
    (valve,) = planned(CHOOSE + "  size +0.70\n", engine=table).valves
    (hold,) = valve.holds
    assert hold.slug == "no-makers-insert"
    assert valve.order is not None
    assert valve.order.od is not None
    least = next(each.value for each in valve.order.od.inputs if each.symbol == "I_least")
    assert valve.order.od.value == pytest.approx(40.700 + least)
    assert least > 0.03
