"""`seatwright build JOB… [-o DIR]`: the cards of each job."""

from __future__ import annotations

import sys
from pathlib import Path

from seatwright.commands import files
from seatwright.commands.commit import commit_of
from seatwright.commands.outcome import Exit, read_and_plan, say, worst
from seatwright.commands.summary import summary
from seatwright.planning.plan import Plan


def build(jobs: list[str], out: str | None, paper: str | None) -> Exit:
    """Write cards.html, cards.md and plan.json for each job into DIR/<name of the job file>/ and sum up."""
    if clash := _clash(jobs):
        sys.stderr.write(f"seatwright build: {clash}\n")
        return Exit.WRONG_USE
    return worst(_build(job, out, paper) for job in jobs)


def _build(job: str, out: str | None, paper: str | None) -> Exit:
    folder = _folder(job, out)
    try:
        outcome = read_and_plan(job)
        say(outcome.messages, outcome.sources)
        if outcome.plan is None:
            sys.stdout.write(f"{job}: nothing written{_left_behind(folder)}\n")
            return outcome.code()
        files.write_together(folder, _documents(outcome.plan, job, paper))
    except files.Unreadable as problem:
        sys.stderr.write(f"seatwright build: {problem}\n")
        return Exit.WRONG_USE
    except OSError as problem:
        sys.stderr.write(
            f"seatwright build: {folder} cannot be written: {(problem.strerror or str(problem)).lower()}\n"
        )
        return Exit.WRONG_USE
    sys.stdout.write(summary(outcome.plan, job, folder.as_posix()))
    return outcome.code()


def _documents(plan: Plan, job: str, paper: str | None) -> dict[str, bytes]:
    from seatwright.cards.render import documents

    made = documents(plan, paper=paper, commit=commit_of(job, plan))
    texts = {"cards.html": made.html, "cards.md": made.markdown, "plan.json": made.plan_json}
    return {name: text.encode("utf-8") for name, text in texts.items()}


def _folder(job: str, out: str | None) -> Path:
    stem = "standard-input" if job == files.STANDARD_INPUT else Path(job).stem
    home = Path.cwd() if job == files.STANDARD_INPUT else Path(job).parent
    return (Path(out) if out is not None else home / "cards") / stem


def _clash(jobs: list[str]) -> str | None:
    """Two jobs whose cards would land in one folder."""
    seen: dict[str, str] = {}
    for job in jobs:
        stem = "standard-input" if job == files.STANDARD_INPUT else Path(job).stem
        if seen.setdefault(stem, job) != job:
            return f"{seen[stem]} and {job} would both write the folder {stem}; build them into different folders (-o)"
    return None


def _left_behind(folder: Path) -> str:
    stale = (folder / "cards.html").is_file()
    return f"; the cards in {folder.as_posix()} are STALE, from before this error" if stale else ""
