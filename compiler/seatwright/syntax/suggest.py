"""What a mistyped word was meant to be."""

from __future__ import annotations

from collections.abc import Iterable


def distance(first: str, second: str, most: int | None = None) -> int:
    """How many single slips part two words: a letter too many, too few, wrong, or two neighbours swapped.

    most: beyond that the exact figure does not matter and `most + 1` is returned early.
    """
    if most is not None and abs(len(first) - len(second)) > most:
        return most + 1
    before: list[int] = []
    above = list(range(len(second) + 1))
    for i, one in enumerate(first, 1):
        here = [i]
        for j, other in enumerate(second, 1):
            best = min(above[j] + 1, here[j - 1] + 1, above[j - 1] + (one != other))
            if i > 1 and j > 1 and one == second[j - 2] and first[i - 2] == other:
                best = min(best, before[j - 2] + 1)
            here.append(best)
        if most is not None and min(here) > most:
            return most + 1
        before, above = above, here
    return above[-1]


def near(word: str, choices: Iterable[str]) -> tuple[str, ...]:
    """The choices that `word` may be a slip for, the nearest first, equally near ones by the alphabet.

    A slip is at most a third of the word's letters, and one letter in a short word.
    """
    typed = word.lower()
    most = max(1, len(typed) // 3)
    found = []
    for choice in choices:
        parted = distance(typed, choice.lower(), most)
        if parted <= most and parted < max(len(typed), len(choice)):
            found.append((parted, choice))
    return tuple(choice for _, choice in sorted(found))


def nearest(word: str, choices: Iterable[str]) -> str | None:
    """The choice nearest to `word`, None where none is near."""
    found = near(word, choices)
    return found[0] if found else None
