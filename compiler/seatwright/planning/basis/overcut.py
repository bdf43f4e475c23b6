"""What a cutter bores bigger than it is set: from its trial cuts under this head, else the shop's figure."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.handbook import setting
from seatwright.job.model import Cutter, Given, Head, Job, Reading, Spread, Trial
from seatwright.planning.basis.bore_gauge import bore_at20
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.masters import gauge_error
from seatwright.planning.basis.temperatures import head_at_bench
from seatwright.planning.basis.wording import name_key
from seatwright.planning.plan import Overcut, TrialPlan
from seatwright.planning.plan.figure import Figure, Origin, assumed, computed, given

_SOURCE = "handbook 6"


def trials(job: Job, head: Head, findings: Findings) -> tuple[TrialPlan, ...]:
    """The trial cuts of a head and the overcut that each tells, in the order typed."""
    return tuple(_trial(job, head, trial, findings) for trial in head.trials)


def of_cutter(made: Sequence[TrialPlan], cutter: Cutter) -> tuple[TrialPlan, ...]:
    """The trials that this cutter made."""
    return tuple(trial for trial in made if name_key(trial.cutter) == name_key(cutter.name.text))


def overcut(
    head: Head, cutter: Cutter, made: Sequence[TrialPlan], findings: Findings, valves: Sequence[str]
) -> Overcut:
    """The mean of the cutter's trials; without any, the shop's figure for this head's material; without that, none,
    which is said."""
    stated = shops_overcut_spread(head, cutter)
    spread = _spread(stated) if stated else None
    told = [trial.overcut for trial in made if trial.overcut is not None]
    if told:
        symbols = [f"overcut_{place}" for place in range(1, len(told) + 1)]
        inputs = [each.called(symbol) for each, symbol in zip(told, symbols, strict=True)]
        mean = sum(each.value for each in told) / len(told)
        formula = symbols[0] if len(told) == 1 else f"({' + '.join(symbols)}) / {len(told)}"
        return Overcut(computed("overcut", "mm", mean, formula, inputs, _SOURCE), "trial", len(told), spread)
    usual = shops_overcut(head, cutter)
    if usual is not None:
        return Overcut(given("overcut", "mm", usual), "shop", 0, spread)
    findings.unchecked(
        "overcut-not-known",
        f"How much bigger {cutter.name.text} bores than it is set is not known: the reading is that of the "
        "wanted bore.",
        "Make a trial cut and write it under `trial`, or give the cutter its `overcut` in the shop file.",
        cutter.name.span,
        valves,
    )
    return Overcut(assumed("overcut", "mm", 0.0, "no overcut given and no trial made"), "shop", 0, spread)


def shops_overcut(head: Head, cutter: Cutter) -> Given | None:
    """What the shop says of a cutter in the material of a head: that of the material, else the bare one."""
    return cutter.overcut(head.material.name if head.material else None)


def shops_overcut_spread(head: Head, cutter: Cutter) -> Spread | None:
    """How much it varies from bore to bore, likewise."""
    return cutter.overcut_spread(head.material.name if head.material else None)


def implied(job: Job, head: Head, reading: Reading, bored_20: Figure, findings: Findings) -> Figure | None:
    """What a cutter bored bigger than it was set, from a reading of the setting gauge and the bore that came of it.

    None without a setting gauge, or beyond its masters.
    """
    if job.gauge is None:
        return None
    read = given("read", "mm", reading)
    shown_wrong = gauge_error(job, job.gauge, read, findings, (), reading.date or job.day)
    if shown_wrong is None:
        return None
    # The cutter's size is taken as if the setting gauge had read it in the head: so the overcut is of the metal alone.
    setting_gauge = head_at_bench(job, head, findings, reading.at, job.gauge)
    read_20 = setting_gauge.at20(read, "read_20") if setting_gauge else read
    value = setting.overcut_from_trial(read_20.value, bored_20.value, shown_wrong.value)
    formula = f"{bored_20.symbol} - ({read_20.symbol} - error)"
    return computed("overcut", "mm", value, formula, (bored_20, read_20, shown_wrong), _SOURCE)


def _trial(job: Job, head: Head, trial: Trial, findings: Findings) -> TrialPlan:
    read, bored = given("read", "mm", trial.read), given("bored", "mm", trial.bored)
    bored_20 = bore_at20(job, head, trial.bored, trial.bored.at, "bored", trial.bored.value, findings)
    told = implied(job, head, trial.read, bored_20, findings)
    return TrialPlan(head.number, trial.cutter.text, read, bored, told, trial.read.date, trial.span.line)


def _spread(spread: Spread) -> Figure:
    return Figure(spread.value, "mm", "overcut_spread", origin=Origin(spread.typed, spread.span))
