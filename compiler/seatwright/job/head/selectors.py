"""What sets of valves have in common: which valve a `valves` line means, and which line wins."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import Any

from msgspec import Struct

from seatwright.job.declarations import SectionDeclared, job_sections
from seatwright.job.typed import names
from seatwright.job.typed.fields import Fields, read_fields
from seatwright.job.typed.gather import Gathered
from seatwright.job.typed.scope import Scope
from seatwright.job.wording import of_valves as say
from seatwright.syntax import tree
from seatwright.syntax.tree import Text, Word
from seatwright.text import Message, Span

BY_NAME, BY_KIND, ALL = range(3)


class Selected(Struct, frozen=True):
    """A `valves` section: whom it means, and what it says. valid: its own line could be read. above: it stands before
    the first head, and so holds for every one. reconditioned: of an engine file's, the limits of a head that was."""

    line: Span
    words: tuple[tuple[str, Span], ...]
    fields: Fields
    valid: bool
    above: bool = False
    reconditioned: bool = False


class Selectors(Struct, frozen=True):
    """All `valves` sections of a head; places: for each word of their lines, the sections by their number."""

    sections: tuple[Selected, ...]
    places: dict[str, list[int]]

    @staticmethod
    def of(sections: Iterable[Selected]) -> Selectors:
        """The sections, in the order in which they stand."""
        listed = tuple(sections)
        places: dict[str, list[int]] = {}
        for number, section in enumerate(listed):
            for word, _ in section.words:
                places.setdefault(word, []).append(number)
        return Selectors(listed, places)

    def meaning(self, valve: str) -> Iterator[tuple[int, Selected]]:
        """The sections that mean a valve, in order, and how narrowly each does (smaller is narrower).

        Of two that reach equally far the one under the head is narrower than one that stands above all heads.
        """
        widths: dict[int, int] = {}
        for width, word in ((ALL, "all"), (BY_KIND, names.valve_parts(valve)[0]), (BY_NAME, valve)):
            widths.update(dict.fromkeys(self.places.get(word, ()), width))
        for number in sorted(widths):
            section = self.sections[number]
            yield 2 * widths[number] + section.above, section

    def meaning_none(self, valves: Iterable[str]) -> Iterator[Selected]:
        """The sections that mean none of these valves."""
        meant = {"all"}
        for valve in valves:
            meant |= {valve, names.valve_parts(valve)[0]}
        for section in self.sections:
            if meant.isdisjoint(word for word, _ in section.words):
                yield section


def selected(
    declared: SectionDeclared, section: tree.Section, scope: Scope, gathered: Gathered, *, above: bool = False
) -> Selected:
    """A `valves` section as read. declared: as a job or an engine file has it; above: it stands before the first
    head."""
    line = section.line
    arguments = line.arguments
    reconditioned = declared is not job_sections.VALVES and _last_is(arguments, "reconditioned")
    words = selector_words(line, arguments[:-1] if reconditioned else arguments, scope, gathered)
    named = " ".join(word for word, _ in words or ())
    called = f"valves {named}{' reconditioned' * reconditioned}" if words else "valves"
    fields = read_fields(declared, section.fields, scope, gathered, called)
    return Selected(line.word.span, words or (), fields, words is not None, above, reconditioned)


def _last_is(arguments: tuple[tree.Argument, ...], word: str) -> bool:
    last = arguments[-1] if arguments else None
    return isinstance(last, Word) and names.key(last.text) == word


def selector_words(
    line: tree.Line, arguments: tuple[tree.Argument, ...], scope: Scope, gathered: Gathered
) -> tuple[tuple[str, Span], ...] | None:
    """The words by which a section's line says which valves it means; None where it does not, which is said."""
    if line.faulty:
        return None
    if not arguments:
        gathered.say(say.selector_missing(line.word.span, line.word.text))
        return None
    words: list[tuple[str, Span]] = []
    for argument in arguments:
        typed = argument.text if isinstance(argument, (Word, Text)) else scope.typed(argument.span)
        word = names.one_of_words(typed.rstrip(","), ("all", "intake", "exhaust"))
        if word is None and names.is_valve(typed):
            word = typed.upper()
        if word is None:
            if (message := _joined(typed, argument.span, words, line, scope)) is None:
                meant = names.valve_meant(typed) or names.nearest_name(typed, ("all", "intake", "exhaust"))
                message = say.selector(argument.span, typed, meant)
            gathered.say(message)
            return None
        words.append((word, argument.span))
    return tuple(words)


_JOINING = frozenset({"and", "&", "+", "plus", "or", "und"})
_THROUGH = frozenset({"to", "-", "through", "thru", "until", ".."})
_SPAN = r"(?i:([IE])([0-9]{1,2})([A-Z]?)(?:-|\.\.+|/)([IE]?)([0-9]{1,2})([A-Z]?))"


def _joined(typed: str, span: Span, before: list[tuple[str, Span]], line: tree.Line, scope: Scope) -> Message | None:
    """`E1 and E2`, `E1 to E4`, `E1-E4`: valves joined by what joins none. None: something else."""
    if typed.lower() in _JOINING and before:
        return say.selector_joined(span, typed)
    if typed.lower() in _THROUGH and before:
        after = next((each for each in line.arguments if each.span > span), None)
        last = scope.typed(after.span) if after is not None else ""
        return say.selector_through(span, f"{before[-1][0]} {typed} {last}".strip(), _between(before[-1][0], last))
    if (match := re.fullmatch(_SPAN, typed)) is not None:
        first = (match[1] + match[2] + match[3]).upper()
        last = ((match[4] or match[1]) + match[5] + match[6]).upper()
        return say.selector_through(span, typed, _between(first, last))
    return None


def _between(first: str, last: str) -> str:
    """The valves from one to another of a kind, as they are written; empty where that is not certain."""
    if not (names.is_valve(first) and names.is_valve(last)):
        return ""
    kind, one, letter = names.valve_parts(first)
    other_kind, other, other_letter = names.valve_parts(last)
    if kind != other_kind or letter != other_letter or not one < other <= one + 24:
        return ""
    return " ".join(f"{first[0].upper()}{cylinder}{letter}" for cylinder in range(one, other + 1))


class Best(Struct, frozen=True):
    """The value of a field that counts in one file, with the place of its line and what was typed there."""

    width: int
    value: Any
    span: Span
    typed: str = ""


def narrowest(valve: str, selectors: Selectors, gathered: Gathered) -> dict[str, Best]:
    """What one file says of one valve, by the words of its fields: field by field the narrowest wins.

    Two of the same width with different values are said, at both places.
    """
    best: dict[str, Best] = {}
    for width, section in selectors.meaning(valve):
        for word, value in section.fields.values.items():
            place = section.fields.spans[word]
            before = best.get(word)
            if before is None or width < before.width:
                best[word] = Best(width, value, place, section.fields.typed.get(word, ""))
            elif width == before.width and not same(before.value, value):
                gathered.say(say.valves_differ(place, word, valve, before.span))
    return best


_NOT_MEANT = frozenset({"span", "typed", "half_digit", "source", "in_place_of"})


def same(one: Any, other: Any) -> bool:
    """Whether two values mean the same, wherever and however they were typed."""
    if isinstance(one, Span):
        return isinstance(other, Span)
    if isinstance(one, (tuple, list)) and isinstance(other, (tuple, list)):
        return len(one) == len(other) and all(same(a, b) for a, b in zip(one, other, strict=True))
    if isinstance(one, Struct) and type(one) is type(other):
        return all(
            same(getattr(one, part), getattr(other, part)) for part in one.__struct_fields__ if part not in _NOT_MEANT
        )
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= 1e-9 * max(1.0, abs(one))
    if isinstance(one, str) and isinstance(other, str):
        return names.key(one) == names.key(other)
    return bool(one == other)
