"""The handbook that ships: made from the docstrings, whole, numbered, with sources in neutral words."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from pathlib import Path

import pytest
from markdown_it import MarkdownIt

import seatwright.handbook
from seatwright.handbook import interference_table, materials, speeds
from seatwright.handbook.page import SECTIONS, page
from seatwright.handbook.sources import SOURCES, UNPUBLISHED, numbered

PAGE = Path(seatwright.handbook.__path__[0]) / "README.md"
NOT_FORMULAS = {"page", "sources"}
FORMULAS = [
    formula
    for found in pkgutil.iter_modules(seatwright.handbook.__path__)
    if found.name not in NOT_FORMULAS
    for module in [importlib.import_module(f"seatwright.handbook.{found.name}")]
    for name, formula in inspect.getmembers(module, inspect.isfunction)
    if formula.__module__ == module.__name__ and not name.startswith("_")
]
ADDRESS = re.compile(r"https?:|www\.|\.com\b|\.co\.uk|\.nl\b|\.jp\b|\[S\d|trade.facts|worked.checks", re.IGNORECASE)


def source_of(formula: object) -> str:
    """What a formula names as its source."""
    found = re.search(r"Source ?: (.*?)(?:\n\s*\n|\Z)", inspect.getdoc(formula) or "", re.DOTALL)
    return "" if found is None else " ".join(found[1].split())


def figures() -> list[tuple[str, str]]:
    """Every built-in figure's name and source."""
    rows = [(f"fit {fit.od:g}", fit.source) for fit in interference_table.PUBLISHED]
    rows += [(f"fits {row.over:g}", row.source) for row in interference_table.BUILT_IN]
    rows += [(f"{row.head} {row.tip}", row.source) for row in speeds.SURFACE_SPEEDS]
    for one in (*materials.MATERIALS.values(), *materials.ALLOYS.values()):
        parts = (one.stiffness, one.poisson, one.strength, one.yield_strength, one.friction, one.cutting_force)
        rows += [(one.name, part.source) for part in (*parts, *one.expansion) if part is not None]
    return rows


def test_the_page_that_ships_is_up_to_date() -> None:
    again = f"python -m seatwright.handbook.page > {PAGE.name}"
    assert PAGE.read_text("utf-8") == page(), f"the handbook is stale: {again}"


def test_the_sections_have_the_numbers_that_are_cited() -> None:
    assert [section.number for section in SECTIONS] == list(range(19))


def test_every_formula_stands_in_one_section() -> None:
    placed = [formula for section in SECTIONS for formula in section.formulas]
    assert sorted(formula.__qualname__ for formula in placed) == sorted(formula.__qualname__ for formula in FORMULAS)
    assert len(set(placed)) == len(placed)


@pytest.mark.parametrize("formula", FORMULAS, ids=lambda f: f"{f.__module__.rpartition('.')[2]}.{f.__name__}")
def test_every_formula_names_a_listed_source_or_says_that_none_is_needed(formula: object) -> None:
    source = source_of(formula)
    assert numbered(source) or any(words in source for words in UNPUBLISHED), source


@pytest.mark.parametrize("name, source", figures())
def test_every_built_in_figure_names_a_listed_source(name: str, source: str) -> None:
    assert numbered(source), f"{name}: {source}"


def test_every_listed_source_is_named_somewhere() -> None:
    everything = [source_of(formula) for formula in FORMULAS]
    everything += [inspect.getdoc(importlib.import_module(f.__module__)) or "" for f in FORMULAS]  # type: ignore[attr-defined]
    everything += [source for _, source in figures()]
    everything += [Path(inspect.getfile(seatwright.handbook.page)).with_name("assembly.py").read_text("utf-8")]
    named = {number for text in everything for number in numbered(text)}
    assert [SOURCES[number - 1].words for number in range(1, len(SOURCES) + 1) if number not in named] == []


def test_no_address_and_no_code_of_a_list_that_nobody_has_is_on_the_page() -> None:
    assert ADDRESS.findall(page()) == []


def test_one_standards_number_is_not_the_beginning_of_another() -> None:
    words = [source.words for source in SOURCES]
    assert [words[number - 1] for number in numbered("ISO 14253-1:2017")] == ["ISO 14253-1:2017"]
    assert [words[number - 1] for number in numbered("ISO 16112 annex")] == ["ISO 16112"]
    assert [words[number - 1] for number in numbered("ISO 1 and ISO 286-1")] == ["ISO 1", "ISO 286-1"]


def test_every_link_of_the_page_leads_to_a_heading() -> None:
    tokens = MarkdownIt().parse(page())
    headings = {
        re.sub(r"[^\w\- ]", "", tokens[at + 1].content.lower()).replace(" ", "-")
        for at, token in enumerate(tokens)
        if token.type == "heading_open"
    }
    links = set(re.findall(r"\]\(#([^)]*)\)", page()))
    assert links <= headings


def test_every_formula_is_printed_with_its_example_and_its_source() -> None:
    entries = re.split(r"^### ", page(), flags=re.MULTILINE)[1:]
    assert len(entries) == len(FORMULAS)
    for entry in entries:
        assert "```pycon\n>>> " in entry, entry[:60]
        assert "\nSource: " in entry, entry[:60]
        assert re.search(
            r"\[(mm|MPa|N|°C|1/°C|degrees|°|-|rpm|m/min|N·m|counts|whole|any|its|pieces|in|that)", entry
        ), entry[:60]
