"""`seatwright format` as a person or an editor runs it: what is written, where, and how it ends."""

from __future__ import annotations

import json
import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest
from tests.whole.shop import ROOT, seatwright

LOOSE = b'job 7 "a"\r\nunits mm # as ever\r\n\r\n\r\nvalves i1\r\nbore   44.02'
SET = b'job 7 "a"\n  units  mm  # as ever\n\nvalves I1\n  bore  44.02\n'


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "a.seat"
    path.write_bytes(LOOSE)
    return path


def test_a_file_is_set_in_place_and_keeps_its_mode(job: Path) -> None:
    job.chmod(0o640)
    ran = seatwright("format", "a.seat", cwd=job.parent)
    assert (ran.code, ran.out, ran.err) == (0, "", "")
    assert job.read_bytes() == SET
    assert stat.S_IMODE(job.stat().st_mode) == 0o640
    assert [path.name for path in job.parent.iterdir()] == ["a.seat"]


def test_a_file_in_its_layout_is_not_touched(job: Path) -> None:
    job.write_bytes(SET)
    os.utime(job, ns=(1, 1))
    before = job.stat()
    assert seatwright("format", "a.seat", cwd=job.parent).code == 0
    assert (job.stat().st_mtime_ns, job.stat().st_ino) == (before.st_mtime_ns, before.st_ino)


def test_a_link_stays_a_link_and_its_file_is_set(job: Path) -> None:
    (job.parent / "elsewhere").mkdir()
    target = job.rename(job.parent / "elsewhere" / "b.seat")
    job.symlink_to(target)
    assert seatwright("format", "a.seat", cwd=job.parent).code == 0
    assert job.is_symlink()
    assert target.read_bytes() == SET


def test_check_names_the_files_that_would_change_and_writes_nothing(job: Path) -> None:
    (job.parent / "b.seat").write_bytes(SET)
    ran = seatwright("format", "--check", "a.seat", "b.seat", cwd=job.parent)
    assert (ran.code, ran.out, ran.err) == (1, "a.seat would change\n", "")
    assert job.read_bytes() == LOOSE
    assert seatwright("format", "--check", "b.seat", cwd=job.parent).code == 0


def test_the_difference_is_one_that_patch_takes(job: Path) -> None:
    ran = subprocess.run(
        [sys.executable, "-m", "seatwright", "format", "--diff", "a.seat"],
        cwd=job.parent,
        capture_output=True,
        check=True,
    )
    assert job.read_bytes() == LOOSE
    assert b"\\ No newline at end of file\n" in ran.stdout
    patched = subprocess.run(
        ["patch", "--binary", "-p0"], input=ran.stdout, cwd=job.parent, check=True, capture_output=True
    )
    assert patched.returncode == 0
    assert job.read_bytes() == SET
    assert seatwright("format", "--diff", "a.seat", cwd=job.parent).out == ""


def test_check_and_diff_together_end_as_check_does(job: Path) -> None:
    ran = seatwright("format", "--check", "--diff", "a.seat", cwd=job.parent)
    assert ran.code == 1
    assert ran.out.startswith("--- a.seat")


def test_standard_input_goes_to_standard_output() -> None:
    ran = seatwright("format", "-", stdin=LOOSE)
    assert (ran.code, ran.out.encode(), ran.err) == (0, SET, "")
    assert seatwright("format", "-", "--check", stdin=LOOSE).out == "standard input would change\n"


@pytest.mark.parametrize(
    "given", [b"\n", b"  ", b"\xef\xbb\xbf", b"#", b"qwertz\n", b'"open\n', SET.replace(b"\n", b"\r")]
)
def test_standard_output_is_never_empty_when_the_input_was_not(given: bytes) -> None:
    ran = seatwright("format", "-", stdin=given)
    assert ran.code == 0
    assert ran.out
    assert seatwright("format", "-", stdin=b"").out == ""


@pytest.mark.parametrize(
    "given", [SET.decode().encode("utf-16"), b"a\0b", b"job \xff"], ids=["UTF-16", "binary", "8 bit"]
)
def test_what_is_no_text_is_refused_and_nothing_is_lost(given: bytes, job: Path) -> None:
    job.write_bytes(given)
    ran = seatwright("format", "a.seat", cwd=job.parent)
    assert (ran.code, ran.out) == (2, "")
    assert "UTF-8" in ran.err or "text" in ran.err
    assert job.read_bytes() == given
    piped = subprocess.run(
        [sys.executable, "-m", "seatwright", "format", "-"], input=given, capture_output=True, check=False
    )
    assert (piped.returncode, piped.stdout) == (2, given)


def test_a_file_with_mistakes_is_set_around_them_and_they_are_named(job: Path) -> None:
    job.write_bytes(LOOSE + b"\n bore:  44.03\nmeterial  iron\n")
    ran = seatwright("format", "a.seat", cwd=job.parent)
    assert ran.code == 0
    assert "lines 7, 8 left as typed" in ran.err
    assert job.read_bytes() == SET + b" bore:  44.03\nmeterial  iron\n"


def test_one_file_that_cannot_be_read_does_not_keep_the_others(job: Path) -> None:
    ran = seatwright("format", "none.seat", ".", "a.seat", cwd=job.parent)
    assert ran.code == 2
    assert "none.seat cannot be read" in ran.err
    assert "is a folder" in ran.err
    assert job.read_bytes() == SET


def test_a_fault_of_the_formatter_leaves_the_file_alone(job: Path) -> None:
    program = (
        "import sys\nfrom seatwright.syntax.formatting import format as layout\ngood = layout.lay_out\n"
        "layout.lay_out = lambda *given: ([line.replace('44.02', '44.0') for line in good(*given)[0]], ())\n"
        "from seatwright.commands.main import main\nsys.exit(main(['format', *sys.argv[1:]]))\n"
    )
    ran = subprocess.run([sys.executable, "-c", program, "a.seat"], cwd=job.parent, capture_output=True, check=False)
    assert ran.returncode == 2
    assert b"a.seat is left as it is, a fault of the formatter's own" in ran.stderr
    assert job.read_bytes() == LOOSE
    piped = subprocess.run([sys.executable, "-c", program, "-"], input=LOOSE, capture_output=True, check=False)
    assert (piped.returncode, piped.stdout) == (2, LOOSE)


def test_it_starts_without_the_planner_and_the_libraries_of_the_cards() -> None:
    program = (
        "import json, sys\nfrom seatwright.commands.main import main\n"
        "main(['format', '--check', 'jobs/bench.shop', 'jobs/single-cylinder.seat'])\n"
        "print(json.dumps(sorted(sys.modules)))\n"
    )
    ran = subprocess.run([sys.executable, "-c", program], cwd=ROOT, capture_output=True, check=True)
    loaded = set(json.loads(ran.stdout))
    assert "seatwright.syntax.formatting.format" in loaded
    unwanted = ("pint", "jinja2", "markdown_it", "difflib", "subprocess", "seatwright.handbook", "seatwright.planning",
                "seatwright.cards", "seatwright.job.model", "seatwright.job.reader")  # fmt: skip
    assert not loaded & set(unwanted)
