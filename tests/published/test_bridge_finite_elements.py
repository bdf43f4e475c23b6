"""Two inserts that share a bridge, against finite elements of our own: plane stress, whole plate, rings that give.

The upper half of a wide plate with two holes, meshed in rays from both holes that meet on the line between them, and
the two rings; quadratic elements. At the contact plate and ring are held apart by the tightness along the normal and
slide freely; the force that does it is the contact's. Nothing of the handbook is used but its answer.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest

from seatwright.handbook.bridge_stress import PressedInsert, bridge_stress

skfem = pytest.importorskip("skfem")
sparse = pytest.importorskip("scipy.sparse")

Floats = npt.NDArray[np.float64]
REACH = 800.0
ACROSS = 36


def _fan(points: Floats) -> Any:
    """A basis on the quadrangles of a grid of points [ray, step, (x, y)]."""
    rays, steps, _ = points.shape
    number = np.arange(rays * steps).reshape(rays, steps)
    corners = [number[:-1, :-1], number[:-1, 1:], number[1:, 1:], number[1:, :-1]]
    mesh = skfem.MeshQuad(points.reshape(-1, 2).T.copy(), np.array([each.ravel() for each in corners]))
    return skfem.Basis(mesh, skfem.ElementVector(skfem.ElementQuad2()), intorder=5)


def _stiffness(basis: Any, E: float, nu: float) -> Any:
    @skfem.BilinearForm  # type: ignore[untyped-decorator,unused-ignore]
    def energy(u: Any, v: Any, w: Any) -> Any:
        e, f = u.grad, v.grad
        stretch = (e[0, 0] + nu * e[1, 1]) * f[0, 0] + (e[1, 1] + nu * e[0, 0]) * f[1, 1]
        shear = (1 - nu) / 2 * (e[0, 1] + e[1, 0]) * (f[0, 1] + f[1, 0])
        return E / (1 - nu**2) * (stretch + shear)

    return energy.assemble(basis)


def _polar(angles: Floats, inner: float, reach: Floats, centre: float, towards: int) -> Floats:
    """Points of a fan: rays at `angles` from the side of the other hole, from `inner` out, closer at the hole."""
    radius = inner * (reach[:, None] / inner) ** np.linspace(0, 1, ACROSS + 1)[None, :]
    return np.stack([centre + towards * radius * np.cos(angles)[:, None], radius * np.sin(angles)[:, None]], axis=2)


def _nodes(basis: Any) -> tuple[Any, Any, Floats]:
    """Numbers of the movements along x and y of every node, and where the nodes are."""
    along_x, along_y = (
        np.concatenate([part[k].ravel() for part in (basis.nodal_dofs, basis.facet_dofs, basis.interior_dofs)])
        for k in (0, 1)
    )
    return along_x, along_y, basis.doflocs[:, along_x]


def _matching(first: Floats, second: Floats) -> list[tuple[int, int]]:
    """Places of the points that two sets have in common."""
    known = {(round(x, 6), round(y, 6)): at for at, (x, y) in enumerate(first.T)}
    return [(known[key], at) for at, (x, y) in enumerate(second.T) if (key := (round(x, 6), round(y, 6))) in known]


def by_finite_elements(
    inserts: tuple[PressedInsert, PressedInsert], bridge: float, E_h: float, nu_h: float
) -> tuple[list[float], list[float], list[float]]:
    """Hoop stress at both bores in the bridge, the highest anywhere at each bore, and the mean pressures [MPa]."""
    radii = [insert.od / 2 for insert in inserts]
    # The meeting line halves the bridge; heights on it are shared by the rays of both holes.
    apart = [radius + bridge / 2 for radius in radii]
    shared = np.mean(apart) * np.tan(np.linspace(0, 1, 49) ** 1.3 * math.atan(REACH / np.mean(apart)))
    bodies, stiff = [], []
    for k, insert in enumerate(inserts):
        near = np.arctan2(shared, apart[k])
        corner = math.atan2(REACH, -REACH)
        top, far = np.linspace(near[-1], corner, 13)[1:], np.linspace(corner, math.pi, 13)[1:]
        angle = np.concatenate([near, top, far])
        reach = np.concatenate([apart[k] / np.cos(near), REACH / np.sin(top), REACH / -np.cos(far)])
        centre, towards = (-apart[k], 1) if k == 0 else (apart[k], -1)
        plate = _fan(_polar(angle, radii[k], reach, centre, towards))
        ring = _fan(_polar(angle, insert.id / 2, np.full(angle.shape, radii[k]), centre, towards))
        bodies += [plate, ring]
        stiff += [_stiffness(plate, E_h, nu_h), _stiffness(ring, insert.E, insert.nu)]
    starts = np.cumsum([0, *(basis.N for basis in bodies)])
    nodes = [_nodes(basis) for basis in bodies]
    rows: list[dict[int, float]] = []
    right: list[float] = []
    for name, (_, along_y, places) in enumerate(nodes):
        for at in np.flatnonzero(np.abs(places[1]) < 1e-9):
            rows.append({int(starts[name] + along_y[at]): 1.0})
            right.append(0.0)
    for at, other in _matching(nodes[0][2], nodes[2][2]):
        for axis in (0, 1):
            if axis == 1 and abs(nodes[0][2][1, at]) < 1e-9:
                continue
            rows.append({int(starts[0] + nodes[0][axis][at]): 1.0, int(starts[2] + nodes[2][axis][other]): -1.0})
            right.append(0.0)
    rows.append({int(starts[0] + nodes[0][0][int(np.argmin(nodes[0][2][0]))]): 1.0})
    right.append(0.0)
    contact: list[list[int]] = []
    for k, insert in enumerate(inserts):
        plate, ring = 2 * k, 2 * k + 1
        centre = -apart[0] if k == 0 else apart[1]
        lines = []
        for at, other in _matching(nodes[plate][2], nodes[ring][2]):
            x, y = nodes[plate][2][:, at] - (centre, 0)
            normal = np.array([x, y]) / math.hypot(x, y)
            row = {}
            for axis in (0, 1):
                row[int(starts[plate] + nodes[plate][axis][at])] = float(normal[axis])
                row[int(starts[ring] + nodes[ring][axis][other])] = -float(normal[axis])
            lines.append(len(rows))
            rows.append(row)
            right.append(insert.interference / 2)
        contact.append(lines)
    entries = [(at, column, value) for at, row in enumerate(rows) for column, value in row.items()]
    at, column, value = zip(*entries, strict=True)
    ties = sparse.csr_matrix((value, (at, column)), shape=(len(rows), starts[-1]))
    scale = E_h
    whole = sparse.bmat([[sparse.block_diag(stiff), scale * ties.T], [scale * ties, None]]).tocsc()
    solved = sparse.linalg.spsolve(whole, np.concatenate([np.zeros(starts[-1]), scale * np.array(right)]))
    forces = scale * solved[starts[-1] :]
    pressure = [abs(float(forces[lines].sum())) / (math.pi * radii[k]) for k, lines in enumerate(contact)]
    towards, highest = [], []
    for k in (0, 1):
        hoop = _hoop_at_bore(
            bodies[2 * k], solved[starts[2 * k] : starts[2 * k + 1]], -apart[0] if k == 0 else apart[1], E_h, nu_h
        )
        towards.append(hoop[0])
        highest.append(max(hoop))
    return towards, highest, pressure


def _hoop_at_bore(basis: Any, moved: Floats, centre: float, E: float, nu: float) -> list[float]:
    """Hoop stress in the plate at the first edge of its fan, from the bridge round [MPa]."""
    point = skfem.Basis(basis.mesh, basis.elem, quadrature=(np.zeros((2, 1)), np.ones(1)))
    grad = point.interpolate(moved).grad[..., 0]
    x, y = point.global_coordinates()[..., 0] - np.array([[centre], [0.0]])
    xx, yy, xy = grad[0, 0], grad[1, 1], (grad[0, 1] + grad[1, 0]) / 2
    plane = E / (1 - nu**2)
    sxx, syy, sxy = plane * (xx + nu * yy), plane * (yy + nu * xx), plane * (1 - nu) * xy
    angle = np.arctan2(y, x)
    hoop = sxx * np.sin(angle) ** 2 + syy * np.cos(angle) ** 2 - 2 * sxy * np.sin(angle) * np.cos(angle)
    # The first corner of each element lies nearest the hole; elements run ray by ray, step by step.
    return [float(each) for each in hoop[::ACROSS]]


STEEL = PressedInsert(0.08, 38.1, 30.0, 210e3, 0.29)


@pytest.mark.slow
@pytest.mark.parametrize("bridge", [2.0, 3.0, 4.0, 6.0, 10.0])
@pytest.mark.parametrize(("E_h", "nu_h"), [(71e3, 0.33), (110e3, 0.26)], ids=["aluminium", "iron"])
def test_two_equal_inserts_agree_with_finite_elements(bridge: float, E_h: float, nu_h: float) -> None:
    _agrees(STEEL, STEEL, bridge, E_h, nu_h)


@pytest.mark.slow
@pytest.mark.parametrize("bridge", [2.5, 5.0])
def test_an_intake_beside_an_exhaust_agrees_with_finite_elements(bridge: float) -> None:
    # A large sintered intake insert beside a smaller, tighter exhaust insert of cobalt alloy.
    intake = PressedInsert(0.07, 41.2, 34.5, 160e3, 0.28)
    exhaust = PressedInsert(0.10, 34.1, 26.0, 220e3, 0.28)
    _agrees(intake, exhaust, bridge, 72.4e3, 0.33)


def _agrees(first: PressedInsert, second: PressedInsert, bridge: float, E_h: float, nu_h: float) -> None:
    hoop, highest, pressure = by_finite_elements((first, second), bridge, E_h, nu_h)
    found = bridge_stress(first, second, bridge, E_h, nu_h)
    assert found.hoop == pytest.approx(hoop, rel=0.01)
    assert found.pressure == pytest.approx(pressure, rel=0.005)
    # Nowhere else round the bore is the stress higher than in the bridge.
    assert max(highest) == pytest.approx(found.highest, rel=0.01)
