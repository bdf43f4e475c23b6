"""Jobs written in a test, read as the command reads them, with files that lie in a dictionary."""

from __future__ import annotations

from seatwright.job import Job, read
from seatwright.text import Message, Severity

HEAD = 'job 1 "a job"\n  units {units}\nhead "a head"\n  material grey iron\n'
SHOP = 'shop "a shop"\n  units {units}\n'


def read_files(job: str, **shops: str) -> tuple[Job | None, tuple[Message, ...]]:
    """A job, and shop files by the first part of their names, read from memory."""
    files = {"job.seat": job, **{f"{name}.shop": text for name, text in shops.items()}}

    def load(path: str) -> bytes:
        try:
            return files[path].encode("utf-8")
        except KeyError:
            raise FileNotFoundError(2, "No such file or directory") from None

    return read("job.seat", load)


def clean(job: str, **shops: str) -> Job:
    """A job that must read without an error."""
    found, messages = read_files(job, **shops)
    wrong = [one for one in messages if one.severity is Severity.ERROR]
    assert not wrong, wrong
    assert found is not None
    return found


def slugs(job: str, **shops: str) -> list[tuple[int, str]]:
    """The line and the slug of every error, by place."""
    found, messages = read_files(job, **shops)
    wrong = [one for one in messages if one.severity is Severity.ERROR]
    assert (found is None) == bool(wrong)
    return [(one.span.line if one.span else 0, one.slug) for one in wrong]


def valves(fields: str, units: str = "mm", valve: str = "E1") -> str:
    """A job of one valve with these fields, one a line, the first of them on line 6."""
    return HEAD.format(units=units) + f"valves {valve}\n" + fields


def only(fields: str, units: str = "mm", **shops: str) -> Message:
    """The one error about these fields of a valve."""
    _, messages = read_files(valves(fields, units), **shops)
    wrong = [one for one in messages if one.severity is Severity.ERROR]
    assert len(wrong) == 1, wrong
    return wrong[0]
