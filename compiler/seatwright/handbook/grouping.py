"""The fewest settings that serve every valve: one setting serves all whose window of readings holds it."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable, Sequence

from msgspec import Struct

StepRange = tuple[int, int]
"""First and last whole step [counts of an instrument's step] that a valve allows."""


class Group(Struct, frozen=True):
    """Valves cut with one setting.

    point : the setting [counts of step]
    least, most : steps that would serve all members [counts of step]
    members : which windows, by their place in the list given, ascending
    departure : largest distance of a member's aim from the setting [counts of step]
    """

    point: int
    least: int
    most: int
    members: tuple[int, ...]
    departure: float


class Grouping(Struct, frozen=True):
    """Groups from the smallest setting upwards, and as many windows that share no step: none fewer can do.

    proof : one window for each group, by its place in the list given; no two of them have a step in common
    """

    groups: tuple[Group, ...]
    proof: tuple[int, ...]


def fewest_points(windows: Sequence[StepRange], aims: Sequence[float]) -> Grouping:
    """Fewest settings such that every window holds one, each where its valves are best served.

    Windows are taken in the order of their upper ends; the first not yet served opens a group at its
    upper end. The windows that opened the groups share no step with each other, so no smaller number can
    serve them: they are the proof. A window that holds the setting of a neighbouring group as well then
    goes where it departs least from its aim (the lower on a tie), once, and each group takes the whole
    step inside all its windows where the largest departure from aim is least (the lower on a tie).

    windows : (first, last) step of each valve [counts of step], both included
    aims : where each valve is wanted [counts of step], in the same order; may lie between steps
    Returns : the groups, ascending, and the proof [counts of step]

    The number of groups is the least possible; their membership is improved, not optimal. The work grows
    as n·log n.
    Errors : ValueError for a window without a step, or lists of different length.
    Source : the sweep by upper ends is exact for piercing intervals, an operations-research textbook, from
    memory; the proof makes every single result checkable.

    >>> grouping = fewest_points([(4, 9), (8, 12), (11, 15), (9, 11)], [6.5, 10.0, 13.0, 10.0])
    >>> [(group.point, group.members) for group in grouping.groups], grouping.proof
    ([(9, (0, 1, 3)), (13, (2,))], (0, 2))
    """
    if len(windows) != len(aims):
        raise ValueError(f"{len(windows)} windows but {len(aims)} aims")
    for first, last in windows:
        if first > last:
            raise ValueError(f"a window from step {first} to {last} holds no step: widen it or leave it out")

    openers: list[int] = []
    swept: list[list[int]] = []
    for at in sorted(range(len(windows)), key=lambda at: (windows[at][1], windows[at][0], at)):
        if not openers or windows[at][0] > windows[openers[-1]][1]:
            openers.append(at)
            swept.append([])
        swept[-1].append(at)

    points = [_best_point(members, windows, aims).point for members in swept]
    balanced: list[list[int]] = [[] for _ in points]
    for at, (window, aim) in enumerate(zip(windows, aims, strict=True)):
        balanced[_nearest(points, window, aim)].append(at)
    return Grouping(tuple(_best_point(members, windows, aims) for members in balanced), tuple(openers))


def _best_point(members: Iterable[int], windows: Sequence[StepRange], aims: Sequence[float]) -> Group:
    members = tuple(members)
    least = max(windows[at][0] for at in members)
    most = min(windows[at][1] for at in members)
    lowest, highest = min(aims[at] for at in members), max(aims[at] for at in members)
    # The largest departure is least midway between the outermost aims, and grows to both sides of it.
    middle = (lowest + highest) / 2
    point = math.floor(middle)
    if middle - point > 0.5 + 1e-9:
        point += 1
    point = min(max(point, least), most)
    return Group(point, least, most, members, float(max(highest - point, point - lowest)))


def _nearest(points: Sequence[int], window: StepRange, aim: float) -> int:
    """Which of the ascending points inside the window is nearest the aim; there always is one."""
    first = bisect_left(points, window[0])
    last = bisect_left(points, window[1] + 1) - 1
    above = min(max(bisect_left(points, aim), first), last)
    below = max(above - 1, first)
    return below if aim - points[below] <= points[above] - aim else above
