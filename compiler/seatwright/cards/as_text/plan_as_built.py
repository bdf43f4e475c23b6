"""plan.json as a build writes it beside the cards: which cards there are, their stamps, what stands on which."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence

import msgspec

from seatwright.cards import stamp
from seatwright.cards.card import Card
from seatwright.cards.deck import cards
from seatwright.planning.plan import Plan
from seatwright.text import Message
from seatwright.told.plan_json import CardEntry, plan_document
from seatwright.version import VERSION


def plan_as_built(
    plan: Plan, *, paper: str | None = None, commit: str | None = None, templates: Mapping[str, str] | None = None
) -> str:
    """plan.json of a plan, without its cards' being laid out and printed.

    paper : a4, letter, a5, half-letter, instead of the job's
    commit : of the sources, where none of them is changed
    templates : the shop's own, by name; they stand in the stamp of the sources and are not run
    """
    deck = cards(plan)
    stamps = {card.number: stamp.own(card) for card in deck}
    sources = stamp.of_sources(plan.job.sources, VERSION, templates or {})
    return as_plan_json(plan, deck, stamps, sources, commit, paper)


def as_plan_json(
    plan: Plan, deck: Sequence[Card], stamps: Mapping[int, str], sources: str, commit: str | None, paper: str | None
) -> str:
    """plan.json as text.

    deck, stamps : all cards of the plan, and the stamp of each by its number
    sources, commit : the stamp of what the plan was made from, and its commit
    paper : another than the job's
    """
    entries = tuple(
        CardEntry(
            number=card.number,
            of=card.of,
            name=card.name,
            head=card.head.number if card.head is not None else None,
            valves=card.valves,
            stamp=stamps[card.number],
        )
        for card in deck
    )
    cautioned: dict[str, list[int]] = {}
    for card in deck:
        for slug in dict.fromkeys(card.content.cautioned):
            cautioned.setdefault(slug, []).append(card.number)

    def on_cards(message: Message) -> list[int]:
        return [card.number for card in deck if message.slug in card.content.said]

    document = plan_document(
        plan,
        cards=entries,
        caution_cards=cautioned,
        message_cards=on_cards,
        stamp=sources,
        commit=commit,
        paper=paper,
    )
    # Indented by msgspec: json itself is ten times as fast where it need not indent.
    return msgspec.json.format(json.dumps(document, ensure_ascii=False), indent=2) + "\n"
