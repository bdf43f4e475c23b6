"""The cards as documents: Markdown to keep, one HTML file to print, plan.json."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from itertools import count, islice, product

import msgspec
from jinja2 import Environment
from markupsafe import Markup
from msgspec import Struct

from seatwright.cards import harmless, stamp
from seatwright.cards.card import Card
from seatwright.cards.drawings.svg import drawn_with
from seatwright.cards.escape import for_html
from seatwright.cards.face import face
from seatwright.cards.listing import cards
from seatwright.cards.marks import reader
from seatwright.cards.paging import Page, Sized, pages
from seatwright.cards.paper import PAPERS, SIZES, NoSheet, Paper, Sheet, sheet_of_two
from seatwright.cards.templating import TemplateFault, built_in, environment, fill, sheets, write
from seatwright.planning.plan import Plan
from seatwright.text import Message
from seatwright.told.plan_json import CardEntry, plan_document
from seatwright.version import VERSION

_VIEW_BOX = re.compile(r'viewBox="([-0-9.eE]+) ([-0-9.eE]+) ([0-9.eE]+) ([0-9.eE]+)"')
_LETTERS = "abcdefghijklmnopqrstuvwxyz"


class Documents(Struct, frozen=True):
    """What a build writes: cards.html, cards.md, plan.json."""

    html: str
    markdown: str
    plan_json: str


class _Printed(Struct, frozen=True):
    """A card laid out. body: its Markdown without the heading. pages: that of each page. stamp: its own."""

    card: Card
    body: str
    pages: tuple[Page, ...]
    stamp: str
    drawings: Mapping[str, Sized]


class _House(Struct, frozen=True):
    """What all cards of one build share."""

    templates: Environment
    sheets: Environment
    own: Mapping[str, str]
    paper: Paper
    sheet: Sheet
    plan: Plan
    stamp: str
    commit: str | None
    two_up: bool


def documents(
    plan: Plan,
    *,
    paper: str | None = None,
    commit: str | None = None,
    templates: Mapping[str, str] | None = None,
    two_up: bool = False,
) -> Documents:
    """All documents of a plan; the same plan gives the same bytes.

    paper : a4, letter, a5, half-letter, instead of the job's
    commit : of the sources, where none of them is changed
    templates : the shop's own, by name, laid over the built-in ones
    two_up : two small cards beside each other on a sheet, for papers that are half of one

    Raises TemplateFault, for what a template of the shop does wrong, KeyError for a paper there is not, NoSheet where
    two_up is asked of a paper too large for it.
    """
    house = _house(plan, paper, commit, templates or {}, two_up)
    with drawn_with(house.own):
        printed = tuple(_printed(house, card) for card in cards(plan, house.paper.narrow))
    made = Documents(_html(house, printed), _markdown(house, printed), _json(house, printed))
    if house.own:
        harmless.check(house.own, made.html)
    return made


def _house(plan: Plan, paper: str | None, commit: str | None, own: Mapping[str, str], two_up: bool) -> _House:
    chosen = PAPERS[paper or plan.job.paper or plan.job.paper_left_out]
    return _House(
        environment(own),
        sheets(own),
        own,
        chosen,
        sheet_of_two(chosen) if two_up else Sheet(chosen.width, chosen.height),
        plan,
        stamp.of_sources(plan.job.sources, VERSION, own),
        commit,
        two_up,
    )


def _printed(house: _House, card: Card) -> _Printed:
    body = write(house.templates, f"{card.name}.md", card=card.content, job=house.plan.job, head=card.head)
    drawings = {each.name: _sized(each.svg, house.paper) for each in card.content.drawings}
    mine = stamp.own(body, (each.svg for each in card.content.drawings))
    # The heading is as tall whatever its letter.
    heading = _heading(house, card, mine, "z")
    return _Printed(card, body, pages(body, heading, house.paper, drawings), mine, drawings)


def _sized(svg: str, paper: Paper) -> Sized:
    found = _VIEW_BOX.search(svg)
    if found is None:
        raise ValueError("a drawing without a viewBox cannot be put on a page")
    width, height = float(found[3]), float(found[4])
    scale = min(1.0, paper.room / width)
    return Sized(svg, width * scale, height * scale)


def _heading(house: _House, card: Card, own: str, letter: str, in_full: bool = True) -> str:
    return write(
        house.templates,
        "heading.md",
        card=card,
        job=house.plan.job,
        several_heads=len(house.plan.heads) > 1,
        letter=letter,
        own_stamp=own,
        sources_stamp=house.stamp if in_full else "",
        commit=house.commit[:LENGTH_OF_COMMIT] if house.commit and in_full else "",
    )


LENGTH_OF_COMMIT = 8


def _markdown(house: _House, printed: tuple[_Printed, ...]) -> str:
    """All cards below each other; what they were made from stands once, at the end, so that a diff shows what changed
    at the machine and not the same two words on every card."""
    whole = [f"{_heading(house, each.card, each.stamp, '', in_full=False)}\n{each.body}" for each in printed]
    commit = f", commit {house.commit[:LENGTH_OF_COMMIT]}" if house.commit else ""
    return "\n---\n\n".join(whole) + f"\nsources {house.stamp}{commit}\n"


def _html(house: _House, printed: tuple[_Printed, ...]) -> str:
    each_sheet = [
        Markup(_sheet(house, each, page, letter))
        for each in printed
        for page, letter in zip(each.pages, _letters(len(each.pages)), strict=True)
    ]
    if house.two_up:
        pairs = (Markup("").join(each_sheet[start : start + 2]) for start in range(0, len(each_sheet), 2))
        each_sheet = [Markup('<div class="pair">\n{}</div>\n').format(pair) for pair in pairs]
    job = house.plan.job
    return fill(
        house.sheets,
        "page.html",
        title=Markup(for_html(f"Job {job.number}: {job.title}")),
        style=Markup(_style(house)),
        cards=Markup("").join(each_sheet),
        made_by=f"seatwright {VERSION}",
    )


def _style(house: _House) -> str:
    """card.css with the measures of the paper filled in."""
    return fill(
        house.sheets, "card.css", paper=house.paper, sheet=house.sheet, s=SIZES, face=face(), two_up=house.two_up
    )


def _sheet(house: _House, printed: _Printed, page: Page, letter: str) -> str:
    card = printed.card
    heading = reader().render(_heading(house, card, printed.stamp, letter), {"columns": iter(())})
    env = {"drawings": printed.drawings, "columns": iter(page.columns)}
    body = reader().renderer.render(page.tokens, reader().options, env)
    number = f"{card.number}{letter}"
    opening = f'<section class="card {card.name}" id="card-{number}" aria-label="Card {number}">'
    return f"{opening}\n<header>\n{heading}</header>\n{body}</section>\n"


def _letters(pages: int) -> list[str]:
    """No letter on a card of one page; a, b, …, z, aa, ab, …, zz, aaa on a longer one."""
    if pages == 1:
        return [""]
    every = ("".join(letters) for length in count(1) for letters in product(_LETTERS, repeat=length))
    return list(islice(every, pages))


def _json(house: _House, printed: tuple[_Printed, ...]) -> str:
    entries = tuple(
        CardEntry(
            number=each.card.number,
            of=each.card.of,
            name=each.card.name,
            head=each.card.head.number if each.card.head is not None else None,
            valves=each.card.valves,
            pages=len(each.pages),
            stamp=each.stamp,
        )
        for each in printed
    )
    cautioned: dict[str, list[int]] = {}
    for each in printed:
        for slug in dict.fromkeys(each.card.content.cautioned):
            cautioned.setdefault(slug, []).append(each.card.number)

    def on_cards(message: Message) -> list[int]:
        return [each.card.number for each in printed if message.slug in each.card.content.said]

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


__all__ = ["Documents", "NoSheet", "TemplateFault", "built_in", "documents"]
