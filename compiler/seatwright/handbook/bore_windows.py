"""The bores that an insert allows once the old pocket must clean up, and turned inserts, which go the other way.

All on diameter, at 20 °C, unless said.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from seatwright.handbook.setting import at_step, round_inwards, whole_steps

__all__ = ["Serving", "cut_off_below", "serving_window", "shared_bores", "up_to_step"]

_SLACK = 1e-9


class Serving(Struct, frozen=True):
    """The bores by which an insert serves a pocket.

    least, most : of the bore [mm]: what fit, maker and clean-up allow together
    settings : (first, last) reading of the setting gauge that is safe to aim at [mm], whole steps
    guarded : False where even the window that is not cut off is narrower than the guard: then `settings` are those of
        the bare limits, and this bore wants a trial cut
    """

    least: float
    most: float
    settings: tuple[float, float]
    guarded: bool


def cut_off_below(least: float, most: float, clean_up_diameter: float) -> tuple[float, float] | None:
    """The bores of a fit that also clean the old pocket up.

        max(least, D_clean)  to  most

    least, most : bores that the fit allows [mm]
    clean_up_diameter : what the new bore must clean up, D_clean [mm]
    Returns : (least, most) [mm], or None where the pocket needs more than the fit allows; one single bore counts

    Errors : ValueError when the limits are the wrong way round.
    Source : common practice.

    >>> cut_off_below(44.236, 44.261, 44.237), cut_off_below(44.236, 44.261, 44.270)
    ((44.237, 44.261), None)
    """
    _in_order("bore", least, most)
    low = max(least, clean_up_diameter)
    return (min(low, most), most) if low <= most + _SLACK else None


def serving_window(
    fit: tuple[float, float],
    clean_up_diameter: float,
    guard: float,
    step: float,
    maker: tuple[float, float] | None = None,
    shift: float = 0.0,
) -> Serving | None:
    """Whether an insert serves a pocket, and the bores by which it does.

    The bores of the fit, those of the maker where he names any, cut off below at D_clean; its ends drawn in by the
    guard must still hold a whole step of the setting gauge. Where the guard alone empties the window before it is cut
    off, the bare one is asked: a trial cut then takes the guard's place.

    fit : (least, most) bore that the fit allows [mm]
    clean_up_diameter : what the new bore must clean up, D_clean [mm]
    guard : what each end is drawn in by, guard times the planning uncertainty [mm]
    step : of the setting gauge [mm]
    maker : (least, most) bore that the engine's maker gives [mm], or None
    shift : what the setting gauge shows more than the bore that comes of it, error less overcut [mm]
    Returns : the bores and the settings, or None where the insert does not serve

    Errors : ValueError for limits the wrong way round, a negative guard, or a step that is not above nothing.
    Source : common practice; ISO 14253-1:2017 for the guard.

    The pocket cleans up at 44.237; three thousandths of guard and a step of 0.002:

    >>> found = serving_window((44.236, 44.261), 44.237, 0.003, 0.002)
    >>> found.least, found.most, found.settings, found.guarded
    (44.237, 44.261, (44.24, 44.258), True)
    """
    if guard < 0:
        raise ValueError(f"a guard cannot be negative: {guard}")
    _in_order("bore", *fit)
    least, most = fit
    if maker is not None:
        _in_order("maker's bore", *maker)
        least, most = max(least, maker[0]), min(most, maker[1])
        if least > most + _SLACK:
            return None
        most = max(least, most)
    window = cut_off_below(least, most, clean_up_diameter)
    if window is None:
        return None
    guarded = whole_steps(least + guard + shift, most - guard + shift, step) is not None
    drawn = guard if guarded else 0.0
    settings = round_inwards(window[0] + drawn + shift, window[1] - drawn + shift, step)
    return None if settings is None else Serving(*window, settings, guarded)


def up_to_step(value: float, step: float) -> float:
    """A bore taken up to the next reading that the setting gauge can show.

    value : the bore that is needed [mm]
    step : of the setting gauge [mm]
    Returns : the next whole step at or above it [mm]

    Errors : ValueError for a step that is not above nothing.
    Source : arithmetic.

    >>> up_to_step(44.2371, 0.002), up_to_step(44.238, 0.002)
    (44.238, 44.238)
    """
    if step <= 0:
        raise ValueError(f"an instrument with a step of {step:g} mm reads nothing")
    first = whole_steps(value, value + 2 * step, step)
    assert first is not None  # two steps always hold a whole one
    return at_step(first[0], step)


def shared_bores(clean_up_diameters: Sequence[float], clean_up: float, step: float) -> tuple[float, ...]:
    """Bores for inserts that are turned to them: pockets that need nearly the same share one size.

    Counted from the smallest upwards: those that span no more than half the clean-up share the largest of them, each
    taken up to the gauge's step. One damaged pocket so takes no metal out of the sound ones.

    clean_up_diameters : what each bore must clean up, D_clean [mm]
    clean_up : least stock that must come off on diameter [mm]
    step : of the setting gauge [mm]
    Returns : the bore of each pocket, in the order given [mm]

    Errors : ValueError for a negative clean-up, or a step that is not above nothing.
    Source : common practice.

    >>> shared_bores([44.10, 44.12, 44.64], 0.05, 0.002)
    (44.12, 44.12, 44.64)
    """
    if clean_up < 0:
        raise ValueError(f"a clean-up of {clean_up:g} mm cannot be")
    groups: list[list[int]] = []
    for at in sorted(range(len(clean_up_diameters)), key=lambda at: clean_up_diameters[at]):
        smallest = clean_up_diameters[groups[-1][0]] if groups else None
        if smallest is None or clean_up_diameters[at] - smallest > clean_up / 2 + _SLACK:
            groups.append([])
        groups[-1].append(at)
    bores = [0.0] * len(clean_up_diameters)
    for members in groups:
        size = up_to_step(max(clean_up_diameters[at] for at in members), step)
        for at in members:
            bores[at] = size
    return tuple(bores)


def _in_order(what: str, least: float, most: float) -> None:
    if least > most:
        raise ValueError(f"the limits of the {what} are the wrong way round: {least:g} to {most:g}")
