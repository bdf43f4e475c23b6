"""Figures that belong together: ranges, tolerances, lists, readings, and what can be wrong with them by themselves."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec.structs import replace

from seatwright.syntax.numbers import units
from seatwright.syntax.numbers.values import Piece, ends, number_at
from seatwright.syntax.tokens import Token, Tree
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
from seatwright.text import Message, Severity, Span
from seatwright.text.slugs import ErrorSlug

_FIGURES = frozenset(("QUANTITY", "SIGNED", "ZERO", "FIGURE"))


class Slip(Exception):
    """A measure that is wrong whatever field it stands in; carries its message."""

    def __init__(self, slug: ErrorSlug, span: Span, text: str, what_to_do: str) -> None:
        super().__init__(text)
        self.message = Message(Severity.ERROR, slug, span, text, what_to_do)


def measure(piece: Piece, tree: Tree) -> Measure | Word:
    """The measure that a rule of the grammar stands for; a lone figure that is none (`1-5/4`) is a Word.

    Raises Slip where it is wrong in every field.
    """
    kind = tree.data
    if kind in ("both", "figures"):
        left, _, right = tree.children
        first = _side_beside(piece, left, right)
        second = _side_beside(piece, right, left)
        return Both(first.span.to(second.span), first, second)
    if kind in ("slip_equals", "slip_figure_equals", "slip_last_equals"):
        sign = next(child for child in tree.children if isinstance(child, Token) and child.type == "EQUALS")
        raise Slip(
            "equals-open",
            piece.span(*ends(sign)),
            "`=` says the same figure twice, but no figure stands behind it",
            "Write the figure in the other unit behind it, as in `1.739 in = 44.17 mm`, or leave `=` out.",
        )
    if kind == "single":
        return single(piece, _token(tree.children[0]))
    return _plain(piece, tree)


def single(piece: Piece, token: Token) -> Single | Word:
    """A figure on its own, or the Word that it is where its fraction or its minutes make no figure."""
    start, end = token.start_pos, token.end_pos
    read = number_at(piece, start, end)
    if read is None:
        return Word(piece.span(start, end), piece.typed[start:end])
    return Single(read.span, read)


def readings(piece: Piece, token: Token) -> Readings:
    """`9.020/9.022/9.021`: several readings of one thing, a unit behind the last for all."""
    start, end = ends(token)
    numbers = []
    at = start
    for part in piece.characters[start:end].split("/", _slashes(piece.characters[start:end])):
        numbers.append(_sure(piece, at, at + len(part)))
        at += len(part) + 1
    return Readings(piece.span(start, end), _shared(tuple(numbers)))


def _slashes(characters: str) -> int:
    """How many slashes part readings; those of a unit (`mm/m`) do not."""
    digits = len(characters.rstrip("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZµμ°″-/ \t"))
    return characters.count("/", 0, digits)


def _side_beside(piece: Piece, child: Token | Tree, other: Token | Tree) -> Plain:
    """One side of `=`; where it runs downwards for want of a decimal place, the other side tells which was meant."""
    try:
        return _side(piece, child)
    except Slip as slip:
        if slip.message.slug != "range-reversed" or isinstance(child, Token) or isinstance(other, Token):
            raise
        sizes = [[_sure(piece, *ends(_token(each))) for each in side.children if _token(each).type in _FIGURES]
                 for side in (child, other)]  # fmt: skip
        if not all(len(each) == 2 for each in sizes):
            raise
        message = slip.message
        assert message.span is not None
        meant = _as_beside(*sizes)
        said = f"By the other side of `=` it is `{meant}`." if meant else "Look at the other side of `=`."
        raise Slip("range-reversed", message.span, message.text, said) from None


def _as_beside(here: Sequence[Number], there: Sequence[Number]) -> str | None:
    """A range that runs downwards, one end or both put right by the other side of `=`; None without units."""
    unit, other = here[1].unit or here[0].unit, there[1].unit or there[0].unit
    if unit is None or other is None or units.dimension(unit) != units.dimension(other):
        return None
    places = max(len(one.typed.partition(".")[2]) for one in here)
    right = [f"{float(units.from_coherent(units.to_coherent(one.value, other), unit)):.{places}f}" for one in there]
    lows, highs = ((one.typed, one.value) for one in here)
    low, high = ((text, Fraction(text)) for text in right)
    ways = ((low, highs), (lows, high), (low, high))
    return next((f"{one[0]} to {two[0]} {unit}" for one, two in ways if one[1] < two[1]), None)


def _side(piece: Piece, child: Token | Tree) -> Plain:
    if isinstance(child, Token):
        return _lone(_sure(piece, *ends(child)))
    return _plain(piece, child)


def _lone(read: Number) -> Single:
    return Single(read.span, read)


def _plain(piece: Piece, tree: Tree) -> Plain:
    tokens = [_token(child) for child in tree.children]
    numbers = [_sure(piece, *ends(token)) for token in tokens if token.type in _FIGURES]
    span = piece.span(ends(tokens[0])[0], ends(tokens[-1])[1])
    match tree.data:
        case "single":
            return _lone(numbers[0])
        case "range":
            low, high = _shared(numbers)
            _check_order(span, low, high)
            return Range(span, low, high)
        case "tolerance" if len(numbers) == 2:
            nominal, limit = _shared_with_nominal(numbers)
            _check_unsigned(limit)
            return Tolerance(
                span,
                nominal,
                replace(limit, value=-limit.value, signed=True),
                replace(limit, signed=True),
                True,
            )
        case "tolerance":
            nominal, first, second = _shared_with_nominal(numbers)
            return Tolerance(span, nominal, first, second, False)
        case "plus_minus":
            _check_unsigned(numbers[0])
            return PlusMinus(span, numbers[0])
        case "listing":
            return Listing(span, _shared(numbers))
        case "slip_one_sign":
            if "deg" not in (numbers[0].unit, numbers[1].unit):
                raise _one_sign(OneSign(span, numbers[0], numbers[1]))
            # Manuals print the one limit of an angle alone: the other is 0.
            nominal, limit = _shared_with_nominal(numbers)
            return Tolerance(span, nominal, limit, replace(limit, typed="0", written="0", value=Fraction(0)), False)
        case "slip_open_range":
            raise _open_range(OpenRange(span, numbers[0]))
        case _:
            nominal_typed = f"{numbers[0].typed} " if numbers else ""
            raise Slip(
                "tolerance-open",
                span,
                f"no limit stands behind `{piece.typed[slice(*ends(tokens[-1]))]}`",
                f"Write the limit behind it, as in `{nominal_typed}+/- 0.02`.",
            )


def _one_sign(slip: OneSign) -> Slip:
    nominal, limit = slip.nominal, slip.limit
    size = limit.typed.lstrip("+-")
    unit = f" {limit.unit}" if limit.unit else ""
    other = f"{nominal.typed} {limit.typed} 0{unit}"
    what_to_do = f"Write `{nominal.typed} +/- {size}{unit}` if it is meant both ways, `{other}` if one way only."
    if limit.value < 0 and abs(limit.value) * 2 >= abs(nominal.value):
        what_to_do += f" A range is written `{nominal.typed} to {size}{unit}`."
    return Slip(
        "tolerance-half",
        slip.span,
        f"`{nominal.typed} {limit.typed}`: a tolerance has two limits",
        what_to_do,
    )


def _open_range(slip: OpenRange) -> Slip:
    typed = slip.low.written
    return Slip(
        "range-open",
        slip.span,
        f"`{typed} to` has no second end",
        f"Write the other end behind `to`; one limit alone is written `least {typed}` or `most {typed}`.",
    )


def _check_order(span: Span, low: Number, high: Number) -> None:
    if low.unit == high.unit and low.value > high.value:
        unit = f" {high.unit}" if high.unit else ""
        raise Slip(
            "range-reversed",
            span,
            f"the range from {low.typed} to {high.typed} runs downwards",
            f"The smaller end comes first: `{high.typed} to {low.typed}{unit}`.",
        )


def _check_unsigned(limit: Number) -> None:
    if limit.signed:
        raise Slip(
            "tolerance-sign",
            limit.span,
            f"`{limit.typed}` has a sign of its own behind `+/-`",
            f"Leave the sign out: `+/- {limit.typed.lstrip('+-')}`.",
        )


def _shared(numbers: Sequence[Number]) -> tuple[Number, ...]:
    """The unit behind the last number given to those that have none; Slip where only an earlier one has a unit."""
    last = numbers[-1].unit
    if last is None:
        for one in numbers:
            if one.unit is not None:
                raise _unit_last(one)
        return tuple(numbers)
    return tuple(one if one.unit else replace(one, unit=last) for one in numbers)


def _shared_with_nominal(numbers: Sequence[Number]) -> tuple[Number, ...]:
    """As _shared, and a unit behind the nominal holds for the limits too."""
    nominal, *limits = numbers
    if nominal.unit is not None and all(limit.unit is None for limit in limits):
        shared = (nominal, *(replace(limit, unit=nominal.unit) for limit in limits))
    else:
        # A bare 0 is 0 in any unit, so it stands before or behind one that has a unit.
        unit = next((limit.unit for limit in limits if limit.unit is not None), None)
        shared = _shared([nominal, *(limit if limit.value else replace(limit, unit=unit) for limit in limits)])
    _check_minutes(numbers)
    return shared


def _check_minutes(numbers: Sequence[Number]) -> None:
    """Beside minutes a bare limit is asked about: 15 degrees is not what stands behind `20°30' +/- 15`."""
    if not any(one.typed.endswith("'") for one in numbers):
        return
    for one in numbers[1:]:
        if one.value and one.unit is None:
            size = one.typed.lstrip("+-")
            sign = one.typed[: len(one.typed) - len(size)]
            raise Slip(
                "unit-which",
                one.span,
                f"`{one.typed}` beside minutes may be degrees or minutes",
                f"Write which: `{sign}{size}'` or `{sign}{size}°`.",
            )


def _unit_last(one: Number) -> Slip:
    return Slip(
        "unit-last",
        one.span,
        f"`{one.written}` has a unit, and the last figure has none",
        f"Write the unit behind the last figure; there it holds for all: `{one.unit}`.",
    )


def _sure(piece: Piece, start: int, end: int) -> Number:
    """A figure inside a measure, where it cannot be anything else."""
    read = number_at(piece, start, end)
    if read is None:
        raise Slip(
            "fraction-improper",
            piece.span(start, end),
            f"`{piece.typed[start:end]}` is no figure",
            "Behind a whole number stands a fraction below 1, as in `1-5/8`; behind degrees, minutes below 60.",
        )
    return read


def _token(child: Token | Tree) -> Token:
    assert isinstance(child, Token)
    return child
