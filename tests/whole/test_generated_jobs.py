"""What holds for any job: figures reach the cards, nothing depends on the order of the valves, holds stay apart."""

from __future__ import annotations

import html
import json
import re
from typing import Any

from hypothesis import assume, given, settings
from tests.whole.generated import Files, jobs

from seatwright.cards.render import documents
from seatwright.job import read
from seatwright.planning.planner import plan

MM_PER_INCH = 25.4


def built(files: Files) -> tuple[dict[str, Any], str]:
    """plan.json and the visible text of cards.html, blanks folded."""
    job, messages = read("job.seat", files.load)
    assert job is not None, [message.text for message in messages if message.severity == "error"]
    made = documents(plan(job))
    body = re.sub(r"<(style|title|desc)\b.*?</\1>", " ", made.html, flags=re.DOTALL)
    return json.loads(made.plan_json), " ".join(html.unescape(re.sub(r"<[^>]+>", " ", body)).split())


def printed(value: float, text: str, unit: str, within: float) -> bool:
    """A number of that value stands in the text with its unit, to within half a step of its instrument [mm]."""
    numbers = re.findall(rf"(-?\d*\.?\d+) {unit}\b", text)
    factor = MM_PER_INCH if unit == "in" else 1.0
    return any(abs(float(number) * factor - value) <= within for number in numbers)


@settings(max_examples=60)
@given(jobs())
def test_every_reading_first_cut_and_depth_stop_of_the_plan_is_printed(files: Files) -> None:
    document, text = built(files)
    for setting in document["settings"]:
        unit = setting["reading_unit"]
        # What is wound to stands large, with its unit; the reading that it leads to is in the setting's name.
        assert f"Setting {setting['name']}" in text
        assert printed(setting["reading"], f"{setting['name']} {unit}", unit, 1e-6), setting["reading"]
        wound_to = setting.get("first", setting)["reading"]
        assert printed(wound_to, text, unit, 1e-6), wound_to
        for stop in setting["depth_stops"]:
            dial_unit = stop["dial_unit"]
            shown = stop["dial"] * (MM_PER_INCH if dial_unit == "in" else 1.0)
            assert abs(shown - stop["stop"]) < 1e-4, "the dial shows another depth than the stop is"
            assert printed(stop["stop"], text, dial_unit, 0.0065)


@settings(max_examples=60)
@given(jobs())
def test_the_limits_on_a_setting_card_lie_inside_those_of_the_plan(files: Files) -> None:
    document, text = built(files)
    factor = MM_PER_INCH if document["job"]["units"] == "inch" else 1.0
    for setting in document["settings"]:
        for name in setting["valves"]:
            bore = document["valves"][name]["bore"]
            pairs = re.findall(r"(\d*\.\d+) to (\d*\.\d+)", text)
            inside = [
                (float(least) * unit, float(most) * unit)
                for least, most in pairs
                for unit in {factor, 1.0, MM_PER_INCH}
                if abs(float(least) * unit - bore["bench_least"]) < 0.004
            ]
            assert any(
                least >= bore["bench_least"] - 1e-6 and most <= bore["bench_most"] + 1e-6 for least, most in inside
            ), (name, bore)


@settings(max_examples=40)
@given(jobs())
def test_the_proof_names_a_valve_of_each_setting(files: Files) -> None:
    document, _ = built(files)
    proof = [document["valves"][name]["setting"] for name in document["fewest_settings_proof"]]
    assert sorted(proof) == [setting["number"] for setting in document["settings"]]


@settings(max_examples=40)
@given(jobs())
def test_the_corrections_of_a_setting_make_its_reading_from_its_aim(files: Files) -> None:
    document, _ = built(files)
    for setting in document["settings"]:
        assert abs(setting["aim"] + sum(setting["correction"].values()) - setting["reading"]) < 2e-5


@settings(max_examples=30)
@given(jobs())
def test_the_order_of_the_rows_changes_no_figure_of_a_valve(files: Files) -> None:
    head, rows = files.job.rsplit("throat\n", 1)
    assume(rows.count("\n") > 1)
    turned = "\n".join(reversed(rows.strip("\n").split("\n"))) + "\n"
    one, _ = built(files)
    other, _ = built(Files(f"{head}throat\n{turned}", files.shop))
    for name, valve in one["valves"].items():
        assert valve.get("bore") == other["valves"][name].get("bore"), name
        assert valve.get("setting") == other["valves"][name].get("setting"), name
