"""How much a pressed guide's bore closes, against finite elements of our own: plane stress, a quarter of the ring.

The ring is meshed in the plane, not along its radius, with quadratic elements; a pressure stands on its outside and
nothing on its bore. Solved with scikit-fem.
"""

from __future__ import annotations

import random
from typing import Any

import numpy as np
import pytest

from seatwright.handbook.guides import bore_closes

skfem = pytest.importorskip("skfem")


def closes_by_finite_elements(pressure: float, od: float, id: float, E: float, nu: float) -> float:
    """Change of the bore on diameter, closing positive [mm]."""
    rays, steps = np.meshgrid(np.linspace(0, np.pi / 2, 25), np.geomspace(id / 2, od / 2, 17), indexing="ij")
    number = np.arange(rays.size).reshape(rays.shape)
    corners = [number[:-1, :-1], number[:-1, 1:], number[1:, 1:], number[1:, :-1]]
    points = np.array([(steps * np.cos(rays)).ravel(), (steps * np.sin(rays)).ravel()])
    mesh = skfem.MeshQuad(points, np.array([each.ravel() for each in corners]))
    element = skfem.ElementVector(skfem.ElementQuad2())
    basis = skfem.Basis(mesh, element, intorder=5)
    outside = mesh.facets_satisfying(lambda x: np.hypot(*x) > 0.995 * od / 2, boundaries_only=True)

    @skfem.BilinearForm  # type: ignore[untyped-decorator,unused-ignore]
    def energy(u: Any, v: Any, w: Any) -> Any:
        e, f = u.grad, v.grad
        stretch = (e[0, 0] + nu * e[1, 1]) * f[0, 0] + (e[1, 1] + nu * e[0, 0]) * f[1, 1]
        return E / (1 - nu**2) * (stretch + (1 - nu) / 2 * (e[0, 1] + e[1, 0]) * (f[0, 1] + f[1, 0]))

    @skfem.LinearForm  # type: ignore[untyped-decorator,unused-ignore]
    def load(v: Any, w: Any) -> Any:
        return -pressure * (w.n[0] * v[0] + w.n[1] * v[1])

    right = load.assemble(skfem.FacetBasis(mesh, element, facets=outside, intorder=5))
    fixed = np.concatenate(
        [
            basis.get_dofs(lambda x: np.isclose(x[1], 0.0)).all("u^2"),
            basis.get_dofs(lambda x: np.isclose(x[0], 0.0)).all("u^1"),
        ]
    )
    moved = skfem.solve(*skfem.condense(energy.assemble(basis), right, D=fixed))
    at_bore = int(np.argmin(np.hypot(points[0] - id / 2, points[1])))
    return -2 * float(moved[basis.nodal_dofs[0, at_bore]])


def _guides() -> list[tuple[float, ...]]:
    draw = random.Random(16)
    return [
        (draw.uniform(15, 60), od := draw.uniform(9.5, 16), od * draw.uniform(0.5, 0.75), draw.uniform(95e3, 125e3), nu)
        for nu in (0.25, 0.30, 0.34)
    ]


@pytest.mark.slow
@pytest.mark.parametrize("pressure, od, id, E, nu", _guides())
def test_the_closing_of_a_guides_bore_agrees_with_finite_elements(
    pressure: float, od: float, id: float, E: float, nu: float
) -> None:
    assert bore_closes(pressure, od, id, E) == pytest.approx(
        closes_by_finite_elements(pressure, od, id, E, nu), rel=1e-3
    )
