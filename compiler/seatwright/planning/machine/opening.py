"""Whether a bore that came out small may be opened at once: by the overcut that its own cut tells (handbook 6)."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from seatwright.handbook import opening as sums
from seatwright.handbook import setting
from seatwright.job.model import Cutter, Head, Job
from seatwright.planning.basis.overcut import shops_overcut
from seatwright.planning.certainty.windows import Window
from seatwright.planning.machine.first_cut import FirstBore
from seatwright.planning.plan import FirstCut, Overcut
from seatwright.planning.plan.figure import Figure, computed

_SOURCE = "handbook 6, opening a small bore"


class ToOpen(Struct, frozen=True):
    """A bore to be opened. aim: what it comes to at its setting, at 20 °C. moved: where something did, else None."""

    aim: Figure
    moved: sums.Opening | None


def moved_of(
    windows: Sequence[Window], head: Head, cutter: Cutter, in_use: Overcut, job: Job
) -> dict[str, sums.Opening]:
    """The bores whose cut tells an overcut so far off the one in use that something moved, by valve.

    Without an overcut of trials or of the shop there is nothing to be off from.
    """
    if in_use.from_ != "trial" and shops_overcut(head, cutter) is None:
        return {}
    spread = in_use.spread.value if in_use.spread is not None else 0.0
    step = job.gauge.step.value if job.gauge is not None and job.gauge.step is not None else 0.0
    found = {}
    for window in windows:
        bored = window.plan.cut.bore if window.plan.cut is not None else None
        if window.overcut is in_use or bored is None or window.bore.aim.value <= bored.value:
            continue
        missing = window.bore.aim.value - bored.value
        one = sums.opening(missing, window.overcut.value.value, in_use.value.value, spread, step)
        if one.moved:
            found[window.plan.name] = one
    return found


def as_set(window: Window, overcut: Overcut) -> Window:
    """The window of a bore to be opened, as it counts at a setting reckoned with another overcut than its own."""

    def moved(figure: Figure, symbol: str) -> Figure:
        of_setting, own = overcut.value.called("overcut"), window.overcut.value.called("overcut_own")
        value = figure.value + of_setting.value - own.value
        formula = f"{figure.symbol} + overcut - overcut_own"
        return computed(symbol, "mm", value, formula, (figure, of_setting, own), _SOURCE)

    bore = window.bore
    bore = replace(
        bore, least=moved(bore.least, "D_least"), most=moved(bore.most, "D_most"), aim=moved(bore.aim, "D_aim")
    )
    return replace(window, bore=bore, least=moved(window.least, "D_least"), most=moved(window.most, "D_most"))


def half_way(window: Window, aim: Figure, reading: Figure | None, step: Figure | None) -> FirstBore | None:
    """The cut of a bore that is opened by half first, since something moved; None for a bore that was not cut."""
    bored = window.plan.cut.bore if window.plan.cut is not None else None
    if bored is None:
        return None
    bored, aim = bored.called("bored"), aim.called("aim")
    first = computed("first", "mm", (bored.value + aim.value) / 2, "(bored + aim) / 2", (bored, aim), _SOURCE)
    under = computed("trial_under", "mm", aim.value - first.value, "aim - first", (aim, first), _SOURCE)
    if reading is None:
        return FirstBore(window.plan.name, under, FirstCut(first, None))
    value, formula, inputs = reading.value - under.value, "reading - trial_under", [reading, under]
    if step is not None:
        value = setting.round_to_step(value, step.value)
        formula, inputs = f"{formula}, to the nearest step", [*inputs, step]
    read = computed("first_reading", "mm", value, formula, inputs, _SOURCE)
    return FirstBore(window.plan.name, under, FirstCut(first, read))
