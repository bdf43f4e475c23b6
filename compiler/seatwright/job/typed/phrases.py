"""Fields with a way of writing of their own."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from msgspec.structs import replace

from seatwright.job.declarations import Dimension, Field, Form
from seatwright.job.declarations.job_sections import SKIMS
from seatwright.job.declarations.kinds import Bounds
from seatwright.job.model import (
    Chill,
    Dated,
    ForceAt,
    Given,
    GuideStand,
    GuideWish,
    InsertWish,
    Leak,
    Master,
    Named,
    OvercutLine,
    SizeName,
    Skim,
    SpreadLine,
    Stand,
)
from seatwright.job.typed import names
from seatwright.job.typed.figures import Exact, checked
from seatwright.job.typed.gather import Mistake
from seatwright.job.typed.slips import no_date
from seatwright.job.typed.values import Wanted, limits_of_line, spread_typed
from seatwright.job.typed.words import chosen, rest_as_typed
from seatwright.job.wording import of_values as say
from seatwright.syntax.tree import Date, Number, Range, Readings, Single, Text, Word
from seatwright.text import Span


def _insert(wanted: Wanted) -> InsertWish:
    """`X46`, `choose`, `turned`, `stays`, `none`."""
    typed, span = rest_as_typed(wanted)
    if typed.lower() in ("choose", "turned", "stays", "none"):
        return InsertWish(typed.lower(), None, span)
    return InsertWish("stock", names.check_name(typed, span, wanted.field.word), span)


def _guide(wanted: Wanted) -> GuideWish:
    """`choose`, `G11`, `keep`, `none`."""
    typed, span = rest_as_typed(wanted)
    if typed.lower() in ("choose", "keep", "none"):
        return GuideWish(typed.lower(), None, span)
    return GuideWish("stock", names.check_name(typed, span, wanted.field.word), span)


def guide_stand(wanted: Wanted) -> GuideStand:
    """`13.3 to 13.9`, `shoulder`."""
    word = wanted.word_next()
    if word is not None and word.text.lower() == "shoulder":
        wanted.rest.end()
        return GuideStand(None, word.span)
    found = limits_of_line(wanted)
    return GuideStand(found, found.span)


def force_at(wanted: Wanted) -> ForceAt:
    """`296 N at 38.9 "manual"`."""
    force, rest = wanted.one()
    at, rest = _behind(rest, "at").one(field=_HEIGHT)
    source = ""
    if rest.arguments and isinstance(rest.arguments[0], Text):
        if not rest.arguments[0].closed:
            raise Mistake(say.text_open(rest.arguments[0].span))
        source, rest = rest.arguments[0].text, rest.rest
    rest.end()
    return ForceAt(force.given(source), at.given(source))


_HEIGHT = Field("spring-force", Form.FORCE_AT, "", "spring-force 296 N at 38.9", Dimension.LENGTH, Bounds(8, 200))


def stand(wanted: Wanted) -> Stand:
    """`flush`, `proud 0.10`, `below 0.20`, `below -0.05 to 0.10`."""
    word = wanted.word_next()
    way = word.text.lower() if word is not None else ""
    if word is None or way not in ("flush", "proud", "below"):
        first = wanted.next()
        raise Mistake(say.stand_way(first.span, wanted.scope.typed(first.span)))
    if way == "flush":
        wanted.rest.end()
        zero = Given(0.0, word.text, word.span)
        return Stand(zero, zero, True, word.text, word.span)
    if not wanted.rest.arguments:
        raise Mistake(say.number_missing(word.span, wanted.field.word, word.text, f"stand {way} 0.10"))
    found, rest = wanted.rest.measure()
    rest.end()
    span = word.span.to(found.span)
    typed = wanted.scope.typed(span)
    least, most = found.least or found.middle, found.most or found.middle
    if way == "proud":
        least, most = most.scaled(Fraction(-1)), least.scaled(Fraction(-1))
    return Stand(least.given(), most.given(), found.least is None, typed, span)


def integral(wanted: Wanted) -> Span:
    """`integral`."""
    return _only(wanted, "integral").span


def follows(wanted: Wanted) -> Named:
    """`valve-train`, for the most alone, or `valve-train both`, where the maker lets the least move as well."""
    return _only(wanted, "valve-train", "valve-train both")


def _only(wanted: Wanted, *words: str) -> Named:
    typed, span = rest_as_typed(wanted)
    word = next((word for word in words if names.key(typed) == names.key(word)), None)
    if word is None:
        raise Mistake(say.choice_unknown(span, wanted.field.word, typed, words, names.nearest_name(typed, words)))
    return Named(word, span)


def not_allowed(wanted: Wanted) -> Named:
    """`not-allowed "reason"`: the reason."""
    first = wanted.next()
    if not isinstance(first, Word) or names.key(first.text) != "not allowed":
        typed = wanted.scope.typed(first.span)
        raise Mistake(say.choice_unknown(first.span, wanted.field.word, typed, ("not-allowed",), None))
    reason = wanted.rest.arguments[:1]
    if not reason or not isinstance(reason[0], Text):
        raise Mistake(say.value_missing(first.span, "not-allowed", "the reason in quotes", wanted.field.example))
    if not reason[0].closed:
        raise Mistake(say.text_open(reason[0].span))
    wanted.rest.rest.end()
    return Named(reason[0].text, reason[0].span)


def skim(wanted: Wanted) -> Skim:
    """`0.20 before-measuring`."""
    figure, rest = wanted.one()
    when = None
    if rest.arguments:
        typed, span = rest_as_typed(rest)
        with_choices = replace(wanted, field=replace(wanted.field, choices=SKIMS))
        when = chosen(with_choices, typed, span).text
    return Skim(figure.given(), when, wanted.word)


def _dated(wanted: Wanted) -> Dated:
    """`2026-09-01 "masters of the measuring room"`: what was done in quotes, or nothing."""
    return _day_and_text(wanted, reason=False)


def _dated_reason(wanted: Wanted) -> Dated:
    """`2026-10-05 "worn"`: the reason is wanted."""
    return _day_and_text(wanted, reason=True)


def _day_and_text(wanted: Wanted, *, reason: bool) -> Dated:
    day = wanted.next()
    if not isinstance(day, Date):
        raise Mistake(no_date(Word(day.span, wanted.scope.typed(day.span)), wanted.field.word))
    if reason and not wanted.rest.arguments:
        raise Mistake(say.value_missing(day.span, day.text, "the reason in quotes", wanted.field.example))
    words, rest = _text_behind(wanted.rest)
    rest.end()
    return Dated(day.text, words, wanted.word)


def _text_behind(wanted: Wanted) -> tuple[str, Wanted]:
    """The text that may stand next, "" where none does, and what is left."""
    if not wanted.arguments or not isinstance(wanted.arguments[0], Text):
        return "", wanted
    if not wanted.arguments[0].closed:
        raise Mistake(say.text_open(wanted.arguments[0].span))
    return wanted.arguments[0].text, wanted.rest


def _overcut(wanted: Wanted) -> OvercutLine:
    """`0.006`, `aluminium 0.0068 "12 bores to 2026-11-24"`."""
    material, wanted = _material_before(wanted)
    figure, rest = wanted.one()
    source, rest = _text_behind(rest)
    rest.end()
    return OvercutLine(material, replace(figure.given(), source=source))


def _overcut_spread(wanted: Wanted) -> SpreadLine:
    """`0.002`, `+/- 0.003`, `grey iron 0.002`."""
    material, wanted = _material_before(wanted)
    return SpreadLine(material, spread_typed(wanted))


def _material_before(wanted: Wanted) -> tuple[Named | None, Wanted]:
    """The head material that stands before a figure, its words apart or in quotes; and what is left."""
    count = 0
    while count < len(wanted.arguments) and isinstance(wanted.arguments[count], (Word, Text)):
        count += 1
    if count == 0:
        return None, wanted
    typed, span = rest_as_typed(replace(wanted, arguments=wanted.arguments[:count]))
    return Named(names.check_name(typed, span, wanted.field.word), span), replace(
        wanted, arguments=wanted.arguments[count:]
    )


def leak(wanted: Wanted) -> Leak:
    """`3 s "85 to 58 kPa"`."""
    figure, rest = wanted.one()
    words, rest = _text_behind(rest)
    rest.end()
    return Leak(figure.given(), words)


def chill(wanted: Wanted) -> Chill:
    """`"dry ice" -78.5 C arrives -40 C`; words of a name may stand apart."""
    count = 0
    while count < len(wanted.arguments) and isinstance(wanted.arguments[count], (Word, Text)):
        count += 1
    if count == 0:
        first = wanted.next()
        raise Mistake(
            say.value_kind(
                first.span, wanted.field.word, wanted.scope.typed(first.span), wanted.wants, wanted.field.example
            )
        )
    typed, _ = rest_as_typed(replace(wanted, arguments=wanted.arguments[:count]))
    left = replace(wanted, arguments=wanted.arguments[count:])
    cold, left = left.one()
    arrives: Given | None = None
    if left.arguments:
        left = _behind(left, "arrives")
        figure, left = left.one()
        arrives = figure.given()
    left.end()
    return Chill(typed, cold.given(), arrives, wanted.word)


def _behind(wanted: Wanted, word: str) -> Wanted:
    """What stands behind a joining word. Raises Mistake where another word or nothing stands."""
    first = wanted.next()
    if not isinstance(first, Word) or first.text.lower() != word:
        raise Mistake(
            say.value_kind(
                first.span, wanted.field.word, wanted.scope.typed(first.span), wanted.wants, wanted.field.example
            )
        )
    return wanted.rest


def size_name(wanted: Wanted) -> SizeName:
    """`+0.25`, `.010`, `standard`; of a valve also `any`."""
    first = wanted.next()
    if isinstance(first, Single):
        figure, rest = wanted.one()
        rest.end()
        unit = "" if not figure.bare else wanted.scope.unit or ""
        return SizeName(figure.typed, figure.span, float(figure.value), unit)
    typed, span = rest_as_typed(wanted)
    if typed.lower() == "any":
        return SizeName("any", span)
    return SizeName(names.check_name(typed, span, wanted.field.word), span)


def text_and_date(wanted: Wanted) -> tuple[str, str | None]:
    """`"overhaul manual 3" 2014-06-01`."""
    first, *behind = wanted.arguments or (wanted.next(),)
    if not isinstance(first, Text):
        raise Mistake(say.text_bare(first.span, wanted.field.word, wanted.scope.typed(first.span).replace('"', "")))
    if not first.closed:
        raise Mistake(say.text_open(first.span))
    date = behind[0] if behind else None
    if date is None:
        return first.text, None
    if not isinstance(date, Date):
        span = date.span.to(behind[-1].span)
        raise Mistake(no_date(Word(span, wanted.scope.typed(span)), wanted.field.word))
    wanted.rest.rest.end()
    return first.text, date.text


def master(wanted: Wanted) -> Master:
    """`40.000 reads 40.002`, `2026-11-20 40.000 reads 40.003/40.005`."""
    since = None
    if wanted.arguments and isinstance(wanted.arguments[0], Date):
        since, wanted = wanted.arguments[0].text, wanted.rest
    true, rest = wanted.one()
    rest = _behind(rest, "reads")
    shown = rest.next()
    if isinstance(shown, Readings):
        rest.rest.end()
        figures = [checked(one, wanted.field, wanted.scope) for one in shown.numbers]
        mean = Fraction(sum(figure.value for figure in figures), len(figures))
        half = max(figure.half for figure in figures)
        return Master(true.given(), Given(float(mean), wanted.scope.typed(shown.span), shown.span, float(half)), since)
    reads, rest = rest.one()
    rest.end()
    return Master(true.given(), reads.given(), since)


def expansion_line(wanted: Wanted) -> tuple[Given, Given]:
    """`21.4 um/m/C to 100 C`: the mean from 20 °C to that temperature, and the temperature."""
    first = wanted.next()
    if isinstance(first, Range):
        # Two figures of two kinds: one expansion, one temperature, though they are joined like a range.
        parts = [_number_alone(wanted, first.low, wanted.field), _number_alone(wanted, first.high, _TO)]
        wanted.rest.end()
        return parts[0].given(), parts[1].given()
    grows, rest = wanted.one()
    to, rest = _behind(rest, "to").one(field=_TO)
    rest.end()
    return grows.given(), to.given()


_TO = Field(
    "expansion", Form.EXPANSION_LINE, "", "expansion 21.4 um/m/C to 100 C", Dimension.TEMPERATURE, Bounds(-273.15, 1500)
)
_EXPONENT = Field("exponent", Form.NUMBER, "", "cutting-force 1150 MPa exponent 0.20", Dimension.PLAIN, Bounds(0, 1))


def _number_alone(wanted: Wanted, number: Number, field: Field) -> Exact:
    return replace(wanted, arguments=(Single(number.span, number),)).one(field=field)[0]


def cutting_force(wanted: Wanted) -> tuple[Given, Given]:
    """`1150 MPa exponent 0.20`."""
    force, rest = wanted.one()
    exponent, rest = _behind(rest, "exponent").one(field=_EXPONENT)
    rest.end()
    return force.given(), exponent.given()


PHRASES: dict[Form, Callable[[Wanted], Any]] = {
    Form.INSERT: _insert,
    Form.GUIDE: _guide,
    Form.GUIDE_STAND: guide_stand,
    Form.FORCE_AT: force_at,
    Form.STAND: stand,
    Form.INTEGRAL: integral,
    Form.NOT_ALLOWED: not_allowed,
    Form.SKIM: skim,
    Form.FOLLOWS: follows,
    Form.DATED: _dated,
    Form.DATED_REASON: _dated_reason,
    Form.OVERCUT: _overcut,
    Form.OVERCUT_SPREAD: _overcut_spread,
    Form.LEAK: leak,
    Form.CHILL: chill,
    Form.SIZE_NAME: size_name,
    Form.TEXT_AND_DATE: text_and_date,
    Form.MASTER: master,
    Form.EXPANSION_LINE: expansion_line,
    Form.CUTTING_FORCE: cutting_force,
}
