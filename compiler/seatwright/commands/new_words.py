"""What `seatwright new` understands on the command line: its flags are the declared fields of a job and its head."""

from __future__ import annotations

import argparse
from collections.abc import Callable

from seatwright.job.declarations import Field, Form, job_sections
from seatwright.job.starter import MOST_CYLINDERS, VALVES_PER_CYLINDER

OF_JOB = job_sections.JOB.fields
OF_HEAD = tuple(each for each in job_sections.HEAD.fields if each.word in ("material", "fuel", "depth-from"))


def add_words(command: argparse.ArgumentParser) -> None:
    """Add the words of `new` to its parser."""
    command.add_argument("file", metavar="FILE", help="the file to be: NAME.seat for a job, NAME.shop for a shop")
    command.add_argument("--number", metavar="NAME", help="the number of the job (left out: the name of the file)")
    command.add_argument("--title", metavar="TEXT", help="what the job is about, in a line; or the name of the shop")
    command.add_argument(
        "--cylinders", type=int, choices=range(1, MOST_CYLINDERS + 1), metavar="N", help="cylinders in this head"
    )
    command.add_argument(
        "--valves-per-cylinder", type=int, choices=VALVES_PER_CYLINDER, metavar="N", help="valves of each, 2 to 5"
    )
    command.add_argument("--shop", metavar="FILE", help="the shop file to use, in the job's folder or below")
    for field in (*OF_JOB, *OF_HEAD):
        command.add_argument(
            f"--{field.word}",
            dest=f"field {field.word}",
            metavar=None if field.choices else _metavar(field),
            choices=field.choices or None,
            type=_as_declared(field) if field.choices else str,
            help=field.help,
        )


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
