"""A job in which everything is filled in is told of nothing that is missing."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

from tests.whole.shop import JOBS, seatwright

FILLED = {
    "ready-to-leave.seat": (
        ("  units      mm\n", "  units      mm\n  paper      a4\n"),
        ("  temperature    22 C\n", "  temperature    22 C +/- 1\n"),
    ),
    "bench.shop": (
        ("  ring              35.000", "  ring              32.000 reads 32.000\n  ring              35.000"),
    ),
}


def test_only_what_was_found_out_is_said_of_a_job_with_everything_filled_in(tmp_path: Path) -> None:
    shutil.copytree(JOBS / "engines", tmp_path / "engines")
    for name, lines in FILLED.items():
        text = (JOBS / name).read_text("utf-8")
        for old, new in lines:
            assert text.count(old) == 1, (name, old)
            text = text.replace(old, new)
        (tmp_path / name).write_text(text, "utf-8")
    ran = seatwright("check", "--as", "json", "ready-to-leave.seat", cwd=tmp_path)
    said = {message["slug"] for message in json.loads(ran.out)["messages"]}
    # What the fit does to the metal between two inserts is a figure, not an omission.
    assert said == {"head-stress-upper-estimate"}
