"""A job written out in full, taken apart: what is of its type into an engine file, what is of the piece stays."""

from __future__ import annotations

import re
from dataclasses import dataclass

from seatwright.job import read
from seatwright.job.declarations import Dimension, Field, Form, engine_sections, vocabulary
from seatwright.planning.plan import Plan
from seatwright.planning.planner import plan
from seatwright.text import Message
from seatwright.told.plan_json import plan_document

_OF_TYPE = {
    "head": {field.word: field for field in engine_sections.ENGINE.fields if field.word not in ("units", "source")},
    "valves": {
        field.word: field for field in engine_sections.TYPE_VALVES.fields if field.word not in ("insert", "guide")
    },
}
_TABLES = ("layout", "holes", "spacing")
_FIGURE = r"[0-9/½]"


@dataclass(frozen=True, slots=True)
class Parted:
    """A job without what is of its type, and the engine file that has it."""

    job: str
    engine: str


def parted(job: str, units: str) -> Parted | None:
    """A job of one head, taken apart. units: of the engine file. None for a job of several heads."""
    if len(re.findall(r"^head\b", job, re.MULTILINE)) != 1:
        return None
    own = re.search(r"^\s*units\s+(\w+)", job, re.MULTILINE)
    assert own is not None
    unit = {"mm": "mm", "inch": "in", "in": "in"}[own[1]]
    words = vocabulary("job").sections.keys() | {"use", "note", "hold", "language", "not-counted"}
    left: list[str] = []
    head: list[str] = []
    others: list[str] = []
    section = ""
    for line in job.splitlines():
        bare = line.split("#")[0].strip() if '"' not in line else line.strip()
        word = bare.split()[0].lower() if bare else ""
        if word in words and not (section in ("head", "valves") and word in _OF_TYPE[section]):
            section = word if word in vocabulary("job").sections else section
            if word == "valves":
                others.append(line)
            if word in _TABLES:
                others.append(line if " in " in line or units == own[1] else f"{line.rstrip()} in {own[1]}")
                continue
            left.append(line)
        elif section in _TABLES:
            others.append(line)
        elif section in _OF_TYPE and word in _OF_TYPE[section]:
            moved = with_unit(bare, _OF_TYPE[section][word], unit) if units != own[1] else bare
            (head if section == "head" else others).append(f"  {moved}")
        else:
            left.append(line)
    at = next(number for number, line in enumerate(left) if line.startswith("head"))
    left.insert(at, 'use "type.engine"')
    engine = [f'engine T1 "the type"\n  units  {units}\n  source "a manual" 2001-02-03', *head, *others]
    return Parted("\n".join(left) + "\n", "\n".join(engine) + "\n")


def with_unit(line: str, field: Field, unit: str) -> str:
    """A line as it is typed in a file of other units: every bare length with its own."""
    at_height = field.form is Form.FORCE_AT
    if (not at_height and field.dimension is not Dimension.LENGTH) or "=" in line:
        return line
    figure, quote, text = line.partition(' "')
    typed = figure.split("#")[0].rstrip()
    way = next((word for word in (" tir", " offset") if typed.endswith(word)), "")
    typed = typed.removesuffix(way)
    if re.search(_FIGURE + r"$", typed):
        typed += f" {unit}"
    return f"{typed}{way}{quote}{text}"


def made(job: str, files: dict[str, bytes]) -> tuple[Plan, tuple[Message, ...]]:
    """A job's plan and what was said while it was read."""

    def load(name: str) -> bytes:
        return job.encode() if name == "job.seat" else files[name]

    found, messages = read("job.seat", load)
    assert found is not None, [message for message in messages if message.severity == "error"]
    return plan(found), messages


def figures(job: str, files: dict[str, bytes]) -> dict[str, object]:
    """All that plan.json has of a job, but for whose figures they are and where they stand."""
    planned, messages = made(job, files)
    document = plan_document(planned)
    slugs = sorted((message.slug, message.valves) for message in (*planned.messages, *messages))
    bare = _without(document, ("sources", "messages", "engines", "engine", "overridden", "source", "line"))
    assert isinstance(bare, dict)
    return {**bare, "slugs": [each for each in slugs if each[0] != "engine-not-used"]}


def _without(part: object, names: tuple[str, ...]) -> object:
    if isinstance(part, dict):
        return {name: _without(each, names) for name, each in part.items() if name not in names}
    if isinstance(part, list):
        return [_without(each, names) for each in part]
    return part
