"""One temperature for every length."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seatwright.handbook.thermal import at20, at_bench, mean_expansion

STEEL, ALUMINIUM, IRON = 11.5e-6, 21.4e-6, 11.0e-6


@pytest.mark.parametrize(
    ("head", "part", "gauge", "micrometres"),
    [
        # Worked check 2: 44.02 read with a steel gauge.
        (ALUMINIUM, 24.0, 24.0, 1.7),
        (ALUMINIUM, 30.0, 30.0, 4.4),
        (ALUMINIUM, 35.0, 22.0, 13.1),
        (ALUMINIUM, 40.0, 22.0, 17.8),
        (IRON, 30.0, 30.0, -0.2),
        (IRON, 40.0, 22.0, 8.7),
    ],
)
def test_a_warm_head_reads_larger_than_it_is_at_20(head, part, gauge, micrometres):
    size = at20(44.02, STEEL, gauge, head, part)
    assert (44.02 - size) * 1000 == pytest.approx(micrometres, abs=0.051)


def test_a_micrometer_on_warm_aluminium_agrees_with_uncertainty_libraries():
    # Oracles 1.5: 38.020 at 23 °C, micrometer at 22 °C; uncertainties, GTC and hand all gave 38.01843358. Their linear
    # form drops a product of two small terms, 0.0001 µm here.
    assert at20(38.020, 11.5e-6, 22.0, 21.4e-6, 23.0) == pytest.approx(38.01843358, abs=2e-7)


temperatures = st.floats(-80, 200)
expansions = st.floats(5e-6, 25e-6)


@given(st.floats(1, 200), expansions, temperatures, expansions, temperatures)
def test_the_bench_reading_and_the_size_at_20_undo_each_other(size, gauge, at_gauge, part, at_part):
    around = (gauge, at_gauge, part, at_part)
    assert at20(at_bench(size, *around), *around) == pytest.approx(size, rel=1e-14)


@given(st.floats(1, 200), expansions, temperatures)
def test_a_gauge_of_the_same_metal_at_the_same_temperature_needs_no_correction(size, metal, temperature):
    assert at20(size, metal, temperature, metal, temperature) == pytest.approx(size, rel=1e-15)


def test_an_expansion_typed_in_the_wrong_unit_is_refused():
    with pytest.raises(ValueError, match="leaves no metal"):
        at20(44.0, 11.5, -10.0, 21.4e-6, 20.0)


LINES = [(200.0, 22.4e-6), (100.0, 21.4e-6)]
ACROSS = [(-196.0, 8.9e-6), (100.0, 11.5e-6)]


@pytest.mark.parametrize(
    ("table", "temperature", "expected"),
    [
        (LINES, 100.0, 21.4e-6),
        (LINES, 150.0, 21.9e-6),
        (LINES, 200.0, 22.4e-6),
        (LINES, 200.1, None),
        (LINES, 20.0, 21.4e-6),
        (LINES, 60.0, 21.4e-6),
        (LINES, 19.9, None),
        (ACROSS, -48.0, 10.2e-6),
        (ACROSS, 20.0, 8.9e-6 + 216 / 296 * 2.6e-6),
        (ACROSS, -197.0, None),
        ([(-78.5, 10.0e-6)], -40.0, 10.0e-6),
        ([(-78.5, 10.0e-6)], 20.0, 10.0e-6),
        ([(-78.5, 10.0e-6)], 21.0, None),
        ([], 100.0, None),
    ],
)
def test_the_mean_expansion_is_taken_inside_the_table_and_never_beyond(table, temperature, expected):
    found = mean_expansion(table, temperature)
    assert found is None if expected is None else found == pytest.approx(expected, rel=1e-12)


def test_two_lines_for_one_temperature_are_refused():
    with pytest.raises(ValueError, match="two lines of the expansion table are for 100 °C"):
        mean_expansion([(100.0, 11e-6), (100.0, 12e-6)], 50.0)
