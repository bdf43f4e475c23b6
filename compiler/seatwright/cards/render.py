"""The cards as documents: Markdown to keep, one HTML file to print, plan.json."""

from __future__ import annotations

import base64
import json
from collections.abc import Mapping, Sequence
from functools import cache

import msgspec
from jinja2 import Environment
from markupsafe import Markup
from msgspec import Struct

from seatwright.cards import stamp
from seatwright.cards.card import Card, Content
from seatwright.cards.deck import cards
from seatwright.cards.drawings.svg import drawn_with
from seatwright.cards.escape import for_html
from seatwright.cards.marks import as_html
from seatwright.cards.paper import PAPERS, NoSheet, Paper, sheet_of_two
from seatwright.cards.sheets import Sheet, sheets
from seatwright.cards.templating import TemplateFault, environment, fill, texts, write
from seatwright.planning.plan import Plan
from seatwright.text import Message
from seatwright.text.shipped import shipped
from seatwright.told.plan_json import CardEntry, plan_document
from seatwright.version import VERSION

LENGTH_OF_COMMIT = 8


class Documents(Struct, frozen=True):
    """What a build writes: cards.html, cards.md, plan.json."""

    html: str
    markdown: str
    plan_json: str


class NoCard(Exception):
    """There is no card of that name; the text says which there are."""


class _House(Struct, frozen=True):
    """What all cards of one build share. sheet: what goes through the printer."""

    templates: Environment
    texts: Environment
    paper: Paper
    sheet: Paper
    plan: Plan
    stamp: str
    commit: str | None
    two_up: bool


class _Written(Struct, frozen=True):
    """A card in Markdown, once as a whole and sheet by sheet. own: its stamp."""

    card: Card
    own: str
    body: str
    sheets: tuple[tuple[Sheet, str], ...]


def documents(
    plan: Plan,
    *,
    paper: str | None = None,
    commit: str | None = None,
    templates: Mapping[str, str] | None = None,
    two_up: bool = False,
    only: str | None = None,
) -> Documents:
    """All documents of a plan; the same plan gives the same bytes.

    paper : a4, letter, a5, half-letter, instead of the job's
    commit : of the sources, where none of them is changed
    templates : the shop's own, by name, laid over the built-in ones
    two_up : two small cards beside each other on a sheet, for papers that are half of one
    only : the one card to print, by its name, the name of its setting, or its number

    Raises TemplateFault, for what a template of the shop does wrong, KeyError for a paper there is not, NoSheet where
    two_up is asked of a paper too large for it, NoCard for a card that the deck does not have.
    """
    own = templates or {}
    chosen = PAPERS[paper or plan.job.paper or plan.job.paper_left_out]
    house = _House(
        environment(own),
        texts(own),
        chosen,
        sheet_of_two(chosen) if two_up else chosen,
        plan,
        stamp.of_sources(plan.job.sources, VERSION, own),
        commit,
        two_up,
    )
    with drawn_with(own):
        deck = cards(plan)
    printed = deck if only is None else chosen_of(deck, only)
    stamps = {card.number: stamp.own(card) for card in deck}
    written = [_written(house, card, stamps[card.number]) for card in printed]
    made = Documents(_html(house, written), _markdown(house, written), _json(house, deck, stamps))
    if own:
        from seatwright.cards import harmless

        harmless.check(own, made.html)
    return made


def chosen_of(deck: tuple[Card, ...], only: str) -> tuple[Card, ...]:
    """The cards of a name: their kind, the name of the setting, or a number. Raises NoCard."""
    wanted = only.strip().casefold()
    found = tuple(
        card
        for card in deck
        if wanted
        in (card.name, str(card.number), card.title.casefold(), card.title.casefold().removeprefix("setting "))
    )
    if not found:
        there = ", ".join(dict.fromkeys(f"{card.number} ({_called(card)})" for card in deck))
        raise NoCard(f"there is no card {only}; this job has {there}")
    return found


def _called(card: Card) -> str:
    return card.title.removeprefix("Setting ") if card.name == "setting" else card.name


def _heading(house: _House, card: Card, sheet: Sheet, own: str = "") -> str:
    return write(
        house.templates, "heading.md", card=card, job=house.plan.job, sheet=sheet, own_stamp=own,
        several_heads=len(house.plan.heads) > 1,
    )  # fmt: skip


def _body(house: _House, card: Card, content: Content, back: bool = False) -> str:
    name = "job-back.md" if back else f"{card.name}.md"
    return write(house.templates, name, card=content, job=house.plan.job, head=card.head)


def _written(house: _House, card: Card, own: str) -> _Written:
    """A card of one sheet is laid out once, most are."""
    whole = _body(house, card, card.content)
    every = sheets(card, house.paper)
    parts = (
        whole if sheet.content == card.content else _body(house, card, sheet.content, sheet.back) for sheet in every
    )
    return _Written(card, own, whole, tuple(zip(every, parts, strict=True)))


def _markdown(house: _House, printed: Sequence[_Written]) -> str:
    """All cards below each other; what they were made from stands once, at the end, so that a diff shows what changed
    at the machine and not the same two words on every card."""
    whole = []
    for each in printed:
        backs = (body for sheet, body in each.sheets if sheet.back)
        whole.append("\n".join((_heading(house, each.card, Sheet(each.card.content), each.own), each.body, *backs)))
    commit = f", commit {house.commit[:LENGTH_OF_COMMIT]}" if house.commit else ""
    return "\n---\n\n".join(whole) + f"\nsources {house.stamp}{commit}\n"


@cache
def typeface() -> dict[str, str]:
    """The typeface in the page itself: `regular` and `bold`, WOFF2 in base64."""
    return {
        name: base64.b64encode(shipped("seatwright.templates", f"face/{name}.woff2")).decode("ascii")
        for name in ("regular", "bold")
    }


def _html(house: _House, printed: Sequence[_Written]) -> str:
    made = [Markup(_sheet(house, each.card, sheet, body, each.own)) for each in printed for sheet, body in each.sheets]
    if house.two_up:
        pairs = (Markup("").join(made[start : start + 2]) for start in range(0, len(made), 2))
        made = [Markup('<div class="pair">\n{}</div>\n').format(pair) for pair in pairs]
    job = house.plan.job
    feet = [{"number": each.card.number, "says": _foot(house, each.card, each.own)} for each in printed]
    style = fill(
        house.texts, "card.css", paper=house.paper, sheet=house.sheet, face=typeface(), two_up=house.two_up, feet=feet
    )  # fmt: skip
    return fill(
        house.texts,
        "page.html",
        title=Markup(for_html(f"Job {job.number}: {job.title}")),
        style=Markup(style),
        cards=Markup("").join(made),
        made_by=f"seatwright {VERSION}",
    )


def _foot(house: _House, card: Card, own: str) -> str:
    """What stands in the lower margin: numbers and stamps alone, no text of the job."""
    commit = f" · commit {house.commit[:LENGTH_OF_COMMIT]}" if house.commit else ""
    return f"card {card.number} of {card.of} · {own} · sources {house.stamp}{commit}"


def _sheet(house: _House, card: Card, sheet: Sheet, written: str, own: str) -> str:
    """A sheet as a table of two groups, so that its head comes again on every page that it should need."""
    head = as_html(_heading(house, card, sheet), {})
    drawings = {each.name: each.svg for each in sheet.content.drawings}
    body = as_html(written, drawings)
    part = "-back" if sheet.back else f"-{sheet.part}" if sheet.part > 1 else ""
    label = f"Card {card.number}" + (", back" if sheet.back else f", sheet {sheet.part}" if sheet.part > 1 else "")
    kind = f"sheet {card.name}{' back' if sheet.back else ''} card-{card.number}"
    return (
        f'<section class="{kind}" id="card-{card.number}{part}" aria-label="{label}">\n'
        f'<header><div><div><div class="head">\n{head}</div></div></div></header>\n'
        f'<div class="body"><div><div>\n{body}<p class="foot">{_foot(house, card, own)}</p>\n</div></div></div>\n'
        "</section>\n"
    )


def _json(house: _House, deck: tuple[Card, ...], stamps: Mapping[int, str]) -> str:
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
        house.plan,
        cards=entries,
        caution_cards=cautioned,
        message_cards=on_cards,
        stamp=house.stamp,
        commit=house.commit,
        paper=house.paper.name,
    )
    # Indented by msgspec: json itself is ten times as fast where it need not indent.
    return msgspec.json.format(json.dumps(document, ensure_ascii=False), indent=2) + "\n"


__all__ = ["Documents", "NoCard", "NoSheet", "TemplateFault", "documents"]
