"""What changes at the machine between two plans.

Held against the cards as they are printed, and against plan.json, both written by other parts of the house: a valve
whose printed rows change is named; a valve that is named has something in plan.json that moved; a change of what was
measured names no valve by itself.
"""

from __future__ import annotations

import re
from itertools import islice

import pytest
from msgspec.structs import replace
from tests.planning import digits

from seatwright.cards.as_text.as_printed import printed
from seatwright.cards.as_text.plan_lines import plan_lines
from seatwright.cards.render import documents
from seatwright.planning.plan import Plan
from seatwright.planning.plan.figure import Figure
from seatwright.told.differences import Changed, differences, moved_valves, settings_kept
from seatwright.told.plan_json import plan_document

JOBS = ("four-cylinder-diesel.seat", "half-way.seat", "four-valve-aluminium.seat", "integral-seats.seat")
# How the heads of the columns begin that repeat what was read; the rest of the cards is planned.
_AS_READ = (
    "Spring", "Middle", "Port", "Stem", "Lean", "Insert *od", "Guide *spring", "now *", "*port", "Pocket",
    "Guide *found", "Recession *found", "Reces- *sion found", "Bore *as read",
)  # fmt: skip


def compared(old: Plan, new: Plan) -> tuple[Changed, ...]:
    return differences(old, new, printed)


def rows_of(plan: Plan) -> dict[str, list[str]]:
    """The planned rows of every valve on all of its cards, as printed."""
    names = [valve.name for valve in plan.valves]
    rows: dict[str, list[str]] = {name: [] for name in names}
    heads: list[str] = []
    before = ""
    for line in documents(plan).markdown.splitlines():
        if line.startswith("|") and not before.startswith("|"):
            heads = [head.strip() for head in line.strip("|").split("|")]
        elif line.startswith("|"):
            cells = zip(heads, line.strip("|").split("|"), strict=True)
            planned = "|".join(cell for head, cell in cells if not head.startswith(_AS_READ))
            for name in re.findall(r"\w+", line.split("|")[1]):
                if name in rows:
                    rows[name].append(planned)
        before = line
    return rows


def valve_documents(plan: Plan) -> dict[str, object]:
    """What plan.json has of each valve, but for what was read."""
    document = plan_document(plan)
    valves = document["valves"]
    assert isinstance(valves, dict)
    messages = document["messages"]
    assert isinstance(messages, list)
    return {
        name: (
            {key: value for key, value in valve.items() if key != "found"},
            sorted(message["slug"] for message in messages if name in message["valves"]),
            [slug for slug, place in document["caution_places"].items() if name in place["valves"]],  # type: ignore[attr-defined]
        )
        for name, valve in valves.items()
    }


@pytest.mark.parametrize("name", JOBS)
def test_nothing_changes_between_a_plan_and_itself_made_anew(name: str) -> None:
    assert compared(digits.planned(digits.text_of(name)), digits.planned(digits.text_of(name))) == ()


@pytest.mark.slow
@pytest.mark.parametrize("name", JOBS)
def test_one_measured_digit_names_exactly_the_valves_whose_figures_move(name: str) -> None:
    text = digits.text_of(name)
    old = digits.planned(text)
    rows, whole = rows_of(old), valve_documents(old)
    seen: list[int] = []
    every = list(digits.one_digit_changed(text, ("measured", "cut")))
    for changed_text, _ in islice(every, 0, None, max(1, len(every) // 24)):
        new = digits.plan_or_none(changed_text)
        if new is None:
            # A cell that says its size in two units no longer agrees with itself.
            continue
        named = set(moved_valves(compared(old, new)))
        other_rows, other_whole = rows_of(new), valve_documents(new)
        printed_anew = {valve for valve in rows if rows[valve] != other_rows[valve]}
        moved = {valve for valve in whole if whole[valve] != other_whole[valve]}
        assert printed_anew <= named <= moved
        seen.append(len(named))
    assert len(seen) >= 12
    assert any(seen), "no digit moved any figure"


def test_a_digit_of_an_insert_moves_the_bore_of_its_valve_by_as_much_and_no_other_valve() -> None:
    # Common practice: the bore is the insert as measured less the interference wanted.
    text = digits.text_of("four-cylinder-diesel.seat")
    old, new = digits.planned(text), digits.planned(text.replace("41.092", "41.094"))
    found = compared(old, new)
    assert moved_valves(found) == ("E1",)
    bore = next(each for each in found[-1].differences if each.paths == ("bore.least", "bore.most"))
    assert bore.old is not None
    assert bore.new is not None
    by = [b - a for a, b in zip(bore.old.values, bore.new.values, strict=True) if a is not None and b is not None]
    assert by == pytest.approx([0.002, 0.002], abs=1e-5)


def test_a_reading_that_decides_nothing_changes_nothing() -> None:
    text = digits.text_of("four-cylinder-diesel.seat")
    # pocket-low-b of I1 is neither the widest nor the narrowest reading of its pocket.
    changed = text.replace("46.043", "46.042")
    assert changed != text
    assert compared(digits.planned(text), digits.planned(changed)) == ()


def test_notes_customers_and_places_in_the_file_change_nothing_at_the_machine() -> None:
    text = digits.text_of("four-cylinder-diesel.seat")
    changed = "# a line more\n\n" + text.replace("the haulage yard", "another yard")
    assert compared(digits.planned(text), digits.planned(changed)) == ()


def test_a_hold_taken_out_shows_the_hold_gone_and_the_bore_come() -> None:
    text = digits.text_of("half-way.seat")
    held = next(line for line in text.splitlines(keepends=True) if line.startswith("hold I4"))
    found = compared(digits.planned(text), digits.planned(text.replace(held, "")))
    valve = next(each for each in found if each.name == "I4")
    by_path = {each.paths[0]: each for each in valve.differences}
    status = by_path["status"]
    assert (str(status.old.printed), str(status.new.printed)) == ("HOLD", "to bore")  # type: ignore[union-attr]
    assert by_path["holds.hold-by-hand"].new is None
    assert by_path["bore.bench_least"].old is None


def test_a_valve_on_hold_shows_no_bore_to_cut_by() -> None:
    lines = plan_lines(digits.planned(digits.text_of("half-way.seat"))).splitlines()
    held = [line for line in lines if line.startswith("I4  ")]
    assert any("HOLD" in line for line in held)
    assert not any(re.match(r"I4  (bore,|bore at 20|passes|speed)", line) for line in held)


def test_a_valve_left_out_is_said_to_be_gone_and_one_put_in_to_be_new() -> None:
    old = digits.planned(digits.text_of("four-cylinder-diesel.seat"))
    without = replace(old, valves=old.valves[1:])
    gone, new = compared(old, without), compared(without, old)
    assert [(each.name, each.gone) for each in gone if each.kind == "valve"] == [("I1", True)]
    assert [(each.name, each.was) for each in new if each.kind == "valve"] == [("I1", None)]


def test_a_setting_keeps_its_name_when_another_is_done_and_nothing_changes_at_it() -> None:
    plan = digits.planned(digits.text_of("four-cylinder-diesel.seat"))
    first, second, third = plan.settings
    renumbered = (replace(second, number=1), replace(third, number=2))
    assert settings_kept(plan.settings, renumbered) == {second.name: second.name, third.name: third.name}
    found = compared(plan, replace(plan, settings=renumbered))
    assert [(each.name, each.was, each.gone) for each in found if each.kind == "setting"] == [
        (first.name, first.name, True)
    ]
    assert first.name == "C2 at 41.014"


def test_a_setting_is_known_again_by_its_valves_when_its_reading_moves() -> None:
    plan = digits.planned(digits.text_of("four-cylinder-diesel.seat"))
    first, *others = plan.settings
    assert first.reading is not None
    moved = replace(first, name="C2 at 41.016", reading=replace(first.reading, value=41.016))
    (found,) = compared(plan, replace(plan, settings=(moved, *others)))
    assert (found.name, found.was, found.gone) == ("C2 at 41.016", "C2 at 41.014", False)
    assert [each.words for each in found.differences] == ["reading"]


def _with_bench_aim(plan: Plan, by: float) -> Plan:
    setting = plan.settings[0]
    assert setting.bench_aim is not None
    moved = Figure(setting.bench_aim.value + by, "mm", "bench_aim")
    return replace(plan, settings=(replace(setting, bench_aim=moved), *plan.settings[1:]))


@pytest.mark.parametrize(("by", "changes"), [(0.0, False), (0.4e-6, False), (1.5e-6, True), (0.001, True)])
def test_a_figure_has_changed_when_it_differs_by_more_than_a_millionth(by: float, changes: bool) -> None:
    plan = _with_bench_aim(digits.planned(digits.text_of("four-cylinder-diesel.seat")), 0.0001)
    found = compared(plan, _with_bench_aim(plan, by))
    assert bool(found) is changes
    for each in (difference for subject in found for difference in subject.differences):
        assert each.old is not None
        assert each.new is not None
        assert each.old.printed != each.new.printed, "the two sides read alike"


def test_a_figure_that_prints_otherwise_has_changed_however_little_it_moved() -> None:
    plan = digits.planned(digits.text_of("four-cylinder-diesel.seat"))
    setting = plan.settings[0]
    below, above = (
        replace(plan, settings=(replace(setting, bench_aim=Figure(value, "mm", "aim")), *plan.settings[1:]))
        for value in (41.0184999, 41.0185001)
    )
    differences_found = compared(below, above)[0].differences
    assert [str(side.printed) for side in (differences_found[0].old, differences_found[0].new) if side] == [
        "41.018 mm",
        "41.019 mm",
    ]


def test_one_figure_changed_changes_one_line_of_the_listing() -> None:
    plan = digits.planned(digits.text_of("four-cylinder-diesel.seat"))
    moved = _with_bench_aim(plan, 0.010)
    one, two = plan_lines(plan).splitlines(), plan_lines(moved).splitlines()
    assert len(one) == len(two)
    assert sum(a != b for a, b in zip(one, two, strict=True)) == 1


@pytest.mark.parametrize("name", JOBS)
def test_every_line_of_the_listing_names_whose_it_is_and_says_something(name: str) -> None:
    plan = digits.planned(digits.text_of(name))
    known = {"job", *(f"setting {each.name}" for each in plan.settings), *(each.name for each in plan.valves)}
    lines = [line for line in plan_lines(plan).splitlines()[1:] if line]
    for line in lines:
        whose, words = line.split("  ", 1)
        assert whose in known
        assert re.search(r"\S {2,}\S", words), line
    assert len(lines) == len({line.split("  ", 1)[0] + line[:60] for line in lines}), "two lines of one name"
