"""The shop: its files laid over each other, the built-in tables under them, and the looking up of names."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from msgspec import Struct, field

from seatwright.job.model import Assembly, InterferenceLine, Material, Named, Practice, Shop
from seatwright.job.shop_file.materials import built_in_materials
from seatwright.job.shop_file.shelf import KINDS, Kept, Shelf
from seatwright.job.shop_file.shop_tables import overlapping
from seatwright.job.typed import names
from seatwright.job.typed.gather import Gathered
from seatwright.job.wording import of_sections as say
from seatwright.job.wording import of_shop
from seatwright.text import Span


class Stock(Struct):
    """The shop with what is needed to look a name up and to say why it is not there.

    doubtful: kinds of which something could not be read, so that a name not found is no mistake of the job's.
    files: whether the job uses a shop file at all.
    """

    shop: Shop
    names_of: dict[str, dict[str, str]]
    doubtful: set[str]
    files: bool
    extras: tuple[Any, ...] = ()
    materials: dict[str, Material] = field(default_factory=dict)

    def look_up(self, kind: str, named: Named | None, gathered: Gathered) -> Named | None:
        """The name as the shop has it; None where there is none such, which is said."""
        if named is None:
            return None
        known = self.names_of[kind]
        found = known.get(names.key(named.text))
        if found is not None:
            return Named(found, named.span)
        if kind not in self.doubtful:
            meant = names.nearest_name(named.text, known.values())
            gathered.say(say.item_unknown(named.span, kind, named.text, meant, known.values(), self.files))
        return None


def lay_over(shelves: Iterable[Shelf], gathered: Gathered, *, all_read: bool, files: bool) -> Stock:
    """The shop of all files, later ones over earlier ones. all_read: no file is missing or unreadable."""
    listed = tuple(shelves)
    kept: dict[str, dict[str, Kept]] = {kind: {} for kind in KINDS}
    doubtful: set[str] = set(KINDS) if not all_read else set()
    for shelf in listed:
        doubtful |= shelf.doubtful
        for kind, items in shelf.items.items():
            for key, item in items.items():
                if key in kept[kind]:
                    gathered.say(say.shop_replaced(item.span, f"{kind} `{item.name}`", kept[kind][key].span))
                kept[kind][key] = item
    rows = _fits([shelf.interference for shelf in listed], "interference", gathered)
    of_guides = _fits([shelf.guide_fits for shelf in listed], "guide fit", gathered)
    tables = {kind: _over_built_in(kind, kept[kind]) for kind in ("material", "alloy")}
    shop = Shop(
        tuple(shelf.name for shelf in listed if shelf.name is not None),
        _items(kept, "machine"),
        _items(kept, "gauge"),
        _items(kept, "bore-gauge"),
        _items(kept, "cutter"),
        _items(kept, "pilot"),
        _items(kept, "insert"),
        rows,
        Practice(**_field_by_field(listed, "practice", gathered)),
        Assembly(**_field_by_field(listed, "assembly", gathered)),
        tuple(tables["material"][name] for name in sorted(tables["material"])),
        tuple(tables["alloy"][name] for name in sorted(tables["alloy"])),
        _items(kept, "guide"),
        _items(kept, "reamer"),
        of_guides,
    )
    names_of = {kind: {key: one.name for key, one in kept[kind].items()} for kind in KINDS}
    _former_names(kept, names_of, gathered)
    for kind, table in tables.items():
        names_of[kind] = {names.key(name): name for name in sorted(table)}
    extras = tuple(extra for shelf in listed for extra in shelf.extras)
    stock = Stock(shop, names_of, doubtful, files, extras, tables["material"])
    for shelf in listed:
        for kind, named in shelf.speaks_of:
            stock.look_up(kind, named, gathered)
    return stock


def _former_names(kept: dict[str, dict[str, Kept]], names_of: dict[str, dict[str, str]], gathered: Gathered) -> None:
    """Let each item be found by the names that it had before."""
    for kind, items in kept.items():
        before: dict[str, Kept] = {}
        for one in items.values():
            for former in one.formerly:
                key = names.key(former.text)
                taken = items.get(key) or before.get(key)
                if taken is not None:
                    by = former.text if key in items else taken.name
                    gathered.say(of_shop.formerly_taken(former.span, kind, one.name, former.text, taken.span, by))
                    continue
                before[key] = one
        names_of[kind] |= {key: one.name for key, one in before.items()}


def _items(kept: dict[str, dict[str, Kept]], kind: str) -> tuple[Any, ...]:
    return tuple(one.item for one in kept[kind].values())


def _over_built_in(kind: str, kept: dict[str, Kept]) -> dict[str, Material]:
    table = dict(built_in_materials(kind))
    table.update({one.item.name: one.item for one in kept.values()})
    return table


def _fits(of_files: Iterable[list[InterferenceLine]], called: str, gathered: Gathered) -> tuple[InterferenceLine, ...]:
    """A later file replaces all rows of the same head, alloy and seat (of guides: kind)."""
    rows: list[InterferenceLine] = []
    for of_file in of_files:
        old, new = _first_of_each(rows), _first_of_each(of_file)
        for key in sorted(new.keys() & old.keys()):
            before, after = old[key].span, new[key].span
            if before and after:
                gathered.say(say.shop_replaced(after, f"{called} of {', '.join(key)}", before))
        rows = [row for row in rows if _key(row) not in new] + of_file
    overlapping(tuple(rows), gathered)
    return tuple(rows)


def _first_of_each(rows: list[InterferenceLine]) -> dict[tuple[str, str, str], InterferenceLine]:
    return {_key(row): row for row in reversed(rows)}


def _key(row: InterferenceLine) -> tuple[str, str, str]:
    return row.head, row.alloy, row.seat


def _field_by_field(shelves: tuple[Shelf, ...], section: str, gathered: Gathered) -> dict[str, Any]:
    values: dict[str, Any] = {}
    spans: dict[str, Span] = {}
    for shelf in shelves:
        here = shelf.practice_spans if section == "practice" else shelf.assembly_spans
        values.update(shelf.practice if section == "practice" else shelf.assembly)
        for word, span in here.items():
            if word in spans:
                gathered.say(say.shop_replaced(span, f"{word} in {section}", spans[word]))
            spans[word] = span
    return values
