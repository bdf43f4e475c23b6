"""What was not given, and so not checked: grouped by what it may cost, one line a topic."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from seatwright.cards.parts.words import capital, of_the_trade, unquoted, valves
from seatwright.planning.plan import Plan
from seatwright.text import Message, Severity

# What may be lost where a thing was not looked at: by the words of the message's name, in this order.
_GROUPS = {
    "May cost a valve or its train": "stem tip spring recession guide pilot pilots seat leak angle land",
    "May cost an insert": "expansion assembly press force interference insert running yield grab slip chamfer corner",
    "May cost the head": "bridge floor rings ring bore gauge master masters temperature heat stress metal depth clean "
    "spacing reach overcut strength pocket throat lean time torque",
}
_OTHER = "Besides"
_SHORTEST = 24  # letters: less than that says nothing alone
_ENOUGH = re.compile(r"\b(?:not|no|beyond|nobody|neither)\b", re.I)


def unchecked(plan: Plan, names: Iterable[str]) -> tuple[Message, ...]:
    """The messages of what was not checked on these valves, each text once."""
    here = set(names)
    found = {
        message.text: message
        for message in plan.messages
        if message.severity is Severity.NOTICE
        and message.slug in plan.not_checked
        and (not message.valves or here & set(message.valves))
    }
    return tuple(found.values())


def unchecked_topics(messages: Iterable[Message], every: tuple[str, ...]) -> Iterator[str]:
    """A line each: what, then whose."""
    for message in messages:
        said = of_the_trade(unquoted(message.text)).rstrip(".")
        first, colon, _ = said.partition(": ")
        if colon and len(first) > _SHORTEST and _ENOUGH.search(first):
            said = first
        its = set(message.valves)
        mine = [name for name in every if name in its]
        whose = f" ({valves(mine)})" if mine and len(mine) < len(every) else ""
        yield capital(f"{said}{whose}.")


# What a customer, or who has the head next, wants to know was not looked at: of the head as it leaves, what weighs most
# first, and the messages that leave it open.
_OF_HEAD = {
    "Metal under the pockets": "floor-not-measured least-floor-not-given",
    "Metal between the pockets": "bridge-neighbour-waits bridge-tilted least-bridge-not-given spacing-not-given",
    "What the fit does to the metal of head and insert": "force-not-computed head-strength-not-known "
    "insert-yield-not-known metal-around-not-known stress-not-computed",
    "What is left of the fit in the running engine": "expansion-not-known expansion-table-ends expansion-unknown "
    "insert-expansion-unknown interference-not-given running-temperature-not-given",
    "Whether the head bears the heat of the oven": "heat-limit-not-given",
    "Wear of the guides": "guide-bore-not-known guide-limit-not-given guide-measured-once guide-not-measured "
    "stem-not-given",
    "Grip of the new guides": "guide-closing-not-computed guide-fit-not-given guide-grip-not-computed "
    "guide-hole-not-measured guide-way-not-computed liner-closing-not-computed",
    "Bores and seats true to the guides": "centring-not-given guide-length-not-given guide-to-floor-not-given "
    "insert-height-not-given lean-not-counted pilot-length-not-given pilot-tir-at-not-given pocket-depth-not-given "
    "runout-limit-not-given",
    "Bores round, straight and square": "bore-measured-one-way bore-not-measured-low bore-round-not-given "
    "bore-taper-not-given floor-square-not-given floor-square-not-known kept-pocket-untold no-limits-for-kept-pocket "
    "pocket-measured-once pocket-not-measured-low pocket-runout-not-known",
    "Size of the bores": "cut-not-judged no-bore-gauge turned-not-computed",
    "How exactly the bores are known": "beyond-masters beyond-rings bore-gauge-not-given bore-gauge-not-on-ring "
    "bore-gauge-uncertainty check-not-judged gauge-not-on-master insert-uncertainty-not-given no-master-that-day "
    "no-ring-that-day no-setting-gauge overcut-not-known overcut-spread-not-given setting-gauge-uncertainty "
    "temperature-not-given temperature-uncertainty",
    "Depth of the pockets": "depth-not-measured height-not-given pocket-depth-not-measured",
    "Seat of each insert on its floor": "chamfer-not-given corner-not-given floor-not-checked "
    "least-ledge-not-given throat-not-measured throat-offset-not-measured",
    "How the inserts stand": "stand-not-given stand-not-judged stand-not-used",
    "Angles of the seats": "cut-angle-not-given",
    "Width of the seats": "seat-width-not-given seat-width-not-judged",
    "Runout of the seats": "seat-runout-not-given seat-tir-not-judged",
    "Whether the inserts reach all round and below the seats": "least-land-not-given least-under-seat-not-given "
    "seat-cover-not-checked seat-inner-not-checked under-seat-not-checked",
    "How deep the valves sit": "gauge-depth-not-computed recession-no-aim recession-not-judged skim-when-not-said",
    "Height of the stems": "stem-height-not-computed stem-height-not-judged",
    "Height of the springs": "spring-height-not-computed spring-height-not-judged",
    "Force and room of the springs": "spring-force-not-computed spring-lift-not-checked spring-not-judged "
    "spring-not-measured",
    "Tightness of the seats": "leak-limit-not-given leak-not-judged",
}
# What was open of shop, machine and tools while the work went on, and tells nothing of the head that leaves.
_OF_SHOP = (
    "aim-not-a-limit assembly-not-computed clean-up-not-given cutter-range-not-given cutter-reach-not-checked "
    "cutters-not-given cutting-force-built-in dial-step expansion-not-that-far feed floor-clean-up-not-given "
    "gauge-step grab-temperature-not-known guide-room-not-given guides-not-given machine-feeds machine-speeds "
    "maker-depth-not-used not-yet-finished pilots-not-given pocket-runout-not-measured press-force-not-computed "
    "press-not-given reamers-not-given seat-width-no-aim slip-not-given surface-speed time-from-floor torque-limit "
    "torque-not-computed trial-round-not-checked trial-under"
)


def unchecked_of_head(messages: Iterable[Message], every: tuple[str, ...]) -> Iterator[str]:
    """What of the head was not checked, then at which valves; a message that no line stands for in its own words."""
    left = [message for message in messages if message.slug not in _OF_SHOP.split()]
    for what, slugs in _OF_HEAD.items():
        mine = [message for message in left if message.slug in slugs.split()]
        left = [message for message in left if message not in mine]
        if mine:
            all_of_it = any(not message.valves for message in mine)
            theirs = {name for message in mine for name in message.valves}
            names = [name for name in every if all_of_it or name in theirs]
            yield f"{what}{f' ({valves(names)})' if len(names) < len(every) else ''}."
    yield from unchecked_topics(left, every)


def by_cost(plan: Plan) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Groups in the order of what they may cost, each with its lines."""
    every = tuple(valve.name for valve in plan.valves)
    left = list(unchecked(plan, every))
    for title, said in _GROUPS.items():
        words = set(said.split())
        mine = [message for message in left if words & set(message.slug.split("-"))]
        left = [message for message in left if not words & set(message.slug.split("-"))]
        if mine:
            yield title, tuple(unchecked_topics(mine, every))
    if left:
        yield _OTHER, tuple(unchecked_topics(left, every))
