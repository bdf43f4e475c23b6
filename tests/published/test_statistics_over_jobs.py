"""What is reckoned over many bores, against published tables and an independent library."""

from __future__ import annotations

import math

import numpy
import pytest
from scipy import integrate, stats

from seatwright.handbook.capability import (
    Repeats,
    next_spread,
    performance,
    performance_bound,
    repeatability_of,
    repeats_worse,
)
from seatwright.handbook.run_charts import is_drift, line_through, singles_chart
from seatwright.handbook.tolerance import (
    chi_square_below,
    chi_square_quantile,
    normal_quantile,
    one_sided_factor,
    student_below,
    student_quantile,
    two_sided_factor,
)

# NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: individuals control charts, flow rates of ten batches.
FLOW = (49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1)


def test_the_chart_of_the_handbook_of_statistics_comes_out():
    chart = singles_chart(FLOW)
    assert chart.mean == pytest.approx(50.81, abs=5e-3)
    assert chart.mean_range == pytest.approx(1.8778, abs=5e-5)
    assert (chart.least, chart.most) == pytest.approx((45.8159, 55.8041), abs=5e-5)


def test_the_one_sided_factor_of_the_handbook_of_statistics_comes_out():
    # 7.2.6.3: n 43, 90 % covered, 99 % sure; the exact factor by the noncentral distribution.
    assert one_sided_factor(43, 0.90, 0.99) == pytest.approx(1.8740, abs=5e-5)


def test_the_exact_two_sided_factor_lies_within_half_a_percent_of_the_printed_approximation():
    # The same section prints 2.2173, an approximation; the exact factor of ISO 16269-6 is 2.2228.
    exact = two_sided_factor(43, 0.90, 0.99)
    assert exact == pytest.approx(2.2228, abs=5e-5)
    assert exact == pytest.approx(2.2173, rel=0.005)


@pytest.mark.parametrize(
    ("count", "printed"),
    [
        # Berthouex and Brown, Statistics for Environmental Engineers, table 21.1: 95 % sure, for 90, 95 and 99 %.
        (4, (5.37, 6.34, 8.22)),
        (5, (4.29, 5.08, 6.60)),
        (10, (2.86, 3.39, 4.44)),
        (20, (2.32, 2.76, 3.62)),
        (60, (1.96, 2.34, 3.07)),
    ],
)
def test_two_sided_factors_are_those_of_a_printed_table(count, printed):
    found = tuple(round(two_sided_factor(count, cover, 0.95), 2) for cover in (0.90, 0.95, 0.99))
    assert found == printed


def by_quadrature(k: float, count: int, cover: float) -> float:
    """How sure a factor is, by an adaptive quadrature of the library's own distributions."""

    def at(z: float) -> float:
        off = z / math.sqrt(count)
        # The half width that holds the share about a place: a folded normal distribution.
        half = stats.foldnorm.ppf(cover, off)
        return stats.norm.pdf(z) * stats.chi2.sf((count - 1) * (half / k) ** 2, count - 1)

    return 2 * integrate.quad(at, 0, 9, epsabs=1e-13, epsrel=1e-12)[0]


@pytest.mark.parametrize("count", [2, 4, 8, 11, 43, 200])
@pytest.mark.parametrize(("cover", "sure"), [(0.95, 0.95), (0.90, 0.99), (0.99, 0.95)])
def test_the_two_sided_factor_is_as_sure_as_it_says(count, cover, sure):
    # Oracle: scipy.
    k = two_sided_factor(count, cover, sure)
    assert by_quadrature(k, count, cover) == pytest.approx(sure, abs=1e-9)


def test_the_two_sided_factor_holds_in_drawn_samples():
    # Oracle: 200,000 samples of 43 drawn by numpy.
    drawn = numpy.random.default_rng(20261128).standard_normal((200_000, 43))
    mean, s, k = drawn.mean(axis=1), drawn.std(axis=1, ddof=1), two_sided_factor(43, 0.90, 0.99)
    held = stats.norm.cdf(mean + k * s) - stats.norm.cdf(mean - k * s)
    assert (held >= 0.90).mean() == pytest.approx(0.99, abs=0.001)


@pytest.mark.parametrize("count", [3, 8, 25, 100])
@pytest.mark.parametrize(("cover", "sure"), [(0.95, 0.95), (0.90, 0.99)])
def test_the_one_sided_factor_is_the_noncentral_quantile(count, cover, sure):
    # Oracle: scipy.stats.nct.
    expected = stats.nct.ppf(sure, count - 1, stats.norm.ppf(cover) * math.sqrt(count)) / math.sqrt(count)
    assert one_sided_factor(count, cover, sure) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("degrees", [1, 2, 3, 7, 20, 100, 500])
@pytest.mark.parametrize("share", [0.025, 0.5, 0.95, 0.995])
def test_distributions_and_quantiles_are_those_of_the_library(degrees, share):
    # Oracle: scipy.
    assert normal_quantile(share) == pytest.approx(stats.norm.ppf(share), abs=1e-9)
    assert chi_square_quantile(share, degrees) == pytest.approx(stats.chi2.ppf(share, degrees), rel=1e-10)
    assert student_quantile(share, degrees) == pytest.approx(stats.t.ppf(share, degrees), rel=1e-9, abs=1e-9)
    for x in (0.3, 3.0, 40.0, 700.0):
        assert chi_square_below(x, degrees) == pytest.approx(stats.chi2.cdf(x, degrees), abs=1e-12)
    for t, shift in ((-2.0, 0.5), (0.0, 1.0), (1.5, 4.0), (9.0, 7.0), (30.0, -1.0)):
        assert student_below(t, degrees, shift) == pytest.approx(stats.nct.cdf(t, degrees, shift), abs=1e-9)


def test_the_quantile_of_the_printed_table_of_students_distribution():
    # Printed in every table of it: 95 %, 9 degrees.
    assert student_quantile(0.95, 9) == pytest.approx(1.8331, abs=5e-5)


def test_a_line_of_least_squares_and_its_error_are_those_of_the_library():
    # Oracle: scipy.stats.linregress, on the batches of the chart.
    xs = [float(each) for each in range(1, 11)]
    line, expected = line_through(xs, FLOW), stats.linregress(xs, FLOW)
    assert (line.slope, line.at_0) == pytest.approx((expected.slope, expected.intercept), rel=1e-12)
    assert line.slope_error == pytest.approx(expected.stderr, rel=1e-12)
    assert is_drift(line, sure=0.95) == (expected.pvalue < 0.05)
    assert is_drift(line) == (expected.pvalue < 0.01)


@pytest.mark.parametrize("seed", range(40))
def test_a_drift_is_one_where_the_librarys_probability_says_so(seed):
    # Oracle: scipy.stats.linregress.
    drawn = numpy.random.default_rng(seed)
    count = int(drawn.integers(10, 40))
    xs = [float(each) for each in range(count)]
    ys = (0.02 * seed * numpy.arange(count) / count + drawn.normal(size=count) * 0.2).tolist()
    assert is_drift(line_through(xs, ys)) == (stats.linregress(xs, ys).pvalue < 0.01)


def test_the_limits_of_a_published_performance_index_come_out():
    # Quality Digest, May 2000: Ppk 1.15 of 45 pieces lies, 95 % sure, between 0.89 and 1.41.
    low = performance_bound(1.15, 45, 0.975)
    assert low == pytest.approx(0.8907, abs=5e-5)
    assert 2 * 1.15 - low == pytest.approx(1.4093, abs=5e-5)


def test_a_fit_without_spread_has_no_index():
    assert performance([0.2, 0.2, 0.2]) is None


def test_the_pooled_standard_deviation_of_the_handbook_of_statistics_comes_out():
    # 2.4.4.4: a sum of squares of 3.17635 over 300 degrees of freedom gives 0.1029; here as 300 pairs of that spread.
    apart = math.sqrt(2 * 3.17635 / 300)
    found = repeatability_of([(0.0, apart)] * 300)
    assert found is not None
    assert (round(found.s, 4), found.degrees) == (0.1029, 300)


@pytest.mark.parametrize("degrees", [10, 34, 120])
def test_an_instrument_is_worse_where_the_librarys_probability_says_so(degrees):
    # Oracle: scipy.stats.chi2.
    limit = 0.0008 * math.sqrt(stats.chi2.ppf(0.99, degrees) / degrees)
    assert not repeats_worse(Repeats(limit * 0.9999, degrees), 0.0008)
    assert repeats_worse(Repeats(limit * 1.0001, degrees), 0.0008)


@pytest.mark.parametrize("count", [8, 12, 40])
def test_a_spread_to_paste_guards_as_well_as_students_interval(count):
    # Oracle: scipy.stats.t: 1.645 of what is pasted is t·s·sqrt(1 + 1/n).
    wanted = stats.t.ppf(0.95, count - 1) * math.sqrt(1 + 1 / count)
    assert stats.norm.ppf(0.95) * next_spread(1.0, count) == pytest.approx(wanted, rel=1e-9)
