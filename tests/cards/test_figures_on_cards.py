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
from tests.cards.shown_again import in_unit, limits, printed

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


@everything
@both
def test_readings_of_a_setting_card_are_those_of_the_plan(name: str, units: str) -> None:
    of = built(name, units)
    step, unit = of.steps.gauge
    for setting in of.plan["settings"]:
        text = card(of, f"Setting {setting['number']}:")
        first = setting["first"].get("reading") if "first" in setting else None
        for value in (setting["reading"], first):
            if value is not None:
                assert f"**{printed(value, step, unit)} {unit}**" in text
        if "master_reads" in setting:
            # As its owner wrote it, who may read between two divisions.
            reads = {printed(setting["master_reads"], each, unit) for each in (step, "0.001", "0.0001")}
            assert any(f"**{each} {unit}**" in text for each in reads)
        aim = printed(setting["bench_aim"], *of.steps.bore)
        assert "first" not in setting or f"Setting's aim **{aim}** {of.steps.bore[1]}" in text


@everything
@both
def test_a_depth_stop_is_printed_as_its_dial_shows_it(name: str, units: str) -> None:
    # A dial's figure is in the dial's own unit. One that was converted twice read 0.010 in for 0.263 in.
    of = built(name, units)
    for setting in of.plan["settings"]:
        text = card(of, f"Setting {setting['number']}:")
        for stop in setting["depth_stops"]:
            dial, unit = Fraction(str(stop["dial"])), stop["dial_unit"]
            assert f"**{in_unit(dial, of.steps.dial)} {unit}**" in text
            deep = Fraction(str(stop["stop"])) / (Fraction(254, 10) if unit == "in" else 1)
            assert abs(dial - deep) <= Fraction(of.steps.dial), "the dial is zeroed on the face that depths count from"


@everything
@both
def test_limits_of_each_bore_and_depth_are_inwards_where_it_is_bored(name: str, units: str) -> None:
    of = built(name, units)
    for setting in of.plan["settings"]:
        text = card(of, f"Setting {setting['number']}:")
        for valve in setting["valves"]:
            plan = of.plan["valves"][valve]
            low, high = limits(plan["bore"]["bench_least"], plan["bore"]["bench_most"], *of.steps.bore)
            assert row(text, valve, f"**{low}** to **{high}**"), valve
            assert row(card(of, "Job sheet"), valve, f"**{low}** to **{high}**"), valve
            if "depth" in plan:
                low, high = limits(plan["depth"]["least"], plan["depth"]["most"], *of.steps.depth)
                assert row(text, valve, f"**{low}** to **{high}**"), valve


def pressed(plan: Json) -> Iterator[tuple[str, Json]]:
    for valve, each in plan["valves"].items():
        if each["status"] in ("to-bore", "bore-again", "accepted", "kept") and "finished" not in each:
            yield valve, each


@everything
@both
def test_a_press_card_has_the_heat_the_clearance_and_the_grip_of_the_plan(name: str, units: str) -> None:
    of = built(name, units)
    text = card(of, "Inserts in")
    for valve, plan in pressed(of.plan):
        way = plan.get("assembly")
        if way is None:
            continue
        warm = way["head_C"] * 9 / 5 + 32 if units == "inch" else way["head_C"]
        assert f"**{warm:g} °{'F' if units == 'inch' else 'C'}**" in text
        clear = printed(way["clearance"], *of.steps.bench, "down") if way["clearance"] >= 0 else "–"
        grabs = "–"
        if "grabs_at_C" in way:
            degrees, near = (way["grabs_at_C"] * 9 / 5 + 32, 10) if units == "inch" else (way["grabs_at_C"], 5)
            grabs = f"{round(degrees / near) * near} °{'F' if units == 'inch' else 'C'}"
        shown = text.replace("\\-", "-")
        assert row(shown, valve, clear, grabs), (valve, clear, grabs)
        if "stand" in plan:
            low, high = limits(plan["stand"]["least"], plan["stand"]["most"], *of.steps.seat)
            words = f"{low} to {high} below" if Fraction(low) >= 0 else f"{low[1:]} proud to {high} below"
            assert row(text, valve, f"**{words}**"), valve
        if plan["status"] == "to-bore":
            fit = (plan["interference"]["least"], plan["interference"]["most"])
            ways = [limits(*fit, *of.steps.bench)]
            # A fit that its owner wrote in both units is printed as he wrote it.
            both_ways = [printed(each, *of.steps.bench) for each in fit]
            ways += [(both_ways[0], both_ways[1])] if all(each.lstrip("0") in of.typed for each in both_ways) else []
            assert any(row(text, valve, f"{low} to {high} planned") for low, high in ways), valve
        elif plan["status"] == "accepted":
            made = printed(plan["cut"]["interference"], *of.steps.judged)
            assert row(text, valve, f"**{made}** measured"), valve


@everything
@both
def test_a_seat_card_has_the_cuts_the_depth_and_the_sums_of_the_plan(name: str, units: str) -> None:
    of = built(name, units)
    step, unit = of.steps.seat
    for valve, plan in of.plan["valves"].items():
        seat = plan.get("seat", {})
        if plan["status"] in ("hold", "finished", "left-alone", "not-planned") or "angle" not in seat:
            continue
        text = next(each for title, each in of.cards.items() if title.startswith("Seat") and f"| **{valve}** |" in each)
        text = text.replace("\\-", "-")
        assert f"Ø {printed(seat['outer'], step, unit)} {unit}" in text
        for cut in seat["cuts"]:
            assert f"**{cut['angle']:g}°** = {180 - 2 * cut['angle']:g}° included" in text
            for edge, by in cut.get("deeper_0_1", {}).items():
                # What 0.10 mm moves in mm, 0.010 in moves a tenth of in inches.
                moves = f"{abs(by) / 10:.3f}" if units == "inch" else f"{abs(by):.2f}"
                way = "out" if by > 0 else "in"
                assert f"the {SIDES[edge]} {way} by {moves}" in text
        if "width_least" in seat and "width_most" in seat:
            low, high = limits(seat["width_least"], seat["width_most"], step, unit)
            assert _bare(f"**{low} to {high} {unit} wide**") in _bare(text)
        if "gauge_depth" in seat:
            depth, aim = printed(seat["gauge_depth"], step, unit), printed(seat["recession"]["aim"], step, unit)
            assert row(text, valve, f"**{depth}**", f"**{aim}**"), valve
        if "stem_after" in seat:
            sink = printed(seat["sink"], step, unit)
            sink = f"− {sink[1:]}" if sink.startswith("-") else f"+ {sink}"
            assert row(text, valve, sink, printed(seat["stem_after"], step, unit)), valve


@everything
@both
def test_a_record_has_what_was_planned_cut_and_put_in(name: str, units: str) -> None:
    of = built(name, units)
    text = card(of, "Record")
    for valve, plan in of.plan["valves"].items():
        if "bore" in plan and plan["status"] not in ("hold", "oversize", "kept"):
            low, high = limits(plan["bore"]["least"], plan["bore"]["most"], *of.steps.bench)
            assert row(text, valve, f"{low} to {high}"), valve
        cuts = [plan["cut"], *plan["cut"].get("earlier", [])] if "cut" in plan else []
        for cut in cuts:
            form = [printed(cut[name], *of.steps.judged) for name in ("round", "taper")]
            assert row(text, valve, *form, f"**{cut['verdict'].replace('-', ' ')}**"), valve
        if plan["status"] == "finished":
            bore, fit = (printed(plan["cut"][name], *of.steps.judged) for name in ("bore", "interference"))
            assert row(text, valve, bore, f"**{fit}**"), valve


@everything
@both
def test_where_a_bore_stands_says_what_to_open_it_by(name: str, units: str) -> None:
    of = built(name, units)
    for valve, plan in of.plan["valves"].items():
        if plan["status"] == "bore-again":
            by = printed(plan["cut"]["open_by"], *of.steps.bore)
            assert re.search(rf"\*\*{valve}\*\* .*open by {by} {of.steps.bore[1]} on diameter", card(of, "Job sheet"))


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
        lines = (line for line in text.split("\n") if not line.lstrip().startswith((">", "- ")))
        for number in re.findall(r"(?<![\w.])\d+\.\d+(?![\w.])", "\n".join(lines)):
            # Limits go inwards by as much as a step: of 0.002 mm, 0.01 mm, 0.0005 in.
            decimals = len(number.partition(".")[2])
            step = (5 if decimals == 4 else 2) * 10.0**-decimals
            near = any(abs(abs(value) - float(number)) <= step for value in numbers)
            if not near and number.lstrip("0") not in typed and number not in ("0.10", "0.010"):
                rejected.add(number)
    assert not rejected
