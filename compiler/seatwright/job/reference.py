"""The reference page of the language, made from the declarations: `python -m seatwright.job.reference`.

It prints the page; `python -m seatwright.job.reference > grammar/README.md` renews it, and a test says when it is
stale.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from seatwright.job.declarations import PAIRS, Dimension, Field, Kind, SectionDeclared, sections
from seatwright.job.sections.singles import MOST_FILES
from seatwright.job.typed.figures import say_figure
from seatwright.syntax.numbers import units
from seatwright.syntax.vocabulary import Shape
from seatwright.text import reading

_INTRODUCTION = """\
# The job language, word by word

This page is made from the declarations in `compiler/seatwright/job/declarations` and the table in `units.txt`; do not
edit it. `python -m seatwright.job.reference > grammar/README.md` renews it.

One statement stands on a line. A line that begins with a section word opens a section; the lines after it belong to it
until the next section word. `#` starts a comment. A bare length is in the file's `units`; temperatures, speeds, feeds,
forces, torques, pressures, expansions and times are never bare. A figure outside the bounds named here is refused, with
the figure that was probably meant. `language 1`, `use "bench.shop"`, `note "text"`, `note E1 "text"`,
`hold I3 "text"` and `not-counted E3 2026-11-24 "reason"` (that bore says nothing of its cutter) are single lines and
stand anywhere. A field or column that begins with `x-` is kept as typed.
"""

_TITLES: dict[Kind, str] = {
    "job": "A job file (`.seat`)",
    "shop": "A shop file (`.shop`)",
    "engine": "An engine file (`.engine`)",
}
_SAYS = {
    Dimension.PLAIN: "",
    Dimension.LENGTH: "mm",
    Dimension.TEMPERATURE: "C",
    Dimension.ANGLE: "",
    Dimension.PRESSURE: "MPa",
}


def page() -> str:
    """The whole page as Markdown."""
    return "\n".join(_page()) + "\n"


def _page() -> Iterator[str]:
    yield _INTRODUCTION
    for kind, title in _TITLES.items():
        yield f"## {title}\n"
        for section in sections(kind):
            yield from _section(section)
    yield from _units()
    yield from _spellings()
    yield from _limits()


def _section(section: SectionDeclared) -> Iterator[str]:
    yield f"### {section.word}\n"
    yield f"{section.help}\n\n`{section.opening}`\n"
    if section.dated:
        yield "Its line may carry a date, `in mm` or `in inch`, and `at 24 C`, in any order.\n"
    if section.of_one:
        one = section.headers[0].columns[0]
        yield (
            f"Where it names one valve, `{section.word} E1`, the columns stand below it, one a line: "
            f"`{one.word} {one.example}`.\n"
        )
    if section.sourced:
        yield (
            "A text in quotes that stands last says who printed the figures.\n"
            if section.shape is not Shape.FIELDS
            else ("Behind a figure a text in quotes may stand, who printed it.\n")
        )
    if section.of_piece:
        yield f"Of one head, and so of the job alone: {', '.join(f'`{word}`' for word in section.of_piece)}.\n"
    if section.fields:
        yield from _table("field", section.fields)
    for header in section.headers:
        yield from _table("column", (header.first, *header.columns))
    if section.rows:
        yield from _table("in a row", section.rows)


def _table(first: str, fields: Iterable[Field]) -> Iterator[str]:
    yield f"| {first} | what it is | takes | bounds | example |"
    yield "|---|---|---|---|---|"
    for field in fields:
        notes = [note for note, holds in (("required", field.required), ("may repeat", field.repeats)) if holds]
        what = field.help + (f" ({', '.join(notes)})" if notes else "")
        takes = what_it_takes(field)
        row = (f"`{field.word}`", what, takes, bounds_of(field), f"`{field.example}`")
        yield "| " + " | ".join(cell.replace("|", "\\|") for cell in row) + " |"
    yield ""


def what_it_takes(field: Field) -> str:
    """What a field or column takes, in words."""
    if field.choices:
        return ", ".join(f"`{choice}`" for choice in field.choices)
    if field.dimension is None:
        return field.form.value
    return f"{field.dimension.value.replace('-', ' ')}: {field.form.value}"


def bounds_of(field: Field) -> str:
    """Between what its figures lie, `8 mm to 200 mm`; empty where nothing bounds them."""
    if field.bounds is None or field.dimension is None:
        return ""
    unit = (
        _SAYS.get(
            field.dimension, units.words_of(field.dimension.value)[0] if field.dimension.value in units.COHERENT else ""
        )
        or None
    )
    least, most = (say_figure(limit, field.dimension, unit) for limit in (field.bounds.least, field.bounds.most))
    return f"{least} to {most}"


def _units() -> Iterator[str]:
    yield "## Units\n"
    yield "| measures | words |\n|---|---|"
    for dimension in units.COHERENT:
        words = [
            f"`{word}`" for unit in units.unit_table().values() if unit.dimension == dimension for word in unit.words
        ]
        yield f"| {dimension.replace('-', ' ')} | {' '.join(words)} |"
    yield ""


def _spellings() -> Iterator[str]:
    yield "## Two spellings that are one word\n"
    yield ", ".join(f"`{first}` and `{second}`" for first, second in PAIRS) + "."


def _limits() -> Iterator[str]:
    """What is read at most; each gives an error that says so."""
    yield "\n## Limits\n"
    yield "Beyond these there is one error, and the rest is not read.\n"
    yield "| of | at most |\n|---|---|"
    yield f"| a file | {reading.MOST_BYTES:,} bytes, {reading.MOST_LINES:,} lines |"
    yield f"| a line | {reading.MOST_COLUMNS:,} characters |"
    yield "| a number | 30 digits before its point and 30 digits behind it; in a fraction 9 digits above and below |"
    yield f"| a job | {MOST_FILES} shop and engine files, none above the folder that holds `.git`; they use no other |"
    yield "| a valve | cylinder 99, and one letter |"


if __name__ == "__main__":
    print(page(), end="")
