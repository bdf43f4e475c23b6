"""`seatwright enter JOB [VALVE…]`: readings typed at the bench, by hand or by a gauge, each written at once."""

from __future__ import annotations

import sys
import time

from seatwright.commands.bench.asked import TABLES, every_cell
from seatwright.commands.bench.judged import JobNow, as_it_stands
from seatwright.commands.bench.session import KEYS, Session
from seatwright.commands.bench.tables import Under, last_day
from seatwright.commands.disk import files
from seatwright.commands.terminal.exits import Exit
from seatwright.commands.terminal.saying import complain, say
from seatwright.job import Job
from seatwright.job.declarations import kind_of
from seatwright.job.typed import names
from seatwright.planning.plan import Status
from seatwright.syntax.formatting.format import LayoutBroken
from seatwright.text.showing import visible

TODAY = "today"
_NOT_CUT = (Status.LEFT_ALONE, Status.NOT_PLANNED, Status.KEPT)


def enter(job: str, valves: list[str], table: str, date: str | None, at: str | None, *, again: bool) -> Exit:
    """Ask for what is not given yet, and write each figure into the file as soon as it is kept."""
    if date == TODAY:
        date = time.strftime("%Y-%m-%d")  # the only look at a clock: a person asks for it by this word
    named = tuple(dict.fromkeys(valve.upper() for valve in valves))
    if why := _no_job_file(job):
        complain("enter", why)
        return Exit.WRONG_USE
    reading = as_it_stands(job)
    if reading.job is None or reading.source is None:
        say(reading.outcome.errors, reading.outcome.sources)
        complain("enter", f"put {job} right first: a figure is judged with the whole job")
        return Exit.ERRORS
    if why := _refusal(reading, reading.job, named, table, date, again):
        complain("enter", why)
        return Exit.WRONG_USE
    line = " ".join((table, *([date] if date else []), *(["at", at] if at else [])))
    cells = list(every_cell(reading.job, table, named or _worked_on(reading, table)))
    session = Session(job, Under(table, line), cells, reading, again=again)
    sys.stderr.write(f"{KEYS}\n")
    try:
        session.run()
    except OSError as problem:
        sys.stderr.write("\n")
        complain("enter", f"{job} cannot be written: {(problem.strerror or str(problem)).lower()}")
        return Exit.WRONG_USE
    except LayoutBroken as problem:
        complain("enter", f"{job} is left as it is, a fault of the formatter's own: {problem}. Please report it.")
        return Exit.WRONG_USE
    except KeyboardInterrupt:
        sys.stderr.write("\n")
        raise
    finally:
        sys.stdout.write(_end(session, date))
        sys.stdout.flush()
    return Exit.DONE


def _no_job_file(job: str) -> str:
    if job == files.STANDARD_INPUT:
        return "it writes into a file, and standard input is none"
    kind = kind_of(job)
    return (
        ""
        if kind == "job"
        else f"readings belong in a job file, not in {'an' if kind == 'engine' else 'a'} {kind} file"
    )


def _refusal(reading: JobNow, job: Job, named: tuple[str, ...], table: str, date: str | None, again: bool) -> str:
    """Why nothing is asked, empty where something can be."""
    known = [valve.name for head in job.heads for valve in head.valves]
    for valve in named:
        if valve not in known:
            meant = names.nearest_name(valve, known)
            return f"this job has no valve {valve}; " + (f"did you mean {meant}?" if meant else "name it in the file")
    if not known:
        return "this job names no valve yet; write `valves I1 E1` below its head"
    assert reading.source is not None
    last = last_day(reading.source, table)
    if again and date is None:
        return "--again wants the day of the new readings: --date 2026-11-17, or --date today"
    if again and date is not None and last is not None and date < last:
        return f"--again wants a day later than {last}, under which something is {table} already"
    return ""


def _worked_on(reading: JobNow, table: str) -> tuple[str, ...]:
    """The valves that are asked for where none is named: what is left alone, or kept, was not cut."""
    plan = reading.outcome.plan
    if plan is None or table != "cut":
        return ()
    cut = tuple(valve.name for valve in plan.valves if valve.status not in _NOT_CUT)
    return cut or tuple(valve.name for valve in plan.valves)


def _end(session: Session, date: str | None) -> str:
    """What was kept, and what is still to be said of it."""
    count, job = len(session.kept), visible(session.job)
    if not count:
        return f"nothing written into {job}\n"
    valves = len({(one.head, one.valve) for one in session.kept})
    lines = [
        f"{count} {'figure' if count == 1 else 'figures'} of {valves} {'valve' if valves == 1 else 'valves'} stand in "
        f"{job}, under `{session.under.line}`"
    ]
    if date is None:
        word = session.under.table
        lines.append(f"the section has no date: write the day behind `{word}` in the file; --date gives it")
    lines.append(f"next: `seatwright check {job}`")
    return "\n".join(lines) + "\n"


__all__ = ["TABLES", "enter"]
