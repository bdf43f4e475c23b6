"""A job from a repository that somebody prepared runs no program of his, and git's own files stay as they are."""

from __future__ import annotations

import hashlib
import json
import os
from pathlib import Path

import pytest
from tests.whole.hostile_repositories import JOB, TRAPS, prepared, spring

from seatwright.commands.disk import git
from seatwright.commands.main import main

COMMANDS = (
    ("build", JOB),
    ("build", JOB),  # again, where the record is asked whether the cards stand
    ("plan", JOB),
    ("compare", f"{JOB}@HEAD", JOB),
    ("textconv", JOB),
    ("check", JOB),
    ("card", "deadbeef", "jobs"),
    ("stock", "jobs"),
)


def contents(folder: Path) -> dict[str, str]:
    places = sorted(place for place in folder.rglob("*") if place.is_file())
    return {str(place): hashlib.sha256(place.read_bytes()).hexdigest() for place in places}


@pytest.mark.parametrize("name", TRAPS)
def test_a_trap_springs_for_plain_git(name: str, tmp_path: Path) -> None:
    repository, sprung = prepared(tmp_path, name)
    spring(repository, name)
    assert sprung.exists()


@pytest.mark.parametrize("name", TRAPS)
def test_no_command_runs_a_program_of_the_repositorys(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    repository, sprung = prepared(tmp_path, name)
    monkeypatch.chdir(repository.top)
    before = contents(repository.top / ".git")
    for words in COMMANDS:
        assert main(words) in (0, 2, 3), words
        assert not sprung.exists(), words
    assert contents(repository.top / ".git") == before


def test_a_program_called_git_beside_the_job_is_not_taken_for_git(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    repository, sprung = prepared(tmp_path, "hook")
    (repository.top / "git").write_text((tmp_path / "program").read_text("utf-8"), "utf-8")
    (repository.top / "git").chmod(0o755)
    commit = repository.git("rev-parse", "HEAD").stdout.strip()
    monkeypatch.chdir(repository.top)
    monkeypatch.setenv("PATH", f".{os.pathsep}{os.pathsep}{os.environ['PATH']}")
    git._program.cache_clear()
    assert main(["plan", JOB]) in (0, 3)
    assert not sprung.exists()
    assert json.loads(capsys.readouterr().out)["commit"] == commit


def test_a_repository_that_keeps_git_waiting_is_left_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    repository, _ = prepared(tmp_path, "hook")
    (repository.top / ".git" / "config").unlink()
    os.mkfifo(repository.top / ".git" / "config")
    monkeypatch.chdir(repository.top)
    monkeypatch.setattr(git, "_SECONDS", 0.3)
    assert main(["plan", JOB]) in (0, 3)
    assert "commit" not in json.loads(capsys.readouterr().out)
