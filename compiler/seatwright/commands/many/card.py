"""`seatwright card STAMP [FOLDER]`: whether a printed card still holds, and what stands in its place."""

from __future__ import annotations

import os
import re
import sys
from functools import partial
from operator import attrgetter

from msgspec import Struct

from seatwright.cards import stamp
from seatwright.cards.deck import cards
from seatwright.commands.disk.files import STANDARD_INPUT, Unreadable
from seatwright.commands.disk.job_folders import jobs_of
from seatwright.commands.jobs.each_job import each_job
from seatwright.commands.jobs.over_folder import InFolder, OverFolder, over_folder
from seatwright.commands.jobs.warming import warm_planning
from seatwright.commands.many.past_cards import MOST_REVISIONS, Searched, card_named, search
from seatwright.commands.terminal.exits import Exit, worst
from seatwright.commands.terminal.progress import Progress
from seatwright.commands.terminal.saying import complain
from seatwright.planning.plan import Plan, Status
from seatwright.text.showing import visible

CURRENT, OUT_OF_DATE, NOT_FOUND = Exit.DONE, Exit.ERRORS, Exit.WRONG_USE
_STAMP = re.compile(r"(?<![0-9a-z])[0-9a-f]{6,8}(?![0-9a-z])")
_FEWEST = 3  # below so many jobs one process has looked through them before others have begun


class _Standing(Struct, frozen=True):
    """A card as it would be printed now. held: its valves that are on hold, with the reason."""

    stamp: str
    called: str
    held: tuple[str, ...]


def card(typed: str | None, folder: str, at_once: int | None = None) -> Exit:
    """Say of a stamp, or of each line of standard input, whether that card is current (0; 3 where a valve of it is on
    hold), out of date (1), or of none of these jobs (2)."""
    if typed is not None and typed != STANDARD_INPUT and os.path.isdir(typed) and not _STAMP.fullmatch(typed):
        folder = typed
        typed = None
    if not os.path.isdir(folder):
        raise Unreadable(f"{folder} is no folder")
    read = over_folder("card", folder, standing_cards, at_once)
    if typed is not None and typed != STANDARD_INPUT:
        return _answer(typed, folder, read, at_once)
    codes = [Exit.DONE]
    for line in sys.stdin:
        if line.strip():
            codes.append(_answer(line, folder, read, at_once))
            sys.stdout.flush()
    return worst(codes)


def standing_cards(plan: Plan, where: InFolder) -> tuple[_Standing, ...]:
    """The cards of a job as they would be printed now."""
    holds = {each.name: [hold.slug for hold in each.holds] for each in plan.valves if each.status is Status.HOLD}
    return tuple(
        _Standing(
            stamp.own(each),
            card_named(plan.job.number, where.file, each),
            tuple(f"{name} ({', '.join(holds[name])})" for name in each.valves if name in holds),
        )
        for each in cards(plan)
    )


def _answer(typed: str, folder: str, read: OverFolder[tuple[_Standing, ...]], at_once: int | None) -> Exit:
    found = _STAMP.search(typed.lower())
    if found is None:
        complain("card", f"{typed.strip()} is no stamp, which is the first eight letters and figures at a card's foot")
        return NOT_FOUND
    wanted = found.group()
    codes = []
    for each in (each for of_job in read.rows for each in of_job if each.stamp.startswith(wanted)):
        sys.stdout.write(visible(f"current: {each.called}") + "\n")
        if each.held:
            sys.stdout.write(visible(f"  on hold now: {', '.join(each.held)}") + "\n")
        codes.append(Exit.HOLDS if each.held else CURRENT)
    return worst(codes) if codes else _in_the_past(wanted, folder, at_once)


def _in_the_past(wanted: str, folder: str, at_once: int | None) -> Exit:
    """Look for a card that was printed from an earlier revision of a job's files."""
    jobs = list(jobs_of([folder]))
    progress = Progress(len(jobs))
    work = partial(search, folder=folder, wanted=wanted)
    try:
        done = list(each_job(work, jobs, at_once, _FEWEST, warm_planning, _lost, progress.done))
    finally:
        progress.clear()
    found = [each for each in done if each.lines]
    for each in sorted(found, key=attrgetter("file")):
        sys.stdout.write("".join(f"{visible(line)}\n" for line in each.lines))
    if found:
        return OUT_OF_DATE
    with_history = any(each.revisions for each in done)
    before = f"nor had one in the last {MOST_REVISIONS} revisions of its files" if with_history else (
        f"and {folder} has no history in git to look through"
    )  # fmt: skip
    count = f"{len(jobs)} {'job' if len(jobs) == 1 else 'jobs'}"
    sys.stdout.write(visible(f"not found: of {count} none has a card with the stamp {wanted}, {before}") + "\n")
    return NOT_FOUND


def _lost(job: str, how_it_ended: str) -> Searched:
    complain("card", f"{job} was not looked through: {how_it_ended}")
    return Searched(job, 0, ())
