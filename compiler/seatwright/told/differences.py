"""What changes at the machine between two plans, subject by subject: the job, its settings, its valves.

Two plans are held against each other by value. A figure has changed when what its card prints has, or when it differs
by more than a millionth of its unit; a word when it is another word. The valves named are those that something moves
for, and no other.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Protocol

from msgspec import Struct

from seatwright.planning.plan import Plan, Setting
from seatwright.planning.plan.figure import Figure
from seatwright.told.printed_fact import Particular
from seatwright.told.printed_facts import Subject, subjects

SAME_WITHIN = 1e-6  # mm, or whatever unit the figure has; plan.json has six decimals


class Words(Struct, frozen=True):
    """A particular as its card prints it. text: `44.011 to 44.029`. unit: `mm`, "" for a word."""

    text: str
    unit: str = ""

    def __str__(self) -> str:
        return f"{self.text}{'' if self.unit in ('', '°') else ' '}{self.unit}"


class Printed(Protocol):
    """How cards print a particular of a plan. finely: with more digits than the instrument shows."""

    def __call__(self, plan: Plan, particular: Particular, *, finely: bool = False) -> Words: ...


class Side(Struct, frozen=True):
    """A particular in one of the two plans. values: its figures as plan.json has them, () for a word."""

    printed: Words
    values: tuple[float | None, ...]
    unit: str


class Difference(Struct, frozen=True):
    """One particular that changes. paths: where plan.json has it. old, new: None where that plan does not have it.
    unseen: the cards print it alike, by less than any instrument shows."""

    paths: tuple[str, ...]
    words: str
    old: Side | None
    new: Side | None
    unseen: bool = False


class Changed(Struct, frozen=True):
    """A subject and what changes on it. kind: job, setting, valve. name: in the new plan, or in the old where it ends.

    was: the name in the old plan, None where the subject is new. gone: the new plan no longer has it.
    """

    kind: str
    name: str
    was: str | None
    gone: bool
    differences: tuple[Difference, ...]


def differences(old: Plan, new: Plan, printed: Printed) -> tuple[Changed, ...]:
    """What changes from one plan to the other, () for nothing; the job first, then settings, then valves."""
    before, after = _by_key(old), _by_key(new)
    found = []
    for old_key, new_key in _pairs(old, new, before, after):
        was = before[old_key] if old_key is not None else None
        now = after[new_key] if new_key is not None else None
        subject = now or was
        changes = tuple(_of_subject(old, new, was, now, printed))
        if subject is not None and changes:
            found.append(Changed(subject.kind, subject.name, was.name if was else None, now is None, changes))
    return tuple(found)


def moved_valves(changed: Sequence[Changed]) -> tuple[str, ...]:
    """The valves for which something changes."""
    return tuple(each.name for each in changed if each.kind == "valve")


_Key = tuple[str, str]


def _by_key(plan: Plan) -> dict[_Key, Subject]:
    return {(subject.kind, subject.name): subject for subject in subjects(plan)}


def _pairs(
    old: Plan, new: Plan, before: Mapping[_Key, Subject], after: Mapping[_Key, Subject]
) -> Iterator[tuple[_Key | None, _Key | None]]:
    """Each subject of one plan beside the same in the other, None where there is none."""
    yield ("job", ""), ("job", "")
    same = settings_kept(old.settings, new.settings)
    for setting in new.settings:
        was = same.get(setting.name)
        yield ("setting", was) if was is not None else None, ("setting", setting.name)
    for setting in old.settings:
        if setting.name not in same.values():
            yield ("setting", setting.name), None
    for key in after:
        if key[0] == "valve":
            yield key if key in before else None, key
    for key in before:
        if key[0] == "valve" and key not in after:
            yield key, None


def settings_kept(old: Sequence[Setting], new: Sequence[Setting]) -> dict[str, str]:
    """Which old setting each new one was, by name: of the same head, the one with which it shares the most valves.

    A reading that moves gives a setting another name; it is by its valves that a machinist knows it again.
    """
    shared = [
        (-len(set(one.valves) & set(two.valves)), abs(one.number - two.number), one.name, two.name)
        for one in old
        for two in new
        if one.head == two.head and set(one.valves) & set(two.valves)
    ]
    kept: dict[str, str] = {}
    for _, _, was, now in sorted(shared):
        if now not in kept and was not in kept.values():
            kept[now] = was
    return kept


def _of_subject(
    old: Plan, new: Plan, was: Subject | None, now: Subject | None, printed: Printed
) -> Iterator[Difference]:
    before = {_known_by(each): each for each in (was.particulars if was is not None else ())}
    after = {_known_by(each): each for each in (now.particulars if now is not None else ())}
    for key in (*after, *(key for key in before if key not in after)):
        one, two = before.get(key), after.get(key)
        said_before = printed(old, one) if one is not None else None
        said_after = printed(new, two) if two is not None else None
        unseen = said_before == said_after
        if unseen:
            if not _moved(one, two):
                continue
            # The cards print the same: more digits, or nobody would see what has changed.
            said_before = printed(old, one, finely=True) if one is not None else None
            said_after = printed(new, two, finely=True) if two is not None else None
        called = after.get(key) or before[key]
        yield Difference(called.paths, called.words, _side(one, said_before), _side(two, said_after), unseen)


def _known_by(particular: Particular) -> str:
    """One name for what both plans may have: measured limits and a single figure are told apart by their words."""
    return f"{particular.paths[0] or particular.paths[-1]} {particular.words}"


def _moved(one: Particular | None, two: Particular | None) -> bool:
    """Whether a figure differs by more than nothing."""
    if one is None or two is None:
        return one is not two
    if len(one.figures) != len(two.figures):
        return True
    return any(_differ(a, b) for a, b in zip(one.figures, two.figures, strict=True))


def _differ(a: Figure | None, b: Figure | None) -> bool:
    if a is None or b is None:
        return a is not b
    return abs(a.value - b.value) > SAME_WITHIN


def _side(particular: Particular | None, printed: Words | None) -> Side | None:
    if particular is None or printed is None:
        return None
    unit = next((each.unit for each in particular.figures if each is not None), "")
    return Side(printed, tuple(None if each is None else each.value for each in particular.figures), unit)
