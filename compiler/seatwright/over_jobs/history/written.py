"""The history as a person reads it on a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from seatwright.over_jobs.history.runs import Run
from seatwright.over_jobs.history.tables import cutter_tables, instrument_tables, plain_lines
from seatwright.over_jobs.history.whole import History
from seatwright.over_jobs.history.wording import NOTHING_TO_TELL, bores_counted, run_named, run_sentences, tip_named
from seatwright.text.showing import visible


def history_as_text(found: History) -> str:
    """The cutters, a paragraph for each material and tip; then what else the jobs tell, in tables."""
    lines: list[str] = []
    for run in found.runs:
        lines += [*_paragraph(run), ""]
    if not found.runs:
        lines += [NOTHING_TO_TELL, ""]
    for table in (*cutter_tables(found), *instrument_tables(found)):
        lines += [table.title.lower(), *(f"  {line}" for line in plain_lines(table)), ""]
    return "".join(f"{visible(line)}\n" for line in lines[:-1])


def _paragraph(run: Run) -> Iterator[str]:
    yield f"{run_named(run)}, {tip_named(run)} ({run.last.shelf}): {bores_counted(run)}"
    yield from (f"  {sentence}" for sentence in run_sentences(run))
