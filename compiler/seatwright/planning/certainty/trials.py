"""What trials do to the budget of a planned bore (handbook 11).

What the master of the setting gauge is off by is in the overcut that a trial told, read on the same master: it cancels,
or with several masters all but what differs between the sizes. In its place comes the bore gauge that read the trials.
"""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.handbook import uncertainty as sums
from seatwright.job.model import BoreGauge, Gauge, Job, Spread
from seatwright.planning.certainty.shares import share, stated_as
from seatwright.planning.plan import TrialPlan
from seatwright.planning.plan.figure import Figure, assumed, computed, given

_SOURCE = "handbook 11, JCGM 100:2008, 5.1.2"
_DIGITAL = "handbook 11, JCGM 100:2008, F.2.2.1"


def after_trials(
    job: Job, gauge: Gauge, aim: Figure, trials: Sequence[TrialPlan], shares: Sequence[Figure]
) -> list[Figure]:
    """The shares of the setting gauge once trials told the overcut, and those of the bore gauge that read them.

    trials : at least one, all with the cutter that is to be set
    shares : of the setting gauge without a trial
    """
    left = [each for each in shares if each.symbol != "u_master"]
    if gauge.master_uncertainty is not None:
        left += _what_differs(gauge, gauge.master_uncertainty, aim, trials)
    return left if job.bore_gauge is None else [*left, *_read_by(job.bore_gauge, len(trials))]


def _what_differs(gauge: Gauge, spread: Spread, aim: Figure, trials: Sequence[TrialPlan]) -> list[Figure]:
    """What is left of the masters' uncertainty where the trials were set at other sizes between them."""
    sizes = sorted({master.size.value for master in gauge.masters})
    reads = [trial.read.called(f"read_{place}") for place, trial in enumerate(trials, start=1)]
    there = sum(each.value for each in reads) / len(reads)
    if len(sizes) < 2:
        return []
    what = "masters of the setting gauge, what differs from the trials"
    if not all(sizes[0] <= size <= sizes[-1] for size in (aim.value, there)):
        return [share("master", spread, what)]
    stated, divisor = stated_as("master", spread)
    value = spread.value * sums.master_difference(sizes, aim.value, there)
    masters = {master.size.value: given(f"master_{master.size.value:g}", "mm", master.size) for master in gauge.masters}
    formula = f"{stated.symbol}{divisor} * how far the masters' weights differ, in a straight line between the masters"
    inputs = (stated, aim.called("aim"), *reads, *masters.values())
    return [computed("u_master", "mm", value, formula, inputs, _SOURCE, what)]


def _read_by(gauge: BoreGauge, n: int) -> list[Figure]:
    """The ring in full, since it is the same for all trials; step and repeatability fall with their number."""
    count = assumed("n", "1", float(n), "trials made with this cutter under this head")
    by = "of the bore gauge that read the trials"
    shares: list[Figure] = []
    if gauge.ring_uncertainty is not None:
        shares.append(share("ring", gauge.ring_uncertainty, f"ring {by}"))
    if gauge.step is not None:
        step = given("step", "mm", gauge.step)
        value = sums.digital_step(step.value) * n**-0.5
        shares.append(
            computed("u_trial_step", "mm", value, "step / sqrt(12 * n)", (step, count), _DIGITAL, f"step {by}")
        )
    if gauge.repeatability is not None:
        stated, divisor = stated_as("repeat_trial", gauge.repeatability)
        value = gauge.repeatability.value * n**-0.5
        formula = f"{stated.symbol} / sqrt(n){divisor}"
        shares.append(computed("u_repeat_trial", "mm", value, formula, (stated, count), _SOURCE, f"repeatability {by}"))
    return shares
