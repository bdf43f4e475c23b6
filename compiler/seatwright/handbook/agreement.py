"""Do two printed figures mean the same? Reckoned exactly, because printed pairs often lie on the very limit."""

from __future__ import annotations

from fractions import Fraction

__all__ = ["FIT_AGREES_WITHIN", "agree", "exact", "fit_consistent", "half_last_digit"]

FIT_AGREES_WITHIN = Fraction("0.005")
"""How far stated interference and the sizes it follows from may differ [mm]. Source: common practice."""


def exact(figure: float | str | Fraction) -> Fraction:
    """The figure as it is written in decimals, exactly [any unit]; 0.1 is one tenth.

    Raises ValueError for a figure without an end. Source: arithmetic.

    >>> exact(0.064)
    Fraction(8, 125)
    """
    if isinstance(figure, Fraction):
        return figure
    return Fraction(figure if isinstance(figure, str) else repr(figure))


def half_last_digit(written: str) -> Fraction:
    """Half a last digit of a figure as written [its unit]; of a fraction nothing, it is exact.

    Raises ValueError for what is not a figure. Source: arithmetic; a printed figure is rounded to its last digit.

    >>> half_last_digit("0.064"), half_last_digit(".002"), half_last_digit("9/16")
    (Fraction(1, 2000), Fraction(1, 2000), Fraction(0, 1))
    """
    bare = written.strip().lstrip("+-")
    if "/" in bare:
        Fraction(bare.split("-")[-1])
        return Fraction(0)
    whole, _, decimals = bare.partition(".")
    if not (whole + decimals).isdecimal():
        raise ValueError(f"{written!r} is not a figure")
    return Fraction(1, 2 * 10 ** len(decimals))


def agree(a: Fraction, half_digit_a: Fraction, b: Fraction, half_digit_b: Fraction) -> bool:
    """Whether two figures in the same unit differ by no more than half a last digit of each.

    `a`, `b`: the figures, both in one unit [mm]; `half_digit_a`, `half_digit_b`: half a last digit of each, in that
    unit too [mm]. Exact: pass fractions, not floats. Raises ValueError for a negative half digit.
    Source: arithmetic; printed pairs of mm and inch are rounded, each to its last digit.

    >>> inch = Fraction("25.4")
    >>> agree(exact("0.064"), half_last_digit("0.064"), exact(".002") * inch, half_last_digit(".002") * inch)
    True
    """
    if half_digit_a < 0 or half_digit_b < 0:
        raise ValueError("half a last digit cannot be negative")
    return abs(a - b) <= half_digit_a + half_digit_b


def fit_consistent(
    od_least: float,
    od_most: float,
    bore_least: float,
    bore_most: float,
    interference_least: float,
    interference_most: float,
) -> bool:
    """Whether stated limits of insert, bore and interference belong together, within `FIT_AGREES_WITHIN`.

    I_least = od_least − bore_most, I_most = od_most − bore_least, reckoned exactly.

    All limits at 20 °C [mm]. Raises ValueError for crossed limits.
    Source: ISO 286-1, definition of interference.

    >>> fit_consistent(33.065, 33.078, 33.000, 33.015, 0.050, 0.078)
    True
    >>> fit_consistent(33.065, 33.078, 33.000, 33.015, 0.040, 0.066)
    False
    """
    if od_least > od_most or bore_least > bore_most:
        raise ValueError(
            f"a least limit is over its most: insert {od_least} to {od_most}, bore {bore_least} to {bore_most}"
        )
    least = exact(od_least) - exact(bore_most)
    most = exact(od_most) - exact(bore_least)
    return (
        abs(least - exact(interference_least)) <= FIT_AGREES_WITHIN
        and abs(most - exact(interference_most)) <= FIT_AGREES_WITHIN
    )
