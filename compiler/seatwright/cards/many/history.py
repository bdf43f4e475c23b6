"""The history over many jobs as cards: what all of them tell together, then one a cutter, material and tip."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from markupsafe import Markup
from msgspec import Struct

from seatwright.cards import stamp
from seatwright.cards.card import Card, CardTable, Column, Content, DrawingOnCard, Listed
from seatwright.cards.drawings.run_chart import run_chart
from seatwright.cards.drawings.svg import svg
from seatwright.cards.escape import for_html
from seatwright.cards.marks import as_html
from seatwright.cards.paper import PAPERS
from seatwright.cards.render import typeface
from seatwright.cards.sheets import Sheet
from seatwright.cards.templating import environment, fill, texts, write
from seatwright.over_jobs.history.runs import Run
from seatwright.over_jobs.history.tables import NamedTable, bores_table, cutter_tables, instrument_tables
from seatwright.over_jobs.history.whole import History
from seatwright.over_jobs.history.wording import (
    NOTHING_TO_TELL,
    bores_counted,
    lines_to_paste,
    run_named,
    run_sentences,
    tip_named,
)
from seatwright.version import VERSION

_NAME = "history"
_OWN: Mapping[str, str] = {}  # these cards are not laid out by a shop


class HistoryCards(Struct, frozen=True):
    """What is written of it besides the figures: history.html, history.md."""

    html: str
    markdown: str


def history_cards(found: History) -> HistoryCards:
    """The cards; the same history gives the same bytes. On A4, or on letter where no shop file is in mm."""
    deck = _deck(found)
    inch = bool(found.runs) and all(run.last.units == "inch" for run in found.runs)
    paper = PAPERS["letter" if inch else "a4"]
    stamps = {card.number: stamp.own(card) for card in deck}
    feet = [{"number": card.number, "says": _foot(card, stamps[card.number])} for card in deck]
    house = texts(_OWN)
    style = fill(house, "card.css", paper=paper, sheet=paper, face=typeface(), two_up=False, feet=feet)
    made = Markup("").join(Markup(_section(card, stamps[card.number])) for card in deck)
    html = fill(
        house, "page.html", title="History over all jobs", style=Markup(style), cards=made,
        made_by=f"seatwright {VERSION}",
    )  # fmt: skip
    parts = (f"{_heading(card, stamps[card.number])}\n{_body(card)}" for card in deck)
    return HistoryCards(html, "\n---\n\n".join(parts))


def _deck(found: History) -> tuple[Card, ...]:
    changed = _changes(found.runs)
    since = f", since {found.since}" if found.since else ""
    about = _about(found)
    pages = [
        (f"{title}{since}", "", about, _of_tables(tables))
        for title, tables in (
            ("All cutters", cutter_tables(found)),
            ("Instruments, causes, time", instrument_tables(found)),
        )
        if tables
    ]
    if not pages and not found.runs:
        pages.append((f"All cutters{since}", "", about, Content(facts=(NOTHING_TO_TELL,))))
    for number, run in enumerate(found.runs, start=1):
        title = f"{run_named(run)}, {tip_named(run)}"
        pages.append((title, "", f"{run.last.shelf} · {bores_counted(run)}", _of_run(run, number, changed[number - 1])))
    return tuple(
        Card(number, len(pages), _NAME, title, None, (), content, at, about)
        for number, (title, at, about, content) in enumerate(pages, start=1)
    )


def _changes(runs: Sequence[Run]) -> list[str]:
    """For each run the day on which its tip was changed, "" where it is in: that of the next tip of this cutter which
    cut anything, or of the one that is in."""
    tips: dict[tuple[str, str], set[str]] = {}
    for run in runs:
        tips.setdefault(run.group[:2], set()).update({run.last.tip_since, run.last.tip_now})
    return [min((tip for tip in tips[run.group[:2]] if tip > run.last.tip_since), default="") for run in runs]


def _about(found: History) -> str:
    last = max((run.last.date or "" for run in found.runs), default="")
    jobs = f"{found.jobs} {'job' if found.jobs == 1 else 'jobs'}"
    return f"{jobs}, the last bore of {last}" if last else jobs


def _of_tables(tables: Sequence[NamedTable]) -> Content:
    below = tuple(sentence for table in tables for sentence in table.below)
    return Content(tables=tuple(_card_table(table) for table in tables), below=below)


def _of_run(run: Run, number: int, changed_on: str) -> Content:
    drawn = run_chart(run, changed_on)
    drawing = DrawingOnCard(f"run-{number}", drawn.caption, drawn)
    table = bores_table(run, run.bores[::-1])
    return Content(
        facts=run_sentences(run), drawings=(drawing,), lists=tuple(_pasted(run)), tables=(_card_table(table),)
    )


def _pasted(run: Run) -> Iterator[Listed]:
    lines = lines_to_paste(run)
    if lines and run.now:
        yield Listed(f"For {run.last.shelf}, under cutter {run.last.cutter}", lines)


def _card_table(table: NamedTable) -> CardTable:
    columns = tuple(Column(name, "", width) for name, width in table.columns)
    return CardTable(columns, table.rows, table.title, by_valve=False)


def _heading(card: Card, own: str = "") -> str:
    sheet = Sheet(card.content)
    return write(environment(_OWN), "history-heading.md", card=card, sheet=sheet, own_stamp=own)


def _body(card: Card) -> str:
    return write(environment(_OWN), "history.md", card=card.content)


def _foot(card: Card, own: str) -> str:
    return f"history, card {card.number} of {card.of} · {own}"


def _section(card: Card, own: str) -> str:
    """A card as a table of two groups, so that its head comes again on every page that it should need."""
    head = as_html(_heading(card), {})
    body = as_html(_body(card), {each.name: svg(each.drawing, texts(_OWN)) for each in card.content.drawings})
    return (
        f'<section class="sheet {_NAME} card-{card.number}" id="card-{card.number}" '
        f'aria-label="Card {card.number}">\n'
        f'<header><div><div><div class="head">\n{head}</div></div></div></header>\n'
        f'<div class="body"><div><div>\n{body}<p class="foot">{for_html(_foot(card, own))}</p>\n</div></div></div>\n'
        "</section>\n"
    )
