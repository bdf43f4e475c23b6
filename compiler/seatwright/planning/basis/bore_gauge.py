"""What the bore gauge shows: the size at the bench and what its rings say that it shows too much (handbook 6).

Whatever it is to show on a card includes that, and whatever was read with it is freed of it, before temperature.
"""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.handbook import setting
from seatwright.job.model import Given, Head, Job, Reading, standing_masters
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.masters import error_figure
from seatwright.planning.basis.temperatures import head_at_bench
from seatwright.planning.basis.wording import span_of
from seatwright.planning.plan.figure import Figure, computed, given

_SOURCE = "handbook 6, the rings of the bore gauge"


def shows(job: Job, head: Head, bore: Figure, symbol: str, findings: Findings, valves: Sequence[str] = ()) -> Figure:
    """What the bore gauge shows at the bench of a bore at 20 °C."""
    # Asked for when the bore is planned, and again when it is said within what it is accepted. Kept beside the bore, so
    # that no other can come to have its id.
    key = ("shows", id(head), id(bore), symbol, *valves)
    return findings.once(key, lambda: (bore, _shows(job, head, bore, symbol, findings, valves)))[1]


def _shows(job: Job, head: Head, bore: Figure, symbol: str, findings: Findings, valves: Sequence[str]) -> Figure:
    at = head_at_bench(job, head, findings)
    wrong = _shows_too_much(job, bore, findings, valves)
    if wrong is None:
        return bore.called(symbol) if at is None else at.at_bench(bore, symbol)
    true = bore if at is None else at.at_bench(bore, f"{symbol}_true")
    value = true.value + wrong.value
    return computed(symbol, "mm", value, f"{true.symbol} + {wrong.symbol}", (true, wrong), _SOURCE)


def bore_at20(
    job: Job, head: Head, reading: Reading | Given, at: Given | None, symbol: str, value: float, findings: Findings
) -> Figure:
    """A bore at 20 °C from what the bore gauge showed.

    at : what the table says that head and gauge were at. value : which of the readings is meant
    """
    read = given(symbol, "mm", reading, value)
    day = reading.date if isinstance(reading, Reading) else None
    wrong = _shows_too_much(job, read, findings, (), day or job.day)
    if wrong is not None:
        freed = read.value - wrong.value
        read = computed(f"{symbol}_true", "mm", freed, f"{symbol} - {wrong.symbol}", (read, wrong), _SOURCE)
    conditions = head_at_bench(job, head, findings, at, job.bore_gauge)
    return read if conditions is None else conditions.at20(read, f"{symbol}_20")


def _shows_too_much(
    job: Job, size: Figure, findings: Findings, valves: Sequence[str], day: str | None = None
) -> Figure | None:
    """How much the bore gauge shows too much at a size; None, which is said, without a ring or beyond the last.

    day : on which the size was read; None for what is still to be bored, which goes by the latest rings
    """
    gauge = job.bore_gauge
    if gauge is None:
        return None
    if not gauge.rings:
        findings.unchecked(
            "bore-gauge-not-on-ring",
            f'The bore gauge "{gauge.name.text}" has no ring in the shop file: its error is not known, and its '
            "readings are taken as true.",
            "Check it on a ring near the size and write `ring 44.000 reads 44.001` under the gauge.",
            gauge.name.span,
            valves,
        )
        return None
    rings = standing_masters(gauge.rings, day)
    if not rings:
        findings.unchecked(
            "no-ring-that-day",
            f'On {day} the bore gauge "{gauge.name.text}" stood on no ring yet: what it showed wrong that day is not '
            "known, and its readings of that day are taken as true.",
            "Write what it read on its ring by then, such as `ring 44.000 reads 44.001`, without a date if since ever.",
            gauge.name.span,
            valves,
        )
        return None
    pairs = [(ring.size.value, ring.reads.value) for ring in rings]
    value = setting.gauge_error(pairs, size.value)
    if value is None:
        sizes = sorted(size for size, _ in pairs)
        findings.unchecked(
            "beyond-rings",
            f"Bores lie beyond the rings of the bore gauge, {span_of(job, sizes[0], sizes[-1])}: what it shows wrong "
            "there is not known, and its readings are taken as true.",
            "Check the gauge on a ring beyond these bores and write it under the gauge.",
            gauge.name.span,
            valves,
        )
        return None
    return error_figure("ring", "rings", rings, size, value, findings)
