"""Exact units, and facts of the trade that no standard prints: those are marked common practice."""

from __future__ import annotations

from fractions import Fraction

import pytest

from seatwright.cards.render import documents
from seatwright.job import Job, read
from seatwright.planning.plan import Plan
from seatwright.planning.planner import plan
from seatwright.syntax.numbers.units import to_coherent
from seatwright.text import Message

SHOP = """shop "practice"
  units inch
machine "borer"
  speeds     35 50 70 100 rpm
  feeds      .004 in/rev
  dial-step  .001
gauge "setting gauge"
  range           1 to 3
  step            .0001
  master          1.5000 reads 1.5000
  indicator       {indicator}
  indicator-step  .0005
cutter C1
  range      1 to 3
  tip-width  .4
  corner-radius .015
  overcut    .0003
inserts
  insert  od     od-least  od-most  height  id     chamfer  alloy       seat  on-hand
  X       1.635  1.6345    1.6355   .281    1.20   .030     tool-steel  any   9
  X10     1.645  1.6445    1.6455   .281    1.20   .030     tool-steel  any   9
  X20     1.655  1.6545    1.6555   .281    1.20   .030     tool-steel  any   9
  X30     1.665  1.6645    1.6655   .281    1.20   .030     tool-steel  any   9
  X40     1.675  1.6745    1.6755   .281    1.20   .030     tool-steel  any   9
practice
  clean-up       .002
  trial-under    .004
  top-speed      50 rpm
  surface-speed  65 ft/min
"""
JOB = """job 1 "practice"
  units inch
use "practice.shop"
head "iron"
  material grey iron
valves all
  insert choose
  interference .0025 to .0040 "as in the example of the language page"
  stand below .000 to .004
  oversize-of 1.6320
measured
  valve  pocket-a  pocket-b  pocket-depth  pocket-tir  throat
  E1     {pocket}  {pocket}  .280          .000        1.25
"""


def planned(pocket: str = "1.6325", indicator: str = "radius") -> Plan:
    """The plan of one valve whose pocket is as given [in]."""
    job, messages = read(
        "job.seat",
        lambda name: (JOB.format(pocket=pocket) if name == "job.seat" else SHOP.format(indicator=indicator)).encode(),
    )
    assert job is not None, [message.text for message in messages]
    return plan(job)


def with_head_diameter(said: str) -> tuple[Job | None, tuple[Message, ...]]:
    """The job with one figure more, typed twice over."""
    job = JOB.format(pocket="1.6325").replace("  oversize-of 1.6320\n", f"  head-diameter {said}\n")
    shop = SHOP.format(indicator="radius")
    return read("job.seat", lambda name: (job if name == "job.seat" else shop).encode())


def slugs(made: Plan) -> set[str]:
    """What the plan says, by slug."""
    return {message.slug for message in made.messages}


def test_an_inch_is_25_4_mm_exactly() -> None:
    # International yard and pound agreement of 1959, from memory: 1 in = 25.4 mm exactly.
    assert to_coherent(Fraction(1), "in") == Fraction("25.4")
    assert to_coherent(Fraction(1), "thou") == Fraction("0.0254")


def test_nine_sixteenths_of_an_inch_is_half_an_inch_and_sixty_two_and_a_half_thou_exactly() -> None:
    assert to_coherent(Fraction(9, 16), "in") == to_coherent(Fraction("0.5625"), "in") == Fraction("14.2875")


@pytest.mark.parametrize("said", ["9/16 in = .562 in", "9/16 in = .563 in", "9/16 in = 14.29 mm"])
def test_a_nine_sixteenths_drive_may_be_called_562(said: str) -> None:
    # Common practice: a 9/16 in drive is called .562. Half of its last digit is just what it lacks.
    job, messages = with_head_diameter(said)
    assert job is not None, [message.text for message in messages]


def test_a_nine_sixteenths_drive_is_not_called_561() -> None:
    job, messages = with_head_diameter("9/16 in = .561 in")
    assert job is None
    assert [message.slug for message in messages] == ["units-disagree"]


def test_a_counterbore_under_a_long_pilot_runs_no_faster_than_the_shop_says() -> None:
    # Common practice: a counterbore under a long pilot runs dry at about 50 rpm or less. 65 ft/min on 1.65 in alone
    # would give 151 rpm, a step of 100.
    made = planned()
    rpm = made.valves[0].rpm
    assert rpm is not None
    assert rpm.value == 50


@pytest.mark.parametrize("over, insert", [(0.0005, "X10"), (0.010, "X20"), (0.020, "X30"), (0.030, "X40")])
def test_each_oversize_step_of_ten_thou_is_known_for_what_it_is(over: float, insert: str) -> None:
    # Common practice: oversize inserts come in steps of .010, .020, .030 in. The aircraft overhaul manual [S30] says
    # to compare a recess with its original diameter, because an earlier oversize may be in there.
    made = planned(f"{1.632 + over:.4f}")
    assert made.valves[0].insert is not None
    assert made.valves[0].insert.name == insert
    assert ("earlier-oversize" in slugs(made)) == (over >= 0.010)


def test_an_indicator_that_follows_the_tip_shows_half_of_a_change_of_diameter() -> None:
    # Common practice: an indicator that follows the tip on its circle shows radius.
    on_radius = documents(planned(indicator="radius")).markdown
    assert "Shows RADIUS, half the gain" in on_radius
    assert "half on the needle" in on_radius
    on_diameter = documents(planned(indicator="diameter")).markdown
    assert "Shows DIAMETER, all the gain" in on_diameter
    assert "half on the needle" not in on_diameter


def test_the_largest_reading_of_the_sweep_is_the_size() -> None:
    # Common practice.
    assert "Needle: sweep for the largest, lock, sweep" in documents(planned()).markdown
