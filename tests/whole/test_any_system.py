"""Every command on every system: whatever files are called, whatever output is taken for, whatever Python lacks."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from tests.whole.shop import JOBS

from seatwright.commands.main import main

JOB = "single-cylinder.seat"
COMMANDS = (
    ("build", JOB),
    ("build", JOB, JOB.replace("single", "two"), JOB.replace("single", "three")),
    ("check", JOB),
    ("check", "--as", "json", JOB),
    ("plan", JOB),
    ("plan", "--as", "text", JOB),
    ("compare", JOB, JOB),
    ("textconv", JOB),
    ("explain", JOB, "I1"),
    ("explain", "bridge-thin"),
    ("format", JOB),
    ("new", "new.shop", "--units", "mm"),
    ("completion", "bash"),
    ("manual",),
)


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Three jobs with their shop file, one of them not in its layout."""
    for name in (JOB, "bench.shop"):
        shutil.copy(JOBS / name, tmp_path)
    askew = (tmp_path / JOB).read_text("utf-8").replace("\n  units ", "\n    units ", 1)
    for name in ("single", "two", "three"):
        (tmp_path / JOB.replace("single", name)).write_text(askew, "utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def ran(home: Path, *words: str | bytes, **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "seatwright", *words],
        cwd=home,
        capture_output=True,
        timeout=120,
        check=False,
        env=os.environ | environment,
    )


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "cp437", "utf-16"])
@pytest.mark.parametrize(
    "words", [("explain", JOB, "I1"), ("compare", JOB, "two-cylinder.seat"), ("plan", JOB)], ids=str
)
def test_output_is_utf_8_wherever_it_goes(words: tuple[str, ...], encoding: str, home: Path) -> None:
    other = home / "two-cylinder.seat"
    other.write_text(other.read_text("utf-8").replace("22 C", "24 C", 1), "utf-8")
    expected = ran(home, *words, PYTHONIOENCODING="utf-8")
    found = ran(home, *words, PYTHONIOENCODING=encoding)
    assert (found.returncode, found.stdout) == (expected.returncode, expected.stdout)
    assert found.stdout.decode("utf-8")
    assert b"Traceback" not in found.stderr


LACKS = {
    "owners": "for name in ('chown', 'geteuid', 'fchmod'): hasattr(os, name) and delattr(os, name)",
    "forks": "for name in ('fork', 'sched_getaffinity', 'register_at_fork'): delattr(os, name)\n"
    "import multiprocessing\nget = multiprocessing.get_context\n"
    "multiprocessing.get_context = lambda method: get({'fork': 'spawn'}[method])",
    "file locks": "sys.modules['fcntl'] = None",
    "signals": "import signal\ndel signal.SIGHUP, signal.SIGQUIT",
    "links": "del os.link\nos.O_NOFOLLOW = 0\ndel os.O_NONBLOCK",
    "exchange": "sys.platform = 'freebsd14'",
}


@pytest.mark.slow
@pytest.mark.parametrize("lack", LACKS)
def test_every_command_works_where_the_system_has_less(lack: str, home: Path) -> None:
    begin = f"import os, sys\n{LACKS[lack]}\nfrom seatwright.commands.main import main\n"
    for words in COMMANDS:
        text = f"{begin}if __name__ == '__main__':\n    sys.exit(main({list(words)!r}))\n"
        (home / "begin.py").write_text(text, "utf-8")
        done = subprocess.run([sys.executable, "begin.py"], cwd=home, capture_output=True, timeout=120, check=False)
        assert done.returncode in (0, 3), (words, done.stderr)
        assert b"Traceback" not in done.stderr, words
    assert not list(home.rglob(".seatwright*"))


ODD = {
    "bytes": b"a\xff\xfe.seat",
    "escape": b"a\x1b]0;x\x07.seat",
    "direction": "a\u202etaes.seat".encode(),
    "long": b"x" * 250 + b".seat",
}


@pytest.mark.parametrize("name", ODD)
def test_a_job_of_any_name_is_built_and_its_name_is_shown_and_never_obeyed(name: str, home: Path) -> None:
    shutil.copy(home / JOB, os.path.join(os.fsencode(home), ODD[name]))
    for words in (("build",), ("build",), ("check",), ("check", "--as", "sarif"), ("plan",), ("format", "--check")):
        done = ran(home, *words, ODD[name])
        assert done.returncode in (0, 1, 3), (words, done.stderr)
        said = done.stdout + done.stderr
        assert b"Traceback" not in said, words
        assert not {0x1B, 0x07} & set(said), words
        assert "\u202e" not in said.decode("utf-8"), words
    assert len(list((home / "cards").iterdir())) == 1


@pytest.mark.parametrize("command", ["build", "check", "plan", "format", "textconv", "new"])
def test_a_name_that_no_disk_takes_is_refused_in_words(
    command: str, home: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    more = ["--units", "mm"] if command == "new" else []
    assert main([command, "x" * 300 + ".shop", *more]) == 2
    assert f"seatwright {command}: xxx" in capsys.readouterr().err


@pytest.mark.parametrize(
    "name", ["..seat", "...seat", ".seat", ".hidden.seat", "a..seat", "a .seat", "con.seat", "NUL.seat", "com1.x.seat"]
)
def test_a_name_that_gives_no_folder_of_its_own_everywhere_is_refused_before_anything_is_written(
    name: str, home: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.copy(JOB, name)
    before = sorted(home.rglob("*"))
    assert main(["build", JOB, name]) == 2
    assert f"seatwright build: {name} is no name for a job" in capsys.readouterr().err
    os.unlink(name)
    flags = ["--cylinders", "1", "--valves-per-cylinder", "2", "--units", "mm", "--material", "grey iron"]
    assert main(["new", name, *flags]) == 2
    assert sorted(home.rglob("*")) == [each for each in before if each.name != name]


def test_names_that_differ_only_in_capitals_are_refused(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    shutil.copy(JOB, "Single-Cylinder.seat")
    assert main(["build", JOB, "Single-Cylinder.seat"]) == 2
    assert not Path("cards").exists()
    assert main(["build", JOB]) in (0, 3)
    capsys.readouterr()
    assert main(["build", "Single-Cylinder.seat"]) == 2
    assert "is one with cards/Single-Cylinder on a disk that ignores capitals" in capsys.readouterr().err
    assert os.listdir("cards") == ["single-cylinder"]
    assert main(["new", "BENCH.shop", "--units", "mm"]) == 2


def test_loops_of_links_are_answered_in_words(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for name in ("loop", "loop.shop", "loop.seat", "cards", "templates"):
        os.symlink(name, name)
    assert main(["build", JOB]) == 2
    assert "cards/single-cylinder cannot be written" in capsys.readouterr().err
    for words in (
        ["build", "-o", "loop", JOB],
        ["check", "loop.seat"],
        ["format", "loop.shop"],
        ["plan", "loop/a.seat"],
    ):
        assert main(words) == 2, words
    assert main(["build", "-o", "out", "--templates", "loop", JOB]) == 2
    Path(JOB).write_text(Path(JOB).read_text("utf-8").replace("bench.shop", "loop.shop"), "utf-8")
    assert main(["check", JOB]) == 1
    assert "use-unreadable" in capsys.readouterr().err


@pytest.mark.parametrize("name", ["in", "inch", "mm", "F", "any", "none"])
def test_new_writes_a_file_that_checks_clean_whatever_it_is_called(name: str, home: Path) -> None:
    assert main(["new", f"{name}.shop", "--units", "mm"]) == 0
    text = Path(JOB).read_text("utf-8").replace('use "bench.shop"', f'use "bench.shop"\nuse "{name}.shop"')
    Path(JOB).write_text(text, "utf-8")
    assert main(["check", JOB]) in (0, 3)


def test_a_character_of_no_width_at_the_end_of_a_comment_stays(home: Path) -> None:
    Path("1.shop").write_text('shop   "x"  # a\u200d \n    units mm\n# b\u200b\n', "utf-8")
    assert main(["format", "1.shop"]) == 0
    assert Path("1.shop").read_text("utf-8") == 'shop "x"  # a\u200d\n  units  mm\n  # b\u200b\n'


BEGUN = """\
import os, sys
try:
    os.write(1, b".")
except KeyboardInterrupt:  # on a busy machine it may come before this line is done, where nothing of ours runs yet
    sys.exit(130)
sys.argv = ["seatwright", "build", "{job}"]
from seatwright.__main__ import run
run()
"""


@pytest.mark.slow
def test_ctrl_c_in_the_first_moments_ends_it_without_a_traceback(home: Path) -> None:
    codes = set()
    for moment in range(24):
        process = subprocess.Popen(
            [sys.executable, "-c", BEGUN.format(job=JOB)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=home
        )
        assert process.stdout is not None
        process.stdout.read(1)
        time.sleep(0.005 + 0.02 * moment)
        process.send_signal(signal.SIGINT)
        _, said = process.communicate(timeout=60)
        assert b"Traceback" not in said
        assert said in (b"", b"seatwright: stopped\n") or process.returncode in (0, 3), said
        codes.add(process.returncode)
    assert codes <= {-signal.SIGINT, 130, 0, 3}
    assert codes & {-signal.SIGINT, 130}
