"""What a setting is called: its cutter and its reading, which stay when other settings are done."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.job.model import Head, Job
from seatwright.planning.basis import instruments
from seatwright.planning.plan import Setting
from seatwright.planning.plan.figure import Figure


def setting_name(job: Job, head: Head, cutter: str, reading: Figure | None, aim: Figure) -> str:
    """`C2 at 41.014`; `C2 to 41.02` without a gauge; before it the head's name where there are several.

    reading : of the setting gauge, None without one
    aim : the bore that it gives
    """
    if reading is not None:
        marked = None if job.gauge is None else "in" if job.gauge.marked == "inch" else "mm"
        set_to = f"at {instruments.digits(reading.value, instruments.setting_gauge(job, marked))}"
    else:
        set_to = f"to {instruments.digits(aim.value, instruments.bore_gauge(job))}"
    whose = f"{head.name or head.number} " if len(job.heads) > 1 else ""
    return f"{whose}{cutter} {set_to}"


def told_apart(name: str, valves: Sequence[str], others: Sequence[Setting]) -> str:
    """The name, with its valves behind it where another setting has it already."""
    return f"{name} for {' '.join(valves)}" if any(other.name == name for other in others) else name
