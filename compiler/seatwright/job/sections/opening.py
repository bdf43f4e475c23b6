"""What stands on a section's own line: a name, a title, or the day, units and temperature of a table."""

from __future__ import annotations

import re

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.declarations import Dimension, Field, Form, SectionDeclared
from seatwright.job.declarations.kinds import Bounds
from seatwright.job.model import Given, Named
from seatwright.job.typed import names
from seatwright.job.typed.figures import check_bounds, exact_figure
from seatwright.job.typed.gather import Gathered, Mistake
from seatwright.job.typed.scope import Scope
from seatwright.job.typed.slips import no_date
from seatwright.job.typed.sources import who_says
from seatwright.job.typed.values import Wanted
from seatwright.job.typed.words import name
from seatwright.job.wording import of_sections as say
from seatwright.job.wording.of_values import text_bare, text_open
from seatwright.syntax.tree import Argument, Date, Line, Range, Single, Text, Tolerance, Word
from seatwright.text import Span

_LIKE_A_DATE = r"[0-9]{1,4}([./-])[0-9]{1,2}\1[0-9]{1,4}"
_AT = Field("at", Form.NUMBER, "", "at 24 C", Dimension.TEMPERATURE, Bounds(-30, 60))


class Titled(Struct, frozen=True):
    """A word or number and a text: `job 2214 "title"`, `head left "description"`."""

    name: Named | None
    text: Named | None


def nothing(section: SectionDeclared, line: Line, scope: Scope, gathered: Gathered) -> None:
    """A section line that takes nothing (`practice`)."""
    if line.arguments and not line.faulty:
        span = line.arguments[0].span.to(line.arguments[-1].span)
        gathered.say(say.opening_left_over(span, section.word, scope.typed(span), section.opening))


def opening_name(section: SectionDeclared, line: Line, scope: Scope, gathered: Gathered) -> Named | None:
    """The name behind a section word; None where it cannot be read."""
    if line.faulty:
        return None
    if not line.arguments:
        gathered.say(say.opening_missing(line.word.span, section.word, "its name", section.opening))
        return None
    try:
        return names_of(section.word, section.opening, line, scope)
    except Mistake as mistake:
        gathered.say(mistake.message)
        return None


def names_of(word: str, example: str, line: Line, scope: Scope) -> Named:
    """The name behind a word of a line, in quotes or as words apart. Raises Mistake."""
    return name(Wanted(Field(word, Form.NAME, "", example), line.word.span, line.arguments, scope))


def titled(
    section: SectionDeclared,
    line: Line,
    scope: Scope,
    gathered: Gathered,
    *,
    need_name: bool,
    called: str = "its number",
) -> Titled:
    """A name and a text behind a section word, the name to be left out where `need_name` is False. called: what the
    name is."""
    if line.faulty:
        return Titled(None, None)
    try:
        return _titled(section, line, scope, need_name, called)
    except Mistake as mistake:
        gathered.say(mistake.message)
        return Titled(None, None)


def _titled(section: SectionDeclared, line: Line, scope: Scope, need_name: bool, its_name: str) -> Titled:
    before = [argument for argument in line.arguments if not isinstance(argument, Text)]
    texts = [argument for argument in line.arguments if isinstance(argument, Text)]
    for text in texts:
        if not text.closed:
            raise Mistake(text_open(text.span))
    # A name in quotes stands before the title in quotes.
    if not before and len(texts) == 2:
        called: Named | None = Named(texts[0].text, texts[0].span)
        texts = texts[1:]
    elif before:
        span = before[0].span.to(before[-1].span)
        if len(before) > 1 and not texts:
            raise Mistake(text_bare(span, section.word, scope.typed(span)))
        called = Named(scope.typed(span), span)
        names.check_name(called.text, span, section.word)
    else:
        called = None
    if need_name and called is None:
        raise Mistake(say.opening_missing(line.word.span, section.word, its_name, section.opening))
    if not texts and not need_name:
        if called is not None:
            raise Mistake(text_bare(called.span, section.word, called.text))
        raise Mistake(say.opening_missing(line.word.span, section.word, "a text in quotes", section.opening))
    if len(texts) > 1 or (texts and line.arguments[-1] is not texts[-1]):
        span = line.arguments[0].span.to(line.arguments[-1].span)
        raise Mistake(say.opening_left_over(span, section.word, scope.typed(span), section.opening))
    return Titled(called, Named(texts[0].text, texts[0].span) if texts else None)


def of_table(section: SectionDeclared, line: Line, scope: Scope, gathered: Gathered) -> Scope:
    """The scope of a table's rows: its date, `in mm`, `at 24 C`, in any order."""
    if line.faulty:
        return scope.unread()
    try:
        return _of_table(section, line, scope)
    except Mistake as mistake:
        gathered.say(mistake.message)
        return scope.unread()


def _of_table(section: SectionDeclared, line: Line, scope: Scope) -> Scope:
    units: str | None = None
    at: Given | None = None
    date: str | None = None
    seen: dict[str, Span] = {}
    arguments, text = source_behind(line.arguments) if section.sourced else (line.arguments, "")
    left = list(arguments)
    while left:
        first = left.pop(0)
        what = _what(first)
        if what is None and isinstance(first, Word) and re.fullmatch(_LIKE_A_DATE, first.text):
            raise Mistake(no_date(first, section.word))
        if what is None:
            raise Mistake(say.opening_left_over(first.span, section.word, scope.typed(first.span), section.opening))
        if what in seen:
            raise Mistake(say.opening_twice(first.span, section.word, what, seen[what]))
        seen[what] = first.span
        if isinstance(first, Date):
            date = first.text
        elif what == "in":
            units = _units(section, first, left)
        else:
            at = _temperature(first, left, scope)
    of_rows = scope.table(units, at, date)
    return replace(of_rows, says=who_says(scope, text)) if section.sourced else of_rows


def source_behind(arguments: tuple[Argument, ...]) -> tuple[tuple[Argument, ...], str]:
    """What stands on a section's line before the text that says who printed it, and that text. Raises Mistake."""
    last = arguments[-1] if arguments else None
    if not isinstance(last, Text):
        return arguments, ""
    if not last.closed:
        raise Mistake(text_open(last.span))
    return arguments[:-1], last.text


def units_behind(section: SectionDeclared, arguments: tuple[Argument, ...]) -> tuple[tuple[Argument, ...], str | None]:
    """What stands on a section's line before `in mm` or `in inch`, and which of them. Raises Mistake."""
    at = next((place for place, one in enumerate(arguments) if _what(one) == "in"), None)
    if at is None:
        return arguments, None
    left = list(arguments[at + 1 :])
    units = _units(section, arguments[at], left)
    return (*arguments[:at], *left), units


def _what(argument: Argument) -> str | None:
    if isinstance(argument, Date):
        return "date"
    if isinstance(argument, Word) and argument.text.lower() in ("in", "at"):
        return argument.text.lower()
    return None


def _units(section: SectionDeclared, word: Argument, left: list[Argument]) -> str:
    unit = left.pop(0) if left else None
    typed = unit.text.lower() if isinstance(unit, Word) else ""
    found = {"mm": "mm", "inch": "inch", "in": "inch"}.get(typed)
    if found is None:
        raise Mistake(say.table_units(unit.span if unit else word.span, section.word))
    return found


def _temperature(word: Argument, left: list[Argument], scope: Scope) -> Given:
    figure = left.pop(0) if left else None
    if isinstance(figure, Tolerance | Range):
        raise Mistake(say.table_at_limits(figure.span, scope.typed(figure.span)))
    if not isinstance(figure, Single):
        raise Mistake(say.table_at(figure.span if figure else word.span))
    value = exact_figure(figure.number, _AT, scope)
    check_bounds(value, figure.number, _AT, scope)
    return value.given()
