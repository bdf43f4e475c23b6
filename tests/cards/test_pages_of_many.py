"""A card of very many pages: a head of a locomotive, a bench file of hundreds of valves."""

from __future__ import annotations

from seatwright.cards.render import _letters


def test_pages_are_lettered_on_and_on_without_a_double() -> None:
    assert _letters(1) == [""]
    assert _letters(28)[-3:] == ["z", "aa", "ab"]
    assert _letters(703)[-2:] == ["zz", "aaa"]
    assert len(set(_letters(20_000))) == 20_000
