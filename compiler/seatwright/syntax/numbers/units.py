"""The closed table of units: the words a person may type, and what they are worth.

The words come from grammar/units.txt by a plain reading of its comments; what they are worth comes from the same file
through pint, as exact fractions, reckoned once and shipped (syntax/making.py). No text of a job ever reaches pint.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache

from msgspec import Struct

from seatwright.syntax import made, suggest
from seatwright.text.shipped import shipped

COHERENT: Mapping[str, str] = {
    "length": "millimetre",
    "temperature": "degree_celsius",
    "angle": "degree",
    "time": "second",
    "months": "calendar_month",
    "speed": "revolution_per_minute",
    "surface-speed": "metre_per_minute",
    "feed": "millimetre_per_revolution",
    "level": "millimetre_per_metre",
    "force": "newton",
    "torque": "newton_metre",
    "pressure": "megapascal",
    "expansion": "per_kelvin",
}
"""What the house reckons in, by dimension: mm, °C, °, s, months of the calendar, rpm,
m/min, mm/rev, mm/m, N, N·m, MPa, 1/°C."""

_FOREIGN: Mapping[str, str] = {
    "cm": "mm", "millimeter": "mm", "millimeters": "mm", "millimetre": "mm", "millimetres": "mm",
    "micron": "um", "microns": "um", "mu": "um", "inches": "in", "ins": "in", "thous": "thou",
    "thousandth": "thou", "thousandths": "thou", "celsius": "C", "centigrade": "C", "degc": "C",
    "fahrenheit": "F", "degf": "F", "degree": "deg", "degrees": "deg", "sec": "s", "secs": "s", "second": "s",
    "seconds": "s", "mins": "min", "minutes": "min", "lb": "lbf", "lbs": "lbf", "newton": "N", "newtons": "N",
    "n/mm2": "MPa", "n/mm²": "MPa", "n-m": "Nm", "ft-lbs": "ft-lb", "in-lbs": "in-lb", "inhg": "in-Hg",
    "r/min": "rpm", "mm/min": "mm/rev", "sfm": "ft/min", "fpm": "ft/min", "1/min": "rpm", "ipr": "in/rev",
}  # fmt: skip

_WHICH: Mapping[str, str] = {
    "tenth": ".0001 in or 0.1 mm",
    "mil": ".001 in or a millimetre",
    "ton": "8.90 kN (2,000 lbf), 9.81 kN (1,000 kg) or 9.96 kN (2,240 lbf)",
}


class Unit(Struct, frozen=True):
    """A unit of the language: its canonical word, its dimension, its name in pint's form, all its words."""

    word: str
    dimension: str
    name: str
    words: tuple[str, ...]


def text_of_units() -> str:
    """The units as they stand in grammar/units.txt, and what the house reckons in."""
    return f"{_text()}{dict(COHERENT)}"


def _text() -> str:
    return shipped("seatwright.grammar", "units.txt").decode("utf-8")


@cache
def unit_table() -> Mapping[str, Unit]:
    """All units by their canonical word, in the order of grammar/units.txt."""
    units = {}
    for line in _text().splitlines():
        definition, _, remark = line.partition("#")
        if not definition.strip() or not remark.strip():
            continue
        dimension, _, words = remark.partition(":")
        unit = Unit(words.split()[0], dimension.strip(), definition.partition("=")[0].strip(), tuple(words.split()))
        units[unit.word] = unit
    return units


@cache
def _spellings() -> Mapping[str, str]:
    return {word.lower(): unit.word for unit in unit_table().values() for word in unit.words}


def canonical_unit(text: str) -> str | None:
    """The canonical word of a unit as typed (`"` is `in`, `°c` is `C`), None where it is no unit."""
    return _spellings().get(text.lower())


def dimension(unit: str) -> str:
    """What a unit measures, by its canonical word: a key of COHERENT. Raises KeyError where it is no unit."""
    return unit_table()[unit].dimension


def words_of(of_dimension: str) -> tuple[str, ...]:
    """The canonical words of the units of a dimension, for a message."""
    return tuple(unit.word for unit in unit_table().values() if unit.dimension == of_dimension)


def nearest_unit(text: str) -> str | None:
    """The unit that a word behind a number was probably meant to be, None where none is near."""
    typed = text.lower()
    if typed in _FOREIGN:
        return _FOREIGN[typed]
    found = suggest.near(typed, _spellings())
    order = list(_spellings())
    best = min(found, key=lambda word: (suggest.distance(typed, word), order.index(word)), default="")
    return canonical_unit(best)


def asks_which(text: str) -> str | None:
    """For `tenth`, `mil` and `ton`, which mean more than one thing: the meanings to choose from. Else None."""
    typed = text.lower()
    for ending in ("", "s", "ne", "nes"):
        if typed.endswith(ending) and (which := _WHICH.get(typed[: len(typed) - len(ending)])):
            return which
    return None


@cache
def _worth() -> Mapping[str, tuple[Fraction, Fraction]]:
    """For each unit the factor to the coherent unit of its dimension, and the offset, both exact."""
    found = made.WORTH if made.is_of(made.UNITS_MARK, text_of_units()) else worth_by_pint()
    return {unit: (Fraction(*factor), Fraction(*offset)) for unit, (factor, offset) in found.items()}


_Ratio = tuple[int, int]


def worth_by_pint() -> dict[str, tuple[_Ratio, _Ratio]]:
    """Factor and offset as numerators and denominators, reckoned by pint from the definitions in grammar/units.txt."""
    import pint

    registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(None, non_int_type=Fraction)
    registry.load_definitions(_text().splitlines())
    worth = {}
    for unit in unit_table().values():
        coherent = COHERENT[unit.dimension]
        zero, one = (Fraction(registry.Quantity(Fraction(count), unit.name).to(coherent).magnitude) for count in (0, 1))
        worth[unit.word] = ((one - zero).as_integer_ratio(), zero.as_integer_ratio())
    return worth


def to_coherent(value: Fraction, unit: str) -> Fraction:
    """A figure in the coherent unit of its dimension, exactly: 1 in is 25.4 mm, 68 F is 20 °C.

    unit: a canonical word. Raises KeyError where it is no unit.
    """
    factor, offset = _worth()[unit]
    return value * factor + offset


def difference_to_coherent(value: Fraction, unit: str) -> Fraction:
    """A difference (a limit, a half digit) in the coherent unit, exactly: 9 F of difference are 5 °C."""
    return value * _worth()[unit][0]


def from_coherent(value: Fraction, unit: str) -> Fraction:
    """A figure in the coherent unit, said in another of the same dimension, exactly: 20 °C is 68 F."""
    factor, offset = _worth()[unit]
    return (value - offset) / factor
