"""The cautions that this job calls for, each beside its steps, with the agency where one publishes a limit.

The words are ours; figures are from the sources named. Local rules, the engine maker's data and the safety sheets of
the substances come first, and the last caution says so.
"""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct

from seatwright.job.model import Job
from seatwright.planning.plan import Bridge, Caution, ValvePlan
from seatwright.planning.whole_job.caution_conditions import (
    Whom,
    Work,
    always,
    bored_in,
    dry_fuel,
    dry_ice,
    dry_ice_by_aluminium,
    floor_unknown,
    heated_aluminium,
    nitrogen,
    old_inserts,
    pressed,
    sodium,
    stay_in_heated_head,
    thin_bridge,
    thin_floor,
    when,
)


class _Rule(Struct, frozen=True):
    slug: str
    text: str
    steps: tuple[str, ...]
    whom: Callable[[Work], Whom]
    agency: str = ""


def cautions(job: Job, plans: tuple[ValvePlan, ...], bridges: tuple[Bridge, ...]) -> tuple[Caution, ...]:
    """The cautions of this job, in the order of the work, the one that defers to local rules last."""
    work = Work(job, plans, bridges)
    found = []
    for rule in _RULES:
        valves = rule.whom(work)
        if valves is not None:
            found.append(Caution(rule.slug, rule.text, rule.agency, valves, rule.steps))
    return tuple(found)


# --- the table, in the order of the work ------------------------------------------------------------------------------

_RULES: tuple[_Rule, ...] = (
    _Rule(
        "weight",
        "A head above 23 kg (50 lb) wants a second pair of hands or a hoist. Weigh it first, and chock it before it "
        "is turned over.",
        ("lift",),
        always,
        "a published service manual: help or hoist above 23 kg",
    ),
    _Rule(
        "sodium-filled-valves",
        "These valves hold sodium: with water it makes hydrogen and lye, and may burst. Take them out first, whole, "
        "keep them dry and apart, and never cut, drill, grind through or wash one. Goggles and rubber gloves. Scrap "
        "goes the way that the engine maker says.",
        ("lift", "clean", "seat"),
        when(sodium),
        "published service manuals; they differ, so this engine's own holds",
    ),
    _Rule(
        "flying-pieces",
        "An old insert is hard and under stress: pieces fly when it is broken or lets go. Cover it, wear goggles, and"
        " turn it out by the cutter where that can be done. What it is made of is seldom known: one of a copper "
        "colour may hold beryllium, and is not ground, filed or broken dry.",
        ("remove",),
        when(old_inserts),
        "army technical manual TM 5-3810-295-34: cover with a rag",
    ),
    _Rule(
        "rotating-cutter",
        "The cutter stands out and turns: sleeves buttoned, no gloves, hair, rings and rags away. Stop the spindle to"
        " measure, to clear chips and to move the pilot.",
        ("bore",),
        when(lambda work: work.bored),
    ),
    _Rule(
        "chips-and-eyes",
        "Chips are sharp and hot. Goggles on at the machine; lift chips with a brush or a vacuum, never by hand.",
        ("bore", "clean"),
        when(lambda work: work.bored),
    ),
    _Rule(
        "no-compressed-air",
        "No compressed air into a bored head: it drives chips into oil and water ways, and into eyes. Plug the ports,"
        " then vacuum.",
        ("bore", "clean"),
        when(lambda work: work.bored),
    ),
    _Rule(
        "iron-dust",
        "Iron cut dry leaves a fine dust. Draw it off at the cutter, and wear a mask where that does not take it all.",
        ("bore", "seat"),
        when(bored_in("iron")),
        "OSHA 29 CFR 1910.1000, from memory: dust 15 mg/m3 in all, 5 mg/m3 that can be breathed in",
    ),
    _Rule(
        "copper-beryllium",
        "Dust and fumes of copper-beryllium harm the lungs for life. No dry machining, grinding or filing of these "
        "inserts or of what held them; wet or drawn off at the tool, clothes changed, chips kept apart and closed. "
        "People who are trained for it do it.",
        ("remove", "press", "seat"),
        when(lambda work: work.with_hazard("beryllium")),
        "OSHA 29 CFR 1910.1024: 0.2 ug/m3 over 8 h, 2.0 ug/m3 over 15 min, action at 0.1 ug/m3",
    ),
    _Rule(
        "lead",
        "This metal holds lead. No dry grinding; wash before eating or smoking, and take no dust home on clothes.",
        ("remove", "bore", "seat"),
        when(lambda work: work.with_hazard("lead")),
        "OSHA 29 CFR 1910.1025, from memory: 50 ug/m3 over 8 h",
    ),
    _Rule(
        "thin-bridge",
        "Little metal is left between these pockets. Look for cracks before and after, measure the neighbour again "
        "when one is in, and stop if the bridge moves, opens or breaks.",
        ("bore", "press"),
        thin_bridge,
    ),
    _Rule(
        "thin-floor",
        "Little metal is left under these pockets, with water behind it. Set and lock the depth stop, creep to it, "
        "and stop at the first sign of damp.",
        ("bore",),
        when(thin_floor),
    ),
    _Rule(
        "floor-not-known",
        "Nobody measured the metal under these pockets. Measure it (ultrasonic gauge, section of a scrap head) or ask"
        " the engine maker before cutting deeper; the pressure test comes before the inserts.",
        ("bore",),
        when(floor_unknown),
    ),
    _Rule(
        "hot-head",
        "The hot head burns and does not look it. Dry, heat-proof gloves, long sleeves, a clear way from oven to "
        "bench, no oil or solvent on the metal, and a sign on it until it is cold.",
        ("heat", "press"),
        when(lambda work: work.heated),
    ),
    _Rule(
        "hot-aluminium-gives-way",
        "Aluminium held hot for hours gives way, from about 150 °C (common practice); what the fit loses by that is in "
        "no figure. Out of the oven as soon as it is hot through.",
        ("heat", "press"),
        when(heated_aluminium),
    ),
    _Rule(
        "dry-ice",
        "Dry ice burns the skin and gives off carbon dioxide, which lies low and is not noticed. Insulated gloves and"
        " face shield; doors open, never in a closed room, pit or car; never in a closed vessel, which bursts. After "
        "a cold burn: plenty of water, then a doctor.",
        ("chill", "press"),
        when(dry_ice),
        "NIOSH and OSHA: carbon dioxide 5000 ppm over 8 h; NIOSH 30 000 ppm for a short time, 40 000 ppm dangerous to"
        " life; oxygen below 19.5 % is a hazard (29 CFR 1910.146)",
    ),
    _Rule(
        "no-dry-ice-by-aluminium-fines",
        "Aluminium dust can ignite and explode when it hangs in carbon dioxide. Clear away every chip and all dust of"
        " the bored aluminium before dry ice comes near.",
        ("chill", "clean"),
        when(dry_ice_by_aluminium),
        "NIOSH Pocket Guide, carbon dioxide",
    ),
    _Rule(
        "liquid-nitrogen",
        "Liquid nitrogen burns the skin, and one measure of it makes some 700 of gas that takes the place of air "
        "without warning. Insulated gloves, face shield, nothing that holds a splash; open vessel, open doors, never "
        "alone, and an oxygen alarm where the room is small.",
        ("chill", "press"),
        when(nitrogen),
        "OSHA: oxygen below 19.5 % is a hazard (29 CFR 1910.146)",
    ),
    _Rule(
        "pressing",
        "Press in one straight stroke, hands clear, behind a guard: an insert or guide that cocks may burst. No "
        "hammer and no oil; one that stops askew comes out again.",
        ("press",),
        when(pressed),
        "published service manuals",
    ),
    _Rule(
        "heat-loosens-inserts",
        "Heat loosens the inserts that stay in this head as well. Keep its deck up while it is hot, and sound and "
        "feel each of them when it is cold.",
        ("heat", "test"),
        stay_in_heated_head,
    ),
    _Rule(
        "dry-fuel",
        "This fuel leaves nothing on the seats to ease the wear: only an alloy that the engine maker names, or that "
        "is sold for this fuel, goes in.",
        ("press",),
        when(dry_fuel),
    ),
    _Rule(
        "pressure-test",
        "A bored pocket may have opened a way to the water that nobody sees. Pressure-test the whole head after "
        "boring, by the engine maker's pressure, behind a guard, and before it goes out.",
        ("test",),
        when(lambda work: work.bored),
    ),
    _Rule(
        "local-rules-first",
        "Local rules, the engine maker's data and the safety sheets of the substances come before anything on these "
        "cards. Qualified people do the work.",
        (),
        always,
    ),
)  # fmt: skip
