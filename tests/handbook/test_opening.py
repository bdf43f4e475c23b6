"""Opening a small bore, and the verdict on all its readings."""

from __future__ import annotations

import random

import pytest

from seatwright.handbook.acceptance import judge_readings, out_of_round, reading_limits, taper
from seatwright.handbook.opening import opening, reopened_reading, reopened_size
from seatwright.handbook.setting import overcut_from_trial


def test_the_new_reading_is_not_the_one_that_bored_small() -> None:
    # Set to read 44.490, bored 44.4815, wanted 44.5005: 19 µm are missing, so 44.509 (by hand).
    assert reopened_reading(44.490, 44.5005 - 44.4815) == pytest.approx(44.509)


def test_both_ways_of_opening_say_the_same_while_nothing_changed() -> None:
    error = 0.002
    by_size = reopened_size(44.490 - error, 44.5005, 44.4815) + error
    assert by_size == pytest.approx(reopened_reading(44.490, 44.5005 - 44.4815))


def test_a_cutter_that_bores_as_it_did_reaches_the_aim_in_one_go() -> None:
    rng = random.Random(4)
    for _ in range(50):
        overcut, error, read, aim = rng.uniform(-0.02, 0.02), rng.uniform(-0.003, 0.003), 44.49, 44.6
        bored = read - error + overcut
        again = reopened_reading(read, aim - bored) - error + overcut
        assert again == pytest.approx(aim)


def test_an_overcut_far_from_the_one_in_use_is_opened_by_half() -> None:
    # Implied −0.0105 against +0.009, spread 0.002, step 0.002: 19.5 µm off, over 6 and over 4.
    implied = overcut_from_trial(44.4915, 44.4815, -0.0005)
    assert implied == pytest.approx(-0.0105)
    found = opening(0.019, implied, 0.009, 0.002, 0.002)
    assert found.moved
    assert found.by == pytest.approx(0.0095)
    assert found.on_radius == pytest.approx(0.00475)


@pytest.mark.parametrize(
    ("off", "spread", "step", "moved"),
    [
        (0.006, 0.002, 0.001, False),
        (0.0061, 0.002, 0.001, True),
        (0.0061, 0.002, 0.005, False),
        (0.0041, 0.0, 0.002, True),
    ],
)
def test_something_moved_only_past_three_spreads_and_two_steps(
    off: float, spread: float, step: float, moved: bool
) -> None:
    assert opening(0.02, 0.009 - off, 0.009, spread, step).moved is moved


def test_a_bore_that_is_not_small_is_not_opened() -> None:
    for call in (lambda: opening(0.0, 0.0, 0.0, 0.0, 0.0), lambda: reopened_reading(44.5, -0.01)):
        with pytest.raises(ValueError, match="not small"):
            call()


def test_the_mean_carries_the_fit_and_each_reading_its_half_of_the_oval() -> None:
    # Limits 44.250 to 44.262, 0.010 of oval allowed: a reading of 44.266 is in (44.267 is the end), the mean decides.
    good = judge_readings([44.256, 44.266], 44.250, 44.262, 0, 0, 0.010)
    assert (good.verdict, good.beyond) == ("accepted", ())
    oval = judge_readings([44.244, 44.268], 44.250, 44.262, 0, 0, 0.010)
    assert (oval.verdict, oval.beyond) == ("accepted", (44.244, 44.268))
    big = judge_readings([44.262, 44.266], 44.250, 44.262, 0, 0, 0.010)
    assert (big.verdict, big.beyond) == ("big", ())
    assert big.out_of_round == pytest.approx(0.004)


def test_a_mean_near_a_limit_cannot_be_told_with_a_guard() -> None:
    assert judge_readings([44.2615, 44.2625], 44.250, 44.262, 1.65, 0.001, None).verdict == "cannot-be-told"


def test_limits_and_readings_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="without a reading"):
        out_of_round([])
    with pytest.raises(ValueError, match="wrong way round"):
        reading_limits(44.1, 44.0, 0.01)
    with pytest.raises(ValueError, match="out-of-round"):
        reading_limits(44.0, 44.1, -0.01)
    assert taper(44.010, 44.014) == pytest.approx(-0.004)
