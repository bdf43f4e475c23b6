"""What is on the shelf: items, tables, files laid over each other, and names that are looked up."""

from __future__ import annotations

import pytest
from tests.job.given_jobs import HEAD, SHOP, clean, read_files, slugs

from seatwright.job.model import standing_masters
from seatwright.text import Severity

JOB = HEAD.format(units="mm") + 'valves E1\nuse "a.shop"\n'
TOP = SHOP.format(units="mm")
INTERFERENCE = "interference\n head alloy seat over to least most source\n"


def test_pilots_of_three_kinds_stand_in_one_section() -> None:
    shop = TOP + (
        "pilots\n pilot diameter length kind tir\n P8 8.000 85 - 0.004\n L8 8.000 85 live -\n"
        " expanding from to length tir\n XP8 7.9 8.2 60 0.012\n tapered from to length\n 11/32 .31in .33in 55\n"
    )
    dead, live, expanding, tapered = clean(JOB, a=shop).shop.pilots
    assert (dead.kind, dead.kind_given, dead.tir_offset and dead.tir_offset.value) == ("dead", None, 0.002)
    assert live.kind_given is not None
    assert (live.kind, expanding.kind, tapered.kind) == ("live", "expanding", "tapered")
    assert expanding.smallest is not None
    assert expanding.largest is not None
    assert (expanding.smallest.value, expanding.largest.value) == (7.9, 8.2)
    assert tapered.name.text == "11/32"
    assert tapered.tir_offset is None


def test_a_left_out_stock_count_is_not_counted_and_a_chamfer_counts_from_the_od() -> None:
    shop = TOP + "inserts\n insert od chamfer chamfer-angle alloy on-hand\n X46 46.0 0.8 30 high-chrome-steel -\n"
    [insert] = clean(JOB, a=shop).shop.inserts
    assert insert.on_hand is None
    assert insert.chamfer_angle is not None
    assert insert.alloy is not None
    assert (insert.chamfer_angle.value, insert.alloy.text, insert.seat) == (30, "high-chrome steel", "any")


def test_a_later_file_replaces_an_item_whole_and_says_so() -> None:
    first = TOP + "cutter C1\n range 20 to 40\n overcut 0.006\npractice\n clean-up 0.1\n slip 0.03\n"
    second = TOP + "cutter c1\n range 22 to 42\npractice\n slip 0.05\n"
    job, messages = read_files(JOB + 'use "b.shop"\n', a=first, b=second)
    assert job is not None
    [cutter] = job.shop.cutters
    assert cutter.overcut(None) is None
    assert job.shop.practice.clean_up is not None
    assert job.shop.practice.slip is not None
    assert (job.shop.practice.clean_up.value, job.shop.practice.slip.value) == (0.1, 0.05)
    assert [(one.severity, one.slug, one.span and one.span.line) for one in messages] == [
        (Severity.NOTICE, "shop-replaced", 3),
        (Severity.NOTICE, "shop-replaced", 6),
    ]


def test_a_later_file_replaces_all_rows_of_the_same_head_alloy_and_seat() -> None:
    first = TOP + INTERFERENCE + ' grey-iron any any 20 40 .05 .07 "a"\n grey-iron any any 40 60 .06 .08 "a"\n'
    second = TOP + INTERFERENCE + ' gray-iron any any - - .07 .09 "b"\n'
    job, _ = read_files(JOB + 'use "b.shop"\n', a=first, b=second)
    assert job is not None
    assert [(row.head, row.over, row.to, row.source) for row in job.shop.interference] == [
        ("grey iron", None, None, "b")
    ]


@pytest.mark.parametrize(
    ("rows", "wrong"),
    [
        (' grey-iron any any 20 40 .05 .07 "a"\n grey-iron any any 40 60 .06 .08 "a"\n', []),
        (' grey-iron any any 20 40 .05 .07 "a"\n grey-iron any any 39 60 .06 .08 "a"\n', ["interference-overlap"]),
        (' grey-iron any any - - .05 .07 "a"\n grey-iron any exhaust - - .06 .08 "a"\n', []),
        (
            ' grey-iron tool-steel any - - .05 .07 "a"\n grey-iron any exhaust - - .06 .08 "a"\n',
            ["interference-overlap"],
        ),
        (' grey-iron any any 40 20 .05 .07 "a"\n', ["interference-bounds"]),
        (' grey-iron any any - - .07 .05 "a"\n', ["interference-reversed"]),
        (" grey-iron any any - - .05 .07 -\n", ["interference-lacks"]),
        (' gray-iorn any any - - .05 .07 "a"\n', ["material-unknown"]),
        (' grey-iron tool-stel any - - .05 .07 "a"\n', ["alloy-unknown"]),
        (' any any any - - .05 .07 "a"\n', ["name-forbidden"]),
    ],
)
def test_rows_of_interference_part_their_inserts(rows: str, wrong: list[str]) -> None:
    assert [slug for _, slug in slugs(JOB, a=TOP + INTERFERENCE + rows)] == wrong


@pytest.mark.parametrize(
    ("shop", "slug"),
    [
        ("inserts\n insert od od-least od-most\n X 44.5 44.6 44.7\n", "insert-od-outside"),
        ("inserts\n insert od-least od-most\n X 44.7 44.6\n", "insert-limits"),
        ("inserts\n insert od id\n X 44.7 44.8\n", "insert-id"),
        ("inserts\n insert height chamfer\n X 4 5\n", "insert-chamfer"),
        ("inserts\n insert on-hand\n X 2.5\n", "count-whole"),
        ("inserts\n insert od\n X 44.1\n X 44.2\n", "item-twice"),
        ("pilots\n expanding from to\n X 8.2 8.0\n", "pilot-range"),
        ("gauge G\n master 40.0 reads 41.0\n", "master-far"),
        ("gauge G\n range 60 to 40\n", "range-reversed"),
        ("cutter K1\n tips 1\ncutter K1\n tips 2\n", "item-twice"),
        ("machine B\n level 0.2\n", "unit-missing"),
        ("cutter K1\n tip wood\n", "choice-unknown"),
        ("cutter\n tips 1\n", "section-incomplete"),
        ("practice\n clean-up 0.1\npractice\n clean-up 0.2\n", "field-twice"),
        ('note "x"\n', "single-kind"),
        ('use "b.shop"\n', "shop-uses"),
        ("material new\n hazard asbestos\n", "choice-unknown"),
        ("material new\n expansion 1/0 um/m/C to 100 C\n", "fraction-zero"),
        ("inserts\n insert od\n X 44.1/44.2\n", "readings-here"),
        ("inserts\n insert od\n choose 44.1\n", "name-forbidden"),
    ],
)
def test_a_mistake_on_the_shelf_is_one_error(shop: str, slug: str) -> None:
    assert [found for _, found in slugs(JOB, a=TOP + shop)] == [slug]


def test_a_shop_without_units_is_told_so_once_and_nothing_follows_from_it() -> None:
    assert slugs(JOB, a='shop "x"\ncutter K1\n range 1.2 to 2.0\n') == [(1, "field-missing")]


def test_where_the_shop_has_several_the_job_must_say_which() -> None:
    two = TOP + "machine A1\n dial mm\nmachine B2\n dial inch\n"
    assert slugs(JOB, a=two) == [(1, "machine-which")]
    job = clean(JOB.replace("units mm\n", "units mm\n  machine b2\n"), a=two)
    assert job.machine is not None
    assert job.machine.name.text == "B2"
    assert clean(JOB, a=TOP).machine is None


@pytest.mark.parametrize(
    ("fields", "slug", "meant"),
    [
        ("insert X64", "insert-unknown", "X46"),
        ("pilot P902", "pilot-unknown", "P901"),
        ("cutter C3", "cutter-unknown", "C2"),
        ("alloy tool-stel", "alloy-unknown", "tool steel"),
    ],
)
def test_a_name_that_is_not_on_the_shelf_offers_the_nearest(fields: str, slug: str, meant: str) -> None:
    shop = TOP + "inserts\n insert od\n X46 46\npilots\n pilot diameter\n P901 9.01\ncutter C2\n tips 1\n"
    _, messages = read_files(JOB.replace("valves E1\n", f"valves E1\n {fields}\n"), a=shop)
    [message] = messages
    assert message.slug == slug
    assert f"`{meant}`" in message.help


def test_a_name_takes_hyphens_for_blanks_and_capitals_as_they_come() -> None:
    shop = TOP + 'inserts\n insert od\n "ring six" 46\nalloy "Hard Chrome"\n hazard none\n'
    job = clean(JOB.replace("valves E1\n", "valves E1\n insert Ring-Six\n alloy hard-chrome tool-steel\n"), a=shop)
    found = job.heads[0].valves[0].specification
    assert found.insert is not None
    assert found.insert.name == "ring six"
    assert [alloy.text for alloy in found.alloys] == ["hard chrome", "tool steel"]


def test_a_shop_material_replaces_the_built_in_one_whole() -> None:
    job = clean(JOB, a=TOP + "material gray iron\n stiffness 110 GPa\n")
    material = job.heads[0].material
    assert material is not None
    assert material.stiffness is not None
    assert (material.name, material.built_in, material.stiffness.value) == ("grey iron", False, 110_000)
    assert material.poisson is None
    assert material.stiffness.source == "the shop's figure, a.shop"
    built_in = clean(JOB, a=TOP).heads[0].material
    assert built_in is not None
    assert built_in.built_in


def test_a_master_of_a_day_stands_from_that_day_on() -> None:
    gauge = clean(
        JOB,
        a=SHOP.format(units="mm")
        + "gauge g\n master 40.000 reads 40.002\n standard 2026-11-20 40.000 reads 40.003/40.005\n"
        " master 2026-11-22 50.000 reads 50.001\n",
    ).shop.gauges[0]
    shown = {
        day: [(one.size.value, round(one.reads.value, 6)) for one in standing_masters(gauge.masters, day)]
        for day in DAYS
    }
    assert shown == {
        "2026-11-19": [(40.0, 40.002)],
        "2026-11-20": [(40.0, 40.004)],
        "2026-11-22": [(40.0, 40.004), (50.0, 50.001)],
        None: [(40.0, 40.004), (50.0, 50.001)],
    }


DAYS = ("2026-11-19", "2026-11-20", "2026-11-22", None)


def test_the_words_of_a_shop_keep_their_figures() -> None:
    shop = clean(
        JOB,
        a=SHOP.format(units="mm")
        + "machine m1\n parallel 6.00\npilots\n expanding from to length tir tir-at\n XP8 7.9 8.2 70 0.01 45\n"
        "practice\n roughness 6 4 um\n",
    ).shop
    assert shop.machines[0].parallel is not None
    assert shop.machines[0].parallel.value == 6.0
    assert shop.pilots[0].tir_at is not None
    assert shop.pilots[0].tir_at.value == 45.0
    assert shop.practice.roughness is not None
    assert [one.value for one in shop.practice.roughness] == [0.006, 0.004]
