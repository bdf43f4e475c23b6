"""What to say where a figure was wanted and something else stands."""

from __future__ import annotations

from seatwright.job.declarations import TAKES_ONE_LIMIT, Dimension, Field
from seatwright.job.typed.scope import Scope
from seatwright.job.wording import of_values as say
from seatwright.syntax.numbers import slips, units
from seatwright.syntax.numbers.slips_of_marks import ABOUT_WORDS, LEAST_WORDS, MOST_WORDS, limit_behind, limit_word
from seatwright.syntax.tree import Argument, Date, Single, Text, Word
from seatwright.text import Message

_SIZES = frozenset({"radius", "diameter", "rad", "dia", "od", "dia.", "rad.", "diam", "diam.", "ø"})
_DEGREES = frozenset({"deg", "degree", "degrees", "°", "grad"})
LIMIT_WORDS = {"most": "most", "max": "most", "least": "least", "min": "least"}
"""The words in front of one limit, and which of the two each means."""
_EMPTY = frozenset({"n/a", "na", "n.a.", "?", "??", "none", "nil", "null", "x", ".", "..", "...", "empty", "missing"})


def unreadable(
    argument: Word | Text | Date, field: Field, scope: Scope, following: tuple[Argument, ...] = ()
) -> Message:
    """The message about a word, a text or a date that stands where a figure of this field was wanted.

    following: what stands behind it.
    """
    typed = argument.text if isinstance(argument, Word) else scope.typed(argument.span) or argument.text
    if isinstance(argument, Word):
        figure = following[0] if following and isinstance(following[0], Single) else None
        if figure is not None and (message := _before_figure(argument, figure, field)) is not None:
            return message
        if (explained := slips.explain_word(argument)) is not None:
            return say.explained(argument.span, field.word, explained)
    return say.value_kind(argument.span, field.word, typed, field.form.value, field.example)


def empty_cell(word: Word, field: Field) -> Message | None:
    """`n/a`, `?`: a cell that was meant to be empty. None: something else."""
    return say.cell_empty(word.span, field.word, word.text) if word.text.lower() in _EMPTY else None


def behind_figure(word: Word, field: Field, before: str = "2.0") -> Message | None:
    """What is wrong with a word behind a figure, None where it may be left over from something else.

    before: the figure as typed.
    """
    typed = word.text.lower()
    if typed in _SIZES:
        return say.radius_diameter(word.span, field.word, word.text)
    if typed in LIMIT_WORDS and field.form in TAKES_ONE_LIMIT:
        return say.explained(word.span, field.word, limit_behind(before, typed))
    if typed in MOST_WORDS | LEAST_WORDS and field.form in TAKES_ONE_LIMIT:
        limit = "most" if typed in MOST_WORDS else "least"
        return say.explained(word.span, field.word, limit_word(word.text, limit, before))
    if typed in _DEGREES and field.dimension is Dimension.TEMPERATURE:
        said = f"{field.word}: `{word.text}` does not say of which scale"
        return say.error("unit-which", word.span, said, "Write `C` or `F` behind the figure.")
    if typed in _CENTIMETRES and field.dimension is Dimension.LENGTH and (millimetres := _ten_times(before)):
        return say.centimetres(word.span, field.word, f"{before} {word.text}", millimetres)
    if (unit := units.canonical_unit(word.text)) is not None:
        return say.unit_again(word.span, field.word, unit, word.text)
    explained = slips.explain_unit(word, _fitting(field))
    return None if explained is None else say.explained(word.span, field.word, explained)


def _before_figure(word: Word, figure: Single, field: Field) -> Message | None:
    """A word in front of a figure that is right for the rest: `mm 8.0`, `max 2.0`, `dia 42.0`, `about 8`."""
    typed, written = word.text.lower(), figure.number.written
    if (unit := units.canonical_unit(word.text)) is not None:
        return say.unit_before(word.span, field.word, word.text, f"{figure.number.typed} {unit}")
    if typed in _SIZES:
        return say.size_before(word.span, field.word, word.text, written, radius=typed.startswith("rad"))
    if typed in MOST_WORDS | LEAST_WORDS and field.form in TAKES_ONE_LIMIT:
        limit = "most" if typed in MOST_WORDS else "least"
        return say.explained(word.span, field.word, limit_word(word.text, limit, written))
    if typed in ABOUT_WORDS:
        return say.about_before(word.span, field.word, word.text, written)
    return None


_CENTIMETRES = frozenset({"cm", "centimetre", "centimetres", "centimeter", "centimeters"})


def _ten_times(typed: str) -> str | None:
    """A plain figure or range with its decimal points one place further on; None for what is none."""
    if " to " in typed:
        ends = [_ten_times(end) for end in typed.split(" to ")]
        return None if None in ends else " to ".join(end for end in ends if end is not None)
    whole, _, places = typed.partition(".")
    if not (whole + places).isdecimal():
        return None
    return f"{whole}{places[:1] or '0'}{f'.{places[1:]}' if len(places) > 1 else ''}".lstrip("0") or None


def _fitting(field: Field) -> tuple[str, ...]:
    """The units that may stand in a field."""
    dimension = field.dimension
    return () if dimension is None or dimension is Dimension.PLAIN else units.words_of(dimension.value)


def no_date(word: Word, field: str) -> Message:
    """What is wrong with a word where a date belongs."""
    return say.explained(word.span, field, slips.explain_date(word))
