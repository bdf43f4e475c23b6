"""Insert, bore and interference: any two give the third. All on diameter."""

from __future__ import annotations

OFF_THE_LIST = 0.05
"""How far a measured insert may be from a list size without limits [mm], .002 in; common practice."""

_SLACK = 1e-9


def bore_window(
    od_least: float, od_most: float, interference_least: float, interference_most: float
) -> tuple[float, float, float]:
    """Bore that gives the wanted interference for every insert within its limits, and the aim.

        least = od_most − I_most        most = od_least − I_least        aim in the middle

    od_least, od_most : outer diameter of the insert [mm]; equal when it was measured
    interference_least, interference_most : diametral [mm]
    Returns : (least, most, aim) of the bore [mm]; least > most where the insert's limits are wider than
    those of the fit, then no one bore suits them all: measure the insert in hand

    Errors : ValueError when limits are the wrong way round.
    Source : ISO 286-1, definition of interference; the worked figure is a published service manual's table:
    insert 33.065–33.078, interference 0.050–0.078, bore 33.000–33.015.

    >>> [round(size, 4) for size in bore_window(33.065, 33.078, 0.050, 0.078)]
    [33.0, 33.015, 33.0075]
    """
    _in_order("insert od", od_least, od_most)
    _in_order("interference", interference_least, interference_most)
    least = od_most - interference_most
    most = od_least - interference_least
    if most < least <= most + _SLACK:
        # Limits exactly as wide as the fit leave one bore; the last bits of the floats must not part them.
        least = most = (least + most) / 2
    return least, most, (least + most) / 2


def interference_from(od_least: float, od_most: float, bore_least: float, bore_most: float) -> tuple[float, float]:
    """Interference that the limits of insert and bore allow together.

        I_least = od_least − bore_most        I_most = od_most − bore_least

    od_least, od_most : outer diameter of the insert [mm]
    bore_least, bore_most : diameter of the bore [mm]
    Returns : (least, most) interference, diametral [mm]; negative is clearance

    Errors : ValueError when limits are the wrong way round.
    Source : ISO 286-1, definition of interference.

    >>> [round(size, 3) for size in interference_from(33.065, 33.078, 33.000, 33.015)]
    [0.05, 0.078]
    """
    _in_order("insert od", od_least, od_most)
    _in_order("bore", bore_least, bore_most)
    return od_least - bore_most, od_most - bore_least


def least_od_for(clean_up_diameter: float, interference_most: float) -> float:
    """Smallest insert whose bore, at its least, still cleans the pocket up.

        od = D_clean + I_most

    clean_up_diameter : what the new bore must clean up, D_clean [mm]
    interference_most : greatest interference of the fit, diametral [mm]
    Returns : least outer diameter of the insert [mm]

    Errors : none.
    Source : common practice, the worst case of `bore_window`.

    >>> round(least_od_for(44.10, 0.10), 2)
    44.2
    """
    return clean_up_diameter + interference_most


def belongs_to(read: float, od_least: float, od_most: float, apart: float) -> bool:
    """Whether a measured insert can be the ring that the list says it is.

        od_least − apart ≤ read ≤ od_most + apart

    read : outer diameter as measured [mm]
    od_least, od_most : of the list [mm]; equal where it gives a size without limits
    apart : how far outside is still believed [mm]: guard times the uncertainty of the insert where the list has
        limits, else `OFF_THE_LIST`
    Returns : False for the wrong ring, or a slip of the pen

    Errors : ValueError when limits are the wrong way round, or a negative distance.
    Source : common practice.

    An insert of 46.588 typed as 46.688:

    >>> belongs_to(46.688, 46.588, 46.588, OFF_THE_LIST), belongs_to(46.591, 46.588, 46.588, OFF_THE_LIST)
    (False, True)
    """
    _in_order("insert od", od_least, od_most)
    if apart < 0:
        raise ValueError(f"a distance of {apart:g} mm cannot be")
    return od_least - apart - _SLACK <= read <= od_most + apart + _SLACK


def _in_order(what: str, least: float, most: float) -> None:
    if least > most + _SLACK:
        raise ValueError(f"the limits of the {what} are the wrong way round: {least:g} to {most:g}")
