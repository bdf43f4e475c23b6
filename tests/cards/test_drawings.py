"""The drawings: to scale, lettered so that nothing covers anything, and with no figure that the plan does not hold.

What is checked against the outside: lengths measured on the SVG against the figures by plain proportion; the area that
hatching covers against the surveyor's (shoelace) formula; line widths in the ratio 1 : 2 of ISO 128-2 and arrows at the
ends of dimension lines as in ISO 129-1 (both from memory);
9 points as 3.175 mm (a point is 1/72 inch). The real boxes of
the lettering are measured in test_drawings_in_chromium.py.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.cards import plans
from tests.cards.drawn import (
    all_drawings,
    in_line,
    in_two_rows,
    iron_head,
    laid_out,
    lettering,
    outside,
    overlaps,
    read,
    scale_of,
    seated,
)
from tests.planning import jobs

from seatwright.cards.drawings.hatching import SCALES, hatching
from seatwright.cards.drawings.head import head_from_deck
from seatwright.cards.drawings.pocket import pocket_in_section
from seatwright.cards.drawings.seat import seat_in_section
from seatwright.cards.drawings.shapes import CHAIN, PHANTOM, THICK, THIN, Circle, Path
from seatwright.cards.paper import PAPERS
from seatwright.planning.plan import Bridge

NASTY = '<b onload="x">&amp; *N46* \x07 "</text>'
NINE_POINTS = 9 * 25.4 / 72  # mm


# --- what every drawing keeps to ----------------------------------------------------------------------------------


def test_every_drawing_is_black_on_white_without_ids_styles_scripts_or_anything_loaded() -> None:
    plan, _ = seated()
    laid, _ = iron_head()
    for svg in all_drawings(plan) + all_drawings(laid):
        root = read(svg)
        assert root.get("role") == "img"
        assert [child.tag for child in root[:2]] == ["title", "desc"]
        assert {each.tag for each in root.iter()} <= {"svg", "title", "desc", "path", "circle", "text"}
        for each in root.iter():
            assert not {"id", "style", "class", "href"} & set(each.attrib)
            for paint in ("fill", "stroke"):
                assert each.get(paint, "none") in ("none", "#000", "#fff")
        assert "url(" not in svg
        assert "http" not in svg


def test_lettering_is_at_least_nine_points_and_no_paper_shrinks_a_drawing() -> None:
    narrowest = min(paper.room for paper in PAPERS.values()) + 6.4
    for svg in all_drawings(seated()[0]) + all_drawings(iron_head()[0]):
        assert float(read(svg).get("viewBox", "").split()[2]) <= narrowest
        assert read(svg).get("width") == f"{read(svg).get('viewBox', '').split()[2]}mm"
        for text in read(svg).iter("text"):
            assert float(text.get("font-size", 0)) >= NINE_POINTS


def test_every_drawing_has_a_bar_of_ten_millimetres_to_check_the_printer_by() -> None:
    for svg in all_drawings(seated()[0]) + all_drawings(iron_head()[0]):
        assert "10 mm" in [text.text for text in read(svg).iter("text")]
        bars = [path.get("d", "") for path in read(svg).iter("path") if path.get("stroke-width") == "0.35"]
        (start, end), *_ = [
            d.removeprefix("M").split("L") for d in bars if d.split()[-1] == d.split("L")[0].split()[-1]
        ]
        assert float(end.split()[0]) - float(start.split()[0]) == pytest.approx(10.0, abs=0.011)


def test_thick_lines_are_twice_the_thin_ones() -> None:
    assert pytest.approx(2.0) == THICK / THIN


def test_text_of_the_job_stays_text() -> None:
    plan, head = iron_head()
    first = plan.valves[0]
    assert first.insert is not None
    valve = replace(first, insert=replace(first.insert, name=NASTY))
    assert head_from_deck(replace(plan, valves=(valve, *plan.valves[1:])), head) is not None
    place = head.layout[0]
    head = replace(head, name=NASTY, layout=(place, *head.layout[1:]), holes=(jobs.hole(NASTY, 150, 30, 7),))
    plan = replace(plan, heads=(head,), valves=(valve, *plan.valves[1:]))
    shown = NASTY.replace("\x07", "\ufffd")
    for drawn in (head_from_deck(plan, head), pocket_in_section(plan, valve)):
        root = read(drawn)
        assert not list(root.iter("b"))
        words = "".join(root.itertext())
        assert shown.split()[0] in words
        assert "onload" not in {name for each in root.iter() for name in each.attrib}


def test_the_same_plan_gives_the_same_bytes() -> None:
    assert all_drawings(seated()[0]) == all_drawings(seated()[0])


def test_each_drawing_says_its_figures_in_words() -> None:
    plan, valve = seated()
    said = "".join(lettering(pocket_in_section(plan, valve)))
    description = read(pocket_in_section(plan, valve)).findtext("desc") or ""
    for figure in ("46.506 to 46.530", "7.50", "7.60", "9.30", "R0.40", "N46A"):
        assert figure in said
        assert figure in description


# --- the head -----------------------------------------------------------------------------------------------------


def test_without_a_layout_there_is_no_drawing_of_the_head() -> None:
    plan = plans.bench_plan()
    assert head_from_deck(plan, plan.heads[0]) is None


def test_circles_and_their_distances_are_to_the_scale_that_is_said() -> None:
    plan, head = iron_head()
    drawing = head_from_deck(plan, head)
    assert drawing is not None
    scale = scale_of(drawing)
    bores = [each for each in drawing.shapes if isinstance(each, Circle) and each.weight == 2 * THICK]
    assert len(bores) == 6, "one is on hold and one pocket is kept: no bore is to be cut there"
    first, second = bores[0], bores[1]
    assert plan.valves[0].bore is not None
    assert first.radius * 2 == pytest.approx(plan.valves[0].bore.bench_aim.value * scale)
    assert math.hypot(second.x - first.x, second.y - first.y) == pytest.approx(46.48 * scale)
    rims = [each for each in drawing.shapes if isinstance(each, Circle) and each.dashes]
    assert [rim.radius * 2 for rim in rims] == pytest.approx([104 * scale] * 4)


def test_each_valve_carries_its_bore_insert_and_setting_or_where_it_stands() -> None:
    plan, head = iron_head()
    words = lettering(head_from_deck(plan, head))
    assert words.count("Ø46.518") == 4
    assert words.count("N46A") >= 4
    assert "HOLD" in words
    assert "kept" in words
    assert {"C2 at 41.014", *(valve.name for valve in plan.valves)} <= set(words)


def test_a_bridge_near_its_least_is_marked_with_what_is_left_and_the_rule_is_said() -> None:
    plan, head = iron_head()
    words = lettering(head_from_deck(plan, head))
    assert "1.5 times its least" in " ".join(words)
    assert "I1 to E1 2.20" in " ".join(words)
    figure = plans.figure
    wide = Bridge(("I1", "E1"), 1, figure(46.48), figure(3.01), figure(2.0))
    assert "bridge" not in " ".join(lettering(head_from_deck(replace(plan, bridges=(wide,)), head)))


def test_what_has_no_known_diameter_gets_a_cross_and_no_circle() -> None:
    plan = plans.as_found_plan()
    head = replace(plan.heads[0], layout=(jobs.place("I1", 0, 0), jobs.place("E1", 48, 0)))
    drawing = head_from_deck(replace(plan, heads=(head,)), head)
    assert drawing is not None
    assert not [each for each in drawing.shapes if isinstance(each, Circle)]
    assert "no diameter known" in drawing.caption


@pytest.mark.parametrize("rows", (in_line, in_two_rows))
@pytest.mark.parametrize("count", (2, 4, 6, 8, 12, 16))
def test_names_of_two_to_sixteen_valves_keep_apart_and_on_the_paper(count: int, rows: Any) -> None:
    plan = laid_out(rows(count), 34.0)
    drawing = head_from_deck(plan, plan.heads[0])
    assert drawing is not None
    assert overlaps(drawing) == []
    assert outside(drawing) == []
    assert {valve.name for valve in plan.valves} <= {text.words for text in drawing.texts}
    assert scale_of(drawing) in [pytest.approx(scale) for scale in SCALES]


@settings(max_examples=60)
@given(st.lists(st.tuples(st.integers(0, 500), st.integers(0, 160)), min_size=2, max_size=32, unique=True))
def test_names_keep_apart_wherever_the_valves_lie_or_nothing_is_drawn(spots: list[tuple[int, int]]) -> None:
    plan = laid_out([(f"E{n + 1}", float(x), float(y)) for n, (x, y) in enumerate(spots)], 30.0)
    drawing = head_from_deck(plan, plan.heads[0])
    if drawing is not None:
        assert overlaps(drawing) == []
        assert outside(drawing) == []


# --- the pocket ---------------------------------------------------------------------------------------------------


def test_the_pocket_is_to_the_scale_that_is_said() -> None:
    plan, valve = seated()
    drawing = pocket_in_section(plan, valve)
    assert drawing is not None
    assert valve.bore is not None
    scale = scale_of(drawing)
    wall = next(each for each in drawing.shapes if isinstance(each, Path) and each.weight == 0.7)
    (x, top), (_, floor) = wall.points[0], wall.points[-1]
    axis = next(each for each in drawing.shapes if isinstance(each, Path) and each.dashes == CHAIN).points[0][0]
    assert 2 * (x - axis) == pytest.approx(valve.bore.bench_aim.value * scale)
    assert floor - top == pytest.approx(7.55 * scale)
    assert any(isinstance(each, Path) and each.dashes == PHANTOM for each in drawing.shapes), (
        "the insert is a neighbour"
    )


def test_a_figure_that_is_missing_is_left_out_of_the_pocket() -> None:
    plan, valve = seated()
    at20 = replace(valve.at20, throat=None, pocket=None)
    bare = replace(valve, floor_left=None, corner_radius=None, insert=None, at20=at20)
    words = " ".join(lettering(pocket_in_section(plan, bare)))
    for word in ("metal", "R0", "N46A", "throat", "found"):
        assert word not in words
    assert pocket_in_section(plan, replace(valve, bore=None)) is None
    assert pocket_in_section(plan, replace(valve, depth=None)) is None


def test_limits_in_an_inch_job_are_in_inches_rounded_inwards() -> None:
    plan = plans.bench_plan(units="inch", bore_gauge=replace(jobs.bore_gauge(step=0.0001 * 25.4), marked="inch"))
    words = lettering(pocket_in_section(plan, plan.valves[0]))
    # 46.50543 / 25.4 = 1.830922 up; 46.53043 / 25.4 = 1.831907 down.
    assert "Ø1.8310 to 1.8319" in words


def test_long_names_and_deep_or_shallow_pockets_keep_their_lettering_apart_and_on_the_paper() -> None:
    plan, valve = seated()
    assert valve.insert is not None
    assert valve.depth is not None
    named = replace(valve, insert=replace(valve.insert, name="a ring turned in the shop from the bar of folder three"))
    for height, bore in ((3.0, 20.0), (7.5, 34.0), (14.0, 62.0)):
        figure = plans.figure
        depth = replace(valve.depth, aim=figure(height), least=figure(height - 0.05), most=figure(height + 0.05))
        sized = plans.valve_plan("I1", bore, depth=height)
        drawn = replace(named, depth=depth, bore=sized.bore, at20=sized.at20)
        drawing = pocket_in_section(plan, drawn)
        assert drawing is not None
        assert overlaps(drawing) == []


# --- the seat -------------------------------------------------------------------------------------------


def test_the_valve_lies_on_its_seat_as_far_below_the_deck_as_it_is_to() -> None:
    plan, valve = seated()
    drawing = seat_in_section(plan, valve)
    assert drawing is not None
    scale = scale_of(drawing)
    profile = next(each for each in drawing.shapes if isinstance(each, Path) and each.weight == THICK)
    head = next(each for each in drawing.shapes if isinstance(each, Path) and each.dashes == PHANTOM)
    outer_edge, flat, edge = profile.points[1], head.points[1], head.points[2]
    assert (edge[1] - flat[1]) / scale == pytest.approx(1.6)  # the margin
    assert (edge[0] - outer_edge[0]) / scale == pytest.approx(0.8)  # the setback
    # Tangent of the face by plain proportion.
    assert (outer_edge[1] - edge[1]) / (edge[0] - outer_edge[0]) == pytest.approx(math.tan(math.radians(44.5)))
    thin = [each for each in drawing.shapes if isinstance(each, Path) and each.weight == THIN and not each.closed]
    deck = min(each.points[0][1] for each in thin if len(each.points) == 2 and each.points[0][1] == each.points[1][1])
    assert (flat[1] - deck) / scale == pytest.approx(0.9, abs=1e-6)


def test_a_seat_without_its_valve_or_its_depth_is_drawn_without_them() -> None:
    plan, valve = seated()
    assert valve.seat is not None
    no_valve = replace(valve, valve=replace(valve.valve, specification=replace(valve.valve.specification, margin=None)))
    words = " ".join(lettering(seat_in_section(plan, no_valve)))
    assert "margin" not in words
    assert "recession" not in words
    words = " ".join(lettering(seat_in_section(plan, replace(valve, seat=replace(valve.seat, gauge_depth=None)))))
    assert "deck" not in words
    assert seat_in_section(plan, replace(valve, seat=None)) is None
    assert seat_in_section(plan, replace(valve, seat=replace(valve.seat, inner=None))) is None


# --- the means ----------------------------------------------------------------------------------------------------


@settings(max_examples=40)
@given(
    st.lists(st.floats(5, 30), min_size=3, max_size=9),
    st.floats(-80, 80),
)
def test_hatching_covers_the_area_that_the_shoelace_formula_gives(radii: list[float], angle: float) -> None:
    outline = [
        (r * math.cos(2 * math.pi * n / len(radii)), r * math.sin(2 * math.pi * n / len(radii)))
        for n, r in enumerate(radii)
    ]
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(outline, [*outline[1:], outline[0]], strict=True)) / 2
    spacing = 0.05
    covered = sum(math.dist(*line.points) for line in hatching(outline, angle, spacing)) * spacing
    assert covered == pytest.approx(abs(area), rel=0.02)
