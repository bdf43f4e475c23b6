"""Opening a bore that came out small: from what that very setting bored."""

from __future__ import annotations

from msgspec import Struct

__all__ = ["Opening", "opening", "reopened_reading", "reopened_size"]

_SPREADS, _STEPS = 3.0, 2.0


class Opening(Struct, frozen=True):
    """How far a small bore is opened now [mm on diameter]; moved: something did, so only by half, then measured."""

    by: float
    moved: bool

    @property
    def on_radius(self) -> float:
        """The same on radius [mm], for an indicator that shows radius."""
        return self.by / 2


def reopened_reading(read: float, by: float) -> float:
    """The reading that opens a small bore, from the reading that bored it.

        reading = its read + open by

    read : what the setting gauge showed when that bore was cut [mm]
    by : how far it is to be opened, on diameter [mm]
    Returns : reading [mm]

    Valid while temperatures and master are as they were; else see `reopened_size`.
    Errors : ValueError for nothing to open.
    Source : arithmetic: what the cutter bored over or under its setting it will again.

    A bore read 44.490 that came to 44.4815 and shall be 44.5005:

    >>> round(reopened_reading(44.490, 44.5005 - 44.4815), 3)
    44.509
    """
    _something_to_open(by)
    return read + by


def reopened_size(set_size: float, aim: float, bored: float) -> float:
    """The size at 20 °C that the cutter is set to, to open a small bore on another day or by another master.

        set size = its set size + (aim − bored)        all at 20 °C

    It is made a reading of today like any other: taken to bench temperature, the gauge's error of today added; the
    overcut is in it already.

    set_size : that the small bore was cut at, from its read by the master and temperatures of its day [mm]
    aim : wanted [mm]
    bored : what it came to [mm]
    Returns : size to set [mm]

    Errors : ValueError for nothing to open.
    Source : as `reopened_reading`.

    >>> round(reopened_size(44.488, 44.5005, 44.4815), 3)
    44.507
    """
    _something_to_open(aim - bored)
    return set_size + (aim - bored)


def opening(by: float, implied: float, in_use: float, spread: float, step: float) -> Opening:
    """How far to open a small bore at once, by the overcut that it implies.

    Where the implied overcut is off the one in use by more than three spreads and by more than twice the gauge's
    step, something moved (tip, lock, gauge): it is opened by half, measured, and gone on from that.

    by : what is missing on diameter [mm]
    implied : overcut that the small bore tells, bored − set size [mm]
    in_use : overcut that the setting was reckoned with [mm]
    spread : of the overcut from bore to bore, standard [mm]; 0 where not known
    step : of the setting gauge [mm]
    Returns : how far to open now, and whether something moved [mm]

    Errors : ValueError for nothing to open, or a negative spread or step.
    Source : common practice; three spreads as on any control chart.

    Meant to bore 0.009 over, bored 0.0065 under:

    >>> opening(0.019, -0.0065, 0.009, 0.002, 0.002)
    Opening(by=0.0095, moved=True)
    """
    _something_to_open(by)
    if spread < 0 or step < 0:
        raise ValueError(f"a spread or a step cannot be negative: {spread:g}, {step:g}")
    off = abs(implied - in_use)
    moved = off > _SPREADS * spread + 1e-9 and off > _STEPS * step + 1e-9
    return Opening(by / 2 if moved else by, moved)


def _something_to_open(by: float) -> None:
    if not by > 0:
        raise ValueError(f"the bore is not small: {by:g} mm is missing, and a cutter puts no metal back")
