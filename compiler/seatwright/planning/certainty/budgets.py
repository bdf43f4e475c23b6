"""The two uncertainty budgets of a fit (handbook 11): what is not known of a planned bore, and of a measured one.

Both are of the interference, od - bore: the insert's share is in each, because windows, guards and verdicts are all
judged on the interference. What the bore alone is uncertain by is the same budget without the share `u_insert`.

A share is a Figure: its first input is the figure as stated, its formula holds the divisor, its note says what of.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct

from seatwright.handbook import uncertainty as sums
from seatwright.job.model import BoreGauge, Cutter, Gauge, Given, Head, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.overcut import shops_overcut_spread
from seatwright.planning.basis.temperatures import head_at_bench
from seatwright.planning.basis.wording import listed, name_key
from seatwright.planning.certainty.shares import share, stated_as
from seatwright.planning.certainty.trials import after_trials
from seatwright.planning.plan import Pocketed, TrialPlan
from seatwright.planning.plan.figure import Figure, assumed, computed, given

_SOURCE = "handbook 11, JCGM 100:2008"
_HALF_WIDTH = "handbook 11, JCGM 100:2008, 4.3.7"
_DIGITAL = "handbook 11, JCGM 100:2008, F.2.2.1"


class BudgetRow(Struct, frozen=True):
    """One line of a budget for `explain`: what it is of, the figure as stated, its divisor, what it adds [mm]."""

    source: str
    figure: Figure
    divisor: str
    contribution: Figure


def budget_rows(u: Figure) -> tuple[BudgetRow, ...]:
    """The lines of a budget, in its order. u: a figure of `planned` or `accepted`."""
    return tuple(
        BudgetRow(
            share.note, share.inputs[0], share.formula.rpartition(" / ")[2] if " / " in share.formula else "1", share
        )
        for share in u.inputs
        if share.inputs
    )


def planned_uncertainty(
    job: Job, head: Head, valve: str, aim: Figure, cutter: Cutter, trials: Sequence[TrialPlan], findings: Findings
) -> Figure | None:
    """Standard uncertainty of the interference that a bore still to be cut will have [mm].

    trials : those of this head; the ones made with this cutter that told an overcut count
    Returns : None without a setting gauge; what else is missing is said and has no share
    """
    if job.gauge is None:
        findings.unchecked(
            "setting-gauge-uncertainty",
            "There is no setting gauge: how sure a planned bore is was not computed, and nothing is drawn in for it.",
            "Describe the gauge that sets the cutter in the shop file: `gauge`, with `step`, `master` and the rest.",
            head.span,
            (valve,),
        )
        return None
    made = [
        trial for trial in trials if trial.overcut is not None and name_key(trial.cutter) == name_key(cutter.name.text)
    ]
    shares = _instrument(job.gauge, findings, valve)
    if made:
        shares = after_trials(job, job.gauge, aim, made, shares)
    shares += _overcut(head, cutter, len(made), findings, valve)
    shares += _temperatures(job, head, job.gauge, aim, findings, valve)
    shares += _insert(job, head, findings, valve)
    return _combined("u", shares)


def accepted(job: Job, head: Head, plan: Pocketed, findings: Findings, bore: Figure | None = None) -> Figure | None:
    """Standard uncertainty of the interference of a bore that was measured [mm]: no overcut, the bore is cut.

    bore : the bore as measured; left out: the aim
    Returns : None without a bore gauge (verdicts use the bare limits, which is said) or without a bore
    """
    size = bore or (plan.bore.aim if plan.bore else None)
    if size is None:
        return None
    if job.bore_gauge is None:
        findings.unchecked(
            "no-bore-gauge",
            "There is no bore gauge: bores are judged by their bare limits, with no guard against what is not known.",
            "Describe it in the shop file: `bore-gauge`, with `step`, `ring`, `ring-uncertainty` and `repeatability`.",
            head.span,
            (plan.name,),
        )
        return None
    shares = _instrument(job.bore_gauge, findings, plan.name)
    shares += _temperatures(job, head, job.bore_gauge, size, findings, plan.name)
    shares += _insert(job, head, findings, plan.name)
    return _combined("u_accept", shares)


def od_spread(least: Figure, most: Figure) -> Figure | None:
    """Standard uncertainty of an insert known by two limits only, anything between them [mm]; None if measured.

    The windows already stand for both limits, so this is no share of a budget: it is for the probability.
    """
    if not most.value > least.value:
        return None
    value = sums.rectangular((most.value - least.value) / 2)
    formula = f"({most.symbol} - {least.symbol}) / 2 / sqrt(3)"
    return computed("u_od", "mm", value, formula, (most, least), _HALF_WIDTH, "od anywhere between its limits")


def together(symbol: str, shares: Sequence[Figure]) -> Figure:
    """Independent shares combined [mm]."""
    value = sums.combined([sums.Contribution(share.symbol, share.value) for share in shares])
    formula = f"sqrt({' + '.join(f'{share.symbol}^2' for share in shares)})"
    return computed(symbol, "mm", value, formula, shares, _SOURCE)


def _combined(symbol: str, shares: Sequence[Figure]) -> Figure | None:
    return together(symbol, shares) if shares else None


def _instrument(gauge: Gauge | BoreGauge, findings: Findings, valve: str) -> list[Figure]:
    """Step, master or ring, and repeatability of an instrument."""
    shares, missing = findings.once(("instrument", id(gauge)), lambda: _stated_of(gauge))
    if missing:
        setting = isinstance(gauge, Gauge)
        findings.unchecked(
            "setting-gauge-uncertainty" if setting else "bore-gauge-uncertainty",
            f'The {_kind(gauge)} "{gauge.name.text}" has no {listed(missing, "and no")}: '
            f"{'this is' if len(missing) == 1 else 'these are'} not in what is said of the fit's certainty.",
            "Give them in the shop file, as `0.0005` (standard, k = 1) or `+/- 0.003` (never further off).",
            gauge.name.span,
            (valve,),
        )
    return list(shares)


def _stated_of(gauge: Gauge | BoreGauge) -> tuple[list[Figure], list[str]]:
    """The shares of an instrument that are given, and the words of those that are not."""
    kind = _kind(gauge)
    word, known = ("master", gauge.master_uncertainty) if isinstance(gauge, Gauge) else ("ring", gauge.ring_uncertainty)
    shares: list[Figure] = []
    missing: list[str] = []
    if gauge.step is None:
        missing.append("`step`")
    else:
        step = given("step", "mm", gauge.step)
        value = sums.digital_step(step.value)
        shares.append(computed("u_step", "mm", value, "step / sqrt(12)", (step,), _DIGITAL, f"step of the {kind}"))
    for symbol, spread, field, what in (
        (word, known, f"`{word}-uncertainty`", f"{word} of the {kind}"),
        ("repeat", gauge.repeatability, "`repeatability`", f"repeatability of the {kind}"),
    ):
        if spread is None:
            missing.append(field)
        else:
            shares.append(share(symbol, spread, what))
    return shares, missing


def _kind(gauge: Gauge | BoreGauge) -> str:
    return "setting gauge" if isinstance(gauge, Gauge) else "bore gauge"


def _overcut(head: Head, cutter: Cutter, n: int, findings: Findings, valve: str) -> list[Figure]:
    """From bore to bore: the spread of the overcut, and of the mean of the trials where there are any."""
    spread = shops_overcut_spread(head, cutter)
    if spread is None:
        findings.unchecked(
            "overcut-spread-not-given",
            f"How much the overcut of {cutter.name.text} varies is not given: it is not in the certainty of the bore.",
            "Keep the overcut of each bore, and give the cutter its `overcut-spread` in the shop file.",
            cutter.name.span,
            (valve,),
        )
        return []
    if n == 0:
        return [share("overcut", spread, f"spread of the overcut of {cutter.name.text}")]
    stated, divisor = stated_as("overcut", spread)
    # How many trials there are, not what they read: a corrected reading leaves the spread as it is.
    count = assumed("n", "1", float(n), "trials made with this cutter under this head")
    return [
        computed(
            "u_overcut",
            "mm",
            sums.overcut_spread(spread.value, n),
            f"{stated.symbol} * sqrt(1 + 1/n){divisor}",
            (stated, count),
            f"{_SOURCE}, 4.2.3",
            f"spread of the overcut of {cutter.name.text}, {n} trial{'s' if n > 1 else ''}",
        )
    ]


def _temperatures(
    job: Job, head: Head, gauge: Gauge | BoreGauge, bore: Figure, findings: Findings, valve: str
) -> list[Figure]:
    """What a temperature that is known within ± is worth on the bore: the metal's growth and the gauge's."""
    at = head_at_bench(job, head, findings, gauge=gauge)
    if at is None:
        return []
    metal, instrument = at.part_expansion, at.gauge_expansion
    if head.temperature is None or gauge.temperature is None:
        # One temperature was given for both: they are off together, and only the difference of growth counts.
        within = head.temperature_limits if head.temperature is not None else gauge.temperature_limits
        if within is None:
            _temperature_bare("head and gauge", head, findings, valve)
            return []
        return [_growth("T", within, bore, (metal, instrument), "temperature of head and gauge")]
    shares = []
    for symbol, limits, expansion, what in (
        ("T_head", head.temperature_limits, metal, "head"),
        ("T_gauge", gauge.temperature_limits, instrument, "gauge"),
    ):
        if limits is None:
            _temperature_bare(what, head, findings, valve)
        else:
            shares.append(_growth(symbol, limits, bore, (expansion,), f"temperature of the {what}"))
    return shares


def _growth(symbol: str, within: Given, bore: Figure, expansions: Sequence[Figure], what: str) -> Figure:
    stated = given(f"half_{symbol}", "C", within)
    per_degree = expansions[0].value - (expansions[1].value if len(expansions) > 1 else 0.0)
    value = sums.Contribution(what, stated.value, math.sqrt(3), per_degree * bore.value).standard
    symbols = [each.symbol for each in expansions]
    grows = symbols[0] if len(symbols) == 1 else f"abs({symbols[0]} - {symbols[1]})"
    formula = f"{stated.symbol} * {grows} * {bore.symbol} / sqrt(3)"
    return computed(f"u_{symbol}", "mm", value, formula, (stated, *expansions, bore), _HALF_WIDTH, what)


def _temperature_bare(what: str, head: Head, findings: Findings, valve: str) -> None:
    findings.unchecked(
        "temperature-uncertainty",
        f"How well the temperature of the {what} is known is not given: "
        "it is not in what is said of the fit's certainty.",
        "Say it with its limits, `temperature 24 C +/- 1`.",
        head.temperature.span if head.temperature else head.span,
        (valve,),
    )


def _insert(job: Job, head: Head, findings: Findings, valve: str) -> list[Figure]:
    """How well the insert's diameter is known."""
    spread = job.shop.practice.insert_uncertainty
    if spread is None:
        findings.unchecked(
            "insert-uncertainty-not-given",
            "How well an insert's diameter is known is not given: it is not in what is said of the fit's certainty.",
            "Give `insert-uncertainty` under `practice` in the shop file.",
            None,
            (valve,),
        )
        return []
    return [findings.once(("insert known", id(spread)), lambda: share("insert", spread, "diameter of the insert"))]
