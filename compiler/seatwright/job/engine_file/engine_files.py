"""An engine file: its sections as read, and what it says against itself."""

from __future__ import annotations

from typing import Any

from seatwright.job.declarations import engine_sections, job_tables
from seatwright.job.head.head_parts import look_up
from seatwright.job.head.of_engine import EngineFile
from seatwright.job.head.places import holes, layout, spacing
from seatwright.job.head.pocket_sizes import pocket_sizes
from seatwright.job.head.precedence import check_alone
from seatwright.job.head.selectors import Selected, selected
from seatwright.job.sections import opening
from seatwright.job.sections.singles import check_language, notes_and_holds
from seatwright.job.sections.tables import any_faulty
from seatwright.job.sections.units_of_file import units_of
from seatwright.job.shop_file.shop import Stock
from seatwright.job.typed.fields import read_fields, require
from seatwright.job.typed.gather import Gathered
from seatwright.job.typed.scope import Scope
from seatwright.job.wording import of_engines as say
from seatwright.job.wording import of_sections as say_section
from seatwright.job.wording.of_values import of_the_piece
from seatwright.syntax import tree
from seatwright.text import Source

_TABLES = {section.word: section for section in (job_tables.LAYOUT, job_tables.HOLES, job_tables.SPACING)}
_CHOSEN_FOR_A_TYPE = ("choose", "turned", "none")


def read_engine_file(source: Source, file: tree.File, stock: Stock | None, gathered: Gathered) -> EngineFile:
    """All that an engine file says. stock: in which the names of alloys are looked up, None where it is read alone."""
    found = EngineFile(file.path)
    _singles(file, found, gathered)
    units = units_of(file, "engine")
    bare = Scope.of(source, units, gathered.say)
    _engine_line(file, found, bare, gathered)
    scope = Scope.of(source, units, gathered.say, found.says)
    found.unit = scope.unit or ""
    for section in file.sections:
        _section(section, found, scope, stock, gathered)
    found.doubtful = found.doubtful or found.name is None or units is None
    check_alone(found, gathered)
    return found


def _singles(file: tree.File, found: EngineFile, gathered: Gathered) -> None:
    for line in file.singles:
        if line.faulty:
            continue
        if line.word.text == "use":
            gathered.say(say_section.shop_uses(line.word.span, "engine"))
        elif line.word.text in ("hold", "not-counted"):
            gathered.say(say_section.single_kind(line.word.span, line.word.text, "an engine"))
    check_language(file, gathered)
    found.notes = [said.note for said in notes_and_holds(file, gathered) if not said.hold]


def _engine_line(file: tree.File, found: EngineFile, scope: Scope, gathered: Gathered) -> None:
    engines = [section for section in file.sections if section.name == "engine"]
    if not engines:
        gathered.say(say.no_engine(file.path))
        return
    line = engines[0].line
    for again in engines[1:]:
        gathered.say(say_section.section_again(again.line.word.span, "engine", line.word.span))
    if file.sections[0].name != "engine":
        gathered.say(say.engine_late(line.word.span, file.sections[0].line.word.span))
    title = opening.titled(engine_sections.ENGINE, line, scope, gathered, need_name=True, called="its name")
    found.name, found.text, found.span = title.name, title.text.text if title.text else "", line.word.span
    source = next((one for one in engines[0].fields if one.word.text == "source" and not one.faulty), None)
    if source is not None:
        named = read_fields(engine_sections.ENGINE, (source,), scope, Gathered()).get("source")
        found.source, found.date = named or ("", None)


def _section(section: tree.Section, found: EngineFile, scope: Scope, stock: Stock | None, gathered: Gathered) -> None:
    found.doubtful = found.doubtful or any_faulty(section)
    match section.name:
        case "engine":
            if found.fields.spans:
                return
            called = f"engine {found.name.text}" if found.name else "engine"
            found.fields = read_fields(engine_sections.ENGINE, section.fields, scope, gathered, called)
            require(engine_sections.ENGINE, found.fields, section.line.word.span, called, gathered)
            found.extras += found.fields.extras
            found.doubtful = found.doubtful or bool(found.fields.faulty)
        case "valves":
            one = selected(engine_sections.TYPE_VALVES, section, scope, gathered)
            _of_type_alone(one, gathered)
            if stock is not None:
                look_up(one.fields.values, stock, gathered)
            found.doubtful = found.doubtful or not one.valid or bool(one.fields.faulty)
            found.extras += one.fields.extras
            found.selected.append(one)
        case "pocket-sizes":
            table, extras = pocket_sizes(section, scope, gathered)
            found.doubtful = found.doubtful or not table.whole
            found.extras += extras
            found.sizes.append(table)
        case name if name in _TABLES:
            _table(section, found, scope, gathered)


def _table(section: tree.Section, found: EngineFile, scope: Scope, gathered: Gathered) -> None:
    declared = _TABLES[section.name]
    of_table = opening.of_table(declared, section.line, scope, gathered)
    found.extras += read_fields(declared, section.fields, of_table, gathered).extras
    match section.name:
        case "layout":
            found.extras += layout(section, of_table, found.layout, gathered)
        case "holes":
            found.extras += holes(section, of_table, found.holes, gathered)
        case _:
            spacing(section, of_table, found.spacings, gathered)


def _of_type_alone(one: Selected, gathered: Gathered) -> None:
    """A type may ask for a choice or a blank; which ring of the shelf it gets is of the one head."""
    for word in ("insert", "guide"):
        wish: Any = one.fields.get(word)
        kind = getattr(wish, "kind", None)
        if kind is not None and kind not in _CHOSEN_FOR_A_TYPE:
            gathered.say(of_the_piece(wish.span, f"{word} {one.fields.typed.get(word, kind)}", "valves"))
