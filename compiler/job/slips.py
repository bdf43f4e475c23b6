"""What to say where a figure was wanted and something else stands."""

from __future__ import annotations

from seatwright.job import messages_values as say
from seatwright.job.declarations import Field
from seatwright.job.scope import Scope
from seatwright.syntax import slips
from seatwright.syntax.tree import Date, Text, Word
from seatwright.text import Message

_SIZES = frozenset({"radius", "diameter", "rad", "dia", "od", "dia."})


def unreadable(argument: Word | Text | Date, field: Field, scope: Scope) -> Message:
    """The message about a word, a text or a date that stands where a figure of this field was wanted."""
    typed = argument.text if isinstance(argument, Word) else scope.typed(argument.span) or argument.text
    if isinstance(argument, Word) and (explained := slips.explain_word(argument)) is not None:
        return say.explained(argument.span, field.word, explained)
    return say.value_kind(argument.span, field.word, typed, field.form.value, field.example)


def behind_figure(word: Word, field: Field) -> Message | None:
    """What is wrong with a word behind a figure, None where it may be left over from something else."""
    if word.text.lower() in _SIZES:
        return say.radius_diameter(word.span, field.word, word.text)
    explained = slips.explain_unit(word)
    return None if explained is None else say.explained(word.span, field.word, explained)


def no_date(word: Word, field: str) -> Message:
    """What is wrong with a word where a date belongs."""
    return say.explained(word.span, field, slips.explain_date(word))
