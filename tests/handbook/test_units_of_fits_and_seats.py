"""Every formula of these files, called with quantities, answers in the right dimension.

Temperatures and mean expansions stay plain figures: °C has no zero that a quantity could be scaled from.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pint
import pytest

from seatwright.handbook import agreement, assembly, fit_stress, guides, recession, seats, springs, uncertainty

UNITS: Any = pint.UnitRegistry(None)
UNITS.load_definitions(
    ["millimetre = [length] = mm", "newton = [force] = N", "megapascal = newton / millimetre ** 2 = MPa"]
)
Q = UNITS.Quantity
MM, N, MPA, ONE = UNITS.mm, UNITS.N, UNITS.MPa, UNITS.dimensionless


def mm(figure: float) -> Any:
    return Q(figure, MM)


def mpa(figure: float) -> Any:
    return Q(figure, MPA)


STEEL = [(400.0, 11e-6)]
ALUMINIUM = [(400.0, 22e-6)]
HALF: Any = Q(Fraction(1, 20), MM)

GAUGE = uncertainty.InstrumentErrors(mm(0.002), mm(0.001), mm(0.0005))

CASES: dict[Callable[..., Any], tuple[Callable[[], Any], Any]] = {
    fit_stress.contact_pressure: (
        lambda: fit_stress.contact_pressure(mm(0.08), mm(38.1), mm(30), mm(60), mpa(210e3), 0.28, mpa(71e3), 0.33),
        MPA,
    ),
    fit_stress.hoop_head_at_bore: (lambda: fit_stress.hoop_head_at_bore(mpa(37), mm(38.1), mm(60)), MPA),
    fit_stress.hoop_insert_at_bore: (lambda: fit_stress.hoop_insert_at_bore(mpa(37), mm(38.1), mm(30)), MPA),
    fit_stress.push_out_force: (lambda: fit_stress.push_out_force(0.1, mpa(37), mm(38.1), mm(8)), N),
    fit_stress.press_in_force: (lambda: fit_stress.press_in_force(0.1, mpa(37), mm(38.1), mm(8)), N),
    fit_stress.interference_that_holds: (
        lambda: fit_stress.interference_that_holds(mm(0.08), mm(0.01), mm(0.006)),
        MM,
    ),
    fit_stress.friction_of_both: (lambda: fit_stress.friction_of_both((0.1, 0.16), (0.08, 0.14)), ONE),
    fit_stress.hot_interference: (
        lambda: fit_stress.hot_interference(mm(0.08), mm(38.1), 11e-6, 180, 22e-6, 180),
        MM,
    ),
    fit_stress.gone_temperature: (lambda: fit_stress.gone_temperature(mm(0.08), mm(38.1), STEEL, ALUMINIUM), ONE),
    fit_stress.ring_limit_pressure: (lambda: fit_stress.ring_limit_pressure(mpa(410), mm(38.1), mm(30)), MPA),
    fit_stress.set_left: (lambda: fit_stress.set_left(mm(0.08), mm(0.2), mpa(110), mpa(87)), MM),
    assembly.assembly_clearance: (
        lambda: assembly.assembly_clearance(mm(38.02), mm(38.1), 22e-6, 140, 11e-6, -60),
        MM,
    ),
    assembly.kind: (lambda: assembly.kind(mm(0.04), mm(0.03)), str),
    assembly.grab_temperature: (lambda: assembly.grab_temperature(mm(38.13), mm(38.1), STEEL, 20.0), ONE),
    assembly.head_temperature_for: (
        lambda: assembly.head_temperature_for(mm(0.03), mm(38.02), mm(38.1), ALUMINIUM),
        ONE,
    ),
    assembly.reheat_below: (
        lambda: assembly.reheat_below("drop-in", mm(0.03), mm(38.02), mm(38.1), ALUMINIUM),
        ONE,
    ),
    uncertainty.planning_budget: (
        lambda: uncertainty.combined(uncertainty.planning_budget(GAUGE, mm(0.002), 2, GAUGE)),
        MM,
    ),
    uncertainty.acceptance_budget: (lambda: uncertainty.combined(uncertainty.acceptance_budget(GAUGE)), MM),
    uncertainty.combined: (lambda: uncertainty.combined([uncertainty.Contribution("gauge", mm(0.002), 2.0)]), MM),
    uncertainty.rectangular: (lambda: uncertainty.rectangular(mm(0.003)), MM),
    uncertainty.digital_step: (lambda: uncertainty.digital_step(mm(0.002)), MM),
    uncertainty.overcut_spread: (lambda: uncertainty.overcut_spread(mm(0.003), 2), MM),
    uncertainty.conformance_probability: (
        lambda: uncertainty.conformance_probability(mm(0.08), mm(0.005), mm(0.07), mm(0.09)),
        float,
    ),
    uncertainty.guarded: (lambda: uncertainty.guarded(mm(0.07), mm(0.09), 1.65, mm(0.002)), MM),
    uncertainty.verdict: (lambda: uncertainty.verdict(mm(44.02), mm(44.01), mm(44.03), 1.65, mm(0.002)), str),
    uncertainty.propagate: (
        lambda: uncertainty.propagate(lambda a, b: a - b, {"a": (mm(2), mm(0.1)), "b": (mm(1), mm(0.1))}).standard,
        MM,
    ),
    seats.contact_outer: (lambda: seats.contact_outer(mm(35), mm(0.8)), MM),
    seats.contact_inner: (lambda: seats.contact_inner(mm(33.4), mm(1.8), 45), MM),
    seats.contact_height: (lambda: seats.contact_height(mm(1.8), 45), MM),
    seats.contact_width: (lambda: seats.contact_width(mm(33.4), mm(30.9), 45), MM),
    seats.carrying_edge: (lambda: seats.carrying_edge(45, 45), str),
    seats.gauge_depth: (lambda: seats.gauge_depth(mm(0.7), mm(1.5), mm(0.8), mm(1.8), 44, 45).depth, MM),
    seats.along_stem: (lambda: seats.along_stem(mm(0.2), 20), MM),
    seats.metal_under_seat: (lambda: seats.metal_under_seat(mm(6.5), mm(0.1), mm(4.7), mm(1.4)), MM),
    seats.seat_cutter_deeper: (lambda: seats.seat_cutter_deeper(mm(0.1), 30, 45, 60), MM),
    seats.top_cutter_deeper: (lambda: seats.top_cutter_deeper(mm(0.1), 30, 45), MM),
    seats.throat_cutter_deeper: (lambda: seats.throat_cutter_deeper(mm(0.1), 45, 60), MM),
    seats.top_cut_outer: (lambda: seats.top_cut_outer(mm(33.4), mm(3.3), mm(0.1), 30), MM),
    seats.top_cut_room: (lambda: seats.top_cut_room(mm(44.3), mm(0.5), mm(43.0)), MM),
    seats.sinking_of_stock: (lambda: seats.sinking_of_stock(mm(0.1), 45), MM),
    recession.recession_now: (lambda: recession.recession_now(mm(0.9), mm(0.2)), MM),
    recession.stem_after: (lambda: recession.stem_after(mm(41.2), mm(0.9), mm(0.7)), MM),
    recession.spring_after: (lambda: recession.spring_after(mm(38), mm(0.9), mm(0.7)), MM),
    recession.lash_after: (lambda: recession.lash_after(mm(0.3), mm(0.9), mm(0.7)), MM),
    recession.limits_after_skim: (lambda: recession.limits_after_skim(mm(0.45), mm(0.9), mm(0.2)), MM),
    recession.stem_to_edge_after: (lambda: recession.stem_to_edge_after(mm(8), mm(0.9), mm(0.7)), MM),
    recession.stem_to_edge_window: (
        lambda: recession.stem_to_edge_window(mm(0.7), mm(8), mm(7), mm(9), mm(0.2)).most,
        MM,
    ),
    recession.deeper_only: (
        lambda: recession.deeper_only(recession.RecessionWindow("recession", mm(0.5), mm(0.9)), mm(0.7)).least,
        MM,
    ),
    recession.stem_window: (lambda: recession.stem_window(mm(0.7), mm(41), mm(40), mm(42), mm(0.2)).most, MM),
    recession.spring_window: (lambda: recession.spring_window(mm(0.7), mm(38), mm(37), mm(39), mm(0.2)).most, MM),
    guides.bore_closes: (lambda: guides.bore_closes(mpa(38), mm(11.03), mm(6.9), mpa(103e3)), MM),
    guides.left_to_ream: (lambda: guides.left_to_ream(mm(7), mm(6.9), mm(0.008)), MM),
    guides.bought_bore: (lambda: guides.bought_bore(mm(7), mm(7.015), mm(0.008)), MM),
    springs.spring_rate: (lambda: springs.spring_rate(Q(980, N), mm(35.55), Q(340, N), mm(45.75)), N / MM),
    springs.rate_holds: (lambda: springs.rate_holds(mm(48), mm(35.55), mm(45.75)), bool),
    springs.force_at_height: (lambda: springs.force_at_height(Q(340, N), mm(45.75), Q(62.7, N / MM), mm(40)), N),
    springs.force_lost: (lambda: springs.force_lost(Q(62.7, N / MM), mm(0.4)), N),
    springs.room_at_lift: (lambda: springs.room_at_lift(mm(38.9), mm(9.5), mm(25)), MM),
    springs.room_over_seal: (lambda: springs.room_over_seal(mm(11.5), mm(0.3), mm(9.5)), MM),
    recession.shims_for: (lambda: recession.shims_for(mm(39), mm(37.7), mm(38.3), [mm(0.762)], mm(1.524)), MM),
    agreement.agree: (lambda: agreement.agree(2 * HALF, HALF, HALF, HALF), bool),
}

COMPARING = {
    *(assembly.best_way, recession.aim_of_recession, uncertainty.master_difference),
    *(guides.fits_as_found, guides.hole_to_cut, guides.reamer_for, guides.finished_bore),
}
"""These compare within a slack of their own in mm, or use sizes only to weigh them."""

WRITTEN_FIGURES = {agreement.exact, agreement.half_last_digit, agreement.fit_consistent}
"""These take figures as written, all in one unit: they reckon in exact decimals, which a quantity has not."""


@pytest.mark.parametrize("function", CASES, ids=lambda f: f.__name__)
def test_quantities_in_give_the_right_dimension_out(function: Callable[..., Any]) -> None:
    call, unit = CASES[function]
    answer = call()
    if isinstance(unit, type):
        assert isinstance(answer, unit)
        return
    for part in answer if isinstance(answer, tuple) else (answer,):
        assert part is not None
        assert Q(part).dimensionality == Q(1, unit).dimensionality


MODULES = (agreement, assembly, fit_stress, guides, recession, seats, springs, uncertainty)


def test_no_formula_of_these_files_is_left_out() -> None:
    public = {getattr(module, name) for module in MODULES for name in module.__all__}
    functions = {thing for thing in public if inspect.isfunction(thing)}
    assert functions == set(CASES) | WRITTEN_FIGURES | COMPARING
