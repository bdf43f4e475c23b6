"""Fields that take figures: from the arguments of a line to the values of the model."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import sqrt
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.declarations import Dimension, Field, Form
from seatwright.job.model import Given, Limits, Spread
from seatwright.job.typed.figures import Exact, check_bounds, checked, exact_figure
from seatwright.job.typed.gather import Mistake
from seatwright.job.typed.measures import MeasureRead, read_measure
from seatwright.job.typed.scope import Scope
from seatwright.job.typed.slips import LIMIT_WORDS, behind_figure, unreadable
from seatwright.job.wording import of_values as say
from seatwright.syntax.numbers import units
from seatwright.syntax.tree import (
    Argument,
    Both,
    Date,
    Listing,
    PlusMinus,
    Range,
    Single,
    Text,
    Word,
)
from seatwright.text import Span

_JOINING = frozenset(
    {"reads", "at", "arrives", "exponent", "to", "tir", "offset", "from-axis", "from-plane", "included"}
) | {
    "before-measuring",
    "after-measuring",
    "still-to-come",
    "before",
    "after",
    "still",
}


class Wanted(Struct, frozen=True):
    """What a line has behind its word, taken one by one from the front."""

    field: Field
    word: Span
    arguments: tuple[Argument, ...]
    scope: Scope

    def measure(self, *, bounded: bool = True) -> tuple[MeasureRead, Wanted]:
        """The measure that stands next, and what is left. Raises Mistake where none does."""
        argument = self.next()
        if isinstance(argument, (Word, Text, Date)):
            raise Mistake(unreadable(argument, self.field, self.scope, self.arguments[1:]))
        try:
            return read_measure(self.field, argument, self.scope, bounded=bounded), self.rest
        except Mistake:
            # `4.2 cm` is no slip of a bare 4.2: what stands behind the figure is what is wrong.
            word = self.rest.word_next()
            before = self.scope.typed(argument.span)
            message = None if word is None or word.text.lower() in _JOINING else behind_figure(word, self.field, before)
            if message is None:
                raise
            raise Mistake(message) from None

    def one(self, *, bounded: bool = True, field: Field | None = None) -> tuple[Exact, Wanted]:
        """The single figure that stands next, and what is left."""
        alone = self.arguments[0] if len(self.arguments) == 1 else None
        if isinstance(alone, Single):
            # Most lines and cells are one figure: there is nothing beside it to be told apart.
            read = checked if bounded else exact_figure
            return read(alone.number, field or self.field, self.scope), self.rest
        wanted = self if field is None else Wanted(field, self.word, self.arguments, self.scope)
        found, rest = wanted.measure(bounded=bounded)
        if found.nominal is None or found.least is not None:
            raise Mistake(say.limits_here(found.span, self.field.word, found.typed, self.field.example))
        return found.nominal, rest if field is None else Wanted(self.field, self.word, rest.arguments, self.scope)

    def next(self) -> Argument:
        """What stands next. Raises Mistake where nothing does."""
        if not self.arguments:
            raise Mistake(say.value_missing(self.word, self.field.word, self.wants, self.field.example))
        return self.arguments[0]

    @property
    def rest(self) -> Wanted:
        """What is left behind the next argument."""
        return Wanted(self.field, self.word, self.arguments[1:], self.scope)

    @property
    def wants(self) -> str:
        """What the field takes, in words."""
        return self.field.form.value

    def word_next(self) -> Word | None:
        """The word that stands next, None where something else or nothing does."""
        return self.arguments[0] if self.arguments and isinstance(self.arguments[0], Word) else None

    def end(self) -> None:
        """Nothing may be left. Raises Mistake for what is."""
        if self.arguments:
            span = self.arguments[0].span.to(self.arguments[-1].span)
            typed = self.scope.typed(span)
            first = self.arguments[0]
            if isinstance(first, Text) and not first.closed:
                raise Mistake(say.text_open(first.span))
            before = self.scope.typed(replace(self.word, column=self.word.end_column, end_column=span.column))
            if isinstance(first, Word) and (message := behind_figure(first, self.field, before)) is not None:
                raise Mistake(message)
            raise Mistake(say.left_over(span, self.field.word, typed, self.wants, self.field.example))


def _number(wanted: Wanted) -> Given:
    """`28`."""
    figure, rest = wanted.one()
    rest.end()
    return figure.given()


def size(wanted: Wanted) -> Any:
    """`42.0`, `7.960 to 7.975`: the middle counts. An angle may say `from-axis`, `included` or `from-plane`."""
    behind = wanted.rest.word_next() if wanted.arguments else None
    turned = wanted.field.dimension is Dimension.ANGLE and wanted.field.word != "valve-tilt" and behind is not None
    # The bounds are those of the angle that counts, so what is taken from the stem is turned round first.
    found, rest = wanted.measure(bounded=not turned)
    middle = found.middle
    if turned and behind is not None:
        apart = rest.rest.word_next() if behind.text.lower() == "from" else None
        if apart is not None and apart.text.lower() in ("axis", "plane"):
            behind, rest = Word(behind.span.to(apart.span), f"from-{apart.text.lower()}"), rest.rest
        middle, rest = _turned(wanted, found, behind), rest.rest
    rest.end()
    over = wanted.field.asks_over
    if over is not None and not turned and middle.value > over:
        raise Mistake(say.angle_which(found.span, wanted.field.word, found.typed, f"{float(90 - middle.value):g}"))
    return middle.given(), _limits(found) if found.least is not None else None


def _turned(wanted: Wanted, found: MeasureRead, word: Word) -> Exact:
    """The angle from the plane square to the stem, of one typed `from-axis`, `included` or `from-plane`."""
    way, middle = word.text.lower(), found.middle
    if way == "from-axis":
        value, half = 90 - middle.value, middle.half
    elif way == "included":
        value, half = 90 - middle.value / 2, middle.half / 2
    elif way == "from-plane":
        value, half = middle.value, middle.half
    else:
        raise Mistake(say.angle_word(word.span, wanted.field.word, word.text))
    span = found.span.to(word.span)
    angle = Exact(value, half, wanted.scope.typed(span), span, False)
    first = wanted.arguments[0]
    if isinstance(first, Single):
        check_bounds(angle, first.number, wanted.field, wanted.scope)
    return angle


def limits_of_line(wanted: Wanted) -> Limits:
    """`1.6 to 2.0`, `41.2 +/- 0.3`, `most 1.1`, `least 0.5` (or `max`, `min`), or an aim alone."""
    return _one_limit(wanted) or _limits_of(wanted, aim=True)


def clearance(wanted: Wanted) -> Limits:
    """`0.03 to 0.06`, `most 0.06`, `least 0.03`."""
    return _one_limit(wanted) or _limits_of(wanted, aim=False)


def two_limits(wanted: Wanted) -> Limits:
    """`32 to 52`."""
    return _limits_of(wanted, aim=False)


def two_limits_source(wanted: Wanted) -> Limits:
    """`0.08 to 0.10`, behind which a text may stand, the source of the figures."""
    return _with_source(wanted, two=True)


def two_or_most_source(wanted: Wanted) -> Limits:
    """`38.000 to 38.016`, `most 48.00`."""
    found = _one_limit(wanted)
    if found is not None and found.most is None:
        raise Mistake(say.limits_wanted(found.span, wanted.field.word, found.typed, wanted.wants, wanted.field.example))
    return found or _with_source(wanted, two=True)


def limits_or_one_source(wanted: Wanted) -> Limits:
    """`8.60 to 8.70`, `11.25`."""
    return _with_source(wanted, two=False)


def _with_source(wanted: Wanted, *, two: bool) -> Limits:
    found, rest = wanted.measure()
    if two:
        _need_two(wanted, found)
    if (word := rest.word_next()) is not None and units.nearest_unit(word.text) is None:
        span = word.span.to(rest.arguments[-1].span)
        raise Mistake(say.text_bare(span, wanted.field.word, wanted.scope.typed(span).replace('"', "")))
    rest.end()
    return _limits(found)


def _one_limit(wanted: Wanted) -> Limits | None:
    word = wanted.word_next()
    if word is None or word.text.lower() not in LIMIT_WORDS:
        return None
    if not wanted.rest.arguments:
        example = f"{wanted.field.word} {word.text.lower()} 1.1"
        raise Mistake(say.number_missing(word.span, wanted.field.word, word.text, example))
    figure, rest = wanted.rest.one()
    rest.end()
    given, span = figure.given(), word.span.to(figure.span)
    most = LIMIT_WORDS[word.text.lower()] == "most"
    return Limits(None if most else given, given if most else None, None, wanted.scope.typed(span), span)


def _limits_of(wanted: Wanted, *, aim: bool) -> Limits:
    found, rest = wanted.measure()
    rest.end()  # first: `0.06 max` is one limit with its word behind it, not a figure that lacks its other one
    if not aim:
        _need_two(wanted, found)
    return _limits(found)


def _need_two(wanted: Wanted, found: MeasureRead) -> None:
    if found.least is None:
        raise Mistake(say.limits_wanted(found.span, wanted.field.word, found.typed, wanted.wants, wanted.field.example))


def _limits(found: MeasureRead) -> Limits:
    def given(figure: Exact | None) -> Given | None:
        return None if figure is None else figure.given()

    return Limits(given(found.least), given(found.most), given(found.nominal), found.typed, found.span)


def number_or_range(wanted: Wanted) -> tuple[Given, Given]:
    """`0.12`, `0.10 to 0.16`."""
    found, rest = wanted.measure()
    rest.end()
    return (found.least or found.middle).given(), (found.most or found.middle).given()


def listing(wanted: Wanted) -> tuple[Given, ...]:
    """`.015 .030 .060`, in rising order."""
    argument = wanted.next()
    if not isinstance(argument, Listing):
        return (_number(wanted),)
    wanted.rest.end()
    found = [checked(one, wanted.field, wanted.scope).given() for one in argument.numbers]
    return tuple(sorted(found, key=lambda given: given.value))


def as_ordered(wanted: Wanted) -> tuple[Given, ...]:
    """`4 5 6`, in the order typed."""
    argument = wanted.next()
    if not isinstance(argument, Listing):
        return (_number(wanted),)
    wanted.rest.end()
    return tuple(checked(one, wanted.field, wanted.scope).given() for one in argument.numbers)


def one_or_two(wanted: Wanted) -> tuple[Given, Given]:
    """`6 4 um`, in the order typed; `6 um` is both."""
    argument = wanted.next()
    if isinstance(argument, Listing) and len(argument.numbers) > 2:
        typed = wanted.scope.typed(argument.span)
        count = len(argument.numbers)
        raise Mistake(say.figures_many(argument.span, wanted.field.word, typed, count, (), wanted.field.example))
    if not isinstance(argument, Listing):
        found = _number(wanted)
        return found, found
    wanted.rest.end()
    first, second = (checked(one, wanted.field, wanted.scope).given() for one in argument.numbers)
    return first, second


def _steps(wanted: Wanted) -> tuple[tuple[Given, ...], bool]:
    """`35 50 70 rpm` (steps), `30 to 400 rpm` (stepless)."""
    if wanted.arguments and isinstance(wanted.arguments[0], (Range, Both)):
        found, rest = wanted.measure()
        rest.end()
        if found.least is not None and found.most is not None:
            return (found.least.given(), found.most.given()), True
    return listing(wanted), False


def feeds(wanted: Wanted) -> tuple[tuple[Given, ...], bool] | Span:
    """As steps; `hand` gives its place."""
    word = wanted.word_next()
    if word is not None and word.text.lower() == "hand":
        wanted.rest.end()
        return word.span
    return _steps(wanted)


def _temperature(wanted: Wanted) -> tuple[Given, Given | None]:
    """`24 C`, `24 C +/- 1`: the temperature and how far off it may be."""
    found, rest = wanted.measure()
    rest.end()
    if found.nominal is None or (found.least is not None and found.away is None):
        raise Mistake(say.value_kind(found.span, wanted.field.word, found.typed, wanted.wants, wanted.field.example))
    return found.nominal.given(), None if found.away is None else found.away.given()


def spread_typed(wanted: Wanted) -> Spread:
    """`0.0005` (standard), `+/- 0.003` (rectangular, so divided by the root of three)."""
    argument = wanted.next()
    if isinstance(argument, PlusMinus):
        wanted.rest.end()
        figure = exact_figure(argument.number, wanted.field, wanted.scope, difference=True)
        figure = Exact(abs(figure.value), figure.half, figure.typed, argument.span, figure.bare)
        check_bounds(figure, argument.number, wanted.field, wanted.scope)
        return Spread(float(figure.value) / sqrt(3), wanted.scope.typed(argument.span), argument.span, True)
    figure, rest = wanted.one()
    rest.end()
    return Spread(float(figure.value), figure.typed, figure.span)


def _runout(wanted: Wanted) -> Given:
    """`0.04 tir`, `0.02 offset`: in the model always the full movement of the needle."""
    figure, rest = wanted.one()
    word = rest.word_next()
    if word is None:
        rest.end()
        raise Mistake(say.runout_bare(figure.span, wanted.field.word, figure.typed))
    rest.rest.end()
    if word.text.lower() not in ("tir", "offset"):
        raise Mistake(say.runout_bare(word.span, wanted.field.word, figure.typed))
    factor = Fraction(1 if word.text.lower() == "tir" else 2)
    span = figure.span.to(word.span)
    return Exact(figure.value * factor, figure.half * factor, wanted.scope.typed(span), span, figure.bare).given()


FIGURES: dict[Form, Callable[[Wanted], Any]] = {
    Form.NUMBER: _number,
    Form.SIZE: size,
    Form.LIMITS: limits_of_line,
    Form.TWO_LIMITS: two_limits,
    Form.TWO_LIMITS_SOURCE: two_limits_source,
    Form.LIMITS_OR_ONE_SOURCE: limits_or_one_source,
    Form.CLEARANCE: clearance,
    Form.NUMBER_OR_RANGE: number_or_range,
    Form.TWO_OR_MOST_SOURCE: two_or_most_source,
    Form.LIST: listing,
    Form.IN_ORDER: as_ordered,
    Form.ONE_OR_TWO: one_or_two,
    Form.STEPS: _steps,
    Form.FEEDS: feeds,
    Form.TEMPERATURE: _temperature,
    Form.SPREAD: spread_typed,
    Form.RUNOUT: _runout,
}

__all__ = ["FIGURES", "Wanted"]
