"""Heads as they come in, by a seed: worn, hammered and bored before, measured with honest instruments.

How far the figures of one head lie apart is common practice (no source): guides by hundredths, bell-mouthed at the
ends, one in twenty worn right through; pockets by some hundredths, out of round by one or two, one in twenty an
oversize already; cast throats and floors by tenths; a valve that has sunk takes its stem and its spring with it.
`REAL` says it once more as limits: a figure inside them no reading could tell from a true one.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

IN = 25.4


@dataclass(frozen=True, slots=True)
class Real:
    """How far a true figure lies under and over what its like have, mm, and why."""

    under: float
    over: float
    why: str


_GUIDE = Real(0.03, 0.06, "guides wear by hundredths and bell-mouth at their ends")
_ROUND = Real(0.07, 0.07, "a pocket is out of round or tapers by as much")
_SUNK = Real(0.15, 0.15, "stems are ground and keepers differ by a tenth or so")
REAL: dict[str, Real] = {
    "guide-top": _GUIDE, "guide-middle": _GUIDE, "guide-bottom": _GUIDE,
    "pocket-a": _ROUND, "pocket-b": _ROUND, "pocket-low-a": _ROUND, "pocket-low-b": _ROUND,
    "pocket-depth": Real(0.07, 0.07, "floors are bored and hammered to some hundredths"),
    "pocket-tir": Real(9.0, 0.12, "a pocket runs out by nothing to a tenth"),
    "pocket-offset": Real(9.0, 0.06, "half of what it runs out"),
    "throat": Real(0.35, 0.35, "a throat is cast, and blended by hand"),
    "throat-offset": Real(9.0, 0.6, "a cast port lies half a millimetre off"),
    "floor-thickness": Real(0.35, 0.35, "cores shift by some tenths"),
    "insert-od": Real(0.04, 0.04, "rings are ground to hundredths"),
    "insert-height": Real(0.06, 0.06, "rings are faced to hundredths"),
    "old-insert-od": Real(0.3, 0.6, "a loose insert wears, an earlier one may be an oversize"),
    "damage": Real(1.5, 1.5, "a hammered pocket reaches as far as it does"),
    "damage-depth": Real(9.0, 4.0, "it reaches as deep as it does"),
    "metal-around": Real(1.5, 1.5, "a casting's wall"),
    "head-diameter": Real(0.25, 0.25, "valves are made to a tenth or two"),
    "margin": Real(0.4, 0.3, "margins are ground away"),
    "stem": Real(0.06, 0.03, "stems wear by hundredths"),
    "recession": _SUNK, "stem-height": _SUNK, "spring-height": _SUNK,
    "bore-a": Real(0.05, 0.05, "as a bad cutter bores"), "bore-b": Real(0.05, 0.05, "as a bad cutter bores"),
    "bore-low-a": Real(0.05, 0.05, "as a bad cutter bores"), "bore-low-b": Real(0.05, 0.05, "as a bad cutter bores"),
    "depth-a": Real(0.05, 0.05, "a floor out of square"), "depth-b": Real(0.05, 0.05, "a floor out of square"),
    "depth-c": Real(0.05, 0.05, "a floor out of square"), "depth-d": Real(0.05, 0.05, "a floor out of square"),
    "read": Real(0.02, 0.02, "as a cutter slips in its seat"), "bored": Real(0.02, 0.02, "as a cutter slips"),
    "stand": Real(0.15, 0.15, "chips under a ring"), "seat-tir": Real(9.0, 0.08, "a seat runs out by hundredths"),
    "seat-width": Real(0.4, 0.4, "seats are blended to some tenths"),
}  # fmt: skip
# What cells that stand together in one valve have in common: they are held against each other, not against the others.
TOGETHER: tuple[frozenset[str], ...] = (
    frozenset({"guide-top", "guide-middle", "guide-bottom"}),
    frozenset({"pocket-a", "pocket-b", "pocket-low-a", "pocket-low-b"}),
    frozenset({"recession", "stem-height", "spring-height"}),
    frozenset({"bore-a", "bore-b", "bore-low-a", "bore-low-b"}),
    frozenset({"depth-a", "depth-b", "depth-c", "depth-d"}),
)
# A recession alone, without what sinks with it, differs by as much from valve to valve.
ALONE = Real(0.5, 0.5, "a valve has sunk by half a millimetre more than its neighbour")


@dataclass(slots=True)
class Kind:
    """One kind of valve of a head, mm: its sizes as the maker made them."""

    letter: str
    stem: float
    head: float
    pocket: float
    depth: float
    throat: float
    floor: float
    stem_height: float
    spring_height: float
    recession: float


class Head:
    """One head by its seed; `job` and `shop` are the texts of its files, `job` with `use "made.shop"`."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)
        pick = self.chance.choice
        self.inch = pick((False, False, True))
        self.cylinders = pick((1, 2, 3, 4, 4, 4, 6))
        self.twins = self.cylinders <= 4 and self.chance.random() < 0.3
        self.iron = self.chance.random() < 0.5
        stem = pick((5.5, 6.0, 7.0, 8.0, 9.0, 9.5))
        self.intake = self._kind("I", stem, pick((30.0, 34.0, 38.0, 42.0, 46.0)) * (0.85 if self.twins else 1.0))
        self.exhaust = self._kind("E", stem, self.intake.head * self.chance.uniform(0.82, 0.92))
        self.pitch = round(2 * self.intake.head + pick((18.0, 30.0, 42.0)), 1) * (1.3 if self.twins else 1.0)
        self.shop = self._shop()
        self.job = self._job()

    def _kind(self, letter: str, stem: float, head: float) -> Kind:
        chance = self.chance
        pocket = round(head + chance.uniform(2.5, 4.5), 1)
        return Kind(letter, stem, round(head, 1), pocket, round(chance.uniform(6.0, 9.0), 1), round(head - 5.5, 1),
                    round(chance.uniform(5.5, 9.5), 1), round(chance.uniform(38, 48), 1),
                    round(chance.uniform(34, 42), 1), round(chance.uniform(0.5, 1.1), 2))  # fmt: skip

    def _n(self, mm: float, decimals: int) -> str:
        """A length in the units of the job, as an instrument of that many decimals of a millimetre shows it."""
        if self.inch:
            return f"{mm / IN:.{decimals + 1 if decimals < 3 else 4}f}"
        return f"{mm:.{decimals}f}"

    def names(self, kind: Kind) -> list[str]:
        letters = ("A", "B") if self.twins else ("",)
        return [f"{kind.letter}{number}{letter}" for number in range(1, self.cylinders + 1) for letter in letters]

    def _rows(self, kind: Kind) -> tuple[list[list[str]], list[list[str]], list[list[str]]]:
        """Guides and heights; pockets; damage."""
        chance, n = self.chance, self._n
        found, pockets, damage = [], [], []
        shop_od = kind.pocket + 0.57
        for name in self.names(kind):
            worn = abs(chance.gauss(0, 0.008)) + (chance.uniform(0.04, 0.08) if chance.random() < 0.05 else 0)
            guide = kind.stem + 0.035 + chance.gauss(0, 0.001) + worn
            bell = abs(chance.gauss(0, 0.008))
            sunk = max(-0.3, chance.gauss(0, 0.1)) + (chance.uniform(0.2, 0.4) if chance.random() < 0.05 else 0)
            found.append([name, n(guide + bell / 2, 3), n(guide - 0.003, 3), n(guide + bell, 3),
                          n(kind.recession + sunk, 2), n(kind.stem_height + sunk + chance.gauss(0, 0.02), 2),
                          n(kind.spring_height + sunk + chance.gauss(0, 0.03), 2)])  # fmt: skip
            before = chance.random() < 0.05
            size = kind.pocket + 0.05 + chance.gauss(0, 0.02) + (0.5 if before else 0)
            out = abs(chance.gauss(0, 0.012))
            od = shop_od + (0.5 if before else 0) + chance.gauss(0, 0.0025)
            pockets.append([name, n(size, 3), n(size + out, 3), n(size - 0.004, 3), n(size + out - 0.006, 3),
                            n(kind.depth + max(-0.05, min(0.05, chance.gauss(0, 0.018))), 2),
                            n(min(0.11, abs(chance.gauss(0.04, 0.02))), 3), n(kind.throat + chance.gauss(0, 0.08), 1),
                            n(kind.floor + max(-0.3, min(0.3, chance.gauss(0, 0.1))), 1), n(od, 3)])  # fmt: skip
            if chance.random() < 0.04:
                damage.append([name, n(size + out + chance.uniform(0.05, 0.3), 2), n(chance.uniform(1, 4), 1)])
        return found, pockets, damage

    def _job(self) -> str:
        n = self._n
        lines = [
            'job 9 "as it came in"',
            f"  units {'inch' if self.inch else 'mm'}",
            'use "made.shop"',
            'head "a worn one"',
            f"  material {'grey iron' if self.iron else 'aluminium'}",
            "  temperature 21 C",
            "  depth-from deck",
            f"  least-bridge {n(1.5, 2)}",
            f"  least-floor {n(3.0, 2)}",
            "valves all",
            "  insert choose",
            f"  stand below {n(0, 2)} to {n(0.1, 2)}",
            "  seat-angle 45",
            "  face-angle 45",
            "  top-angle 30",
            "  throat-angle 60",
            f"  setback {n(0.7, 2)}",
            f"  guide-length {n(52, 1)}",
            f"  guide-to-floor {n(26, 1)}",
        ]
        tables: list[list[list[str]]] = [[], [], []]
        for kind in (self.intake, self.exhaust):
            lines += [
                f"valves {'intake' if kind.letter == 'I' else 'exhaust'}", f"  head-diameter {n(kind.head, 1)}",
                f"  stem {n(kind.stem, 3)}", f"  margin {n(1.4, 1)}", f"  seat-width {n(1.4, 2)} to {n(1.9, 2)}",
                f"  guide-clearance {n(0.02, 3)} to {n(0.12, 3)}",
                f"  recession {n(kind.recession - 0.3, 2)} to {n(kind.recession + 0.6, 2)}",
                f"  stem-height {n(kind.stem_height - 0.4, 2)} to {n(kind.stem_height + 0.6, 2)}",
                f"  spring-height {n(kind.spring_height - 0.4, 2)} to {n(kind.spring_height + 0.6, 2)}",
            ]  # fmt: skip
            for table, rows in zip(tables, self._rows(kind), strict=True):
                table += rows
        lines += ["layout", "valve x y"]
        reach = (self.intake.pocket + self.exhaust.pocket) / 4 + 1.6
        for kind, side in ((self.intake, -1), (self.exhaust, 1)):
            for place, name in enumerate(self.names(kind)):
                number, twin = divmod(place, 2 if self.twins else 1)
                x = self.pitch * number + (side * reach if not self.twins else (twin - 0.5) * 2 * reach)
                lines.append(f"{name} {n(x, 1)} {n(side * reach if self.twins else 0, 1)}")
        heads = (
            "valve guide-top guide-middle guide-bottom recession stem-height spring-height",
            "valve pocket-a pocket-b pocket-low-a pocket-low-b pocket-depth pocket-tir throat floor-thickness "
            "insert-od",
            "valve damage damage-depth",
        )
        for head, rows in zip(heads, tables, strict=True):
            if rows:
                lines += ["measured at 21 C", head, *(" ".join(row) for row in rows)]
        over = 0.006
        size = self.intake.pocket + 0.4
        lines += ["trial at 21 C"]
        for place in range(2):
            read, bored = size + 0.02 * place, size + 0.02 * place + over + self.chance.gauss(0, 0.0015)
            lines.append(f"C2 read {n(read, 3)} bored {n(bored, 3)}")
        return "\n".join(lines) + "\n"

    def _shop(self) -> str:
        n = self._n
        lines = [
            'shop "made"',
            f"  units {'inch' if self.inch else 'mm'}",
            'machine "borer"',
            "  speeds 35 50 70 95 130 rpm",
            "  feeds hand",
            f"  dial-step {'.001' if self.inch else '0.01'}",
            "  guides-by pilot",
            'gauge "setting gauge"',
            f"  range {n(20, 1)} to {n(70, 1)}",
            f"  step {'.0001' if self.inch else '0.002'}",
            f"  master {n(30, 3)} reads {n(30, 3)}",
            f"  master {n(50, 3)} reads {n(50.002, 3)}",
            f"  master-uncertainty +/- {'.00004' if self.inch else '0.001'}",
            "  indicator diameter",
            "  temperature 21 C",
            'bore-gauge "bore gauge"',
            f"  range {n(20, 1)} to {n(70, 1)}",
            f"  step {'.0001' if self.inch else '0.001'}",
            f"  ring {n(40, 3)} reads {n(40.002, 3)}",
            "  temperature 21 C",
            "cutter C2",
            f"  range {n(20, 1)} to {n(70, 1)}",
            f"  tip-width {n(9, 1)}",
            "  tips 1",
            f"  corner-radius {n(0.4, 2)}",
            f"  overcut {n(0.006, 3) if not self.inch else '.0002'}",
            f"  overcut-spread {'.00008' if self.inch else '0.002'}",
            "pilots",
            "pilot diameter length kind tir",
        ]
        for step in range(24):
            diameter = self.intake.stem + 0.015 + 0.005 * step
            lines.append(f"P{step} {n(diameter, 3)} {n(90, 1)} dead {n(0.002, 3)}")
        lines += ["inserts", "insert od od-least od-most height id chamfer alloy seat on-hand"]
        for kind, seat in ((self.intake, "intake"), (self.exhaust, "exhaust")):
            for place, grown in enumerate((0.07, 0.57, 1.07)):
                od = kind.pocket + grown
                row = [n(od, 3), n(od - 0.006, 3), n(od + 0.006, 3), n(kind.depth + 0.1 * place, 2),
                       n(kind.throat - 1.0, 1), n(0.8, 2), "tool-steel", seat, "-"]  # fmt: skip
                lines.append(f"{kind.letter}-{place} {' '.join(row)}")
        lines += ["interference", "head alloy seat over to least most source"]
        for head, least, most in (("grey-iron", 0.05, 0.09), ("aluminium", 0.06, 0.10)):
            lines.append(f'{head} any any - - {n(least, 3)} {n(most, 3)} "shop practice"')
        lines += [
            "practice",
            f"  clean-up {n(0.1, 2)}",
            f"  floor-clean-up {n(0.02, 2)}",
            f"  trial-under {n(0.1, 2)}",
            "  top-speed 70 rpm",
            f"  slip {n(0.03, 3)}",
            f"  bore-round {n(0.012, 3)}",
            f"  bore-taper {n(0.012, 3)}",
            f"  floor-square {n(0.03, 3)}",
            f"  runout {n(0.08, 3)} tir",
            f"  least-land {n(0.5, 1)}",
            f"  least-ledge {n(1.0, 1)}",
            f"  least-under-seat {n(0.5, 1)}",
            f"  depth-tolerance {n(0.05, 2)}",
            "  guard 1.65",
            f"  shims {n(0.4, 1)} {n(0.8, 1)}",
            f"  shim-limit {n(1.5, 1)}",
            f"  stem-grind-most {n(0.25, 2)}",
            "assembly",
            "  oven 160 C",
            '  chill "dry ice" -78.5 C arrives -40 C',
            "  press 40 kN",
        ]
        return "\n".join(lines) + "\n"
