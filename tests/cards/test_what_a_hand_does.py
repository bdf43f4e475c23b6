"""What a machinist would do wrong with a card: each of these stood on one once, or was missing where it was needed."""

from __future__ import annotations

import re

import pytest
from msgspec.structs import replace
from tests.cards.demo_plans import planned, text

from seatwright.cards.card import Card
from seatwright.cards.listing import cards
from seatwright.commands.terminal.screen import screen
from seatwright.planning.plan import Plan, ValvePlan


def valve(plan: Plan, name: str) -> ValvePlan:
    return next(each for each in plan.valves if each.name == name)


def card(plan: Plan, name: str) -> Card:
    return next(each for each in cards(plan) if each.name == name)


# --- which end of a guide ---------------------------------------------------------------------------------------------


def test_a_guide_is_measured_by_its_ends_never_by_top_and_bottom() -> None:
    # half-way.seat: guide-top 8.010, guide-middle 8.006, guide-bottom 8.014 of I1; the top is the spring end.
    sheet = text(planned("half-way"), "Guides and pilots")
    assert "| Valve | Spring end | Middle | Port end | Stem |" in sheet
    assert "| I1 | 8.010 | 8.006 | 8.014 | 7.970 |" in sheet
    assert not re.search(r"\b(top|bottom)\b", sheet, re.I)


def test_the_as_found_sheet_calls_the_ends_and_has_the_word_of_the_job_file_beside() -> None:
    sheet = text(planned("as-found"), "As found")
    ends = ("spring end (guide-top)", "middle (guide-middle)", "port end (guide-bottom)")
    assert f"| valve | stem | {' | '.join(ends)} |" in sheet


# --- what must be waited for ------------------------------------------------------------------------------------------


def test_to_wait_is_the_first_step_of_a_card_whose_bore_waits() -> None:
    steps = card(planned("half-way"), "setting").content.steps
    assert str(steps[0].sentence).startswith("WAIT: E3 may take its insert. Settle that first, and build again.")
    assert "Until then E4 is NOT bored. It has the first cut: do not begin this card." in str(steps[0].sentence)
    assert not any("WAIT" in str(step.sentence) for step in cards(planned("four-cylinder-diesel"))[2].content.steps)


def test_a_small_bore_is_opened_no_further_than_the_aim_of_its_setting_which_is_named() -> None:
    # Midway between the aims of E4, 36.598 - 0.0725, and of E2, 36.590 - 0.0725: one tip cuts both.
    sheet = text(planned("half-way"), "Setting 1")
    assert "open by the aim of this setting, 36.522 mm, less measured" in sheet
    assert "Setting's aim **36.522** mm" in sheet
    assert "| Aim |" not in sheet


def test_a_bore_with_a_trial_cut_of_its_own_is_opened_to_its_own_aim() -> None:
    plan = planned("half-way")
    apart = replace(plan, valves=tuple(replace(each, trial_here=each.name == "E2") for each in plan.valves))
    assert "the aim of this setting, 36.522 mm, in E2 its own, 36.518 mm, less measured" in text(apart, "Setting 1")


# --- what the needle needs --------------------------------------------------------------------------------------------


def test_a_needle_that_shows_diameter_is_never_asked_for_half() -> None:
    plan = planned("four-valve-aluminium")
    sheet = text(plan, "Setting")
    assert re.search(r"in − measured _+ = open by _+ on the needle\n", sheet)
    assert "half" not in sheet
    assert "radius" not in sheet.casefold()


def test_a_needle_that_shows_radius_has_the_whole_and_the_half() -> None:
    sheet = text(planned("half-way"), "Setting 1")
    assert "mm − measured _____ = open by _____; half on the needle _____" in sheet


def test_a_bore_to_open_is_told_in_what_the_needle_shows() -> None:
    plan = planned("half-way")
    by_diameter = replace(plan, settings=tuple(replace(each, indicator="diameter") for each in plan.settings))
    assert re.search(r"open by 0\.\d+ mm on diameter, by setting 1\.", text(by_diameter, "Job sheet"))
    assert re.search(r"open by 0\.\d+ mm on diameter, 0\.\d+ on radius, by setting 1\.", text(plan, "Job sheet"))


# --- digits of the instrument -----------------------------------------------------------------------------------------


def test_depths_in_inches_have_three_decimals_as_the_gauge_that_reads_them() -> None:
    sheet = text(planned("four-valve-aluminium"), "Setting 1")
    assert "**0.260** to **0.266**" in sheet
    assert "0.2600" not in sheet


@pytest.mark.parametrize("over", [0.0101, 0.0104])
def test_a_taper_over_its_limit_is_not_rounded_onto_it(over: float) -> None:
    # bench.shop: bore-taper 0.010.
    plan = planned("half-way")
    one = valve(plan, "E1")
    assert one.cut is not None
    assert one.cut.taper is not None
    cut = replace(one.cut, taper=replace(one.cut.taper, value=over))
    changed = replace(plan, valves=tuple(replace(each, cut=cut) if each is one else each for each in plan.valves))
    assert f"| {over:.4f} |" in text(changed, "Record")


def test_a_taper_of_half_a_step_keeps_its_half() -> None:
    # half-way.seat, E1: rim 36.516 and 36.517, low 36.514 and 36.516: means 36.5165 and 36.515.
    row = r"\| \*\*E1\*\* \| 2026-11-24 \|.*\| 0\.0015 \| \*\*accepted\*\* \|"
    assert re.search(row, text(planned("half-way"), "Record"))


# --- the press card ---------------------------------------------------------------------------------------------------


def test_where_only_the_depth_is_given_the_insert_is_to_stand_by_what_that_leaves() -> None:
    # half-way.seat: `depth 8.60 to 8.70`; N38 is 8.55 high in bench.shop: 0.05 to 0.15 below. I3 measures 8.60.
    sheet = text(planned("half-way"), "Inserts in")
    assert "| **I2** | **0.05 to 0.15 below** |" in sheet
    assert "| **I3** | **0.00 to 0.10 below** |" in sheet


def test_a_guide_measured_again_has_its_stem_and_what_it_may_have_beside_it() -> None:
    sheet = text(planned("half-way"), "Inserts in")
    assert "| **E1** | 8.010 | _____ | 8.007 | _____ | 8.015 | _____ | 7.955 | **0.03 to 0.11** |" in sheet


def test_to_wait_is_written_large_on_the_press_card() -> None:
    sheet = text(planned("half-way"), "Inserts in")
    assert "E4: WAIT: E3 may take its insert" in sheet
    assert "wAIT" not in sheet


# --- what is ordered --------------------------------------------------------------------------------------------------


def test_the_order_says_how_high_the_insert_may_be() -> None:
    # integral-seats.seat: the metal under the floor of E3 allows 6.40 mm.
    assert re.search(r"ORDER: .*height at most 6\.400 mm", text(planned("integral-seats"), "Job sheet"))


# --- the terminal -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["four-valve-aluminium", "half-way", "four-cylinder-diesel", "integral-seats"])
def test_the_terminal_has_the_figures_and_the_words_of_the_job_sheet(name: str) -> None:
    plan = planned(name)
    said, sheet = screen(plan, f"{name}:"), text(plan, "Job sheet")
    rows = {
        row[0]: row[1:]
        for row in (re.split(r" {2,}", line.strip()) for line in said.partition("next:")[0].splitlines()[2:])
    }
    assert set(rows) == {each.name for each in plan.valves}
    for each, (_, bore, _, status) in rows.items():
        printed = re.search(rf"^\| \*\*{each}\*\* \| [^|]* \| ([^|]*) \| [^|]* \| [^|]* \| ([^|]*) \|$", sheet, re.M)
        assert printed is not None
        on_sheet = printed[1].replace("*", "")
        assert bore == "-" if on_sheet in ("–", "HOLD") else bore.startswith(on_sheet)
        assert status.split(" (")[0] == printed[2].replace("*", "")


def test_an_inch_bore_gauge_has_its_four_decimals_on_the_terminal() -> None:
    said = screen(planned("four-valve-aluminium"), "402:")
    assert re.search(r"^  valve +insert +bore at the bench +setting +status$", said, re.M)
    assert re.search(r"^  E1A +X-10 +1\.1464 to 1\.1476 in +1 +to bore$", said, re.M)
