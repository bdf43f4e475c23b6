"""Uncertainty, guard bands and verdicts: behaviour at the edges."""

from __future__ import annotations

import math
import random
import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seatwright.handbook.uncertainty import (
    Contribution,
    InstrumentErrors,
    acceptance_budget,
    combined,
    conformance_probability,
    digital_step,
    guarded,
    master_difference,
    overcut_spread,
    planning_budget,
    propagate,
    rectangular,
    verdict,
)


def test_planning_is_less_sure_than_acceptance_because_of_the_overcut() -> None:
    # Worked by hand: about 0.0034 and 0.0019 with instruments of .002 mm steps.
    bench = [
        Contribution("gauge step", digital_step(0.002)),
        Contribution("master", 0.001),
        Contribution("insert", 0.001),
    ]
    planning = combined([*bench, Contribution("overcut", overcut_spread(0.002, 1))])
    assert planning > combined(bench)
    assert planning == pytest.approx(math.sqrt(combined(bench) ** 2 + 0.002**2 * 2))


def test_a_narrow_band_leaves_nothing_to_accept_when_both_are_lumped() -> None:
    # Worked by hand: half a band of 0.010 less 1.65·0.0034 is below nothing; with 0.0019 something is left.
    assert guarded(0.0, 0.010, 1.65, 0.0034) is None
    assert guarded(0.0, 0.010, 1.65, 0.0019) is not None


def test_without_guard_the_bare_limits_decide() -> None:
    assert guarded(44.010, 44.030, 0, 0.002) == (44.010, 44.030)
    assert verdict(44.030, 44.010, 44.030, 0, 0.002) == "accepted"
    assert verdict(44.0301, 44.010, 44.030, 0, 0.002) == "big"
    assert verdict(44.0099, 44.010, 44.030, 0, 0.002) == "small"


@given(st.floats(43.9, 44.1), st.floats(0, 3), st.floats(0, 0.005))
def test_every_bore_gets_one_verdict_and_small_lies_below_big(value: float, guard: float, u: float) -> None:
    said = verdict(value, 44.010, 44.030, guard, u)
    if said == "accepted":
        assert 44.010 <= value <= 44.030
    elif said == "small":
        assert value < 44.010
    elif said == "big":
        assert value > 44.030
    else:
        assert min(abs(value - 44.010), abs(value - 44.030)) <= guard * u + 1e-12


@given(st.floats(-0.02, 0.02), st.floats(1e-5, 0.01))
def test_probabilities_of_inside_small_and_big_make_one(off: float, u: float) -> None:
    parts = [(-math.inf, -0.01), (-0.01, 0.01), (0.01, math.inf)]
    total = sum(conformance_probability(off, u, least, most) for least, most in parts)
    assert total == pytest.approx(1, abs=1e-12)


def test_a_sure_figure_is_inside_or_not() -> None:
    assert conformance_probability(0.08, 0, 0.07, 0.09) == 1
    assert conformance_probability(0.10, 0, 0.07, 0.09) == 0


def test_more_trials_make_the_next_bore_surer_but_never_surer_than_its_own_spread() -> None:
    spreads = [overcut_spread(0.003, n) for n in (1, 2, 5, 50)]
    assert spreads == sorted(spreads, reverse=True)
    assert spreads[-1] > 0.003
    assert overcut_spread(0.003, 0) == 0.003


def test_a_straight_sum_has_the_shares_of_its_inputs() -> None:
    made = propagate(lambda a, b: 2 * a - b, {"a": (1.0, 0.1), "b": (5.0, 0.3)})
    assert made.value == -3
    assert dict(made.shares) == {"a": pytest.approx(0.2), "b": pytest.approx(-0.3)}
    assert made.standard == pytest.approx(math.hypot(0.2, 0.3))


def test_impossible_uncertainties_are_refused() -> None:
    with pytest.raises(ValueError, match="gauge: an uncertainty cannot be negative"):
        combined([Contribution("gauge", -0.001)])
    with pytest.raises(ValueError, match="divisor"):
        combined([Contribution("gauge", 0.001, 0)])
    with pytest.raises(ValueError, match="over the most"):
        guarded(2, 1, 1.65, 0.1)
    with pytest.raises(ValueError, match="guard"):
        guarded(1, 2, -1, 0.1)
    with pytest.raises(ValueError, match="negative"):
        rectangular(-1)
    with pytest.raises(ValueError, match="step"):
        digital_step(-1)
    with pytest.raises(ValueError, match="trials"):
        overcut_spread(0.003, -1)


SETTING, BORE = InstrumentErrors(0.002, 0.0010, 0.0005), InstrumentErrors(0.001, 0.0012, 0.0008)


def _bore_after_trials(rng: random.Random, n: int) -> float:
    """How far off its aim a bore comes, drawn at random: n trials told the overcut, one master, one ring."""
    master, ring, overcut = rng.gauss(0, SETTING.standard), rng.gauss(0, BORE.standard), 0.009
    told = []
    for _ in range(n):
        bored = 44.4 + master + overcut + rng.gauss(0, 0.002)
        step = rng.uniform(-BORE.step / 2, BORE.step / 2)
        told.append(bored + ring + step + rng.gauss(0, BORE.repeatability) - 44.4)
    in_use = statistics.fmean(told) if told else overcut
    set_noise = rng.uniform(-SETTING.step / 2, SETTING.step / 2) + rng.gauss(0, SETTING.repeatability)
    return 44.5 - in_use + master + set_noise + overcut + rng.gauss(0, 0.002) - 44.5


@pytest.mark.parametrize("trials", [0, 1, 2, 3])
def test_the_planned_uncertainty_is_what_bores_drawn_at_random_scatter_by(trials: int) -> None:
    rng = random.Random(11)
    scatter = statistics.pstdev(_bore_after_trials(rng, trials) for _ in range(40_000))
    planned = combined(planning_budget(SETTING, 0.002, trials, BORE if trials else None))
    assert planned == pytest.approx(scatter, rel=0.015)


def test_a_trial_on_the_one_master_takes_the_master_out_and_the_bore_gauge_in() -> None:
    lines = {one.source: one.standard for one in planning_budget(SETTING, 0.002, 1, BORE)}
    assert lines["master of the setting gauge"] == 0
    assert lines["ring of the bore gauge that read the trials"] == 0.0012
    assert combined(planning_budget(SETTING, 0.002, 4, BORE)) < combined(planning_budget(SETTING, 0.002, 1, BORE))


def test_between_two_masters_what_differs_is_left() -> None:
    # Trial on the 40 master, set halfway to the 50: weights (½, ½) against (1, 0): √(½² + ½²).
    assert master_difference([40.0, 50.0], 45.0, 40.0) == pytest.approx(math.sqrt(0.5))
    assert master_difference([50.0, 40.0], 45.0, 45.0) == 0
    assert master_difference([40.0, 45.0, 50.0], 50.0, 40.0) == pytest.approx(math.sqrt(2))
    with pytest.raises(ValueError, match="beyond the masters"):
        master_difference([40.0, 50.0], 51.0, 45.0)
    with pytest.raises(ValueError, match="without a master"):
        master_difference([], 51.0, 45.0)


def test_what_a_measured_bore_is_uncertain_by_holds_no_overcut() -> None:
    others = [Contribution("insert +/- 0.003", 0.003, 3**0.5)]
    # By hand: √(0.001²/12 + 0.0012² + 0.0008² + 0.003²/3).
    assert combined(acceptance_budget(BORE, others)) == pytest.approx(math.sqrt(1e-6 / 12 + 1.44e-6 + 0.64e-6 + 3e-6))


def test_a_trial_that_no_gauge_read_is_refused() -> None:
    with pytest.raises(ValueError, match="some gauge"):
        planning_budget(SETTING, 0.002, 1)


def test_limits_that_meet_but_for_the_last_bits_of_a_float_are_one_limit() -> None:
    # An insert whose list limits are exactly as wide as the fit leaves one single bore: 39.811 − 0.080, 39.791 − 0.060.
    least, most = 39.811 - 0.080, 39.791 - 0.060
    assert least != most
    assert verdict(39.731, least, most, 0, 0.001) == "accepted"
    assert guarded(max(least, most), min(least, most), 0, 0.001) == pytest.approx((39.731, 39.731))
    assert guarded(least, most, 1.65, 0.001) is None
