"""What stands on a setting card before the first metal of the bore goes: passes, gauges, what must be waited for."""

from __future__ import annotations

import re

from tests.cards.demo_plans import planned, text

from seatwright.cards.render import documents


def sentences(card: str) -> list[str]:
    return re.findall(r"^\d+\. (.*?)(?: \[ \])?$", card, re.M)


def place(card: str, start: str) -> int:
    return next(at for at, sentence in enumerate(sentences(card)) if sentence.startswith(start))


# --- passes -----------------------------------------------------------------------------------------------------------


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


def test_a_floor_no_wider_than_the_tip_has_no_pass_before_its_first_cut() -> None:
    assert "Pass below size" not in text(planned("half-way"), "Setting 1")


# --- the bore gauge ---------------------------------------------------------------------------------------------------


def test_every_ring_that_a_card_asks_for_is_fetched() -> None:
    for name in ("half-way", "four-cylinder-diesel", "four-valve-aluminium", "integral-seats", "single-cylinder"):
        plan = planned(name)
        fetched = text(plan, "Job sheet")
        for ring in re.findall(r"on its ring (\S+ \w+)\. It must read", documents(plan).markdown):
            assert re.search(rf"To measure the bore: .*\bring .*{re.escape(ring)}", fetched)
