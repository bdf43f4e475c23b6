"""Places, distances, trial cuts, masters: what no head and no instrument shows."""

from __future__ import annotations

import pytest
from tests.job.given_jobs import read_files

HEAD = 'job 1 "a job"\n  units mm\nhead "a head"\n  material grey iron\nvalves I1 E1 I2 E2 I3 E3\n  insert none\n'
LAYOUT = {"I1": (-23, 0), "E1": (23, 0), "I2": (99, 0), "E2": (145, 0), "I3": (221, 0), "E3": (267, 0)}
SHOP = 'shop "a shop"\n  units mm\ncutter C2\n  overcut 0.006\n  overcut-spread 0.002\n'


def slugs(text: str, shop: str = "") -> list[str]:
    used = 'use "s.shop"\n' if shop else ""
    _, messages = read_files(text.replace('head "', f'{used}head "', 1), s=shop)
    return sorted(each.slug for each in messages)


def laid(**moved: tuple[float, float]) -> str:
    return HEAD + "layout\nvalve x y\n" + "".join(f"{v} {x} {y}\n" for v, (x, y) in {**LAYOUT, **moved}.items())


@pytest.mark.parametrize(
    ("moved", "slug"),
    [
        ({}, None),
        ({"E2": (144.8, 0)}, None),
        ({"E2": (154, 0)}, "spacing-unlike"),
        ({"E2": (146, 0)}, "spacing-unlike"),
        ({"E2": (145, 10)}, "place-unlike"),
        ({"E2": (23, 0)}, "valves-on-one-spot"),
    ],
)
def test_a_cylinder_is_laid_out_as_the_others(moved, slug):
    assert slugs(laid(**moved)) == ([] if slug is None else [slug])


def test_a_mirrored_head_has_the_same_distance_in_each_cylinder():
    assert slugs(laid(I2=(145, 0), E2=(99, 0))) == []


def test_a_valve_lies_in_a_cylinder_where_cylinders_are_given():
    rims = "holes\nhole x y diameter kind\n" + "".join(f"c{n} {122 * n} 0 104 cylinder\n" for n in range(3))
    assert slugs(laid() + rims) == []
    assert slugs(laid(E3=(397, 0)) + rims) == ["valve-outside-cylinders"]


@pytest.mark.parametrize(
    ("rows", "slug"),
    [
        (((44.480, 44.487),), None),
        (((44.480, 44.500),), "trial-unlike"),
        (((44.480, 44.987),), "trial-far"),
        (((44.480, 44.487), (44.500, 44.567)), "trial-unlike"),
        (((44.480, 44.510), (44.500, 44.531)), "overcut-moved"),
    ],
)
def test_a_trial_beyond_five_spreads_is_an_error_unless_another_agrees(rows, slug):
    text = HEAD + "trial\n" + "".join(f"C2 read {read} bored {bored}\n" for read, bored in rows)
    assert slugs(text, SHOP) == ([] if slug is None else [slug])


@pytest.mark.parametrize(("reads", "slug"), [("40.002", None), ("40.50", "master-far"), ("40.06", "master-far")])
def test_a_master_is_read_to_some_hundredths(reads, slug):
    shop = SHOP + f'gauge "g"\n  master 40.000 reads {reads}\nbore-gauge "b"\n  ring 40.000 reads {reads}\n'
    assert slugs(HEAD, shop) == ([] if slug is None else [slug, slug])


def test_a_cut_is_held_against_the_setting_that_it_was_made_with():
    cut = "cut\nvalve cutter read bore-a bore-b\nE1 C2 {} 40.536 40.538\n"
    assert slugs(HEAD + cut.format("40.530"), SHOP) == []
    assert slugs(HEAD + cut.format("40.350"), SHOP) == ["read-unlike-bore"]
