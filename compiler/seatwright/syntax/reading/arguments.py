"""What stands behind the first word of a line."""

from __future__ import annotations

import itertools
import re

from seatwright.syntax import grammar
from seatwright.syntax.numbers import slips, units
from seatwright.syntax.numbers.dates import is_day
from seatwright.syntax.numbers.measures import Slip, measure, readings
from seatwright.syntax.numbers.values import Piece, text_of
from seatwright.syntax.tokens import Token, Tree
from seatwright.syntax.tree import Argument, Date, Single, Text, Word

_SLASHED = r"([+-][0-9.]+)/([+-][0-9.]+.*)"


def arguments(piece: Piece) -> tuple[Argument, ...]:
    """The words, texts, dates and measures of a piece of a line. Raises Slip at the first that is wrong everywhere."""
    try:
        children = grammar.read_piece(piece.characters, grammar.ARGUMENTS)
    except grammar.Unread as fault:
        raise unclear(piece, fault.at) from None
    found = tuple(_argument(piece, child) for child in children)
    for before, word in itertools.pairwise(found):
        if isinstance(word, Word) and not isinstance(before, Word | Text | Date):
            _check_word_behind(before, word, found)
    return found


def unclear(piece: Piece, at: int) -> Slip:
    """A mark of a measure behind one that is complete, as in `1 to 2 to 3` or `44 +/- 1 to 46`."""
    mark = (piece.characters[at:].split() or [""])[0]
    return Slip(
        "measure-crossed",
        piece.span(at, at + len(mark)),
        f"`{piece.typed[at : at + len(mark)]}` does not go with the figures in front of it",
        "Write one thing: a range `0.08 to 0.12`, a tolerance `44.10 +/- 0.02`, or one figure in two units, "
        "`1.739 in = 44.17 mm`.",
    )


def _argument(piece: Piece, child: Token | Tree) -> Argument:
    if isinstance(child, Tree):
        return measure(piece, child)
    return readings(piece, child) if child.type == "READINGS" else plain_argument(piece, child)


def plain_argument(piece: Piece, token: Token) -> Word | Text | Date:
    """A word, text or date. Raises Slip where a text is not closed."""
    start, end = token.start_pos, token.end_pos
    span = piece.span(start, end)
    typed = piece.typed[start:end]
    match token.type:
        case "TEXT":
            return Text(span, text_of(typed))
        case "TEXT_OPEN":
            raise _open_text(piece, start, end)
        case "DATE" if is_day(typed):
            return Date(span, typed)
        case _:
            return Word(span, typed)


def _open_text(piece: Piece, start: int, end: int) -> Slip:
    what_to_do = 'Close it with `"` on the same line; a quote mark inside a text is written twice.'
    before = piece.characters[:start]
    alone = piece.characters[start + 1 : start + 2] in ("", " ", "\t")
    if alone and before.rstrip()[-1:].isdigit() and before.endswith((" ", "\t")):
        what_to_do = f'If it is meant as the inch mark, write it glued to the figure: `{before.split()[-1]}"`.'
    return Slip("text-open", piece.span(start, end), "the quote is not closed on this line", what_to_do)


def _check_word_behind(before: Argument, word: Word, all_of_them: tuple[Argument, ...]) -> None:
    """A loose sign, or a unit that may mean more than one thing, behind a figure."""
    if units.asks_which(word.text) is not None:
        explained = slips.explain_unit(word)
        assert explained is not None
        raise Slip(explained[0], word.span, explained[1], explained[2])
    if isinstance(before, Single) and (limits := re.fullmatch(_SLASHED, word.text)) is not None:
        nominal = before.number.written
        raise Slip(
            "tolerance-slash",
            before.span.to(word.span),
            f"`{nominal} {word.text}`: the two limits are joined by a slash",
            f"Write them apart: `{nominal} {limits[1]} {limits[2]}`.",
        )
    if word.text not in ("+", "-", "+-"):
        return
    following = next((one for one in all_of_them if one.span > word.span), None)
    if word.text == "-" and isinstance(before, Single) and isinstance(following, Single):
        low, high = before.number, following.number
        if high.value >= low.value > 0:
            raise Slip(
                "range-hyphen",
                before.span.to(following.span),
                f"`{low.written} - {high.written}` is no figure",
                f"A range is written `{low.written} to {high.written}`.",
            )
    raise Slip(
        "sign-loose",
        word.span,
        f"`{word.text}` stands on its own",
        "A sign is glued to its figure, as in `44.10 +0.02 -0.01`; both ways alike is written `44.10 +/- 0.02`.",
    )
