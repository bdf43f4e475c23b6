"""What the setting gauge shows too much, found on its masters."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.handbook import setting
from seatwright.job.model import Gauge, Job, Master, standing_masters
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length, span_of
from seatwright.planning.plan.figure import Figure, assumed, computed, given

_SOURCE = "handbook 6"


def nearest_master(masters: Sequence[Master], size: float) -> Master | None:
    """The master, or ring, nearest a size [mm]; the smaller of two at one distance."""
    return min(masters, key=lambda master: (abs(master.size.value - size), master.size.value), default=None)


def gauge_error(
    job: Job, gauge: Gauge, size: Figure, findings: Findings, valves: Sequence[str], day: str | None = None
) -> Figure | None:
    """How much the setting gauge shows too much at a size; None beyond the last of several masters, which is said.

    day : on which the size was read; None for what is still to be set, which goes by the latest masters. A gauge
    without a master is taken as it reads, which is said as well.
    """
    masters = standing_masters(gauge.masters, day)
    if gauge.masters and not masters:
        findings.unchecked(
            "no-master-that-day",
            f'On {day} the gauge "{gauge.name.text}" stood on no master yet: what it showed wrong that day is not '
            "known, and its readings of that day are taken as true.",
            "Write what it read on its master by then, such as `master 40.000 reads 40.002`, without a date if since "
            "ever.",
            gauge.name.span,
            valves,
        )
        return assumed("error", "mm", 0.0, "no master by that day: the gauge is taken as it read")
    if not masters:
        findings.unchecked(
            "gauge-not-on-master",
            f'The gauge "{gauge.name.text}" has no master in the shop file: its error is not known, and its readings '
            "are taken as true.",
            "Check it on a master near the size and write `master 40.000 reads 40.002` under the gauge.",
            gauge.name.span,
            valves,
        )
        return assumed("error", "mm", 0.0, "no master given: the gauge is taken as it reads")
    pairs = [(master.size.value, master.reads.value) for master in masters]
    value = setting.gauge_error(pairs, size.value)
    if value is None:
        sizes = sorted(size for size, _ in pairs)
        findings.unchecked(
            "beyond-masters",
            f"{length(job, size.value)} lies beyond the masters of the gauge, {span_of(job, sizes[0], sizes[-1])}: "
            "what it shows wrong there is not known, and no reading was computed.",
            "Check the gauge on a master beyond this size and write it under the gauge.",
            gauge.name.span,
            valves,
        )
        return None
    return error_figure("master", "masters", masters, size, value, findings)


def error_figure(
    word: str, words: str, masters: Sequence[Master], size: Figure, value: float, findings: Findings
) -> Figure:
    """What an instrument shows too much, resting on the masters, or rings, that it was taken between.

    word, words : what they are called, one and several
    """
    used = _between(masters, size.value)
    # Most sizes of a job lie between the same two.
    read = findings.once(("read on", word, *map(id, used)), lambda: _read_on(word, used))
    symbol = "error" if word == "master" else f"{word}_error"
    if len({master.size.value for master in used}) > 1:
        formula = f"reads - {word}, in a straight line between the {words} at {size.symbol}"
        return computed(symbol, "mm", value, formula, (*read, size), _SOURCE)
    formula = f"reads - {word}" if len(used) == 1 else f"mean of reads - {word}"
    return computed(symbol, "mm", value, formula, read, _SOURCE)


def _between(masters: Sequence[Master], size: float) -> Sequence[Master]:
    """Those of the nearest size on either side; of a single size all of them, wherever it lies."""
    sizes = {master.size.value for master in masters}
    if len(sizes) == 1:
        return masters
    ends = (max(each for each in sizes if each <= size), min(each for each in sizes if each >= size))
    return [master for master in masters if master.size.value in ends]


def _read_on(word: str, masters: Sequence[Master]) -> tuple[Figure, ...]:
    figures: list[Figure] = []
    for place, master in enumerate(masters, start=1):
        mark = f"_{place}" if len(masters) > 1 else ""
        figures += [given(f"{word}{mark}", "mm", master.size), given(f"reads{mark}", "mm", master.reads)]
    return tuple(figures)
