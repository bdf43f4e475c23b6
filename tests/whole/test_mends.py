"""`check --fix`: every slip of writing with one certain mend, never a figure, never a worse file."""

from __future__ import annotations

import json
import random
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.mistakes.table import entries
from tests.whole.shop import JOBS, seatwright

from seatwright.job import read
from seatwright.job.mending import as_mended
from seatwright.text import Severity

SLIPS = """\
job 7 "x"
  units  mm
  received  11/23/2026

head "h"
  material  grey irn
  least_bridge  3,5
  valves  I1 E1

valves E1
  stem: 7,97mm
  seat-width  1.6-2.0
  bottom-angle  60
  guide-length  4O

measurd
  valve  pocket-a
  E1     44.O2
"""
MENDED = """\
job 7 "x"
  units  mm
  received  2026-11-23

head "h"
  material  grey iron
  least-bridge  3.5
  valves  I1 E1

valves E1
  stem 7.97 mm
  seat-width  1.6 to 2.0
  throat-angle  60
  guide-length  40

measured
  valve  pocket-a
  E1     44.02
"""


def nothing(name: str) -> bytes:
    raise FileNotFoundError(name)


def loading(files: dict[str, bytes]) -> Callable[[str], bytes]:
    """The files at hand; any other is not there."""
    return lambda name: files[name] if name in files else nothing(name)


def errors(name: str, data: bytes, files: dict[str, bytes]) -> int:
    every = {**files, name: data}
    return sum(message.severity is Severity.ERROR for message in read(name, loading(every))[1])


def test_each_slip_is_mended_as_the_message_says_and_twice_is_once() -> None:
    once, count = as_mended("a.seat", SLIPS.encode(), nothing)
    assert once.decode() == MENDED
    assert count == 11
    assert as_mended("a.seat", once, nothing) == (once, 0)


def test_a_byte_order_mark_and_the_line_ends_of_a_file_stay() -> None:
    windows = b"\xef\xbb\xbf" + SLIPS.replace("\n", "\r\n").encode()
    assert as_mended("a.seat", windows, nothing)[0] == b"\xef\xbb\xbf" + MENDED.replace("\n", "\r\n").encode()


@pytest.mark.parametrize("written", ["7 97", "1.500.00", "38.0 +0.3", "30", "11/12/2026", "0.05", "~8.0"])
def test_what_may_be_meant_in_two_ways_is_left_as_typed(written: str) -> None:
    field = "received" if "/" in written else "stem"
    text = f'job 7 "x"\n  units  mm\n{"" if field == "stem" else f"  received  {written}"}\n\nhead "h"\n  valves  I1\n'
    text += f"\nvalves I1\n  stem  {written}\n" if field == "stem" else ""
    assert as_mended("a.seat", text.encode(), nothing) == (text.encode(), 0)


def test_no_mistake_of_the_table_gets_other_digits_or_more_errors() -> None:
    mended = 0
    for mistake in entries():
        files = {name: text.encode() for name, text in mistake.files.items()}
        before = files["a.seat"]
        after, count = as_mended("a.seat", before, loading(files))
        assert errors("a.seat", after, files) <= errors("a.seat", before, files), mistake.name
        if not re.search(r"\d[Ol]|[Ol]\d", before.decode()):
            assert sorted(re.findall(rb"\d", after)) == sorted(re.findall(rb"\d", before)), mistake.name
        assert as_mended("a.seat", after, loading(files)) == (after, 0), mistake.name
        mended += bool(count)
    assert mended >= 35


@pytest.mark.slow
def test_no_mutant_gets_another_figure_or_is_worse() -> None:
    chance = random.Random(20261128)
    files = {path.name: path.read_bytes() for path in JOBS.iterdir() if path.suffix in (".seat", ".shop")}
    text = files["single-cylinder.seat"].decode()
    for _ in range(1000):
        at = chance.randrange(len(text))
        mutant = text[:at] + chance.choice(",;:=-/.~ '_xe") + text[at + chance.randrange(2) :]
        data = mutant.encode()
        after, _ = as_mended("single-cylinder.seat", data, loading(files))
        assert re.findall(rb"\d", after) == re.findall(rb"\d", data), mutant[at - 20 : at + 20]
        assert errors("single-cylinder.seat", after, files) <= errors("single-cylinder.seat", data, files)


def test_the_command_writes_shows_and_tells_programs(tmp_path: Path) -> None:
    (tmp_path / "a.seat").write_text(SLIPS)
    said = json.loads(seatwright("check", "--as", "json", "a.seat", cwd=tmp_path).out)["messages"]
    comma = next(message for message in said if message["slug"] == "decimal-comma")
    assert comma["fix"] == {"line": 11, "column": 9, "end_line": 11, "end_column": 15, "text": "7.97 mm"}
    shown = seatwright("check", "--fix", "--diff", "a.seat", cwd=tmp_path)
    assert "+  seat-width  1.6 to 2.0" in shown.out
    assert (tmp_path / "a.seat").read_text() == SLIPS
    assert seatwright("check", "--fix", "a.seat", cwd=tmp_path).out == "a.seat: 11 slips mended\n"
    assert (tmp_path / "a.seat").read_text() == MENDED


def test_a_shop_file_is_checked_by_itself(tmp_path: Path) -> None:
    (tmp_path / "a.shop").write_text('shop "a"\n  units  mm\n\npractice\n  cleen-up  0.1\n')
    wrong = seatwright("check", "a.shop", cwd=tmp_path)
    assert (wrong.code, "a.shop:5:3" in wrong.err, "clean-up" in wrong.err) == (1, True, True)
    right = seatwright("check", "bench.shop", cwd=JOBS)
    assert (right.code, right.out) == (0, "bench.shop: no errors\n")
