"""`seatwright compare OLD NEW`: what changes at the machine between two jobs, or between two revisions of one.

`python -m seatwright.commands.compare > grammar/compare.schema.json` renews the schema of its JSON, which is made from
the records here.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Literal, get_args

from msgspec import UNSET, Struct, UnsetType, to_builtins

from seatwright.commands.disk.files import STANDARD_INPUT, Unreadable
from seatwright.commands.disk.revisions import open_job_or_revision
from seatwright.commands.jobs.outcome import Exit, outcome_of, say
from seatwright.commands.terminal.saying import complain
from seatwright.planning.plan import Plan
from seatwright.text.forms import schema_of
from seatwright.text.showing import for_programs, visible
from seatwright.told.differences import Changed, Difference, Side, differences, moved_valves
from seatwright.version import VERSION

CompareForm = Literal["seatwright-compare/1"]
NOTHING_CHANGES, SOMETHING_CHANGES = Exit.DONE, Exit.ERRORS  # 0 and 1, as of any program that compares

_NUMBER = re.compile(r"(?<![\w.])-?\d+(?:\.\d+)?(?![\w.])")
_SENTENCE = 44  # characters: what is longer does not go into a column
_NONE = "–"


def compare(old: str, new: str | None, form: str, using: str | None = None) -> Exit:
    """Say what changes at the machine. 0: nothing; 1: something; 2: a job has errors, or cannot be read.

    new: None for the file or folder as it is, against its last commit. using: of folders, only jobs that use this file.
    """
    if new is None:
        old, new = f"{old}@HEAD", old
    from seatwright.commands.compare_folders import compare_folders, is_folder

    if (folders := is_folder(old)) != is_folder(new):
        raise Unreadable(f"{old} and {new}: a folder is compared with a folder, and a job with a job")
    if folders:
        return compare_folders(old, new, form, using)
    if using is not None:
        raise Unreadable("--using asks which jobs of a folder use a file: name two folders, or one")
    if old == new == STANDARD_INPUT:
        raise Unreadable("only one of the two jobs can come from standard input")
    before, after = _plan(old), _plan(new)
    if before is None or after is None:
        return Exit.WRONG_USE
    from seatwright.cards.as_text.as_printed import printed

    changed = differences(before, after, printed)
    sys.stdout.write(_for_machines(old, new, changed) if form == "json" else _text(old, new, changed))
    return SOMETHING_CHANGES if changed else NOTHING_CHANGES


def _plan(name: str) -> Plan | None:
    outcome = outcome_of(open_job_or_revision(name))
    if outcome.plan is None:
        say(outcome.errors, outcome.sources)
        complain("compare", f"{name} has errors, so there is no plan to compare")
    return outcome.plan


def _text(old: str, new: str, changed: Sequence[Changed]) -> str:
    """A table for each subject; last the valves, in a line."""
    if not changed:
        return f"{visible(old)} and {visible(new)}: nothing changes at the machine.\n"
    rows = [row for each in changed for row in _rows(each) if max(map(len, row[1:])) <= _SENTENCE]
    widths = [max((len(row[column]) for row in rows), default=0) for column in range(3)]
    lines = [f"From {visible(old)} to {visible(new)}", ""]
    for each in changed:
        shown = list(_rows(each))
        if shown:
            lines.append(_title(each))
            for row in shown:
                lines.extend(_written(row, widths))
            lines.append("")
    lines.extend(_unseen(changed))
    moved = moved_valves(changed)
    lines.append(f"Something changes for {' '.join(moved)}." if moved else "No valve's figures move.")
    return "\n".join(lines) + "\n"


def _title(changed: Changed) -> str:
    from seatwright.cards.as_text.plan_lines import called

    name = "The job" if changed.kind == "job" else _capital(called(changed.kind, changed.name))
    if changed.gone:
        return f"{name} (no longer there)"
    if changed.was is None:
        return f"{name} (new)"
    return f"{name} (was {called(changed.kind, changed.was)})" if changed.was != changed.name else name


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _unseen(changed: Sequence[Changed]) -> Iterator[str]:
    """What moves by less than any card prints, counted."""
    count = sum(difference.unseen for each in changed for difference in each.differences)
    if count:
        figures = "1 figure moves" if count == 1 else f"{count} figures move"
        yield f"{figures} by less than the cards print: `--as json` lists them."


_Row = tuple[str, str, str, str]


def _rows(changed: Changed) -> Iterator[_Row]:
    for each in changed.differences:
        if each.unseen:
            continue
        old, new = (str(side.printed) if side is not None else _NONE for side in (each.old, each.new))
        yield each.words, old, new, _by(each)


def _written(row: _Row, widths: Sequence[int]) -> Iterator[str]:
    words, old, new, by = row
    if max(len(old), len(new)) > _SENTENCE:
        yield f"  {words}"
        yield f"      was: {old}"
        yield f"      now: {new}"
        return
    yield f"  {words:<{widths[0]}}  {old:<{widths[1]}}  {new:<{widths[2]}}  {by}".rstrip()


def _by(difference: Difference) -> str:
    """By how much, in the digits that are printed: `+0.002`, or for limits that move apart `+0.002 / +0.001`."""
    old, new = difference.old, difference.new
    if old is None or new is None or not old.values or old.printed.unit != new.printed.unit:
        return ""
    one, two = (_NUMBER.findall(side.printed.text) for side in (old, new))
    if len(one) != len(two):
        return ""
    moved = [f"{Decimal(b) - Decimal(a):+f}" for a, b in zip(one, two, strict=True)]
    return moved[0] if len(set(moved)) == 1 else " / ".join(moved)


class SideOf(Struct, frozen=True):
    """A figure on one side. printed: as on the card; values: as plan.json has them, null for the side of a limit that
    is not given, with values_unit (mm, C, deg, …); both absent for words."""

    printed: str
    unit: str
    values: list[float | None] | UnsetType = UNSET
    values_unit: str | UnsetType = UNSET


class Differs(Struct, frozen=True):
    """What differs. words: as at the bench. paths: where plan.json has it below its subject. A side is absent where
    that plan has none."""

    words: str
    paths: list[str]
    old: SideOf | UnsetType = UNSET
    new: SideOf | UnsetType = UNSET


class ChangedSubject(Struct, frozen=True):
    """What changes, a job, setting or valve. name: empty for the job. was: its name in OLD, absent when new. gone: NEW
    no longer has it."""

    subject: str
    name: str
    gone: bool
    differences: list[Differs]
    was: str | UnsetType = UNSET


class Compared(Struct, frozen=True):
    """What changes at the machine. old, new: as named on the command line. valves: those that it changes for."""

    format: CompareForm
    made_by: str
    old: str
    new: str
    changes: bool
    valves: list[str]
    changed: list[ChangedSubject]


def _for_machines(old: str, new: str, changed: Sequence[Changed]) -> str:
    made_by, moved = f"seatwright {VERSION}", list(moved_valves(changed))
    compared = Compared(
        get_args(CompareForm)[0], made_by, old, new, bool(changed), moved, [_subject(each) for each in changed]
    )
    return for_programs(to_builtins(compared))


def _subject(changed: Changed) -> ChangedSubject:
    differences = [
        Differs(each.words, [path for path in each.paths if path], _side(each.old), _side(each.new))
        for each in changed.differences
    ]
    was = UNSET if changed.was is None else changed.was
    return ChangedSubject(changed.kind, changed.name, changed.gone, differences, was)


def _side(side: Side | None) -> SideOf | UnsetType:
    if side is None:
        return UNSET
    if not side.values:
        return SideOf(side.printed.text, side.printed.unit)
    from seatwright.told.plan_json import rounded

    values = [None if value is None else rounded(value) for value in side.values]
    return SideOf(side.printed.text, side.printed.unit, values, side.unit)


def schema() -> str:
    """The JSON Schema of `compare --as json`."""
    return schema_of(Compared, get_args(CompareForm)[0], "What changes at the machine: `seatwright compare --as json`")


if __name__ == "__main__":
    print(schema(), end="")
