"""Which cards a job has, what stands on them, and their stamps."""

from __future__ import annotations

import json
import re

import pytest
from msgspec.structs import replace
from tests.cards import plans
from tests.planning import jobs

from seatwright.cards.deck import cards
from seatwright.cards.paper import PAPERS
from seatwright.cards.render import Documents, documents
from seatwright.planning.plan import DepthStop, Plan

papers = pytest.mark.parametrize("paper", sorted(PAPERS))


@pytest.fixture(scope="module")
def plan() -> Plan:
    return plans.bench_plan()


@pytest.fixture(scope="module")
def made(plan: Plan) -> Documents:
    return documents(plan, paper="a4")


def stamps(built: Documents) -> dict[int, str]:
    return {card["number"]: card["stamp"] for card in json.loads(built.plan_json)["cards"]}


def visible_text(html: str) -> str:
    from html import unescape

    return unescape(re.sub(r"<style>.*?</style>|<[^>]+>", " ", html, flags=re.S))


def test_a_job_with_nothing_measured_prints_the_as_found_sheet_alone() -> None:
    assert [card.name for card in cards(plans.as_found_plan())] == ["as-found"]


def test_a_measured_job_has_its_cards_in_the_order_of_the_work(plan: Plan) -> None:
    listed = cards(plan)
    assert [card.name for card in listed] == ["job", "guides", "setting", "setting", "press", "record"]
    assert [(card.number, card.of) for card in listed] == [(n, 6) for n in range(1, 7)]


def test_a_head_that_waits_has_its_as_found_sheet_beside_the_cards_of_the_other(plan: Plan) -> None:
    waiting = jobs.head([jobs.valve("I5", bare=True)], number=2)
    both = replace(plan, heads=(*plan.heads, waiting))
    assert [card.name for card in cards(both)] == ["job", "as-found", "guides", "setting", "setting", "press", "record"]


@papers
def test_the_same_plan_gives_the_same_bytes(paper: str) -> None:
    assert documents(plans.as_found_plan(), paper=paper).html == documents(plans.as_found_plan(), paper=paper).html
    plan = plans.bench_plan()
    assert documents(plan, paper=paper) == documents(plan, paper=paper)


def test_the_html_loads_nothing_and_runs_nothing(made: Documents) -> None:
    assert not re.search(
        r"<script|<link|<img|<iframe|url\((?!data:font/woff2;base64,|\"data:image/svg)|@import|javascript:|\son\w+=",
        made.html,
        re.I,
    )
    assert set(re.findall(r'(?:src|href)="([^"]*)"', made.html)) == set()


def test_no_id_stands_twice(made: Documents) -> None:
    found = re.findall(r'\sid="([^"]*)"', made.html)
    assert len(found) == len(set(found))


def test_every_drawing_that_the_markdown_points_to_is_in_the_html(made: Documents) -> None:
    names = re.findall(r"\]\(cards\.html#(drawing-[A-Za-z0-9-]+)\)", made.markdown)
    assert len(names) >= 1
    assert all(f'<figure id="{name}">' in made.html for name in names)


def test_job_text_never_becomes_structure(made: Documents) -> None:
    assert "<after>" not in made.html
    assert made.html.count("iron head, *loose* seats &lt;after&gt; a boil-over | 3*4*5") >= 5
    assert "marked_by_cylinder" in made.html


def test_an_inch_gauge_has_its_card_in_inches(plan: Plan) -> None:
    gauge = replace(jobs.gauge(step=0.0001 * 25.4), marked="inch")
    settings = tuple(replace(each, reading_unit="in") for each in plan.settings)
    inch = replace(plan, job=replace(plan.job, gauge=gauge), settings=settings)
    assert "</strong></em> in, 40.914\u00a0mm" in documents(inch, paper="letter").html


def test_a_depth_stop_in_inches_reads_inches_on_its_dial(plan: Plan) -> None:
    stop = DepthStop(1, plans.figure(0.263 * 25.4), ("E1", "E3"), plans.figure(0.263), "in")
    job = replace(plan.job, machine=jobs.machine(dial="inch", dial_step=jobs.given(0.001 * 25.4)))
    inch = replace(plan, job=job, settings=(replace(plan.settings[0], depth_stops=(stop,)), plan.settings[1]))
    assert "Bore to the stop 0.263 in" in documents(inch).markdown


def test_a_valve_on_hold_says_so_and_has_no_figure_to_cut_by(plan: Plan, made: Documents) -> None:
    held = next(valve for valve in plan.valves if valve.status == "hold")
    assert held.bore is not None
    assert f"{held.bore.bench_least.value:.3f}" not in visible_text(made.html)
    assert "HOLD E2" in made.html
    assert "Replace or sleeve the guide" in made.html
    assert all(held.name not in card.valves for card in cards(plan) if card.name == "setting")


def test_every_caution_stands_on_the_job_sheet_and_the_last_defers_to_others(plan: Plan, made: Documents) -> None:
    text = visible_text(made.html)
    for caution in plan.cautions:
        assert caution.text in text
    sheet = made.markdown.split("\n---\n")[0].rstrip()
    assert sheet.endswith("Qualified people do the work.")


def test_a_caution_of_boring_stands_beside_the_bore_on_every_setting_card(plan: Plan, made: Documents) -> None:
    places = json.loads(made.plan_json)["caution_places"]
    for caution in plan.cautions:
        if "bore" in caution.steps and not caution.valves:
            assert places[caution.slug]["cards"] == [1, 3, 4]
    assert places["thin-bridge"]["cards"] == [1, 3, 4]
    assert places["local-rules-first"]["cards"] == [1]


def test_a_later_reading_makes_stale_only_the_cards_that_it_changes(plan: Plan) -> None:
    before, after = stamps(documents(plan)), stamps(documents(plans.one_reading_changed(plan)))
    assert {number for number in before if before[number] != after[number]} == {1, 4}


def test_a_card_more_or_another_paper_leaves_the_other_stamps_alone(plan: Plan) -> None:
    before = stamps(documents(plan))
    more = replace(plan, settings=(*plan.settings, replace(plan.settings[1], number=3)))
    after = stamps(documents(more))
    assert [after[number] for number in (2, 3, 4)] == [before[number] for number in (2, 3, 4)]
    assert stamps(documents(plan, paper="letter")) == before


def test_the_stamp_of_the_sources_follows_their_text_and_not_their_line_ends(plan: Plan) -> None:
    def with_text(text: str) -> str:
        source = replace(plan.job.sources[0], text=text)
        job = replace(plan.job, sources=(source, *plan.job.sources[1:]))
        return str(json.loads(documents(replace(plan, job=job)).plan_json)["stamp"])

    assert with_text("job 1\na\n") == with_text("job 1\r\na\r\n")
    assert with_text("job 1\na\n") != with_text("job 1\nb\n")


def test_a_shops_own_template_is_laid_over_the_built_in_one(plan: Plan) -> None:
    own = {"guides.md": "Hang this at the guide bench, {{ job.number }}.\n"}
    built = documents(plan, templates=own)
    assert "Hang this at the guide bench, 2214." in built.html
    assert json.loads(built.plan_json)["stamp"] != json.loads(documents(plan).plan_json)["stamp"]


def test_every_figure_that_a_setting_card_prints_is_in_plan_json_or_in_the_shops_practice(plan: Plan) -> None:
    built = documents(plan, paper="a4")
    known: list[float] = []

    def gather(part: object) -> None:
        if isinstance(part, dict):
            for each in part.values():
                gather(each)
        elif isinstance(part, list):
            for each in part:
                gather(each)
        elif isinstance(part, int | float):
            known.extend((float(part), part / 25.4))

    gather(json.loads(built.plan_json))
    practice = plan.job.shop.practice
    known += [each.value for each in (practice.bore_round, practice.bore_taper, practice.floor_square) if each]
    cards_ = [text for text in built.markdown.split("\n---\n") if text.lstrip().startswith(("# 3.", "# 4."))]
    assert len(cards_) == 2
    for printed in {number for text in cards_ for number in re.findall(r"(?<![\w.])\d+\.\d{2,4}(?![\w.])", text)}:
        # Rounded once to a step of at most two last digits, limits inwards by as much as a whole step.
        step = (2.0 if len(printed.partition(".")[2]) == 3 else 1.0) * 10 ** -len(printed.partition(".")[2])
        assert any(abs(float(printed) - value) <= step for value in known), printed
