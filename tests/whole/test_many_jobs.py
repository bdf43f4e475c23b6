"""Many jobs in one build: side by side, in order, and none of them touching another."""

from __future__ import annotations

import contextlib
import multiprocessing
import os
import shutil
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest
from tests.whole.shop import JOBS, seatwright
from tests.whole.terminal import on_a_terminal

from seatwright.commands.disk.held_signals import let_signals_come
from seatwright.commands.disk.job_folders import jobs_of
from seatwright.commands.jobs import side_by_side
from seatwright.commands.jobs.side_by_side import shared_out
from seatwright.commands.jobs.warming import warm
from seatwright.commands.terminal.progress import bar

WORDS = (".built", "cards.html", "cards.md", "plan.json")


@pytest.fixture
def many(tmp_path: Path) -> Path:
    """A folder of ten jobs of which one has an error, one cannot be read as text and one has a valve on hold."""
    folder = tmp_path / "many"
    folder.mkdir()
    shutil.copy(JOBS / "bench.shop", folder)
    good = (JOBS / "single-cylinder.seat").read_text("utf-8")
    for number in range(10):
        (folder / f"job{number}.seat").write_text(good.replace("job 41", f"job {41 + number}"), "utf-8")
    (folder / "job3.seat").write_text(good.replace("37.501", "37,501"), "utf-8")
    (folder / "job5.seat").write_bytes(b"\0\1\2")
    (folder / "job7.seat").write_text(good + 'hold E1 "crack"\n', "utf-8")
    return folder


def contents(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def living(group: int) -> list[str]:
    """The processes of a group, those left out that have ended and that nobody has asked after yet."""
    found = []
    for stat in Path("/proc").glob("[0-9]*/stat"):
        with contextlib.suppress(OSError):
            name, _, rest = stat.read_text("utf-8").rpartition(")")
            state, _, its_group = rest.split()[:3]
            if int(its_group) == group and state not in "ZX":
                found.append(name)
    return found


def test_a_folder_built_side_by_side_says_and_writes_what_one_after_the_other_does(many: Path, tmp_path: Path) -> None:
    alone = seatwright("build", "many", "-o", "out", "--jobs", "1", cwd=tmp_path)
    first = contents(tmp_path / "out")
    shutil.rmtree(tmp_path / "out")
    beside = seatwright("build", "many", "-o", "out", "--jobs", "4", cwd=tmp_path)
    assert (beside.code, beside.out, beside.err) == (alone.code, alone.out, alone.err)
    assert contents(tmp_path / "out") == first
    assert len(first) == 8 * len(WORDS), "the jobs beside the faulty ones are built"
    assert beside.code == 1
    assert beside.out.endswith("10 jobs: 7 done, 1 with valves on hold, 2 with errors\n")
    places = [beside.out.index(f"job{number}.seat: ") for number in range(10)]
    assert places == sorted(places)
    assert "\r" not in beside.err, "a bar where no terminal is"


def test_jobs_of_one_name_in_two_folders_are_built_beside_themselves_and_never_into_one_folder(tmp_path: Path) -> None:
    for name in ("left", "right"):
        (tmp_path / name).mkdir()
        shutil.copy(JOBS / "as-found.seat", tmp_path / name / "a.seat")
    assert seatwright("build", "left", "right", cwd=tmp_path).code == 0
    assert (tmp_path / "right" / "cards" / "a" / "cards.html").is_file()
    ran = seatwright("build", "left", "right/a.seat", "-o", "out", cwd=tmp_path)
    assert ran.code == 2
    assert "would both write" in ran.err
    assert not (tmp_path / "out").exists()


def test_a_folder_means_all_below_it_in_order_of_path_but_neither_links_nor_names_with_a_dot(tmp_path: Path) -> None:
    for place in ("b.seat", "a/2.seat", "a/1.seat", "a/deep/er/3.seat", "c/4.seat", ".kept/5.seat", "a/.6.seat"):
        (tmp_path / "shop" / place).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(JOBS / "as-found.seat", tmp_path / "shop" / place)
    (tmp_path / "elsewhere").mkdir()
    shutil.copy(JOBS / "as-found.seat", tmp_path / "elsewhere" / "7.seat")
    (tmp_path / "shop" / "linked").symlink_to(tmp_path / "elsewhere")
    (tmp_path / "shop" / "8.seat").symlink_to(tmp_path / "elsewhere" / "7.seat")
    found = ["shop/a/1.seat", "shop/a/2.seat", "shop/a/deep/er/3.seat", "shop/b.seat", "shop/c/4.seat"]
    assert list(jobs_of([str(tmp_path / "shop")])) == [str(tmp_path / each) for each in found]
    ran = seatwright("build", "shop", cwd=tmp_path)
    assert ran.out.endswith("5 jobs: 5 done\n")
    assert (tmp_path / "shop" / "a" / "deep" / "er" / "cards" / "3" / "cards.html").is_file()
    checked = seatwright("check", ".", cwd=tmp_path / "shop")
    assert [line for line in checked.out.splitlines() if line.endswith(".seat:")] == [
        f"{each.removeprefix('shop/')}:" for each in found
    ]


def test_a_folder_that_cannot_be_looked_into_ends_the_command(tmp_path: Path) -> None:
    (tmp_path / "shut").mkdir()
    (tmp_path / "shut").chmod(0)
    if os.access(tmp_path / "shut", os.R_OK):
        pytest.skip("whoever may read everything is not kept out")
    ran = seatwright("check", ".", cwd=tmp_path)
    assert ran.code == 2
    assert "shut cannot be read" in ran.err


def test_a_folder_without_jobs_is_wrong_use(tmp_path: Path) -> None:
    ran = seatwright("build", ".", cwd=tmp_path)
    assert ran.code == 2
    assert "a folder without a job" in ran.err


@pytest.mark.parametrize("count", ["0", "-1", "many", "1000"])
def test_a_count_that_is_none_is_wrong_use(many: Path, count: str) -> None:
    assert seatwright("build", "job0.seat", "--jobs", count, cwd=many).code == 2


def test_a_bar_is_shown_on_a_terminal_and_taken_away(many: Path) -> None:
    code, screen = on_a_terminal("", "build", ".", cwd=many)
    assert code == 1
    assert "10 of 10" in screen
    assert screen.rstrip().endswith("10 jobs: 7 done, 1 with valves on hold, 2 with errors")
    assert screen.rindex("\x1b[K") > screen.rindex(" of 10")


@pytest.mark.parametrize("count,of", [(0, 7), (3, 7), (7, 7), (999, 1000)])
@pytest.mark.parametrize("columns", [3, 20, 80, 300])
def test_a_bar_never_breaks_the_line(count: int, of: int, columns: int) -> None:
    assert len(bar(count, of, columns)) <= columns


def test_ctrl_c_in_the_middle_leaves_whole_cards_and_no_process(many: Path) -> None:
    for number in range(10, 60):
        shutil.copy(many / "job0.seat", many / f"job{number}.seat")
    process = subprocess.Popen(
        [sys.executable, "-m", "seatwright", "build", ".", "--jobs", "3"],
        cwd=many,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    assert process.stdout is not None
    process.stdout.readline()
    time.sleep(0.3)
    os.killpg(process.pid, signal.SIGINT)  # as a terminal does: to every process of the group
    _, err = process.communicate(timeout=20)
    assert process.returncode == 130
    assert "Traceback" not in err
    end = time.monotonic() + 5
    while left := living(process.pid):
        assert time.monotonic() < end, left
        time.sleep(0.05)
    written = list((many / "cards").rglob("*"))
    assert not [path for path in written if path.name.endswith(".part")]
    assert 0 < len([path for path in written if path.name == "plan.json"]) < 58


# --- the processes themselves


def _work(piece: str) -> str:
    match piece:
        case "killed":
            os.kill(os.getpid(), signal.SIGKILL)
        case "leaves":
            os._exit(7)
        case "slow":
            time.sleep(0.5)
        case "waits":
            time.sleep(600)
    return f"{piece} done"


def test_a_process_that_dies_costs_its_own_piece_and_no_other() -> None:
    pieces = ["slow", "a", "killed", "b", "leaves", "c"]
    counts: list[int] = []
    found = list(shared_out(_work, pieces, 3, lambda piece, how: f"{piece} lost, {how}", counts.append))
    assert found == [
        "slow done",
        "a done",
        "killed lost, its process was ended by the signal SIGKILL",
        "b done",
        "leaves lost, its process ended with the code 7",
        "c done",
    ]
    assert counts == [1, 2, 3, 4, 5, 6]
    assert not multiprocessing.active_children()


def test_never_more_processes_than_asked_for_and_few_results_kept_waiting() -> None:
    most = 0

    def count(_: int) -> None:
        nonlocal most
        most = max(most, len(multiprocessing.active_children()))

    results = shared_out(_work, ["slow", *(str(number) for number in range(40))], 2, lambda piece, _: piece, count)
    assert next(results) == "slow done"
    assert sum(1 for _ in results) == 40
    assert most <= 2


def test_leaving_early_ends_the_processes_that_still_work() -> None:
    results = shared_out(_work, ["a", "waits", "waits"], 3, lambda piece, _: piece, lambda _: None)
    assert next(results) == "a done"
    began = time.monotonic()
    results.close()  # type: ignore[attr-defined]
    assert time.monotonic() - began < 3
    assert not multiprocessing.active_children()


def test_a_process_that_is_ended_while_it_begins_does_not_begin_its_piece(monkeypatch: pytest.MonkeyPatch) -> None:
    def slowly() -> None:
        time.sleep(0.3)
        let_signals_come()

    monkeypatch.setattr(side_by_side, "let_signals_come", slowly)  # a fork has it too
    running = side_by_side._Running(multiprocessing.get_context("fork"), _work)
    running.begin(0, "waits")
    began = time.monotonic()
    running.stop()
    assert time.monotonic() - began < 3
    assert not multiprocessing.active_children()


def test_the_job_that_loads_the_house_reaches_the_setting_of_a_cutter() -> None:
    from seatwright.commands.jobs import warming
    from seatwright.job import read
    from seatwright.planning.planner import plan

    job, messages = read("1.seat", lambda name: warming._FILES[name].encode("utf-8"))
    assert messages == ()
    assert job is not None
    assert len(plan(job).settings) == 1
    warm()


def test_a_folder_checked_side_by_side_says_what_one_after_the_other_does(many: Path, tmp_path: Path) -> None:
    for form in ("text", "lines", "json", "sarif"):
        alone = seatwright("check", "many", "--as", form, "--jobs", "1", cwd=tmp_path)
        beside = seatwright("check", "many", "--as", form, "--jobs", "3", cwd=tmp_path)
        assert (beside.code, beside.out, beside.err) == (alone.code, alone.out, alone.err)
        assert alone.code == 1
        assert not (many / "cards").exists()


def test_a_process_that_is_spent_is_replaced_and_none_waits_for_it() -> None:
    began = time.monotonic()
    found = list(shared_out(str.upper, ["a"] * 450, 2, lambda piece, how: how, lambda count: None))
    assert found == ["A"] * 450
    assert time.monotonic() - began < 4, "a process that is let go ends at once, not after its time to part"
    assert not multiprocessing.active_children()


@pytest.mark.parametrize("command", [("build", "-o", "out"), ("check",)], ids=lambda words: words[0])
def test_a_job_from_standard_input_is_read_beside_many_others(many: Path, command: tuple[str, ...]) -> None:
    good = (many / "job0.seat").read_bytes()
    others = [f"job{number}.seat" for number in (0, 1, 2, 4, 6, 8, 9)] + ["many.seat"]
    (many / "many.seat").write_bytes(good)
    ran = seatwright(command[0], "-", *others, *command[1:], stdin=good, cwd=many)
    assert ran.code == 0, ran.err
    assert ran.out.startswith("-:")
    assert ran.out.count("\n  I1 ") == 1 + len(others), "a table for each"
    ran = seatwright(command[0], "-", *others, *command[1:], stdin=good.replace(b"37.501", b"37,501"), cwd=many)
    assert ran.code == 1
    at = 1 + good[: good.index(b"37.501")].count(b"\n")
    assert f"  standard-input.seat:{at}:" in ran.err, "what is wrong in it has its place"


def test_a_process_that_died_while_it_waited_costs_no_piece() -> None:
    results = shared_out(_dies_behind, ["a", "b", "c", "d"], 1, lambda piece, how: f"{piece} lost", lambda count: None)
    found = []
    for result in results:
        found.append(result)
        time.sleep(0.3)
    assert found == ["a done", "b done", "c done", "d done"]


def _dies_behind(piece: str) -> str:
    if piece == "b":
        threading.Timer(0.1, os._exit, (3,)).start()
    return f"{piece} done"
