"""The recessions that each limit allows, along the stem (handbook 12): its own, those of the stem and of the spring."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from msgspec import Struct

from seatwright.handbook import recession as sums
from seatwright.job.model import Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, said
from seatwright.planning.plan import HeightLimits, Started
from seatwright.planning.plan.figure import Figure, computed

_SOURCE = "handbook 12"


class Allowed(Struct, frozen=True):
    """Recessions along the stem that one limit allows; an edge is None where that side is open."""

    name: str
    least: Figure | None
    most: Figure | None

    @property
    def window(self) -> sums.RecessionWindow:
        return sums.RecessionWindow(
            self.name,
            -math.inf if self.least is None else self.least.value,
            math.inf if self.most is None else self.most.value,
        )


def shrinks(plan: Started) -> bool:
    """Whether the stem is measured to the head's edge or the cam, so that it shrinks as the seat sinks."""
    at = plan.valve.specification.stem_height_from
    return at is not None and at.text in ("head-edge", "cam")


def deeper_only(
    job: Job, plan: Started, limits: Allowed | None, now: Figure | None, findings: Findings
) -> Allowed | None:
    """What the limits of recession leave to a seat that stays: it only goes deeper, so from what was found.

    Found at the most, or over it, is a hold: no cut brings a valve back up. now : with the valve that goes in.
    """
    if not plan.insert_stays or now is None:
        return limits
    if limits is None:
        return Allowed("recession", now, None)
    left = sums.deeper_only(limits.window, now.value)
    if left is None:
        most = limits.most
        findings.hold(
            plan.name,
            "seat-sunk",
            f"The valve lies {length(job, now.value)} deep in a seat that stays"
            + ("" if most is None else f", and the most is {said(job, most)}")
            + ": cut again it only goes deeper.",
            "Another valve, measured anew, or a new insert: `insert choose` for this valve.",
            plan.found.recession.span if plan.found.recession else plan.valve.span,
            now,
            most,
        )
        return limits
    if limits.least is None:
        return Allowed(limits.name, now, limits.most)
    least = computed(
        "R_least_staying", "mm", left.least, f"max({limits.least.symbol}, {now.symbol})", (limits.least, now),
        f"{_SOURCE}, a seat that stays only goes deeper",
    )  # fmt: skip
    return Allowed(limits.name, least, limits.most)


def of_stem(plan: Started, now: Figure, found: Figure, limits: HeightLimits, slack: Figure | None) -> Allowed:
    """The recessions that the stem allows. slack: what may be ground off."""
    if not shrinks(plan):
        return _growing("stem", sums.stem_window, now, found, limits, slack)
    low, high = limits.least, limits.most
    window = sums.stem_to_edge_window(now.value, found.value, *_open(limits), 0.0 if slack is None else slack.value)
    least = most = None
    if high is not None:
        formula = f"{now.symbol} + {found.symbol} - {high.symbol}"
        least = computed("R_stem_least", "mm", window.least, formula, (now, found, high), _SOURCE)
    if low is not None:
        formula, inputs = f"{now.symbol} + {found.symbol} - {low.symbol}", (now, found, low)
        most = computed("R_stem_most", "mm", window.most, *_with(formula, inputs, slack), _SOURCE)
    return Allowed("stem", least, most)


def of_spring(now: Figure, found: Figure, limits: HeightLimits, slack: Figure | None) -> Allowed:
    """The recessions that the spring allows. slack: how much may be shimmed."""
    return _growing("spring", sums.spring_window, now, found, limits, slack)


def _growing(
    name: str, formula_of: Callable[..., sums.RecessionWindow], now: Figure, found: Figure, limits: HeightLimits,
    slack: Figure | None,
) -> Allowed:  # fmt: skip
    low, high = limits.least, limits.most
    window = formula_of(now.value, found.value, *_open(limits), 0.0 if slack is None else slack.value)
    least = most = None
    if low is not None:
        formula = f"{now.symbol} + {low.symbol} - {found.symbol}"
        least = computed(f"R_{name}_least", "mm", window.least, formula, (now, low, found), _SOURCE)
    if high is not None:
        formula, inputs = f"{now.symbol} + {high.symbol} - {found.symbol}", (now, high, found)
        most = computed(f"R_{name}_most", "mm", window.most, *_with(formula, inputs, slack), _SOURCE)
    return Allowed(name, least, most)


def _open(limits: HeightLimits) -> tuple[float, float]:
    return (
        -math.inf if limits.least is None else limits.least.value,
        math.inf if limits.most is None else limits.most.value,
    )


def _with(formula: str, inputs: Sequence[Figure], slack: Figure | None) -> tuple[str, tuple[Figure, ...]]:
    return (formula, tuple(inputs)) if slack is None else (f"{formula} + {slack.symbol}", (*inputs, slack))
