"""Every typed figure of a demo job, moved by one of its last digit in the source text, and the job planned again."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from msgspec import Struct
from tests.planning.sources import JOBS

from seatwright.job import read
from seatwright.job.model import Given, Job, Reading
from seatwright.planning.plan import Plan, ValvePlan
from seatwright.planning.plan.figure import Figure
from seatwright.planning.planner import plan
from seatwright.text import Span
from seatwright.told.derivation import named_figures

_LAST_DIGIT = re.compile(r"\d(?=\D*$)")


@dataclass(frozen=True)
class Cell:
    """A figure as somebody typed it: where, and in which column or field."""

    name: str
    typed: str
    span: Span

    @property
    def is_one(self) -> bool:
        """Whether its text stands in the file as it is: a list takes the unit behind its last figure for all."""
        line = (JOBS / self.span.file).read_text("utf-8").splitlines()[self.span.line - 1]
        return line[self.span.column - 1 :].startswith(self.typed) and self.nudged() != self.typed

    def nudged(self) -> str:
        """One more in its last digit; one less where that would carry into the digit before."""

        def by_one(match: re.Match[str]) -> str:
            digit = int(match.group())
            return str(digit + 1 if digit < 9 else digit - 1)

        return _LAST_DIGIT.sub(by_one, self.typed, count=1)


def planned_with(job: str, cell: Cell | None = None) -> Plan | None:
    """A demo job planned, one cell of it nudged; None where the nudge makes it an error (two figures that disagree)."""

    def load(file: str) -> bytes:
        text = (JOBS / file).read_text("utf-8")
        if cell is not None and file == cell.span.file:
            lines = text.splitlines(keepends=True)
            at, line = cell.span.column - 1, lines[cell.span.line - 1]
            assert line[at : at + len(cell.typed)] == cell.typed, (cell, line)
            lines[cell.span.line - 1] = line[:at] + cell.nudged() + line[at + len(cell.typed) :]
            text = "".join(lines)
        return text.encode()

    made, _ = read(job, load)
    return None if made is None else plan(made)


def measured_cells(job: Job) -> Iterator[Cell]:
    """All that was measured: the tables `measured`, `trial`, `cut` and `finished`."""
    for head in job.heads:
        for trial in head.trials:
            yield from _cells(trial, "trial")
        for valve in (*head.valves, *head.neighbours):
            for part, name in ((valve.measured, "measured"), (valve.cut, "cut"), (valve.finished, "finished")):
                yield from _cells(part, f"{valve.name}.{name}")


def typed_cells(job: Job) -> Iterator[Cell]:
    """Every length, angle and temperature that stands in the job and its shop files, each place once."""
    seen = set()
    for cell in _cells(job, "job"):
        if cell.span not in seen:
            seen.add(cell.span)
            yield cell


def _cells(part: object, name: str) -> Iterator[Cell]:
    if isinstance(part, Given | Reading):
        if re.search(r"\d", part.typed) and "/" not in part.typed and "=" not in part.typed:
            yield Cell(name, part.typed, part.span)
    elif isinstance(part, tuple):
        for each in part:
            yield from _cells(each, f"{name}.{getattr(each, 'name', '')}")
    elif isinstance(part, Struct) and not isinstance(part, Span):
        for field in part.__struct_fields__:
            if field != "earlier":
                yield from _cells(getattr(part, field), f"{name}.{field}")


def figures(made: Plan) -> dict[str, Figure]:
    """Every figure of a plan by its name: of its valves, settings, trials, bridges, and what is fetched."""
    found: dict[str, Figure] = {}
    for valve in made.valves:
        found.update({f"{valve.name}.{path}": each for path, each in named_figures(valve)})
    for setting in made.settings:
        found.update({f"setting {setting.number}.{path}": each for path, each in named_figures(setting)})
    for place, trial in enumerate(made.trials):
        found.update({f"trial {place}.{path}": each for path, each in named_figures(trial)})
    for bridge in made.bridges:
        found.update({f"{'-'.join(bridge.between)}.{path}": each for path, each in named_figures(bridge)})
    found.update({f"fetch.{path}": each for path, each in named_figures(made.fetch)})
    return found


def choices(made: Plan) -> object:
    """What is chosen and not reckoned: it may turn over with the last digit of a figure, and then all else may."""
    return (
        tuple(_choices(valve) for valve in made.valves),
        tuple((setting.cutter, setting.valves) for setting in made.settings),
        tuple(bridge.between for bridge in made.bridges),
    )


def _choices(valve: ValvePlan) -> object:
    return (
        valve.status,
        valve.insert and (valve.insert.name, valve.insert.measured),
        valve.pilot and valve.pilot.name,
        valve.cutter,
        valve.setting,
        valve.assembly and (valve.assembly.head_C.value, valve.assembly.chill),
        tuple(hold.slug for hold in valve.holds),
        valve.insert and tuple((one.name, one.reason) for one in valve.insert.passed_over),
        valve.next and valve.next.insert,
        valve.seat and valve.seat.carries,
        valve.trial_here,
    )
