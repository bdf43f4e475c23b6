"""Each figure on a card of a demo job is that of plan.json, rounded once: reckoned again in fractions, path by path.

In both systems: each job as it is, and the same job as if its figures were in the other unit. Steps are those of the
two demo shops, read off their files by eye.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace
from tests.cards.shown_again import limits, printed

from seatwright.cards.render import documents
from seatwright.job import read
from seatwright.planning import planner

JOBS = Path(__file__).parents[2] / "jobs"
NAMES = sorted(path.stem for path in JOBS.glob("*.seat"))
INCH_SHOP = "four-valve-aluminium"
SIDES = {"outer": "outside", "inner": "inside"}
UNITS = ("mm", "inch")

Json = dict[str, Any]


@dataclass(frozen=True)
class Steps:
    """What is graduated how, each in its own unit. bench: no instrument."""

    unit: str
    gauge: tuple[str, str]
    bore: tuple[str, str]
    dial: str

    @property
    def bench(self) -> tuple[str, str]:
        return ("0.0001", "in") if self.unit == "in" else ("0.001", "mm")

    @property
    def judged(self) -> tuple[str, str]:
        """A digit more: what was measured and is held against a limit is not rounded onto it."""
        return ("0.00001", "in") if self.unit == "in" else ("0.0001", "mm")

    @property
    def depth(self) -> tuple[str, str]:
        return ("0.001", "in") if self.unit == "in" else ("0.01", "mm")

    @property
    def seat(self) -> tuple[str, str]:
        return ("0.001", "in") if self.unit == "in" else ("0.01", "mm")


@dataclass(frozen=True)
class Built:
    plan: Json
    cards: dict[str, str]  # the Markdown of each card by its title
    steps: Steps
    typed: str  # all text of the sources


@cache
def built(name: str, units: str) -> Built:
    job, _ = read(f"{name}.seat", lambda path: (JOBS / path).read_bytes())
    assert job is not None
    plan = planner.plan(job)
    made = documents(replace(plan, job=replace(plan.job, units=units)))
    if name == INCH_SHOP:
        gauge, bore, dial = ("0.0001", "in"), ("0.0001", "in"), "0.001"
    else:
        gauge, bore, dial = ("0.002", "mm"), ("0.001", "mm"), "0.01"
    cards = {}
    for text in made.markdown.split("\n---\n"):
        title = re.search(r"^# \d+\. (.*)$", text, re.M)
        assert title is not None
        cards[title[1]] = cards.get(title[1], "") + text
    steps = Steps("in" if units == "inch" else "mm", gauge, bore, dial)
    return Built(json.loads(made.plan_json), cards, steps, "".join(source.text for source in plan.job.sources))


def card(of: Built, start: str) -> str:
    return "\n".join(text for title, text in of.cards.items() if title.startswith(start))


def row(text: str, valve: str, *cells: str) -> bool:
    """Whether a table of this text has a row of this valve with these cells side by side."""
    inside = " | ".join(re.escape(_bare(cell)) for cell in cells)
    return re.search(rf"^\| \**{re.escape(valve)}\** \|(?:.*\|)? {inside} \|", _bare(text), re.M) is not None


def _bare(text: str) -> str:
    """Without zeros behind: a limit that somebody typed keeps his digits, and has as many as he wrote."""
    return re.sub(r"(\d\.\d*?)0+(?!\d)", r"\1", text)


everything = pytest.mark.parametrize("name", NAMES)
both = pytest.mark.parametrize("units", UNITS)


def pressed(plan: Json) -> Iterator[tuple[str, Json]]:
    for valve, each in plan["valves"].items():
        if each["status"] in ("plan", "rework", "accepted", "kept") and "finished" not in each:
            yield valve, each


def known(of: Built) -> tuple[list[float], set[str]]:
    """All numbers of plan.json, and those in its sentences and in the files that somebody typed."""
    numbers: list[float] = []
    words = [of.typed]

    def gather(part: object) -> None:
        if isinstance(part, dict):
            for each in part.values():
                gather(each)
        elif isinstance(part, list):
            for each in part:
                gather(each)
        elif isinstance(part, str):
            words.append(part)
        elif isinstance(part, int | float):
            numbers.append(float(part))

    gather(of.plan)
    return numbers, {number.lstrip("0") for text in words for number in re.findall(r"\d*\.\d+", text)}


@everything
@both
def test_every_figure_on_any_card_is_in_plan_json_or_was_typed(name: str, units: str) -> None:
    of = built(name, units)
    numbers, typed = known(of)
    for value in list(numbers):
        # In inches; half of what a bore is opened by; °F; a tenth of it for the cut that is spoken of in inches.
        numbers += [value / 25.4, value / 2, value / 50.8, value * 9 / 5 + 32, value / 10, value / 4.4482216152605]
    rejected = set()
    for text in of.cards.values():
        # Cautions, with the limits that agencies publish, are not of the plan.
        lines = (line for line in text.split("\n") if not line.lstrip().startswith((">", "- ", "* ")))
        for number in re.findall(r"(?<![\w.])\d+\.\d+(?![\w.])", "\n".join(lines)):
            # Limits go inwards by as much as a step: of 0.002 mm, 0.01 mm, 0.0005 in.
            decimals = len(number.partition(".")[2])
            step = (5 if decimals == 4 else 2) * 10.0**-decimals
            near = any(abs(abs(value) - float(number)) <= step for value in numbers)
            if not near and number.lstrip("0") not in typed and number not in ("0.10", "0.010"):
                rejected.add(number)
    assert not rejected


@everything
@both
def test_a_setting_card_has_the_readings_the_limits_and_the_stop_of_the_plan(name: str, units: str) -> None:
    of = built(name, units)
    for setting in of.plan["settings"]:
        reading = printed(setting["reading"], *of.steps.gauge)
        text = card(of, f"Setting {setting['cutter']} at {reading}")
        # A bore that is opened from its own cut is wound to at once: it has no first cut below size.
        wind_to = setting.get("first", setting)["reading"]
        assert f"***{printed(wind_to, *of.steps.gauge)}***" in text
        # As its owner read it, which may lie between two steps.
        inch = of.steps.gauge[1] == "in"
        master = setting["master_reads"] / (25.4 if inch else 1)
        assert f"**{master:.4f}**" in text if inch else f"**{master:.3f}**" in text
        assert f"**{printed(setting['ring_reads'], *of.steps.bore)}**" in text
        sum_of_bore = f"| **Bore** | {printed(setting['bench_aim'], *of.steps.bore)} | ______ |"
        assert (sum_of_bore in text) == ("first" in setting)
        for valve in setting["valves"]:
            bore = of.plan["valves"][valve]["bore"]
            low, high = limits(bore["bench_least"], bore["bench_most"], *of.steps.bore)
            assert re.search(rf"^\| {valve} \|.*{low}\*{{0,2}} \*{{0,2}}{high}", text, re.M), valve
            if bore["accept_least"] <= bore["accept_most"]:
                sure = limits(bore["accept_least"], bore["accept_most"], *of.steps.bore)
                assert f"**{sure[0]}** **{sure[1]}**" in text, valve
        for stop in setting["depth_stops"]:
            per = 25.4 if stop["dial_unit"] == "in" else 1.0
            assert printed(stop["dial"] * per, of.steps.dial, stop["dial_unit"]) in text


@everything
@both
def test_a_press_card_has_each_insert_with_its_fit_and_its_clearance(name: str, units: str) -> None:
    of = built(name, units)
    text = card(of, "Inserts in")
    for valve, plan in of.plan["valves"].items():
        way = plan.get("assembly")
        if way is None or plan["status"] not in ("to-bore") or way["kind"] == "press":
            continue
        clear = Fraction(str(way["clearance"])) / (Fraction("25.4") if of.steps.unit == "in" else 1)
        step = Fraction(of.steps.bench[0])
        shown = float(clear // step * step)
        decimals = len(of.steps.bench[0]) - 2
        assert re.search(rf"^\| {valve} \|.*\*{shown:.{decimals}f}\*", text, re.M), valve
        if name != INCH_SHOP:  # there it was typed, and is printed as typed
            low, high = limits(plan["interference"]["least"], plan["interference"]["most"], *of.steps.bench)
            assert re.search(rf"^\| {valve} \|.*{_bare(low)}0* {_bare(high)}0* \|", text, re.M), valve
