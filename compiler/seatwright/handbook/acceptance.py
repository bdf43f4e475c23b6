"""A bore as it was measured: round, straight, and its verdict by one rule, on the card and in the program alike."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from seatwright.handbook.uncertainty import Verdict, verdict

__all__ = ["JudgedBore", "judge_readings", "out_of_round", "reading_limits", "taper"]

_SLACK = 1e-9


class JudgedBore(Struct, frozen=True):
    """What readings of one bore say.

    verdict : of their mean, which carries the fit
    mean : of the readings [mm]
    beyond : readings outside what a single one may show [mm]; with any, the bore is measured again, then stopped
    out_of_round : largest less smallest [mm]
    """

    verdict: Verdict
    mean: float
    beyond: tuple[float, ...]
    out_of_round: float


def out_of_round(readings: Sequence[float]) -> float:
    """How far a bore is from round at one height, as a two-point gauge shows it.

        largest − smallest

    readings : at one height, turned round [mm]
    Returns : out-of-round [mm]; three lobes read round on a two-point gauge and are not in it

    Errors : ValueError without a reading.
    Source : common practice.

    >>> round(out_of_round([44.018, 44.012, 44.015]), 3)
    0.006
    """
    if not readings:
        raise ValueError("without a reading nothing can be said of a bore")
    return max(readings) - min(readings)


def taper(upper: float, lower: float) -> float:
    """How much wider a bore is at the top than at the bottom.

        upper − lower

    upper, lower : mean diameters near the face and near the floor [mm]
    Returns : taper on diameter [mm]; negative for a bore that widens downwards

    Errors : none.
    Source : common practice.

    >>> round(taper(44.018, 44.012), 3)
    0.006
    """
    return upper - lower


def reading_limits(least: float, most: float, round_most: float) -> tuple[float, float]:
    """What a single reading of a bore may show: half the allowed out-of-round beyond the limits of the mean.

        least − round/2  to  most + round/2

    least, most : limits of the mean [mm]
    round_most : most out-of-round that the shop allows [mm]
    Returns : (least, most) of a single reading [mm]

    Errors : ValueError for limits the wrong way round or a negative out-of-round.
    Source : geometry of an oval about its mean.

    >>> [round(each, 4) for each in reading_limits(44.012, 44.018, 0.005)]
    [44.0095, 44.0205]
    """
    if least > most + _SLACK:
        raise ValueError(f"the limits of the bore are the wrong way round: {least:g} to {most:g}")
    if round_most < 0:
        raise ValueError(f"an out-of-round of {round_most:g} mm cannot be")
    return least - round_most / 2, most + round_most / 2


def judge_readings(
    readings: Sequence[float], least: float, most: float, guard: float, u: float, round_most: float | None
) -> JudgedBore:
    """The verdict on a bore from all its readings at one height.

    Their mean carries the fit and is judged with the guard; each reading must lie inside the limits or no further
    outside than half the allowed out-of-round. An oval bore whose mean is good but one reading is beyond is not big: it
    is measured again.

    readings : as read, at the temperature of the limits [mm]
    least, most : of the bore [mm]
    guard : times the standard uncertainty [-]
    u : standard uncertainty of acceptance [mm]
    round_most : most out-of-round that the shop allows [mm]; None where it says nothing: no reading is then beyond
    Returns : verdict, mean and what is beyond [mm]

    Errors : ValueError without a reading, for limits the wrong way round, or a negative figure.
    Source : ISO 14253-1:2017 for the guard; the rule of the oval is common practice.

    >>> judge_readings([44.011, 44.019], 44.010, 44.018, 0.0, 0.0, 0.004).verdict
    'accepted'
    """
    span = out_of_round(readings)
    mean = sum(readings) / len(readings)
    beyond: tuple[float, ...] = ()
    if round_most is not None:
        low, high = reading_limits(least, most, round_most)
        beyond = tuple(each for each in readings if not low - _SLACK <= each <= high + _SLACK)
    return JudgedBore(verdict(mean, least, most, guard, u), mean, beyond, span)
