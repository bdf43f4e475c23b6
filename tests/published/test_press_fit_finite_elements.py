"""The thick-ring pressure against finite elements of our own.

Each ring alone is loaded by a pressure of 1 MPa on its side of the fit; how far each gives there, together, must take
up half the interference. Radial displacement u, plane stress: σ_r = E/(1 − ν²)·(u' + ν·u/r), σ_t the same with u' and
u/r exchanged. Solved with scikit-fem, quadratic elements.
"""

from __future__ import annotations

import random
from typing import Any

import numpy as np
import pytest

from seatwright.handbook.fit_stress import contact_pressure, hoop_head_at_bore

skfem = pytest.importorskip("skfem")


def _give(inside: float, outside: float, loaded: float, stiffness: float, poisson: float) -> tuple[float, float]:
    """Radial give at the radius `loaded` for 1 MPa there, and the hoop stress at that radius."""
    mesh = skfem.MeshLine(np.linspace(inside, outside, 25))
    basis = skfem.Basis(mesh, skfem.ElementLineP2(), intorder=8)
    plane = stiffness / (1 - poisson**2)

    @skfem.BilinearForm  # type: ignore[untyped-decorator,unused-ignore]
    def energy(u: Any, v: Any, w: Any) -> Any:
        r = w.x[0]
        radial = plane * (u.grad[0] + poisson * u / r)
        hoop = plane * (u / r + poisson * u.grad[0])
        return (radial * v.grad[0] + hoop * v / r) * r

    node = int(basis.get_dofs(lambda x: np.isclose(x[0], loaded)).all()[0])
    load = np.zeros(basis.N)
    outwards = 1.0 if loaded == inside else -1.0
    load[node] = outwards * loaded
    given = skfem.solve(energy.assemble(basis), load)
    at_fit = float(given[node])
    # With σ_r = −1 at the fit the hoop stress follows from the displacement there: σ_t = E·u/r + ν·σ_r.
    return abs(at_fit), stiffness * at_fit / loaded - poisson


def _sizes() -> list[tuple[float, ...]]:
    draw = random.Random(20)
    cases: list[tuple[float, ...]] = []
    for _ in range(3):
        od = draw.uniform(28, 60)
        cases.append(
            (
                draw.uniform(0.03, 0.12),
                od,
                od - 2 * draw.uniform(2.5, 5),
                od + 2 * draw.uniform(3, 15),
                draw.uniform(120e3, 230e3),
                draw.uniform(0.25, 0.33),
                draw.uniform(70e3, 170e3),
                draw.uniform(0.25, 0.33),
            )
        )
    return cases


@pytest.mark.slow
@pytest.mark.parametrize("delta, od, bore, outer, e_i, nu_i, e_h, nu_h", _sizes())
def test_thick_rings_agree_with_finite_elements(
    delta: float, od: float, bore: float, outer: float, e_i: float, nu_i: float, e_h: float, nu_h: float
) -> None:
    insert, _ = _give(bore / 2, od / 2, od / 2, e_i, nu_i)
    head, hoop = _give(od / 2, outer / 2, od / 2, e_h, nu_h)
    pressure = delta / 2 / (insert + head)
    assert contact_pressure(delta, od, bore, outer, e_i, nu_i, e_h, nu_h) == pytest.approx(pressure, rel=1e-4)
    assert hoop_head_at_bore(pressure, od, outer) == pytest.approx(pressure * hoop, rel=1e-4)
