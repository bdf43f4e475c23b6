"""`seatwright build JOB… [-o DIR]`: the cards of each job."""

from __future__ import annotations

import os
import sys
from collections import Counter
from collections.abc import Mapping
from functools import partial
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from seatwright.commands.disk import files, writing
from seatwright.commands.disk.commit import commit_of
from seatwright.commands.disk.job_folders import empty_folder, jobs_of
from seatwright.commands.disk.names import one_name, same_but_for_capitals, trouble_with
from seatwright.commands.disk.shop_templates import templates_of
from seatwright.commands.jobs import unchanged
from seatwright.commands.jobs.each_job import each_job
from seatwright.commands.jobs.outcome import Exit, outcome_of, worst
from seatwright.commands.jobs.warming import warm
from seatwright.commands.terminal.progress import Progress
from seatwright.commands.terminal.saying import complain, complaint, failure, in_words, manner
from seatwright.commands.terminal.screen import first_to_mend, in_brief, screen, the_rest
from seatwright.planning.plan import Plan
from seatwright.text.gathered import gathered
from seatwright.text.showing import visible

PDF = "cards.pdf"
_SAVED_AT_MOST = 5  # times over one build
_FEWEST = 3  # below so many jobs one process has built them before others have begun


class Print(Struct, frozen=True):
    """How the cards are made.

    paper: instead of the job's. two_up: two small cards on a sheet. pdf: cards.pdf as well. templates: the folder of
    the shop's own; None: `templates` beside a shop file, where there is one. afresh: also where they stand already.
    card: the one card to make, by its kind, its number or its setting.
    """

    paper: str | None = None
    two_up: bool = False
    pdf: bool = False
    templates: str | None = None
    afresh: bool = False
    card: str | None = None


class _Wish(Struct, frozen=True):
    """One job to build: its file, where the cards go, how they are printed."""

    job: str
    out: str | None
    how: Print


class _Built(Struct, frozen=True):
    """What one job came to: its exit code, and what is said of it on standard output and standard error."""

    code: Exit
    out: str = ""
    err: str = ""


def build(jobs: list[str], out: str | None, how: Print, at_once: int | None = None) -> Exit:
    """Write cards.html, cards.md, plan.json and, on request, cards.pdf for each job into DIR/<name of the job file>/
    and sum up.

    A folder stands for the jobs in it. at_once: how many are built side by side; None: as many as there are
    processors. What is said comes in the order of the jobs, and none of them touches another.
    """
    named = list(jobs_of(jobs))
    empty = empty_folder(jobs)
    if problem := f"{empty} is a folder without a job (.seat) in it" if empty else _clash(named, out):
        complain("build", str(problem))
        return Exit.WRONG_USE
    if how.pdf and (problem := _no_printer()):
        complain("build", str(problem))
        return Exit.WRONG_USE
    progress = Progress(len(named))
    codes: list[Exit] = []
    try:
        work = partial(_build, out=out, how=how)
        for built in each_job(work, named, at_once, _FEWEST, warm, _lost, progress.done):
            progress.clear()
            sys.stdout.write(built.out)
            sys.stdout.flush()
            sys.stderr.write(built.err)
            sys.stderr.flush()
            codes.append(built.code)
            progress.again()
    finally:
        progress.clear()
    if len(codes) > 1:
        sys.stdout.write(_summed_up(codes))
    return worst(codes)


def _lost(job: str, how_it_ended: str) -> _Built:
    return _Built(Exit.ERRORS, err=complaint("build", f"{job} was not finished: {how_it_ended}"))


def _build(job: str, out: str | None, how: Print) -> _Built:
    folder = _folder(job, out)
    built = _cards(_Wish(job, out, how), folder)
    pdf = folder / PDF
    if how.pdf or built.code not in (Exit.DONE, Exit.HOLDS) or not os.path.isfile(pdf):
        return built
    return replace(
        built,
        out=f"{built.out}  {visible(pdf.as_posix())} is from an earlier build: do not cut by it (--pdf renews it)\n",
    )


def _cards(wish: _Wish, folder: Path) -> _Built:
    """The cards of the job as it stands when they are written: of one that is saved meanwhile, they are made anew."""
    made = (_cards_once(wish, folder) for _ in range(_SAVED_AT_MOST))
    saved = complaint("build", f"{wish.job} was saved again and again while its cards were made: nothing written")
    return next((built for built in made if built is not None), _Built(Exit.WRONG_USE, err=saved))


def _cards_once(wish: _Wish, folder: Path) -> _Built | None:
    try:
        opened = files.open_job(wish.job)
        words = _words(wish, folder)
        if not wish.how.afresh and (stands := _standing(wish, opened, words, folder)) is not None:
            return stands
        outcome = outcome_of(opened)
        columns = manner()[1]
        whole = gathered(outcome.messages)
        rest = in_brief(whole, columns) + the_rest(whole, f"seatwright check {wish.job}")
        said = in_words(outcome.errors, outcome.sources)
        if outcome.plan is None:
            said += rest + first_to_mend(outcome.errors)
            return _Built(outcome.code(), f"{visible(wish.job)}: nothing written{_left_behind(folder)}\n", said)
        said += rest
        names = [source.path for source in outcome.plan.job.sources]
        own = _templates(wish, names)
        commit = commit_of(wish.job, opened.named(names))
        made = _documents(outcome.plan, wish, own, commit)
        built = _Built(outcome.code(), screen(outcome.plan, f"{wish.job}: cards in {folder.as_posix()}"), said)
        if wish.job != files.STANDARD_INPUT:
            record = unchanged.Record(
                program=unchanged.program(),
                words=words,
                commit=commit,
                sources=unchanged.fingerprints(opened.contents()),
                templates=_of_texts(own),
                documents=unchanged.fingerprints(made),
                code=built.code,
                out=built.out,
                err=built.err,
            )
            made[unchanged.RECORD] = unchanged.written_record(record)
        writing.write_together(folder, made, lambda: opened.stand() and _templates(wish, names) == own)
        return built
    except writing.Overtaken:
        return None
    except (files.Unreadable, _Unprintable) as problem:
        return _Built(Exit.WRONG_USE, err=complaint("build", str(problem)))
    except OSError as problem:
        why = (problem.strerror or str(problem)).lower()
        what = f"{problem.filename or folder} cannot be written: {why}; nothing is replaced"
        return _Built(Exit.WRONG_USE, err=complaint("build", what))
    except Exception:
        # A fault of the program's own: the other jobs are built all the same.
        return _Built(Exit.ERRORS, err=failure("build", wish.job))


def _words(wish: _Wish, folder: Path) -> tuple[str, ...]:
    """All of the command's words on which the cards, or what is said of them, depend."""
    how = wish.how
    colour, columns = manner()
    paper, templates = how.paper or "", how.templates or ""
    return (
        *map(_in_text, (wish.job, folder.as_posix(), paper, templates)), f"two-up {how.two_up}", f"pdf {how.pdf}",
        f"card {how.card or ''}",
        f"colour {colour}", f"columns {columns}",
    )  # fmt: skip


def _in_text(name: str) -> str:
    """A name as JSON can hold it, also one in bytes that are no text."""
    return name.encode("utf-8", "backslashreplace").decode("utf-8")


def _standing(wish: _Wish, opened: files.JobFiles, words: tuple[str, ...], folder: Path) -> _Built | None:
    """What was said when the cards were built, where they stand as they would be built now; else None."""
    record = unchanged.read_record(folder)
    if record is None or record.words != words or record.program != unchanged.program():
        return None
    if not unchanged.sources_stand(record, opened) or not unchanged.documents_stand(record, folder):
        return None
    names = list(record.sources)
    own = _templates(wish, names)
    if _of_texts(own) != record.templates or commit_of(wish.job, opened.named(names)) != record.commit:
        return None
    return _Built(record.code, record.out.replace("\n", ", unchanged\n", 1), record.err)


def _templates(wish: _Wish, names: list[str]) -> dict[str, str]:
    return templates_of(wish.job, names[1:], wish.how.templates)


def _of_texts(texts: Mapping[str, str]) -> dict[str, str]:
    return unchanged.fingerprints({name: text.encode("utf-8") for name, text in texts.items()})


class _Unprintable(Exception):
    """The cards of a job cannot be printed as they are wished; the text says why."""


def _documents(plan: Plan, wish: _Wish, own: dict[str, str], commit: str | None) -> dict[str, bytes]:
    from seatwright.cards.paper import NoSheet
    from seatwright.cards.render import NoCard
    from seatwright.cards.templating import TemplateFault
    from seatwright.commands.jobs.documents import documents_of

    how = wish.how
    try:
        made = documents_of(plan, paper=how.paper, commit=commit, templates=own, two_up=how.two_up, only=how.card)
    except NoSheet as problem:
        raise _Unprintable(f"{wish.job}: {problem} (--paper)") from problem
    except (NoCard, TemplateFault) as problem:
        raise _Unprintable(f"{wish.job}: {problem}") from problem
    texts = {"cards.html": made.html, "cards.md": made.markdown, "plan.json": made.plan_json}
    found = {name: text.encode("utf-8") for name, text in texts.items()}
    if how.pdf:
        from seatwright.cards.pdf import pdf

        found[PDF] = pdf(made.html)
    return found


def _no_printer() -> str:
    from seatwright.cards.pdf import NoPrinter, check_printer

    try:
        check_printer()
    except NoPrinter as problem:
        return str(problem)
    return ""


def _folder(job: str, out: str | None) -> Path:
    stem = "standard-input" if job == files.STANDARD_INPUT else Path(job).stem
    home = Path.cwd() if job == files.STANDARD_INPUT else Path(job).parent
    return (Path(out) if out is not None else home / "cards") / stem


def _clash(jobs: list[str], out: str | None) -> str | None:
    """A job whose cards can have no folder of their own: an odd name, or one that is another's."""
    seen: dict[str, str] = {}
    for job in jobs:
        if job != files.STANDARD_INPUT and (why := trouble_with(job)):
            return f"{job} is no name for a job: {why}; nothing is written"
        folder = _folder(job, out)
        other = seen.setdefault(one_name(str(files.real(folder))), job)
        if other != job:
            return f"{other} and {job} would both write {folder}; build them into different folders (-o)"
        if (there := same_but_for_capitals(folder)) is not None:
            return (
                f"{there} is there already, and is one with {folder} on a disk that ignores capitals; rename one of "
                "the jobs, or build into another folder (-o)"
            )
    return None


def _summed_up(codes: list[Exit]) -> str:
    counts = Counter(codes)
    parts = (
        (Exit.DONE, "done"),
        (Exit.HOLDS, "with valves on hold"),
        (Exit.ERRORS, "with errors"),
        (Exit.WRONG_USE, "not read or not written"),
    )
    said = ", ".join(f"{counts[code]} {words}" for code, words in parts if counts[code])
    return f"{len(codes)} jobs: {said}\n"


def _left_behind(folder: Path) -> str:
    stale = os.path.isfile(folder / "cards.html")
    return f"; the cards in {visible(folder.as_posix())} are STALE, from before this error" if stale else ""
