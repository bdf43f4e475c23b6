"""What `seatwright new` understands on the command line: its flags are the declared fields of a job and its head."""

from __future__ import annotations

import argparse
from collections.abc import Callable

from seatwright.commands.terminal.word import Slot
from seatwright.job.declarations import Field, Form, job_sections
from seatwright.job.starter import MOST_CYLINDERS, VALVES_PER_CYLINDER

OF_JOB = job_sections.JOB.fields
OF_HEAD = tuple(each for each in job_sections.HEAD.fields if each.word in ("material", "fuel", "depth-from"))


def fields_given(given: argparse.Namespace) -> dict[str, str]:
    """The declared fields that flags gave, by their words."""
    found = {field.word: getattr(given, f"field {field.word}") for field in (*OF_JOB, *OF_HEAD)}
    return {word: value for word, value in found.items() if value is not None}


def _as_declared(field: Field) -> Callable[[str], str]:
    """A choice as the declaration has it: here too a hyphen equals a space, and capitals never matter."""
    known = {choice.replace("-", " "): choice for choice in field.choices}
    return lambda typed: known.get(typed.lower().replace("-", " "), typed)


def _metavar(field: Field) -> str:
    return {Form.TEXT: "TEXT", Form.DATE: "DATE"}.get(field.form, "NAME")


NEW_WORDS = (
    Slot("file", "the file to be: NAME.seat for a job, NAME.shop for a shop, NAME.engine for an engine", "", "FILE"),
    Slot("number", "the number of the job (left out: the name of the file)", "--number", "NAME"),
    Slot("title", "what the job is about, in a line; or the name of the shop", "--title", "TEXT"),
    Slot("cylinders", "cylinders in this head", "--cylinders", "N", range(1, MOST_CYLINDERS + 1), kind=int),
    Slot("valves_per_cylinder", "valves of each, 2 to 5", "--valves-per-cylinder", "N", VALVES_PER_CYLINDER, kind=int),
    Slot("shop", "the shop file to use", "--shop", "FILE"),
    Slot("engine", "the engine file that the head is of: what it gives is not asked for", "--engine", "FILE"),
    Slot("numbers", 'which of the job\'s its cylinders are, as "4 5 6"', "--numbers", "TEXT"),
    Slot("source", "of an engine file: where its figures are printed", "--source", "TEXT"),
    *(
        Slot(f"field {field.word}", field.help, f"--{field.word}", choices=field.choices, kind=_as_declared(field))
        if field.choices
        else Slot(f"field {field.word}", field.help, f"--{field.word}", _metavar(field))
        for field in (*OF_JOB, *OF_HEAD)
    ),
)
