"""What was counted and what came in, laid over the inserts of the same shop file."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from seatwright.job.declarations import shop_sections
from seatwright.job.model import Pieces
from seatwright.job.sections import opening
from seatwright.job.sections.tables import ReadRow, any_faulty, rows
from seatwright.job.shop_file.shelf import Kept, Shelf
from seatwright.job.shop_file.shop_tables import whole_count
from seatwright.job.typed import names
from seatwright.job.typed.fields import read_fields
from seatwright.job.typed.gather import Gathered
from seatwright.job.typed.scope import Scope
from seatwright.job.wording import of_sections, of_shop
from seatwright.syntax import tree
from seatwright.text import Span

_Key = tuple[str, str]
"""Of an insert or a guide: which of the two, and the key of its name."""


def on_shelf(sections: Sequence[tree.Section], shelf: Shelf, scope: Scope, gathered: Gathered) -> None:
    """Give each insert and each guide of a shelf its counts and deliveries, by day."""
    kinds = ("insert", "guide")
    called = {
        (kind, names.key(before.text)): key
        for kind in kinds
        for key, one in shelf.items[kind].items()
        for before in one.formerly
    }
    called |= {(kind, key): key for kind in kinds for key in shelf.items[kind]}
    counted: dict[tuple[_Key, str], Span] = {
        ((kind, key), each.date): each.count.span
        for kind in kinds
        for key, one in shelf.items[kind].items()
        for each in one.item.counts
    }
    for section in sections:
        of_table = opening.of_table(shop_sections.STOCK, section.line, scope, gathered)
        shelf.extras += read_fields(shop_sections.STOCK, section.fields, scope, gathered).extras
        if of_table.date is None and not of_table.doubtful:
            gathered.say(of_shop.stock_undated(section.line.word.span))
        if of_table.date is None or any_faulty(section):
            # What cannot be counted says nothing about the inserts themselves.
            continue
        for cells in rows(shop_sections.STOCK, section, of_table, gathered, readings=False):
            shelf.extras += cells.extras
            kind = cells.header.first.word
            listed = shelf.items[kind]
            key = called.get((kind, names.key(cells.first.text)))
            if key is not None:
                listed[key] = _counted(listed[key], (kind, key), cells, of_table.date, counted, gathered)
            elif kind not in shelf.doubtful:
                known = [one.name for one in listed.values()]
                meant = names.nearest_name(cells.first.text, known)
                gathered.say(of_sections.item_unknown(cells.first.span, kind, cells.first.text, meant, known, True))
    for kind in kinds:
        for key, one in shelf.items[kind].items():
            shelf.items[kind][key] = _by_day(one)


def _by_day(one: Kept) -> Kept:
    found = {
        word: tuple(sorted(getattr(one.item, word), key=lambda each: each.date)) for word in ("counts", "deliveries")
    }
    return replace(one, item=replace(one.item, **found))


def _counted(
    kept: Kept, key: _Key, cells: ReadRow, date: str, counted: dict[tuple[_Key, str], Span], gathered: Gathered
) -> Kept:
    item = kept.item
    count, came = cells.get("counted"), cells.get("delivered")
    for word, one in (("counted", count), ("delivered", came)):
        if one is not None:
            whole_count(word, kept.name, one, gathered, key[0])
    if count is not None:
        if (key, date) in counted:
            gathered.say(of_shop.counted_again(count.span, key[0], kept.name, date, counted[key, date]))
        counted.setdefault((key, date), count.span)
        item = replace(item, counts=(*item.counts, Pieces(count, date)))
    if came is not None:
        item = replace(item, deliveries=(*item.deliveries, Pieces(came, date)))
    return replace(kept, item=item)
