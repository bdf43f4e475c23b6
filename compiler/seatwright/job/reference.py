"""The reference page of the language, made from the declarations: `python -m seatwright.job.reference`.

It prints the page; `python -m seatwright.job.reference > grammar/README.md` renews it, and a test says when it is
stale.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from seatwright.job.declarations import PAIRS, Dimension, Field, Section, sections
from seatwright.job.sections.singles import MOST_SHOP_FILES
from seatwright.job.typed.figures import say_figure
from seatwright.syntax.numbers import units
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

_TITLES = {"job": "A job file (`.seat`)", "shop": "A shop file (`.shop`)"}
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
    for kind in ("job", "shop"):
        yield f"## {_TITLES[kind]}\n"
        for section in sections(kind):
            yield from _section(section)
    yield from _units()
    yield from _spellings()
    yield from _limits()


def _section(section: Section) -> Iterator[str]:
    yield f"### {section.word}\n"
    yield f"{section.help}\n\n`{section.opening}`\n"
    if section.dated:
        yield "Its line may carry a date, `in mm` or `in inch`, and `at 24 C`, in any order.\n"
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
        words = [f"`{word}`" for unit in units.table().values() if unit.dimension == dimension for word in unit.words]
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
    yield f"| a job | {MOST_SHOP_FILES} shop files, in its own folder or below it; a shop file uses no other |"
    yield "| a valve | cylinder 99, and one letter |"


if __name__ == "__main__":
    print(page(), end="")
