"""What a hand calculation needs besides the job: figures of metals with their sources, and a few sums of the trade.

Nothing here comes from `seatwright`: the sums are those of the trade's text-books, written out once more. Lengths in
mm, temperatures in °C, stresses in MPa. The figures of metals are those that the tool names as its own (`seatwright
explain JOB VALVE`, at the end of a line); they were typed from there with their sources, not read from its tables.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from math import ceil, erf, floor, radians, sqrt, tan
from typing import Any

Line = Mapping[float, float]
Sums = dict[str, Any]  # what the hand calculation says, by its path in plan.json

# Mean expansion from 20 °C, um/m/C, at the temperatures given.
IRON: Line = {-100: 10.0, 200: 11.7}  # EN 1561 annex, EN-GJL-250, from memory
ALUMINIUM: Line = {100: 21.4, 300: 23.2}  # a light-metal association, A356.0-T6 sand cast
# Cold: a carbon steel (a university textbook problem, from memory). Hot: H13 (suppliers' data sheets).
TOOL_STEEL: Line = {-150: 9.55, -100: 10.26, -78.5: 10.53, -40: 10.96, 100: 10.4, 204: 11.3, 400: 12.6}
RING: Line = {-80: 10.4, 100: 11.2}  # bench.shop, alloy bench-ring

E_IRON, NU_IRON = 100000.0, 0.25  # class 30 iron, 14.5e6 psi, shear modulus 0.40 of it: Machinery's Handbook
E_ALUMINIUM, NU_ALUMINIUM = 72400.0, 0.33  # a published materials database, A356.0-T6 sand cast
E_STEEL, NU_STEEL = 215000.0, 0.285  # H13, a supplier's data sheet, the middle of .27 to .30
E_RING, NU_RING = 205000.0, 0.29  # bench.shop, alloy bench-ring
MU_IRON = (0.10, 0.16)  # DIN 7190-1, 5.3: joined by heat or cold, steel in cast iron
MU_ALUMINIUM = (0.10, 0.15)  # DIN 7190-1, 5.3: steel in light alloy, dry
KC_IRON, MC_IRON = 1150.0, 0.20  # specific cutting force: a cutter maker's guide, VDI 3323 group 15, 180 HB
KC_ALUMINIUM, MC_ALUMINIUM = 700.0, 0.25  # the same, cast aluminium to 12 % silicon, groups 23 and 24

GAUGE = 1 + 11.5e-6 * 2  # both gauges of bench.shop at 22 °C: 11.5 um/m/C
TILT = {"top": tan(radians(30)), "seat": tan(radians(45)), "throat": tan(radians(60))}
R3, R12 = sqrt(3), sqrt(12)  # a most that a figure is out by, and a step that it is read in, as standard uncertainties
# JCGM 100:2008, 4.3.7 and F.2.2.1


def straight(line: Line, at: float) -> float:
    """Between two figures in a straight line; alone on its side of 20 °C, a mean expansion holds up to there."""
    known = sorted(line)
    if 20 <= at <= known[0]:
        return line[known[0]]
    low, high = next((low, high) for low, high in pairwise(known) if low <= at <= high)
    return line[low] + (line[high] - line[low]) * (at - low) / (high - low)


def growth(line: Line, at: float) -> float:
    """How many times as long as at 20 °C."""
    return 1 + straight(line, at) * 1e-6 * (at - 20)


def lean(clearances: Mapping[float, float], height: float) -> tuple[float, float]:
    """How far a dead pilot can stand off at a height above the port end, and its tilt [rad].

    clearances: of pilot to guide, by how far below the port end they were measured.
    """
    pairs = [
        (c / 2 + (c + d) / 2 * (height + x) / (y - x), (c + d) / (2 * (y - x)))
        for x, c in clearances.items()
        for y, d in clearances.items()
        if x < y
    ]
    return min(off for off, _ in pairs), min(tilt for _, tilt in pairs)


def pressure(
    delta: float, od: float, id_: float, outer: float | None, head: Sequence[float], ring: Sequence[float]
) -> float:
    """Two thick rings, plane stress (Lamé). outer None: metal without end. head, ring: stiffness, Poisson."""
    around = 1.0 if outer is None else (outer**2 + od**2) / (outer**2 - od**2)
    inside = (od**2 + id_**2) / (od**2 - id_**2)
    return delta / (od * ((around + head[1]) / head[0] + (inside - ring[1]) / ring[0]))


def below(z: float) -> float:
    """The part of a normal distribution that lies below z."""
    return (1 + erf(z / sqrt(2))) / 2


def where(difference: Callable[[float], float], low: float, high: float) -> float:
    """The temperature between two at which a difference changes its sign, by halving."""
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if difference(low) * difference(middle) > 0 else (low, middle)
    return low


def up(value: float, step: float) -> float:
    return ceil(value / step - 1e-9) * step


def down(value: float, step: float) -> float:
    return floor(value / step + 1e-9) * step


def nearest(value: float, step: float) -> float:
    return round(value / step) * step


def edges(sums: Sums, top: float, seat: float, throat: float) -> None:
    """What 0.10 deeper along the stem does to the edges of a seat: two cones meet in each."""
    outer, inner = 0.2 / (seat - top), 0.2 / (throat - seat)
    sums["seat.cuts.0.deeper_0_1.outer"] = -outer
    sums["seat.cuts.1.deeper_0_1.outer"], sums["seat.cuts.1.deeper_0_1.inner"] = outer, -inner
    sums["seat.cuts.2.deeper_0_1.inner"] = inner
