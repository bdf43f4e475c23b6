"""The shop's own limits that cards print, as plan.json holds them; what the shop does not give is left out."""

from __future__ import annotations

from seatwright.job.model import Practice

_DECIMALS = 6
_NAMES = ("bore_round", "bore_taper", "floor_square", "runout", "slip", "tip_grind_most", "shim_limit", "trial_under")


def practice_limits(practice: Practice) -> dict[str, object]:
    """Lengths in mm: out-of-round and taper of a bore, squareness of its floor, pilot runout (tir), the clearance of a
    drop-in, what may be ground off a tip or put under a spring; the time [s] that a seat must hold."""
    given = {name: getattr(practice, name) for name in _NAMES}
    found: dict[str, object] = {name: round(each.value, _DECIMALS) for name, each in given.items() if each is not None}
    found["shims"] = [round(each.value, _DECIMALS) for each in practice.shims]
    if practice.leak is not None:
        found["leak_s"] = round(practice.leak.seconds.value, _DECIMALS)
    return found
