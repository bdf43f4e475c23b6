"""`seatwright card`: from the stamp at the foot of a printed card back to the file."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.whole.repository import NAME, Repository, made_in
from tests.whole.shop import JOBS, Ran, seatwright


@pytest.fixture
def repository(tmp_path: Path) -> Repository:
    return made_in(tmp_path)


def card(repository: Repository, *words: str, stdin: str = "") -> Ran:
    return seatwright("card", *words, stdin=stdin.encode(), cwd=repository.top)


def stamps(repository: Repository) -> dict[str, str]:
    """The own stamp of each card of a fresh build, with its kind and valves."""
    ran = seatwright("build", "jobs", "-o", "../out", cwd=repository.top)
    assert ran.code in (0, 3), ran.err
    plan = json.loads((repository.top.parent / "out" / NAME.removesuffix(".seat") / "plan.json").read_text("utf-8"))
    return {each["stamp"]: f"{each['name']} {' '.join(each['valves'])}" for each in plan["cards"]}


def test_every_card_of_a_fresh_build_is_current_and_after_an_edit_those_that_changed_are_not(
    repository: Repository,
) -> None:
    before = stamps(repository)
    ran = card(repository, "-", "jobs", stdin="".join(f"{each}\n" for each in before))
    answers = [line for line in ran.out.splitlines() if not line.startswith("  on hold now: ")]
    assert (ran.code in (0, 3), ran.err) == (True, "")
    assert len(answers) == len(before)
    assert all(each.startswith("current: job 2214 (") for each in answers)

    repository.edit("41.092", "41.094")
    after = stamps(repository)
    changed = before.keys() - after.keys()
    assert changed
    assert changed != before.keys()
    for each in before:
        ran = card(repository, each[:6], "jobs")
        assert ran.code == 1 if each in changed else ran.code in (0, 3), each
        assert ran.out.startswith("out of date" if each in changed else "current")


def test_a_card_that_is_out_of_date_says_what_stands_in_its_place_and_what_changed(repository: Repository) -> None:
    before = stamps(repository)
    repository.edit("41.092", "41.094")
    repository.commit("measured again")
    after = {what: stamp for stamp, what in stamps(repository).items()}
    stamp, what = next((stamp, what) for stamp, what in before.items() if what.startswith("setting") and "E1" in what)
    ran = card(repository, stamp, "jobs")
    lines = ran.out.splitlines()
    assert ran.code == 1
    assert lines[0].startswith(f"out of date: job 2214 ({NAME}), card ")
    first = repository.git("rev-list", "HEAD").stdout.split()[1]
    assert lines[0].endswith(f"as of commit {first[:8]}")
    assert lines[1].startswith("  now: card ")
    assert lines[1].endswith(f"stamp {after[what]}")
    assert "    E1: insert, od as measured, at 20 °C: 41.092 mm → 41.094 mm" in lines
    assert not [line for line in lines if line.startswith(("    E2:", "    I1:", "    E3:"))]


def test_a_card_of_nothing_is_not_found_and_what_is_no_stamp_is_said(repository: Repository, tmp_path: Path) -> None:
    ran = card(repository, "deadbeef", "jobs")
    assert ran.code == 2
    assert ran.out == (
        "not found: of 1 job none has a card with the stamp deadbeef, nor had one in the last 100 revisions of its "
        "files\n"
    )
    assert card(repository, "2219", "jobs").code == 2
    assert "2219 is no stamp" in card(repository, "2219", "jobs").err
    (tmp_path / "plain").mkdir()
    (tmp_path / "plain" / NAME).write_bytes((JOBS / NAME).read_bytes())
    (tmp_path / "plain" / "bench.shop").write_bytes((JOBS / "bench.shop").read_bytes())
    outside = seatwright("card", "deadbeef", "plain", cwd=tmp_path)
    assert outside.code == 2
    assert "plain has no history in git" in outside.out


def test_the_whole_foot_of_a_card_may_be_typed_and_two_jobs_of_one_number_are_both_said(repository: Repository) -> None:
    stamp = next(stamp for stamp, what in stamps(repository).items() if what.startswith("setting"))
    (repository.top / "jobs" / "again.seat").write_bytes(repository.job.read_bytes())
    ran = card(repository, "-", "jobs", stdin=f"\ncard 1 of 9 · {stamp} · sources 01234567\n")
    assert ran.code == 0
    found = [line.split(", card")[0] for line in ran.out.splitlines()]
    assert found == ["current: job 2214 (again.seat)", f"current: job 2214 ({NAME})"]


def test_a_card_with_a_valve_on_hold_now_is_current_and_ends_with_3(repository: Repository) -> None:
    text = repository.job.read_text("utf-8")
    repository.job.write_text(text + '\nhold E1 "the owner is asked"\n', "utf-8")
    record = next(stamp for stamp, what in stamps(repository).items() if what.startswith("record"))
    ran = card(repository, record, "jobs")
    assert ran.code == 3
    assert ran.out.splitlines()[1].startswith("  on hold now: E1 (hold-by-hand)")


def test_a_valve_that_has_no_such_card_any_more_is_told_of(repository: Repository) -> None:
    before = stamps(repository)
    stamp = next(stamp for stamp, what in before.items() if what.startswith("setting"))
    valves = before[stamp].split()[1:]
    text = repository.job.read_text("utf-8")
    holds = "".join(f'hold {name} "asked"\n' for name in valves)
    repository.job.write_text(f"{text}\n{holds}", "utf-8")
    ran = card(repository, stamp, "jobs")
    assert ran.code == 1
    assert f"  now: no such card; {valves[0]} is hold" in ran.out
    repository.job.write_text(text + "\nvalves\n", "utf-8")
    ran = card(repository, stamp, "jobs")
    assert ran.code == 1
    assert "  now: the job has errors" in ran.out
