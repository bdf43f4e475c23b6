"""The caution strip of a card: at most a short sentence for each caution that stands beside its steps.

The whole of each, with the agency that publishes a limit, stands once, on the back of the job sheet.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence

from msgspec import Struct

from seatwright.cards.escape import Markdown
from seatwright.cards.parts.words import all_or, capital
from seatwright.planning.plan import Caution, Plan

_SHORT: Mapping[str, str] = {
    "weight": "Over 23 kg (50 lb): two lift it, or a hoist.",
    "sodium-filled-valves": "**Sodium**: out first, whole, dry and apart; never cut, drill, grind or wash one.",
    "flying-pieces": "**Pieces fly** when an old insert is broken out: cover it, goggles. A copper-coloured one may "
    "hold beryllium: never grind, file or break it dry.",
    "rotating-cutter": "Sleeves buttoned, no gloves; **stop the spindle** to measure and to move the pilot.",
    "chips-and-eyes": "Goggles.",
    "no-compressed-air": "Brush or vacuum, **no compressed air**.",
    "iron-dust": "Draw off the dust.",
    "copper-beryllium": "**Copper-beryllium**: no dry cutting, grinding or filing; trained people only.",
    "lead": "Lead: no dry grinding; wash before eating.",
    "thin-bridge": "thin bridge, look for cracks.",
    "thin-floor": "thin floor, creep to it, stop at the first damp.",
    "floor-not-known": "floor not measured, measure it first.",
    "hot-head": "**Hot head**: dry gloves, long sleeves, a sign on it until it is cold.",
    "hot-aluminium-gives-way": "Aluminium gives way in hours of heat: out of the oven as soon as it is hot through.",
    "dry-ice": "**Dry ice**: gloves, face shield, doors open, never a closed room or vessel.",
    "no-dry-ice-by-aluminium-fines": "Every aluminium chip away before dry ice comes near.",
    "liquid-nitrogen": "**Nitrogen**: face shield, insulated gloves, doors open, never alone, never sealed.",
    "pressing": "One straight stroke, behind a guard; no hammer, no oil.",
    "heat-loosens-inserts": "the heat may loosen these inserts that stay: do not knock the head.",
    "dry-fuel": "Dry fuel: only an alloy sold for it.",
    "pressure-test": "Behind a guard.",
}
_OF_ITS_VALVES = frozenset({"thin-bridge", "thin-floor", "floor-not-known", "heat-loosens-inserts"})


class Care(Struct, frozen=True):
    """Sentences of the strip, and the slugs of the cautions that they are of."""

    sentences: tuple[str, ...] = ()
    slugs: tuple[str, ...] = ()


def care(plan: Plan, steps: Iterable[str], served: Sequence[str], without: Collection[str] = ()) -> Care:
    """The cautions that stand beside these steps of the work and concern these valves, each once."""
    here, places = set(served), set(steps)
    found = [
        caution
        for caution in plan.cautions
        if places & set(caution.steps)
        and caution.slug not in without
        and (not caution.valves or not here or here & set(caution.valves))
    ]
    return Care(tuple(_said(caution, served) for caution in found), tuple(caution.slug for caution in found))


def _said(caution: Caution, served: Sequence[str]) -> str:
    short = _SHORT.get(caution.slug)
    words = Markdown(short) if short is not None else Markdown.escape(caution.text)
    if caution.slug not in _OF_ITS_VALVES and short is not None:
        return words
    mine = [name for name in served if name in caution.valves] or list(caution.valves or served)
    whose = capital(all_or(mine, served))
    return Markdown("{}: {}").format(whose, words) if short is not None or mine else words
