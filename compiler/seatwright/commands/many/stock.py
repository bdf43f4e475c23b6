"""`seatwright stock [FOLDER]`: what is on the shelves over all jobs, who is promised it, and what to order."""

from __future__ import annotations

import sys

from seatwright.commands.jobs.over_folder import InFolder, excerpts, over_folder
from seatwright.commands.terminal.exits import Exit, worst
from seatwright.commands.terminal.saying import say
from seatwright.over_jobs.stock.pieces import JobPieces, pieces_of
from seatwright.over_jobs.stock.said import stock_messages
from seatwright.over_jobs.stock.shelves import standings
from seatwright.over_jobs.stock.to_order import ordering_of
from seatwright.planning.plan import Plan


def stock(folder: str, form: str, at_once: int | None = None) -> Exit:
    """Print it; 3 where something is short. form: text | csv | json."""
    read = over_folder("stock", folder, job_pieces, at_once)
    stand = standings(read.rows)
    ordering = ordering_of(stand, read.rows)
    messages = stock_messages(stand, read.rows, ordering)
    say(messages, excerpts(messages))
    match form:
        case "csv":
            from seatwright.over_jobs.stock.document import as_csv

            sys.stdout.write(as_csv(stand, ordering))
        case "json":
            from seatwright.over_jobs.stock.document import as_json

            sys.stdout.write(as_json(stand, read.rows, ordering, read.left_out))
        case _:
            from seatwright.over_jobs.stock.written import as_text

            sys.stdout.write(as_text(stand, read.rows, ordering))
    return worst([read.code, Exit.HOLDS if ordering.lines else Exit.DONE])


def job_pieces(plan: Plan, where: InFolder) -> JobPieces:
    """What a job takes from the shelves."""
    return pieces_of(plan, where.file, where.shelves, where.seen)
