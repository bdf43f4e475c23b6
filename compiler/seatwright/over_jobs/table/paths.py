"""Which figures a valve can have, by their paths in plan.json: known from the plan's records, before a job is read."""

from __future__ import annotations

from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Union, get_args, get_origin, get_type_hints

from msgspec import Struct

from seatwright.job.model import Measured, Reading
from seatwright.planning.plan import FinishedPlan, ValvePlan
from seatwright.planning.plan.figure import Figure
from seatwright.syntax.suggest import nearest
from seatwright.told.plan_json import OF_A_VALVE_ITS_OWN_WAY, in_json

SEVERAL = "*"
"""Stands in a path for each of several records."""

_LEAVES = (Figure, str, int, float, bool)
_NAMES_OF_PAIRS = {"verdicts": FinishedPlan.__struct_fields__[: FinishedPlan.__struct_fields__.index("verdicts")]}
_DEEPEST = 6  # steps of a path: a record may hold its own kind


class NoSuchPath(Exception):
    """A path that no plan can have; the text says so, with the nearest."""


@cache
def table_paths() -> tuple[str, ...]:
    """Every path that a figure, a word or a list of them can stand at, in the order of plan.json."""
    found = _below(ValvePlan, (), leave_out=OF_A_VALVE_ITS_OWN_WAY)
    read = [("found", name) for name, hint in get_type_hints(Measured).items() if Reading in get_args(hint)]
    own_way = [*read, ("found", "insert"), ("found", "temperature_C"), ("holds",)]
    return tuple(".".join(path) for path in (*found, *own_way))


def paths_below(wanted: str) -> tuple[str, ...]:
    """The paths at and below one that was asked for, in the order of plan.json; a part of one of several records is
    asked for by its name or its number. Raises NoSuchPath."""
    asked = wanted.strip().split(".")
    found = tuple(path for path in table_paths() if _leads_to(asked, path.split(".")))
    if not found or "" in asked:
        known = {".".join(path.split(".")[:depth]) for path in table_paths() for depth in range(1, path.count(".") + 2)}
        known = {each for each in known if SEVERAL not in each}
        above = [".".join(asked[:depth]) for depth in range(len(asked), 0, -1)]
        meant = nearest(wanted, sorted(known)) or next((each for each in above if each in known), None)
        hint = f"; did you mean {meant}?" if meant else ": `seatwright explain JOB VALVE` shows those of a job"
        raise NoSuchPath(f"no plan has a {wanted}{hint}")
    single = [path for path in found if SEVERAL not in path.split(".")[len(asked) :]]
    if not single:
        example = next(path for path in found).replace(SEVERAL, "1")
        raise NoSuchPath(f"{wanted} has several parts; name one of them by its name or its number: {example}")
    return tuple(".".join([*asked, *path.split(".")[len(asked) :]]) for path in single)


def _leads_to(asked: list[str], path: list[str]) -> bool:
    return len(asked) <= len(path) and all(part in (typed, SEVERAL) for typed, part in zip(asked, path, strict=False))


def _below(
    record: type[Struct], path: tuple[str, ...], leave_out: frozenset[str] = frozenset()
) -> list[tuple[str, ...]]:
    found: list[tuple[str, ...]] = []
    for attribute, hint in get_type_hints(record).items():
        if attribute in record.__struct_fields__ and in_json(attribute) not in leave_out:
            found += _of(hint, (*path, in_json(attribute)))
    return found


def _of(hint: object, path: tuple[str, ...]) -> list[tuple[str, ...]]:
    origin, inner = get_origin(hint), get_args(hint)
    if origin in (Union, UnionType):
        return [each for one in inner if one is not NoneType for each in _of(one, path)]
    if hint in _LEAVES or (isinstance(hint, type) and issubclass(hint, Enum)):
        return [path]
    if origin is tuple:
        one = inner[0]
        if get_origin(one) is tuple:  # pairs of a name and a word, which plan.json has as an object
            return [(*path, name) for name in _NAMES_OF_PAIRS.get(path[-1], (SEVERAL,))]
        return [path, (*path, SEVERAL)] if one in _LEAVES else _of(one, (*path, SEVERAL))
    if isinstance(hint, type) and issubclass(hint, Struct) and len(path) < _DEEPEST:
        return _below(hint, path)
    return []
