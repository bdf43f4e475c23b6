"""A guide that is renewed: which one grips, what its hole must be cut to, and what its bore comes to once it is in.

Everything is diametral. A guide is a thick ring pressed into wide metal; the fit closes its bore, so it is sized after
pressing.
"""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.handbook.fits import bore_window, interference_from

__all__ = ["bore_closes", "bought_bore", "finished_bore", "fits_as_found", "hole_to_cut", "left_to_ream", "reamer_for"]

_SLACK = 1e-9
"""Far below any gauge [mm]: limits that meet do so whatever the last bit of a float says."""


def fits_as_found(
    hole_least: float,
    hole_most: float,
    od_least: float,
    od_most: float,
    interference_least: float,
    interference_most: float,
) -> bool:
    """Whether a guide grips in its hole as found, in all pairs within its fit.

    od_least − hole_most ≥ I_least  and  od_most − hole_least ≤ I_most

    `hole_least`, `hole_most`: smallest and largest reading of the hole [mm]; `od_least`, `od_most`: of the guide, equal
    where it was measured [mm]; `interference_least`, `interference_most`: diametral [mm].
    Raises ValueError for limits the wrong way round. Source: ISO 286-1, definition of interference; the worked figure
    is a published service manual's table.

    >>> fits_as_found(10.975, 10.996, 11.023, 11.034, 0.027, 0.059)
    True
    """
    least, most = interference_from(od_least, od_most, hole_least, hole_most)
    return least >= interference_least - _SLACK and most <= interference_most + _SLACK


def hole_to_cut(
    hole_most: float,
    od_least: float,
    od_most: float,
    interference_least: float,
    interference_most: float,
    room: float,
) -> tuple[float, float] | None:
    """Limits of a hole that is cut out for a guide: its fit, and fresh metal all round [mm].

    max(od_most − I_most, hole_most + room)  to  od_least − I_least

    `hole_most`: largest reading of the hole [mm]; `od_least`, `od_most`: of the guide [mm]; `interference_least`,
    `interference_most`: diametral [mm]; `room`: least stock that a reamer must take, on diameter [mm].
    None where the fit leaves no such hole. Raises ValueError for limits the wrong way round or a negative room.
    Source: as `bore_window`; a published service manual cuts a hole found over 11.006 to 11.035 to 11.056, and the
    guide of the example is made to suit.

    >>> found = hole_to_cut(11.010, 11.083, 11.094, 0.027, 0.059, 0.02)
    >>> [round(size, 3) for size in found or ()]
    [11.035, 11.056]
    """
    if not room >= 0:
        raise ValueError(f"what a reamer takes cannot be negative: {room}")
    least, most, _ = bore_window(od_least, od_most, interference_least, interference_most)
    least = max(least, hole_most + room)
    return None if least > most + _SLACK else (min(least, most), most)


def reamer_for(least: float, most: float, cuts: Sequence[float]) -> int | None:
    """Place of the reamer that cuts a size inside its limits, nearest to their middle; None where none does.

    `least`, `most`: of the hole or the bore [mm]; `cuts`: what each reamer cuts, its diameter and its overcut [mm].
    Of two that are as near the first is taken. Raises no error. Source: common practice.

    >>> reamer_for(11.035, 11.056, [11.030, 11.045, 11.055])
    1
    """
    middle = (least + most) / 2
    inside = [at for at, cut in enumerate(cuts) if least - _SLACK <= cut <= most + _SLACK]
    return min(inside, key=lambda at: (round(abs(cuts[at] - middle), 9), at), default=None)


def finished_bore(
    stem_least: float, stem_most: float, clearance_least: float, clearance_most: float
) -> tuple[float, float] | None:
    """Limits of the finished bore of a guide, so that every stem within its own has its clearance [mm].

    stem_most + c_least  to  stem_least + c_most

    `stem_least`, `stem_most`: of the stem, equal where it was measured [mm]; `clearance_least`, `clearance_most`: stem
    to guide [mm]. None where the stem's limits are wider than those of the clearance: measure the stem.
    Raises ValueError for limits the wrong way round. Source: ISO 286-1, definition of clearance.

    >>> [round(size, 3) for size in finished_bore(6.965, 6.965, 0.035, 0.050) or ()]
    [7.0, 7.015]
    """
    if stem_least > stem_most + _SLACK or clearance_least > clearance_most + _SLACK:
        raise ValueError("the limits of stem or clearance are the wrong way round")
    least, most = stem_most + clearance_least, stem_least + clearance_most
    return None if least > most + _SLACK else (min(least, most), most)


def bore_closes(pressure: float, od: float, id: float, E: float) -> float:
    """How much a pressed guide's bore closes, on diameter [mm].

    closes = 2·p·D²·d / (E·(D² − d²))

    `pressure`: p, between guide and head [MPa]; `od`, `id`: D and d of the guide [mm]; `E`: its stiffness [MPa].
    A thick ring under pressure from outside, plane stress, nothing yields. Raises ValueError for a bore that is not
    inside the guide, or a stiffness that is not positive. Source: a machine-design textbook, thick rings.

    >>> round(bore_closes(38.0, 11.03, 6.9, 103e3), 4)
    0.0084
    """
    if not 0 < id < od:
        raise ValueError(f"the bore of a guide ({id}) must be smaller than its outer diameter ({od})")
    if not E > 0:
        raise ValueError(f"stiffness must be more than nothing: {E}")
    return 2 * pressure * od**2 * id / (E * (od**2 - id**2))


def left_to_ream(bore_least: float, id: float, closes: float) -> float:
    """Stock that is left under the finished bore once the guide is in [mm]: bore_least − (id − closes).

    `bore_least`: of the finished bore [mm]; `id`: of the guide as bought [mm]; `closes`: what the fit takes of it [mm].
    Negative: it comes in too wide. Raises no error. Source: geometry.

    >>> round(left_to_ream(7.000, 6.90, 0.008), 3)
    0.108
    """
    return bore_least - (id - closes)


def bought_bore(bore_least: float, bore_most: float, closes: float) -> tuple[float, float]:
    """What a guide that is not reamed must measure before it goes in [mm]: both limits and what its fit closes it.

    bore_least + closes  to  bore_most + closes

    `bore_least`, `bore_most`: of the finished bore [mm]; `closes` [mm]. Raises no error. Source: geometry.

    >>> [round(size, 3) for size in bought_bore(7.000, 7.015, 0.008)]
    [7.008, 7.023]
    """
    return bore_least + closes, bore_most + closes
