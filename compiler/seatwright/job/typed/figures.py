"""From digits and a unit to an exact figure, and whether it can be one of a real head."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache, lru_cache

from msgspec import Struct
from msgspec.structs import replace

from seatwright.job.declarations import TAKES_ONE_LIMIT, Bounds, Dimension, Field
from seatwright.job.model import Given
from seatwright.job.typed.gather import Mistake
from seatwright.job.typed.scope import Scope
from seatwright.job.wording import of_values as say
from seatwright.syntax.numbers import units
from seatwright.syntax.numbers.slips_of_marks import explain_marks, limit_behind
from seatwright.syntax.tree import Number
from seatwright.text import Span

# To look up a member of an enum takes five times as long as a name, and every cell asks for these.
_LENGTH, _ANGLE, _PLAIN = Dimension.LENGTH, Dimension.ANGLE, Dimension.PLAIN
_NAMES = {Dimension.PLAIN: "plain number", Dimension.SURFACE_SPEED: "surface speed"}


class Exact(Struct, frozen=True):
    """A figure in the units of the model, exactly. half: half of the last digit typed; bare: no unit was typed."""

    value: Fraction
    half: Fraction
    typed: str
    span: Span
    bare: bool

    def given(self, source: str = "") -> Given:
        """The figure as the model keeps it."""
        return Given(as_float(self.value), self.typed, self.span, as_float(self.half), source)

    def scaled(self, factor: Fraction) -> Exact:
        """The same as typed, counted as a multiple: half of a needle's movement, the other way round."""
        return replace(self, value=self.value * factor, half=self.half * abs(factor))


def as_float(value: Fraction) -> float:
    """What `float(value)` is, in less than half the time: that goes through the number classes of Python's library."""
    numerator, denominator = value.as_integer_ratio()
    return numerator / denominator


def dimension_name(dimension: Dimension) -> str:
    """A dimension in the words of a message."""
    return _NAMES.get(dimension, dimension.value)


def written(number: Number) -> str:
    """A number as typed, with the unit that holds for it, also where that stands behind another number."""
    typed = " ".join((number.written or number.typed).split())
    bare = number.unit is None or typed != number.typed or typed.endswith("'")
    return typed if bare else f"{typed} {number.unit}"


def exact_figure(number: Number, field: Field, scope: Scope, *, difference: bool = False) -> Exact:
    """A number of a field as an exact figure.

    difference: it is a limit or an uncertainty, so a temperature's zero does not count. Raises Mistake where its unit
    is missing or measures something else.
    """
    dimension = field.dimension or _PLAIN
    unit = _unit(number, dimension, field, scope)
    value, half = number.value, number.half_digit
    if unit not in _AS_IT_IS:
        value = _in_house_units(*value.as_integer_ratio(), unit, difference)
        half = _in_house_units(*half.as_integer_ratio(), unit, True)
    return Exact(value, half, written(number), number.span, number.unit is None)


def checked(number: Number, field: Field, scope: Scope) -> Exact:
    """A number of a field as an exact figure that a real head, insert or shop can show. Raises Mistake."""
    figure = exact_figure(number, field, scope)
    check_bounds(figure, number, field, scope)
    return figure


def _unit(number: Number, dimension: Dimension, field: Field, scope: Scope) -> str | None:
    if number.unit is None:
        if dimension is _LENGTH:
            return scope.unit
        if dimension is _ANGLE or dimension is _PLAIN:
            return None
        raise Mistake(
            say.unit_missing(
                number.span, field.word, number.typed, dimension_name(dimension), units.words_of(dimension.value)
            )
        )
    measures = units.dimension(number.unit)
    if dimension is _LENGTH and number.typed.endswith("'") and "°" not in number.typed:
        slip = explain_marks(number.typed)  # `5'`: feet, or half of an inch mark
        if slip is not None:
            raise Mistake(say.explained(number.span, field.word, slip))
    if number.unit == "min" and measures != dimension.value and field.form in TAKES_ONE_LIMIT:
        raise Mistake(say.explained(number.span, field.word, limit_behind(number.typed, "min")))
    if measures != dimension.value:
        raise Mistake(
            say.unit_kind(
                number.span,
                field.word,
                written(number),
                number.unit,
                measures.replace("-", " "),
                dimension_name(dimension),
                () if dimension is Dimension.PLAIN else units.words_of(dimension.value),
            )
        )
    return number.unit


# A length in mm and an angle in degrees need no table, so a plain metric job starts without one.
_AS_IT_IS = frozenset({None, "mm", "deg"})


@cache
def _worth(unit: str | None) -> tuple[Fraction, Fraction]:
    if unit in _AS_IT_IS:
        return Fraction(1), Fraction(0)
    assert unit is not None
    offset = units.to_coherent(Fraction(0), unit)
    factor = units.to_coherent(Fraction(1), unit) - offset
    if units.dimension(unit) == Dimension.LEVEL.value:
        return factor / 1000, offset  # the model counts a level as rise over run
    return factor, offset


# By whole numbers, which are looked up faster than fractions are multiplied.
@lru_cache(maxsize=4096)
def _in_house_units(numerator: int, denominator: int, unit: str | None, difference: bool) -> Fraction:
    factor, offset = _worth(unit)
    return Fraction(numerator, denominator) * factor + (0 if difference else offset)


def check_bounds(figure: Exact, number: Number, field: Field, scope: Scope) -> None:
    """Refuse a figure that no real head, insert or shop can show. Raises Mistake, which offers what was meant."""
    bounds = field.bounds
    if bounds is None or _inside(figure.value, bounds):
        return
    dimension = field.dimension or Dimension.PLAIN
    if figure.bare and dimension is Dimension.LENGTH and scope.units is None:
        return  # what a bare length is in is not known, which has been said
    shown = number.unit or (scope.unit if dimension is Dimension.LENGTH else None)
    is_ = ""
    if dimension is Dimension.LENGTH and shown != "mm":
        is_ = f"{_plain(figure.value)} mm"
    elif dimension is Dimension.LENGTH and figure.bare:
        is_ = f"{number.typed} mm"
    meant = _meant(number, field, bounds, shown)
    in_units = scope.units or "" if figure.bare and dimension is Dimension.LENGTH else ""
    raise Mistake(
        say.figure_unlikely(
            number.span,
            field.word,
            figure.typed,
            is_,
            say_figure(bounds.least, dimension, shown),
            say_figure(bounds.most, dimension, shown),
            meant,
            in_units,
        )
    )


def within_bounds(figure: Exact, field: Field) -> bool:
    """Whether a real head, insert or shop can show a figure in a field."""
    return field.bounds is None or _inside(figure.value, field.bounds)


def _inside(value: Fraction, bounds: Bounds) -> bool:
    # Rounding never takes a figure past a bound, so what lies between them rounded does so exactly.
    if bounds.least < as_float(value) < bounds.most:
        return True
    # Bounds are typed as decimals; a figure that is exactly one of them is inside.
    return Fraction(str(bounds.least)) <= value <= Fraction(str(bounds.most))


def _meant(number: Number, field: Field, bounds: Bounds, unit: str | None) -> tuple[str, ...]:
    """What was probably meant by a figure out of bounds: another unit, a decimal point moved, a sign."""
    dimension = field.dimension or Dimension.PLAIN
    if dimension is Dimension.ANGLE:
        ways = (("from-axis", 90 - number.value), ("included", 90 - number.value / 2))
        return tuple(f"{number.typed} {way}" for way, value in ways if _inside(value, bounds))[:1]
    found = [] if dimension is Dimension.PLAIN else _in_another_unit(number, dimension, bounds, unit)
    factor, offset = (Fraction(1), Fraction(0)) if unit is None else _worth(unit)
    behind = f" {number.unit}" if number.unit else ""
    moved = (
        []
        if re.fullmatch(_PLAIN_DIGITS, number.typed) is None
        else [
            typed
            for shift in _shifts(number.typed)
            if (typed := _moved(number.typed, shift)) and _inside(Fraction(typed) * factor + offset, bounds)
        ]
    )
    whole = number.typed.isdigit()
    if dimension is Dimension.LENGTH and whole and unit == "mm" and moved and bounds.most < 10:
        # `8` in a field of hundredths: 0.08 is as likely as 8 of another unit.
        found = [moved[-1], *(each for each in found if each.endswith("um"))]
    elif dimension is Dimension.TEMPERATURE and not number.signed and _inside(-number.value * factor + offset, bounds):
        found.append(f"-{number.typed}{behind}")
    elif not found or (unit == "mm" and not whole):
        # Where no unit explains it, or where it may have been in centimetres.
        larger = [typed for typed in moved if Fraction(typed) > number.value]
        found += [typed + behind for typed in (larger if found else moved)]
    return tuple(found[:2])


def _in_another_unit(number: Number, dimension: Dimension, bounds: Bounds, unit: str | None) -> list[str]:
    choices = ("mm", "in", "thou", "um") if dimension is Dimension.LENGTH else units.words_of(dimension.value)
    if unit == "in" and number.typed.isdigit():
        choices = ("thou", "mm")  # `4` for .004
    fits = []
    for other in choices:
        if other != unit:
            factor, offset = _worth(other)
            if _inside(number.value * factor + offset, bounds):
                fits.append(f"{number.typed} {other}")
    return (
        fits[:1]
        if unit == "in" or dimension is not Dimension.LENGTH
        else fits[:1] + [each for each in fits[1:] if each.endswith("um") and number.typed.isdigit()]
    )


_PLAIN_DIGITS = r"[+-]?[0-9]*\.?[0-9]*"


def _shifts(typed: str) -> tuple[int, ...]:
    """How far a decimal point may have slipped, the likeliest first: one place, or two in a whole number."""
    return (-1, 1, -2) if typed.lstrip("+-").isdigit() else (-1, 1)


def _moved(typed: str, shift: int) -> str:
    """A figure with its decimal point moved, empty where that is not possible."""
    sign = typed[:1] if typed[:1] in "+-" else ""
    ones, _, places = typed.lstrip("+-").partition(".")
    digits, at = ones + places, len(ones) + shift
    if at < 0:
        digits, at = "0" * -at + digits, 0
    if at > len(digits):
        return ""
    ones, places = digits[:at].lstrip("0") or "0", digits[at:]
    return sign + (f"{ones}.{places}" if places else ones)


def say_figure(value: float, dimension: Dimension, unit: str | None) -> str:
    """A figure of the model in the unit that its reader typed."""
    if dimension is Dimension.PLAIN:
        return f"{value:g}"
    if dimension is Dimension.ANGLE:
        return f"{value:g}°"
    if unit is None:
        return f"{value:g}"
    factor, offset = _worth(unit)
    return f"{float((Fraction(str(value)) - offset) / factor):.4g} {unit}"


def _plain(value: Fraction) -> str:
    return f"{float(value):.6g}"
