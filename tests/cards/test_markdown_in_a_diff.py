"""cards.md is fit to be committed: a snapshot of each demo job's, and what one changed reading does to it."""

from __future__ import annotations

import difflib
import re

import pytest
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode
from tests.cards.demo import DEMO_JOBS, JOBS, made, plan_of

from seatwright.cards.render import documents
from seatwright.job import read
from seatwright.planning import planner


class AsMarkdown(SingleFileSnapshotExtension):
    """A file of its own for each, which can be read as it is."""

    _write_mode = WriteMode.TEXT
    file_extension = "md"


@pytest.mark.parametrize("name", DEMO_JOBS)
def test_the_cards_of_a_demo_job_read_as_they_did(name: str, snapshot: SnapshotAssertion) -> None:
    text = documents(plan_of(name)).markdown
    # The stamp of the sources follows the version and every comment of the job; all else is the cards' own.
    text = re.sub(r"\nsources [0-9a-f]{8}\n$", "\n", text)
    assert text == snapshot(extension_class=AsMarkdown)


def changed(name: str, before: str, after: str) -> list[str]:
    """The lines of cards.md that come or go when one line of a job is typed otherwise."""

    def load(path: str) -> bytes:
        text = (JOBS / path).read_text("utf-8")
        assert path != f"{name}.seat" or text.count(before) == 1
        return text.replace(before, after).encode("utf-8")

    job, messages = read(f"{name}.seat", load)
    assert job is not None, messages
    new = documents(planner.plan(job), commit="0" * 40).markdown
    old = documents(plan_of(name), commit="0" * 40).markdown
    lines = difflib.unified_diff(old.splitlines(), new.splitlines(), lineterm="", n=0)
    return [line for line in lines if line[0] in "+-" and not line.startswith(("+++", "---"))]


@pytest.mark.parametrize(
    "before,after",
    [
        ("E1     9.018      9.009              9.026         -0.50      46.85", "E1 9.018 9.009 9.027 -0.50 46.85"),
        ("I1     9.011      9.006              9.016         -0.65      47.20", "I1 9.011 9.006 9.017 -0.65 47.20"),
        ("I1     46.032    46.051 ", "I1     46.032    46.052 "),
    ],
)
def test_one_changed_reading_changes_only_the_lines_that_bear_it(before: str, after: str) -> None:
    found = changed("four-cylinder-diesel", before, after)
    valve = before[:2]
    stamps = [line for line in found if re.match(r"[+-](card \d+ of \d+, stamp |sources )", line)]
    rest = [line for line in found if line not in stamps]
    assert rest
    assert len(stamps) <= 8, "a card that does not bear it keeps its stamp"
    assert all(re.search(rf"\b{valve}\b", line) for line in rest), rest


def test_every_line_of_it_can_be_read_without_a_reader() -> None:
    for name in DEMO_JOBS:
        text = made(name, "a4").markdown
        assert not re.search(r"[ \t]+$", text, re.M), "white space at the end of a line"
        assert "\n\n\n" not in text
        assert text.endswith("\n")
        assert "<" not in re.sub(r"\\<", "", text), "no HTML"
        assert text.startswith("# 1. ")
