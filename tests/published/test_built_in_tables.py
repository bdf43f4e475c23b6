"""Built-in figures against the publisher's row, read a second time in the publisher's own unit."""

from __future__ import annotations

import math
from dataclasses import dataclass

import pytest

from seatwright.handbook.agreement import agree, exact, fit_consistent, half_last_digit
from seatwright.handbook.interference_table import BUILT_IN, PUBLISHED, find_row
from seatwright.handbook.materials import ALLOYS, MATERIALS, PublishedMaterial
from seatwright.handbook.speeds import SURFACE_SPEEDS, built_in_speed

PSI = 0.00689475729  # MPa


@pytest.mark.parametrize(
    "material, stiffness",
    [
        pytest.param(MATERIALS["grey iron"], 14.5e6 * PSI, id="Machinery's Handbook, class 30, psi"),
        pytest.param(MATERIALS["ductile iron"], 169e3, id="a foundry's data sheet"),
        pytest.param(MATERIALS["compacted iron"], 140e3, id="ISO 16112, from memory"),
        pytest.param(MATERIALS["aluminium"], 72.4e3, id="a light-metal association's data, A356.0-T6"),
        pytest.param(ALLOYS["grey iron"], 14.5e6 * PSI, id="Machinery's Handbook, class 30, psi (insert)"),
        pytest.param(ALLOYS["tool steel"], 215e3, id="a supplier's data sheet, H13"),
        pytest.param(ALLOYS["high-chrome steel"], 28e6 * PSI, id="a materials database, 440C, its psi column"),
        pytest.param(ALLOYS["sintered"], 160e3, id="ASM Handbook vol. 7"),
        pytest.param(ALLOYS["nickel alloy"], 207e3, id="makers' sheets, from memory"),
        pytest.param(ALLOYS["cobalt alloy"], 220e3, id="a materials database, R30016"),
        pytest.param(ALLOYS["copper beryllium"], 19e6 * PSI, id="a supplier's data sheet, psi"),
    ],
)
def test_stiffness_is_the_publishers(material: PublishedMaterial, stiffness: float) -> None:
    assert material.stiffness is not None
    assert material.stiffness.value == pytest.approx(stiffness, rel=0.04)


@pytest.mark.parametrize(
    "material, to, um",
    [
        pytest.param(MATERIALS["grey iron"], 200, 11.7, id="EN 1561, from memory"),
        pytest.param(MATERIALS["grey iron"], 400, 13.0, id="EN 1561, from memory, hot"),
        pytest.param(MATERIALS["grey iron"], -100, 10.0, id="EN 1561, from memory, cold"),
        pytest.param(MATERIALS["ductile iron"], 400, 12.5, id="EN 1563, from memory"),
        pytest.param(MATERIALS["aluminium"], 100, 21.4, id="a light-metal association's data, A356.0-T6"),
        pytest.param(MATERIALS["aluminium"], 300, 23.2, id="a light-metal association's data, A356.0-T6, hot"),
        pytest.param(ALLOYS["tool steel"], 100, 10.4, id="a supplier's data sheet, H13"),
        pytest.param(ALLOYS["tool steel"], 204, 11.3, id="another supplier's data sheet, H13"),
        pytest.param(ALLOYS["high-chrome steel"], 100, 10.0, id="a materials database, 440C"),
        pytest.param(ALLOYS["nickel alloy"], 100, 13.3, id="makers' sheets, from memory"),
        pytest.param(ALLOYS["cobalt alloy"], 100, 11.4, id="maker's sheet, from memory"),
        pytest.param(ALLOYS["cobalt alloy"], 400, 13.9, id="maker's sheet, from memory, hot"),
        pytest.param(ALLOYS["copper beryllium"], 300, 17.8, id="a supplier's data sheet"),
    ],
)
def test_expansion_is_the_publishers(material: PublishedMaterial, to: float, um: float) -> None:
    assert dict(material.expansion_table)[to] == pytest.approx(um * 1e-6)


@pytest.mark.parametrize("h, printed", [(0.05, 2094), (0.10, 1823), (0.20, 1587), (1.0, 1150)])
def test_cutting_force_of_grey_iron_follows_the_published_pair(h: float, printed: float) -> None:
    # VDI 3323 group 15: 1150 and 0.20; the row worked for four thicknesses of chip.
    force = MATERIALS["grey iron"].cutting_force
    assert force is not None
    assert force.kc11 * h**-force.exponent == pytest.approx(printed, abs=0.5)


def test_surface_speeds_turn_a_pocket_at_the_printed_speed() -> None:
    # A shop chart of cutting speeds, worked by hand: 1.5 in pocket, iron at 50 ft/min 127 rpm, aluminium at 300
    # ft/min 764 rpm.
    for head, rpm in (("grey iron", 127), ("aluminium", 764)):
        row = built_in_speed(head, "hss")
        assert row is not None
        assert 1000 * row.speed / (math.pi * 1.5 * 25.4) == pytest.approx(rpm, abs=0.5)


def test_carbide_runs_twice_the_speed_in_the_shop_chart() -> None:
    # S47: double for carbide.
    for head in ("grey iron", "aluminium"):
        carbide, hss = built_in_speed(head, "carbide"), built_in_speed(head, "hss")
        assert carbide is not None
        assert hss is not None
        assert carbide.speed == pytest.approx(2 * hss.speed)
    assert all(row.source for row in SURFACE_SPEEDS)


# Insert od, bore and fit as printed (S1 a service manual of 2004, S5 TM 5-6115-400-35); `unit` in mm.
@dataclass(frozen=True)
class Printed:
    unit: float
    od: tuple[float, float]
    bore: tuple[float, float]
    fit: tuple[float, float]


TABLES = {
    "S1 intake": Printed(1, (33.065, 33.078), (33.000, 33.015), (0.050, 0.078)),
    "S5 intake": Printed(25.4, (1.6445, 1.6455), (1.6415, 1.6425), (0.002, 0.004)),
    "S5 exhaust": Printed(25.4, (1.6105, 1.6110), (1.6075, 1.6085), (0.002, 0.0035)),
    "S6": Printed(25.4, (2.0025, 2.0035), (1.9995, 2.0005), (0.0020, 0.0040)),
    "S7": Printed(25.4, (2.3805, 2.3815), (2.377, 2.378), (0.0025, 0.0045)),
}


@pytest.mark.parametrize("name", list(TABLES))
def test_printed_limits_of_insert_bore_and_fit_belong_together(name: str) -> None:
    row = TABLES[name]
    assert fit_consistent(*row.od, *row.bore, *row.fit)


def test_a_bore_in_the_wrong_column_is_caught() -> None:
    # S1 intake insert against the exhaust recess.
    assert not fit_consistent(33.065, 33.078, 31.495, 31.510, 0.050, 0.078)


def test_every_published_fit_lies_in_the_built_in_row_of_its_diameter() -> None:
    for fit in PUBLISHED:
        row = find_row(BUILT_IN, fit.head, "tool steel", fit.seat, fit.od)
        assert row is not None, fit
        assert row.least <= fit.least + 1e-4, fit  # rows are rounded to 0.1 µm
        assert row.most >= fit.most - 1e-4, fit


def test_built_in_interference_stays_in_the_published_ratio_to_the_diameter() -> None:
    # Worked by hand from the printed tables: makers' tables lie between about 0.0010 and 0.0029 per unit of diameter.
    for row in BUILT_IN:
        assert row.over is not None
        assert row.to is not None
        assert row.least / row.to >= 0.00095
        assert row.most / row.over <= 0.0030


@pytest.mark.parametrize(
    "head, od", [("grey iron", 38.1), ("grey iron", 61.0), ("aluminium", 30.0), ("aluminium", 48.3)]
)
def test_outside_the_published_diameters_there_is_no_built_in_interference(head: str, od: float) -> None:
    assert find_row(BUILT_IN, head, "tool steel", "intake", od) is None


def test_built_in_interference_says_that_it_is_not_the_engine_makers() -> None:
    for row in BUILT_IN:
        assert "span of published makers' tables" in row.source
        assert "not the engine maker's own" in row.source


@pytest.mark.parametrize(
    "mm, inch, same",
    [
        # Slips in printed tables, with what they should be; and pairs that are right.
        pytest.param("0.25", "0.001", False, id="a cylinder-head procedure: 0.25 mm [0.001 in]"),
        pytest.param("0.025", "0.001", True, id="a cylinder-head procedure as it should be"),
        pytest.param("0.10", "0.0004", False, id="Dodge 5.9: 0.10 mm [0.0004 in]"),
        pytest.param("0.015", "0.006", False, id="TM 9-4310-397: .006 in (0.015 mm)"),
        pytest.param("7.29", "0.3125", False, id="4.236: .3125 in (7.29 mm)"),
        pytest.param("7.94", "0.3125", True, id="4.236 as it should be"),
        pytest.param("12.67", "0.105", False, id="TM 9-6115-604: 0.105 (12.67)"),
        pytest.param("0.064", ".002", True, id="a cylinder-head procedure: 0.064 mm and .002 in, exactly on the limit"),
        pytest.param("1.59", "1/16", True, id="1/16 in is 1.59 mm"),
        pytest.param("0.159", "1/16", False, id="TM 5-6115-593: 1/16 in (0.159 mm)"),
        pytest.param("3.2", "3/32", False, id="TM 10-3930-671: 3/32 in (3.2 mm)"),
    ],
)
def test_two_units_of_a_printed_figure_are_compared_exactly(mm: str, inch: str, same: bool) -> None:
    to_mm = exact("25.4")
    assert agree(exact(mm), half_last_digit(mm), exact(inch) * to_mm, half_last_digit(inch) * to_mm) is same
