"""Cards of earlier revisions of a job: which of them had a stamp, and what is different now."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence

from msgspec import Struct

from seatwright.cards import stamp
from seatwright.cards.as_text.as_printed import printed
from seatwright.cards.as_text.plan_lines import called
from seatwright.cards.card import Card
from seatwright.cards.deck import cards
from seatwright.commands.disk import git
from seatwright.commands.disk.files import JobFiles, Unreadable, open_job
from seatwright.commands.disk.revisions import open_revision
from seatwright.commands.jobs.outcome import outcome_of
from seatwright.planning.plan import Plan
from seatwright.told.differences import Changed, differences

MOST_REVISIONS = 100
_SHORT = 8  # letters of a commit that are said


class Searched(Struct, frozen=True):
    """What came of one job. revisions: how many were looked through; lines: what is said of the card, () for none."""

    file: str
    revisions: int
    lines: tuple[str, ...]


def search(job: str, folder: str, wanted: str) -> Searched:
    """The newest of a job's last revisions that has a card with this stamp, and what stands in its place now."""
    file = os.path.relpath(job, folder).replace(os.sep, "/")
    try:
        opened = open_job(job)
    except Unreadable:
        return Searched(file, 0, ())
    now = outcome_of(opened)
    commits = _revisions(job, opened)
    for commit in commits:
        try:
            then = outcome_of(open_revision(f"{job}@{commit}")).plan
        except Unreadable:
            continue  # it was not there yet, or under another name
        if then is None:
            continue
        for each in cards(then):
            if stamp.own(each).startswith(wanted):
                return Searched(file, len(commits), tuple(_told(file, each, then, now.plan, commit)))
    return Searched(file, len(commits), ())


def card_named(number: str, file: str, card: Card) -> str:
    """`job 2219 (2219-farm.seat), card 3 of 7, Setting C1 at 37.416, for E1 E2`."""
    return f"job {number} ({file}), card {card.number} of {card.of}, {card.title}, for {' '.join(card.valves)}"


def _revisions(job: str, opened: JobFiles) -> Sequence[str]:
    """The last commits that touched the job or a file that it uses, newest first; none outside git."""
    folder = os.path.dirname(job) or os.curdir
    names = [os.path.basename(job), *list(opened.contents())[1:]]
    words = ("rev-list", f"-{MOST_REVISIONS}", "HEAD", "--", *names)
    try:
        return git.ask(folder, *words, repository=git.handed_on()).decode("ascii").split()
    except OSError:
        return ()


def _told(file: str, old: Card, then: Plan, now: Plan | None, commit: str) -> Iterator[str]:
    yield f"out of date: {card_named(then.job.number, file, old)}, as of commit {commit[:_SHORT]}"
    if now is None:
        yield "  now: the job has errors; put them right and build it again"
        return
    if then.job.number != now.job.number:
        yield f"  now: the job is {now.job.number}"
    standing = _in_its_place(old, cards(now))
    for each in standing:
        own = stamp.own(each)
        yield f"  now: card {each.number} of {each.of}, {each.title}, for {' '.join(each.valves)}, stamp {own}"
    if not standing:
        stands = {each.name: each.status.value.replace("-", " ") for each in now.valves}
        there = ", ".join(f"{name} is {stands.get(name, 'gone')}" for name in old.valves)
        yield f"  now: no such card; {there}"
    yield from _changes(old, then, now)


def _in_its_place(old: Card, deck: Sequence[Card]) -> list[Card]:
    """The cards of its kind that serve its valves now, in the order of the deck."""
    return [each for each in deck if each.name == old.name and set(each.valves) & set(old.valves)]


def _changes(old: Card, then: Plan, now: Plan) -> Iterator[str]:
    """What changes at the machine for the card's valves and their settings, as `compare` tells it."""
    settings = {each.name for plan in (then, now) for each in plan.settings if set(each.valves) & set(old.valves)}
    changed = [each for each in differences(then, now, printed) if _concerns(each, old, settings)]
    if not changed:
        yield "  nothing changes at the machine for these valves"
        return
    yield "  what changed since"
    for subject in changed:
        name = "the job" if subject.kind == "job" else called(subject.kind, subject.name)
        for each in subject.differences:
            before, after = ("–" if side is None else str(side.printed) for side in (each.old, each.new))
            yield f"    {name}: {each.words}: {before} → {after}"


def _concerns(changed: Changed, old: Card, settings: set[str]) -> bool:
    if changed.kind == "valve":
        return changed.name in old.valves
    return changed.kind == "job" or bool({changed.name, changed.was} & settings)
