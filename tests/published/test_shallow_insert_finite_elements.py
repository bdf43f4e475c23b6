"""An insert that is short beside its head, against finite elements of our own: what the rule of thick rings leaves
out.

The rule takes insert and head for equally high. A real insert is pressed into the top of a deep block, over a floor,
and the metal below the insert helps to hold it. Axisymmetric, no friction, quadratic elements, solved with scikit-fem.

The case is that of the rule's worked example: od 38.1, hole 30, block 60 round and 20 deep, insert 8 high, 0.08 of
interference, steel 210 GPa and 0.28 in aluminium 71 GPa and 0.33. The figures held against are of another program with
other elements, to 0.05 % between its two finest meshes.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from scipy.sparse import bmat, csr_matrix
from scipy.sparse.linalg import spsolve

from seatwright.handbook.fit_stress import contact_pressure

skfem = pytest.importorskip("skfem")

OD, HOLE, BLOCK, DEEP, HIGH, DELTA = 38.1, 30.0, 60.0, 20.0, 8.0, 0.08
STEEL, ALUMINIUM = (210e3, 0.28), (71e3, 0.33)
FINE = 0.5  # mm, across an element


def _lines(*breaks: float) -> Any:
    """Places of the element edges between these, about `FINE` apart."""
    parts = [np.linspace(one, other, max(1, round((other - one) / FINE)) + 1)[:-1] for one, other in pairwise(breaks)]
    return np.append(np.concatenate(parts), breaks[-1])


def _body(mesh: Any, stiffness: float, poisson: float) -> tuple[Any, Any]:
    """Basis and stiffness of a body of revolution: r, z; the radian left out."""
    basis = skfem.Basis(mesh, skfem.ElementVector(skfem.ElementQuad2()), intorder=5)
    shear = stiffness / 2 / (1 + poisson)
    lame = stiffness * poisson / (1 + poisson) / (1 - 2 * poisson)

    @skfem.BilinearForm  # type: ignore[untyped-decorator,unused-ignore]
    def energy(u: Any, v: Any, w: Any) -> Any:
        r = w.x[0]
        (u_rr, u_rz), (u_zr, u_zz) = u.grad
        (v_rr, v_rz), (v_zr, v_zz) = v.grad
        u_t, v_t = u[0] / r, v[0] / r
        swell = (u_rr + u_zz + u_t) * (v_rr + v_zz + v_t)
        return (
            lame * swell + 2 * shear * (u_rr * v_rr + u_zz * v_zz + u_t * v_t) + shear * (u_rz + u_zr) * (v_rz + v_zr)
        ) * r

    return basis, energy.assemble(basis)


def _wall(basis: Any) -> Any:
    """The radial degrees of freedom on the wall of the fit, from the bottom up."""
    where = basis.doflocs
    radial = np.zeros(basis.N, dtype=bool)
    for rows in (basis.nodal_dofs[0], basis.facet_dofs[0], basis.interior_dofs[0]):
        radial[rows] = True
    on = np.flatnonzero(radial & np.isclose(where[0], OD / 2) & (where[1] > -HIGH - 1e-9))
    return on[np.argsort(where[1][on])]


def _mean_pressure(port: float) -> float:
    """Mean of the pressure over the wall [MPa]. port: diameter of the hole through the floor, `OD` where there is none
    of it, 0 for a solid one."""
    across = [port / 2, OD / 2, BLOCK / 2] if port < OD else [OD / 2, BLOCK / 2]
    block = skfem.MeshQuad.init_tensor(_lines(*across), _lines(-DEEP, -HIGH, 0.0))
    middle = block.p[:, block.t].mean(axis=1)
    block = block.remove_elements(np.flatnonzero((middle[0] < OD / 2) & (middle[1] > -HIGH)))
    head, k_head = _body(block, *ALUMINIUM)
    ring = skfem.MeshQuad.init_tensor(_lines(HOLE / 2, OD / 2), _lines(-HIGH, 0.0))
    insert, k_insert = _body(ring, *STEEL)
    walls = _wall(head), _wall(insert)
    count = len(walls[0])
    assert count == len(walls[1])
    gap = np.arange(count), np.ones(count)
    apart = [
        csr_matrix((sign * gap[1], (gap[0], wall)), shape=(count, basis.N))
        for sign, wall, basis in ((1.0, walls[0], head), (-1.0, walls[1], insert))
    ]
    # Neither floats: each is held up at one place, and the axis of a solid floor stays where it is.
    held: list[Any] = []
    for basis in (head, insert):
        up = basis.nodal_dofs[1]
        held.append(up[np.argmin(basis.mesh.p[1] * 1e3 - basis.mesh.p[0])])
    pins = [[held[0]], [held[1] + head.N]]
    if port == 0:
        where = head.doflocs
        radial = np.setdiff1d(np.flatnonzero(np.isclose(where[0], 0)), head.nodal_dofs[1])
        pins.append([int(one) for one in radial if one in set(head.nodal_dofs[0]) | set(head.facet_dofs[0])])
    fixed = sorted({int(one) for group in pins for one in group})
    whole = bmat([[k_head, None, apart[0].T], [None, k_insert, apart[1].T], [apart[0], apart[1], None]]).tocsr()
    right = np.zeros(whole.shape[0])
    right[head.N + insert.N :] = DELTA / 2
    free = np.setdiff1d(np.arange(whole.shape[0]), fixed)
    found = np.zeros(whole.shape[0])
    found[free] = spsolve(whole[free][:, free].tocsc(), right[free])
    pushed = -found[head.N + insert.N :].sum()
    return float(pushed / (OD / 2 * HIGH))


@pytest.mark.slow
@pytest.mark.parametrize(
    "port, found", [(OD, 42.715), (30.0, 44.86), (34.0, 43.79), (0.0, 51.20)], ids=["no floor", "30", "34", "solid"]
)
def test_a_short_insert_is_held_by_more_than_the_rule_says_by_10_to_38_in_a_hundred(port: float, found: float) -> None:
    rule = contact_pressure(DELTA, OD, HOLE, BLOCK, *STEEL, *ALUMINIUM)
    pressure = _mean_pressure(port)
    assert pressure == pytest.approx(found, rel=4e-3)
    # What `explain` says of every fit; push-out by the rule is on the safe side.
    assert 1.10 * rule < pressure < 1.39 * rule
