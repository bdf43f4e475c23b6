"""What a word was meant to be where a figure, a unit or a date belongs. Called by whoever knows that it does."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date

from seatwright.syntax.numbers import units
from seatwright.syntax.numbers.slips_of_marks import Explained, explain_marks
from seatwright.syntax.tree import Word

# The patterns stand as texts: where nothing is wrong, none of them is compiled.
_NUMBER = r"[+-]?(?:[0-9]+-[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+\.?[0-9]*|\.[0-9]+)"
_UNIT = r"(?P<unit>[^0-9.,\s]*)"
_COMMA = r"[+-]?[0-9]*,[0-9]+(?:[.,][0-9]+)*" + _UNIT
_HYPHEN = rf"(?P<low>{_NUMBER})(?P<first>[^0-9.,\s+/-]*)-(?P<high>{_NUMBER}){_UNIT}"
_SLASH = rf"(?P<low>[0-9]*\.[0-9]+)/(?P<high>[0-9]*\.?[0-9]+){_UNIT}"
_SLASHES = r"[0-9.]+(?:/[0-9.]+){2,}" + _UNIT
_SIGNS = rf"(?P<nominal>[0-9]*\.?[0-9]+)(?P<first>[+-]{_NUMBER[5:]})(?P<second>[+-]{_NUMBER[5:]})?"
_PLUS_MINUS = rf"(?P<nominal>[0-9]*\.?[0-9]+)(?:\+/?-|±)(?P<away>{_NUMBER[5:]})"
_LETTERS = r"[+-]?(?=[^0-9]*[0-9])[0-9OoQlI|]*\.?[0-9OoQlI|]+" + _UNIT
_POINTS = r"[+-]?[0-9]*(?:\.[0-9]*){2,}" + _UNIT
_ZERO_UNDER = r"[+-]?(?:[0-9]+[- ])?[0-9]+/0+"
_IMPROPER = r"(?P<whole>[0-9]+)[- ](?P<over>[0-9]+)/(?P<under>[0-9]+)[ \t]*" + _UNIT
_MINUTES = r"[+-]?(?:[0-9]+°[ \t]*)?[6-9][0-9](?:\.[0-9]*)?'"
_POWER = r"[+-]?[0-9.]+[eE][+-]?[0-9]+"
_GLUED = rf"(?P<number>{_NUMBER})(?P<unit>[^0-9.,\s+-][^\s]*)"
_STROKES = str.maketrans("OoQlI|", "000111")


def explain_word(word: Word) -> Explained | None:
    """Why a word is no figure, where a figure belongs: a decimal comma, a hyphen for `to`, an O for a zero, ...

    None where the word looks like no figure at all.
    """
    typed = word.text
    for explain in (
        _comma,
        explain_marks,
        _points,
        _minutes,
        _zero_under,
        _improper,
        _hyphen,
        _slash,
        _signs,
        _power,
        _letters,
        _unit,
    ):
        if (explained := explain(typed)) is not None:
            return explained
    return None


def explain_unit(word: Word, fitting: Iterable[str] = ()) -> Explained | None:
    """What is wrong with a word behind a figure, where only a unit may stand: the nearest unit, or which of several.

    fitting: the units that may stand there, where that is known. Never None for a word of letters; None for what may
    be something else, such as a sign.
    """
    return _unit_of(word.text, tuple(fitting))


def _unit_of(typed: str, fitting: tuple[str, ...] = ()) -> Explained | None:
    if (which := units.asks_which(typed)) is not None:
        return ("unit-which", f"`{typed}` means more than one thing", f"Write out which: {which}.")
    if not typed[:1].isalpha() and typed[:1] not in "°µ":
        return None
    near = units.nearest_unit(typed)
    if near is not None and fitting and near not in fitting:
        near = None
    listed = ", ".join(f"`{unit}`" for unit in fitting or units.unit_table())
    if typed.lower() == "cm" and near:
        return ("unit-unknown", f"`{typed}` is no unit of this language", "Write it in `mm`: 1 cm is 10 mm.")
    what_to_do = f"Did you mean `{near}`?" if near else f"The units {'here ' if fitting else ''}are {listed}."
    return ("unit-unknown", f"`{typed}` is no unit of this language", what_to_do)


def explain_date(word: Word) -> Explained:
    """What is wrong with a word where a date belongs, with the date that was meant where that is certain."""
    days = _days_meant(word.text)
    if not days and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", word.text):
        return ("date-wanted", f"there is no day `{word.text}`", "Write year-month-day, and look at the month's days.")
    meant = "` or `".join(days) or "2026-11-16"
    return ("date-wanted", f"`{word.text}` is no date", f"Write year-month-day: `{meant}`.")


def _days_meant(typed: str) -> list[str]:
    """The days that a date in another order, or with its month in letters, may mean."""
    parts = re.fullmatch(r"([0-9]{1,4})[./ -]([0-9]{1,2})[./ -]([0-9]{1,4})", typed)
    guesses: list[tuple[int, int, int]] = []
    if parts is not None:
        first, second, third = (int(part) for part in parts.groups())
        year_first = [(first, second, third), (first, third, second)]
        guesses = year_first if first > 31 else [(third, second, first), (third, first, second)]
    elif (named := re.fullmatch(r"([0-9]{1,2})[. -]*([a-z]{3,9})[.,]?[ -]*([0-9]{2,4})", typed.lower())) is not None:
        guesses = [(int(named[3]), _MONTHS.find(named[2][:3]) // 3 + 1, int(named[1]))]
    elif (named := re.fullmatch(r"([a-z]{3,9})[.]?[ -]*([0-9]{1,2})[., -]+([0-9]{2,4})", typed.lower())) is not None:
        guesses = [(int(named[3]), _MONTHS.find(named[1][:3]) // 3 + 1, int(named[2]))]
    return sorted({day.isoformat() for guess in guesses if (day := _day(*guess)) is not None})


_MONTHS = "janfebmaraprmayjunjulaugsepoctnovdec"


def _day(year: int, month: int, day: int) -> date | None:
    try:
        return date(year if year > 99 else 2000 + year, month, day)
    except ValueError:
        return None


def _comma(typed: str) -> Explained | None:
    match = re.fullmatch(_COMMA, typed)
    if match is None or not _is_unit(match["unit"]):
        return None
    digits, unit = typed[: match.start("unit")], f" {match['unit']}" if match["unit"] else ""
    if digits.count(",") == 1 and "." not in digits:
        meant = f"Write `{digits.replace(',', '.')}{unit}`"
        if re.fullmatch(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}", digits):
            meant += f", or `{digits.replace(',', '')}{unit}` if the comma parts thousands"
        return ("decimal-comma", f"`{typed}` is no number: a comma is no decimal point", meant + ".")
    return (
        "decimal-comma",
        f"`{typed}` is no number",
        f"Write it without commas: `{digits.replace(',', '')}{unit}`.",
    )


def _points(typed: str) -> Explained | None:
    match = re.fullmatch(_POINTS, typed)
    if match is None or not any(character.isdigit() for character in typed) or not _is_unit(match["unit"]):
        return None
    return ("figure-points", f"`{typed}` has more than one decimal point", "Write the figure with one point.")


def _minutes(typed: str) -> Explained | None:
    if re.fullmatch(_MINUTES, typed) is None:
        return None
    return ("fraction-improper", f"`{typed}` is no angle", "Minutes go up to 59; 60 minutes are one degree.")


def _zero_under(typed: str) -> Explained | None:
    if re.fullmatch(_ZERO_UNDER, typed) is None:
        return None
    return (
        "fraction-zero",
        f"`{typed}` has a zero below the line",
        "Write the fraction again, as in `9/16`.",
    )


def _improper(typed: str) -> Explained | None:
    match = re.fullmatch(_IMPROPER, typed)
    if match is None or not _is_unit(match["unit"]) or int(match["over"]) < int(match["under"]):
        return None
    return (
        "fraction-improper",
        f"`{typed}` is no figure: {match['over']}/{match['under']} is not below 1",
        f"Behind a whole number stands a fraction below 1, as in `{match['whole']}-5/8`.",
    )


def _hyphen(typed: str) -> Explained | None:
    match = re.fullmatch(_HYPHEN, typed)
    if match is None or not _is_unit(match["unit"]) or not _is_unit(match["first"]):
        return None
    unit = f" {match['unit']}" if match["unit"] else ""
    meant = f"{match['low']} to {match['high']}{unit}"
    return ("range-hyphen", f"`{typed}` is no figure", f"A range is written `{meant}`.")


def _slash(typed: str) -> Explained | None:
    match = re.fullmatch(_SLASH, typed)
    if match is not None and _is_unit(match["unit"]):
        unit = f" {match['unit']}" if match["unit"] else ""
        meant = f"{match['low']} to {match['high']}{unit}"
        return ("range-slash", f"`{typed}` is no figure", f"A range is written `{meant}`.")
    match = re.fullmatch(_SLASHES, typed)
    if match is not None and _is_unit(match["unit"]):
        return (
            "reading-whole",
            f"`{typed}` is no figure",
            "Several readings stand in one cell, each with a decimal point: `9.020/9.022/9.021`.",
        )
    return None


def _signs(typed: str) -> Explained | None:
    if (match := re.fullmatch(_PLUS_MINUS, typed)) is not None:
        meant = f"{match['nominal']} +/- {match['away']}"
    elif (match := re.fullmatch(_SIGNS, typed)) is not None:
        meant = f"{match['nominal']} {match['first']} {match['second'] or '0'}"
    else:
        return None
    return (
        "tolerance-glued",
        f"`{typed}` runs together",
        f"A tolerance is written `{meant}`, parted by blanks.",
    )


def _power(typed: str) -> Explained | None:
    if re.fullmatch(_POWER, typed) is None:
        return None
    return ("figure-power", f"`{typed}` is no figure here", "Write it out in plain digits, as in `0.0012`.")


def _letters(typed: str) -> Explained | None:
    match = re.fullmatch(_LETTERS, typed)
    if match is None or not _is_unit(match["unit"]):
        return None
    digits = typed[: match.start("unit")]
    if digits.translate(_STROKES) == digits:
        return None
    meant = digits.translate(_STROKES) + (f" {match['unit']}" if match["unit"] else "")
    return (
        "letter-for-digit",
        f"`{typed}` has a letter where a digit belongs",
        f"Write it in digits: `{meant}`?",
    )


def _unit(typed: str) -> Explained | None:
    match = re.fullmatch(_GLUED, typed)
    if match is None or _is_unit(match["unit"]):
        return None
    return _unit_of(match["unit"])


def _is_unit(unit: str) -> bool:
    return not unit or units.canonical_unit(unit) is not None
