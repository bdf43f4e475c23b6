"""A new file checks clean whatever its name, and speaks in the units asked for."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.whole.shop import seatwright

FLAGS = ("--cylinders", "2", "--valves-per-cylinder", "2", "--material", "aluminium")


@pytest.mark.parametrize("name", ["x y", "none", "Überholung 3", "12 in", "a#b", "mm", "日本", "job 7"])
def test_a_new_job_checks_clean_whatever_its_name(name: str, tmp_path: Path) -> None:
    made = seatwright("new", f"{name}.seat", *FLAGS, "--units", "inch", cwd=tmp_path)
    assert made.code == 0, made.err
    checked = seatwright("check", f"{name}.seat", cwd=tmp_path)
    assert checked.code == 0, checked.err
    assert "error" not in checked.err


def test_a_file_in_inches_has_its_examples_in_inches_and_fahrenheit(tmp_path: Path) -> None:
    # 0.05 mm = .00197 in, 24 °C = 75.2 °F.
    assert seatwright("new", "a.seat", *FLAGS, "--units", "inch", cwd=tmp_path).code == 0
    assert seatwright("new", "a.shop", "--units", "inch", cwd=tmp_path).code == 0
    job, shop = ((tmp_path / name).read_text("utf-8") for name in ("a.seat", "a.shop"))
    assert re.search(r"^ *# seat-runout \.002 tir", job, re.MULTILINE)
    assert re.search(r"^ *# temperature 75 F", job, re.MULTILINE)
    assert " mm " not in re.sub(r"#  .*|# [a-z].*left out.*", "", job)
    assert not re.search(r"[0-9] C\b(?!1)", job + shop)
