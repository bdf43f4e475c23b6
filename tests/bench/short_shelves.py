"""Jobs whose stock is short, by a seed: many sizes with few pieces each, many rows, many heads.

The pockets of a head differ by tenths of a millimetre and every valve takes every size that cleans it up, so the sizes
are shared out among all: what a choice of inserts finds hardest.
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from pathlib import Path

JOBS = Path(__file__).resolve().parents[2] / "jobs"
_FEW = (1, 1, 2, 2, 3, 4)


@dataclass(frozen=True, slots=True)
class Shelf:
    """So many sizes, each of one of these counts of pieces; so many valves, in heads of so many (0: in one)."""

    name: str
    sizes: int
    valves: int
    pieces: tuple[int, ...]
    a_head: int = 0
    smallest: float = 46.2
    largest: float = 47.6
    seconds: float = 1.0


SHELVES = (
    Shelf("30 sizes of one piece, 32 valves", 30, 32, (1,), seconds=0.2),
    Shelf("60 mixed sizes, 32 valves", 60, 32, _FEW, seconds=1.5),
    Shelf("2,000 rows, 16 valves", 2_000, 16, _FEW, smallest=40.0, largest=55.0, seconds=1.0),
    Shelf("10,000 rows, 16 valves", 10_000, 16, _FEW, smallest=40.0, largest=55.0, seconds=5.0),
    Shelf("12 heads of 16 valves, 60 sizes", 60, 192, _FEW, a_head=16, seconds=1.0),
)


def write(folder: Path, shelf: Shelf, seed: int = 1) -> Path:
    """The job and its shop files in a folder of its own. Returns the job."""
    dice = random.Random(seed)
    folder.mkdir(parents=True)
    text = (JOBS / "bench.shop").read_text("utf-8")
    own, after = text.index("# X: exhaust"), text.index("# How much bigger")
    (folder / "bench.shop").write_text(text[:own] + text[after:], "utf-8")
    rows = [
        'shop "short"\n  units mm\ninserts\n'
        "  insert od od-least od-most height id chamfer chamfer-angle alloy seat on-hand\n"
    ]
    for number in range(shelf.sizes):
        step = (shelf.largest - shelf.smallest) / max(shelf.sizes - 1, 1)
        od = shelf.smallest + step * number
        pieces = dice.choice(shelf.pieces)
        rows.append(
            f"  M{number} {od:.3f} {od - 0.005:.3f} {od + 0.005:.3f} 7.60 33.0 0.8 45 tool-steel any {pieces}\n"
        )
    (folder / "short.shop").write_text("".join(rows), "utf-8")
    each = shelf.a_head or shelf.valves
    heads = (
        _head(f" h{number}" if shelf.a_head else "", number * each // 2, each, dice)
        for number in range(shelf.valves // each)
    )
    job = folder / "short.seat"
    begin = (
        'job 1 "short stock"\n  units mm\n  paper a4\n  machine "seat-and-guide machine"\n'
        'use "bench.shop"\nuse "short.shop"\n'
    )
    job.write_text(begin + "".join(heads), "utf-8")
    return job


def _head(name: str, before: int, valves: int, dice: random.Random) -> str:
    names = [
        (kind, f"{kind}{(before + number) // 9 + 1}{'ABCDEFGHJ'[(before + number) % 9]}", number)
        for number in range(valves // 2)
        for kind in "IE"
    ]
    rows = place = ""
    for kind, valve, number in names:
        pocket = 46.03 + dice.random() * 0.5
        rows += f"  {valve} 8.968 9.010 9.008 9.014 {pocket:.3f} {pocket + 0.009:.3f} 7.53 0.04 35.5\n"
        place += f"  {valve} {122 * (number // 24) + (0 if kind == 'I' else 50)} {80 * (number % 24)}\n"
    return (
        f'head{name} "long"\n  material grey iron\n  temperature 22 C +/- 1\n  depth-from deck\n  least-bridge 2.0\n'
        "valves all\n  insert choose\n  stand below 0.00 to 0.10\n  guide-length 62\n  guide-to-floor 28\n"
        "  head-diameter 42\n  margin 1.4\n  setback 0.8\n  seat-width 1.6 to 2.0\n  recession 0.6 to 1.2\n"
        "  face-angle 45\n  seat-angle 45\n  top-angle 30\n  throat-angle 60\n"
        f"layout\n  valve x y\n{place}measured at 22 C\n"
        "  valve stem guide-top guide-middle guide-bottom pocket-a pocket-b pocket-depth pocket-tir throat\n"
        f"{rows}"
    )
