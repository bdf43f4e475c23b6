"""The grammar has no conflict and no collision, and no line is too odd for it."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lark import Lark
from lark import Tree as TreeOfLark
from lark.exceptions import UnexpectedInput

from seatwright.syntax import grammar, made, making
from seatwright.syntax.numbers import units
from seatwright.syntax.numbers.measures import Slip
from seatwright.syntax.numbers.values import Piece
from seatwright.syntax.reading.arguments import arguments
from seatwright.syntax.reading.rows import read_cells
from seatwright.syntax.suggest import distance, near
from seatwright.syntax.tokens import Tree
from seatwright.syntax.tree import Single
from seatwright.text import Source

_PIECES = st.sampled_from(
    ["44.02", ".030", "9/16", "1-1/2", "1", "0", "+0.02", "-0.01", "to", "+/-", "=", "mm", "in", "°", '"', '"x"',
     "#", ",", ":", "-", "--", "E1", "valve", "2026-11-16", "44°53'", "1.1/1.2", "µm", "½", "“", "”", "\t", "  ",
     "tenth", "x-a", "rpm", "(", "*", "@"]
)  # fmt: skip
_LINES = st.lists(st.tuples(_PIECES, st.sampled_from(["", " "])).map("".join) | st.text(max_size=4), max_size=12).map(
    "".join
)


def test_strict_construction_finds_no_conflict_and_no_collision():
    Lark(
        making.grammar_text(),
        parser="lalr",
        lexer="contextual",
        start=[grammar.ARGUMENTS, grammar.CELLS],
        strict=True,
        maybe_placeholders=False,
    )


def test_what_is_shipped_is_of_the_grammar_and_the_units_as_they_stand():
    # Oracle: Lark and pint, from the two files. Stale? python -m seatwright.syntax.making > the file.
    from pathlib import Path

    assert Path(made.__file__).read_text("utf-8") == making.module()


def test_stale_tables_and_units_are_made_anew_and_read_nothing_wrongly(monkeypatch):
    shipped = made.PARSER_TABLES, units._worth()
    monkeypatch.setattr(made, "GRAMMAR_MARK", made.GRAMMAR_MARK + 1)
    monkeypatch.setattr(made, "UNITS_MARK", made.UNITS_MARK + 1)
    monkeypatch.setattr(made, "PARSER_TABLES", ())
    monkeypatch.setattr(made, "WORTH", {})
    units._worth.cache_clear()
    assert (making.tables(), units._worth()) == shipped
    units._worth.cache_clear()


def _places(children):
    """What was read, by rule, terminal and place."""
    return [
        (str(each.data), _places(each.children))
        if isinstance(each, Tree | TreeOfLark)
        else (each.type, each.value, each.start_pos, each.end_pos)
        for each in children
    ]


@pytest.fixture(scope="module")
def by_lark():
    """Pieces of lines as Lark reads them by itself, with its contextual lexer."""
    lark = Lark(
        making.grammar_text(),
        parser="lalr",
        lexer="contextual",
        start=[grammar.ARGUMENTS, grammar.CELLS],
        maybe_placeholders=False,
    )

    def read(line, start):
        try:
            return _places(lark.parse(line, start=start).children)
        except UnexpectedInput as fault:
            return max(0, fault.pos_in_stream or 0)

    return read


def _read(line, start):
    try:
        return _places(grammar.read_piece(line, start))
    except grammar.Unread as fault:
        return fault.at


@settings(max_examples=1000, deadline=None)
@given(_LINES, st.sampled_from([grammar.ARGUMENTS, grammar.CELLS]))
def test_a_line_is_read_as_lark_reads_it_by_itself(by_lark, line, start):
    assert _read(line, start) == by_lark(line, start)


@pytest.mark.parametrize("start", [grammar.ARGUMENTS, grammar.CELLS])
@pytest.mark.parametrize(
    "line",
    ["", " ", "\t44.1", "44.1 to 44.2 mm", "1 to 2 to 3", "44 +/- 1 to 46", "1 1/2 in = 38.1 mm", "to 3", "3 to to",
     '"a""b" c', '"""', '"a', '1.739″', "0 mm", "44 +0.02 0", "44 0 -0.02", "E1 - 1.1/1.2/1.3 mm 2026-11-16", "= 3",
     "3 =", "3 = a", "3 mm/m", "3 mm/rev = .1 in/rev", "44,21 0.08-0.10", "3855-2A", "\x1c 3", "3\u00a0mm", "+-.01"],
)  # fmt: skip
def test_these_lines_are_read_as_lark_reads_them_by_itself(by_lark, line, start):
    assert _read(line, start) == by_lark(line, start)


@settings(max_examples=400, deadline=None)
@given(_LINES)
def test_every_piece_of_a_line_can_be_read_or_is_a_mistake_with_a_name(text):
    piece = Piece(Source("a", text, ""), 1, text, text)
    slips = []
    for read in (arguments, read_cells):
        try:
            assert isinstance(read(piece), tuple)
        except Slip as slip:
            slips.append(slip.message)
    assert all(message.slug and message.span is not None for message in slips)


@settings(max_examples=200, deadline=None)
@given(st.lists(_LINES, max_size=8), st.sampled_from(["job", "shop"]))
def test_any_text_gives_a_tree_and_messages_and_never_raises(parsed_any, lines, kind):
    file, messages = parsed_any("\n".join(lines), kind)
    assert file.kind == kind
    places = [message.place for message in messages]
    assert places == sorted(places)
    for message in messages:
        assert message.text
        assert message.help


@settings(max_examples=200, deadline=None)
@given(st.from_regex(r"[+-]?([0-9]{1,6}\.[0-9]{0,6}|\.[0-9]{1,6}|[0-9]{1,6})", fullmatch=True))
def test_a_number_keeps_its_digits(text):
    piece = Piece(Source("a", text, ""), 1, text, text)
    (found,) = arguments(piece)
    assert isinstance(found, Single)
    assert found.number.typed == text
    assert found.number.value == Fraction(text if text[-1] != "." else text + "0")


def test_a_figure_of_very_many_digits_is_a_word_and_no_hazard(parsed):
    file, messages = parsed("valves all\n  bore " + "1" * 6000)
    assert messages == ()
    assert file.sections[0].fields[0].arguments[0].text == "1" * 6000


def test_a_line_that_is_wrong_everywhere_carries_its_message():
    piece = Piece(Source("a", "1 to", ""), 1, "1 to", "1 to")
    with pytest.raises(Slip) as caught:
        arguments(piece)
    assert caught.value.message.slug == "range-open"


@pytest.mark.parametrize(
    ("first", "second", "slips"),
    [("leest", "least", 1), ("mesured", "measured", 1), ("vavle", "valve", 1), ("abc", "abc", 0), ("", "abc", 3),
     ("ca", "abc", 3)],
)  # fmt: skip
def test_edit_distance(first, second, slips):
    assert distance(first, second) == slips


def test_near_words_come_nearest_first_and_ties_by_the_alphabet():
    assert near("pocket-c", ["pocket-b", "pocket-a", "pocket-depth", "throat"]) == ("pocket-a", "pocket-b")
    assert near("xy", ["ab"]) == ()


def test_1600_rows_take_no_more_than_a_linear_share(parsed):
    from time import perf_counter

    head = "measured\nvalve guide-top pocket-a pocket-b insert-od\n"

    def seconds(rows: int) -> float:
        text = head + "".join(f"E{n} 9.020 44.20 44.21 44.30\n" for n in range(rows))
        best = 9.0
        for _ in range(3):
            start = perf_counter()
            parsed(text)
            best = min(best, perf_counter() - start)
        return best

    seconds(10)
    assert seconds(1600) < 4 * seconds(800)
