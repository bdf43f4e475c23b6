"""What a word was meant to be where a figure, a unit or a date belongs."""

from __future__ import annotations

import pytest

from seatwright.syntax.numbers.slips import explain_date, explain_unit, explain_word
from seatwright.syntax.tree import Word
from seatwright.text import Span


def _word(text: str) -> Word:
    return Word(Span("a", 1, 1, 1, len(text) + 1), text)


@pytest.mark.parametrize(
    ("typed", "slug", "meant"),
    [
        ("44,21", "decimal-comma", "`44.21`"),
        (",5", "decimal-comma", "`.5`"),
        ("44,21mm", "decimal-comma", "`44.21 mm`"),
        ("1,200", "decimal-comma", "`1200`"),
        ("1,200.5", "decimal-comma", "`1200.5`"),
        ("0.08-0.10", "range-hyphen", "`0.08 to 0.10`"),
        ("0.08-0.10mm", "range-hyphen", "`0.08 to 0.10 mm`"),
        ("3thou-5thou", "range-hyphen", "`3 to 5 thou`"),
        ("30-400", "range-hyphen", "`30 to 400`"),
        ("2.0025/2.0035", "range-slash", "`2.0025 to 2.0035`"),
        ("9/10/11", "reading-whole", "9.020/9.022"),
        ("44.10+.02-.01", "tolerance-glued", "`44.10 +.02 -.01`"),
        ("O.9", "letter-for-digit", "`0.9`"),
        ("1O.5mm", "letter-for-digit", "`10.5 mm`"),
        ("l.5", "letter-for-digit", "`1.5`"),
        ("2..0", "figure-points", "`2.0`"),
        ("1/0", "fraction-zero", "9/16"),
        ("1-5/4", "fraction-improper", "below 1"),
        ("44°60'", "fraction-improper", "59"),
        ("1e5", "figure-power", "plain digits"),
        ("44.02cm", "unit-unknown", "`mm`"),
        ("3ton", "unit-which", "8.90"),
    ],
)
def test_words_that_were_meant_as_figures(typed, slug, meant):
    explained = explain_word(_word(typed))
    assert explained is not None
    assert explained[0] == slug
    assert meant in explained[2]


@pytest.mark.parametrize("typed", ["choose", "grey-iron", "I1", "X46", "3855-2A", "flush", "-", "O", "Il"])
def test_names_are_not_taken_for_figures(typed):
    explained = explain_word(_word(typed))
    assert explained is None or explained[0] in ("letter-for-digit", "unit-unknown")
    if typed in ("choose", "grey-iron", "X46", "flush", "-"):
        assert explained is None


def test_a_word_behind_a_figure_gets_the_nearest_unit():
    assert explain_unit(_word("cm")) == (
        "unit-unknown",
        "`cm` is no unit of this language",
        "Write it in `mm`: 1 cm is 10 mm.",
    )
    assert (explain_unit(_word("mil")) or ("",))[0] == "unit-which"
    assert explain_unit(_word("+")) is None


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("16.11.2026", "Write year-month-day: `2026-11-16`."),
        ("2026/11/16", "Write year-month-day: `2026-11-16`."),
        ("3.4.2026", "Write year-month-day: `2026-03-04` or `2026-04-03`."),
        ("soon", "Write year-month-day: `2026-11-16`."),
    ],
)
def test_dates(typed, meant):
    assert explain_date(_word(typed)) == ("date-wanted", f"`{typed}` is no date", meant)
