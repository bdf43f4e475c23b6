"""A figure that stands in the row of another valve: two rows changed over, or one figure typed in both."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from seatwright.handbook.outliers import median
from seatwright.job.model import Valve

_FEWEST = 2  # others of its kind from which is told what is usual for a valve


def row_meant(
    valve: Valve,
    value: float,
    column: Sequence[tuple[Valve, float]],
    held: Collection[str],
    fits: tuple[float, float],
) -> str | None:
    """The other valve's row that explains a figure far from its sisters; None where none or several do.

    column: what was typed for each valve. held: the valves it was held against, whose rows it does not fit. fits:
    between what a true figure lies here.
    """
    others = [(other, theirs) for other, theirs in column if other is not valve and other.name not in held]
    exchanged = [
        other for other, theirs in others if fits[0] <= theirs <= fits[1] and _is_usual(value, other, column, fits)
    ]
    if (likely := _most_likely(valve, exchanged)) is not None:
        return f"it looks exchanged with {likely.name}"
    likely = _most_likely(valve, [other for other, theirs in others if theirs == value])
    return f"it is the figure of {likely.name}" if likely is not None else None


def _is_usual(value: float, valve: Valve, column: Sequence[tuple[Valve, float]], fits: tuple[float, float]) -> bool:
    """Whether a figure lies where others of a valve's kind have theirs, as closely as it would have to here."""
    theirs = [figure for other, figure in column if other.kind == valve.kind and other is not valve]
    return len(theirs) >= _FEWEST and abs(value - median(theirs)) <= (fits[1] - fits[0]) / 2


def _most_likely(valve: Valve, others: list[Valve]) -> Valve | None:
    """The one valve whose row it may be; of several the one of the same cylinder."""
    if len(others) > 1:
        others = [other for other in others if other.cylinder == valve.cylinder]
    return others[0] if len(others) == 1 else None
