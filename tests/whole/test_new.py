"""`seatwright new` as a person uses it: flags, questions on a terminal, and what it never does."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from tests.whole.shop import JOBS, seatwright
from tests.whole.terminal import on_a_terminal

from seatwright.job.declarations.job_tables import BENCH_ORDER

FLAGS = ("--cylinders", "2", "--valves-per-cylinder", "2", "--units", "mm", "--material", "grey iron")


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    """A folder with one shop file."""
    shutil.copy(JOBS / "bench.shop", tmp_path)
    return tmp_path


def test_a_new_job_builds_the_as_found_sheet_at_once(bench: Path) -> None:
    made = seatwright("new", "2214.seat", *FLAGS, "--shop", "bench.shop", "--title", "loose seats", cwd=bench)
    assert made.code == 0, made.err
    built = seatwright("build", "2214.seat", cwd=bench)
    assert built.code == 0, built.err
    sheet = (bench / "cards" / "2214" / "cards.md").read_text("utf-8")
    assert "As found" in sheet
    # The blanks stand in the order in which the file wants them.
    columns = [word for step in BENCH_ORDER for word in step]
    heads = [line for line in sheet.split("\n") if line.startswith("| Valve |")]
    cells = [cell.replace("*", "").strip().lower().replace(" ", "-") for line in heads for cell in line.split("|")]
    at_the_bench = {"guide-spring-end": "guide-top", "guide-port-end": "guide-bottom"}
    in_sheet = [at_the_bench.get(cell, cell) for cell in cells]
    # New guides and springs have a table of their own where the job speaks of them.
    left_out = {"guide-od", "guide-end", "spring-free", "spring-force", "spring-at", "retainer-to-seal"}
    left_out |= {word for word in columns if word.startswith("guide-hole-")}
    assert [word for word in in_sheet if word in columns] == [word for word in columns if word not in left_out]
    in_file = [
        word
        for line in (bench / "2214.seat").read_text("utf-8").split("\n")
        if line.startswith("  valve  ")
        for word in line.split()[1:]
    ]
    assert in_file == columns


def test_a_new_shop_file_serves_a_new_job(bench: Path) -> None:
    assert seatwright("new", "own.shop", "--units", "inch", "--title", "by the window", cwd=bench).code == 0
    assert seatwright("new", "7.seat", *FLAGS, "--shop", "own.shop", cwd=bench).code == 0
    assert seatwright("check", "7.seat", cwd=bench).code == 0


def test_a_file_that_is_there_is_never_overwritten(bench: Path) -> None:
    (bench / "7.seat").write_text("mine", "utf-8")
    ran = seatwright("new", "7.seat", *FLAGS, cwd=bench)
    assert ran.code == 2
    assert "not overwritten" in ran.err
    assert (bench / "7.seat").read_text("utf-8") == "mine"


@pytest.mark.parametrize(
    "words,code,says",
    [
        (("7.seat",), 2, "needs --cylinders"),
        (("7.seat", *FLAGS, "--shop", "nothing.shop"), 1, "nothing.shop"),
        (("7.seat", *FLAGS[:-1], "gray irn"), 1, "Did you mean `grey iron`?"),
        (("7.seat", *FLAGS, "--received", "16.11.2026"), 1, "7.seat"),
        (("7.txt", *FLAGS), 2, "7.txt.seat"),
        (("own.shop", *FLAGS), 2, "nothing of a job"),
        (("nowhere/7.seat", *FLAGS), 2, "cannot be written"),
    ],
)
def test_nothing_is_written_where_something_is_wrong(bench: Path, words: tuple[str, ...], code: int, says: str) -> None:
    before = sorted(bench.rglob("*"))
    ran = seatwright("new", *words, cwd=bench)
    assert (ran.code, says in ran.err) == (code, True), ran.err
    assert "Traceback" not in ran.err
    assert sorted(bench.rglob("*")) == before


def test_on_a_terminal_it_asks_for_what_no_flag_gave_and_asks_again(bench: Path) -> None:
    answers = "furlong\nmm\naluminium\n\nexhaust seats\nthree\n3\n4\nbench.shop\n"
    code, screen = on_a_terminal(answers, "new", "318.seat", cwd=bench)
    assert code == 0, screen
    assert screen.count("units, what a bare length") == 2
    text = (bench / "318.seat").read_text("utf-8")
    assert 'job 318 "exhaust seats"' in text
    assert "material    aluminium" in text
    assert 'use "bench.shop"' in text
    assert "\n  E3B    -" in text


def test_leaving_the_questions_writes_nothing(bench: Path) -> None:
    code, screen = on_a_terminal("mm\n\x04", "new", "318.seat", cwd=bench)
    assert code == 2
    assert "nothing written" in screen
    assert not (bench / "318.seat").exists()
