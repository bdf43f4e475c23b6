"""What stands on a setting card before the first metal of the bore goes: passes, gauges, what must be waited for."""

from __future__ import annotations

import re

from tests.cards.demo_plans import JOBS, planned, text

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


def test_a_guide_that_is_not_to_be_judged_is_not_taken_for_good() -> None:
    words = (JOBS / "four-cylinder-diesel.seat").read_text("utf-8")
    asks, since = words[words.index("valves E2\n") :].partition("\n\n")[0], words.index("# The old guide of E2")
    worn = text(planned("four-cylinder-diesel", (asks, "valves E2\n  guide none"), (words[since:], "")), "Guides")
    assert "E2: over what is allowed, and not judged, as the job says: by hand." in worn
    assert re.search(r"^\| E2 .*\| by hand \|", worn, re.M)
    assert "E2: replace" not in worn
    some = text(planned("four-cylinder-diesel", (asks, "valves I1\n  guide none"), (words[since:], "")), "Guides")
    assert "I1: not judged, as the job says: by hand." in some
    assert not re.search(r"^\d+\. I1: not judged", some, re.M)
