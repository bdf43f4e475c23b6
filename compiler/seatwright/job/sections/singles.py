"""The single lines that stand anywhere: `language`, `use`, `note`, `hold`, `not-counted`."""

from __future__ import annotations

from msgspec import Struct

from seatwright.job.model import NotCounted, Note
from seatwright.job.typed import names
from seatwright.job.typed.gather import Gathered
from seatwright.job.wording import of_sections as say
from seatwright.job.wording import of_values as messages_values
from seatwright.syntax import tree
from seatwright.syntax.tree import Date, Line, Single, Text, Word
from seatwright.text import Span


class Spoken(Struct, frozen=True):
    """A note or a hold with the place of each valve that it names."""

    note: Note
    valves: tuple[tuple[str, Span], ...]
    hold: bool


def check_language(file: tree.File, gathered: Gathered) -> None:
    """Only version 1 is known."""
    for line in file.singles:
        if line.word.text != "language" or line.faulty:
            continue
        found = line.arguments[0] if len(line.arguments) == 1 else None
        if not isinstance(found, Single) or found.number.value != 1 or found.number.unit is not None:
            gathered.say(say.language_unknown(line.arguments[0].span if line.arguments else line.word.span, line.raw))


MOST_FILES = 20


def uses(file: tree.File, gathered: Gathered) -> tuple[Text, ...]:
    """The shop and engine files that a job uses, as it names them; none where there are too many, said once."""
    found: dict[str, Text] = {}
    for line in file.singles:
        if line.word.text != "use" or line.faulty:
            continue
        path = line.arguments[0] if len(line.arguments) == 1 else None
        if not isinstance(path, Text) or not path.closed:
            gathered.say(say.single_form(line.word.span, "use", 'use "bench.shop"'))
        elif path.text in found:
            gathered.say(say.use_again(path.span, path.text, found[path.text].span))
        else:
            found[path.text] = path
    listed = tuple(found.values())
    if len(listed) > MOST_FILES:
        gathered.say(say.use_many(listed[MOST_FILES].span, len(listed), MOST_FILES))
        return ()
    return listed


def notes_and_holds(file: tree.File, gathered: Gathered) -> tuple[Spoken, ...]:
    """The notes and the holds of a job, in the order in which they stand."""
    return tuple(
        said
        for line in file.singles
        if line.word.text in ("note", "hold") and not line.faulty and (said := _spoken(line, gathered)) is not None
    )


def not_counted(file: tree.File, gathered: Gathered) -> tuple[NotCounted, ...]:
    """The bores that are not to count: `not-counted E3 2026-11-24 "a chip under the tip"`."""
    example = 'not-counted E3 2026-11-24 "a chip under the tip"'
    found = []
    for line in file.singles:
        if line.word.text != "not-counted" or line.faulty:
            continue
        valve, *day, reason = line.arguments if len(line.arguments) > 1 else (None, None)
        if not isinstance(reason, Text) or not reason.closed or not isinstance(valve, Word) or len(day) > 1:
            gathered.say(say.single_form(line.word.span, "not-counted", example))
        elif not names.is_valve(valve.text):
            gathered.say(messages_values.valve_name(valve.span, valve.text, names.valve_meant(valve.text)))
        elif day and not isinstance(day[0], Date):
            gathered.say(say.single_form(line.word.span, "not-counted", example))
        else:
            date = day[0].text if day and isinstance(day[0], Date) else None
            found.append(NotCounted(valve.text.upper(), date, reason.text, line.word.span))
    return tuple(found)


def _spoken(line: Line, gathered: Gathered) -> Spoken | None:
    word = line.word.text
    example = 'note E1 "cracked before"' if word == "note" else 'hold I3 "crack in the floor"'
    text = line.arguments[-1] if line.arguments else None
    if not isinstance(text, Text) or not text.closed:
        if text is not None and line.raw:
            gathered.say(say.single_text(line.arguments[0].span.to(text.span), word, line.raw, example))
        else:
            gathered.say(say.single_form(line.word.span, word, example))
        return None
    valves: list[tuple[str, Span]] = []
    for argument in line.arguments[:-1]:
        typed = argument.text if isinstance(argument, (Word, Text)) else line.raw.split()[0]
        if not isinstance(argument, Word) or not names.is_valve(argument.text):
            gathered.say(messages_values.valve_name(argument.span, typed, names.valve_meant(typed)))
            return None
        valves.append((argument.text.upper(), argument.span))
    if word == "hold" and not valves:
        gathered.say(say.single_form(line.word.span, word, example))
        return None
    named = tuple(name for name, _ in valves)
    return Spoken(Note(text.text, line.word.span, named), tuple(valves), word == "hold")
