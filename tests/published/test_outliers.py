"""The limit of what lies in line, against a published method and an independent library."""

from __future__ import annotations

from statistics import median

import pytest
from scipy.stats import median_abs_deviation

from seatwright.handbook.outliers import MODIFIED_Z, limit

# Uranium isotope readings that the NIST/SEMATECH e-Handbook, 1.3.5.17, tests for outliers (figures from memory): by its
# tests 245.57 is one.
ISOTOPE = (199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57)


def test_the_outlier_of_the_handbook_of_statistics_is_out_and_nothing_else():
    middle = median(ISOTOPE)
    allowed = limit([each - middle for each in ISOTOPE], 0.0)
    assert [each for each in ISOTOPE if abs(each - middle) > allowed] == [245.57]


@pytest.mark.parametrize("figures", [ISOTOPE, (8.05, 8.06, 8.08, 8.10, 8.06), (9.011, 9.018, 9.012, 9.061, 9.013)])
def test_the_limit_is_three_and_a_half_standard_deviations_told_by_the_median_deviation(figures):
    # Oracle: scipy.stats.median_abs_deviation, scaled to a normal distribution.
    middle = median(figures)
    sigma = median_abs_deviation(figures, scale="normal")
    assert limit([each - middle for each in figures], 0.0) == pytest.approx(MODIFIED_Z * sigma, rel=1e-4)
