"""The handbook as a page: every formula by section, out of its own docstring. `python -m seatwright.handbook.page`.

The numbers of the sections are those that cards, messages and `explain` cite: "handbook 5" is section 5.
"""

from __future__ import annotations

import inspect
import re
import sys
from collections.abc import Callable, Iterator
from typing import Any

from msgspec import Struct

from seatwright.handbook import (
    acceptance,
    agreement,
    assembly,
    assignment,
    bore_windows,
    bridge_stress,
    capability,
    cutting,
    fit_stress,
    fits,
    grouping,
    growth,
    guides,
    interference_table,
    materials,
    opening,
    outliers,
    pilots,
    pockets,
    recession,
    run_charts,
    seats,
    setting,
    short_stock,
    speeds,
    springs,
    straight_line,
    thermal,
    tolerance,
    uncertainty,
)
from seatwright.handbook.sources import SOURCES, numbered

__all__ = ["SECTIONS", "page"]

Formula = Callable[..., Any]

_INTRODUCTION = """\
# The handbook

Every formula that the program reckons with, in the order of the job. Lengths are in mm, forces in N, stresses in MPa,
temperatures in °C, diameters are diameters unless said, and angles count from the plane square to the stem. Units are
turned at the edges of the program only.

What misses an input is not computed. A table is never read beyond its ends: there is no figure then, and a notice.
Stresses and probabilities are estimates that stand in `explain` and plan.json. The engine maker's own figures come
first, everywhere.

This page is made from the program: `python -m seatwright.handbook.page`. Figures in brackets, such as [5](#sources),
are the numbers of the published sources at its end.
"""


class _Part(Struct, frozen=True):
    """One numbered section: its `title`, what it is about, its formulas and its built-in tables."""

    number: int
    title: str
    about: str
    formulas: tuple[Formula, ...]
    tables: tuple[Callable[[], Iterator[str]], ...] = ()


def _surface_speeds() -> Iterator[str]:
    yield "Built-in surface speeds. The shop's own come first.\n"
    yield "| head | tip | m/min | source |\n|---|---|---:|---|"
    for row in speeds.SURFACE_SPEEDS:
        yield f"| {row.head} | {row.tip} | {row.speed:.1f} | {_cited(row.source)} |"


def _interference() -> Iterator[str]:
    yield "Published fits, and the rows made of them, which count only where neither job nor shop says anything.\n"
    yield "| head | seat | insert od mm | interference mm | source |\n|---|---|---:|---:|---|"
    for fit in interference_table.PUBLISHED:
        yield f"| {fit.head} | {fit.seat} | {fit.od:.2f} | {fit.least:.3f} to {fit.most:.3f} | {_cited(fit.source)} |"
    yield "\n| head | insert od mm | interference mm |\n|---|---:|---:|"
    for row in interference_table.BUILT_IN:
        span = f"over {row.over:g} to {row.to:g}"
        yield f"| {row.head} | {span} | {row.least:.3f} to {row.most:.3f} |"


def _materials() -> Iterator[str]:
    yield "Built-in materials of heads, and alloys of inserts. A shop file replaces one by naming it.\n"
    yield "| material | what | figure | source |\n|---|---|---:|---|"
    for kind, table in (("head", materials.MATERIALS), ("insert", materials.ALLOYS)):
        for one in table.values():
            yield from _rows_of(f"{one.name} ({kind})", one)


def _rows_of(name: str, one: materials.PublishedMaterial) -> Iterator[str]:
    figures = [
        ("stiffness MPa", one.stiffness),
        ("Poisson's ratio", one.poisson),
        ("strength MPa", one.strength),
        ("yield MPa", one.yield_strength),
    ]
    rows = [(what, f"{each.value:g}", each.source) for what, each in figures if each is not None]
    rows += [(f"expansion to {line.to_C:g} °C, 1e-6/°C", f"{line.per_C * 1e6:.4g}", line.source)
             for line in one.expansion]  # fmt: skip
    if one.friction is not None:
        rows.append(("friction", f"{one.friction.least:g} to {one.friction.most:g}", one.friction.source))
    if one.cutting_force is not None:
        force = one.cutting_force
        rows.append(("cutting force kc1.1 MPa, exponent", f"{force.kc11:g}, {force.exponent:g}", force.source))
    for what, figure, source in rows:
        yield f"| {name} | {what} | {figure} | {_cited(source)} |"


SECTIONS: tuple[_Part, ...] = (
    _Part(0, "One temperature", "Everything read is brought to 20 °C; everything to be read is printed as the bench "
            "will show it.", (thermal.at20, thermal.at_bench, thermal.mean_expansion,
             straight_line.between_neighbours)),
    _Part(1, "Is the guide fit to bore from?", "The pilot stands in the guide, so the guide comes first. Of several "
            "readings the mean is its size, the largest its wear.", (pilots.stem_clearance, pilots.bell_mouth)),
    _Part(2, "Pilot", "How far the new bore can stand off the guide, and how square its floor comes.",
            (pilots.largest_entering, pilots.clearances, pilots.stations_within, pilots.dead_pilot_offset,
             pilots.dead_pilot_tilt_over, pilots.gripping_pilot_offset, pilots.gripping_pilot_tilt_over,
             pilots.spindle_offset, pilots.spindle_tilt_over, pilots.runout_of)),
    _Part(3, "What the new bore must clean up", "The old pocket, or the damage, must come away all round.",
            (pockets.offset_from_tir, pockets.clean_up_diameter, bore_windows.cut_off_below)),
    _Part(4, "Which insert", "The smallest that cleans up, leaves every bridge, covers the seat and stands on metal; "
            "out of a finite stock.",
            (bore_windows.serving_window, fits.least_od_for, fits.belongs_to, pockets.insert_seat_cover, pockets.ledge,
             pockets.chamfer_legs, pockets.chamfer_clears, assignment.assign, assignment.assign_sets,
             assignment.assign_sets_proved, short_stock.worth_keeping, short_stock.sizes_at_least,
             short_stock.whole_lots,
             interference_table.rows_for, interference_table.find_row, interference_table.band_of,
             interference_table.shared_by), (_interference,)),
    _Part(5, "Bore and depth", "What the fit allows, what metal is left, and in how many passes.",
            (fits.bore_window, fits.interference_from, bore_windows.up_to_step, bore_windows.shared_bores,
             pockets.depth_window, pockets.damage_stays, pockets.floor_left,
             pockets.bridge_left, pockets.rim_left, pockets.passes, pockets.shared_passes)),
    _Part(6, "Setting the cutter", "From the size wanted to the reading of the gauge, the depth stop, and what to do "
            "when a bore came out small.",
            (setting.gauge_error, setting.reading, setting.bore_from_reading, setting.overcut_from_trial,
             setting.trial_is_round, setting.round_to_step, setting.round_inwards, setting.whole_steps, setting.at_step,
             setting.zero_error_of_corner, setting.dial_on_parallel, setting.stop_from_parallel,
             opening.opening, opening.reopened_reading, opening.reopened_size)),
    _Part(7, "Fewest settings", "One setting serves every valve whose window holds it.", (grouping.fewest_points,)),
    _Part(8, "Speed, time, torque", "The slower of what the table, the shop and the machine allow.",
            (cutting.spindle_speed, cutting.spindle_speed_inch, cutting.surface_speed, cutting.machine_step,
             cutting.machine_range, cutting.turns, cutting.boring_minutes, cutting.specific_force,
             cutting.cutting_torque, cutting.wall_and_floor_torque, speeds.built_in_speed), (_surface_speeds,)),
    _Part(9, "The fit", "Cold, running and soaked: thick rings in plane stress, and the bridge between two inserts. "
            f"At the open face of a short insert the hoop stress in the head counts {fit_stress.OPEN_FACE:g} times.",
            (fit_stress.contact_pressure, fit_stress.hoop_head_at_bore, fit_stress.hoop_insert_at_bore,
             bridge_stress.bridge_stress, fit_stress.interference_that_holds, fit_stress.friction_of_both,
             fit_stress.push_out_force, fit_stress.press_in_force, fit_stress.hot_interference,
             fit_stress.gone_temperature, fit_stress.ring_limit_pressure, fit_stress.set_left), (_materials,)),
    _Part(10, "Heating and chilling", "How an insert goes in, and how long that lasts. At one atmosphere dry ice is "
            f"at {assembly.DRY_ICE:g} °C, boiling nitrogen at {assembly.NITROGEN:g} °C.",
            (assembly.assembly_clearance, assembly.kind, assembly.best_way, assembly.head_temperature_for,
             assembly.reheat_below, assembly.grab_temperature, growth.course_of, growth.first_temperature)),
    _Part(11, "How sure", "What is not known of a bore that is planned, and of one that was measured.",
            (uncertainty.combined, uncertainty.rectangular, uncertainty.digital_step, uncertainty.overcut_spread,
             uncertainty.master_difference, uncertainty.planning_budget, uncertainty.acceptance_budget,
             uncertainty.guarded, uncertainty.verdict, uncertainty.conformance_probability, uncertainty.propagate,
             acceptance.judge_readings, acceptance.reading_limits)),
    _Part(12, "The seat", "Where it touches, how deep it lies, what each cut moves, and what that does to stem and "
            "spring.",
            (seats.contact_outer, seats.contact_inner, seats.contact_height, seats.contact_width, seats.carrying_edge,
             seats.gauge_depth, seats.along_stem, seats.metal_under_seat, seats.top_cut_outer, seats.top_cut_room,
             seats.seat_cutter_deeper, seats.top_cutter_deeper, seats.throat_cutter_deeper, seats.sinking_of_stock,
             recession.recession_now, recession.limits_after_skim, recession.deeper_only, recession.stem_after,
             recession.stem_to_edge_after, recession.spring_after, recession.lash_after, recession.stem_window,
             recession.stem_to_edge_window, recession.spring_window, recession.aim_of_recession,
             recession.shims_for)),
    _Part(13, "After the cut", "What the readings of a bore say of its shape; its verdict is in section 11, the "
            "overcut that it implies in section 6.", (acceptance.out_of_round, acceptance.taper)),
    _Part(14, "Published tables that disagree with themselves", "A figure in two units, and three limits that belong "
            "together.", (agreement.exact, agreement.half_last_digit, agreement.agree, agreement.fit_consistent)),
    _Part(15, "Held against its like", "Whether a figure that was measured stands beside those of the other valves.",
            (outliers.median, outliers.limit, outliers.beyond)),
    _Part(16, "A guide that is renewed", "Which one grips, what its hole is cut to, and what its bore comes to. "
            "Heat, chill, force and grip are those of sections 9 and 10.",
            (guides.fits_as_found, guides.hole_to_cut, guides.reamer_for, guides.finished_bore, guides.bore_closes,
             guides.left_to_ream, guides.bought_bore)),
    _Part(17, "Springs", "What force a spring has where it stands, what a deeper seat costs, and what is left at "
            f"full lift. A rate holds between its two points and {springs.BEYOND:g} of their span beyond.",
            (springs.spring_rate, springs.rate_holds, springs.force_at_height, springs.force_lost,
             springs.room_at_lift, springs.room_over_seal)),
    _Part(18, "Over many bores",
          "What a cutter really bores over its setting, bore after bore; what the next bores will be; how well fits "
          "are held and instruments repeat.",
          (run_charts.singles_chart, run_charts.moving_ranges, run_charts.outside_limits, run_charts.on_one_side,
           run_charts.line_through, run_charts.is_drift, tolerance.two_sided_factor, tolerance.one_sided_factor,
           tolerance.normal_quantile, tolerance.chi_square_below, tolerance.chi_square_quantile,
           tolerance.student_below, tolerance.student_quantile, capability.next_spread, capability.steps_spread,
           capability.performance, capability.performance_bound, capability.repeatability_of,
           capability.repeats_worse)),
)  # fmt: skip
"""The sections by the numbers that are cited; what is in them stands in the order in which it is used."""


def page() -> str:
    """The whole page as Markdown."""
    return "\n".join(_page()) + "\n"


def _page() -> Iterator[str]:
    yield _INTRODUCTION
    for section in SECTIONS:
        yield f"- [{section.number} {section.title}](#{_anchor(f'{section.number} {section.title}')})"
    yield "- [Sources](#sources)\n"
    for section in SECTIONS:
        yield f"## {section.number} {section.title}\n\n{section.about}\n"
        for place, formula in enumerate(section.formulas, 1):
            yield from _entry(f"{section.number}.{place}", formula)
        for table in section.tables:
            yield from table()
            yield ""
    yield '## Sources\n\nA figure that was not seen in print when the tables were made says "from memory".\n'
    for number, source in enumerate(SOURCES, 1):
        yield f"{number}. {source.words}: {source.about}."


def _entry(number: str, formula: Formula) -> Iterator[str]:
    room = formula.__module__.rpartition(".")[2]
    names = ", ".join(inspect.signature(formula).parameters)
    yield f"### {number} {_plain(formula.__name__)}\n"
    text = inspect.getdoc(formula) or ""
    for block in re.split(r"\n\s*\n", text):
        yield from _block(block)
    yield f"`{room}.{formula.__name__}({names})`\n"


def _plain(name: str) -> str:
    return name.replace("_", " ")


def _block(block: str) -> Iterator[str]:
    lines = block.split("\n")
    if lines[0].startswith(">>>"):
        yield "```pycon\n" + block + "\n```\n"
    elif all(line.startswith("    ") for line in lines):
        yield "```text\n" + inspect.cleandoc(block) + "\n```\n"
    else:
        yield from _prose(lines)


_NAME = r"`[^`]+`(?:, `[^`]+`)*: "
_SPELLED = re.compile(r"(?P<name>[A-Za-z_][\w, ]*?) : (?P<rest>.+)")
_ERRORS = re.compile(r"(?:^|(?<=\s))Raises ([^.]*)\.(?:\s|$)")
_SOURCE = re.compile(r"(?:^|(?<=\s))Source: (.*)")


def _prose(lines: list[str]) -> Iterator[str]:
    """Paragraphs; what a name means, what comes back and what is refused as a list; the source in a line of its own."""
    items: list[tuple[str, str]] = [("", "")]
    for line in lines:
        spelled = _SPELLED.fullmatch(line)
        if spelled is not None:
            items.append((spelled["name"], spelled["rest"]))
        else:
            name, rest = items[-1]
            apart = "; " if re.match(_NAME, line) and rest and rest[-1] not in ";," else " "
            items[-1] = (name, f"{rest}{apart}{line.strip()}" if rest else line.strip())
    listed = [(name if name in ("Returns", "Errors") else f"`{name}`", rest) for name, rest in items[1:]]
    source = dict(listed).pop("`Source`", "")
    said, found, errors, named = _run_in(items[0][1])
    listed = [*named, *(pair for pair in listed if pair[0] != "`Source`"), *errors]
    if said:
        yield f"{said}\n"
    if listed:
        yield "\n".join(f"- {name}: {rest}" for name, rest in listed) + "\n"
    if source or found:
        yield f"Source: {_cited(source or found)}\n"


def _run_in(text: str) -> tuple[str, str, list[tuple[str, str]], list[tuple[str, str]]]:
    """What a paragraph says, its source, what it refuses, and the names that it begins with."""
    source = _SOURCE.search(text)
    if source is not None:
        text = text[: source.start()].strip()
    refuses = _ERRORS.search(text)
    if refuses is not None:
        text = (text[: refuses.start()] + text[refuses.end() :]).strip()
    named: list[tuple[str, str]] = []
    if re.match(_NAME, text):
        *pieces, last = re.split(rf"; (?={_NAME})", text)
        last, _, text = last.partition(". ")
        named = [(each[0], each[2].rstrip(".")) for each in (piece.partition(": ") for piece in (*pieces, last))]
    errors = [] if refuses is None else [("Errors", refuses[1].replace("no error", "none"))]
    return text, source[1] if source is not None else "", errors, named


def _cited(text: str) -> str:
    """A source as it is named, with the numbers of the published ones in it."""
    numbers = numbered(text)
    return text + (f" {', '.join(f'[{number}](#sources)' for number in numbers)}" if numbers else "")


def _anchor(title: str) -> str:
    return re.sub(r"[^\w\- ]", "", title.lower()).replace(" ", "-")


if __name__ == "__main__":
    sys.stdout.reconfigure(encoding="utf-8")  # type: ignore[union-attr]
    sys.stdout.write(page())
