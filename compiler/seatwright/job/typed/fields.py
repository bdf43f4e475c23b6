"""The fields of a section, read by their declarations."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from msgspec import Struct, field

from seatwright.job.declarations import Field, Form, SectionDeclared
from seatwright.job.model import Extra, NotUsed
from seatwright.job.typed.gather import Gathered, Mistake
from seatwright.job.typed.phrases import PHRASES
from seatwright.job.typed.scope import Scope
from seatwright.job.typed.sources import not_used, sourced, who_says, without_source
from seatwright.job.typed.values import FIGURES, Wanted
from seatwright.job.typed.words import WORD_FORMS
from seatwright.job.wording import of_values as say
from seatwright.syntax import suggest
from seatwright.syntax.tree import Argument, Line
from seatwright.syntax.words import is_extra
from seatwright.text import Span

READERS: dict[Form, Callable[[Wanted], Any]] = {**FIGURES, **WORD_FORMS, **PHRASES}


class Fields(Struct):
    """What a section says: values by field word, the place of each, the words whose line could not be read.

    typed: of a sourced section the values as their owner wrote them, without the text behind them."""

    values: dict[str, Any] = field(default_factory=dict)
    spans: dict[str, Span] = field(default_factory=dict)
    typed: dict[str, str] = field(default_factory=dict)
    faulty: set[str] = field(default_factory=set)
    extras: list[Extra] = field(default_factory=list)

    def __contains__(self, word: str) -> bool:
        return word in self.values

    def get(self, word: str) -> Any:
        """The value of a field, None where it does not stand or could not be read."""
        return self.values.get(word)

    def attributes(self, section: SectionDeclared) -> dict[str, Any]:
        """The values by attribute of the model."""
        found: dict[str, Any] = {}
        for word, value in self.values.items():
            into_attributes(section.by_word[word], value, found)
        return found


def into_attributes(declared: Field, value: Any, found: dict[str, Any]) -> None:
    """Puts one value into the attributes of the model that hold it: a temperature has its limits beside it."""
    if isinstance(value, NotUsed):
        return
    if not isinstance(value, (tuple, list)):
        found[declared.to] = value
    elif declared.form is Form.TEMPERATURE:
        found[declared.to], found[f"{declared.to}_limits"] = value
    elif declared.form is Form.SIZE:
        found[declared.to] = value[0]
        if declared.word == "stem":
            found["stem_limits"] = value[1]
    else:
        found[declared.to] = tuple(value) if declared.repeats else value


def read_value(declared: Field, word: Span, arguments: tuple[Argument, ...], scope: Scope) -> Any:
    """One value of a field or column. Raises Mistake."""
    return READERS[declared.form](Wanted(declared, word, arguments, scope))


def read_fields(
    section: SectionDeclared, lines: Iterable[Line], scope: Scope, gathered: Gathered, called: str = ""
) -> Fields:
    """All fields of a section; what is wrong with a line is said, and the line left out."""
    declared = section.by_word
    found = Fields()
    for line in lines:
        word = line.word.text
        if is_extra(word.lower()):
            found.extras.append(Extra(line.typed or word, line.raw, line.word.span))
            continue
        if line.faulty:
            found.faulty.add(word)
            found.spans.setdefault(word, line.word.span)
            continue
        if word in section.of_piece:
            gathered.say(say.of_the_piece(line.word.span, word, section.word))
            continue
        if word not in declared:
            meant = suggest.nearest(word, declared)
            gathered.say(say.field_unknown(line.word.span, line.typed or word, called or section.word, meant))
            continue
        _read_line(section, declared[word], line, scope, gathered, found, called or section.word)
    return found


def _read_line(
    section: SectionDeclared, declared: Field, line: Line, scope: Scope, gathered: Gathered, found: Fields, called: str
) -> None:
    word = declared.word
    if not declared.repeats and word in found.spans:
        gathered.say(say.fields_twice(line.word.span, word, called, found.spans[word]))
        return
    found.spans.setdefault(word, line.word.span)
    try:
        value = _value(section, declared, line, scope, found)
    except Mistake as mistake:
        found.faulty.add(word)
        # A guessed word has been reported; that its value does not fit is only a consequence.
        if not line.guessed:
            gathered.say(mistake.message)
        return
    if not declared.repeats:
        found.values[word] = value
        return
    before = found.values.get(word)
    if before is not None and (isinstance(value, NotUsed) or isinstance(before, NotUsed)):
        gathered.say(say.fields_twice(line.word.span, word, called, found.spans[word]))
    elif isinstance(value, NotUsed):
        found.values[word] = value  # all of the engine's lines are taken away at once
    else:
        found.values.setdefault(word, []).append(value)


def _value(section: SectionDeclared, declared: Field, line: Line, scope: Scope, found: Fields) -> Any:
    """The value of a line, its figures with who says them; NotUsed where the job takes the engine's away."""
    if not section.sourced:
        return read_value(declared, line.word.span, line.arguments, scope)
    if not scope.says:
        taken_away = not_used(declared, line.word.span, line.arguments, scope)
        if taken_away is not None:
            return taken_away
    arguments, text = without_source(section, declared, line.arguments)
    value = read_value(declared, line.word.span, arguments, scope)
    if arguments:
        typed = scope.typed(arguments[0].span.to(arguments[-1].span))
        before = found.typed.get(declared.word) if declared.repeats else None
        found.typed[declared.word] = f"{before}; {typed}" if before else typed
    return sourced(value, who_says(scope, text))


def require(section: SectionDeclared, fields: Fields, place: Span, called: str, gathered: Gathered) -> None:
    """Say which required fields are missing, unless their line stands and could not be read."""
    for declared in section.fields:
        if declared.required and declared.word not in fields and declared.word not in fields.faulty:
            gathered.say(say.field_missing(place, declared.word, called, declared.example))
