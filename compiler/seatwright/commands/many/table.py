"""`seatwright table FOLDER PATH…`: any figure of every valve of all jobs, for a spreadsheet."""

from __future__ import annotations

import sys
from functools import partial

from seatwright.commands.jobs.over_folder import InFolder, over_folder
from seatwright.commands.terminal.exits import Exit
from seatwright.commands.terminal.saying import complain
from seatwright.over_jobs.table.document import written_table
from seatwright.over_jobs.table.paths import NoSuchPath, paths_below
from seatwright.over_jobs.table.rows import TableRow, filled_columns, table_rows
from seatwright.planning.plan import Plan


def table(folder: str, asked: list[str], form: str, unit: str, at_once: int | None = None) -> Exit:
    """Print a row for each valve. form: csv | tsv | json | markdown; unit of lengths: mm | inch."""
    try:
        paths = list(dict.fromkeys(path for each in asked for path in paths_below(each)))
    except NoSuchPath as problem:
        complain("table", str(problem))
        return Exit.WRONG_USE
    read = over_folder("table", folder, partial(valve_rows, paths=paths, inch=unit == "inch"), at_once)
    rows = [row for of_job in read.rows for row in of_job]
    shown = filled_columns(asked, paths, rows)
    rows = [TableRow(row.own, tuple(row.cells[at] for at in shown)) for row in rows]
    sys.stdout.write(written_table(form, [paths[at] for at in shown], rows, read.left_out))
    return read.code


def valve_rows(plan: Plan, where: InFolder, paths: list[str], inch: bool) -> tuple[TableRow, ...]:
    """The rows of a job."""
    return table_rows(plan, where.file, paths, inch)
