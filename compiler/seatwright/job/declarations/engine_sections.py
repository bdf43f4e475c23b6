"""The sections of an engine file: what the maker says of one head type, in the words of a job."""

from __future__ import annotations

from msgspec.structs import replace

from seatwright.job.declarations import job_sections, job_tables
from seatwright.job.declarations.kinds import Field, Form, SectionDeclared
from seatwright.job.declarations.shop_sections import UNITS
from seatwright.syntax.vocabulary import Shape


def _of_type(section: SectionDeclared) -> tuple[tuple[Field, ...], tuple[str, ...]]:
    """The fields that are of a type, and the words of those that are of one piece."""
    of_type = tuple(field for field in section.fields if not field.of_piece)
    return of_type, tuple(field.word for field in section.fields if field.of_piece)


_OF_JOB = ("engine", "cylinders")  # a head says of which engine it is, and an engine file is of one
_HEAD, _OF_HEAD = _of_type(job_sections.HEAD)
_VALVES, _OF_VALVES = _of_type(job_sections.VALVES)

ENGINE = SectionDeclared(
    "engine",
    Shape.FIELDS,
    "One head type, as its maker describes it. Stands once, first.",
    'engine TC3 "three cylinder, aluminium head"',
    (
        UNITS,
        Field(
            "source",
            Form.TEXT_AND_DATE,
            "where the figures are printed, and when that was",
            'source "overhaul manual 3" 2014-06-01',
            required=True,
        ),
        *_HEAD,
    ),
    sourced=True,
    of_piece=tuple(word for word in _OF_HEAD if word not in _OF_JOB),
)

TYPE_VALVES = replace(
    job_sections.VALVES,
    help="What a set of valves has in common, new or `reconditioned`; the narrowest wins. It plans no valve.",
    opening="valves exhaust reconditioned",
    fields=_VALVES,
    of_piece=_OF_VALVES,
)

OF_ENGINE_FILE = (ENGINE, TYPE_VALVES, job_tables.POCKET_SIZES, job_tables.LAYOUT, job_tables.HOLES, job_tables.SPACING)
