"""One figure has one form in a deck: the same digits wherever it stands, and never a point without a nought before it.

What is looked at is plan.json on one side and the printed words on the other; what somebody typed keeps his digits.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest
from tests.cards.demo import DEMO_JOBS, plan_of

from seatwright.cards.render import documents
from seatwright.planning.plan import Plan

MM_PER_INCH = 25.4
_NUMBER = re.compile(r"(?<![\w.,/-])−?(\d*\.\d+)(?![\w.]|,\d)")
_BARE_POINT = re.compile(r"(?<![\w.])\.\d+")


def lengths(document: dict[str, Any]) -> Iterator[tuple[str, float]]:
    """What is set, bored to, cut to and measured against, by its path [mm]."""
    for setting in document["settings"]:
        for name in ("reading", "bench_aim", "master_reads", "ring_reads"):
            if name in setting:
                yield f"{setting['name']}.{name}", setting[name]
        if "reading" in setting.get("first", {}):
            yield f"{setting['name']}.first.reading", setting["first"]["reading"]
    for valve, plan in document["valves"].items():
        for part, names in (
            ("bore", ("bench_least", "bench_most", "accept_least", "accept_most")),
            ("depth", ("least", "most")),
            ("seat", ("outer", "inner", "width_least", "width_most", "gauge_depth")),
        ):
            for name in names:
                if name in plan.get(part, {}):
                    yield f"{valve}.{part}.{name}", plan[part][name]
        for name in ("least", "most", "aim"):
            if name in plan.get("seat", {}).get("recession", {}):
                yield f"{valve}.seat.recession.{name}", plan["seat"]["recession"][name]


def two_forms(plan: Plan) -> list[str]:
    """Figures that stand in the deck with more digits in one place than in another."""
    made = documents(plan)
    typed = set(re.findall(r"\d*\.\d+", "".join(source.text for source in plan.job.sources)))
    printed = {number for number in _NUMBER.findall(made.markdown) if number not in typed}
    printed = {number for number in printed if len(number.partition(".")[2]) >= 2}
    found = []
    for path, value in lengths(json.loads(made.plan_json)):
        for per in (1.0, MM_PER_INCH):
            forms = {
                number
                for number in printed
                if abs(float(number) * per - abs(value)) <= 0.5 * per * 10.0 ** -len(number.partition(".")[2]) + 1e-9
            }
            if len({len(form.partition(".")[2]) for form in forms}) > 1:
                found.append(f"{path} {value}: {sorted(forms)}")
    return found


@pytest.mark.parametrize("name", DEMO_JOBS)
def test_a_figure_of_the_plan_has_the_same_digits_on_every_card_of_a_demo_job(name: str) -> None:
    assert two_forms(plan_of(name)) == []


@pytest.mark.parametrize("name", DEMO_JOBS)
def test_a_nought_stands_before_every_point(name: str) -> None:
    assert _BARE_POINT.findall(documents(plan_of(name)).markdown) == []
