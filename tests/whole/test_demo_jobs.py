"""The demo jobs, built as a new user would build them."""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from tests.whole.shop import DEMO_JOBS, JOBS, seatwright

names = pytest.mark.parametrize("job", DEMO_JOBS, ids=lambda path: path.stem)


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    """A folder with the demo jobs and their shop files, outside git."""
    shutil.copytree(JOBS, tmp_path / "jobs", ignore=shutil.ignore_patterns("cards"))
    return tmp_path / "jobs"


@names
def test_a_demo_job_builds_its_cards(job: Path, bench: Path) -> None:
    ran = seatwright("build", f"{job.name}", cwd=bench)
    assert ran.code in (0, 3), ran.err
    folder = bench / "cards" / job.stem
    assert sorted(path.name for path in folder.iterdir()) == [".built", "cards.html", "cards.md", "plan.json"]
    plan = json.loads((folder / "plan.json").read_text("utf-8"))
    held = [name for name, valve in plan["valves"].items() if valve["status"] == "hold"]
    assert (ran.code == 3) == bool(held)
    assert "error" not in {message["severity"] for message in plan["messages"]}


@names
def test_building_an_unchanged_job_twice_gives_the_same_bytes(job: Path, bench: Path, tmp_path: Path) -> None:
    for out in ("first", "second"):
        seatwright("build", job.name, "-o", str(tmp_path / out), cwd=bench)
    for name in ("cards.html", "cards.md", "plan.json"):
        first = (tmp_path / "first" / job.stem / name).read_bytes()
        assert first == (tmp_path / "second" / job.stem / name).read_bytes(), name
        assert str(bench).encode() not in first, "an absolute path stands in the output"


def test_nothing_is_written_when_the_job_has_an_error(bench: Path) -> None:
    good = bench / "single-cylinder.seat"
    assert seatwright("build", good.name, cwd=bench).code in (0, 3)
    folder = bench / "cards" / good.stem
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    good.write_text(good.read_text("utf-8").replace("measured", "mesured", 1), "utf-8")
    ran = seatwright("build", good.name, cwd=bench)
    assert ran.code == 1
    assert "STALE" in ran.out
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before


def test_what_the_tool_did_not_write_stays_in_the_folder(bench: Path) -> None:
    folder = bench / "cards" / "single-cylinder"
    folder.mkdir(parents=True)
    (folder / "photo.txt").write_text("kept", "utf-8")
    seatwright("build", "single-cylinder.seat", cwd=bench)
    assert (folder / "photo.txt").read_text("utf-8") == "kept"


def test_a_killed_build_leaves_the_old_cards_whole(bench: Path) -> None:
    job = bench / "four-valve-aluminium.seat"
    seatwright("build", job.name, cwd=bench)
    folder = bench / "cards" / job.stem
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    job.write_text(job.read_text("utf-8") + '\nnote "typed after the first build"\n', "utf-8")
    for delay in (0.05, 0.2, 0.35, 0.5):
        process = subprocess.Popen(
            [sys.executable, "-m", "seatwright", "build", job.name],
            cwd=bench,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        time.sleep(delay)
        os.kill(process.pid, signal.SIGKILL)
        process.wait()
        for name, content in before.items():
            now = (folder / name).read_bytes()
            assert now == content or now.rstrip().endswith((b"</html>", b"}")) or name == "cards.md", name


def test_a_job_from_standard_input_gives_the_same_plan_as_its_file(bench: Path) -> None:
    job = bench / "single-cylinder.seat"
    by_name = json.loads(seatwright("plan", job.name, cwd=bench).out)
    by_input = json.loads(seatwright("plan", "-", stdin=job.read_bytes(), cwd=bench).out)
    assert by_name["valves"] == by_input["valves"]


def test_a_hold_leaves_the_cards_of_the_other_valves(bench: Path) -> None:
    ran = seatwright("build", "integral-seats.seat", cwd=bench)
    assert ran.code == 3
    plan = json.loads((bench / "cards" / "integral-seats" / "plan.json").read_text("utf-8"))
    held = {name for name, valve in plan["valves"].items() if valve["status"] == "hold"}
    served = {name for setting in plan["settings"] for name in setting["valves"]}
    assert len(held) == 1
    assert served
    assert not held & served


def test_a_file_that_is_not_there_is_wrong_use(tmp_path: Path) -> None:
    ran = seatwright("build", "nothing.seat", cwd=tmp_path)
    assert ran.code == 2
    assert "nothing.seat cannot be read" in ran.err
    assert "Traceback" not in ran.err


def test_an_output_folder_that_cannot_be_made_is_wrong_use(bench: Path) -> None:
    (bench / "taken").write_text("a file", "utf-8")
    ran = seatwright("build", "single-cylinder.seat", "-o", "taken", cwd=bench)
    assert ran.code == 2
    assert "cannot be written" in ran.err
