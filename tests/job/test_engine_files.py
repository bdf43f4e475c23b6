"""Engine files: what they may say, which line counts, and what is said of what is wrong."""

from __future__ import annotations

import re
from itertools import product

import pytest

from seatwright.job import read, read_used
from seatwright.job.declarations import Field, engine_sections
from seatwright.job.head.selectors import same
from seatwright.job.model import Job, Specification, Valve
from seatwright.planning.planner import plan
from seatwright.text import Message

HEAD = 'engine T1 "type"\n  units mm\n  source "manual 3" 2014-06-01\n  material aluminium\n'
WIDTHS = ("valves E1", "valves exhaust", "valves all")
OTHER_WORDS = {
    "insert": "insert turned", "alloy": "alloy sintered", "stem-height-from": "stem-height-from cam",
    "sodium-filled": "sodium-filled no", "guide": "guide none", "guide-alloy": "guide-alloy grey-iron",
}  # fmt: skip
ONE_VALUE = {"seat", "bore"}  # `integral` alone; the maker's pocket is held against od and fit by other tests


def read_files(job: str, **files: str) -> tuple[Job | None, tuple[Message, ...]]:
    def load(name: str) -> bytes:
        return job.encode() if name == "job.seat" else files[name.replace(".", "_").replace("-", "_")].encode()

    return read("job.seat", load)


def valve(job: str, engine: str) -> Valve:
    """E1 of a job that uses an engine file."""
    found, messages = read_files(job, t1_engine=engine)
    assert found is not None, messages
    return next(one for one in found.heads[0].valves if one.name == "E1")


def job_with(lines: str, use: bool = True) -> str:
    used = 'use "t1.engine"\n' if use else ""
    material = "" if use else "  material aluminium\n"
    return f'job 1 "x"\n units mm\n{used}head "h"\n{material}valves I1 E1\n  guide-length 60\n{lines}'


def another(field: Field) -> str:
    """A line with another value than the example's."""
    if field.word in OTHER_WORDS:
        return OTHER_WORDS[field.word]
    figure, quote, text = field.example.partition(' "')
    scaled = re.sub(r"(?<![\w.-])-?[0-9]*\.?[0-9]+(?![\w.])", lambda one: f"{float(one[0]) * 1.02:.4f}", figure)
    return f"{scaled}{quote}{text}"


FIELDS = [field for field in engine_sections.TYPE_VALVES.fields if field.word not in ONE_VALUE]


def alone(specification: Specification) -> dict[str, object]:
    return {name: getattr(specification, name) for name in specification.__struct_fields__}


@pytest.mark.parametrize("field", FIELDS, ids=lambda field: field.word)
def test_the_job_counts_before_the_engine_at_any_pair_of_widths_and_says_so_once(field: Field) -> None:
    if field.word == "guide-length":
        pytest.skip("the job of these tests has it for itself")
    makers, own = field.example, another(field)
    for line in (makers, own):
        on_engine = valve(job_with(""), f"{HEAD}valves exhaust\n  {line}\n").specification
        in_job = valve(job_with(f"valves exhaust\n  {line}\n"), HEAD).specification
        assert same_but_for_sources(on_engine, in_job)
    wanted = valve(job_with(f"valves all\n  {own}\n"), HEAD).specification
    for here, there in product(WIDTHS, WIDTHS):
        found = valve(job_with(f"{here}\n  {own}\n"), f"{HEAD}{there}\n  {makers}\n")
        assert same_but_for_sources(found.specification, wanted), (here, there)
        assert found.of_engine is not None
        assert [one.field for one in found.of_engine.overridden] == [field.word]
        equal = valve(job_with(f"{here}\n  {makers}\n"), f"{HEAD}{there}\n  {makers}\n")
        assert equal.of_engine is not None
        assert equal.of_engine.overridden == ()


def same_but_for_sources(one: Specification, other: Specification) -> bool:
    mine, theirs = alone(one), alone(other)
    return all(same(mine[name], theirs[name]) for name in mine)


def test_an_overridden_limit_is_said_once_and_warned_of_where_it_reaches_outside() -> None:
    engine = f'{HEAD}valves exhaust\n  recession 0.7 to 1.1 "p. 14"\n'
    for own, outside in (("0.8 to 1.0", False), ("0.6 to 1.0", True), ("0.8 to 1.4", True), ("most 1.0", True)):
        found, _ = read_files(job_with(f"valves E1\n  recession {own}\n"), t1_engine=engine)
        assert found is not None
        messages = plan(found).messages
        said = [message for message in messages if message.slug == "engine-overridden"]
        assert [message.text for message in said] == [
            f"recession is {own}; the maker has 0.7 to 1.1 (t1.engine:6, p. 14)."
        ]
        assert any(message.slug == "beyond-the-maker" for message in messages) is outside, own


def test_the_new_limits_count_unless_the_job_says_otherwise() -> None:
    engine = f"{HEAD}valves exhaust\n  recession 0.7 to 1.1\nvalves all reconditioned\n  recession 0.7 to 1.6\n"
    for line, most, limits, assumed in (
        ("", 1.1, "new", True),
        ("valves E1\n  limits new\n", 1.1, "new", False),
        ("valves all\n  limits reconditioned\n", 1.6, "reconditioned", False),
    ):
        found = valve(job_with(line), engine)
        recession, of = found.specification.recession, found.of_engine
        assert recession is not None
        assert recession.most is not None
        assert of is not None
        assert (recession.most.value, of.limits, of.assumed is not None) == (most, limits, assumed)


def test_limits_of_a_reconditioned_head_that_one_valve_lacks_are_said() -> None:
    engine = f"{HEAD}valves all\n  recession 0.7 to 1.1\nvalves exhaust reconditioned\n  recession 0.7 to 1.6\n"
    found, _ = read_files(job_with("valves all\n  limits reconditioned\nvalves I1 E1\n  stem 9.0\n"), t1_engine=engine)
    assert found is not None
    said = [message for message in plan(found).messages if message.slug == "limits-new-alone"]
    assert [message.valves for message in said] == [("I1",)]


def test_lines_that_repeat_say_the_same_in_any_order() -> None:
    first, second = "  spring-force 296 N at 38.9\n", "  spring-force 790 N at 29.4\n"
    engine = f"{HEAD}valves exhaust\n{first}{second}"
    other = "  spring-force 780 N at 29.4\n"
    for own, number in ((second + first, 0), (first + second, 0), (first, 1), (other + first, 1)):
        of = valve(job_with(f"valves E1\n{own}"), engine).of_engine
        assert of is not None
        assert len(of.overridden) == number, own


def test_a_figure_says_the_file_its_source_and_the_text_behind_it() -> None:
    engine = f'{HEAD}valves exhaust\n  recession 0.7 to 1.1 "p. 14"\n  setback 0.8\n  seat-runout 0.05 tir "p. 15"\n'
    specification = valve(job_with(""), engine).specification
    assert specification.recession is not None
    assert specification.recession.most is not None
    assert specification.recession.most.source == "manual 3 (2014-06-01), p. 14"
    assert specification.setback is not None
    assert specification.setback.source == "manual 3 (2014-06-01)"
    assert specification.seat_runout is not None
    assert specification.seat_runout.source.endswith("p. 15")
    over = valve(job_with('valves E1\n  setback 0.9 "ours"\n'), engine).specification.setback
    assert over is not None
    assert (over.source, over.in_place_of) == ("ours", "0.8 (t1.engine:7)")


def test_an_engine_in_inches_serves_a_job_in_millimetres() -> None:
    engine = HEAD.replace("units mm", "units inch") + "valves exhaust\n  recession .030 to .040\nspacing\n  I1 E1 1.5\n"
    found, _ = read_files(job_with("valves E1\n  recession 0.7 to 1.0\n"), t1_engine=engine)
    assert found is not None
    assert found.heads[0].spacings[0].distance.value == pytest.approx(38.1)
    over = found.heads[0].valves[1].of_engine
    assert over is not None
    assert [(one.job, one.engine) for one in over.overridden] == [("0.7 to 1.0", ".030 to .040 in")]


def test_the_second_bank_has_the_same_engine_under_its_own_cylinders() -> None:
    engine = (
        f"{HEAD}valves E1\n  stem 7.0\nvalves E3\n  stem 9.0\nlayout\n  valve x y\n  E1 0 0\n  E2 90 0\n  E3 180 0\n"
    )
    text = (
        'job 1 "x"\n units mm\nuse "t1.engine"\nhead left "a"\n  engine T1\nvalves E1\n'
        'head right "b"\n  engine T1\n  cylinders 4 5 6\nvalves E4 E6\n'
    )
    found, messages = read_files(text, t1_engine=engine)
    assert found is not None, messages
    right = found.heads[1]
    assert [one.name for one in right.valves] == ["E4", "E6"]
    assert [one.name for one in right.neighbours] == ["E5"]
    assert [one.specification.stem.value for one in right.valves if one.specification.stem] == [7.0, 9.0]
    assert [one.valve for one in right.layout] == ["E4", "E5", "E6"]
    assert found.engines[0].heads == (1, 2)


def test_places_holes_and_distances_are_replaced_one_by_one() -> None:
    engine = f"{HEAD}layout\n  valve x y\n  I1 0 0\n  E1 40 0\nspacing\n  I1 E1 40\n"
    engine += "holes\n  hole x y diameter\n  plug 20 20 14\n"
    own = "layout\n  valve x y\n  E1 41 0\nholes\n  hole x y diameter\n  Plug 20 21 14\n  other 60 20 10\n"
    found, _ = read_files(job_with(own), t1_engine=engine)
    assert found is not None
    head = found.heads[0]
    assert {place.valve: place.x.value for place in head.layout} == {"E1": 41.0, "I1": 0.0}
    assert {hole.name.lower(): hole.y.value for hole in head.holes} == {"plug": 21.0, "other": 20.0}
    assert [pair.distance.value for pair in head.spacings] == [40.0]


@pytest.mark.parametrize(
    ("engine", "slug"),
    [
        ("valves all\n  recession 0.7 to 1.1\n", "engine-missing"),
        (HEAD.replace("engine T1", "engine"), "section-incomplete"),
        (HEAD.replace('  source "manual 3" 2014-06-01\n', ""), "field-missing"),
        (f"{HEAD}  temperature 22 C\n", "of-the-piece"),
        (f"{HEAD}valves all\n  pilot P1\n", "of-the-piece"),
        (f"{HEAD}valves all\n  insert X40\n", "of-the-piece"),
        (f"{HEAD}valves all\n  insert stays\n", "of-the-piece"),
        (f"{HEAD}measured\n  valve pocket-a\n  E1 44.0\n", "section-misplaced"),
        (f"{HEAD}cutter C1\n  tips 1\n", "section-misplaced"),
        (f'{HEAD}use "bench.shop"\n', "shop-uses"),
        (f'{HEAD}hold E1 "crack"\n', "single-kind"),
        (f"{HEAD}valves E1\n  stem 8.0\nvalves E1\n  stem 8.1\n", "valves-differ"),
        (f"{HEAD}valves all\n  stem-height not-used\n", "value-kind"),
    ],
)
def test_what_an_engine_file_may_not_say_is_one_error(engine: str, slug: str) -> None:
    messages = read_used("t1.engine", lambda _: engine.encode())
    found = [message.slug for message in messages]
    if slug == "value-kind":
        assert len(found) == 1
    else:
        assert found == [slug]


def test_the_springs_of_another_maker_take_both_lines_of_the_engine_away() -> None:
    engine = HEAD + "valves all\n  spring-force 296 N at 38.9\n  spring-force 790 N at 29.4\n  coil-bind 25.0\n"
    taken = valve(job_with('  spring-force not-used "springs of another maker"\n'), engine)
    assert taken.specification.spring_force == ()
    assert taken.of_engine is not None
    assert [(one.field, one.reason) for one in taken.of_engine.overridden] == [
        ("spring-force", "springs of another maker")
    ]
    for lines in (
        'spring-force not-used "x"\n  spring-force 300 N at 38.9',
        'spring-force 300 N at 38.9\n  spring-force not-used "x"',
    ):
        found, messages = read_files(job_with(f"  {lines}\n"), t1_engine=engine)
        assert found is None
        assert [one.slug for one in messages] == ["field-twice"]


BEYOND = [
    # What the job says, what its engine in millimetres says, and what is outside.
    ("mm", "stand proud 0.00 to 0.10", "stand proud 0.05 to 0.10", "least 0.00"),
    ("mm", "stand proud 0.05 to 0.15", "stand proud 0.05 to 0.10", "most 0.15"),
    ("mm", "stand below 0.00 to 0.15", "stand below 0.00 to 0.10", "most 0.15"),
    ("mm", "guide-stand 13.3 to 15.0", "guide-stand 13.3 to 13.9", "most 15.0"),
    ("mm", "guide-stand shoulder", "guide-stand 13.3 to 13.9", ""),
    ("mm", "recession 2.5", "recession 1.20 to 1.80", "most 2.5"),
    ("mm", "recession 1.4", "recession 1.20 to 1.80", ""),
    ("mm", "recession 1.4", "recession 1.5", ""),  # two aims: neither is a limit
    # 1.20 and 1.80 are .04724 and .07087 in: the nearest fourth places are .0472, under it, and .0709, over it.
    ("inch", "recession .0472 to .0709", "recession 1.20 to 1.80", ""),
    ("inch", "recession .0471 to .0710", "recession 1.20 to 1.80", "least .0471 and most .0710"),
    # With two places .07 is what 1.70 comes to, and 0.078 mm more: that much is no rounding.
    ("inch", "recession .05 to .07", "recession 1.20 to 1.70", "most .07"),
]


@pytest.mark.parametrize(("units", "ours", "makers", "outside"), BEYOND)
def test_which_limit_reaches_outside_the_makers_is_said_as_it_was_typed(
    units: str, ours: str, makers: str, outside: str
) -> None:
    job = job_with(f"  {ours}\n").replace("units mm", f"units {units}").replace("guide-length 60", "guide-length 60 mm")
    found = valve(job, f"{HEAD}valves all\n  {makers}\n").of_engine
    assert found is not None
    assert [one.outside for one in found.overridden] == [outside]
