"""A stage in the wrong place, and a status that is a text, are errors of types; a hold takes effect at once."""

import ast
import inspect
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import pytest
from msgspec.structs import replace
from tests.planning import jobs

from seatwright.job.model import Note
from seatwright.planning import planner
from seatwright.planning.plan import Found, Pocketed, Started, Status, ValvePlan, into
from seatwright.told.plan_json import plan_document

COMPILER = Path(planner.__file__).parents[1]
TOP = Path(__file__).parents[2]

CHECK = """
from seatwright.job.model import Head, Job
from seatwright.planning.basis.findings import Findings
from seatwright.planning.found.guides import guides
from seatwright.planning.after.cut import cut
from seatwright.planning.plan import Found, Guided, Piloted, Pocketed, Started

def deep(job: Job, head: Head, plans: tuple[Pocketed, ...], findings: Findings) -> tuple[Pocketed, ...]:
    for plan in plans:
        if plan.depth is not None and plan.depth.most.value > 12.0:
            findings.hold(plan.name, "floor-thin", "It is deep.", "Take a lower insert.")
    return plans

def after_the_inserts(job: Job, head: Head, plans: tuple[Pocketed, ...], findings: Findings) -> tuple[Pocketed, ...]:
    return findings.held(deep(job, head, plans, findings))
"""
BEFORE = """
def before_the_inserts(job: Job, head: Head, plans: tuple[Found, ...], findings: Findings) -> tuple[Pocketed, ...]:
    return findings.held(deep(job, head, plans, findings))
"""
LOOKS_AHEAD = """
def guide_looks_at_the_bore(plan: Guided) -> object:
    return plan.bore
"""
GUIDES_LATE = """
def guides_after_the_pilots(job: Job, head: Head, plans: tuple[Piloted, ...], findings: Findings) -> tuple[Found, ...]:
    return guides(job, head, plans, findings)
"""
TWICE = """
def cut_before_the_seat(job: Job, head: Head, plans: tuple[Pocketed, ...], findings: Findings) -> object:
    return cut(job, head, plans, findings)
"""


def test_a_phase_has_the_fields_of_the_phase_before_it_in_their_order_and_then_its_own():
    # `into` hands them on by their places.
    phases = ValvePlan.__mro__[: ValvePlan.__mro__.index(Started) + 1]
    assert len(phases) > 10
    for later, before in pairwise(phases):
        assert later.__struct_fields__[: len(before.__struct_fields__)] == before.__struct_fields__


def test_a_valve_in_a_later_phase_keeps_what_was_found_and_takes_what_is_found_anew():
    valve = planner.plan(jobs.job(jobs.head([jobs.valve()]), shop=jobs.shop())).valves[0]
    found = Found(**{name: getattr(valve, name) for name in Found.__struct_fields__})
    later = into(Pocketed, found, pilot=None, cutter="C9")
    assert (later.cutter, later.pilot) == ("C9", None)
    kept = set(Found.__struct_fields__) - {"pilot"}
    assert all(getattr(later, name) is getattr(found, name) for name in kept)


@pytest.mark.slow
def test_the_same_check_in_the_wrong_stage_does_not_type_check(tmp_path):
    # The figure that it looks at is only there after the inserts; before, it would have held nothing, in silence.
    wrong = {"before": BEFORE, "looks_ahead": LOOKS_AHEAD, "guides_late": GUIDES_LATE, "twice": TWICE}
    for name, text in {"right": "", **wrong}.items():
        (tmp_path / f"{name}.py").write_text(CHECK + text)
    ran = subprocess.run(
        [sys.executable, "-m", "mypy", "--config-file", str(TOP / "pyproject.toml"), "--follow-imports=silent",
         *(str(tmp_path / f"{name}.py") for name in ("right", *wrong))],
        capture_output=True, text=True, cwd=TOP, check=False,
    )  # fmt: skip
    told = [line for line in ran.stdout.splitlines() if ": error:" in line]
    assert {Path(line.split(":")[0]).stem for line in told} == set(wrong), ran.stdout + ran.stderr
    assert all("[arg-type]" in line or "[attr-defined]" in line or "[return-value]" in line for line in told), told


def test_every_stage_is_followed_by_the_holds_that_it_found():
    # Whatever takes (job, head, valves, findings) and hands valves on is called inside `findings.held(...)`.
    stages = {"start", "guides", "pilots", "clean_up", "inserts", "seat", "stands", "cut", "finished", "passes",
              "reopen", "torque", "fit", "assembly", "uncertainty"}  # fmt: skip
    tree = ast.parse(inspect.getsource(planner))
    called = {node.func.id for node in ast.walk(tree) if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)}
    held = {
        node.args[0].func.id
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "held"
        and isinstance(node.args[0], ast.Call) and isinstance(node.args[0].func, ast.Name)
    }  # fmt: skip
    assert stages <= called
    assert stages <= held


def test_a_status_is_nowhere_compared_with_a_text():
    words = {status.value for status in Status}
    found = []
    for path in sorted(COMPILER.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Compare) and any(
                isinstance(one, ast.Attribute) and one.attr == "status" for one in ast.walk(node)
            ):
                texts = [one.value for one in ast.walk(node) if isinstance(one, ast.Constant)]
                found += [f"{path.name}: {text}" for text in texts if text in words]
    assert not found


def test_a_hold_by_hand_and_one_found_out_leave_the_same_valve():
    usual, shop = jobs.valve("E1"), jobs.shop(inserts=(jobs.insert("A", 44.60, 0.01),))
    whole = jobs.job(jobs.head([usual]), shop=shop)

    def planned(**changes):
        head = replace(whole.heads[0], valves=(replace(usual, **changes),))
        return planner.plan(replace(whole, heads=(head,)))

    worn = replace(usual.specification, guide_wear_limit=jobs.given(0.01))
    found_out, by_hand = planned(specification=worn), planned(holds=(Note("worn", jobs.span(), ("E1",)),))
    assert [hold.slug for hold in found_out.valves[0].holds] == ["guide-worn"]
    assert [hold.slug for hold in by_hand.valves[0].holds] == ["hold-by-hand"]
    one, two = (plan_document(made)["valves"]["E1"] for made in (found_out, by_hand))
    assert one["status"] == "hold"
    assert one["if_big"]
    differ = {name for name in {*one, *two} if one.get(name) != two.get(name)}
    assert differ == {"guide", "holds", "holds_text"}
