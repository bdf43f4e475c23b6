"""Which cards a job has, and in which order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from seatwright.cards import figures
from seatwright.cards.as_found import as_found
from seatwright.cards.card import Card, Content, Drawing
from seatwright.cards.drawings import (
    bore_bar_drawing,
    clearance_drawing,
    head_drawing,
    indicator_drawing,
    pocket_drawing,
    seat_drawing,
)
from seatwright.cards.figures import shown
from seatwright.cards.guides import guided, guides
from seatwright.cards.job_sheet import job_sheet
from seatwright.cards.press import CLEARANCE, groups, press_card, tightest, to_press
from seatwright.cards.record import record
from seatwright.cards.seats import SEAT, seat_card, seat_title, sets
from seatwright.cards.setting import INDICATOR, POCKET, setting_card
from seatwright.cards.words import named, valves, valves_of
from seatwright.job.model import Head, Measured
from seatwright.planning.plan import Plan, Setting, Status, ValvePlan

_OPEN = (Status.MEASURE_AGAIN, Status.BORE_AGAIN, Status.OVERSIZE)  # of a bore that was cut and is not settled
_NOTHING_MEASURED = Measured()


def cards(plan: Plan, narrow: bool = False) -> tuple[Card, ...]:
    """The cards of a job in the order of the work, counted.

    A job with only heads and their valves has as-found sheets and nothing else. One in which something was measured
    starts with the job sheet; a head of it that is not yet measured has its as-found sheet next. narrow: on paper that
    holds few columns.
    """
    if not any(_begun(head) for head in plan.heads):
        made = [_as_found(plan, head, narrow) for head in plan.heads]
    else:
        made = list(_worked(plan, narrow))
    return tuple(replace(card, number=number, of=len(made)) for number, card in enumerate(made, start=1))


def _begun(head: Head) -> bool:
    """Whether anything was measured, cut or finished on a head."""
    return any(
        valve.measured != _NOTHING_MEASURED or valve.cut is not None or valve.finished is not None
        for valve in head.valves
    )


def _worked(plan: Plan, narrow: bool) -> Iterator[Card]:
    every = tuple(valve.name for valve in plan.valves)
    heads = plan.heads
    one = heads[0] if len(heads) == 1 else None
    yield _card("job", "Job sheet", one, every, job_sheet(plan, narrow, tuple(_heads_drawn(plan, narrow))))
    for head in (head for head in heads if not _begun(head)):
        yield _as_found(plan, head, narrow)
    for head in (head for head in heads if _begun(head)):
        yield from _of_head(plan, head, narrow)


def _of_head(plan: Plan, head: Head, narrow: bool) -> Iterator[Card]:
    """The cards of a head in the order of the work; what is done has none any more, and the record fills up."""
    served = tuple(valve.name for valve in guided(plan, head))
    if served:
        yield _card("guides", "Guides and pilots", head, served, guides(plan, head, narrow))
    for setting in (setting for setting in plan.settings if setting.head == head.number):
        yield _setting(plan, head, setting, narrow)
    pressed = tuple(valve.name for valve in to_press(plan, head))
    if pressed:
        drawn = tuple(_of_press(plan, head, narrow))
        yield _card("press", "Inserts in", head, pressed, press_card(plan, head, narrow, drawn))
    seats = sets(plan, head)
    for number, group in enumerate(seats, start=1):
        drawn = tuple(_of_seat(plan, head, group, number, narrow))
        content = seat_card(plan, head, group, narrow, drawn, number == len(seats))
        yield _card("seat", seat_title(plan, group), head, tuple(valve.name for valve in group), content)
    of_head = tuple(valve.name for valve in valves_of(plan, head))
    yield _card("record", "Record", head, of_head, record(plan, head, narrow))


def _as_found(plan: Plan, head: Head, narrow: bool) -> Card:
    served = tuple(valve.name for valve in head.valves)
    return _card("as-found", "As found", head, served, as_found(plan, head, narrow))


def _setting(plan: Plan, head: Head, setting: Setting, narrow: bool) -> Card:
    if setting.reading is not None:
        size = f"full bore reads {shown(setting.reading, figures.setting_gauge(plan.job, setting))}"
    else:
        size = f"bore {shown(setting.aim, figures.bore_gauge(plan.job))}"
    drawings = tuple(_of_setting(plan, setting, narrow))
    content = setting_card(plan, head, setting, narrow, drawings)
    return _card("setting", f"Setting {setting.number}: cutter {setting.cutter}, {size}", head, setting.valves, content)


def _card(name: str, title: str, head: Head | None, served: tuple[str, ...], content: Content) -> Card:
    return Card(0, 0, name, title, head, served, content)


def _heads_drawn(plan: Plan, narrow: bool) -> Iterator[Drawing]:
    for head in plan.heads:
        svg = head_drawing(plan, head, narrow)
        if svg is not None:
            which = f"Head {head.name}".strip()
            yield Drawing(f"head-{head.number}", f"{which}, seen from the deck, to scale", svg)
    for valve in (valve for valve in plan.valves if valve.status in _OPEN and valve.cut is not None):
        svg = bore_bar_drawing(plan, valve, narrow)
        if svg is not None:
            yield Drawing(f"bore-{valve.name}", f"The bore of {valve.name} as it was measured", svg)


def _of_press(plan: Plan, head: Head, narrow: bool) -> Iterator[Drawing]:
    for number, group in enumerate(groups(to_press(plan, head)), start=1):
        shown_for = tightest(group)
        svg = clearance_drawing(plan, shown_for, narrow)
        if svg is not None:
            least = ", the tightest of them" if len(group) > 1 else ""
            name = f"{CLEARANCE}-{head.number}-{number}"
            yield Drawing(name, f"Clearance against heat: {shown_for.name}{least}", svg)


def _of_seat(plan: Plan, head: Head, group: Sequence[ValvePlan], number: int, narrow: bool) -> Iterator[Drawing]:
    svg = seat_drawing(plan, group[0], narrow)
    if svg is not None:
        others = "; for the others see the table" if len(group) > 1 else ""
        yield Drawing(f"{SEAT}-{head.number}-{number}", f"Section of the seat of {group[0].name}{others}", svg)


def _of_setting(plan: Plan, setting: Setting, narrow: bool) -> Iterator[Drawing]:
    svg = indicator_drawing(plan, setting)
    if svg is not None:
        yield Drawing(f"{INDICATOR}-{setting.number}", "What the needle shows", svg)
    first = named(plan, setting.valves[0])
    svg = pocket_drawing(plan, first, narrow)
    if svg is not None:
        others = f"; the limits of {valves(setting.valves[1:])} stand in the table" if len(setting.valves) > 1 else ""
        yield Drawing(f"{POCKET}-{setting.number}", f"Section of the pocket of {first.name}{others}", svg)
