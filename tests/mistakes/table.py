"""The table of mistakes: what was typed, and what it is understood as or answered with.

An entry of mistakes.txt is its kind and name, the lines that were typed behind `|` (those of a shop file behind
`shop|`), and the answer behind `=`. Where no `job` or `head` line stands among the lines, a small one is put above
them; `inch` in the name means a file in inches. `python tests/mistakes/table.py` fills in the answers anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from msgspec import Struct

from seatwright.job import read
from seatwright.job.model import Given, Job, Limits, Named, Reading
from seatwright.text import Message, Severity

TABLE = Path(__file__).with_name("mistakes.txt")
_JOB = 'job 7 "x"\n  units  {units}\n\n'
_HEAD = 'head "h"\n  material  grey iron\n\n'


@dataclass(frozen=True, slots=True)
class Mistake:
    """One entry. answers: one line for each message, or one that says what it is understood as."""

    kind: str
    name: str
    typed: tuple[str, ...]
    shop: tuple[str, ...]
    answers: tuple[str, ...]

    @property
    def files(self) -> dict[str, str]:
        """The job, and the shop file where there is one."""
        body = "\n".join(self.typed) + "\n"
        words = [line.split(" ")[0] for line in self.typed]
        head = "" if "head" in words else _HEAD
        used = 'use "b.shop"\n\n' if self.shop else ""
        job = "" if "job" in words else _JOB.format(units="inch" if "inch" in self.name.split() else "mm")
        made = {"a.seat": job + used + (head + body if job else body)}
        if self.shop:
            made["b.shop"] = 'shop "b"\n  units  mm\n\n' + "\n".join(self.shop) + "\n"
        return made


def entries() -> tuple[Mistake, ...]:
    """All of the table."""
    return tuple(_entries(TABLE.read_text("utf-8")))


def _entries(text: str) -> Iterator[Mistake]:
    for block in text.split("\n\n"):
        lines = block.rstrip("\n").split("\n")
        if not lines[0] or lines[0].startswith("#"):
            continue
        kind, _, name = lines[0].partition(": ")
        yield Mistake(
            kind,
            name,
            tuple(line[2:] for line in lines if line.startswith("| ") or line == "|"),
            tuple(line[6:] for line in lines if line.startswith("shop| ")),
            tuple(line[2:] for line in lines if line.startswith("= ")),
        )


def answer(mistake: Mistake) -> tuple[str, ...]:
    """What the compiler says to it, place by place; notices, which say what else is missing, are left out."""
    files = mistake.files

    def load(name: str) -> bytes:
        return files[name].encode("utf-8")

    job, messages = read("a.seat", load)
    said = [message for message in messages if message.severity is not Severity.NOTICE]
    if said:
        return tuple(_said(message, files) for message in said)
    assert job is not None
    return (f"understood: {_understood(job)}",)


def _said(message: Message, files: dict[str, str]) -> str:
    assert message.span is not None
    line = files[message.span.file].split("\n")[message.span.line - 1]
    marked = line[message.span.column - 1 : message.span.end_column - 1]
    return f"{message.severity.value} {message.slug} at `{marked}`: {message.text} → {message.help}"


def _understood(job: Job) -> str:
    """Figures in mm, °C and degrees, names as they are."""
    found = [*_values("", job.heads[0])]
    for note in job.notes:
        found.append(f"note {note.text}")
    for valve in job.heads[0].valves:
        found += [*_values(valve.name, valve.specification), *_values(valve.name, valve.measured)]
    return ", ".join(found)


def _values(name: str, part: Struct) -> Iterator[str]:
    for one in part.__struct_fields__:
        value = getattr(part, one)
        word = f"{name} {one}".replace("_", "-").strip()
        if isinstance(value, (Given, Reading)):
            yield f"{word} {value.value:.6g}"
        elif isinstance(value, Limits):
            ends = [each.value for each in (value.least, value.most) if each is not None]
            ends = ends or [value.nominal.value] if value.nominal is not None and not ends else ends
            yield f"{word} {' to '.join(f'{each:.6g}' for each in ends)}"
        elif isinstance(value, Named) and value.text not in ("grey iron",):
            yield f"{word} {value.text}"
        elif value is True:
            yield f"{word} yes"


def renew() -> None:
    """Write the table with today's answers."""
    head = TABLE.read_text("utf-8").split("\n\n")[0]
    blocks = [head]
    for one in entries():
        made = replace(one, answers=answer(one))
        lines = [f"{made.kind}: {made.name}"]
        lines += [f"| {line}".rstrip() if line else "|" for line in made.typed]
        lines += [f"shop| {line}" for line in made.shop]
        lines += [f"= {line}" for line in made.answers]
        blocks.append("\n".join(lines))
    TABLE.write_text("\n\n".join(blocks) + "\n", "utf-8")


if __name__ == "__main__":
    renew()
