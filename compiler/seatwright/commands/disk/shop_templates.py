"""The shop's own templates: from the folder that a person names, or from `templates` beside a shop file."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

from seatwright.commands.disk.files import STANDARD_INPUT, Unreadable, plain_bytes, real
from seatwright.text.shipped import TEMPLATE_NAME

FOLDER = "templates"
_LARGEST = 1_000_000  # bytes of one template


def templates_of(job: str, shops: Iterable[str], folder: str | None = None) -> dict[str, str]:
    """Templates by name, such as `setting.md` or `drawings/drawing.svg`; none where the shop has none.

    shops: the files that the job uses, from its folder; beside a shop file alone lie templates.
    folder: named by the person. Raises Unreadable.
    """
    if folder is not None:
        found = _read(Path(folder))
        if not found:
            raise Unreadable(f"{folder} holds no template (.md, .html, .css, or .svg in {folder}/drawings)")
        return found
    home = Path.cwd() if job == STANDARD_INPUT else Path(job).parent
    beside = dict.fromkeys((home / shop).parent / FOLDER for shop in shops if shop.endswith(".shop"))
    folders = [place for place in beside if os.path.isdir(place) and _names(place)]
    if len(folders) > 1:
        raise Unreadable(f"{folders[0]} and {folders[1]} both hold templates; say which with --templates")
    return _read(folders[0]) if folders else {}


def template_files(job: str, shops: Iterable[str]) -> list[Path]:
    """Where the templates beside a job's shop files lie."""
    home = Path.cwd() if job == STANDARD_INPUT else Path(os.path.abspath(job)).parent
    folders = dict.fromkeys((home / shop).parent / FOLDER for shop in shops if shop.endswith(".shop"))
    return [folder / name for folder in folders if os.path.isdir(folder) for name in _names(folder)]


def _names(folder: Path) -> list[str]:
    places = [*folder.glob("*.*"), *folder.glob("drawings/*.svg")]
    names = (place.relative_to(folder).as_posix() for place in places if os.path.isfile(place))
    return sorted(name for name in names if TEMPLATE_NAME.fullmatch(name))


def _read(folder: Path) -> dict[str, str]:
    if not os.path.isdir(folder):
        raise Unreadable(f"{folder} is no folder of templates")
    for name in (names := _names(folder)):
        if not real(folder / name).is_relative_to(real(folder)):
            raise Unreadable(f"{folder / name} is a link that leads out of {folder}")
    return {name: _text(folder / name) for name in names}


def _text(place: Path) -> str:
    try:
        if place.stat().st_size > _LARGEST:
            raise Unreadable(f"{place} is too large for a template")
        return plain_bytes(place).decode("utf-8")
    except UnicodeDecodeError as problem:
        raise Unreadable(f"{place} is no UTF-8 text: byte {problem.start + 1} cannot be read") from problem
    except OSError as problem:
        raise Unreadable(f"{place} cannot be read: {(problem.strerror or str(problem)).lower()}") from problem
