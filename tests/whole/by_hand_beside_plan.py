"""The figures of plan.json beside those of a hand calculation."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

import pytest
from tests.whole.by_hand import Sums
from tests.whole.shop import JOBS, seatwright


@cache
def plan(job: str) -> Any:
    return json.loads(seatwright("plan", f"{job}.seat", cwd=JOBS).out)


def found(job: str, valve: str, path: str) -> Any:
    """A figure of plan.json: a path below the valve, or below `setting` in the setting that the valve is bored with."""
    here: Any = plan(job)["valves"][valve]
    words = path.split(".")
    if words[0] == "setting" and len(words) > 1:
        here, words = next(one for one in plan(job)["settings"] if one["number"] == here["setting"]), words[1:]
    if words[0] == "bridge":
        return next(one["left"] for one in plan(job)["bridges"] if {valve, path[7:]} == set(one["between"]))
    for word in words:
        here = here[int(word)] if isinstance(here, list) else here[word]
    return here


RELATIVE = ("fit.p", "fit.hoop", "torque", "setting.rpm")  # stresses, forces and torque: six figures


def agrees(path: str, tool: Any, hand: Any) -> bool:
    if isinstance(hand, float) and path.startswith(RELATIVE):
        return bool(tool == pytest.approx(hand, rel=1e-5))
    if isinstance(hand, float) and path.endswith("_C"):
        return bool(tool == pytest.approx(hand, abs=1e-3))
    return bool(tool == pytest.approx(hand, abs=1e-5)) if isinstance(hand, (int, float)) else bool(tool == hand)


def differences(job: str, valve: str, sums: Sums) -> list[str]:
    """Each figure on which the tool and the hand do not agree, with both."""
    pairs = [(path, found(job, valve, path), hand) for path, hand in sums.items()]
    return [f"{path}: plan.json {tool}, by hand {hand}" for path, tool, hand in pairs if not agrees(path, tool, hand)]
