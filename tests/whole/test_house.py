"""The house, held by its imports: rooms in their order, floors within a room, no room a hall."""

from __future__ import annotations

import ast
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

HOUSE = Path(__file__).resolve().parents[2] / "compiler" / "seatwright"
ROOMS = ("text", "syntax", "handbook", "job", "planning", "told", "over_jobs", "cards", "editor", "commands")
"""Front door to back: each knows only those before it."""

FLOORS = {
    "syntax": (
        "made",
        "vocabulary",
        "tree",
        "tokens",
        "suggest",
        "words",
        "numbers",
        "making",
        "grammar",
        "reading",
        "parse",
        "formatting",
    ),
    "job": (
        "model",
        "declarations",
        "wording",
        "typed",
        "sections",
        "shop_file",
        "head",
        "engine_file",
        "checks",
        "used_files",
        "reader",
    ),
    "planning": (
        "plan",
        "basis",
        "found",
        "seat",
        "certainty",
        "serves",
        "inserts",
        "after",
        "machine",
        "metal",
        "pressing",
        "guides",
        "whole_job",
    ),
    "over_jobs": ("serving", "left_out", "spreadsheets", "stock", "table", "history"),
    "editor": ("texts", "asked"),
    "commands": ("terminal", "disk", "jobs"),
}
"""Within a room, lowest first; what is not named stands above them all."""


def modules() -> dict[str, Path]:
    """Every module by its name below the package, a folder's own without `__init__`."""
    found = {}
    for path in sorted(HOUSE.rglob("*.py")):
        parts = path.relative_to(HOUSE).with_suffix("").parts
        found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


def arrows() -> Iterator[tuple[str, str]]:
    """Each import of one module by another, those within functions and for types alone included."""
    known = modules()
    for name, path in known.items():
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "seatwright":
                base = (node.module or "").removeprefix("seatwright").lstrip(".")
                for alias in node.names:
                    of_folder = f"{base}.{alias.name}".lstrip(".")
                    yield name, of_folder if of_folder in known else base
            if isinstance(node, ast.Import):
                for alias in node.names:
                    if alias.name.split(".")[0] == "seatwright":
                        yield name, alias.name.removeprefix("seatwright").lstrip(".")


def test_no_arrow_between_rooms_goes_up() -> None:
    for start, end in arrows():
        rooms = start.split(".")[0], end.split(".")[0]
        if set(rooms) <= set(ROOMS):
            assert ROOMS.index(rooms[1]) <= ROOMS.index(rooms[0]), f"{start} imports {end}"


def test_no_arrow_between_the_floors_of_a_room_goes_up() -> None:
    for start, end in arrows():
        room = start.split(".")[0]
        if room not in FLOORS or end.split(".")[0] != room or "." not in end or "." not in start:
            continue
        heights = [
            FLOORS[room].index(floor) if floor in FLOORS[room] else len(FLOORS[room])
            for floor in (start.split(".")[1], end.split(".")[1])
        ]
        assert heights[1] <= heights[0], f"{start} imports {end}"


def test_no_module_imports_itself_in_a_circle() -> None:
    known: dict[str, set[str]] = {name: set() for name in modules()}
    for start, end in arrows():
        if start != end and start:  # the front door shows the calls of every room, and no room enters by it
            assert end, f"{start} enters by the front door"
            known[start].add(end)
    done: set[str] = set()

    def walk(name: str, on_the_way: tuple[str, ...]) -> None:
        assert name not in on_the_way, " -> ".join((*on_the_way[on_the_way.index(name) :], name))
        if name not in done:
            for end in sorted(known.get(name, ())):
                walk(end, (*on_the_way, name))
            done.add(name)

    for name in known:
        walk(name, ())


def test_no_folder_holds_more_than_sixteen_files_but_the_handbook_with_its_subjects() -> None:
    beside = Counter(path.parent for path in HOUSE.rglob("*.py"))
    halls = {folder.name: count for folder, count in beside.items() if count > 16}
    assert set(halls) <= {"handbook"}, halls


ROLES = frozenset({"check", "page", "plan", "render", "schema"})
"""Named by what they do for their module, and called with its name: `terminal.render`, `sarif.render`."""

FIGURES_OF_A_FORMULA = frozenset(
    {
        "along_stem",
        "deeper_only",
        "floor_left",
        "gauge_error",
        "mean_expansion",
        "passes",
        "reheat_below",
        "spindle_offset",
    }
)
"""A step of planning is called as the handbook's formula that it makes a figure of."""

FIELDS_OF_A_KIND = frozenset({"angle", "length", "temperature"})
"""The declaration of a field of that kind, and such a figure in words."""


def test_a_public_name_means_one_thing() -> None:
    stands_in: dict[str, list[str]] = {}
    for module, path in modules().items():
        for name in _public(ast.parse(path.read_text("utf-8"))):
            stands_in.setdefault(name, []).append(module)
    twice = {name: found for name, found in stands_in.items() if len(found) > 1}
    assert not {name: twice[name] for name in twice.keys() - ROLES - FIGURES_OF_A_FORMULA - FIELDS_OF_A_KIND}
    assert twice.keys() >= ROLES | FIGURES_OF_A_FORMULA | FIELDS_OF_A_KIND, "an exception that is no longer one"
    for name in FIGURES_OF_A_FORMULA:
        assert sorted(module.split(".")[0] for module in twice[name]) == ["handbook", "planning"], name


def _public(module: ast.Module) -> Iterator[str]:
    """What a module defines for others: functions, records and constants without a leading underscore."""
    for node in module.body:
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            names = [node.name]
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            names = [target.id for target in targets if isinstance(target, ast.Name)]
        else:
            continue
        yield from (name for name in names if not name.startswith("_"))
