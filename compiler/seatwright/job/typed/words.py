"""Fields that take words: names, texts, dates, choices."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from seatwright.job.declarations import Form
from seatwright.job.model import Named
from seatwright.job.typed import names
from seatwright.job.typed.gather import Mistake
from seatwright.job.typed.slips import no_date
from seatwright.job.typed.values import Wanted
from seatwright.job.wording import of_values as say
from seatwright.syntax.tree import Argument, Date, Text, Word
from seatwright.text import Span


def rest_as_typed(wanted: Wanted) -> tuple[str, Span]:
    """All that is left of the line as typed: one text without its quotes, or words that stand apart."""
    first = wanted.next()
    if isinstance(first, Text):
        if not first.closed:
            raise Mistake(say.text_open(first.span))
        wanted.rest.end()
        return first.text, first.span
    for argument in wanted.arguments:
        if isinstance(argument, Text):
            raise Mistake(
                say.value_kind(
                    argument.span,
                    wanted.field.word,
                    wanted.scope.typed(argument.span),
                    wanted.wants,
                    wanted.field.example,
                )
            )
    span = first.span.to(wanted.arguments[-1].span)
    return wanted.scope.typed(span), span


def name(wanted: Wanted) -> Named:
    """A name: one run, in quotes, or several words apart; or a word that this field takes in place of one (`any`)."""
    typed, span = rest_as_typed(wanted)
    if (word := names.one_of_words(typed, wanted.field.choices)) is not None:
        return Named(word, span)
    return Named(names.check_name(typed, span, wanted.field.word), span)


def several_names(wanted: Wanted) -> tuple[Named, ...]:
    """One or more names, each one run or in quotes."""
    wanted.next()
    return tuple(_one_name(wanted, argument) for argument in wanted.arguments)


def _one_name(wanted: Wanted, argument: Argument) -> Named:
    if isinstance(argument, Text) and not argument.closed:
        raise Mistake(say.text_open(argument.span))
    typed = argument.text if isinstance(argument, (Text, Word)) else wanted.scope.typed(argument.span)
    return Named(names.check_name(typed, argument.span, wanted.field.word), argument.span)


def _text(wanted: Wanted) -> Named:
    """A text in quotes."""
    first = wanted.next()
    if not isinstance(first, Text):
        span = first.span.to(wanted.arguments[-1].span)
        raise Mistake(say.text_bare(span, wanted.field.word, wanted.scope.typed(span).replace('"', "")))
    if not first.closed:
        raise Mistake(say.text_open(first.span))
    wanted.rest.end()
    return Named(first.text, first.span)


def date(wanted: Wanted) -> Named:
    """A date, year first."""
    first = wanted.next()
    if not isinstance(first, Date):
        span = first.span.to(wanted.arguments[-1].span)
        raise Mistake(no_date(Word(span, wanted.scope.typed(span)), wanted.field.word))
    wanted.rest.end()
    return Named(first.text, first.span)


def _choice(wanted: Wanted) -> Named:
    """One of the words that the field takes."""
    typed, span = rest_as_typed(wanted)
    return chosen(wanted, typed, span)


_IN_OTHER_WORDS = {
    "inches": "inch", "in": "inch", '"': "inch", "imperial": "inch", "english": "inch",
    "millimetres": "mm", "millimeters": "mm", "millimetre": "mm", "millimeter": "mm", "metric": "mm",
    "y": "yes", "ja": "yes", "true": "yes", "x": "yes", "n": "no", "nein": "no", "false": "no",
    "gas": "natural gas", "cng": "natural gas", "lpg": "propane", "gasoil": "diesel", "ethanol": "alcohol",
    "methanol": "alcohol", "a-4": "a4", "us-letter": "letter",
}  # fmt: skip


def chosen(wanted: Wanted, typed: str, span: Span) -> Named:
    """The word that was typed, in its first spelling. Raises Mistake where it is none of the field's."""
    choices = wanted.field.choices
    found = names.one_of_words(typed, choices)
    if found is None:
        now = dict(wanted.field.former_choices).get(names.key(typed))
        if now is not None:
            raise Mistake(say.word_renamed(span, typed, now))
        meant = _IN_OTHER_WORDS.get(typed.lower()) or names.nearest_name(typed, choices)
        raise Mistake(say.choice_unknown(span, wanted.field.word, typed, choices, meant if meant in choices else None))
    return Named(found, span)


def yes(wanted: Wanted) -> bool:
    """`yes`, `no`."""
    typed, span = rest_as_typed(wanted)
    if typed.lower() not in ("yes", "no"):
        meant = _IN_OTHER_WORDS.get(typed.lower()) or names.nearest_name(typed, ("yes", "no"))
        raise Mistake(
            say.choice_unknown(span, wanted.field.word, typed, ("yes", "no"), meant if meant in ("yes", "no") else None)
        )
    return typed.lower() == "yes"


def valve(wanted: Wanted) -> Named:
    """The name of a valve, in capitals."""
    first = wanted.next()
    wanted.rest.end()
    return valve_of(wanted, first)


def valve_of(wanted: Wanted, argument: Argument) -> Named:
    """The valve that an argument names. Raises Mistake where it names none."""
    typed = argument.text if isinstance(argument, (Word, Text)) else wanted.scope.typed(argument.span)
    if not names.is_valve(typed):
        raise Mistake(say.valve_name(argument.span, typed, names.valve_meant(typed)))
    return Named(typed.upper(), argument.span)


WORD_FORMS: dict[Form, Callable[[Wanted], Any]] = {
    Form.TEXT: _text,
    Form.DATE: date,
    Form.CHOICE: _choice,
    Form.NAME: name,
    Form.NAMES: several_names,
    Form.VALVE: valve,
    Form.YES: yes,
}
