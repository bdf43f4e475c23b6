"""Lines find the section they belong to."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from seatwright.syntax.reading.lines import take_apart
from seatwright.text import Source

JOB = """\
# the job
language 1
job 318 "tractor engine"   # comes back in May
  units     mm
  Bore-Gage "no. 3"
  x-shelf   3, 4 = "any thing   # kept

use "bench.shop"
head left "four cylinder"
  material aluminum
measured at 24 C
  valve guide-top  pocket-a  x-colour  # taken cold
  E1    9.020      44.20     red       # again
note E1 "cracked"
  E2    9.021      44.21     1.2.3/x
  valve pocket-b
  E1    44.19
spacing
  I1 E1 48.5
trial
  X-4 read 44.480 bored 44.487
"""


def test_sections_fields_tables_rows_and_single_lines(parsed):
    file, messages = parsed(JOB)
    assert messages == ()
    assert [section.name for section in file.sections] == ["job", "head", "measured", "spacing", "trial"]
    assert [line.word.text for line in file.singles] == ["language", "use", "note"]
    measured = file.sections[2]
    assert [table.columns for table in measured.tables] == [
        ("valve", "guide-top", "pocket-a", "x-colour"), ("valve", "pocket-b")
    ]  # fmt: skip
    assert [row.raws[0] for row in measured.tables[0].rows] == ["E1", "E2"]
    assert len(file.sections[3].rows) == len(file.sections[4].rows) == 1


def test_a_synonym_becomes_the_word_of_the_declarations_and_stays_as_typed_beside_it(parsed):
    file, _ = parsed(JOB)
    line = file.sections[0].fields[1]
    assert (line.word.text, line.typed) == ("bore-gauge", "Bore-Gage")


def test_a_field_of_your_own_is_kept_as_typed_up_to_its_comment(parsed):
    file, _ = parsed(JOB)
    line = file.sections[0].fields[2]
    assert (line.word.text, line.arguments, line.raw) == ("x-shelf", (), '3, 4 = "any thing')
    assert line.comment is not None
    assert line.comment.text == "# kept"


def test_every_comment_is_kept_with_its_place(parsed):
    file, _ = parsed(JOB)
    assert [(comment.span.line, comment.text) for comment in file.comments] == [(1, "# the job")]
    table = file.sections[2].tables[0]
    assert file.sections[0].line.comment.text == "# comes back in May"
    assert table.comment.text == "# taken cold"
    assert table.rows[0].comment.text == "# again"


def test_a_comment_may_be_glued(parsed):
    file, messages = parsed('valves all#these\n  bore 44.02#cold\n  stem 1.739"#inch')
    assert messages == ()
    assert [line.raw for line in file.sections[0].fields] == ["44.02", '1.739"']


def test_a_quoted_first_cell_may_be_a_section_word(parsed):
    file, messages = parsed('holes\nhole x y\n"head" 1 2\nhead "x"\n')
    assert messages == ()
    assert [section.name for section in file.sections] == ["holes", "head"]


def test_a_table_may_have_headers_of_several_kinds(parsed):
    file, messages = parsed("pilots\npilot diameter length\nP8 8.0 100\nexpanding from to length\nX 7 9 120\n", "shop")
    assert messages == ()
    assert [table.columns[0] for table in file.sections[0].tables] == ["pilot", "expanding"]


def test_an_insert_may_have_a_name_that_looks_like_a_field_of_your_own(parsed):
    file, messages = parsed("inserts\ninsert od height\nX-46 46 7\n", "shop")
    assert messages == ()
    assert file.sections[0].tables[0].rows[0].raws == ("X-46", "46", "7")


def test_places_are_those_of_the_file(parsed):
    text = "valves all\n\tbore\u200b “a½”  Ø44.02\u00a0mm bogus\n"
    file, _ = parsed(text)
    line = text.split("\n")[1]
    text_, figure, word = file.sections[0].fields[0].arguments
    for node, typed in ((text_, "“a½”"), (figure, "44.02\u00a0mm"), (word, "bogus")):
        start = node.span.column - 1
        assert line[start : node.span.end_column - 1] == typed
    assert text_.text == "a½"


def test_the_lines_of_a_file_cover_all_that_was_typed(parsed):
    file, _ = parsed(JOB)
    nodes = [
        *file.singles, *file.comments,
        *(section.line for section in file.sections),
        *(line for section in file.sections for line in section.fields),
        *(row for section in file.sections for row in section.rows),
        *(table for section in file.sections for table in section.tables),
        *(row for section in file.sections for table in section.tables for row in table.rows),
    ]  # fmt: skip
    numbers = sorted(node.span.line for node in nodes)
    assert numbers == [number for number, line in enumerate(JOB.split("\n"), 1) if line.strip()]


@given(st.text("ax1:=,", min_size=1))
def test_a_word_ends_at_the_first_mark_glued_to_it(word):
    glued = next(
        (at for at, one in enumerate(word) if at and (one in ":=" or (one == "," and at == len(word) - 1))), None
    )
    line = take_apart(Source("a", word), 1, word)
    assert line.word == word[:glued]
    assert (line.needless is not None) == (glued is not None)
