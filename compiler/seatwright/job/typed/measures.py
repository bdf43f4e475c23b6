"""A measure of a field: one figure, two limits or a tolerance, also where it stands twice, in two units."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from fractions import Fraction
from math import floor, log10

from msgspec import Struct
from msgspec.structs import replace

from seatwright.handbook.agreement import agree
from seatwright.job.declarations import Dimension, Field, Form
from seatwright.job.typed.figures import Exact, check_bounds, checked, exact_figure, within_bounds, written
from seatwright.job.typed.gather import Mistake
from seatwright.job.typed.scope import Scope
from seatwright.job.wording import of_values as say
from seatwright.syntax.numbers import units
from seatwright.syntax.numbers.slips import explain_word
from seatwright.syntax.tree import (
    Both,
    Listing,
    Measure,
    Number,
    OneSign,
    OpenRange,
    Plain,
    PlusMinus,
    Range,
    Readings,
    Single,
    Tolerance,
    Word,
)
from seatwright.text import Message, Span


class MeasureRead(Struct, frozen=True):
    """A measure as exact figures: one (nominal), two limits (least, most), or a tolerance (all three).

    away: of a `+/-`, the figure behind it.
    """

    span: Span
    typed: str
    nominal: Exact | None = None
    least: Exact | None = None
    most: Exact | None = None
    away: Exact | None = None

    @property
    def middle(self) -> Exact:
        """One figure for all: that of a single one, the middle of two limits."""
        if self.least is None or self.most is None:
            assert self.nominal is not None
            return self.nominal
        half = max(self.least.half, self.most.half)
        return Exact((self.least.value + self.most.value) / 2, half, self.typed, self.span, self.least.bare)


def read_measure(field: Field, argument: Measure, scope: Scope, *, bounded: bool = True) -> MeasureRead:
    """Read one measure. Raises Mistake for the first thing wrong with it."""
    if isinstance(argument, Both):
        return _both(field, argument, scope, bounded)
    return _plain(field, argument, scope, bounded)


def _plain(field: Field, plain: Plain, scope: Scope, bounded: bool) -> MeasureRead:
    typed = scope.typed(plain.span)
    match plain:
        case Single(span, number):
            figure = checked(number, field, scope) if bounded else exact_figure(number, field, scope)
            return MeasureRead(span, typed or written(number), nominal=figure)
        case Range(span, low, high):
            return _range(field, span, low, high, typed, scope, bounded)
        case Tolerance():
            return _tolerance(field, plain, typed, scope, bounded)
        case OneSign(span, nominal, limit):
            raise Mistake(say.tolerance_half(span, field.word, typed, nominal.typed, limit.typed))
        case OpenRange(span, _):
            raise Mistake(say.range_open(span, field.word, typed))
        case PlusMinus(span):
            raise Mistake(say.plus_minus_here(span, field.word, typed, field.form.value, field.example))
        case Readings(span, _):
            slip = explain_word(Word(span, "".join(typed.split())))  # `2.0025/2.0035` for `to`
            if slip is not None:
                raise Mistake(say.explained(span, field.word, slip))
            raise Mistake(say.value_kind(span, field.word, typed, field.form.value, field.example))
        case Listing(span, numbers):
            meant = _one_meant(field, numbers)
            raise Mistake(say.figures_many(span, field.word, typed, len(numbers), meant, field.example))


_TAKES_TWO = frozenset({
    Form.SIZE, Form.LIMITS, Form.TWO_LIMITS, Form.TWO_LIMITS_SOURCE, Form.LIMITS_OR_ONE_SOURCE,
    Form.TWO_OR_MOST_SOURCE, Form.CLEARANCE, Form.NUMBER_OR_RANGE, Form.STAND, Form.GUIDE_STAND,
})  # fmt: skip


def _one_meant(field: Field, numbers: tuple[Number, ...]) -> tuple[str, ...]:
    """What two figures side by side may have been meant as: one with its decimal point lost, or two limits."""
    if len(numbers) != 2:
        return ()
    one, other = numbers
    unit = f" {other.unit}" if other.unit else ""
    found = []
    if one.typed.isdigit() and other.typed.isdigit():
        found.append(f"{one.typed}.{other.typed}{unit}")
    if field.form in _TAKES_TWO and one.value < other.value:
        found.append(f"{one.typed} to {other.typed}{unit}")
    return tuple(found)


def _range(field: Field, span: Span, low: Number, high: Number, typed: str, scope: Scope, bounded: bool) -> MeasureRead:
    if low.unit is None and high.unit is not None:
        low = replace(low, unit=high.unit)
    least, most = exact_figure(low, field, scope), exact_figure(high, field, scope)
    if least.value > most.value:
        raise Mistake(say.range_reversed(span, field.word, written(low), written(high)))
    if bounded:
        check_bounds(least, low, field, scope)
        check_bounds(most, high, field, scope)
    return MeasureRead(span, typed, least=least, most=most)


def _tolerance(field: Field, plain: Tolerance, typed: str, scope: Scope, bounded: bool) -> MeasureRead:
    unit = plain.nominal.unit or plain.second.unit or plain.first.unit
    numbers = [n if n.unit else replace(n, unit=unit) for n in (plain.nominal, plain.first, plain.second)]
    nominal = exact_figure(numbers[0], field, scope)
    limits = sorted(
        (exact_figure(n, field, scope, difference=True) for n in numbers[1:]), key=lambda limit: limit.value
    )
    if limits[0].value == limits[1].value:
        raise Mistake(say.tolerance_reversed(plain.span, field.word, typed))
    least, most = (
        replace(
            nominal,
            value=nominal.value + limit.value,
            half=max(nominal.half, limit.half),
            typed=f"{written(numbers[0])} {_signed(limit)}",
        )
        for limit in limits
    )
    if bounded:
        for limit in (least, most):
            check_bounds(limit, numbers[0], field, scope)
    away = limits[1] if limits[0].value == -limits[1].value else None
    return MeasureRead(plain.span, typed, nominal, least, most, away)


def _signed(limit: Exact) -> str:
    text = limit.typed
    return text if text[:1] in "+-−" or limit.value == 0 else f"{'-' if limit.value < 0 else '+'}{text}"


def _both(field: Field, both: Both, scope: Scope, bounded: bool) -> MeasureRead:
    first = _plain(field, both.first, scope, False)
    second = _plain(field, both.second, scope, False)
    pairs = list(zip(_figures(first), _figures(second), strict=True))
    if any((one is None) != (other is None) for one, other in pairs):
        raise Mistake(say.both_shapes(both.span, field.word, first.typed, second.typed))
    _compare_limits(field, both, scope, first, second)
    compared = [None if one is None or other is None else _compare(field, scope, one, other) for one, other in pairs]
    middle, low, high = [_used(pair, way) for pair, way in zip(pairs, compared, strict=True)]
    if low is not None and high is not None and None not in compared[1:]:
        low, high = _in_both(pairs[1], pairs[2], compared[1:], low, high)
    if bounded:
        for figure in (middle, low, high):
            if figure is not None:
                check_bounds(figure, _a_number(both.first), field, scope)
    typed = scope.typed(both.span) or f"{first.typed} = {second.typed}"
    away = first.away if middle is None or first.nominal is None or middle.value == first.nominal.value else second.away
    return MeasureRead(both.span, typed, middle, low, high, away)


class _Agrees(StrEnum):
    """How two figures that are to be one stand to each other: as rounded, or the second cut off, not rounded."""

    ROUNDED = "rounded"
    CUT_OFF = "cut off"


def _compare(field: Field, scope: Scope, one: Exact, other: Exact) -> _Agrees:
    """How a figure agrees with what stands behind its `=`. Raises Mistake where it does not."""
    if agree(one.value, one.half, other.value, other.half):
        return _Agrees.ROUNDED
    short = abs(one.value) - abs(other.value)
    if one.value * other.value > 0 and 0 < short < 2 * other.half:
        scope.say(say.second_cut_off(other.span, field.word, one.typed, other.typed, _as(one.value, other)))
        return _Agrees.CUT_OFF
    raise Mistake(_disagreement(field, scope, one, other))


def _used(pair: tuple[Exact | None, Exact | None], way: _Agrees | None) -> Exact | None:
    """The finer of the two, or the first where the second is cut off, with both as they were typed: a card in inches
    prints the inches."""
    one, other = pair
    if one is None or other is None:
        return None
    used = other if way is _Agrees.ROUNDED and other.half < one.half else one
    return replace(used, typed=f"{one.typed} = {other.typed}")


def _in_both(
    lows: tuple[Exact | None, Exact | None],
    highs: tuple[Exact | None, Exact | None],
    ways: Sequence[_Agrees | None],
    low: Exact,
    high: Exact,
) -> tuple[Exact, Exact]:
    """Two limits that hold in both units: a second unit that was rounded never widens them.

    Where rounding leaves nothing between them, the finer ones.
    """
    found = []
    for pair, way, used, inner in ((lows, ways[0], low, max), (highs, ways[1], high, min)):
        there = [one for one in pair if one is not None]
        within = used if way is _Agrees.CUT_OFF else inner(there, key=lambda one: one.value)
        found.append(replace(within, typed=used.typed))
    return (found[0], found[1]) if found[0].value <= found[1].value else (low, high)


def _a_number(plain: Plain) -> Number:
    """A number of a measure, for the unit that its owner writes in."""
    match plain:
        case Single(_, number) | PlusMinus(_, number) | OneSign(_, number, _) | OpenRange(_, number):
            return number
        case Range(_, low, high):
            return low if low.unit else high
        case Tolerance(_, nominal):
            return nominal
        case Listing(_, numbers) | Readings(_, numbers):
            return numbers[-1]


def _figures(measured: MeasureRead) -> tuple[Exact | None, Exact | None, Exact | None]:
    return measured.nominal, measured.least, measured.most


def _compare_limits(field: Field, both: Both, scope: Scope, first: MeasureRead, second: MeasureRead) -> None:
    """A tolerance is judged by its limits as well: 94.00 +/- 0.25 mm is not 3.701 +/- .0010 in."""
    if first.nominal is None or second.nominal is None or first.least is None:
        return
    one, other = first.nominal, second.nominal
    if abs(one.value - other.value) > one.half + 2 * other.half:
        return  # that is said first
    if not isinstance(both.first, Tolerance) or not isinstance(both.second, Tolerance):
        raise Mistake(say.both_shapes(both.span, field.word, first.typed, second.typed))
    plus_minus = both.first.plus_minus and both.second.plus_minus
    for here, there in zip(*(_departures(field, side, scope) for side in (both.first, both.second)), strict=True):
        sizes = [replace(each, value=abs(each.value)) if plus_minus else each for each in (here, there)]
        _compare(field, scope, *sizes)


def _departures(field: Field, plain: Tolerance, scope: Scope) -> list[Exact]:
    unit = plain.nominal.unit or plain.second.unit or plain.first.unit
    numbers = (n if n.unit else replace(n, unit=unit) for n in (plain.first, plain.second))
    return sorted((exact_figure(n, field, scope, difference=True) for n in numbers), key=lambda limit: limit.value)


def _disagreement(field: Field, scope: Scope, one: Exact, other: Exact) -> Message:
    """Two figures that are not the same. The first is taken as right, or the one that can be one of this field."""
    unit = "°C" if field.dimension is Dimension.TEMPERATURE else "mm"
    right, wrong = (other, one) if within_bounds(other, field) and not within_bounds(one, field) else (one, other)
    return say.units_disagree(
        other.span,
        field.word,
        one.typed,
        f"{_digits(one)} {unit}",
        other.typed,
        f"{float(abs(one.value - other.value)):.3g} {unit}",
        (right.typed, _as(right.value, wrong)) if field.dimension is Dimension.LENGTH else None,
    )


def _as(value: Fraction, like: Exact) -> str:
    """A length in the unit of another figure, to as many digits as that one has, three at least."""
    digits, _, unit = like.typed.rpartition(" ")
    unit = units.canonical_unit(unit) or "mm" if digits else "mm"
    in_unit = float(units.from_coherent(value, unit))
    bare = digits.lstrip("+-± ").lstrip("0.").replace(".", "") if digits else ""
    kept = max(3, len(bare)) if bare.isdigit() else 4
    places = max(0, kept - 1 - floor(log10(abs(in_unit)))) if in_unit else 3
    return f"{in_unit:.{places}f} {unit}"


def _digits(figure: Exact) -> str:
    return f"{float(figure.value):.6g}"
