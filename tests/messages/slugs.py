"""The slugs of all messages, collected from the code: the first slug-like text of every call that says something."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

COMPILER = Path(__file__).resolve().parents[2] / "compiler" / "seatwright"
_SPEAKERS = frozenset({
    "error", "_error", "Message", "Slip", "notice", "unchecked", "warning", "hold", "_refused", "_warn", "_unchecked",
    "Fault", "missing", "Reason", "NoDepth",
})  # fmt: skip
_ROOMS = ("text", "syntax", "job", "planning")
_SLUG = re.compile(r"[a-z]+(?:-[a-z0-9]+)*")
_PART = re.compile(r"[a-z-]*")
_ANY = "[a-z]+(?:-[a-z]+)*"

NOT_MESSAGES = {
    "all-used": "why another insert was passed over: it stands beside that insert, on the card and in `explain`",
    "for-another-seat": "as all-used",
    "larger-than-needed": "as all-used",
    "not-the-sets-size": "as all-used",
    "clean-up-unknown": "as all-used; that the pocket was not measured is said as pocket-not-measured",
    "kept-stand-not-known": "as all-used; what was not measured is said as pocket-depth-not-measured",
    "cut-angles-order": "the reader says it first, as angles-order; kept for a plan that is not made from a file",
    "seat-too-wide": "the reader says it first, as seat-wide",
    "pass-under-range": "the choice of the cutter says it first, as cutter-first-pass",
}
"""Slugs in the code that no file can provoke as a message, and why."""


@dataclass(frozen=True, slots=True)
class Said:
    """A slug in the code, or the pattern of those that an f-string makes, and where it stands."""

    slug: str
    pattern: bool
    where: str


def slugs_in_code() -> tuple[Said, ...]:
    """Every slug of a message in the code, sorted."""
    found: dict[str, Said] = {}
    for room in _ROOMS:
        for path in sorted((COMPILER / room).rglob("*.py")):
            for node in ast.walk(ast.parse(path.read_text("utf-8"))):
                for slug, pattern in _slugs_of(node, path):
                    line = getattr(node, "lineno", 0)
                    where = f"{path.relative_to(COMPILER.parent).as_posix()}:{line}"
                    found.setdefault(slug, Said(slug, pattern, where))
    return tuple(found[slug] for slug in sorted(found) if slug not in NOT_MESSAGES)


def _slugs_of(node: ast.AST, path: Path) -> Iterator[tuple[str, bool]]:
    if isinstance(node, ast.Call):
        called = node.func
        name = called.attr if isinstance(called, ast.Attribute) else getattr(called, "id", "")
        if name in _SPEAKERS:
            yield from _first_slug(node.args[:3])
    elif isinstance(node, ast.Return) and isinstance(node.value, ast.Tuple) and path.name.startswith("slips"):
        # An explained slip: slug, what is wrong, what to do.
        yield from _first_slug(node.value.elts[:1])


def _first_slug(arguments: Sequence[ast.expr]) -> Iterator[tuple[str, bool]]:
    for argument in arguments:
        found = list(_slugs_in(argument))
        if found:
            yield from found
            return


def _slugs_in(argument: ast.expr) -> Iterator[tuple[str, bool]]:
    if isinstance(argument, ast.IfExp):
        yield from _slugs_in(argument.body)
        yield from _slugs_in(argument.orelse)
    elif isinstance(argument, ast.Constant) and isinstance(argument.value, str):
        if _SLUG.fullmatch(argument.value):
            yield argument.value, False
    elif isinstance(argument, ast.JoinedStr):
        parts = [_pattern(part) for part in argument.values]
        if all(part is not None for part in parts):
            yield "".join(part or "" for part in parts), True


def _pattern(part: ast.expr) -> str | None:
    if isinstance(part, ast.Constant) and isinstance(part.value, str):
        return re.escape(part.value) if _PART.fullmatch(part.value) else None
    return _ANY
