"""What stands on a setting card before the first metal of the bore goes: passes, gauges, what must be waited for."""

from __future__ import annotations

import json
import re

from msgspec.structs import replace
from tests.cards.demo_plans import planned, text

from seatwright.cards.render import documents
from seatwright.planning.plan import Plan


def sentences(card: str) -> list[str]:
    return re.findall(r"^\d+\. (.*?)(?: \[ \])?$", card, re.M)


def place(card: str, start: str) -> int:
    return next(at for at, sentence in enumerate(sentences(card)) if sentence.startswith(start))


# --- passes -----------------------------------------------------------------------------------------------------------


def test_passes_are_steps_before_the_first_cut_the_smallest_first() -> None:
    # By hand from integral-seats.seat and bench.shop: first pass = throat + 2 * 4.5 - 2 * offset: E1 26.8 + 9 = 35.8,
    # E2 26.9 + 9 - 0.6 = 35.3, E4 27.0 + 9 - 0.4 = 35.6. The card once cut solid iron at 36.82 at once.
    card = text(planned("integral-seats"), "Setting 1")
    passes = [each for each in sentences(card) if "elow size in" in each or each.startswith("Bore E")]
    assert passes == [
        "Pass below size in E2, 35.300 mm across: wind the setting gauge to",
        "Bore E2 with it, down to the stop.",
        "Pass below size in E4, 35.600 mm across: wind the setting gauge to",
        "Bore E4 with it, down to the stop.",
        "Pass below size in E1, 35.800 mm across: wind the setting gauge to",
        "Bore E1 with it, down to the stop.",
    ]
    last = max(at for at, each in enumerate(sentences(card)) if each.startswith("Bore E1"))
    assert place(card, "Touch off") < place(card, "Bore E2") < last < place(card, "First cut: wind")
    assert "Put the pilot T8 into the guide of E2" in card


def test_the_reading_of_a_pass_is_that_of_the_same_correction_down_to_a_whole_step() -> None:
    # By hand: 35.300 at 20 °C is, in iron at 21 °C by a steel gauge at 22 °C, nearly 35.300; gauge + 0.0015 to
    # + 0.002, overcut 0.007: 35.295, down to 35.294 by steps of 0.002.
    card = text(planned("integral-seats"), "Setting 1")
    assert re.search(r"35\.300 mm across: wind the setting gauge to \[ \]\n\n    \*\*35\.294 mm\*\*", card)
    setting = json.loads(documents(planned("integral-seats")).plan_json)["settings"][0]
    for each in setting["passes"]:
        wanted = each["bore"] + sum(setting["correction"].values())
        assert 0 <= wanted - each["reading"] < 0.002 + 1e-6
        assert abs(each["reading"] / 0.002 - round(each["reading"] / 0.002)) < 1e-6


def test_every_bore_but_the_last_of_its_passes_is_in_a_pass_of_its_setting() -> None:
    for name in ("integral-seats", "four-cylinder-diesel", "four-valve-aluminium", "half-way"):
        plan = planned(name)
        for setting in plan.settings:
            listed = sorted((round(each.bore.value, 6), valve) for each in setting.passes for valve in each.valves)
            wanted = sorted(
                (round(bore.value, 6), valve.name)
                for valve in plan.valves
                if valve.setting == setting.number and valve.cut is None
                for bore in valve.passes[:-1]
            )
            assert listed == wanted


def test_a_pass_smaller_than_the_gauge_goes_is_set_by_its_width() -> None:
    coarse = ("range               28 to 62", "range               35.5 to 62")
    card = text(planned("integral-seats", coarse), "Setting 1")
    assert re.search(r"Pass below size in E2: set the tip to bore no more than \[ \]\n\n    \*\*35\.300 mm\*\*", card)


def test_a_floor_no_wider_than_the_tip_has_no_pass_before_its_first_cut() -> None:
    assert "Pass below size" not in text(planned("half-way"), "Setting 1")


# --- the bore gauge ---------------------------------------------------------------------------------------------------


def test_the_bore_gauge_is_set_on_its_ring_before_it_measures() -> None:
    # bench.shop: `ring 44.000 reads 44.001`; the bores of setting 1, 41.02, are nearest to it.
    card = text(planned("four-cylinder-diesel"), "Setting 1:")
    assert "All limits on this card count on it." in card
    assert re.search(r"its ring 44\.000 mm\. It must read \[ \]\n\n    \*\*44\.001 mm\*\*", card)
    assert place(card, "Set the two-point bore gauge") == place(card, "Measure the first cut") - 1


def test_where_the_bores_lie_beyond_the_rings_the_card_does_not_say_that_its_limits_count_on_them() -> None:
    # bench.shop has rings of 35 and 44; setting 2 bores 46.5.
    card = text(planned("four-cylinder-diesel"), "Setting 2:")
    assert "These bores lie beyond its rings: the limits take the gauge as it reads there." in card
    assert "count on it" not in card


def test_the_largest_figure_of_a_card_is_not_taken_for_the_first_cut() -> None:
    # The title has the reading of the full bore, and says so: the first cut is wound 0.1 below it.
    card = text(planned("half-way"), "Setting 1")
    assert card.startswith("\n# 3. Setting 1: cutter C1, full bore reads 36.516 mm")
    assert "First cut: wind the setting gauge to [ ]\n\n    **36.416 mm**" in card


def test_without_a_first_cut_the_ring_comes_before_the_bores() -> None:
    plan = planned("half-way")
    bare = replace(plan, settings=(replace(plan.settings[0], first=None),))
    card = text(bare, "Setting 1")
    assert place(card, "Set the two-point bore gauge") == place(card, "Bore in this order") - 1


def test_a_bore_gauge_without_a_ring_is_said_to_be_taken_as_it_reads() -> None:
    plan: Plan = planned("half-way")
    bare = replace(plan, settings=(replace(plan.settings[0], ring=None, ring_reads=None),))
    assert "No ring of it is given: the limits on this card take it as it reads." in text(bare, "Setting 1")


def test_every_ring_that_a_card_asks_for_is_fetched() -> None:
    for name in ("half-way", "four-cylinder-diesel", "four-valve-aluminium", "integral-seats", "single-cylinder"):
        plan = planned(name)
        fetched = text(plan, "Job sheet")
        for ring in re.findall(r"on its ring (\S+ \w+)\. It must read", documents(plan).markdown):
            assert re.search(rf"To measure the bore: .*\bring .*{re.escape(ring)}", fetched)
