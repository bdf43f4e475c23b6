"""What a shop file says of days and materials: tips that were changed, checks, overcut for a head material."""

from __future__ import annotations

import pytest
from tests.job.given_jobs import HEAD, SHOP, clean, slugs

from seatwright.job.model import Cutter

JOB = HEAD.format(units="mm") + 'valves E1\nuse "a.shop"\n'
TOP = SHOP.format(units="mm")


def cutter(*lines: str) -> Cutter:
    [found] = clean(JOB, a=TOP + "cutter C1\n" + "".join(f"  {line}\n" for line in lines)).shop.cutters
    return found


def test_the_heads_material_counts_and_the_bare_figure_for_every_other() -> None:
    found = cutter(
        "overcut 0.007", 'overcut gray iron 0.0068 "12 bores to 2026-11-24"', "overcut-spread aluminum +/- 0.003"
    )
    of_iron = found.overcut("grey iron")
    assert of_iron is not None
    assert (of_iron.value, of_iron.source) == (0.0068, "12 bores to 2026-11-24")
    other = found.overcut("aluminium")
    assert other is not None
    assert other.value == 0.007
    spread = found.overcut_spread("aluminium")
    assert spread is not None
    assert spread.value == pytest.approx(0.003 / 3**0.5)
    assert found.overcut_spread("grey iron") is None


@pytest.mark.parametrize(
    ("lines", "slug"),
    [
        ("overcut 0.006\n overcut 0.006", "field-twice"),
        ("overcut grey iron 0.006\n overcut gray-iron 0.007", "field-twice"),
        ("overcut-spread aluminium 0.002\n overcut-spread aluminum 0.002", "field-twice"),
        ("overcut grey irn 0.006", "material-unknown"),
        ("overcut aluminium", "value-missing"),
        ('overcut "aluminium 0.006', "text-open"),
        ("overcut 0.6", "figure-unlikely"),
        ("tip-changed 2026-10-05", "value-missing"),
        ('tip-changed "worn"', "date-wanted"),
    ],
)
def test_what_is_wrong_with_a_line_of_a_cutter_is_one_error(lines: str, slug: str) -> None:
    assert [found for _, found in slugs(JOB, a=TOP + f"cutter C1\n {lines}\n")] == [slug]


def test_what_is_cut_on_the_day_of_a_change_is_of_the_new_tip() -> None:
    found = cutter('tip-changed 2026-10-05 "worn"', 'tip-changed 2026-08-24 "new"')
    assert found.tip_since("2026-08-23") is None
    assert found.tip_since("2026-10-04") == "2026-08-24"
    assert found.tip_since("2026-10-05") == "2026-10-05"


def test_an_instrument_keeps_its_checks_by_day_and_how_often_they_are_due() -> None:
    shop = TOP + 'gauge "g"\n checked 2026-09-01 "masters"\n checked 2025-09-01\n check-every 12 months\n'
    [gauge] = clean(JOB, a=shop).shop.gauges
    assert [(check.date, check.text) for check in gauge.checks] == [("2025-09-01", ""), ("2026-09-01", "masters")]
    assert gauge.check_every is not None
    assert gauge.check_every.value == 12


@pytest.mark.parametrize("wrong", ["check-every 12", "check-every 12 s", "check-every 0.0 months", "checked masters"])
def test_a_check_without_its_unit_or_day_is_an_error(wrong: str) -> None:
    assert len(slugs(JOB, a=TOP + f'gauge "g"\n {wrong}\n')) == 1
