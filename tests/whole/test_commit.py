"""The git commit that a card names."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from pathlib import Path

from tests.whole.shop import JOBS, seatwright


def git(folder: Path, *words: str) -> str:
    """Run git in a folder, as somebody."""
    who = ["-c", "user.name=bench", "-c", "user.email=bench@example.invalid"]
    done = subprocess.run(["git", "-C", str(folder), *who, *words], capture_output=True, text=True, check=True)
    return done.stdout.strip()


def test_cards_name_the_commit_only_while_their_sources_stand_in_it(tmp_path: Path) -> None:
    for name in ("single-cylinder.seat", "bench.shop"):
        shutil.copy(JOBS / name, tmp_path / name)

    def commit() -> str | None:
        return json.loads(seatwright("plan", "single-cylinder.seat", cwd=tmp_path).out).get("commit")

    assert commit() is None
    git(tmp_path, "init", "-q")
    assert commit() is None
    git(tmp_path, "add", ".")
    git(tmp_path, "commit", "-q", "-m", "the head as it came")
    at = git(tmp_path, "rev-parse", "HEAD")
    assert commit() == at
    (tmp_path / "unrelated.txt").write_text("kept", "utf-8")
    git(tmp_path, "add", ".")
    git(tmp_path, "commit", "-q", "-m", "something else")
    assert commit() == at, "cards of an unchanged job must not change with another file's commit"
    with (tmp_path / "bench.shop").open("a") as file:
        file.write("# a remark\n")
    assert commit() is None


def test_the_commit_is_found_inside_a_git_hook_too(tmp_path: Path) -> None:
    for name in ("single-cylinder.seat", "bench.shop"):
        shutil.copy(JOBS / name, tmp_path / name)
    git(tmp_path, "init", "-q")
    git(tmp_path, "add", ".")
    git(tmp_path, "commit", "-q", "-m", "the head as it came")
    os.environ["GIT_DIR"] = "elsewhere"
    try:
        plan = json.loads(seatwright("plan", "single-cylinder.seat", cwd=tmp_path).out)
    finally:
        del os.environ["GIT_DIR"]
    assert plan["commit"] == git(tmp_path, "rev-parse", "HEAD")


def test_a_file_with_the_line_ends_of_its_system_stands_in_the_commit_and_one_that_is_only_staged_does_not(
    tmp_path: Path,
) -> None:
    for name in ("single-cylinder.seat", "bench.shop"):
        shutil.copy(JOBS / name, tmp_path / name)
    (tmp_path / "shared.shop").write_bytes((tmp_path / "bench.shop").read_bytes())
    (tmp_path / "bench.shop").unlink()
    (tmp_path / "bench.shop").symlink_to("shared.shop")
    git(tmp_path, "init", "-q")
    git(tmp_path, "add", ".")
    git(tmp_path, "commit", "-q", "-m", "the head as it came")

    def commit() -> str | None:
        return json.loads(seatwright("plan", "single-cylinder.seat", cwd=tmp_path).out).get("commit")

    job = tmp_path / "single-cylinder.seat"
    job.write_bytes(job.read_bytes().replace(b"\n", b"\r\n"))
    assert commit() == git(tmp_path, "rev-parse", "HEAD")
    (tmp_path / "shared.shop").write_bytes((tmp_path / "shared.shop").read_bytes() + b"# a remark\n")
    git(tmp_path, "add", "shared.shop")
    assert commit() is None, "what a link leads to is a source"
    git(tmp_path, "commit", "-q", "-m", "a remark")
    assert commit() == git(tmp_path, "rev-parse", "HEAD")
    (tmp_path / "bench.shop").unlink()
    (tmp_path / "bench.shop").symlink_to("./shared.shop")
    assert commit() is None, "the link is another"
