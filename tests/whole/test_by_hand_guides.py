"""One new guide, one liner and one spring of the demo jobs, every figure reckoned here again by itself.

Only what was typed into the job and its shop file is taken over, and the materials' figures as their publishers print
them; the sums are written out, without a formula of the program.
"""

from __future__ import annotations

from functools import cache
from math import pi
from typing import Any

import pytest
from tests.whole.shop import JOBS

from seatwright import plan, plan_document, read

INCH = 25.4
# Grey iron, class 30, a machinist's reference book: 14.5e6 psi is taken as 100 GPa, Poisson's ratio .25; expansion of
# EN-GJL-250, mean from 20 °C: 10.0 to −100 °C, 11.7 to 200 °C, in millionths, in a straight line between.
IRON_E, IRON_NU = 100_000.0, 0.25
# Leaded phosphor bronze C54400, a copper association's data: 15e6 psi, .339, 17.3 millionths to 300 °C.
BRONZE_E, BRONZE_NU, BRONZE_GROWS = 103_400.0, 0.339, 17.3e-6
STEEL_GROWS = 11.5e-6  # of the gauge, jobs/bench.shop


def iron_grows(to: float) -> float:
    return (10.0 + (to + 100) / 300 * 1.7) * 1e-6


def rings(interference: float, od: float, id: float, E: float, nu: float) -> float:
    """Pressure between a ring and wide iron [MPa]."""
    wall = (od**2 + id**2) / (od**2 - id**2)
    return interference / od / ((1 + IRON_NU) / IRON_E + (wall - nu) / E)


@cache
def valve(job: str, name: str) -> dict[str, Any]:
    made, _ = read(job, lambda path: (JOBS / path).read_bytes())
    assert made is not None
    found: dict[str, Any] = plan_document(plan(made))["valves"][name]  # type: ignore[index]
    return found


def near(value: float) -> Any:
    return pytest.approx(value, abs=1.5e-6)


def test_the_new_guide_of_the_diesel() -> None:
    guide = valve("four-cylinder-diesel.seat", "E2")["guide"]
    assert (guide["action"], guide["name"], guide["reamer"]) == ("replace", "G14A", "R1420")
    # Read at 22 °C with a gauge of steel, brought to 20 °C.
    to_20 = (1 + STEEL_GROWS * 2) / (1 + iron_grows(22) * 2)
    assert guide["hole"]["found"] == near(14.034 * to_20)
    assert guide["hole"]["smallest"] == near(14.028 * to_20)
    # G14 at its least, 14.045, would grip by 0.011 at the widest place, and 0.027 is the least.
    assert 14.045 - 14.034 < 0.027
    # G14A is 14.245 to 14.256, its fit 0.027 to 0.059; the reamer cuts 14.204 + 0.005.
    assert (guide["hole"]["least"], guide["hole"]["most"]) == (near(14.256 - 0.059), near(14.245 - 0.027))
    assert guide["hole"]["least"] <= 14.209 <= guide["hole"]["most"]
    assert guide["fit"]["expected"] == near((14.245 + 14.256) / 2 - 14.209)
    # The middle of the fit closes its bore of 8.90.
    od, bore = (14.245 + 14.256) / 2, 8.90
    pressure = rings((0.027 + 0.059) / 2, od, bore, IRON_E, IRON_NU)
    closes = 2 * pressure * od**2 * bore / (IRON_E * (od**2 - bore**2))
    assert guide["closes"] == near(closes)
    assert closes == pytest.approx(0.02686, abs=5e-6)
    # Sized to the stem of 8.955 and its 0.045 to 0.075, which leaves 0.127 to ream.
    assert (guide["bore"]["least"], guide["bore"]["most"]) == (near(9.000), near(9.030))
    assert guide["bore"]["reamer"] == "R901"
    assert 9.000 - (bore - closes) == pytest.approx(0.127, abs=5e-4)
    assert guide["stand"] == {"least": 13.3, "most": 13.9}
    # Pushed with the least fit and a friction of .10, over 62 less the 13.9 that stand out.
    holds = 0.10 * rings(0.027, od, bore, IRON_E, IRON_NU) * pi * od * (62 - 13.9)
    assert guide["push_out"] == pytest.approx(holds, rel=1e-6)
    # In, reamed, and measured: 9.016 at its widest to the stem of 8.955.
    assert guide["clearance"] == near(9.016 - 8.955)
    assert guide["verdict"] == "fit"


def test_the_liner_of_the_head_in_inches() -> None:
    guide = valve("lined-guides.seat", "E1")["guide"]
    assert (guide["action"], guide["name"], guide["reamer"]) == ("line", "LN5", "R3425")
    assert "closes" not in guide
    # The old guide's bore, .3149 to .3171, read at 72 °F with a gauge of 6.4 millionths a degree Fahrenheit.
    above = (72 - 32) / 1.8 - 20
    to_20 = (1 + 6.4e-6 * 1.8 * above) / (1 + iron_grows(20 + above) * above)
    assert guide["hole"]["found"] == near(0.3171 * INCH * to_20)
    assert guide["hole"]["smallest"] == near(0.3149 * INCH * to_20)
    # Reamed for .3434 to .3440 with .0005 to .0016 to grip; the reamer cuts .3425 + .0002.
    assert (guide["hole"]["least"], guide["hole"]["most"]) == (near(0.3424 * INCH), near(0.3429 * INCH))
    assert guide["fit"]["expected"] == near((0.3437 - 0.3427) * INCH)
    assert (guide["bore"]["least"], guide["bore"]["most"]) == (near(0.3115 * INCH), near(0.3130 * INCH))
    # Pressed in cold, at 72 °F: all of the fit, with a friction of .16 over its 1.75 in.
    way = guide["assembly"]
    assert (way["kind"], way["head_C"]) == ("press", near(20 + above))
    hole = 0.3424 * INCH * (1 + iron_grows(20 + above) * above)
    clearance = hole - 0.3440 * INCH * (1 + BRONZE_GROWS * above)
    assert way["clearance"] == near(clearance)
    assert clearance == pytest.approx(-0.0408, abs=5e-5)
    od = 0.3437 * INCH
    force = 0.16 * rings(-clearance, od, 0.3050 * INCH, BRONZE_E, BRONZE_NU) * pi * od * 1.75 * INCH
    assert way["press_N"] == pytest.approx(force, rel=1e-6)
    assert force / 4.4482216 == pytest.approx(2270, rel=0.01)


def test_the_spring_of_the_diesel() -> None:
    seat, spring = (valve("four-cylinder-diesel.seat", "E2")[part] for part in ("seat", "spring"))
    # 296 N at 38.9 and 790 N at 29.4.
    rate = (790 - 296) / (38.9 - 29.4)
    assert spring["rate"] == near(rate)
    assert rate == pytest.approx(52.0)
    # Found 0.10 proud, cut to 0.80 proud: the valve comes up by 0.70, the spring stands 0.70 shorter and gains force.
    rise = 0.80 - 0.10
    assert seat["sink"] == near(-rise)
    assert spring["height"] == near(39.70 - rise)
    assert spring["loss"] == near(-rate * rise)
    # 279 N were read at 38.9; 0.1 longer costs 5.2 N.
    assert spring["force_shut"] == near(279 - rate * 0.1)
    assert spring["force_open"] == near(279 + rate * (38.9 - (39.00 - 9.5)))
    assert spring["least"] == 258
    assert spring["bind_room"] == near(39.00 - 9.5 - 27.0)
    assert spring["retainer_room"] == near(11.9 - rise - 9.5)
    assert spring["verdicts"] == {"force": "pass", "shut": "pass", "bind_room": "pass", "retainer_room": "pass"}


@pytest.mark.parametrize("lined", [False, True])
def test_a_liner_leaves_the_seal_where_it_is(lined: bool) -> None:
    text = (JOBS / "lined-guides.seat").read_text()
    if lined:
        text += "\nreplaced 2026-11-25\n  valve  part\n  E1     guide\n\nmeasured 2026-11-25 at 72 F\n"
        text += "  valve  guide-top  guide-middle  guide-bottom\n  E1     .3120      .3121         .3122\n"
    files = {"a.seat": text.encode()}
    made, _ = read("a.seat", lambda path: files.get(path) or (JOBS / path).read_bytes())
    assert made is not None
    spring = plan_document(plan(made))["valves"]["E1"]["spring"]  # type: ignore[index]
    # .462 in over the seal; the valve comes up by .0085 in, from .041 to .0325, the middle of .020 to .045.
    assert spring["retainer_room"] == near((0.462 - 0.0085 - 0.360) * INCH)
