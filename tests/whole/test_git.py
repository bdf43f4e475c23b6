"""What the project ships for git: the diff driver of `.gitattributes` and the hooks of `.pre-commit-hooks.yaml`."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from tests.whole.repository import NAME, Repository, environment, made_in
from tests.whole.shop import ROOT, seatwright

JOB = f"jobs/{NAME}"
ATTRIBUTES = ROOT / ".gitattributes"
HOOKS = ROOT / ".pre-commit-hooks.yaml"


@pytest.fixture
def repository(tmp_path: Path) -> Repository:
    return made_in(tmp_path)


def with_driver(repository: Repository) -> Repository:
    """The repository as the comment in .gitattributes says to set it up, word for word."""
    shipped = ATTRIBUTES.read_text("utf-8")
    (repository.top / ".gitattributes").write_text(shipped, "utf-8")
    line = next(line for line in shipped.splitlines() if "git config diff.seatwright.textconv" in line)
    words = shlex.split(line.lstrip("# "))
    assert words[0] == "git"
    repository.git(*words[1:])
    repository.commit("the diff driver")
    return repository


def changed_lines(diff: str) -> list[str]:
    lines = [line for line in diff.splitlines() if line[:1] in "+-" and not line.startswith(("+++", "---"))]
    return [" ".join(line.split()) for line in lines]


def test_git_diff_shows_what_a_digit_does_to_the_machine(repository: Repository) -> None:
    with_driver(repository).edit("41.092", "41.094")
    lines = changed_lines(repository.git("diff").stdout)
    assert "-E1 bore, as the gauge shows it 41.008 to 41.032 mm" in lines
    assert "+E1 bore, as the gauge shows it 41.010 to 41.034 mm" in lines
    assert {line[1:].split()[0] for line in lines} == {"E1", "job"}  # job: the bridge beside E1


def test_git_diff_shows_it_from_a_folder_below_too(repository: Repository) -> None:
    with_driver(repository).edit("41.092", "41.094")
    assert repository.git("-C", "jobs", "diff").stdout == repository.git("diff").stdout


def test_git_log_shows_it_for_commits_made_since(repository: Repository) -> None:
    with_driver(repository).edit("41.092", "41.094")
    repository.commit("measured again")
    assert "+E1 insert, od as measured, at 20 °C 41.094 mm" in changed_lines(repository.git("log", "-1", "-p").stdout)


def test_a_remark_alone_shows_nothing_and_no_textconv_shows_it(repository: Repository) -> None:
    job = with_driver(repository).job
    job.write_text("# a remark\n" + job.read_text("utf-8"), "utf-8")
    assert changed_lines(repository.git("diff").stdout) == []
    assert "+# a remark" in changed_lines(repository.git("diff", "--no-textconv").stdout)


def test_a_job_with_an_error_does_not_stop_the_diff(repository: Repository) -> None:
    with_driver(repository).edit("measured 2026-11-19", "mesured 2026-11-19")
    ran = repository.git("diff")
    assert ran.returncode == 0
    assert "+no plan: the job has errors" in changed_lines(ran.stdout)
    assert "+mesured 2026-11-19 at 22 C" in changed_lines(ran.stdout)


def test_without_the_configuration_the_shipped_line_leaves_git_diff_as_it_was(repository: Repository) -> None:
    (repository.top / ".gitattributes").write_text(ATTRIBUTES.read_text("utf-8"), "utf-8")
    repository.edit("41.092", "41.094")
    assert any("41.094" in line and "bore" not in line for line in changed_lines(repository.git("diff").stdout))


def test_textconv_of_what_is_not_there_is_wrong_use(tmp_path: Path) -> None:
    (tmp_path / "job.seat").write_text("", "utf-8")
    assert seatwright("textconv", "none.seat", cwd=tmp_path).code == 2
    ran = seatwright("textconv", "job.seat", "--used-from", "none", cwd=tmp_path)
    assert ran.code == 2
    assert "none is no folder" in ran.err


def hooks() -> list[dict[str, str]]:
    """The hooks file, read strictly: a list of flat `key: value`, which is all that YAML it uses.

    Any YAML reader gives the same for plain scalars of this kind (YAML 1.2, sections 7.3.3 and 8.2): no value may start
    with an indicator but the one list in brackets, nor hold `: ` or ` #`.
    """
    found: list[dict[str, str]] = []
    for line in HOOKS.read_text("utf-8").splitlines():
        if line.startswith("#") or not line:
            continue
        parted = re.fullmatch(r"(- |  )([a-z_]+): ([^\s'\"&*!|>%@`#{},\[\]?:-][^#]*|\[[^\[\]#]*\])", line)
        assert parted is not None, line
        assert ": " not in parted[3], line
        if parted[1] == "- ":
            found.append({})
        assert parted[2] not in found[-1], line
        found[-1][parted[2]] = parted[3].strip()
    return found


def test_the_hooks_have_what_a_hook_must_have() -> None:
    # pre-commit.com, "Creating new hooks": id, name, entry and language are required (from memory).
    assert [hook["id"] for hook in hooks()] == ["seatwright-check", "seatwright-format"]
    for hook in hooks():
        assert {"id", "name", "entry", "language"} <= set(hook)
        assert set(hook) <= {"id", "name", "description", "entry", "args", "language", "files"}
        assert hook["language"] == "python"
        assert hook["entry"].split()[0] == "seatwright"
        re.compile(hook["files"])


def hook(name: str) -> tuple[list[str], re.Pattern[str]]:
    """A hook's command, with its arguments, and the files that it is for."""
    found = next(each for each in hooks() if each["id"] == name)
    arguments = [word.strip() for word in found.get("args", "[]").strip("[]").split(",") if word.strip()]
    return [*found["entry"].split(), *arguments], re.compile(found["files"])


def installed(repository: Repository, name: str) -> Repository:
    """The hook as git's own pre-commit script: the entry, then the staged files that match."""
    command, files = hook(name)
    # The pattern goes to grep as to Python: \.seat$ and \.(seat|shop)$ mean the same to both.
    script = repository.top / ".git" / "hooks" / "pre-commit"
    script.write_text(
        "#!/bin/sh\n"
        f"files=$(git diff --cached --name-only --diff-filter=ACM | grep -E {shlex.quote(files.pattern)})\n"
        '[ -z "$files" ] && exit 0\n'
        f"exec {shlex.join(command)} $files\n",
        "utf-8",
    )
    script.chmod(0o755)
    return repository


def commits(repository: Repository, name: str) -> bool:
    repository.git("add", "-A")
    ran = repository.git("commit", "-q", "-m", name, check=False)
    return ran.returncode == 0


def test_the_check_hook_lets_a_sound_job_through_even_with_a_valve_on_hold(repository: Repository) -> None:
    installed(repository, "seatwright-check").edit("41.092", "41.094")
    repository.edit("\nmeasured 2026-11-19", '\nhold E2 "the customer is being asked"\n\nmeasured 2026-11-19')
    assert seatwright("check", JOB, cwd=repository.top).code == 3
    assert commits(repository, "sound, E2 on hold")


def test_the_check_hook_stops_a_job_with_an_error(repository: Repository) -> None:
    installed(repository, "seatwright-check").edit("measured 2026-11-19", "mesured 2026-11-19")
    assert not commits(repository, "a slip")


def test_the_check_hook_looks_at_job_files_only(repository: Repository) -> None:
    installed(repository, "seatwright-check")
    (repository.top / "jobs" / "notes.txt").write_text("mesured\n", "utf-8")
    assert commits(repository, "notes")


def test_the_format_hook_stops_a_file_out_of_layout_and_lets_it_through_once_set(repository: Repository) -> None:
    seatwright("format", JOB, "jobs/bench.shop", cwd=repository.top)
    repository.git("commit", "-q", "-a", "-m", "set in the layout", check=False)
    installed(repository, "seatwright-format")
    shop = repository.top / "jobs" / "bench.shop"
    shop.write_text(shop.read_text("utf-8").replace("\n  units  mm", "\n   units    mm", 1), "utf-8")
    assert not commits(repository, "askew")
    assert seatwright("format", "jobs/bench.shop", cwd=repository.top).code == 0
    shop.write_text(shop.read_text("utf-8") + "\n# one more remark\n", "utf-8")
    assert commits(repository, "set again")


def test_the_hooks_run_the_command_of_this_build() -> None:
    ran = Path(environment()["PATH"].split(":")[0]) / "seatwright"
    assert ran.is_file()
