"""`build` and `check` end with one screen, and nothing that was said is lost: `check --all` says it."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from tests.whole.shop import DEMO_JOBS, seatwright

from seatwright.text.registry import declared

_MESSAGE = re.compile(r"^(error|hold|warning|notice) ([a-z-]+)  \S+:\d+:\d+", re.MULTILINE)


@pytest.mark.parametrize("job", DEMO_JOBS, ids=lambda job: job.stem)
def test_a_build_fits_on_one_screen(job: Path, tmp_path: Path) -> None:
    built = seatwright("build", job.name, "-o", str(tmp_path), cwd=job.parent)
    lines = (built.out + built.err).splitlines()
    assert len(lines) <= 40
    following = lines[lines.index("next:") + 1 :] if "next:" in lines else []
    steps = [line for line in following if line.startswith("  ")]
    assert len(steps) <= 5
    assert re.fullmatch(rf"\d+ topics? not given or not checked: `seatwright check {job.name}`", lines[-1])


def test_the_first_command_of_the_readme_answers_in_thirty_lines(tmp_path: Path) -> None:
    job = next(job for job in DEMO_JOBS if job.stem == "single-cylinder")
    built = seatwright("build", job.name, "-o", str(tmp_path), cwd=job.parent)
    assert len((built.out + built.err).splitlines()) <= 30


@pytest.mark.parametrize("job", DEMO_JOBS, ids=lambda job: job.stem)
def test_all_that_is_said_to_programs_is_said_by_check_all_once_a_slug(job: Path) -> None:
    lines = seatwright("check", "--as", "lines", job.name, cwd=job.parent).out
    slugs = set(re.findall(r" (?:error|hold|warning|notice) ([a-z-]+): ", lines))
    every = seatwright("check", "--all", job.name, cwd=job.parent).err
    named = [slug for _, slug in _MESSAGE.findall(every)]
    assert sorted(named) == sorted(slugs)
    briefly = seatwright("check", job.name, cwd=job.parent).err
    assert all(slug in briefly for slug in slugs)
    topics = {declared()[slug].topic for slug in slugs if declared()[slug].topic}
    assert len([line for line in briefly.splitlines() if line.startswith("notice")]) == len(topics)


def test_json_keeps_a_place_for_each() -> None:
    job = next(job for job in DEMO_JOBS if job.stem == "four-cylinder-diesel")
    said = json.loads(seatwright("check", "--as", "json", job.name, cwd=job.parent).out)["messages"]
    lines = seatwright("check", "--as", "lines", job.name, cwd=job.parent).out
    for message in said:
        there = set(re.findall(rf":(\d+):\d+: {message['severity']} {message['slug']}: ", lines))
        of_it = {str(message["line"])} | {str(related["line"]) for related in message["related"] if related["same"]}
        assert of_it == there, message["slug"]


def test_a_valve_whose_insert_a_big_bore_may_take_is_not_told_to_be_bored(tmp_path: Path) -> None:
    job = next(job for job in DEMO_JOBS if job.stem == "half-way")
    built = seatwright("build", job.name, "-o", str(tmp_path), cwd=job.parent).out
    assert "Wait with E4: E3 may take the insert; settle that first." in built
    assert not re.search(r"^  Bore .*E4", built, re.MULTILINE)
