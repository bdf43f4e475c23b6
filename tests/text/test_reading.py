"""Bytes become text as it was meant, with the columns of the file, or one message that says what to do."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seatwright.text.quoting import marks
from seatwright.text.reading import MOST_BYTES, MOST_COLUMNS, MOST_LINES, read_source


def _text(data: bytes) -> str:
    source, messages = read_source("a.seat", data)
    assert source is not None
    assert messages == ()
    return source.text


@pytest.mark.parametrize("data", [b"a\nb\n", b"a\r\nb\r\n", b"a\rb\r", b"\xef\xbb\xbfa\r\nb\n"])
def test_line_ends_and_a_byte_order_mark_make_no_difference(data):
    source, messages = read_source("a.seat", data)
    assert messages == ()
    assert source is not None
    assert source.text == "a\nb\n"
    assert source.sha256 == "911169ddaaf146aff539f58c26c489af3b892dff0fe283c1c264c65ae5aa59a2"  # sha256sum


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("job 1 “tractor”", 'job 1 "tractor"'),
        ("job 1 „tractor“", 'job 1 "tractor"'),
        ("job 1 «tractor»", 'job 1 "tractor"'),
        ('job 1 "tractor”', 'job 1 "tractor"'),
        ('note “for 3/4" stems”', 'note "for 3/4"" stems"'),
        ('note "she said “hot” – ½"', 'note "she said “hot” – ½"'),
        ("bore 1.739”", 'bore 1.739"'),
        ("bore 1.739″ # ½”", 'bore 1.739" # ½”'),
        ("bore 1½", "bore 1-1/2"),
        ("bore ½", "bore 1/2"),
        ("bore 1 ¾", "bore 1 3/4"),
        ("bore 1⅝”", 'bore 1-5/8"'),
        ("bore 3⁄4", "bore 3/4"),
        ("bore Ø44.02", "bore 44.02"),
        ("bore ⌀ 44.02", "bore  44.02"),
        ("customer Ørsted", "customer Ørsted"),
        ("stand −0.2", "stand -0.2"),
        ("range 1–2", "range 1-2"),
        ("seat-angle 44°53′", "seat-angle 44°53'"),
        ("bore\u00a044.02\u202fmm", "bore 44.02 mm"),
        ("bo\u200bre 44\u00ad.02", "bore 44.02"),
        ("oven 160 ℃", "oven 160 °C"),
        ("bore 5 μm", "bore 5 µm"),
    ],
)
def test_pasted_characters_are_read_as_meant(typed, meant):
    assert _text(typed.encode()) == meant


def test_columns_are_those_of_the_file():
    typed = "bo\u200bre Ø44 1½ x"
    source, _ = read_source("a.seat", typed.encode())
    assert source is not None
    assert source.text == "bore 44 1-1/2 x"
    at = source.text.index("44")
    assert source.span(1, at, at + 2).column == typed.index("44") + 1
    at = source.text.index("x")
    span = source.span(1, at, at + 1)
    assert (span.column, span.end_column) == (typed.index("x") + 1, typed.index("x") + 2)
    assert source.as_typed() == [typed]


@pytest.mark.parametrize(
    ("data", "slug", "said"),
    [
        ("job 1".encode("utf-16"), "file-utf16", "UTF-8"),
        ("job 1 and more".encode("utf-16-le"), "file-utf16", "UTF-8"),
        (b"PK\x03\x04\0\0\0\0\xff\xff", "file-binary", "plain text"),
        (b"job 1\nbore \xd844", "file-encoding", "UTF-8"),
        (b"#" * (MOST_BYTES + 1), "file-large", "meant"),
        (b"\n" * (MOST_LINES + 1), "file-large", "meant"),
        (b"\n" + b"#" * (MOST_COLUMNS + 1), "file-large", "line of its own"),
    ],
)
def test_a_file_that_cannot_be_read_has_one_error_that_says_what_to_do(data, slug, said):
    source, messages = read_source("a.seat", data)
    assert source is None
    assert [message.slug for message in messages] == [slug]
    assert said in messages[0].help


def test_a_byte_that_is_no_character_has_its_place():
    _, (message,) = read_source("a.seat", b"\xef\xbb\xbfjob 1\r\nb\xc3\xb6re \xd844")
    assert message.span is not None
    assert (message.span.line, message.span.column) == (2, 6)
    assert "D8" in message.text


@pytest.mark.parametrize("code", ["\u202e", "\x1b", "\u2066", "\u2028", "\x7f", "\x85", "\u200f", "\x0b"])
@pytest.mark.parametrize("around", ['note "a{}b"', "a {} b", "# {}"])
def test_an_invisible_character_that_could_mislead_is_an_error_that_names_it(code, around):
    source, (message,) = read_source("a.seat", ("\n" + around.format(code)).encode())
    assert source is not None
    assert message.slug == "character-control"
    assert f"U+{ord(code):04X}" in message.text
    assert message.span is not None
    assert (message.span.line, message.span.column) == (2, around.index("{") + 1)
    assert code not in source.text


@pytest.mark.parametrize(
    ("line", "comment"),
    [
        ("bore 44#cold", 7),
        ('note "a # b" # c', 13),
        ('bore 1.739" # cold', 12),
        ('bore 9/16"#c', 10),
        ('x-a "open # c', 10),
        ('note "a "" # b" #', 16),
        ('head2"#"', 8),
    ],
)
def test_a_comment_begins_at_the_first_hash_outside_a_text(line, comment):
    assert marks(line).comment == comment


def test_a_quote_mark_glued_to_a_figure_is_the_inch_mark():
    found = marks('spring 1.739" "as 3/4"" found" 9/16"')
    assert found.inch_marks == (12, 35)
    assert found.texts == ((14, 30),)
    assert found.open_text is None


@settings(max_examples=300, deadline=None)
@given(st.binary(max_size=80) | st.text(st.characters(exclude_categories=["Cs"]), max_size=80).map(str.encode))
def test_any_bytes_give_a_source_or_an_error(data):
    source, messages = read_source("a.seat", data)
    assert source is not None or messages
    if source is not None:
        lines, typed = source.text.split("\n"), source.as_typed()
        assert len(lines) == len(typed)
        for number, line in enumerate(lines, 1):
            columns = [source.span(number, at, at).column for at in range(len(line) + 1)]
            assert columns == sorted(columns)
            assert columns[-1] == len(typed[number - 1]) + 1
