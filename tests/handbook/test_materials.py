"""The built-in tables: nothing without a source, nothing out of order, nothing that belongs to a refused row."""

from __future__ import annotations

import pytest

from seatwright.handbook.interference_table import BUILT_IN, InterferenceRow, find_row
from seatwright.handbook.materials import ALLOYS, MATERIALS, PublishedMaterial
from seatwright.handbook.thermal import mean_expansion

EVERY = [*MATERIALS.values(), *ALLOYS.values()]


def test_the_words_of_the_language_are_all_there() -> None:
    assert list(MATERIALS) == ["grey iron", "ductile iron", "compacted iron", "aluminium"]
    assert list(ALLOYS) == [
        "grey iron",
        "tool steel",
        "high-chrome steel",
        "sintered",
        "nickel alloy",
        "cobalt alloy",
        "copper beryllium",
        "guide bronze",
    ]


@pytest.mark.parametrize("material", EVERY, ids=lambda m: m.name)
def test_every_figure_has_a_source(material: PublishedMaterial) -> None:
    figures = [
        material.stiffness,
        material.poisson,
        material.strength,
        material.yield_strength,
        material.friction,
        material.cutting_force,
        *material.expansion,
    ]
    assert material.source
    assert all(figure.source for figure in figures if figure is not None)


@pytest.mark.parametrize("material", EVERY, ids=lambda m: m.name)
def test_figures_are_of_the_right_size(material: PublishedMaterial) -> None:
    assert material.stiffness is not None
    assert material.poisson is not None
    assert 60e3 < material.stiffness.value < 240e3
    assert 0.2 < material.poisson.value < 0.36
    temperatures = [row.to_C for row in material.expansion]
    assert temperatures == sorted(temperatures)
    assert all(8e-6 < row.per_C < 25e-6 for row in material.expansion)
    if material.strength is not None and material.yield_strength is not None:
        assert material.yield_strength.value < material.strength.value
    if material.friction is not None:
        assert material.friction.least < material.friction.most


def test_rows_that_the_reference_refuses_are_not_used() -> None:
    # 180 GPa for flake iron is wrong.
    stiffness = MATERIALS["grey iron"].stiffness
    assert stiffness is not None
    assert stiffness.value < 140e3


def test_beryllium_and_lead_are_the_hazards_among_the_built_in_alloys() -> None:
    hazards = {m.name: m.hazard for m in EVERY if m.hazard != "none"}
    assert hazards == {"copper beryllium": "beryllium", "guide bronze": "lead"}


def test_a_sintered_insert_has_no_expansion_because_none_is_published_for_all() -> None:
    assert mean_expansion(ALLOYS["sintered"].expansion_table, 100) is None


def test_the_row_that_says_more_counts() -> None:
    wide = InterferenceRow("grey iron", "any", "any", None, None, 0.05, 0.10, "a")
    alloy = InterferenceRow("grey iron", "tool steel", "any", None, 60, 0.06, 0.09, "b")
    both = InterferenceRow("grey iron", "tool steel", "exhaust", 40, 60, 0.07, 0.08, "c")
    rows = (wide, alloy, both)
    assert find_row(rows, "grey iron", "tool steel", "exhaust", 50) is both
    assert find_row(rows, "grey iron", "tool steel", "exhaust", 40) is alloy
    assert find_row(rows, "grey iron", "sintered", "exhaust", 50) is wide
    assert find_row(rows, "aluminium", "sintered", "exhaust", 50) is None
    with pytest.raises(ValueError, match="equally well"):
        find_row((*rows, both), "grey iron", "tool steel", "exhaust", 50)


def test_built_in_rows_do_not_overlap_and_leave_no_gap() -> None:
    for head in ("aluminium", "grey iron"):
        rows = [row for row in BUILT_IN if row.head == head]
        assert [row.to for row in rows[:-1]] == [row.over for row in rows[1:]]
        assert all(0 < row.least < row.most for row in rows)
