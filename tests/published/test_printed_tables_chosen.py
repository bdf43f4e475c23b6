"""Tables printed in service manuals, planned with `insert choose`: the bore keeps to the maker's limits, or a hold says
why it cannot.

The rows and their sources, service and workshop manuals and army technical manuals, are those of
`test_printed_tables.py`. Pocket, guide and stock are made up around each row: a pocket that cleans up a tenth under the
maker's least bore, and in stock the maker's own insert, or, where the table prints none, one that goes with its bore.
"""

from __future__ import annotations

import pytest
from tests.job.given_jobs import read_files
from tests.published.test_printed_tables import ROWS, lines

from seatwright.planning.plan import Plan, Status
from seatwright.planning.planner import plan

MM = {"mm": 1.0, "inch": 25.4}
WITH_A_BORE = [pytest.param(*row[1:], id=row[0]) for row in ROWS if row[2] or row[3]]
SIZE_ONLY = [row[0] for row in ROWS if not (row[2] or row[3])]
HEIGHT = 8.55  # mm, of the made-up stock where no depth is printed

SHOP = """shop "made up"
  units mm
machine "borer"
  speeds     35 50 70 rpm
  feeds      0.05 0.10 mm/rev
  dial-step  0.01
gauge "setting gauge"
  range   20 to 80
  step    0.001
  master  40.000 reads 40.000
  temperature  20 C
bore-gauge "bore gauge"
  range   20 to 80
  step    0.001
  ring    40.000 reads 40.000
  temperature  20 C
cutter C1
  range          20 to 80
  tip-width      12
  corner-radius  0.4
  overcut        0.004
pilots
  pilot  diameter  length  kind
  P1     7.990     60      dead
practice
  clean-up         0.05
  floor-clean-up   0.05
  depth-tolerance  0.05
"""


def limits(typed: str, unit: str) -> tuple[float, float]:
    """Two limits in mm."""
    least, most = (float(each) * MM[unit] for each in typed.split(" to "))
    return least, most


def planned(unit: str, od: str, bore: str, depth: str, interference: str, *, pocket_under: float) -> Plan:
    """The row as a maker's limits of one valve, `choose` before it, and a shop with one insert for it."""
    least, _ = limits(bore, unit)
    ring = limits(od, unit) if od else (least + 0.064, least + 0.070)
    deep = limits(depth, unit) if depth else (HEIGHT, HEIGHT + 0.1)
    pocket = least - pocket_under
    shop = SHOP + (
        "inserts\n  insert  od  od-least  od-most  height  id  chamfer  alloy  seat  on-hand\n"
        f"  X1  {sum(ring) / 2:.5f}  {ring[0]:.5f}  {ring[1]:.5f}  {deep[0]:.3f}  {0.75 * least:.2f}  0.8  "
        "tool-steel  any  9\n"
    )
    fit = "" if od or interference else '  interference 0.040 to 0.080 mm "common practice"\n'
    stand = "" if depth else "  stand below 0.00 to 0.10 mm\n"
    job = (
        f'job 1 "a printed table"\n  units {unit}\nuse "a.shop"\nhead "a head"\n  material grey iron\n'
        "  temperature 20 C\n  depth-from deck\n"
        f"valves E1\n  insert choose\n{lines(od, bore, depth, interference)}{fit}{stand}"
        "  guide-length 60 mm\n  guide-to-floor 26 mm\n"
        "measured in mm at 20 C\n"
        "  valve  stem   guide-top  guide-bottom  pocket-a  pocket-b  pocket-depth  pocket-tir  throat\n"
        f"  E1     7.960  8.000      8.002  {pocket:.4f}  {pocket:.4f}  {deep[0] - 0.3:.3f}  0.01  {0.7 * least:.2f}\n"
    )
    read, messages = read_files(job, a=shop)
    assert read is not None, [message.text for message in messages]
    return plan(read)


@pytest.mark.parametrize(("unit", "od", "bore", "depth", "interference"), WITH_A_BORE)
def test_the_bore_of_a_chosen_insert_keeps_to_the_makers_limits(
    unit: str, od: str, bore: str, depth: str, interference: str
) -> None:
    (valve,) = planned(unit, od, bore, depth, interference, pocket_under=0.15).valves
    least, most = limits(bore, unit)
    assert valve.status == Status.TO_BORE, [hold.text for hold in valve.holds]
    assert valve.bore is not None
    assert least - 1e-9 <= valve.bore.least.value <= valve.bore.most.value <= most + 1e-9
    if depth:
        shallow, deep = limits(depth, unit)
        assert valve.depth is not None
        assert shallow - 1e-9 <= valve.depth.least.value <= valve.depth.most.value <= deep + 1e-9


@pytest.mark.parametrize(("unit", "od", "bore", "depth", "interference"), WITH_A_BORE)
def test_a_pocket_that_is_bigger_than_the_makers_bore_is_held_and_says_why(
    unit: str, od: str, bore: str, depth: str, interference: str
) -> None:
    (valve,) = planned(unit, od, bore, depth, interference, pocket_under=-0.20).valves
    assert valve.status == Status.HOLD
    assert valve.bore is None
    assert valve.holds
    assert all(hold.text and hold.help for hold in valve.holds)


def test_only_the_rows_that_print_no_bore_are_left_out() -> None:
    assert SIZE_ONLY == ["S25, two engines", "S25, a third"]
