"""List limits of an insert beside the fit: wider, narrower, or exactly as wide."""

import random
from fractions import Fraction

import pytest
from msgspec.structs import replace
from tests.planning import jobs

from seatwright.job.model import CutReadings, Limits
from seatwright.planning.planner import plan

PER_INCH = Fraction("25.4")


def typed(text: str, inch: bool) -> jobs.Given:
    """A length as the job room hands it on: the nearest float to the exact value."""
    exact = Fraction(text) * (PER_INCH if inch else 1)
    return jobs.given(float(exact), f"{text} {'in' if inch else 'mm'}")


def of_one_width(seed: int, inch: bool) -> tuple[jobs.Insert, Limits]:
    """An insert whose list limits lie exactly as far apart as those of its fit."""
    made = random.Random(seed)
    places = 4 if inch else 3
    step = Fraction(1, 10**places)
    od = Fraction(made.randrange(13000, 20000), 10000) if inch else Fraction(made.randrange(33000, 50000), 1000)
    wide, least = made.randrange(1, 40) * step, made.randrange(10, 60) * step

    def limit(value: Fraction) -> jobs.Given:
        return typed(f"{float(value):.{places}f}", inch)

    ring = jobs.insert("A", 40.0, id=28.0)
    ring = replace(ring, od=limit(od), od_least=limit(od - (wide // 2)), od_most=limit(od - (wide // 2) + wide))
    fit = Limits(limit(least), limit(least + wide), None, "fit", jobs.span(), "manual")
    return ring, fit


@pytest.mark.parametrize("inch", [False, True], ids=["mm", "inch"])
def test_limits_exactly_as_wide_as_the_fit_leave_one_bore_for_any_width(inch):
    gauge = replace(jobs.bore_gauge(), rings=(), step=None)
    for seed in range(250):
        ring, fit = of_one_width(seed, inch)
        pocket = ring.od.value - 0.6
        found = {"pocket_a": pocket, "pocket_b": pocket + 0.005, "throat": pocket - 6.0}
        valve = jobs.valve(insert=jobs.wish("stock", "A"), found=found, interference=fit)
        cut = CutReadings(bore_a=jobs.reading(ring.od_most.value - fit.most.value))
        head = jobs.head([replace(valve, cut=cut)])
        shop = jobs.shop(inserts=(ring,), cutters=(jobs.cutter(least=20.0),))
        made = plan(jobs.job(head, shop=shop, units="inch" if inch else "mm", bore_gauge=gauge))
        bore = made.valves[0].bore
        assert bore is not None, seed
        assert bore.least.value <= bore.aim.value <= bore.most.value
        assert bore.most.value - bore.least.value < 2e-9


def test_limits_wider_than_the_fit_are_a_hold_that_measuring_the_insert_lifts():
    ring = jobs.insert("A", 44.60, 0.021)
    wide = jobs.valve(insert=jobs.wish("stock", "A"))
    shop = jobs.shop(inserts=(ring,))
    held = plan(jobs.job(jobs.head([wide]), shop=shop)).valves[0]
    assert [hold.slug for hold in held.holds] == ["od-too-wide-for-fit"]
    measured = jobs.valve(insert=jobs.wish("stock", "A"), found={"insert_od": 44.61})
    assert plan(jobs.job(jobs.head([measured]), shop=shop)).valves[0].status == "to-bore"
