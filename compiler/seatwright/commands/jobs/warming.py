"""Loading the whole house before the work is split up, so that each process begins with all it needs."""

from __future__ import annotations

from seatwright.planning.plan import Plan

# A job and a shop that are nobody's: small, and yet they pass through every room up to the cards of a cutter's setting.
_FILES = {
    "1.seat": """\
job 1
  units mm
use "1.shop"
head "x"
  material grey iron
  temperature 22 C
valves all
  insert choose
  stand below 0.00 to 0.10
measured at 72 F
  valve stem guide-top guide-bottom pocket-a pocket-b pocket-depth pocket-tir throat insert-od
  E1 .315 in 8.02 8.03 44.02 44.05 7.10 0.04 36.0 44.57
""",
    "1.shop": """\
shop "x"
  units mm
machine "x"
  speeds 35 50 rpm
  feeds hand
gauge "x"
  range 28 to 62
  step 0.002
  master 44 reads 44.001
  indicator radius
bore-gauge "x"
  range 28 to 62
  step 0.001
cutter C1
  range 28 to 62
  tip-width 7.5
pilots
  pilot diameter length
  P1 8.000 85
inserts
  insert od od-least od-most height id alloy seat
  X1 44.57 44.56 44.58 7.20 38.0 tool-steel any
interference
  head alloy seat over to least most source
  grey-iron any any - - 0.06 0.10 "x"
""",
}


def warm() -> None:
    """Take a small job through the whole house once; nothing comes of it."""
    from seatwright.cards.render import documents

    documents(warm_planning())


def warm_planning() -> Plan:
    """As far as its plan."""
    from seatwright.job import read
    from seatwright.planning.planner import plan

    job, messages = read("1.seat", lambda name: _FILES[name].encode("utf-8"))
    assert job is not None, messages
    return plan(job)
