"""Hatching: thin parallel lines across what the section cuts, and the scales that a drawing may be made to."""

from __future__ import annotations

import math
from collections.abc import Sequence

from seatwright.cards.drawings.shapes import Path, Point

SCALES = (10.0, 5.0, 2.0, 1.0, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50)
"""The scales that ISO 5455 recommends, as far as a head needs them."""


def scale_that_fits(largest: float) -> float:
    """The largest scale of the row that is no larger; the smallest below the row."""
    return next((scale for scale in SCALES if scale <= largest + 1e-9), SCALES[-1])


def scale_said(scale: float) -> str:
    """`2 : 1`, `1 : 5`."""
    return f"{scale:.4g} : 1" if scale >= 1 else f"1 : {1 / scale:.4g}"


def hatching(outline: Sequence[Point], angle: float, spacing: float) -> list[Path]:
    """Lines at an angle [degrees] and a spacing [mm] that fill a closed outline."""
    turn = math.radians(angle)
    cos, sin = math.cos(turn), math.sin(turn)
    turned = [(x * cos + y * sin, y * cos - x * sin) for x, y in outline]
    low, high = min(v for _, v in turned), max(v for _, v in turned)
    found: list[Path] = []
    # Lines lie on a grid of the paper, so that two areas of one part match.
    row = math.ceil(low / spacing)
    while row * spacing < high:
        crossings = _crossings(turned, row * spacing)
        for start, end in zip(crossings[::2], crossings[1::2], strict=False):
            if end - start > 0.05:
                v = row * spacing
                ends = tuple((u * cos - v * sin, u * sin + v * cos) for u in (start, end))
                found.append(Path(ends))
        row += 1
    return found


def _crossings(outline: Sequence[Point], level: float) -> list[float]:
    found = []
    for (x1, y1), (x2, y2) in zip(outline, [*outline[1:], outline[0]], strict=True):
        if (y1 <= level) != (y2 <= level):
            found.append(x1 + (level - y1) / (y2 - y1) * (x2 - x1))
    return sorted(found)
