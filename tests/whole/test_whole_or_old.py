"""Whatever happens while files are written: the whole of the new ones, or the whole of the old ones, and it is said."""

from __future__ import annotations

import errno
import os
import shutil
import signal
import subprocess
import sys
import textwrap
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.whole.shop import JOBS

from seatwright.commands import build as building
from seatwright.commands.disk import files, lock, writing
from seatwright.commands.main import main

JOB = "single-cylinder.seat"
SETS = ("cards.html", "cards.md", "plan.json", ".built")


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a job, built once, and saved anew since."""
    for name in (JOB, "bench.shop"):
        shutil.copy(JOBS / name, tmp_path)
    monkeypatch.chdir(tmp_path)
    assert main(["build", JOB]) in (0, 3)
    save(tmp_path, "42")
    return tmp_path


def save(home: Path, number: str) -> None:
    text = (home / JOB).read_text("utf-8")
    (home / JOB).write_text(text.replace(f"job {text.split('job ', 1)[1].split()[0]} ", f"job {number} ", 1), "utf-8")


def cards(home: Path) -> dict[str, bytes]:
    folder = home / "cards" / "single-cylinder"
    return {name.name: name.read_bytes() for name in folder.iterdir() if name.is_file() and not name.is_symlink()}


def whole_set_of_the_job_as_saved(home: Path) -> dict[str, bytes]:
    shutil.rmtree(home / "cards")
    assert main(["build", JOB]) in (0, 3)
    return cards(home)


IN_THE_WAY: dict[str, tuple[Callable[[Path], object], str]] = {
    "folder": (lambda place: place.mkdir(), "a folder stands there"),
    "pipe": (os.mkfifo, "what stands there is no plain file"),
    "link": (lambda place: place.symlink_to("/dev/null"), "what stands there is no plain file"),
}


@pytest.mark.parametrize("name", SETS)
@pytest.mark.parametrize("kind", IN_THE_WAY)
def test_what_stands_in_the_way_of_one_file_is_named_and_none_is_replaced(
    kind: str, name: str, home: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    place = home / "cards" / "single-cylinder" / name
    place.unlink()
    before = cards(home)
    stand, why = IN_THE_WAY[kind]
    stand(place)
    capsys.readouterr()
    assert main(["build", JOB]) == 2
    said = capsys.readouterr().err
    assert f"cards/single-cylinder/{name} cannot be written: {why}; nothing is replaced" in said
    assert cards(home) == before


@pytest.mark.parametrize("at", range(len(SETS)))
def test_a_file_that_cannot_be_renamed_brings_the_others_back(
    at: int, home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    before, real, count = cards(home), os.replace, iter(range(100))

    def replace(old: Path, new: Path) -> None:
        if next(count) == at:
            raise PermissionError(errno.EACCES, "Permission denied", str(old))
        real(old, new)

    monkeypatch.setattr(os, "replace", replace)
    assert main(["build", JOB]) == 2
    assert "cannot be written: permission denied" in capsys.readouterr().err
    assert cards(home) == before


@pytest.mark.parametrize("words", [("build", JOB), ("format", JOB), ("new", "2.shop", "--units", "mm")], ids=" ".join)
def test_a_full_disk_leaves_what_was_there_and_nothing_else(
    words: tuple[str, ...], home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (home / JOB).write_text((home / JOB).read_text("utf-8").replace("  units ", "     units "), "utf-8")
    before = {place: place.read_bytes() for place in home.rglob("*") if place.is_file()}

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    assert main(list(words)) == 2
    assert "cannot be written: no space left on device" in capsys.readouterr().err
    assert {place: place.read_bytes() for place in home.rglob("*") if place.is_file()} == before


def test_what_a_killed_build_left_goes_with_the_next_and_nothing_that_is_not_ours(home: Path) -> None:
    folder = home / "cards" / "single-cylinder"
    ours, others = folder / ".seatwright-0123abcd.part", (folder / "notes.part", folder / ".seatwright-mine.part")
    for place in (ours, *others):
        place.write_text("x", "utf-8")
    assert main(["build", JOB]) in (0, 3)
    assert not ours.exists()
    assert all(place.exists() for place in others)


ENDING = ("SIGHUP", "SIGTERM", "SIGINT", "SIGQUIT")
THREAD = "import threading; threading.Thread(target=threading.Event().wait, args=(60,), daemon=True).start()"
STRUCK = """\
    import os, signal, sys
    from seatwright.commands.main import main
    real = os.replace
    def replace(old, new):
        if "cards" in str(new):
            os.kill(os.getpid(), signal.{number})
        real(old, new)
    os.replace = replace
    {more}
    sys.exit(main(["build", "single-cylinder.seat"]))
"""


@pytest.mark.parametrize("more", ["", THREAD], ids=["alone", "with a thread of a library"])
@pytest.mark.parametrize("number", ENDING)
def test_a_signal_between_two_renames_comes_after_the_last(number: str, more: str, home: Path) -> None:
    before = cards(home)
    if number == "SIGINT":
        more += "\nsignal.signal(signal.SIGINT, signal.default_int_handler)"
    struck = textwrap.dedent(STRUCK).format(number=number, more=more)
    ended = subprocess.run([sys.executable, "-c", struck], cwd=home, capture_output=True, timeout=60, check=False)
    assert ended.returncode == (130 if number == "SIGINT" else -getattr(signal, number))
    assert b"Traceback" not in ended.stderr
    left = cards(home)
    assert set(left) == set(SETS)
    assert left != before
    assert left == whole_set_of_the_job_as_saved(home)


def test_cards_of_an_older_job_never_land_over_those_of_a_newer(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real, saved = building._documents, []

    def slow(*given: object) -> dict[str, bytes]:
        made = real(*given)  # type: ignore[arg-type]
        if not saved:
            saved.append(True)
            save(home, "43")
            assert main(["build", JOB]) in (0, 3)  # of another, faster, who reads what is saved
        return made

    monkeypatch.setattr(building, "_documents", slow)
    assert main(["build", JOB]) in (0, 3)
    left = cards(home)
    assert left == whole_set_of_the_job_as_saved(home)
    assert b"43" in left["cards.md"]


def test_a_job_saved_without_end_is_not_built_without_end(
    home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    before = cards(home)
    monkeypatch.setattr(files.JobFiles, "stand", lambda _: False)
    assert main(["build", JOB]) == 2
    assert f"{JOB} was saved again and again" in capsys.readouterr().err
    assert cards(home) == before


def without_flock(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "fcntl", None)


@pytest.mark.parametrize("system", [lambda _: None, without_flock], ids=["flock", "none"])
def test_two_never_write_into_one_folder_at_once(
    system: Callable[[pytest.MonkeyPatch], None], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    system(monkeypatch)
    monkeypatch.setattr(lock, "_PATIENCE", 0.1)
    with (
        lock.one_at_a_time(tmp_path),
        pytest.raises(TimeoutError, match="does not end"),
        lock.one_at_a_time(tmp_path),
    ):
        pass
    with lock.one_at_a_time(tmp_path):
        pass
    assert list(tmp_path.iterdir()) == []


def test_a_lock_file_that_was_left_behind_is_taken_away(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    without_flock(monkeypatch)
    (tmp_path / lock.LOCK_NAME).touch()
    os.utime(tmp_path / lock.LOCK_NAME, (time.time() - 60,) * 2)
    with lock.one_at_a_time(tmp_path):
        pass
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("mask,mode", [(0o022, 0o644), (0o077, 0o600), (0o002, 0o664)])
def test_cards_are_for_those_for_whom_new_files_are(mask: int, mode: int, home: Path) -> None:
    shutil.rmtree(home / "cards")
    before = os.umask(mask)
    try:
        assert main(["build", JOB]) in (0, 3)
        assert main(["new", "2.shop", "--units", "mm"]) == 0
    finally:
        os.umask(before)
    modes = {place.stat().st_mode & 0o777 for place in (home / "cards" / "single-cylinder").iterdir()}
    assert modes == {mode}
    assert (home / "2.shop").stat().st_mode & 0o777 == mode


@pytest.fixture
def askew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    place = tmp_path / "1.shop"
    place.write_text('shop   "x"\n    units mm\n', "utf-8")
    monkeypatch.chdir(tmp_path)
    return place


@pytest.mark.parametrize("exchange", [True, False])
def test_what_an_editor_saves_while_a_file_is_set_is_kept(
    exchange: bool, askew: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def chmod(part: Path, mode: int) -> None:
        askew.write_text("saved\n", "utf-8")

    monkeypatch.setattr(os, "chmod", chmod)
    if not exchange:
        monkeypatch.setattr(writing, "_change_places", lambda *_: False)
    assert main(["format", "1.shop"]) == 2
    assert "1.shop was saved while its layout was made" in capsys.readouterr().err
    assert askew.read_text("utf-8") == "saved\n"
    assert os.listdir() == ["1.shop"]


@pytest.mark.skipif(sys.platform != "linux", reason="exchanging two files is Linux's own")
@pytest.mark.parametrize("twice", [False, True])
def test_what_is_saved_in_the_very_moment_of_writing_is_kept(
    twice: bool, askew: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real, saves = writing._change_places, ["first\n", "second\n"][: 2 if twice else 1]

    def change_places(one: Path, other: Path) -> bool:
        if saves:
            Path("aside").write_text(saves.pop(0), "utf-8")
            os.replace("aside", askew)
        return real(one, other)

    monkeypatch.setattr(writing, "_change_places", change_places)
    assert main(["format", "1.shop"]) == 2
    assert askew.read_text("utf-8") == ("second\n" if twice else "first\n")
    assert os.listdir() == ["1.shop"]


def test_a_file_with_two_names_is_left_as_it_is(askew: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = askew.read_bytes()
    os.link(askew, "2.shop")
    assert main(["format", "1.shop"]) == 2
    assert "it has 2 names on this disk (hard links)" in capsys.readouterr().err
    assert askew.samefile("2.shop")
    assert askew.read_bytes() == before


def test_new_makes_a_file_also_where_no_link_can_be_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delattr(os, "link")
    assert main(["new", "1.shop", "--units", "mm"]) == 0
    assert os.listdir() == ["1.shop"]
    with pytest.raises(FileExistsError):
        writing.create(tmp_path / "1.shop", b"")
