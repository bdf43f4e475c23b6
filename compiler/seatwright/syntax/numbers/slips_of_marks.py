"""What a word was meant to be that has a mark, a sign or a word too many at its figure: `7;97`, `1.6..2.0`, `R4`."""

from __future__ import annotations

import re
from fractions import Fraction

from seatwright.text.slugs import ErrorSlug

Explained = tuple[ErrorSlug, str, str]
"""slug, what is wrong, what to do."""

_NUMBER = r"(?:[0-9]{1,12}\.?[0-9]{0,12}|\.[0-9]{1,12})"
# The patterns stand as texts: where nothing is wrong, none of them is compiled.
_UNIT = r"(?P<unit>[a-zA-Zµ°\"/-]*)"
_SEMICOLON = r"(?P<whole>[+-]?[0-9]*)[;:](?P<places>[0-9]+)" + _UNIT
_APOSTROPHE = r"(?P<whole>[+-]?[0-9]{1,3})(?P<rest>(?:'[0-9]{3})+)" + _UNIT
_TWO_STROKES = rf"(?P<number>{_NUMBER})''"
_FEET = rf"(?P<number>{_NUMBER})'"
_ABOUT = rf"[~≈](?P<number>{_NUMBER}){_UNIT}"
_COMPARED = rf"(?P<sign><=|>=|[<>≤≥])(?P<number>{_NUMBER}){_UNIT}"
_RADIUS = rf"[rR](?P<number>{_NUMBER}){_UNIT}"
_TWO_POINTS = rf"(?P<low>[0-9]*\.?[0-9]+)\.\.+(?P<high>{_NUMBER}){_UNIT}"
_THOUSANDS = r"(?P<whole>[+-]?[0-9]{1,3}(?:\.[0-9]{3})+)(?:\.(?P<places>[0-9]{1,2}))?" + _UNIT

MOST_WORDS = frozenset({"max.", "maximum", "<", "<=", "≤", "under", "upto", "up-to"})
LEAST_WORDS = frozenset({"min.", "minimum", ">", ">=", "≥", "over", "atleast", "at-least"})
ABOUT_WORDS = frozenset({"about", "approx", "approx.", "ca", "ca.", "circa", "~", "nominal", "nom", "nom."})


def explain_marks(typed: str) -> Explained | None:
    """Why a word is no figure because of a mark in it or at it; None where it is something else."""
    for explain in (_semicolon, _apostrophe, _strokes, _about, _compared, _radius, _two_points, _thousands):
        if (explained := explain(typed)) is not None:
            return explained
    return None


def _semicolon(typed: str) -> Explained | None:
    if (match := re.fullmatch(_SEMICOLON, typed)) is None:
        return None
    mark = typed[match.end("whole")]
    meant = f"{match['whole']}.{match['places']}{_apart(match['unit'])}"
    return ("figure-mark", f"`{typed}` is no figure: `{mark}` is no decimal point", f"Write `{meant}`.")


def _apostrophe(typed: str) -> Explained | None:
    if (match := re.fullmatch(_APOSTROPHE, typed)) is None:
        return None
    meant = match["whole"] + match["rest"].replace("'", "") + _apart(match["unit"])
    return ("figure-mark", f"`{typed}` is no figure: nothing parts the thousands here", f"Write `{meant}`.")


def _strokes(typed: str) -> Explained | None:
    if (match := re.fullmatch(_TWO_STROKES, typed)) is not None:
        return ("figure-mark", f"`{typed}` ends in two single strokes", f'The inch mark is one: `{match["number"]}"`.')
    if (match := re.fullmatch(_FEET, typed)) is not None:
        inches = float(Fraction(match["number"]) * 12)
        text = f"`{typed}` is in feet, or its inch mark is half"
        return ("figure-mark", text, f'Write `{match["number"]}"`, or, if it is feet, `{inches:g} in`.')
    return None


def _about(typed: str) -> Explained | None:
    if (match := re.fullmatch(_ABOUT, typed)) is None:
        return None
    meant = match["number"] + _apart(match["unit"])
    return ("figure-mark", f"`{typed}` is no figure: nothing is taken as about right", f"Write what it is: `{meant}`.")


def _compared(typed: str) -> Explained | None:
    if (match := re.fullmatch(_COMPARED, typed)) is None:
        return None
    word = "most" if match["sign"] in ("<", "<=", "≤") else "least"
    return limit_word(typed, word, match["number"] + _apart(match["unit"]))


def limit_word(typed: str, word: str, figure: str) -> Explained:
    """`<2.0`, `max 2.0`: one limit, in other words than `most` and `least`."""
    return ("limit-word", f"`{typed}` is no way to write a limit", f"One limit alone is written `{word} {figure}`.")


def limit_behind(figure: str, word: str) -> Explained:
    """`1.1 max`: the word of a limit behind its figure."""
    return ("limit-word", f"`{figure} {word}` has the word of the limit behind its figure", f"Write `{word} {figure}`.")


def _radius(typed: str) -> Explained | None:
    if (match := re.fullmatch(_RADIUS, typed)) is None:
        return None
    places = len(match["number"].partition(".")[2])
    across = f"{2 * float(Fraction(match['number'])):.{places}f}{_apart(match['unit'])}"
    return ("radius-diameter", f"`{typed}` is a radius", f"Sizes are diameters: write `{across}`.")


def _two_points(typed: str) -> Explained | None:
    if (match := re.fullmatch(_TWO_POINTS, typed)) is None:
        return None
    low, high, unit = match["low"], match["high"], _apart(match["unit"])
    if "." in low or "." in high:
        return ("range-hyphen", f"`{typed}` is no figure", f"A range is written `{low} to {high}{unit}`.")
    return (
        "figure-points",
        f"`{typed}` has more than one decimal point",
        f"Write `{low}.{high}{unit}`; a range is written `{low} to {high}{unit}`.",
    )


def _thousands(typed: str) -> Explained | None:
    match = re.fullmatch(_THOUSANDS, typed)
    if match is None or (typed.count(".") < 2):
        return None
    meant = match["whole"].replace(".", "") + (f".{match['places']}" if match["places"] else "")
    return (
        "figure-points",
        f"`{typed}` has more than one decimal point",
        f"If the stops part thousands, write `{meant}{_apart(match['unit'])}`; else write it with one point.",
    )


def _apart(unit: str | None) -> str:
    return f" {unit}" if unit else ""
