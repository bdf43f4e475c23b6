"""The form with a column a line, `measured E1`: it means the table of one row, at places of its own."""

from __future__ import annotations

from typing import Any

import msgspec
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.job.given_jobs import HEAD, clean, read_files, slugs

from seatwright.job.declarations import Dimension, Field, Form, job_tables, vocabulary
from seatwright.job.model import Job
from seatwright.syntax.formatting.format import formatted
from seatwright.text import Source
from seatwright.text.reading import source_of

TABLES = (job_tables.MEASURED, job_tables.CUT, job_tables.FINISHED)
SHOP = (
    'shop "bench"\n  units mm\ncutter C2\n  tips 1\ninserts\n  insert  od  height  seat\n'
    "  X46  44.10  7.0  exhaust\n  X47  44.60  7.0  exhaust\n"
)
START = HEAD.format(units="mm") + "valves E1 I1\n  face-angle 45\n"


def model_of(job: Job) -> Any:
    """A job but for the places where things stand."""

    def bare(value: Any) -> Any:
        if isinstance(value, msgspec.Struct):
            fields = type(value).__struct_fields__
            return {name: bare(getattr(value, name)) for name in fields if name not in ("span", "sources")}
        return tuple(map(bare, value)) if isinstance(value, tuple) else value

    return bare(job)


def figure(column: Field) -> st.SearchStrategy[str]:
    """What may stand in a cell of a column."""
    if column.form is not Form.NUMBER:
        return st.sampled_from((column.example.replace(" ", ""), "-", *column.choices))
    if column.dimension is not Dimension.LENGTH:
        return st.sampled_from((column.example, column.example.replace(" ", ""), "-"))
    other = "0.05" if column.example.startswith("0.") else column.example
    return st.sampled_from((column.example, f"{column.example} mm", f"{other}/{other}", "-", "—"))


@st.composite
def cells(draw: st.DrawFn) -> tuple[str, str, list[tuple[str, str]]]:
    """A table's word, what its line says, and some of its columns with their cells."""
    section = draw(st.sampled_from(TABLES))
    columns = draw(st.lists(st.sampled_from(section.headers[0].columns), min_size=1, unique_by=lambda one: one.to))
    line = draw(st.sampled_from(("", " 2026-11-17", " at 22 C", " in mm 2026-11-17 at 68 F", " in inch")))
    if line == " in inch":
        line = ""
    found = [(column.word, draw(figure(column))) for column in columns]
    found += [("x-seen", "blue")] if draw(st.booleans()) else []
    return section.word, line, draw(st.permutations(found))


@settings(max_examples=150, deadline=None)
@given(cells(), st.booleans())
def test_it_means_the_table_of_one_row(what: tuple[str, str, list[tuple[str, str]]], behind: bool) -> None:
    word, line, found = what
    use = 'use "bench.shop"\n'
    header, row = "  ".join(name for name, _ in found), "  ".join(cell for _, cell in found)
    table = f"{START}{use}{word}{line}\n  valve  {header}\n  E1  {row}\n"
    named = f"{line} e1" if behind else f" e1{line}"
    upright = f"{START}{use}{word}{named}\n" + "".join(f"  {name}  {cell}\n" for name, cell in found)
    assert model_of(clean(upright, bench=SHOP)) == model_of(clean(table, bench=SHOP))


def test_every_figure_has_its_own_place() -> None:
    text = START + "measured E1 2026-11-17\n  guide-top  9.020/9.022  # twice\n  pocket-a   44.02 mm\n  stem  8.001\n"
    lines = text.split("\n")
    (valve,) = [one for one in clean(text).heads[0].valves if one.name == "E1"]
    for reading, typed in (
        (valve.measured.guide_top, "9.020/9.022"),
        (valve.measured.pocket_a, "44.02 mm"),
        (valve.measured.stem, "8.001"),
    ):
        assert reading is not None
        span = reading.span
        assert lines[span.line - 1][span.column - 1 : span.end_column - 1] == typed
        assert reading.date == "2026-11-17"


def test_a_later_section_replaces_a_cell_of_a_table() -> None:
    table = START + "measured 2026-11-17\n  valve  guide-top  guide-bottom\n  E1  9.020  9.021\n"
    later = clean(table + "measured E1 2026-11-18\n  guide-top  9.033\n").heads[0].valves
    (valve,) = [one for one in later if one.name == "E1"]
    assert valve.measured.guide_top is not None
    assert valve.measured.guide_bottom is not None
    assert (valve.measured.guide_top.typed, valve.measured.guide_bottom.typed) == ("9.033", "9.021")
    assert [one.typed for one in valve.measured.guide_top.earlier] == ["9.020"]
    assert slugs(table + "measured E1 2026-11-17\n  guide-top  9.033\n") == [(11, "cell-twice")]


def test_a_valve_in_a_section_of_its_own_is_not_alone() -> None:
    head = HEAD.format(units="mm")
    text = head + "measured E1\n  stem  8.001\nmeasured E2\n  stem  8.002\n  guide-top  8.02\n"
    _, messages = read_files(text)
    assert "valve-alone" not in {one.slug for one in messages}


def test_several_valves_or_a_header_are_one_mistake() -> None:
    assert slugs(START + "measured E1 I1\n  stem  8.0\n") == [(7, "vertical-one")]
    both = "measured E1\n  stem  8.0\n  valve  stem\n  I1  8.0\n  E2  8.0\n"
    assert slugs(START + both) == [(9, "vertical-one")]
    assert slugs(START + "measured E1\n  valve  stem\n  E1  8.0\n") == [(7, "section-left-over")]
    assert slugs(START + "layout E1\n  valve  x  y\n  E1  8.0  3\n") == [(7, "section-left-over")]


def test_each_faulty_line_is_said_and_hides_no_other() -> None:
    text = (
        "measured E1\n  guide top 9.02\n  guide-botom  9.02\n  stem\n  stem  7.9 to 8\n  stem 7.98 8\n  stem 7,9\n"
        '  x-seen  blue, or 9\n  "stem"  8\n  corner  1\n  tip-height  40\n  pocket-a: 44.02\n  pocket-b  4402\n'
        "note E1 as\ncut E1 2026-13-01\n  bore-a  44.50\n"
    )
    assert slugs(START + text) == [
        (8, "column-unknown"), (9, "column-unknown"), (10, "cell-missing"), (11, "column-twice"), (12, "column-twice"),
        (13, "column-twice"), (15, "line-wordless"), (16, "column-unknown"), (17, "word-renamed"),
        (18, "mark-needless"), (19, "figure-unlikely"), (20, "single-form"), (21, "date-wanted"),
    ]  # fmt: skip


def laid_out(text: str) -> str:
    source: Source
    source, _ = source_of("a.seat", text)
    return formatted(source, vocabulary("job")).text


def test_the_formatter_keeps_it() -> None:
    typed = (
        'measured  e1 at  22 C   2026-11-17\nstem 8.0 # new\n note "x"\n  Guide-Top\t9.02/9.03\n X-seen  a  b\ncut E2\n'
    )
    made = (
        'measured E1 at 22 C 2026-11-17\n  stem       8.0  # new\n  note "x"\n  guide-top  9.02/9.03\n'
        "  X-seen     a  b\n\ncut E2\n"
    )
    assert laid_out(typed) == made
    assert laid_out(made) == made
