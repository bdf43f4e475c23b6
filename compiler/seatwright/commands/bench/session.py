"""The conversation at the bench: a question, a figure, what the job says to it, the figure written."""

from __future__ import annotations

import contextlib
import sys
import textwrap
from collections.abc import Callable
from functools import partial
from pathlib import Path

from seatwright.commands.bench.asked import (
    as_typed_by_a_gauge,
    asked_head,
    asked_valve,
    column_field,
    counted,
    counted_of,
    prompted,
)
from seatwright.commands.bench.judged import JobNow, as_it_stands, as_it_would_stand, new_messages, touches
from seatwright.commands.bench.tables import Asked, StandsAlready, Under, one_cell, standing_cell, with_figure
from seatwright.commands.disk import writing
from seatwright.commands.disk.files import Unreadable
from seatwright.commands.terminal.saying import manner
from seatwright.job.declarations import Dimension, Form
from seatwright.job.model import Reading
from seatwright.text import Severity, Span
from seatwright.text.showing import visible

KEYS = "Enter: not now   / joins readings   < back   > next valve   >> next station   ? help   . end"
"""What may be typed in place of a figure."""

_MOST_OTHERS = 8
_DOUBTS = (Severity.WARNING, Severity.HOLD)


class Session:
    """One sitting. kept: what was typed and stands in the file now, by its cell; left: the cells that were passed over.

    again: cells of earlier sections are asked for as well; those of this one alone are given.
    """

    def __init__(self, job: str, under: Under, cells: list[Asked], first: JobNow, *, again: bool) -> None:
        self.job = job
        self.under = under
        self.cells = cells
        self.again = again
        self.kept: dict[Asked, str] = {}
        self._now = first
        self._unit = "in" if first.job is not None and first.job.units == "inch" else "mm"
        self._at = 0
        self._before: list[int] = []  # where the earlier questions stand
        self._here = False  # the cell is asked for once more, given or not
        self._doubted: str | None = None  # the figure that was warned of
        self._station: tuple[int, tuple[str, ...]] | None = None

    def run(self) -> None:
        """Ask until the last cell, the point, or the end of what is typed.

        Raises OSError where the file cannot be written, Unreadable where it cannot be read any more.
        """
        while self._at < len(self.cells):
            asked = self.cells[self._at]
            self._read_anew()
            if not self._here and self._given(asked):
                self._at += 1
                continue
            typed = self._question(asked)
            match typed:
                case None | ".":
                    return
                case "<":
                    self._go_back()
                case "?":
                    self._explain(asked)
                case ">":
                    self._on(partial(_of_another_valve, asked))
                case ">>":
                    self._on(partial(_of_another_station, asked))
                case "":
                    self._on()
                case _:
                    self._answer(asked, typed)

    def _read_anew(self) -> None:
        self._now = as_it_stands(self.job, self._now)
        if self._now.source is None:
            raise Unreadable(f"{self.job} is no text any more")

    # ---- asking ------------------------------------------------------------------------------------------------

    def _given(self, asked: Asked) -> bool:
        """Whether a cell needs no figure. It is asked of the file as it stands: another hand may have filled it."""
        if self._now.source is not None and standing_cell(self._now.source, self.under, asked) is not None:
            return True
        job = self._now.job
        return job is not None and not self.again and counted(job, self.under.table, asked) is not None

    def _question(self, asked: Asked) -> str | None:
        if self._station != (asked.head, asked.columns):
            if self._station is not None:
                _say("")
            self._station = (asked.head, asked.columns)
            _say(f"{self._called(asked)}{', '.join(asked.columns)}:")
        field = column_field(self.under.table, asked.column)
        stands = self.kept.get(asked)
        _say(
            f"{asked.valve} {asked.column} [{prompted(field, self._unit)}] " + (f"({stands}) " if stands else ""),
            end="",
        )
        typed = sys.stdin.readline()
        return " ".join(typed.split()) if typed else None

    def _called(self, asked: Asked) -> str:
        job = self._now.job
        head = asked_head(job, asked) if job is not None and len(job.heads) > 1 else None
        return f"head {head.name or head.text}: " if head is not None else ""

    def _on(self, is_next: Callable[[Asked], bool] = lambda _: True) -> None:
        """To the next cell, or to the next that is such."""
        self._before.append(self._at)
        self._here, self._doubted = False, None
        self._at += 1
        while self._at < len(self.cells) and not is_next(self.cells[self._at]):
            self._at += 1

    def _go_back(self) -> None:
        if not self._before:
            _say("  this is the first")
            return
        self._at = self._before.pop()
        self._here, self._doubted = True, None

    def _explain(self, asked: Asked) -> None:
        field = column_field(self.under.table, asked.column)
        unit = f", in {self._unit}" if field.dimension is Dimension.LENGTH else ""
        _say(f"  {asked.column}: {field.help}{unit}, such as {field.example}")
        head = asked_head(self._now.job, asked) if self._now.job is not None else None
        others = [
            f"{valve.name} {value.typed}"
            for valve in (head.valves if head is not None else ())
            if isinstance(value := counted_of(valve, self.under.table, field.to), Reading)
            and valve.name != asked.valve
            and valve.name[:1] == asked.valve[:1]
        ]
        if others:
            _say(f"  the others: {', '.join(others[:_MOST_OTHERS])}")
        _say(f"  {KEYS}")
        self._here = True

    # ---- answering ---------------------------------------------------------------------------------------------

    def _answer(self, asked: Asked, typed: str) -> None:
        """Take a figure, or leave the cell open, so that it is asked for once more."""
        self._here = True
        doubted, self._doubted = self._doubted, None
        if typed == "-" and asked not in self.kept:
            self._on()
            return
        field = column_field(self.under.table, asked.column)
        typed = as_typed_by_a_gauge(typed) if field.form in (Form.NUMBER, Form.LEAK_FOUND) else typed
        figure, wrong = one_cell(asked.valve, self.under, asked.column, typed)
        if wrong:
            _refuse("error", *wrong)
            return
        try:
            while not self._taken(asked, figure, confirmed=figure == doubted):
                _say(f"  {self.job} was changed by another hand meanwhile; it is read anew")
                self._read_anew()
        except StandsAlready as other:
            _say(f"  {asked.valve} {asked.column} stands in the file as {other.figure} now, and stays")
            self._on()

    def _taken(self, asked: Asked, figure: str, *, confirmed: bool) -> bool:
        """Read the job with a figure, and write it if nothing speaks against it; False where it has to be read anew."""
        before = self._now
        assert before.source is not None
        text = with_figure(before.source, self.under, asked, figure, self.kept.get(asked))
        after = as_it_would_stand(self.job, text.encode("utf-8"))
        assert after.source is not None
        _, cell = standing_cell(after.source, self.under, asked) or ("", None)
        fresh = new_messages(before, after, cell)
        errors = [message for message in fresh if message.severity is Severity.ERROR]
        doubts = [message for message in fresh if message.severity in _DOUBTS and touches(message, cell)]
        if errors:
            _refuse("error", errors[0].text, errors[0].help)
            return True
        if not self._counts(asked, after, cell):
            _refuse("error", *self._why_it_does_not_count(asked, after))
            return True
        if doubts and not confirmed:
            for message in doubts:
                _refuse(message.severity, message.text, message.help)
            _say(f"  → Type {figure} once more to keep it.")
            self._doubted = figure
            return True
        try:
            writing.rewrite(Path(self.job), before.content, after.content)
        except writing.Overtaken:
            return False
        self._now = after
        if figure == "-":
            self.kept.pop(asked, None)
        else:
            self.kept[asked] = figure
        for message in fresh:
            if message not in doubts:
                _say_message(message.severity, message.text)
        self._on()
        return True

    def _counts(self, asked: Asked, after: JobNow, cell: Span | None) -> bool:
        """Whether the job takes the figure that stands there now."""
        if cell is None or after.job is None:
            return True
        value = counted(after.job, self.under.table, asked)
        return value is not None and value.span.line == cell.line

    def _why_it_does_not_count(self, asked: Asked, after: JobNow) -> tuple[str, str]:
        valve = asked_valve(after.job, asked) if after.job is not None else None
        renewed = valve.replaced[-1] if valve is not None and valve.replaced else None
        if renewed is None:
            return f"this figure would not count for {asked.valve}", "Give the day on which it was measured: --date."
        return (
            f"this figure would not count: the {renewed.part} of {asked.valve} was renewed on {renewed.date}",
            f"Begin again with the day on which the new one was measured: --date {renewed.date}, or later.",
        )


def _of_another_valve(here: Asked, one: Asked) -> bool:
    return one.valve != here.valve or _of_another_station(here, one)


def _of_another_station(here: Asked, one: Asked) -> bool:
    return (one.head, one.columns) != (here.head, here.columns)


def _say(text: str, end: str = "\n") -> None:
    sys.stderr.write(visible(text) + end)
    sys.stderr.flush()


def _refuse(severity: str, text: str, what_to_do: str) -> None:
    """Why a figure is not kept, with the bell: who types with a gauge looks at the gauge. What was typed ahead is let
    go: it was meant for the cells behind this one."""
    if sys.stderr.isatty():
        sys.stderr.write("\a")
    if sys.stdin.isatty():
        with contextlib.suppress(ImportError, OSError):
            import termios

            termios.tcflush(sys.stdin, termios.TCIFLUSH)
    _say_message(severity, text)
    _wrapped(f"→ {what_to_do}", "  ", "    ")


def _say_message(severity: str, text: str) -> None:
    _wrapped(f"{severity}: {text}", "  ", "    ")


def _wrapped(text: str, first: str, later: str) -> None:
    width = min(manner()[1], 100)
    for line in textwrap.wrap(text, width, initial_indent=first, subsequent_indent=later, break_on_hyphens=False):
        _say(line)
