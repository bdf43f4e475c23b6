"""What a machinist would do wrong with a card: each of these stood on one once, or was missing where it was needed."""

from __future__ import annotations

import re

import pytest
from tests.cards.demo_plans import planned, text

from seatwright.cards.card import Card
from seatwright.cards.deck import cards
from seatwright.commands.terminal.screen import screen
from seatwright.planning.plan import Plan, ValvePlan


def valve(plan: Plan, name: str) -> ValvePlan:
    return next(each for each in plan.valves if each.name == name)


def card(plan: Plan, name: str) -> Card:
    return next(each for each in cards(plan) if each.name == name)


# --- what is ordered --------------------------------------------------------------------------------------------------


def test_the_order_says_how_high_the_insert_may_be() -> None:
    # integral-seats.seat: the metal under the floor of E3 allows 6.40 mm.
    assert re.search(r"ORDER: .*height at most 6\.400", text(planned("integral-seats"), "Job 2231"))


# --- the terminal -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["four-valve-aluminium", "half-way", "four-cylinder-diesel", "integral-seats"])
def test_the_terminal_has_the_figures_and_the_words_of_the_job_sheet(name: str) -> None:
    plan = planned(name)
    said, sheet = screen(plan, f"{name}:"), text(plan, "Job ")
    rows = {
        row[0]: row[1:]
        for row in (re.split(r" {2,}", line.strip()) for line in said.partition("next:")[0].splitlines()[2:])
    }
    assert set(rows) == {each.name for each in plan.valves}
    for each, (_, bore, setting, status) in rows.items():
        printed = re.search(rf"^\| {each} \| ([^|]*) \| [^|]* \| [^|]* \| ([^|]*) \| [^|]* \| ([^|]*) \|$", sheet, re.M)
        assert printed is not None
        stood, on_sheet, named = (cell.strip().replace("*", "") for cell in printed.groups())
        assert bore == "-" if on_sheet == "~~~" else bore.startswith(on_sheet)
        assert setting == "-" if named == "~~~" else setting == named
        assert status.split(" (")[0] == stood


def test_an_inch_bore_gauge_has_its_four_decimals_on_the_terminal() -> None:
    said = screen(planned("four-valve-aluminium"), "402:")
    assert re.search(r"^  valve +insert +bore at the bench +setting +status$", said, re.M)
    assert re.search(r"^  E1A +X-10 +1\.1463 to 1\.1477 in +E2 at 1\.1467 +to bore$", said, re.M)
