"""`seatwright compare` over files and over revisions of a real git repository."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from tests.whole.repository import NAME, Repository, made_in
from tests.whole.shop import JOBS, Ran, seatwright

JOB = f"jobs/{NAME}"


@pytest.fixture
def repository(tmp_path: Path) -> Repository:
    return made_in(tmp_path)


def compare(repository: Repository, *words: str) -> Ran:
    return seatwright("compare", *words, cwd=repository.top)


def named(ran: Ran) -> list[str]:
    document = json.loads(ran.out)
    assert isinstance(document["valves"], list)
    return document["valves"]


def test_an_unchanged_job_changes_nothing_at_the_machine(repository: Repository) -> None:
    ran = compare(repository, f"{JOB}@HEAD", JOB)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out == f"{JOB}@HEAD and {JOB}: nothing changes at the machine.\n"


# One digit each; the valves by hand: an insert's own size moves its bore, a guide its clearance and pilot; the widest
# reading of a pocket decides whether it cleans up and nothing else, so one that still does moves no figure.
@pytest.mark.parametrize(
    ("old", "new", "valves"),
    [
        ("41.092", "41.094", ["E1"]),
        ("47.088", "47.089", ["I3"]),
        ("9.026", "9.027", ["E1"]),
        ("46.051", "46.052", []),
    ],
)
def test_one_measured_digit_names_the_valves_whose_figures_move(
    repository: Repository, old: str, new: str, valves: list[str]
) -> None:
    repository.edit(old, new)
    ran = compare(repository, f"{JOB}@HEAD", JOB, "--as", "json")
    assert named(ran) == valves
    assert ran.code == (1 if valves else 0)


def test_the_table_says_from_what_to_what_and_by_how_much(repository: Repository) -> None:
    repository.edit("41.092", "41.094")
    ran = compare(repository, f"{JOB}@HEAD", JOB)
    assert ran.code == 1
    lines = [" ".join(line.split()) for line in ran.out.splitlines()]
    assert "insert, od as measured, at 20 °C 41.092 mm 41.094 mm +0.002" in lines
    assert "bore, as the gauge shows it 41.008 to 41.032 mm 41.010 to 41.034 mm +0.002" in lines
    assert lines[-1] == "Something changes for E1."


def test_the_document_keeps_its_version_and_the_paths_of_plan_json(repository: Repository) -> None:
    repository.edit("41.092", "41.094")
    document = json.loads(compare(repository, f"{JOB}@HEAD", JOB, "--as", "json").out)
    assert document["format"] == "seatwright-compare/1"
    assert document["changes"] is True
    assert (document["old"], document["new"]) == (f"{JOB}@HEAD", JOB)
    plan = json.loads(seatwright("plan", JOB, cwd=repository.top).out)
    valve = next(each for each in document["changed"] if each["name"] == "E1")
    assert (valve["subject"], valve["was"], valve["gone"]) == ("valve", "E1", False)
    for difference in valve["differences"]:
        for path, value in zip(difference["paths"], difference["new"]["values"], strict=True):
            figure = plan["valves"]["E1"]
            for word in path.split("."):
                figure = figure[word]
            assert figure == value, path


def test_two_revisions_are_compared_without_the_work_tree(repository: Repository) -> None:
    repository.edit("41.092", "41.094")
    repository.commit("measured again")
    repository.job.unlink()
    assert named(compare(repository, f"{JOB}@HEAD~1", f"{JOB}@main", "--as", "json")) == ["E1"]
    assert not repository.job.exists()


def test_a_shop_file_is_taken_from_the_same_revision(repository: Repository) -> None:
    shop = repository.top / "jobs" / "bench.shop"
    shop.write_text(shop.read_text("utf-8").replace("40.000 reads 40.002", "40.000 reads 40.006"), "utf-8")
    ran = compare(repository, f"{JOB}@HEAD", JOB, "--as", "json")
    assert ran.code == 1
    changed = json.loads(ran.out)["changed"]
    reads = [
        each["new"]["printed"]
        for group in changed
        for each in group["differences"]
        if each["paths"] == ["master_reads"]
    ]
    assert reads == ["40.006"]


def test_a_file_and_another_file_are_compared_outside_git(tmp_path: Path) -> None:
    for name in (NAME, "bench.shop"):
        (tmp_path / name).write_bytes((JOBS / name).read_bytes())
    other = tmp_path / "other.seat"
    other.write_text((JOBS / NAME).read_text("utf-8").replace("41.092", "41.094"), "utf-8")
    assert seatwright("compare", NAME, "other.seat", cwd=tmp_path).code == 1
    assert seatwright("compare", NAME, "-", stdin=(JOBS / NAME).read_bytes(), cwd=tmp_path).code == 0


def test_it_works_from_a_folder_below_and_from_a_job_in_a_folder_that_is_gone(repository: Repository) -> None:
    assert seatwright("compare", f"{NAME}@HEAD", NAME, cwd=repository.top / "jobs").code == 0
    repository.git("mv", "jobs", "kept")
    ran = compare(repository, f"{JOB}@HEAD", f"kept/{NAME}")
    assert ran.code == 0, ran.err


def test_revisions_may_have_an_at_in_them_and_files_too(repository: Repository) -> None:
    repository.edit("41.092", "41.094")
    repository.commit("measured again")
    assert named(compare(repository, f"{JOB}@HEAD@{{1}}", f"{JOB}@@", "--as", "json")) == ["E1"]
    repository.git("mv", JOB, "jobs/a@b.seat")
    repository.commit("another name")
    assert compare(repository, "jobs/a@b.seat@HEAD", "jobs/a@b.seat").code == 0


def test_a_job_with_errors_gives_its_messages_and_2(repository: Repository) -> None:
    repository.edit("measured 2026-11-19", "mesured 2026-11-19")
    repository.commit("a slip")
    repository.edit("mesured 2026-11-19", "measured 2026-11-19")
    ran = compare(repository, f"{JOB}@HEAD", JOB)
    assert (ran.code, ran.out) == (2, "")
    assert f"{JOB}@HEAD:" in ran.err
    assert "mesured" in ran.err
    assert f"{JOB}@HEAD has errors" in ran.err


@pytest.mark.parametrize(
    ("old", "says"),
    [
        (f"{JOB}@nowhere", "git knows no revision `nowhere`"),
        (f"{JOB}@", f"write {JOB}@HEAD"),
        (f"{JOB}@--help", "git knows no revision `--help`"),
        (f"{JOB}@HEAD:{JOB}", "git knows no revision"),
        ("jobs/none.seat@HEAD", "no such file in that revision"),
        ("jobs@HEAD", "a folder is compared with a folder"),
        ("../out.seat@HEAD", "cannot be read"),
        ("nothing.seat", "cannot be read"),
    ],
)
def test_what_cannot_be_read_is_wrong_use(repository: Repository, old: str, says: str) -> None:
    ran = compare(repository, old, JOB)
    assert (ran.code, ran.out) == (2, "")
    assert says in ran.err
    assert "Traceback" not in ran.err


def test_outside_git_a_revision_is_wrong_use(tmp_path: Path) -> None:
    (tmp_path / NAME).write_bytes((JOBS / NAME).read_bytes())
    ran = subprocess.run(
        [sys.executable, "-m", "seatwright", "compare", f"{NAME}@HEAD", NAME],
        cwd=tmp_path,
        env=os.environ | {"GIT_CEILING_DIRECTORIES": str(tmp_path.parent)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 2
    assert "in no git repository" in ran.stderr


def test_standard_input_can_be_only_one_of_the_two(repository: Repository) -> None:
    assert seatwright("compare", "-", "-", stdin=b"", cwd=repository.top).code == 2


def _linked(repository: Repository, target: str) -> None:
    shop = repository.top / "jobs" / "bench.shop"
    (repository.top / "jobs" / "shelf").mkdir()
    (repository.top / "jobs" / "shelf" / "real.shop").write_bytes(shop.read_bytes())
    (repository.top / "outside.shop").write_bytes(shop.read_bytes())
    shop.unlink()
    shop.symlink_to(target)
    repository.commit("a link")


def test_a_link_inside_the_folder_of_the_job_is_followed(repository: Repository) -> None:
    _linked(repository, "shelf/../shelf/real.shop")
    ran = compare(repository, f"{JOB}@HEAD", f"{JOB}@HEAD~1")
    assert ran.code == 0, ran.err


@pytest.mark.parametrize("target", ["../outside.shop", "shelf/../../outside.shop"])
def test_a_link_that_stays_in_the_repository_is_followed(repository: Repository, target: str) -> None:
    _linked(repository, target)
    assert compare(repository, f"{JOB}@HEAD", f"{JOB}@HEAD~1").code == 0


@pytest.mark.parametrize("target", ["../../outside.shop", "/etc/hostname", "shelf/../../../outside.shop"])
def test_a_link_out_of_the_repository_is_refused(repository: Repository, target: str) -> None:
    _linked(repository, target)
    ran = compare(repository, f"{JOB}@HEAD", f"{JOB}@HEAD~1")
    assert ran.code == 2
    assert "leads out of the job's folder" in ran.err


def test_a_link_to_itself_ends(repository: Repository) -> None:
    _linked(repository, "bench.shop")
    ran = compare(repository, f"{JOB}@HEAD", f"{JOB}@HEAD~1")
    assert ran.code == 2
    assert "leads to itself" in ran.err


def test_inside_a_hook_where_git_sets_its_own_variables_it_still_finds_the_job(repository: Repository) -> None:
    hook = repository.top / ".git" / "hooks" / "pre-commit"
    hook.write_text(f"#!/bin/sh\nseatwright compare {JOB}@HEAD {JOB} >found.txt 2>&1\necho $? >>found.txt\n", "utf-8")
    hook.chmod(0o755)
    repository.edit("41.092", "41.094")
    repository.git("commit", "-q", "-a", "-m", "measured again")
    found = (repository.top / "found.txt").read_text("utf-8").splitlines()
    assert found[-2:] == ["Something changes for E1.", "1"]


def test_reading_a_revision_writes_nothing_into_the_repository(repository: Repository) -> None:
    def state() -> dict[str, bytes]:
        return {str(path): path.read_bytes() for path in sorted(repository.top.rglob("*")) if path.is_file()}

    before = state()
    compare(repository, f"{JOB}@HEAD", JOB)
    assert state() == before


def test_the_listing_is_the_same_every_time_and_ends_as_plan_does(repository: Repository) -> None:
    once, again = (seatwright("plan", "--as", "text", JOB, cwd=repository.top) for _ in range(2))
    assert once == again
    assert once.code == 0
    assert "E2  stands" in once.out


def test_what_moves_by_less_than_a_card_prints_is_counted_and_listed_for_programs(repository: Repository) -> None:
    job = repository.job.read_text("utf-8")
    repository.job.write_text(job.replace("at 22 C", "at 22.01 C").replace("temperature  22 C", "temperature  22.01 C"))
    text = compare(repository, f"{JOB}@HEAD", JOB)
    counted = int(re.search(r"^(\d+) figures move by less than the cards print", text.out, re.M)[1])
    listed = json.loads(compare(repository, f"{JOB}@HEAD", JOB, "--as", "json").out)["changed"]
    shown = sum(line.startswith("  ") and line[2] != " " for line in text.out.splitlines())
    assert counted > 0
    assert counted + shown == sum(len(each["differences"]) for each in listed)
