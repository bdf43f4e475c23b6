"""Guides and springs against what service data print. Each figure's kind of source stands beside it."""

from __future__ import annotations

import pytest

from seatwright.handbook import guides, springs
from seatwright.handbook.fits import interference_from
from seatwright.handbook.materials import ALLOYS

# Published service data of one maker: hole in the head, od of the guide, and the interference printed beside them.
PRINTED = [
    (10.975, 10.996, 11.023, 11.034, 0.027, 0.059),
    (11.175, 11.196, 11.223, 11.234, 0.027, 0.059),
    (9.975, 9.996, 10.023, 10.034, 0.027, 0.059),
    (9.475, 9.496, 9.523, 9.534, 0.027, 0.059),
    (9.685, 9.696, 9.723, 9.734, 0.027, 0.049),
]


@pytest.mark.parametrize("hole_least, hole_most, od_least, od_most, least, most", PRINTED)
def test_hole_and_guide_make_the_interference_that_is_printed(
    hole_least: float, hole_most: float, od_least: float, od_most: float, least: float, most: float
) -> None:
    assert interference_from(od_least, od_most, hole_least, hole_most) == pytest.approx((least, most))
    assert guides.fits_as_found(hole_least, hole_most, od_least, od_most, least, most)


def test_the_service_guide_does_not_go_into_the_standard_hole_and_the_standard_one_not_into_the_reamed_hole() -> None:
    # The same data: the service guide is 0.2 larger, and so is the hole that is reamed for it.
    standard, service = PRINTED[0], PRINTED[1]
    assert not guides.fits_as_found(*standard[:2], *service[2:4], 0.027, 0.059)
    assert not guides.fits_as_found(*service[:2], *standard[2:4], 0.027, 0.059)
    cut = guides.hole_to_cut(10.996, *service[2:4], 0.027, 0.059, 0.05)
    assert cut is not None
    assert cut == pytest.approx(service[:2])


def test_a_hole_over_its_limit_is_cut_for_the_oversize() -> None:
    # Service data of another maker: a hole over 11.006 is machined to 11.035 to 11.056. It cleans the found hole up
    # by three hundredths, and a hole that is found larger than the cut leaves nothing to cut.
    od = (11.056 + 0.027, 11.035 + 0.059)  # what the oversize must then be, by the first maker's interference
    cut = guides.hole_to_cut(11.006, *od, 0.027, 0.059, 0.029)
    assert cut is not None
    assert cut == pytest.approx((11.035, 11.056))
    assert guides.hole_to_cut(11.040, *od, 0.027, 0.059, 0.029) is None


def test_a_finished_bore_is_the_stem_and_its_clearance() -> None:
    # Service data: bore 7.000 to 7.015; with a clearance of 0.035 to 0.050 that is a stem of 6.965.
    assert guides.finished_bore(6.965, 6.965, 0.035, 0.050) == pytest.approx((7.000, 7.015))
    # Limits of a stem as wide as those of the clearance leave one size; wider ones leave none.
    assert guides.finished_bore(6.960, 6.975, 0.035, 0.050) == pytest.approx((7.010, 7.010))
    assert guides.finished_bore(6.955, 6.980, 0.035, 0.050) is None


def test_the_rate_of_a_spring_and_what_sinking_costs() -> None:
    # Service data: 340 N at 45.75 and 980 N at 35.55.
    rate = springs.spring_rate(980, 35.55, 340, 45.75)
    assert rate == pytest.approx(62.745, abs=5e-4)
    assert springs.force_lost(rate, 0.4) == pytest.approx(25.1, abs=0.05)


def test_force_limits_of_a_used_spring_at_its_installed_height() -> None:
    # Service data: 296.2 N new and 257.9 N used at 38.9; another, 107 to 125 N new and 102 N used at 31.50. Common
    # practice lets a spring lose a tenth of its force: the first maker allows more, the second about that.
    assert pytest.approx(0.129, abs=1e-3) == 1 - 257.9 / 296.2
    assert pytest.approx(0.12, abs=0.005) == 1 - 102 / ((107 + 125) / 2)


def test_a_rate_is_never_carried_to_the_free_length() -> None:
    # Service data: 590 N at 58 and 1150 N at 45, free length printed as 73 to 74. The line would put it at 71.7.
    rate = springs.spring_rate(1150, 45, 590, 58)
    assert 58 + 590 / rate == pytest.approx(71.7, abs=0.05)
    assert not springs.rate_holds(71.7, 45, 58)
    assert springs.rate_holds(58 + 13 / 4, 45, 58)
    assert not springs.rate_holds(58 + 13 / 4 + 0.01, 45, 58)


def test_two_points_that_are_not_of_one_spring_are_refused() -> None:
    with pytest.raises(ValueError, match="stronger"):
        springs.spring_rate(340, 35.55, 980, 45.75)


def test_the_guide_bronze_is_the_associations() -> None:
    # A copper association's data, C54400: 15,000 ksi, shear 5,600 ksi, 9.6 millionths per °F, rod 68 and 57 ksi.
    bronze, psi = ALLOYS["guide bronze"], 0.00689475729
    assert bronze.stiffness is not None
    assert bronze.poisson is not None
    assert bronze.stiffness.value == pytest.approx(15e6 * psi, rel=1e-3)
    assert bronze.poisson.value == pytest.approx(15 / (2 * 5.6) - 1, abs=5e-4)
    assert bronze.expansion[0].per_C == pytest.approx(9.6e-6 * 1.8, rel=2e-3)
    assert bronze.strength is not None
    assert bronze.yield_strength is not None
    assert (bronze.strength.value, bronze.yield_strength.value) == pytest.approx((68e3 * psi, 57e3 * psi), rel=2e-3)
