"""The README does what it says: its commands run, and the output that it shows is what they print.

`SEATWRIGHT_RENEW=1 pytest tests/whole/test_readme.py` writes the shown output anew; read the diff.
"""

from __future__ import annotations

import json
import os
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from tests.whole.shop import JOBS, ROOT, seatwright

PAGES = (ROOT / "README.md", JOBS / "README.md", JOBS / "quarter" / "README.md")
_STAMP = re.compile(r"@(?P<job>[\w-]+):(?P<card>\d+)")
"""Stands for the stamp of a card of a job of the quarter, which every change of that card changes."""
_SHOWN = re.compile(
    r"(<!-- output: (?P<command>seatwright [^\n]*?)(?: \| first (?P<first>\d+))?"
    r"(?: \| after (?P<file>\S+): (?P<was>[^\n]*?) -> (?P<now>[^\n]*?))? -->\n)"
    r"(?P<body>.*?)(<!-- end of output -->)",
    re.DOTALL,
)
_NEEDS_A_PERSON = {"watch", "completion", "manual"}


def shown(page: Path) -> list[re.Match[str]]:
    """The outputs that a page shows, each with its command."""
    return list(_SHOWN.finditer(page.read_text("utf-8")))


def corrected(match: re.Match[str], bench: Path, beside: Path) -> Path:
    """A copy of the bench under version control, in which one figure was corrected since."""
    changed = beside / "corrected"
    shutil.copytree(bench, changed)
    git = ["git", "-C", str(changed), "-c", "user.name=a", "-c", "user.email=a@b.invalid"]
    for words in (["init", "-q"], ["add", "."], ["commit", "-qm", "as it was"]):
        subprocess.run([*git, *words], check=True, capture_output=True)
    file = changed / match["file"]
    before = file.read_text("utf-8")
    assert match["was"] in before
    file.write_text(before.replace(match["was"], match["now"]), "utf-8")
    return changed


def block(command: str, first: str | None, bench: Path) -> str:
    """What a command prints, results and messages, as an indented block."""
    command = _STAMP.sub(lambda found: stamp(bench, found["job"], int(found["card"])), command)
    words = [sys.executable, "-m", "seatwright", *shlex.split(command)[1:]]
    together = subprocess.run(words, cwd=bench, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
    lines = together.stdout.decode("utf-8").rstrip("\n").split("\n")
    if first and len(lines) > int(first):
        lines = [*lines[: int(first)], "…"]
    return "\n" + "".join(f"    {line}".rstrip() + "\n" for line in [f"$ {command}", *lines]) + "\n"


def stamp(bench: Path, job: str, card: int) -> str:
    """The own stamp of a card, by its number."""
    ran = seatwright("plan", f"quarter/{job}.seat", cwd=bench)
    return str(json.loads(ran.out)["cards"][card - 1]["stamp"])


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    """A folder with the demo jobs."""
    shutil.copytree(JOBS, tmp_path / "jobs", ignore=shutil.ignore_patterns("cards"))
    return tmp_path / "jobs"


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(ROOT).as_posix())
def test_the_output_that_a_page_shows_is_what_its_command_prints(page: Path, bench: Path, tmp_path: Path) -> None:
    text = page.read_text("utf-8")
    assert shown(page), "the page shows no output"

    def renewed(match: re.Match[str]) -> str:
        place = corrected(match, bench, tmp_path) if match["file"] else bench
        return match[1] + block(match["command"], match["first"], place) + match[match.re.groups]

    fresh = _SHOWN.sub(renewed, text)
    if os.environ.get("SEATWRIGHT_RENEW"):
        page.write_text(fresh, "utf-8")
    assert fresh == text or os.environ.get("SEATWRIGHT_RENEW")


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(ROOT).as_posix())
def test_every_command_of_a_page_runs(page: Path, tmp_path: Path) -> None:
    shutil.copytree(JOBS, tmp_path / "jobs", ignore=shutil.ignore_patterns("cards"))
    for words in (
        ["init", "-q"],
        ["add", "."],
        ["-c", "user.name=a", "-c", "user.email=a@b.invalid", "commit", "-qm", "x"],
    ):
        subprocess.run(["git", "-C", str(tmp_path), *words], check=True, capture_output=True)
    lines = [line.strip() for line in page.read_text("utf-8").splitlines() if line.startswith("    seatwright ")]
    commands = [shlex.split(line.split(" #")[0]) for line in lines]
    assert commands
    for words in commands:
        if words[1] in _NEEDS_A_PERSON:
            continue
        named = any(word.startswith("jobs/") for word in words)
        ran = seatwright(*words[1:], cwd=tmp_path if named else tmp_path / "jobs")
        assert ran.code in (0, 3), f"{' '.join(words)}: {ran.err}"


def test_ci_runs_the_two_commands_of_the_readme() -> None:
    readme, ci = (ROOT / "README.md").read_text("utf-8"), (ROOT / ".ci" / "run").read_text("utf-8")
    commands = [line.strip() for line in readme.splitlines() if line.startswith("    python3 -m venv")]
    assert len(commands) == 2
    assert all(command in ci for command in commands)


def test_the_program_of_the_readme_runs_and_prints_the_bores(bench: Path) -> None:
    program = re.search(r"```python\n(.*?)```", (ROOT / "README.md").read_text("utf-8"), re.DOTALL)
    assert program is not None
    ran = subprocess.run(
        [sys.executable, "-c", program[1]], cwd=bench.parent, capture_output=True, text=True, check=True
    )
    assert re.search(r"^E1 X33A 33\.40\d* 33\.42\d*$", ran.stdout, re.MULTILINE)
    assert (bench.parent / "cards.html").read_text("utf-8").startswith("<!DOCTYPE html>")
