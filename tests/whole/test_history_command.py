"""`seatwright history`, as a person runs it."""

from __future__ import annotations

import csv
import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

QUARTER = Path(__file__).resolve().parents[2] / "jobs" / "quarter"
WRITTEN = {"history.html", "history.md", "history.json", "overcuts.csv", "readings.csv"}


def run(*words: str, at: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "seatwright", "history", *words], cwd=at, capture_output=True, text=True, check=False
    )


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The quarter, to be changed."""
    shutil.copytree(QUARTER, tmp_path / "quarter")
    return tmp_path / "quarter"


def test_the_text_goes_to_standard_output_and_what_is_to_be_said_to_standard_error(folder: Path):
    done = run(at=folder)
    assert done.returncode == 0
    assert done.stdout.startswith("C1 in aluminium, tip of 2026-08-24 (bench.shop): 5 bores")
    assert "warning master-drifts  bench.shop:" in done.stderr
    assert "40.005" in done.stderr
    assert done.stdout.isascii() or "µm" in done.stdout


def test_two_runs_side_by_side_or_one_after_the_other_give_the_same_bytes(folder: Path):
    runs = [run("--as", form, "--jobs", jobs, at=folder) for form in ("json", "csv", "text") for jobs in ("1", "3")]
    assert [one.stdout for one in runs[::2]] == [one.stdout for one in runs[1::2]]
    assert [one.stderr for one in runs[::2]] == [one.stderr for one in runs[1::2]]


def test_an_out_folder_has_cards_figures_and_tables_and_nothing_else_is_written(folder: Path, tmp_path: Path):
    before = {path: path.read_bytes() for path in sorted(folder.rglob("*"))}
    done = run("-o", str(tmp_path / "out"), at=folder)
    assert done.returncode == 0
    made = {path.name: path.read_bytes() for path in (tmp_path / "out").iterdir()}
    assert set(made) == WRITTEN
    assert {path: path.read_bytes() for path in sorted(folder.rglob("*"))} == before
    assert made["history.json"].decode() == run("--as", "json", at=folder).stdout
    run("-o", str(tmp_path / "out"), at=folder)
    assert {path.name: path.read_bytes() for path in (tmp_path / "out").iterdir()} == made
    rows = list(csv.DictReader(made["overcuts.csv"].decode().splitlines()))
    assert len(rows) == sum(len(each["bores"]) for each in json.loads(made["history.json"])["runs"])


def test_a_job_with_an_error_is_named_left_out_and_changes_no_other(folder: Path):
    whole = json.loads(run("--as", "json", at=folder).stdout)
    broken = folder / "2185-farm.seat"
    broken.write_text(broken.read_text("utf-8").replace("units     inch", "units     furlong"), "utf-8")
    done = run("--as", "json", at=folder)
    assert done.returncode == 1
    assert "job-left-out" in done.stderr
    found = json.loads(done.stdout)
    assert found["left_out"] == ["2185-farm.seat"]
    assert found["runs"] == whole["runs"]
    assert [each for each in whole["trials"] if each["job"] != "2185"] == found["trials"]


def test_moving_a_job_below_the_folder_changes_its_path_alone(folder: Path):
    before = run("--as", "csv", at=folder).stdout
    (folder / ".git").mkdir()  # up to here `use` may climb
    (folder / "2026").mkdir()
    for name in ("2149-farm.seat", "2172-sawmill.seat"):
        text = (folder / name).read_text("utf-8")
        for shelf in ("bench.shop", "spare.shop"):
            text = text.replace(f'use "{shelf}"', f'use "../{shelf}"')
        (folder / "2026" / name).write_text(text, "utf-8")
        (folder / name).unlink()
    after = run("--as", "csv", at=folder).stdout
    assert after.count("2026/2172-sawmill.seat") == before.count("2172-sawmill.seat") > 0
    assert after.replace(",2026/", ",") == before


def test_a_first_day_that_is_none_is_wrong_use(folder: Path):
    done = run("--since", "September", at=folder)
    assert done.returncode == 2
    assert "September is no day; write it as 2026-09-01" in done.stderr


def test_a_folder_without_a_job_is_said(tmp_path: Path):
    done = run(at=tmp_path)
    assert done.returncode == 2
    assert "is a folder without a job" in done.stderr


def test_a_place_that_cannot_be_written_is_said_and_nothing_is_replaced(folder: Path, tmp_path: Path):
    (tmp_path / "out" / "history.md").mkdir(parents=True)
    done = run("-o", str(tmp_path / "out"), at=folder)
    assert done.returncode == 2
    assert "history.md cannot be written" in done.stderr
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["history.md"]
