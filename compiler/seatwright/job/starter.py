"""A job file or a shop file to begin with: every word of the language in its place, with what it means beside it.

All of it is made from the declarations. What somebody said stands as a line; every other field stands behind a `#`
with an example, so that taking the `#` away makes a line of it. Nothing is guessed.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Container, Iterable, Iterator, Mapping

from msgspec import Struct, field

from seatwright.handbook import MM_PER_INCH, NEWTONS_PER_LBF
from seatwright.job.declarations import (
    ENGINE_SECTIONS,
    SHOP_SECTIONS,
    Dimension,
    Field,
    Form,
    Header,
    SectionDeclared,
    engine_sections,
    job_sections,
    job_tables,
    shop_sections,
)
from seatwright.syntax.numbers import units as units_table
from seatwright.syntax.vocabulary import Shape

MOST_CYLINDERS = 20
VALVES_PER_CYLINDER = (2, 3, 4, 5)
_INTAKES = {2: 1, 3: 2, 4: 2, 5: 3}  # with three or five valves the intake has the odd one: common practice
_PAPER = {"mm": "a4", "inch": "letter"}
_BEFORE_CUTTING = (job_tables.LAYOUT, job_tables.HOLES, job_tables.SPACING)
_AFTER_CUTTING = (job_tables.TRIAL, job_tables.CUT, job_tables.FINISHED)
_BELOW_ENGINE = tuple(section for section in ENGINE_SECTIONS if section is not engine_sections.ENGINE)
_BELOW_SHOP = tuple(section for section in SHOP_SECTIONS if section is not shop_sections.SHOP)
# Names of the shop's own: an example must not replace what is built in.
_OWN = {shop_sections.MATERIAL: "material our-casting", shop_sections.ALLOY: "alloy our-ring"}
_OF_OLD_THINGS = frozenset({"formerly", "retired"})
"""Fields and columns that a shop has no use for when its file is new."""
_BARE_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9/.-]*")
_WORDS = re.compile(r"[A-Za-z][A-Za-z-]*(?: [A-Za-z][A-Za-z-]*)*")
_CELSIUS = re.compile(r"(?<![\w.])(-?[0-9.]+) C(?!\w)")
_FORCE_AT = re.compile(r"([0-9.]+) N at ([0-9.]+) mm")
_FIGURE = re.compile(r"(?<![\w.])[0-9]*\.?[0-9]+(?![\w.])")


class EngineGives(Struct, frozen=True):
    """What an engine file gives of a head: path, as seen from the job file; valves: as the job calls them; fields and
    tables: their words, which the job then need not say. cylinders: which of the job's they are, "" for the same."""

    path: str
    valves: tuple[str, ...]
    fields: frozenset[str]
    tables: frozenset[str]
    cylinders: str = ""


class WantedEngine(Struct, frozen=True):
    """What somebody said of an engine: its name, the units of its file, where its figures are printed."""

    name: str
    units: str
    source: str
    text: str = ""


class StarterWanted(Struct, frozen=True):
    """What somebody said of a job: its number, how many cylinders one head has and how many valves each.

    job, head: fields of those sections, by their words, as typed. use: the shop file, as seen from the job file.
    engine: of which the head is.
    """

    number: str
    cylinders: int
    valves_per_cylinder: int
    job: Mapping[str, str]
    head: Mapping[str, str]
    title: str = ""
    text: str = ""
    use: str = ""
    engine: EngineGives | None = None


class WantedShop(Struct, frozen=True):
    """What somebody said of a shop: what it is called, and what a bare length in its file is in (`mm`, `inch`)."""

    name: str
    units: str


class _Lines(Struct):
    """The lines of one section. units: the file's; hidden: all lines of it stand behind a `#`."""

    units: str
    hidden: bool = False
    lines: list[str] = field(default_factory=list)

    def say(self, text: str) -> None:
        """A line that is nothing but a comment, and stays one."""
        self.lines.append(f"{'# ' if self.hidden else ''}  # {text}")

    def put(self, text: str, help_: str = "", *, indent: str = "  ", hidden: bool = False) -> None:
        mark = "# " if self.hidden or hidden else ""
        shown = f"{indent}{text}" if self.hidden else f"{indent}{mark}{text}"
        line = f"# {shown}" if self.hidden else shown
        self.lines.append(f"{line}  # {help_}" if help_ else line)


def valve_names(cylinders: int, valves_per_cylinder: int) -> tuple[str, ...]:
    """The valves of a head, cylinder by cylinder, intake first: I1 E1, or I1A I1B E1A E1B where there are several."""
    intakes = _INTAKES[valves_per_cylinder]
    return tuple(
        f"{letter}{cylinder}{which}"
        for cylinder in range(1, cylinders + 1)
        for letter, count in (("I", intakes), ("E", valves_per_cylinder - intakes))
        for which in ("ABC"[:count] if count > 1 else ("",))
    )


def starter_job(wanted: StarterWanted) -> str:
    """A job file in which nothing is measured yet; built as it is, it prints the as-found sheet.

    Raises ValueError where there are no such cylinders or valves, or where an answer does not fit on a line.
    """
    engine = wanted.engine
    valves = engine.valves if engine is not None else ()
    if not valves:
        if not 1 <= wanted.cylinders <= MOST_CYLINDERS:
            raise ValueError(f"a head has 1 to {MOST_CYLINDERS} cylinders, not {wanted.cylinders}")
        if wanted.valves_per_cylinder not in _INTAKES:
            raise ValueError(f"a cylinder has 2 to 5 valves, not {wanted.valves_per_cylinder}")
        valves = valve_names(wanted.cylinders, wanted.valves_per_cylinder)
    units = wanted.job.get("units", "mm")
    gives = engine.fields if engine is not None else frozenset()
    head = {**({} if "depth-from" in gives else {"depth-from": "rim"}), **wanted.head}
    if engine is not None and engine.cylinders:
        head["cylinders"] = engine.cylinders
    said = {"paper": _PAPER.get(units, "a4"), **wanted.job}
    blocks = [
        [
            "# Lines behind a # are not read. Take the # away where you have the figure, and put yours in place of the",
            "# example. What is not given is not computed and not checked, and the cards say so.",
            "language 1",
        ],
        _of_fields(job_sections.JOB, f"job {_name(wanted.number)}" + _text(wanted.title, " "), said, units),
        [*_use(wanted.use), *_use_engine(engine)],
        _of_fields(
            job_sections.HEAD,
            "head" + _text(wanted.text or _head_text(len({name[1:].rstrip("ABC") for name in valves}), valves), " "),
            head,
            units,
            gives,
        ),
        *([[f"valves {' '.join(valves)}  # these are planned"]] if engine is not None else []),
        _of_fields(job_sections.VALVES, "valves all", {}, units, gives),
        [
            "# What only some valves have goes below these, or below valves by name; the narrowest counts.",
            "valves intake",
            "",
            "valves exhaust",
        ],
        *(
            _hidden_table(section, units, valves)
            for section in _BEFORE_CUTTING
            if engine is None or section.word not in engine.tables
        ),
        _measured(valves, units),
        *(_hidden_table(section, units, valves) for section in _AFTER_CUTTING),
    ]
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def starter_shop(wanted: WantedShop) -> str:
    """A shop file in which every section stands behind a `#`. Raises ValueError for a name that fits on no line."""
    blocks = [
        [
            "# What is on the shelf. Lines behind a # are not read: take the # away and put your own figures in place",
            "# of the examples, which are nobody's. Take a section away whole where the shop has no such thing.",
            "language 1",
        ],
        _of_fields(shop_sections.SHOP, "shop" + _text(wanted.name, " "), {"units": wanted.units}, wanted.units),
        *(_hidden_section(section, wanted.units) for section in _BELOW_SHOP),
    ]
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def starter_engine(wanted: WantedEngine) -> str:
    """An engine file in which all but the first section stands behind a `#`. Raises ValueError for what fits on no
    line."""
    said = {"units": wanted.units, "source": wanted.source}
    blocks = [
        [
            "# What the maker says of one head type. Lines behind a # are not read: take the # away and put his",
            "# figures in place of the examples, which are nobody's; a text behind a figure says where it stands.",
            "language 1",
        ],
        _of_fields(
            engine_sections.ENGINE, f"engine {_name(wanted.name)}" + _text(wanted.text, " "), said, wanted.units
        ),
        *(_hidden_section(section, wanted.units) for section in _BELOW_ENGINE),
    ]
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def _head_text(cylinders: int, valves: tuple[str, ...]) -> str:
    return f"{'one cylinder' if cylinders == 1 else f'{cylinders} cylinders'}, {len(valves) // cylinders} valves each"


def _use_engine(engine: EngineGives | None) -> list[str]:
    """The engine file, and what stands there, so that nobody looks for it here."""
    if engine is None:
        return []
    given = textwrap.wrap(", ".join(sorted((*engine.fields, *engine.tables))), 110, break_on_hyphens=False)
    return [
        f"use {_text(engine.path)}  # the engine file, what the maker says of this type of head. There stand",
        *(f"# {line}" for line in given),
        "# and need not be said here; what is said here all the same counts in place of it.",
    ]


def _use(path: str) -> list[str]:
    help_ = "the shop file: machine, gauges, cutters, pilots, inserts in stock, the shop's practice"
    return [f"use {_text(path)}  # {help_}" if path else f'# use "bench.shop"  # {help_}']


def _of_fields(
    section: SectionDeclared,
    opening: str,
    said: Mapping[str, str],
    units: str,
    elsewhere: Container[str] = (),
) -> list[str]:
    """A section with what was said of it, then its other fields behind a `#`, but those that stand elsewhere."""
    lines = _Lines(units)
    lines.put(opening, section.help, indent="")
    shown = [(each, _typed(each, said[each.word])) for each in section.fields if each.word in said]
    width = max((len(each.word) for each, _ in shown), default=0)
    for each, value in shown:
        lines.put(f"{each.word:<{width}}  {value}", each.help)
    rest = [each for each in section.fields if each.word not in said and each.word not in elsewhere]
    for text, help_ in _aligned((_example(each, units), each.help) for each in rest):
        lines.put(text, help_, hidden=True)
    return lines.lines


def _hidden_section(section: SectionDeclared, units: str) -> list[str]:
    if section.shape is not Shape.FIELDS:
        return _hidden_table(section, units, ("I1", "E1"))
    lines = _Lines(units, hidden=True)
    lines.put(_OWN.get(section, section.opening), section.help, indent="")
    shown = [each for each in section.fields if each.word not in _OF_OLD_THINGS]
    for text, help_ in _aligned((_example(each, units), each.help) for each in shown):
        lines.put(text, help_)
    return lines.lines


def _hidden_table(section: SectionDeclared, units: str, valves: tuple[str, ...]) -> list[str]:
    """A table behind a `#`: its columns one by one, its header, a row of examples."""
    lines = _Lines(units, hidden=True)
    counted = section in (shop_sections.INSERTS, shop_sections.GUIDES, shop_sections.STOCK, job_tables.POCKET_SIZES)
    lines.put(section.opening.replace("in mm", f"in {units}") if counted else section.word, section.help, indent="")
    for header in section.headers:
        columns = _of_choice(header)
        _columns(lines, columns)
        cells = [_cell(each, units, valves[:1]) for each in columns]
        for line in _in_columns([[each.word for each in columns], cells]):
            lines.put(line)
    if section.rows:
        _columns(lines, section.rows)
        lines.put(_row(section, units, valves))
    return lines.lines


def _row(section: SectionDeclared, units: str, valves: tuple[str, ...]) -> str:
    """A row of a section without a header: of spacing, of trial cuts."""
    if section is job_tables.TRIAL:
        cutter, read, bored = (_cell(each, units, ()) for each in section.rows)
        return f"{cutter} read {read} bored {bored}"
    distance = section.rows[-1]
    return f"{valves[0]}  {valves[1]}  {_cell(distance, units, ())}"


def _of_choice(header: Header) -> tuple[Field, ...]:
    """The columns of a table of examples. Of two that say the same thing two ways, only the first."""
    left_out = {"pocket-offset", *_OF_OLD_THINGS}
    return tuple(each for each in (header.first, *header.columns) if each.word not in left_out)


def _measured(valves: tuple[str, ...], units: str) -> list[str]:
    """The measured table in the order of the bench, one header for each step of the as-found sheet, all dashes."""
    section = job_tables.MEASURED
    lines = _Lines(units)
    opening = _degrees(section.opening, units).replace("in mm", f"in {units}")
    lines.put(section.word, section.help, indent="")
    lines.say(f"With its date, and what head and gauge were at: {opening}")
    by_word = section.headers[0].by_word
    for number, step in enumerate(job_tables.BENCH_ORDER):
        if number:
            lines.lines.append("")
        columns = [by_word[word] for word in step]
        _columns(lines, columns)
        head = [job_tables.VALVE.word, *step]
        for line in _in_columns([head, *([valve, *("-" for _ in step)] for valve in valves)]):
            lines.put(line)
    return lines.lines


def _columns(lines: _Lines, columns: Iterable[Field]) -> None:
    told = [(each.word, each.help) for each in columns if each.form is not Form.VALVE]
    for word, help_ in _aligned(told):
        lines.say(f"{word}  {help_}")


def _example(declared: Field, units: str) -> str:
    return _in_file_units(declared, declared.example, units)


def _cell(declared: Field, units: str, valves: tuple[str, ...]) -> str:
    if declared.form is Form.VALVE and valves:
        return valves[0]
    return _in_file_units(declared, declared.example, units)


def _in_file_units(declared: Field, example: str, units: str) -> str:
    """An example in the units of its file: its lengths are in mm and its temperatures in °C, an inch file's in inches
    and °F."""
    if units == "mm":
        return example
    example = _FORCE_AT.sub(
        lambda one: f"{float(one[1]) / NEWTONS_PER_LBF:.0f} lbf at {_inches(one[2])} in", _degrees(example, units)
    )
    figures, quote, source = example.partition('"')
    found = list(_FIGURE.finditer(figures))
    if declared.dimension is not Dimension.LENGTH or units_table.canonical_unit(figures[found[-1].end() :].strip()):
        return figures + quote + source  # `6 4 um` has its unit
    for place in reversed(found):
        figures = figures[: place.start()] + _inches(place[0]) + figures[place.end() :]
    return figures + quote + source


def _degrees(example: str, units: str) -> str:
    return example if units == "mm" else _CELSIUS.sub(lambda one: f"{float(one[1]) * 9 / 5 + 32:.0f} F", example)


def _inches(mm: str) -> str:
    """A length typed in mm as it is typed in inches: with a digit more, and never as nothing."""
    value = float(mm) / MM_PER_INCH
    decimals = max(len(mm.partition(".")[2]) + 1, 3)
    while value and not float(f"{value:.{decimals}f}"):
        decimals += 1
    return f"{value:.{decimals}f}".removeprefix("0") if value else "0"


def _typed(declared: Field, value: str) -> str:
    """An answer as the language has it: a text in quotes, a name in quotes where it needs them."""
    _one_line(value)
    if declared.form in (Form.TEXT, Form.TEXT_AND_DATE):
        return _text(value)
    if declared.form is Form.NAME and not _WORDS.fullmatch(value):
        return _name(value)
    return value


def _name(value: str) -> str:
    return value if _BARE_NAME.fullmatch(value) else _text(value)


def _text(value: str, before: str = "") -> str:
    if not value:
        return ""
    _one_line(value)
    doubled = value.replace('"', '""')
    return f'{before}"{doubled}"'


def _one_line(value: str) -> None:
    if not value.isprintable():
        raise ValueError(f"`{value!r}` does not fit on one line of a file")


def _aligned(pairs: Iterable[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """Pairs, the first of each filled up to the longest."""
    found = list(pairs)
    width = max((len(first) for first, _ in found), default=0)
    return ((first.ljust(width), second) for first, second in found)


def _in_columns(rows: list[list[str]]) -> list[str]:
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    return ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows]
