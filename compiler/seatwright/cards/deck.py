"""Which cards a job has, in the order of the work."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec.structs import replace

from seatwright.cards.card import Card, Content, DrawingOnCard
from seatwright.cards.drawings.head import head_from_deck
from seatwright.cards.drawings.pocket import pocket_in_section
from seatwright.cards.drawings.seat import seat_in_section
from seatwright.cards.kinds.as_found import as_found
from seatwright.cards.kinds.guides import guided, guides_card
from seatwright.cards.kinds.job import job_sheet
from seatwright.cards.kinds.press import press_card, to_press
from seatwright.cards.kinds.record import record
from seatwright.cards.kinds.seat import SEAT, angles_and_depths, seat_card, seat_title, sets
from seatwright.cards.kinds.setting import POCKET, setting_card, setting_title
from seatwright.cards.parts.words import WITH_FIGURES, bench_at, valves_of
from seatwright.job.model import Head, Measured
from seatwright.planning.plan import Plan, Status, ValvePlan

_NOTHING_MEASURED = Measured()
_WITH_A_SECTION = 4  # valves on a setting card, at most; with more the rows take its room


def cards(plan: Plan) -> tuple[Card, ...]:
    """The cards of a job in the order of the work, counted.

    A job with only heads and their valves has as-found sheets and nothing else. One in which something was measured
    starts with the job sheet; a head of it that is not yet measured has its as-found sheet next.
    """
    if not any(_begun(head) for head in plan.heads):
        return _counted([_as_found(plan, head) for head in plan.heads])
    made: list[Card] = [_as_found(plan, head) for head in plan.heads if not _begun(head)]
    for head in (head for head in plan.heads if _begun(head)):
        made += _of_head(plan, head)
    one = plan.heads[0] if len(plan.heads) == 1 else None
    every = tuple(valve.name for valve in plan.valves)
    places = {valve.name: place for valve in plan.valves if (place := _place(made, valve))}
    front = job_sheet(plan, places, tuple(_heads_drawn(plan)))
    bench = bench_at(plan.job, one) if one is not None else ""
    sheet = Card(0, 0, "job", f"Job {plan.job.number}", one, every, front, f"at {bench}" if bench else "")
    return _counted([sheet, *made])


def _counted(made: Sequence[Card]) -> tuple[Card, ...]:
    return tuple(replace(card, number=number, of=len(made)) for number, card in enumerate(made, start=1))


def _begun(head: Head) -> bool:
    """Whether anything was measured, cut or finished on a head."""
    return any(
        valve.measured != _NOTHING_MEASURED or valve.cut is not None or valve.finished is not None
        for valve in head.valves
    )


def _place(made: Sequence[Card], valve: ValvePlan) -> str:
    """Where a valve goes next: the first card after the job sheet that takes it further."""
    if valve.status is Status.GUIDE_FIRST:
        return _card_of(made, valve, "guides")
    if valve.status is Status.HOLD:
        worn = valve.guide.verdict in ("worn", "tight")
        return "guide" if worn else "see above"
    if valve.status in (Status.MEASURE_AGAIN, Status.OVERSIZE):
        return "see below"
    kinds: Mapping[str, tuple[str, ...]] = {
        Status.ACCEPTED: ("press", "seat", "record"),
        Status.KEPT: ("press", "seat", "record"),
        Status.TO_CUT: ("seat", "record"),
        Status.FINISHED: ("record",),
    }
    wanted = ("setting",) if valve.status in WITH_FIGURES else kinds.get(valve.status, ())
    return next((place for kind in wanted if (place := _card_of(made, valve, kind))), "")


def _card_of(made: Sequence[Card], valve: ValvePlan, kind: str) -> str:
    """The first card of a kind, after the job sheet, that serves a valve."""
    numbers = (number for number, card in enumerate(made, start=2) if card.name == kind and valve.name in card.valves)
    number = next(numbers, None)
    return "" if number is None else f"card {number}"


def _of_head(plan: Plan, head: Head) -> Iterator[Card]:
    """The cards of a head in the order of the work; what is done has none any more, and the record fills up."""
    bench = bench_at(plan.job, head)
    warm = f"at {bench}" if bench else ""

    def card(name: str, title: str, served: Sequence[str], content: Content, says: str = "") -> Card:
        return Card(0, 0, name, title, head, tuple(served), content, warm, says)

    led = guided(plan, head)
    if led:
        yield card("guides", "Guides and pilots", [valve.name for valve in led], guides_card(plan, head))
    level = ""
    for setting in (setting for setting in plan.settings if setting.head == head.number):
        drawn = tuple(_of_setting(plan, setting.valves))
        made = setting_card(plan, head, setting, level, drawn)
        yield card("setting", setting_title(plan, setting), setting.valves, made)
        level = level or setting.name
    pressed = to_press(plan, head)
    seats = sets(plan, head)
    if pressed:
        yield card(
            "press", "Inserts in", [v.name for v in pressed], press_card(plan, head, not seats), f"bored {warm}".strip()
        )
    kinds = [tuple(dict.fromkeys(valve.kind for valve in group)) for group in seats]
    for number, group in enumerate(seats, start=1):
        drawn = tuple(_of_seat(plan, group, f"{SEAT}-{head.number}-{number}"))
        title = seat_title(plan, group, kinds.count(kinds[number - 1]) > 1)
        made = seat_card(plan, head, group, drawn, number == len(seats))
        yield card("seat", title, [valve.name for valve in group], made, angles_and_depths(plan, head, group))
    of_head = [valve.name for valve in valves_of(plan, head)]
    yield card("record", "Record", of_head, record(plan, head, close=not pressed and not seats))


def _as_found(plan: Plan, head: Head) -> Card:
    served = tuple(valve.name for valve in head.valves)
    return Card(0, 0, "as-found", "As found", head, served, as_found(plan, head), plan.job.units)


def _heads_drawn(plan: Plan) -> Iterator[DrawingOnCard]:
    for head in plan.heads:
        drawn = head_from_deck(plan, head)
        if drawn is not None:
            which = f"Head {head.name}".strip()
            yield DrawingOnCard(f"head-{head.number}", f"{which} from the deck. {drawn.caption}", drawn)


def _of_setting(plan: Plan, served: Sequence[str]) -> Iterator[DrawingOnCard]:
    if len(served) > _WITH_A_SECTION:
        return
    first = next(valve for valve in plan.valves if valve.name == served[0])
    drawn = pocket_in_section(plan, first)
    if drawn is not None:
        yield DrawingOnCard(f"{POCKET}-{served[0]}", f"Pocket of {served[0]}. {drawn.caption}", drawn)


def _of_seat(plan: Plan, group: Sequence[ValvePlan], name: str) -> Iterator[DrawingOnCard]:
    drawn = seat_in_section(plan, group[0])
    if drawn is not None:
        yield DrawingOnCard(name, f"Seat of {group[0].name}. {drawn.caption}", drawn)
