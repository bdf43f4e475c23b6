"""Tables printed in service manuals, written as lines of a job and a shop file: every one reads, none is refused.

Sources by short names: S1, S23, S25, S36 and S101 service manuals, S3 a workshop manual, S8 a cylinder-head procedure,
S5 TM 5-6115-400-35, S6 TM 5-3810-295-34, S7 TM 9-6115-604-34, S27 TM 5-3810-307-24-2-2.
"""

from __future__ import annotations

import pytest
from tests.job.given_jobs import HEAD, SHOP, clean, only, slugs

# source, unit, insert od, bore, recess depth, interference; an empty text where the table prints nothing.
ROWS = [
    ("S1 intake", "mm", "33.065 to 33.078", "33.000 to 33.015", "", "0.050 to 0.078"),
    ("S1 exhaust", "mm", "31.550 to 31.561", "31.495 to 31.510", "", "0.040 to 0.066"),
    ("S1 intake, 0.5 over", "mm", "", "33.500 to 33.515", "", ""),
    ("S1 exhaust, 0.5 over", "mm", "", "31.995 to 32.010", "", ""),
    ("S3 intake", "mm", "47.09 to 47.10", "47.00 to 47.01", "8.60 to 8.70", "0.08 to 0.10"),
    ("S3 exhaust, first version", "mm", "40.09 to 40.10", "40.00 to 40.01", "10.50 to 10.60", "0.08 to 0.10"),
    ("S3 exhaust, second version", "mm", "42.09 to 42.10", "42.00 to 42.01", "10.50 to 10.60", "0.08 to 0.10"),
    ("S23 intake, 0.3 over", "mm", "", "31.300 to 31.325", "", ""),
    ("S23 intake, 0.6 over", "mm", "", "31.600 to 31.625", "", ""),
    ("S23 exhaust, 0.3 over", "mm", "", "29.300 to 29.321", "", ""),
    ("S23 exhaust, 0.6 over", "mm", "", "29.600 to 29.621", "", ""),
    ("S5 intake", "inch", "1.6445 to 1.6455", "1.6415 to 1.6425", "", ".002 to .004"),
    ("S5 intake, .005 over", "inch", "1.6495 to 1.6505", "1.6465 to 1.6475", "", ".002 to .004"),
    ("S5 exhaust", "inch", "1.6105 to 1.6110", "1.6075 to 1.6085", "", ".002 to .0035"),
    ("S5 exhaust, .005 over", "inch", "1.6155 to 1.6160", "1.6125 to 1.6135", "", ".002 to .0035"),
    ("S6", "inch", "2.0025 to 2.0035", "1.9995 to 2.0005", "", ".002 to .004"),
    ("S6, .005 over, printed .010", "inch", "2.0075 to 2.0085", "2.0045 to 2.0055", "", ".002 to .004"),
    ("S6, .010 over, od least printed 1.0125", "inch", "2.0125 to 2.0135", "2.0095 to 2.0105", "", ".002 to .004"),
    ("S6, .020 over", "inch", "2.0225 to 2.0235", "2.0195 to 2.0205", "", ".002 to .004"),
    ("S7 intake", "inch", "2.3805 to 2.3815", "2.377 to 2.378", "0.512 to 0.517", ".0025 to .0045"),
    ("S7 exhaust", "inch", "2.3805 to 2.3815", "2.377 to 2.378", "0.492 to 0.497", ".0025 to .0045"),
    ("S25, two engines", "mm", "", "", "8.35 to 8.55", ""),
    ("S25, a third", "mm", "", "", "8.20 to 8.40", ""),
    ("S27", "mm", "", "46.987 to 47.013", "", ""),
]
BY_SOURCE = [pytest.param(*row[1:], id=row[0]) for row in ROWS]


def lines(od: str, bore: str, depth: str, interference: str) -> str:
    """The table as fields of `valves`."""
    fields = (("insert-od", od), ("bore", bore), ("depth", depth), ("interference", interference))
    return "".join(f' {word} {value} "manual"\n' for word, value in fields if value)


@pytest.mark.parametrize(("unit", "od", "bore", "depth", "interference"), BY_SOURCE)
def test_a_printed_table_reads_as_a_makers_limits(unit: str, od: str, bore: str, depth: str, interference: str) -> None:
    job = clean(HEAD.format(units=unit) + "valves E1\n" + lines(od, bore, depth, interference))
    found = job.heads[0].valves[0].specification
    given = (found.insert_od, found.bore, found.depth, found.interference)
    assert [one is not None and one.typed for one in given] == [one or False for one in (od, bore, depth, interference)]


@pytest.mark.parametrize(("unit", "od", "bore", "depth", "interference"), BY_SOURCE)
def test_a_printed_table_reads_as_stock_and_practice_of_a_shop(
    unit: str, od: str, bore: str, depth: str, interference: str
) -> None:
    shop = SHOP.format(units=unit)
    if od:
        least, most = od.split(" to ")
        shop += f"inserts\n insert od-least od-most\n X1 {least} {most}\n"
    if interference:
        least, most = interference.split(" to ")
        shop += f'interference\n head alloy seat least most source\n grey-iron any any {least} {most} "manual"\n'
    if bore:
        least, most = bore.split(" to ")
        shop += f"bore-gauge two-point\n range {least} to {most}\n"
    job = clean(HEAD.format(units=unit) + 'use "a.shop"\nvalves E1\n', a=shop)
    assert len(job.shop.inserts) == bool(od)
    assert len(job.shop.interference) == bool(interference)


def test_a_rough_blank_is_stock_to_be_turned() -> None:
    # S3, intake, repair: blank of 48.30, bore up to 48.00 at most, interference 0.08-0.10.
    shop = SHOP.format(units="mm") + "inserts\n insert od height\n blank48 48.30 8.55\n"
    job = clean(
        HEAD.format(units="mm")
        + (
            'use "a.shop"\nvalves I1\n insert turned\n interference 0.08 to 0.10 "manual"\n'
            ' bore 47.00 to 48.00 "manual"\n'
        ),
        a=shop,
    )
    assert job.heads[0].valves[0].specification.insert is not None


def test_the_figures_that_section_6_prints_twice_agree() -> None:
    # S8: 0.064-0.114 mm is printed .002-.005 in, a rounding that lies exactly on the limit of .0005 in + 0.0005 mm.
    clean(HEAD.format(units="mm") + "valves E1\n interference 0.064 to 0.114 mm = .002 to .005 in\n")
    # S2: 0.064-0.096 mm (0.0025-0.0038 in).
    clean(HEAD.format(units="mm") + "valves E1\n interference 0.064 to 0.096 mm = .0025 to .0038 in\n")
    # S1: recess 33.000-33.015 mm (1.2992-1.2998 in).
    clean(HEAD.format(units="mm") + "valves E1\n bore 33.000 to 33.015 mm = 1.2992 to 1.2998 in\n")


# Section 8b: printed figure, other unit, as they stand in the manuals.
SLIPS = [
    pytest.param(
        "guide-clearance 0.25 to 0.062 mm = 0.001 to 0.003 in", "range-reversed", "0.025 to 0.062 mm", id="S8, 0.025"
    ),
    pytest.param("guide-clearance 0.013 to 0.053 mm = 0.002 to 0.005 in", "units-disagree", "0.000512 in", id="S8, 2"),
    pytest.param("head-diameter 94.00 +/- 0.25 mm = 3.701 +/- .0010 in", "units-disagree", "0.00984 in", id="S38"),
    pytest.param("guide-wear-limit 0.10 mm = 0.0004 in", "units-disagree", "0.00394 in", id="S38, 2"),
    pytest.param("guide-wear-limit 0.006 in = 0.015 mm", "units-disagree", "0.152 mm", id="S112, 0.15"),
    pytest.param("seat-width 1/16 in = 0.159 mm", "units-disagree", "1.59 mm", id="S32, 1.59"),
    pytest.param("seat-width 0.105 in = 12.67 mm", "units-disagree", "2.667 mm", id="S7, 2.67"),
    pytest.param("insert-od 0.8456 to 0.8466 in = 21.378 to 21.504 mm", "units-disagree", "21.478 mm", id="S7, 21.478"),
    pytest.param("stem 0.3125 in = 7.29 mm", "units-disagree", "7.94 mm", id="S15b, 7.94"),
    pytest.param("seat-width 3/32 in = 3.2 mm", "units-disagree", "2.38 mm", id="S94, 2.38"),
    pytest.param(
        "insert-od 1.0125 to 2.0135 in\n bore 2.0095 to 2.0105 in\n interference .002 to .004 in",
        "limits-apart",
        "2.0125",
        id="S6, 2.0125",
    ),
    pytest.param("guide-length 3.226 to 3.251 cm", "unit-unknown", "32.26 to 32.51 mm", id="S116, cm"),
    pytest.param("guide-length 3.226", "figure-unlikely", "32.26", id="S116, cm without its unit"),
    pytest.param("bore 2.8344 to 2.8351 in = 2.8346 to 2.8351 in", "units-disagree", "2.8344 in", id="S51, .0005"),
]


@pytest.mark.parametrize(("fields", "slug", "meant"), SLIPS)
def test_a_slip_of_a_printed_table_is_caught_and_the_figure_that_was_meant_is_offered(
    fields: str, slug: str, meant: str
) -> None:
    message = only(f" {fields}\n")
    assert message.slug == slug
    assert f"`{meant}`" in message.help


def test_two_sources_for_one_figure_are_said_at_both_places() -> None:
    # S36 has 23.93 to 24.45, S101 has 24.93 to 25.45 for the same limit.
    fields = "valves E1\n stem-height 23.93 to 24.45\nvalves E1 E2\n stem-height 24.93 to 25.45\n"
    assert [slug for _, slug in slugs(HEAD.format(units="mm") + fields)] == ["valves-differ"]


def test_a_row_that_is_labelled_wrongly_fits_its_own_figures_only() -> None:
    # S6: the row printed "0.010" holds .005 figures; laid over the bore of the true .010 row it does not make its fit.
    fields = "valves E1\n insert-od 2.0075 to 2.0085\n bore 2.0095 to 2.0105\n interference .002 to .004\n"
    assert slugs(HEAD.format(units="inch") + fields) == [(6, "od-under-bore")]
