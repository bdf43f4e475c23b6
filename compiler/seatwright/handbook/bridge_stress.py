"""A bridge between two inserts: exact plane stress of two press fits that share it.

Each insert is a ring, pressed into a round hole of a wide plate, the two holes side by side. The pressure is not even
round an insert: plate and ring give differently towards the bridge, so it is found with the stress, harmonic by
harmonic, hole by hole in turn, until neither hole changes any more.

Not in it: the edge of the head, other holes, a third insert, the metal under the insert.

Sources: an elasticity textbook, plane stress by two complex functions, holes taken in turn; the series of the two holes
are derived here and held against finite elements of our own.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from itertools import accumulate
from operator import mul, neg, sub
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

__all__ = ["BridgeStress", "PressedInsert", "bridge_stress"]

_SETTLED = 3e-5
"""Relative change of a hoop stress [-] at which the holes are said to have settled."""

_MOST_HARMONICS = 60

_ROUGH_TURNS = 2
"""Turns in which half the harmonics do: what they leave out is less than what the turns after them still change."""


class PressedInsert(Struct, frozen=True):
    """An insert in its hole: diametral `interference`, `od`, `id` [mm]; `E` [MPa] and `nu` [-] of its alloy."""

    interference: float
    od: float
    id: float
    E: float
    nu: float


class BridgeStress(Struct, frozen=True):
    """What two inserts do to the bridge between them; each pair of figures first insert, second insert.

    hoop : stress in the head at the bore, where the bridge is thinnest [MPa], tension positive
    pressure : mean contact pressure round the insert [MPa]
    pressure_least : the least round the insert [MPa]; below nothing the insert would lift off there, and the
        figures no longer hold
    """

    hoop: tuple[float, float]
    pressure: tuple[float, float]
    pressure_least: tuple[float, float]

    @property
    def highest(self) -> float:
        """The higher of the two hoop stresses: what the bridge carries [MPa]."""
        return max(self.hoop)


def bridge_stress(first: PressedInsert, second: PressedInsert, bridge: float, E_h: float, nu_h: float) -> BridgeStress:
    """Stress in the bridge between two inserts, and the pressure that holds each of them.

    Plane stress; contact without friction, all round; the plate reaches far beyond both holes. Linear in the two
    interferences together. A single insert in wide metal (`bridge` very wide) comes out as `contact_pressure`.

    first, second : the two inserts, each with its own size, alloy and interference
    bridge : metal between the two bores, where it is thinnest [mm]
    E_h, nu_h : stiffness [MPa] and Poisson's ratio [-] of the head
    Returns : hoop stress at both bores in the bridge, mean and least pressure of both inserts [MPa]

    Valid while nothing yields and no insert lifts off (`pressure_least`), for bridges from about a fortieth of the
    od up; then within 0.5 % of exact. Without the factor of the open face, `OPEN_FACE`.
    Errors : ValueError for a bridge that is not above nothing, an insert whose hole is not inside it, or a stiffness
    that is not positive.
    Source : an elasticity textbook, plane stress by two complex functions; the series are derived here.

    Steel 38.1/30 in aluminium, 0.08 tight, 3 mm between the bores:

    >>> insert = PressedInsert(interference=0.08, od=38.1, id=30.0, E=210e3, nu=0.29)
    >>> found = bridge_stress(insert, insert, 3.0, 71e3, 0.33)
    >>> round(found.highest), round(found.pressure[0], 1)
    (253, 51.0)
    """
    _check(first, second, bridge, E_h)
    return _solved(first, second, bridge, E_h, nu_h)


@lru_cache(maxsize=512)
def _solved(first: PressedInsert, second: PressedInsert, bridge: float, E_h: float, nu_h: float) -> BridgeStress:
    # Both fits of a pair, cold and at work, and all pairs alike, are sums of the same two.
    one = _of_one(replace(first, interference=1.0), replace(second, interference=0.0), bridge, E_h, nu_h)
    other = _of_one(replace(second, interference=1.0), replace(first, interference=0.0), bridge, E_h, nu_h)
    t, u = first.interference, second.interference
    radials = [t * own + u * across for own, across in zip(one.radial, other.radial_across, strict=True)]
    radials_across = [t * across + u * own for across, own in zip(one.radial_across, other.radial, strict=True)]
    return BridgeStress(
        hoop=(t * one.hoop + u * other.hoop_across, t * one.hoop_across + u * other.hoop),
        pressure=(-radials[0], -radials_across[0]),
        pressure_least=(_least_pressure(radials), _least_pressure(radials_across)),
    )


class _OneTight(NamedTuple):
    """What an insert that is 1 mm tight does, beside one that is not tight at all: the hoop stress in the bridge at its
    own bore and at the other's, and the harmonics of the radial stress round both [MPa]."""

    hoop: float
    hoop_across: float
    radial: list[float]
    radial_across: list[float]


@lru_cache(maxsize=512)
def _of_one(tight: PressedInsert, loose: PressedInsert, bridge: float, E_h: float, nu_h: float) -> _OneTight:
    radii = (tight.od / 2, loose.od / 2)
    centres = sum(radii) + bridge
    count = _harmonics(radii, centres)
    holes = tuple(_Hole(insert, E_h, nu_h, count) for insert in (tight, loose))
    away = tuple([(radius / centres) ** n for n in range(count + 3)] for radius in radii)
    before = (math.inf, math.inf)
    for turn in range(200):
        taken = count // 2 if turn < _ROUGH_TURNS else count
        for k in (0, 1):
            holes[k].receive(*_arriving(holes[1 - k], away[1 - k], away[k], taken))
        hoops = (holes[0].hoop_towards(), holes[1].hoop_towards())
        moved = max(abs(now - then) for now, then in zip(hoops, before, strict=True))
        if taken == count and moved <= _SETTLED * max(map(abs, hoops)):
            break
        before = hoops
    return _OneTight(*hoops, holes[0].radial, holes[1].radial)


def _least_pressure(radial: Sequence[float]) -> float:
    least: float = min(-sum(map(mul, radial, cosines)) for cosines in _cosines(len(radial)))
    return least


# A field round a hole of radius a is phi = Σ phi_out[n]·(a/z)^n + Σ phi_in[n]·(z/a)^n, psi likewise, z from the hole's
# own centre with the other hole on the positive axis, all coefficients real by symmetry. "out" is what this hole does
# to the plate, "in" what arrives from the other.


class _Hole:
    """One hole with its ring: what it does to the plate under a field that arrives."""

    def __init__(self, insert: PressedInsert, E_h: float, nu_h: float, count: int) -> None:
        self.radius = insert.od / 2
        self.tight = insert.interference / 2
        self.shear2 = E_h / (1 + nu_h)  # twice the shear modulus
        self.kappa = (3 - nu_h) / (1 + nu_h)
        self.count = count
        s = insert.id / insert.od
        wall = (1 + s * s) / (1 - s * s) - insert.nu
        self.even_give = self.radius / insert.E * wall
        self.answers = _answers(insert.od, insert.id, insert.E, insert.nu, E_h, nu_h, count)
        self.phi_out = [0.0] * (count + 1)
        self.psi_out = [0.0] * (count + 3)
        self.phi_in = [0.0] * (count + 3)
        self.radial = [0.0] * (count + 2)

    def receive(self, phi_in: list[float], psi_in: list[float]) -> None:
        """Answer a field that arrives: no shear at the contact, and what plate and ring give takes up the tightness."""
        k, shear2, a = self.kappa, self.shear2, self.radius
        even = phi_in[1]
        ring = self.even_give / a
        self.psi_out[1] = ((k - 1) * even / shear2 - 2 * ring * even - self.tight) / (1 / shear2 + ring)
        self.radial[0] = (self.psi_out[1] + 2 * even) / a
        # The first harmonic is a push of the insert as a whole, which nothing resists: it stays without pressure.
        self.psi_out[2] = -phi_in[2]
        for m, share, lower, give, stiff in self.answers[: len(psi_in) - 1]:
            above, below = phi_in[m + 1], psi_in[m - 1]
            higher = (m + 1) * above
            rest = -m * above - lower * below
            answer = (rest + higher + below - k * above - give * (higher + below)) / stiff
            self.phi_out[m - 1] = answer
            self.psi_out[m + 1] = share * answer + rest
            self.radial[m] = -2 * (m - 1) * (answer + higher + below) / a
        self.phi_in = phi_in

    def hoop_towards(self) -> float:
        """Hoop stress at the bore on the side of the other hole: the sum of both stresses less the radial one."""
        slope: float = sum(map(mul, range(self.count + 3), self.phi_in))
        slope -= sum(map(mul, range(self.count + 1), self.phi_out))
        return 4 * slope / self.radius - sum(self.radial)


@lru_cache(maxsize=64)
def _cosines(count: int) -> list[list[float]]:
    """cos mθ for so many m from 0, at 25 angles θ from 0 to π."""
    return [[math.cos(m * (math.pi * step / 24)) for m in range(count)] for step in range(25)]


@lru_cache(maxsize=64)
def _answers(
    od: float, id: float, E: float, nu: float, E_h: float, nu_h: float, count: int
) -> list[tuple[int, float, float, float, float]]:
    """What the answers of a hole with its ring to the harmonics from 2 are made of, whatever arrives."""
    shear2, kappa = E_h / (1 + nu_h), (3 - nu_h) / (1 + nu_h)
    found = []
    for m in range(2, count + 2):
        give = 2 * shear2 * _ring_give(m, id / od, E, nu, od / 2) / (od / 2)
        share = m * (m - 1) / (m + 1)
        stiff = (m - 1) * (1 + give) - share + kappa
        found.append((m, share, (m - 1) / (m + 1), give * (m - 1), stiff))
    return found


def _ring_give(m: int, s: float, E: float, nu: float, radius: float) -> float:
    """Radial give cos mθ of a ring at its outside for 1 MPa·cos mθ of tension there [mm/MPa]; s: hole over od."""
    k, half = (3 - nu) / (1 + nu), radius / 2
    wall, p, q = 1 - s * s, s ** (2 * m - 2), s ** (2 * m + 2)
    # Both conditions at the free hole are used up; two unknowns of the four are left.
    c11, c12 = (m - 1) * (1 - p), -(m * m - 1) * wall
    c21, c22 = -(m * m - 1) * p * wall, (m + 1) * (1 - q)
    det = c11 * c22 - c12 * c21
    x, y = half * (c22 - c12) / det, half * (c11 - c21) / det
    out, psi_out = x * p, (m - 1) * x * p * s * s - y * q
    psi_in = -x - (m + 1) * y * s * s
    give: float = ((k + m - 1) * out + (k - m - 1) * y - psi_out - psi_in) * (1 + nu) / E
    return give


def _arriving(
    other: _Hole, away: Sequence[float], here: Sequence[float], count: int
) -> tuple[list[float], list[float]]:
    """What the other hole does, seen from this one: its series about its own centre as one about this centre.

    away, here : powers from 0 of the radius of the other hole and of this one, over the distance of the centres.
    """
    # (a/z)^n is Σ binomial(n + j - 1, j)·away^n·here^j·(z/a)^j here; what the move of centre adds of phi to psi,
    # n·binomial(n + j, j), is (n + j)·binomial(n + j - 1, j): so two sums for each j do.
    phi = [*map(mul, other.phi_out[1:], away[1:])]
    psi = [*map(mul, other.psi_out[1:], away[1:])]
    rows = _choose(count)
    shares = [sum(map(mul, row, phi)) for row in rows]
    rest = [*map(sub, map(mul, range(1, count + 1), phi), psi), -psi[count], -psi[count + 1]]
    moved = [
        j * share + sum(map(mul, row, rest))
        for j, (share, row) in enumerate(zip(shares, rows[:count], strict=False), 1)
    ]
    return [0.0, *map(mul, map(neg, shares), here[1:])], [0.0, *map(mul, moved, here[1:])]


@lru_cache(maxsize=64)
def _choose(count: int) -> list[list[float]]:
    """Rows j from 1 to count + 2 of binomial(n + j, j) for n from 0 [-]: Pascal's triangle on its side."""
    row = [1.0] * (count + 2)
    return [row := list(accumulate(row)) for _ in range(count + 2)]


def _harmonics(radii: tuple[float, float], centres: float) -> int:
    """How many harmonics are worth taking: the series fall by the ratio of each hole to its mirror in the other."""
    a, b = radii
    focus = math.sqrt((centres**2 - (a + b) ** 2) * (centres**2 - (a - b) ** 2)) / (2 * centres)
    fall = min(math.asinh(focus / a), math.asinh(focus / b))
    return max(6, min(_MOST_HARMONICS, math.ceil(9.0 / fall)))


def _check(first: PressedInsert, second: PressedInsert, bridge: float, E_h: float) -> None:
    if not bridge > 0:
        raise ValueError(f"the bores meet: a bridge of {bridge:g} mm is none")
    for insert in (first, second):
        if not 0 <= insert.id < insert.od:
            raise ValueError(
                f"the hole of an insert ({insert.id}) must be smaller than its outer diameter ({insert.od})"
            )
        if not insert.E > 0:
            raise ValueError(f"stiffness must be more than nothing: insert {insert.E}")
    if not E_h > 0:
        raise ValueError(f"stiffness must be more than nothing: head {E_h}")
