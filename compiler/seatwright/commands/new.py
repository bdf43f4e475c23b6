"""`seatwright new FILE`: a job file or a shop file to begin with, from flags or from a few questions."""

from __future__ import annotations

import os
import posixpath
import re
import sys
import unicodedata
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TypeVar

from msgspec import Struct

from seatwright.commands.disk import writing
from seatwright.commands.disk.files import JobFiles, Unreadable, open_job, real
from seatwright.commands.disk.names import same_but_for_capitals, trouble_with
from seatwright.commands.terminal.exits import Exit
from seatwright.commands.terminal.new_words import OF_HEAD, OF_JOB
from seatwright.commands.terminal.saying import complain, say
from seatwright.job import read
from seatwright.job.declarations import Field, job_sections
from seatwright.job.head.of_engine import OfHead
from seatwright.job.starter import (
    MOST_CYLINDERS,
    VALVES_PER_CYLINDER,
    EngineGives,
    StarterWanted,
    WantedEngine,
    WantedShop,
    starter_engine,
    starter_job,
    starter_shop,
)
from seatwright.job.typed.gather import Mistake
from seatwright.job.typed.names import check_name, valve_order
from seatwright.job.used_files import read_engine
from seatwright.text import Severity, Span
from seatwright.text.message import in_order
from seatwright.text.showing import visible

_Answer = TypeVar("_Answer")
_JOB_FILE, _SHOP_FILE, _ENGINE_FILE = ".seat", ".shop", ".engine"
_MATERIAL = job_sections.HEAD.by_word["material"]
_UNITS = job_sections.JOB.by_word["units"]


class Refusal(Exception):
    """Nothing is written, for the reason that it says."""


class Answers(Struct, frozen=True):
    """What was said of the new file so far. fields: of the job and of the head, by their words, as typed."""

    fields: Mapping[str, str]
    number: str | None = None
    title: str | None = None
    cylinders: int | None = None
    valves_per_cylinder: int | None = None
    shop: str | None = None
    engine: str | None = None
    numbers: str | None = None
    source: str | None = None


def new(file: str, answers: Answers) -> Exit:
    """Write a starter file; what stands there already is never overwritten."""
    path = Path(file)
    try:
        if path.suffix not in _MAKERS:
            raise Refusal(f"name it {file}.seat for a job, {file}.shop for a shop or {file}.engine for an engine")
        if why := trouble_with(file):
            raise Refusal(f"{file} is no name for a file: {why}")
        if (there := same_but_for_capitals(path)) is not None:
            raise Refusal(f"{there} is there already, and is the same file on a disk that ignores capitals")
        if os.path.lexists(path):
            raise Refusal(f"{file} is there already; choose another name, it is not overwritten")
        text = _MAKERS[path.suffix](
            path, _asked(answers, path) if sys.stdin.isatty() and sys.stderr.isatty() else answers
        )
    except (Refusal, Unreadable, ValueError) as problem:
        complain("new", str(problem))
        return Exit.WRONG_USE
    except EOFError:
        sys.stderr.write("\nseatwright new: nothing written\n")
        return Exit.WRONG_USE
    if path.suffix == _JOB_FILE and not _reads_clean(path, file, text):
        complain("new", f"nothing written; {file} would begin with this")
        return Exit.ERRORS
    return _write(path, file, text)


def _job(path: Path, answers: Answers) -> str:
    engine = None if answers.engine is None else _given_by_engine(path, answers.engine, answers.numbers or "")
    named = engine is not None and bool(engine.valves)
    missing = [
        name
        for name, given in (
            ("--cylinders", answers.cylinders or named or None),
            ("--valves-per-cylinder", answers.valves_per_cylinder or named or None),
            ("--units", answers.fields.get("units")),
            ("--material", answers.fields.get("material") or (engine and "material" in engine.fields) or None),
        )
        if given is None
    ]
    if missing:
        raise Refusal(f"a job needs {', '.join(missing)} as well")
    return starter_job(
        StarterWanted(
            number=answers.number or _named_after(path, "job"),
            title=answers.title or "",
            cylinders=answers.cylinders or 0,
            valves_per_cylinder=answers.valves_per_cylinder or 0,
            job={each.word: answers.fields[each.word] for each in OF_JOB if each.word in answers.fields},
            head={each.word: answers.fields[each.word] for each in OF_HEAD if each.word in answers.fields},
            use=_beside(path, answers.shop) if answers.shop else "",
            engine=engine,
        )
    )


def _given_by_engine(path: Path, engine: str, numbers: str) -> EngineGives:
    """What an engine file gives, so that the job need not say it. Raises Refusal for one that has errors."""
    opened = open_job(engine)
    found, messages = read_engine(opened.name, opened.load)
    wrong = [message for message in messages if message.severity is Severity.ERROR]
    if found is None or wrong:
        say(opened.as_seen_from_here(wrong), opened.sources())
        raise Refusal(f"{engine} has errors")
    said = numbers.split()
    has = found.cylinders()
    if said and (len(said) != len(has) or not all(one.isdecimal() for one in said)):
        raise Refusal(f"{engine} has {len(has)} cylinders: name as many, its smallest first")
    cylinders = dict(zip(has, map(int, said), strict=True)) if said else {}
    of_head = OfHead(found, found.selectors(reconditioned=False), found.selectors(reconditioned=True), cylinders)
    fields = {*found.fields.values, *(word for one in found.selected for word in one.fields.values)}
    tables = {"layout": found.layout, "holes": found.holes, "spacing": found.spacings, "pocket-sizes": found.sizes}
    return EngineGives(
        _beside(path, engine),
        tuple(sorted({of_head.in_job(valve) for valve in found.valves()}, key=valve_order)),
        frozenset(fields - {"units", "source"}),
        frozenset(word for word, some in tables.items() if some),
        numbers,
    )


def _engine(path: Path, answers: Answers) -> str:
    if "units" not in answers.fields or not answers.source:
        raise Refusal("an engine file needs --units and --source, where its figures are printed, as well")
    given = [f"--{word}" for word in answers.fields if word != "units"]
    if answers.cylinders or answers.valves_per_cylinder or answers.shop or answers.number or answers.engine or given:
        raise Refusal("an engine file takes --units, --source and --title, and nothing of a job")
    name = _named_after(path, "engine").replace(" ", "-").upper()
    return starter_engine(WantedEngine(name, answers.fields["units"], answers.source, answers.title or ""))


def _shop(path: Path, answers: Answers) -> str:
    if "units" not in answers.fields:
        raise Refusal("a shop file needs --units as well")
    given = [f"--{word}" for word in answers.fields if word != "units"]
    if answers.cylinders or answers.valves_per_cylinder or answers.shop or answers.number or given:
        raise Refusal("a shop file takes --units and --title, and nothing of a job")
    if answers.title and (why := _no_name(answers.title, "shop")):
        raise Refusal(why)
    return starter_shop(WantedShop(answers.title or _named_after(path, "shop"), answers.fields["units"]))


_MAKERS: dict[str, Callable[[Path, Answers], str]] = {_JOB_FILE: _job, _SHOP_FILE: _shop, _ENGINE_FILE: _engine}
_HAS = {_SHOP_FILE: "the shop has", _ENGINE_FILE: "its maker prints"}


def _named_after(path: Path, kind: str) -> str:
    """The name of the file; with what it is before it, where that alone means something else in the language.

    The number of a job is one word: what may not stand in one is a hyphen there.
    """
    if kind == "job":
        plain = unicodedata.normalize("NFKD", path.stem).encode("ascii", "ignore").decode()
        one_word = re.sub(r"[^A-Za-z0-9.]+", "-", plain).strip("-.") or "1"
        return f"job-{one_word}" if _no_name(one_word, kind) else one_word
    return f"{kind} {path.stem}" if _no_name(path.stem, kind) else path.stem


def _no_name(text: str, kind: str) -> str:
    try:
        check_name(text, Span("", 1, 1, 1, 1), kind)
    except Mistake as mistake:
        return mistake.message.text
    return ""


def _beside(path: Path, shop: str) -> str:
    """A shop file as the job file names it: from the job's own folder, with `/`."""
    return posixpath.normpath(os.path.relpath(shop, path.parent).replace(os.sep, "/"))


def _reads_clean(path: Path, file: str, text: str) -> bool:
    """Whether the job reads without an error, with its shop file; if not, the errors are said."""
    files = JobFiles(path.name, real(path.parent), os.path.dirname(file), text.encode("utf-8"))
    _, messages = read(files.name, files.load)
    wrong = [message for message in in_order(messages) if message.severity is Severity.ERROR]
    say(files.as_seen_from_here(wrong), files.sources())
    return not wrong


def _write(path: Path, file: str, text: str) -> Exit:
    try:
        writing.create(path, text.encode("utf-8"))
    except OSError as problem:
        why = (problem.strerror or str(problem)).lower()
        complain("new", f"{file} cannot be written: {why}")
        return Exit.WRONG_USE
    if path.suffix != _JOB_FILE:
        sys.stdout.write(
            f'{visible(file)} is written. Fill in what {_HAS[path.suffix]}; a job says use "{visible(path.name)}".\n'
        )
    else:
        sys.stdout.write(
            f"{visible(file)} is written. `seatwright build {visible(file)}` makes the sheet to take to the bench.\n"
        )
    return Exit.DONE


def _asked(answers: Answers, path: Path) -> Answers:
    """The answers, those that a flag did not give asked for on the terminal. Raises EOFError where none comes."""
    fields = dict(answers.fields)
    if "units" not in fields:
        fields["units"] = _ask(f"units, {_UNITS.help}", _UNITS)
    if path.suffix == _SHOP_FILE:
        return Answers(fields, title=answers.title or _line(f"name of the shop [{path.stem}]"))
    if path.suffix == _ENGINE_FILE:
        source = answers.source or _line("where its figures are printed, such as overhaul manual 3")
        return Answers(fields, title=answers.title or _line("what it is, in a line [nothing]"), source=source)
    if answers.engine is not None:
        return Answers(
            fields,
            number=answers.number or _line(f"number of the job [{path.stem}]"),
            title=_line("what it is about, in a line [nothing]") if answers.title is None else answers.title,
            shop=_line("shop file to use, such as bench.shop [none]") if answers.shop is None else answers.shop,
            engine=answers.engine,
            numbers=_line("its cylinders in this job, such as 4 5 6 [the same]")
            if answers.numbers is None
            else answers.numbers,
        )
    if "material" not in fields:
        fields["material"] = _ask(f"material, {_MATERIAL.help} (grey iron, aluminium, …)", _MATERIAL)
    return Answers(
        fields,
        number=answers.number or _line(f"number of the job [{path.stem}]"),
        title=_line("what it is about, in a line [nothing]") if answers.title is None else answers.title,
        cylinders=answers.cylinders or _count("cylinders in this head", range(1, MOST_CYLINDERS + 1)),
        valves_per_cylinder=answers.valves_per_cylinder or _count("valves a cylinder", VALVES_PER_CYLINDER),
        shop=_line("shop file to use, such as bench.shop [none]") if answers.shop is None else answers.shop,
    )


def _ask(question: str, field: Field) -> str:
    choices = f" [{'/'.join(field.choices)}]" if field.choices else ""
    return _until(f"{question}{choices}", lambda said: said if said and _fits(said, field) else None)


def _fits(said: str, field: Field) -> bool:
    return not field.choices or said in field.choices


def _count(question: str, allowed: range | tuple[int, ...]) -> int:
    def read_count(said: str) -> int | None:
        return int(said) if said.isdecimal() and int(said) in allowed else None

    return _until(f"{question} [{min(allowed)} to {max(allowed)}]", read_count)


def _until(question: str, accept: Callable[[str], _Answer | None]) -> _Answer:
    while True:
        accepted = accept(_line(question))
        if accepted is not None:
            return accepted


def _line(question: str) -> str:
    # To standard error, as all that is not a result; `input` would write to standard output.
    sys.stderr.write(f"{question}: ")
    sys.stderr.flush()
    said = sys.stdin.readline()
    if not said:
        raise EOFError
    return said.strip()
