"""Guard bands and probabilities against published rules and closed forms."""

from __future__ import annotations

import math
import random

import pytest

from seatwright.handbook.uncertainty import conformance_probability, guarded, overcut_spread, rectangular, verdict


@pytest.mark.parametrize(
    "guard, wrong",
    [
        # HarperMetrology's note of the table in ILAC-G8:09/2019; guard in standard uncertainties (U = 2u).
        pytest.param(1.65, 0.05, id="ISO 14253-1:2017, 95 % (guard from memory)"),
        pytest.param(2.0, 0.025, id="ILAC-G8, one U"),
        pytest.param(3.0, 0.0016, id="3 sigma"),
        pytest.param(6.0, 1e-6, id="6 sigma"),
    ],
)
def test_a_figure_on_the_guarded_limit_is_wrong_no_more_often_than_the_rule_says(guard: float, wrong: float) -> None:
    window = guarded(-1e6, 10.0, guard, 0.5)
    assert window is not None
    beyond = 1 - conformance_probability(window[1], 0.5, -math.inf, 10.0)
    assert 0 < beyond < wrong
    assert beyond > wrong / 1200


@pytest.mark.parametrize(
    "conforms, z", [(0.80, 0.8416), (0.90, 1.2816), (0.95, 1.6449), (0.975, 1.96), (0.99, 2.3263), (0.999, 3.0902)]
)
def test_probabilities_meet_the_table_of_the_normal_law(conforms: float, z: float) -> None:
    assert conformance_probability(0.0, 1.0, -math.inf, z) == pytest.approx(conforms, abs=2e-5)


@pytest.mark.parametrize(
    "mean, u, least, most, printed",
    [
        # JCGM 106:2012, examples, from memory.
        (-5.47, 0.05, -math.inf, -5.40, 0.92),
        (507, 10, 490, math.inf, 0.96),
        (13.6, 1.8, 12.5, 16.3, 0.66),
    ],
)
def test_probabilities_meet_the_printed_examples(
    mean: float, u: float, least: float, most: float, printed: float
) -> None:
    assert conformance_probability(mean, u, least, most) == pytest.approx(printed, abs=0.0055)


def test_the_interference_of_two_normal_sizes_has_its_closed_form() -> None:
    # Bore N(38.020, .004), insert N(38.100, .003); 4e6 trials gave 0.0227728 and 0.954488.
    u = math.hypot(0.004, 0.003)
    assert conformance_probability(0.080, u, -math.inf, 0.070) == pytest.approx(0.0227501, abs=1e-7)
    assert conformance_probability(0.080, u, 0.070, 0.090) == pytest.approx(0.9544997, abs=1e-7)


def test_two_rectangles_have_the_combined_spread_of_their_closed_form() -> None:
    # ±0.010 and ±0.006: standard deviation 0.00673300.
    assert math.hypot(rectangular(0.010), rectangular(0.006)) == pytest.approx(0.00673300, abs=5e-9)


def test_a_micrometer_is_accepted_by_the_guarded_limit() -> None:
    # A bolt supplier's page on decision rules: greatest error 0.003, U 0.0010, w = U: limit 0.002; 0.0017 accepted,
    # 0.0025 not.
    u = 0.0010 / 2
    window = guarded(-0.003, 0.003, 2.0, u)
    assert window is not None
    assert window[1] == pytest.approx(0.002)
    assert verdict(0.0017, -0.003, 0.003, 2.0, u) == "accepted"
    assert verdict(0.0025, -0.003, 0.003, 2.0, u) == "cannot-be-told"


@pytest.mark.parametrize("over, chance", [(0.001, 0.30), (0.002, 0.15), (0.003, 0.06)])
def test_a_bore_a_little_over_its_limit_may_well_be_good(over: float, chance: float) -> None:
    # Worked by hand: u 0.0019.
    inside = conformance_probability(44.030 + over, 0.0019, -math.inf, 44.030)
    assert inside == pytest.approx(chance, abs=0.0055)
    assert verdict(44.030 + over, 44.010, 44.030, 1.65, 0.0019) == "cannot-be-told"


def test_the_next_bore_after_n_trials_is_as_sure_as_simulated() -> None:
    # Prediction of one more value from the mean of n, checked by drawing (seeded), not by the formula.
    draw = random.Random(7)
    n, runs = 3, 40_000
    off = []
    for _ in range(runs):
        mean = sum(draw.gauss(0, 0.003) for _ in range(n)) / n
        off.append(draw.gauss(0, 0.003) - mean)
    seen = (sum(x * x for x in off) / runs) ** 0.5
    assert overcut_spread(0.003, n) == pytest.approx(seen, rel=0.02)
