"""plan.json: fixed names, six decimals, nothing null."""

import json
import types
import typing
from enum import Enum

import pytest
from msgspec import Struct
from msgspec.structs import replace
from tests.planning import jobs
from tests.planning.bores import figure
from tests.planning.plan_json_names import PLAN, missing

from seatwright.job.model import Note, Skim
from seatwright.planning import plan as shapes
from seatwright.planning.plan.figure import Figure, assumed
from seatwright.text import Message, Related, Severity, Source
from seatwright.told.plan_json import CardEntry, as_plain, plan_document, rounded


def filled(kind):
    """A part of the plan with every field filled, by its declared kind."""
    if kind is Figure:
        return figure(1.25)
    if isinstance(kind, types.UnionType):
        return filled(next(each for each in typing.get_args(kind) if each is not type(None)))
    if typing.get_origin(kind) is tuple:
        inner = typing.get_args(kind)
        return (filled(inner[0]),) if inner[-1] is Ellipsis else tuple(filled(each) for each in inner)
    if issubclass(kind, Enum):
        return next(iter(kind))
    if issubclass(kind, Struct):
        hints = typing.get_type_hints(kind)
        return kind(**{field: () if hints[field] == tuple[kind, ...] else filled(hints[field])
                       for field in kind.__struct_fields__})  # fmt: skip
    return {str: "word", int: 3, bool: True, float: 1.5}[kind]


def full_plan():
    cells = {column: 1.0 for column in jobs._COLUMNS if column != "insert"}
    pocket = replace(jobs.reading(44.02), at=jobs.degrees(24.0), earlier=(jobs.reading(44.00, date="2026-11-16"),))
    valve = jobs.valve("E1", bare=True, found={**cells, "pocket_a": pocket, "insert": jobs.named("X44")})
    head = jobs.head(
        [valve], fuel="diesel", depth_from="rim", least_bridge=2.0, least_floor=4.0, crack_test="none",
        pressure_test="none", hot_head=190.0, hot_insert=320.0, heat_limit=180.0,
        skim=Skim(jobs.given(0.2), "still-to-come", jobs.span()), notes=(Note("mind the plug", jobs.span()),),
    )  # fmt: skip
    job = jobs.job(
        head, shop=jobs.shop(), customer=jobs.named("a customer"), machinist=jobs.named("M"),
        received=jobs.named("2026-11-16"), due=jobs.named("2026-11-30"), notes=(Note("a note", jobs.span()),),
    )  # fmt: skip
    job = replace(job, sources=(Source("a.seat", "", "0" * 64),))
    parts = {
        field: filled(typing.get_type_hints(shapes.ValvePlan)[field])
        for field in shapes.ValvePlan.__struct_fields__
        if field not in ("valve", "found")
    }
    plan = shapes.ValvePlan(**{**parts, "name": "E1", "head": 1, "valve": valve, "found": valve.measured})
    message = Message(Severity.WARNING, "bridge-thin", jobs.span(), "thin", "leave it", (Related(jobs.span(), "here"),))
    return shapes.Plan(
        job=job,
        heads=(head,),
        valves=(plan,),
        settings=(filled(shapes.Setting),),
        trials=(filled(shapes.TrialPlan),),
        fewest_settings_proof=("E1",),
        bridges=(filled(shapes.Bridge),),
        fetch=filled(shapes.Fetch),
        cautions=(filled(shapes.Caution),),
        not_checked=("guard",),
        messages=(message,),
    )


def document(plan=None):
    card = CardEntry(1, 1, "job", None, ("E1",), "0123abcd")
    return plan_document(plan or full_plan(), cards=(replace(card, head=1),), stamp="0123abcd", commit="f" * 40)


def test_every_name_of_the_design_is_there():
    assert list(missing(PLAN, document())) == []


def test_it_is_json_without_a_null():
    text = json.dumps(document(), allow_nan=False)
    assert "null" not in text


def test_what_was_not_computed_is_left_out_and_an_empty_list_stays():
    plan = full_plan()
    bare = shapes.ValvePlan(
        name="E1", head=1, kind="exhaust", status="to-bore", valve=plan.valves[0].valve, found=jobs.measured(),
        at20=shapes.At20(), guide=shapes.GuidePlan("not-checked"),
    )  # fmt: skip
    valve = document(replace(plan, valves=(bare,), settings=()))["valves"]["E1"]
    assert "bore" not in valve
    assert valve["holds"] == []
    assert valve["passes"] == []
    assert valve["at20"] == {}
    assert document(replace(plan, settings=()))["settings"] == []


def test_a_value_has_six_decimals_and_no_negative_nothing():
    assert as_plain(assumed("x", "mm", 1 / 3, "test")) == 0.333333
    assert str(rounded(-1e-9)) == "0.0"
    assert rounded(44.016) == 44.016


def test_found_is_what_the_bench_read_with_its_temperature_and_what_it_held_before():
    found = document()["valves"]["E1"]["found"]
    assert found["pocket_a"] == 44.02
    assert found["temperature_C"] == 24.0
    assert found["earlier"] == [{"date": "2026-11-16", "pocket_a": 44.0}]


def test_without_a_tables_own_the_heads_temperature_is_meant():
    plan = full_plan()
    valve = replace(plan.valves[0], found=jobs.measured(pocket_a=44.0))
    assert document(replace(plan, valves=(valve,)))["valves"]["E1"]["found"]["temperature_C"] == 20.0


def test_the_pilots_of_a_setting_are_named_by_their_valve():
    assert document()["settings"][0]["pilot"] == {"word": "word"}


def test_the_cards_of_a_caution_and_of_a_message_come_from_the_cards():
    made = plan_document(full_plan(), caution_cards={"word": (1, 3)}, message_cards=lambda message: (2,))
    assert made["caution_places"]["word"]["cards"] == [1, 3]
    assert made["messages"][0]["cards"] == [2]


@pytest.mark.parametrize(("units", "paper"), [("mm", "a4"), ("inch", "letter")])
def test_paper_left_out_follows_the_unit(units, paper):
    plan = full_plan()
    assert document(replace(plan, job=replace(plan.job, units=units)))["job"]["paper"] == paper


def test_the_same_plan_is_written_the_same():
    plan = full_plan()
    assert json.dumps(document(plan)) == json.dumps(document(plan))
