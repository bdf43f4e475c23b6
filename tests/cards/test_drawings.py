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
    measured,
    outside,
    overlaps,
    read,
    scale_of,
    seated,
)
from tests.planning import jobs

from seatwright.cards.drawings import (
    NARROW,
    WIDE,
    bore_bar_drawing,
    clearance_drawing,
    head_drawing,
    indicator_drawing,
    pocket_drawing,
    seat_drawing,
)
from seatwright.cards.drawings.bar import bore_bar
from seatwright.cards.drawings.dimensions import apart
from seatwright.cards.drawings.hatching import hatching
from seatwright.cards.drawings.head import head_from_deck
from seatwright.cards.drawings.pocket import pocket_in_section
from seatwright.cards.drawings.seat import seat_in_section
from seatwright.cards.drawings.shapes import THICK, THIN, Circle, Drawing, Path
from seatwright.cards.paper import PAPERS
from seatwright.planning.plan import (
    Bridge,
)

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
    assert min(paper.room for paper in PAPERS.values() if paper.narrow) >= NARROW
    assert min(paper.room for paper in PAPERS.values() if not paper.narrow) >= WIDE
    for svg in all_drawings(seated()[0]) + all_drawings(iron_head()[0]):
        assert float(read(svg).get("viewBox", "").split()[2]) <= WIDE
        for text in read(svg).iter("text"):
            assert float(text.get("font-size", 0)) >= NINE_POINTS


def test_thick_lines_are_twice_the_thin_ones() -> None:
    assert pytest.approx(2.0) == THICK / THIN


def test_text_of_the_job_stays_text() -> None:
    plan, head = iron_head()
    first = plan.valves[0]
    assert first.insert is not None
    valve = replace(first, name=NASTY, insert=replace(first.insert, name=NASTY))
    place = replace(head.layout[0], valve=NASTY)
    head = replace(head, name=NASTY, layout=(place, *head.layout[1:]), holes=(jobs.hole(NASTY, 150, 30, 7),))
    plan = replace(plan, heads=(head,), valves=(valve, *plan.valves[1:]))
    shown = NASTY.replace("\x07", "\ufffd")
    for svg in (head_drawing(plan, head), pocket_drawing(plan, valve), bore_bar_drawing(plan, valve)):
        root = read(svg)
        assert not list(root.iter("b"))
        words = "".join(root.itertext())
        assert shown.split()[0] in words
        assert "onload" not in {name for each in root.iter() for name in each.attrib}


def test_the_same_plan_gives_the_same_bytes() -> None:
    assert all_drawings(seated()[0]) == all_drawings(seated()[0])


def test_each_drawing_says_its_figures_in_words() -> None:
    plan, valve = seated()
    said = "".join(read(pocket_drawing(plan, valve)).itertext())
    description = read(pocket_drawing(plan, valve)).findtext("desc") or ""
    for figure in ("46.506 to 46.530", "7.50 to 7.60", "9.30", "R0.40", "N46A"):
        assert figure in said
        assert figure in description


# --- the head -----------------------------------------------------------------------------------------------------


def test_without_a_layout_there_is_no_drawing_of_the_head() -> None:
    plan = plans.bench_plan()
    assert head_drawing(plan, plan.heads[0]) is None


def test_circles_and_their_distances_are_to_the_scale_that_is_said() -> None:
    plan, head = iron_head()
    drawing = head_from_deck(plan, head, WIDE)
    assert drawing is not None
    scale = scale_of(drawing)
    bores = [each for each in drawing.shapes if isinstance(each, Circle) and each.weight == THICK]
    assert len(bores) == 6, "one is on hold and one pocket is kept: no bore is to be cut there"
    first, second = bores[0], bores[1]
    assert plan.valves[0].bore is not None
    assert first.radius * 2 == pytest.approx(plan.valves[0].bore.bench_aim.value * scale)
    assert math.hypot(second.x - first.x, second.y - first.y) == pytest.approx(46.48 * scale)
    rims = [each for each in drawing.shapes if isinstance(each, Circle) and each.dashes]
    assert [rim.radius * 2 for rim in rims] == pytest.approx([104 * scale] * 4)


def test_each_valve_carries_its_bore_insert_and_setting_and_a_hold_is_crossed_out() -> None:
    plan, head = iron_head()
    words = lettering(head_drawing(plan, head))
    assert words.count("Ø46.518") == 4
    assert words.count("N46A") == 4
    assert "HOLD" in words
    assert "pocket kept" in words
    assert {"1", "2"} <= set(words)


def test_a_bridge_near_its_least_is_marked_with_what_is_left_and_the_rule_is_said() -> None:
    plan, head = iron_head()
    words = lettering(head_drawing(plan, head))
    assert "2.20" in words
    assert "1.5 times its least" in " ".join(words)
    figure = plans.figure
    wide = Bridge(("I1", "E1"), 1, figure(46.48), figure(3.01), figure(2.0))
    assert "bridge" not in " ".join(lettering(head_drawing(replace(plan, bridges=(wide,)), head)))


def test_what_has_no_known_diameter_gets_a_cross_and_no_circle() -> None:
    plan = plans.as_found_plan()
    head = replace(plan.heads[0], layout=(jobs.place("I1", 0, 0), jobs.place("E1", 48, 0)))
    drawing = head_from_deck(replace(plan, heads=(head,)), head, WIDE)
    assert drawing is not None
    assert not [each for each in drawing.shapes if isinstance(each, Circle)]
    assert "no diameter known" in " ".join(text.words for text in drawing.texts)


def test_a_head_laid_out_upwards_is_turned_and_says_so() -> None:
    plan = laid_out([(name, y, x) for name, x, y in in_line(8)], 44.0)
    drawing = head_from_deck(plan, plan.heads[0], WIDE)
    assert drawing is not None
    assert "y to the right" in " ".join(text.words for text in drawing.texts)


@pytest.mark.parametrize("width", (WIDE, NARROW))
@pytest.mark.parametrize("rows", (in_line, in_two_rows))
@pytest.mark.parametrize("count", (2, 4, 6, 8, 12, 16, 20, 24, 32))
def test_labels_of_two_to_thirty_two_valves_keep_apart_and_on_the_paper(count: int, rows: Any, width: float) -> None:
    plan = laid_out(rows(count), 34.0)
    drawing = head_from_deck(plan, plan.heads[0], width)
    assert drawing is not None
    assert overlaps(drawing) == []
    assert outside(drawing) == []


@settings(max_examples=60)
@given(
    st.lists(st.tuples(st.integers(0, 500), st.integers(0, 160)), min_size=2, max_size=32, unique=True),
    st.sampled_from((WIDE, NARROW)),
)
def test_labels_keep_apart_wherever_the_valves_lie(spots: list[tuple[int, int]], width: float) -> None:
    plan = laid_out([(f"E{n + 1}", float(x), float(y)) for n, (x, y) in enumerate(spots)], 30.0)
    drawing = head_from_deck(plan, plan.heads[0], width)
    assert drawing is not None
    assert overlaps(drawing) == []
    assert outside(drawing) == []


# --- the pocket ---------------------------------------------------------------------------------------------------


def test_the_pocket_is_to_the_scale_that_is_said() -> None:
    plan, valve = seated()
    drawing = pocket_in_section(plan, valve, WIDE)
    assert drawing is not None
    assert valve.bore is not None
    scale = scale_of(drawing)
    walls = [each for each in drawing.shapes if isinstance(each, Path) and each.weight == 0.9]
    wall = max(walls, key=lambda each: each.points[0])
    (x, top), (_, floor) = wall.points[0], wall.points[-1]
    assert 2 * (x - _axis(drawing)) == pytest.approx(valve.bore.bench_aim.value * scale)
    assert floor - top == pytest.approx(7.55 * scale)


def _axis(drawing: Drawing) -> float:
    chain = [each for each in drawing.shapes if isinstance(each, Path) and each.dashes.startswith("6")]
    return chain[0].points[0][0]


def test_a_figure_that_is_missing_is_left_out_of_the_pocket() -> None:
    plan, valve = seated()
    bare = replace(
        valve, floor_left=None, corner_radius=None, insert=None, at20=replace(valve.at20, throat=None, pocket=None)
    )
    words = " ".join(lettering(pocket_drawing(plan, bare)))
    for word in ("metal", "R0", "insert", "throat", "found", "stands"):
        assert word not in words
    assert pocket_drawing(plan, replace(valve, bore=None)) is None
    assert pocket_drawing(plan, replace(valve, depth=None)) is None


@pytest.mark.parametrize("face", ("deck", "rim", "floor"))
def test_the_face_that_depths_count_from_is_named(face: str) -> None:
    plan, valve = seated()
    assert valve.depth is not None
    words = lettering(pocket_drawing(plan, replace(valve, depth=replace(valve.depth, from_=face))))
    assert f"from the {'old floor' if face == 'floor' else face}" in words


@pytest.mark.parametrize(
    "least, most, words",
    (
        (0.0, 0.10, "0.00 to 0.10 below"),
        (-0.05, 0.10, "0.05 proud to 0.10 below"),
        (-0.10, -0.02, "0.02 to 0.10 proud"),
    ),
)
def test_an_insert_that_stands_proud_is_drawn_with_that_word(least: float, most: float, words: str) -> None:
    plan, valve = seated()
    said = replace(valve.valve.specification, stand=jobs.stand(least, most))
    drawn = replace(valve, valve=replace(valve.valve, specification=said))
    assert f"stands {words}" in " ".join(lettering(pocket_drawing(plan, drawn)))


def test_limits_in_an_inch_job_are_in_inches_rounded_inwards() -> None:
    plan = plans.bench_plan(units="inch", bore_gauge=replace(jobs.bore_gauge(step=0.0001 * 25.4), marked="inch"))
    words = lettering(pocket_drawing(plan, plan.valves[0]))
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
        for width in (WIDE, NARROW):
            drawing = pocket_in_section(plan, drawn, width)
            assert drawing is not None
            assert overlaps(drawing) == []
            assert outside(drawing) == []


# --- the indicator, the bar ---------------------------------------------------------------------------------------


def test_the_needle_moves_half_where_it_shows_radius_and_says_so() -> None:
    plan = plans.bench_plan()
    words = " ".join(lettering(indicator_drawing(plan, plan.settings[0])))
    assert "RADIUS" in words
    assert "0.050" in words
    assert "half of 0.100 mm on diameter" in words
    diameter = replace(plan.settings[0], indicator="diameter")
    words = " ".join(lettering(indicator_drawing(plan, diameter)))
    assert "DIAMETER" in words
    assert "0.100" in words
    assert "half" not in words


def test_without_an_indicator_or_a_setting_gauge_there_is_no_face() -> None:
    plan = plans.bench_plan()
    first = plan.settings[0]
    assert indicator_drawing(plan, replace(first, indicator=None)) is None
    assert indicator_drawing(plan, replace(first, reading=None, reading_unit=None, first=None)) is None


def test_the_bar_shows_what_was_measured_only_after_the_cut_and_to_scale() -> None:
    plan, valve = seated()
    assert "measured" not in " ".join(lettering(bore_bar_drawing(plan, valve)))
    cut = measured(valve, 46.510, 46.526)
    words = lettering(bore_bar_drawing(plan, cut))
    assert "46.510" in words
    assert "46.526" in words
    drawing = bore_bar(plan, cut, WIDE)
    assert drawing is not None
    bar = next(each for each in drawing.shapes if isinstance(each, Path) and each.closed and each.weight == THICK)
    left, right = bar.points[0][0], bar.points[1][0]
    tips = [each.points[0][0] for each in drawing.shapes if isinstance(each, Path) and each.fill == "black"]
    assert valve.bore is not None
    least, most = valve.bore.bench_least.value, valve.bore.bench_most.value
    per = (right - left) / (most - least)
    assert tips == pytest.approx([left + (value - least) * per for value in (46.510, 46.526)])


def test_a_bore_far_outside_stands_at_the_end_of_the_bar_and_on_the_paper() -> None:
    plan, valve = seated()
    for bores in ((46.0,), (47.9,), (46.0, 47.9)):
        drawing = bore_bar(plan, measured(valve, *bores), NARROW)
        assert drawing is not None
        assert overlaps(drawing) == []
        assert outside(drawing) == []


# --- seat and clearance -------------------------------------------------------------------------------------------


def test_the_valve_lies_on_its_seat_as_far_below_the_deck_as_it_is_to() -> None:
    plan, valve = seated()
    drawing = seat_in_section(plan, valve, WIDE)
    assert drawing is not None
    scale = scale_of(drawing)
    thick = [each for each in drawing.shapes if isinstance(each, Path) and each.weight == THICK]
    profile, head = thick[0], thick[1]
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
    words = " ".join(lettering(seat_drawing(plan, no_valve)))
    assert "margin" not in words
    assert "recession" not in words
    words = " ".join(lettering(seat_drawing(plan, replace(valve, seat=replace(valve.seat, gauge_depth=None)))))
    assert "deck" not in words
    assert seat_drawing(plan, replace(valve, seat=None)) is None
    assert seat_drawing(plan, replace(valve, seat=replace(valve.seat, inner=None))) is None


def test_the_chosen_heat_and_chill_are_marked_with_their_clearance() -> None:
    plan, valve = seated()
    words = lettering(clearance_drawing(plan, valve))
    assert {"0.040", "22 °C", "160 °C", "dry ice", "no chill"} <= set(words)
    assert "grabs once it has come to about 10 °C" in " ".join(words).replace("\u00a0", " ")
    assert clearance_drawing(plan, replace(valve, assembly=None)) is None


# --- the means ----------------------------------------------------------------------------------------------------


@given(st.lists(st.tuples(st.floats(-50, 250), st.floats(1, 12)), min_size=1, max_size=16))
def test_things_in_a_row_neither_overlap_nor_leave_it_nor_change_order(things: list[tuple[float, float]]) -> None:
    wanted, sizes = [each[0] for each in things], [each[1] for each in things]
    wanted.sort()
    middles = apart(wanted, sizes, 0.0, 200.0)
    assert len(middles) == len(things)
    for (one, size), (other, next_size) in zip(
        zip(middles, sizes, strict=True), list(zip(middles, sizes, strict=True))[1:], strict=False
    ):
        assert other - one >= (size + next_size) / 2 - 1e-6
    assert middles[0] - sizes[0] / 2 >= -1e-6
    assert middles[-1] + sizes[-1] / 2 <= 200.0 + 1e-6


def test_a_thing_with_room_around_it_stays_where_it_is_wanted() -> None:
    assert apart([20.0, 60.0], [10.0, 10.0], 0.0, 100.0) == pytest.approx([20.0, 60.0])
    assert apart([50.0, 50.0], [10.0, 10.0], 0.0, 100.0) == pytest.approx([45.0, 55.0])


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
