"""A shop file: its sections and rows, read onto a shelf."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from seatwright.job.declarations import shop_sections
from seatwright.job.declarations.kinds import SectionDeclared
from seatwright.job.model import Cutter, Given, Named, OvercutLine, SpreadLine
from seatwright.job.sections import opening
from seatwright.job.sections.singles import check_language
from seatwright.job.sections.tables import ReadRow, any_faulty, rows
from seatwright.job.sections.units_of_file import units_of
from seatwright.job.shop_file.shelf import Kept, Shelf
from seatwright.job.shop_file.shop_items import ITEMS
from seatwright.job.shop_file.shop_tables import guide, insert, interference, pilot, reamer
from seatwright.job.shop_file.stock_tables import on_shelf
from seatwright.job.typed.fields import Fields, read_fields, require
from seatwright.job.typed.gather import Gathered
from seatwright.job.typed.names import key
from seatwright.job.typed.scope import Scope
from seatwright.job.wording import of_sections as say
from seatwright.job.wording.of_shop import expansion_again
from seatwright.job.wording.of_values import fields_twice
from seatwright.syntax import tree
from seatwright.text import Source, Span


def read_shop_file(source: Source, file: tree.File, gathered: Gathered) -> Shelf:
    """All that a shop file says."""
    shelf = Shelf(file.path)
    for line in file.singles:
        if line.faulty:
            continue
        if line.word.text == "use":
            gathered.say(say.shop_uses(line.word.span))
        elif line.word.text in ("note", "hold", "not-counted"):
            gathered.say(say.single_kind(line.word.span, line.word.text))
    check_language(file, gathered)
    scope = Scope.of(source, units_of(file, "shop"), gathered.say)
    _shop_line(file, shelf, scope, gathered)
    for section in file.sections:
        _section(section, shelf, scope, gathered)
    on_shelf([section for section in file.sections if section.name == "stock"], shelf, scope, gathered)
    return shelf


def _shop_line(file: tree.File, shelf: Shelf, scope: Scope, gathered: Gathered) -> None:
    shops = [section for section in file.sections if section.name == "shop"]
    if not shops:
        gathered.say(say.no_shop(file.path))
        return
    for again in shops[1:]:
        gathered.say(say.section_again(again.line.word.span, "shop", shops[0].line.word.span))
    line = shops[0].line
    shelf.name = opening.opening_name(shop_sections.SHOP, line, scope, gathered)
    fields = read_fields(shop_sections.SHOP, shops[0].fields, scope, gathered)
    shelf.extras += fields.extras
    require(shop_sections.SHOP, fields, line.word.span, "shop", gathered)


def _section(section: tree.Section, shelf: Shelf, scope: Scope, gathered: Gathered) -> None:
    match section.name:
        case "shop" | "stock":
            pass  # what was counted is read once all inserts are known
        case "pilots":
            _table(shop_sections.PILOTS, section, shelf, "pilot", scope, gathered)
        case "inserts":
            _table(shop_sections.INSERTS, section, shelf, "insert", scope, gathered)
        case "guides":
            _table(shop_sections.GUIDES, section, shelf, "guide", scope, gathered)
        case "reamers":
            _table(shop_sections.REAMERS, section, shelf, "reamer", scope, gathered)
        case "interference":
            _table(shop_sections.INTERFERENCE, section, shelf, "interference", scope, gathered)
        case "guide-fits":
            _table(shop_sections.GUIDE_FITS, section, shelf, "guide-fit", scope, gathered)
        case "practice":
            _practice(shop_sections.PRACTICE, section, shelf, scope, gathered)
        case "assembly":
            _practice(shop_sections.ASSEMBLY, section, shelf, scope, gathered)
        case name if name in ITEMS:
            _item(name, section, shelf, scope, gathered)


def _item(kind: str, section: tree.Section, shelf: Shelf, scope: Scope, gathered: Gathered) -> None:
    declared, build = ITEMS[kind]
    name = opening.opening_name(declared, section.line, scope, gathered)
    called = f"{kind} {name.text}" if name else kind
    fields = read_fields(declared, section.fields, scope, gathered, called)
    shelf.extras += fields.extras
    if name is None:
        shelf.doubtful.add(kind)
        return
    _check_expansion(fields, called, gathered)
    item = build(name, fields, scope.units or "mm")
    if isinstance(item, Cutter):
        _check_materials("overcut", item.overcuts, called, shelf, gathered)
        _check_materials("overcut-spread", item.overcut_spreads, called, shelf, gathered)
    _keep(shelf, kind, name, item, gathered)


def _check_materials(
    word: str, lines: Iterable[OvercutLine | SpreadLine], called: str, shelf: Shelf, gathered: Gathered
) -> None:
    """Once bare and once a material; and each is a material that there is."""
    seen: dict[str, Span] = {}
    for line in lines:
        figure = line.overcut if isinstance(line, OvercutLine) else line.spread
        of = "" if line.material is None else line.material.text
        if of in seen:
            gathered.say(fields_twice(figure.span, f"{word} {of}".strip(), called, seen[of]))
        seen.setdefault(of, figure.span)
        if line.material is not None:
            shelf.speaks_of.append(("material", line.material))


def _check_expansion(fields: Fields, called: str, gathered: Gathered) -> None:
    """Of two lines to the same temperature nobody knows which counts."""
    lines = fields.get("expansion")
    if not isinstance(lines, list):
        return  # a gauge's is one figure
    seen: dict[float, Given] = {}
    for _, to in lines:
        if to.value in seen:
            gathered.say(expansion_again(to.span, called, to, seen[to.value].span))
        seen.setdefault(to.value, to)


def _keep(shelf: Shelf, kind: str, name: Named, item: Any, gathered: Gathered) -> None:
    before = shelf.items[kind].get(key(name.text))
    if before is not None:
        gathered.say(say.item_again(name.span, kind, name.text, before.span))
        return
    formerly = getattr(item, "formerly", ())
    shelf.items[kind][key(name.text)] = Kept(item, name.text, name.span, formerly)


def _table(
    declared: SectionDeclared, section: tree.Section, shelf: Shelf, kind: str, scope: Scope, gathered: Gathered
) -> None:
    of_table = opening.of_table(declared, section.line, scope, gathered)
    shelf.extras += read_fields(declared, section.fields, scope, gathered).extras
    if any_faulty(section):
        shelf.doubtful.add(kind)
    for cells in rows(declared, section, of_table, gathered, readings=False):
        shelf.extras += cells.extras
        _speaks_of(kind, cells, shelf)
        if kind in _FITS:
            row = interference(cells, gathered)
            if row is not None:
                (shelf.interference if kind == "interference" else shelf.guide_fits).append(row)
        else:
            _keep(shelf, kind, cells.first, _OF_ROW[kind](cells, gathered), gathered)


_FITS = ("interference", "guide-fit")
_OF_ROW: dict[str, Callable[[ReadRow, Gathered], Any]] = {
    "pilot": pilot,
    "insert": insert,
    "guide": guide,
    "reamer": reamer,
}


def _speaks_of(kind: str, cells: ReadRow, shelf: Shelf) -> None:
    alloy = cells.get("alloy")
    if alloy is not None and alloy.text != "any":
        shelf.speaks_of.append(("alloy", alloy))
    if kind in _FITS:
        shelf.speaks_of.append(("material", cells.first))


def _practice(declared: SectionDeclared, section: tree.Section, shelf: Shelf, scope: Scope, gathered: Gathered) -> None:
    opening.nothing(declared, section.line, scope, gathered)
    fields: Fields = read_fields(declared, section.fields, scope, gathered)
    shelf.extras += fields.extras
    assembly = declared.word == "assembly"
    values, spans = (shelf.assembly, shelf.assembly_spans) if assembly else (shelf.practice, shelf.practice_spans)
    for word in fields.values:
        if word in spans:
            gathered.say(say.section_field_again(fields.spans[word], declared.word, word, spans[word]))
            continue
        spans[word] = fields.spans[word]
        one = Fields({word: fields.values[word]})
        values.update(one.attributes(declared))
