"""A job whose cards stand as they would be built is left alone, and built again when anything at all has changed."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.whole.shop import JOBS, Ran, seatwright

from seatwright.commands.build import Print, build
from seatwright.commands.disk import files
from seatwright.commands.jobs import unchanged


@pytest.fixture
def home(tmp_path: Path) -> Path:
    for name in ("bench.shop", "single-cylinder.seat"):
        shutil.copy(JOBS / name, tmp_path)
    assert "unchanged" not in built(tmp_path).out
    return tmp_path


def built(home: Path, *more: str) -> Ran:
    return seatwright("build", "single-cylinder.seat", *more, cwd=home)


def cards(home: Path) -> dict[str, tuple[bytes, int]]:
    folder = home / "cards" / "single-cylinder"
    return {each.name: (each.read_bytes(), each.stat().st_mtime_ns) for each in sorted(folder.iterdir())}


def rewrite(place: Path, old: str, new: str) -> None:
    text = place.read_text("utf-8")
    assert old in text
    place.write_text(text.replace(old, new, 1), "utf-8")


def test_an_unchanged_job_says_what_it_said_and_no_file_is_touched(home: Path) -> None:
    before = cards(home)
    first, again = built(home, "--afresh"), built(home)
    assert again.out == first.out.replace("\n", ", unchanged\n", 1)
    assert (again.code, again.err) == (first.code, first.err)
    assert cards(home) == before


CHANGES: dict[str, Callable[[Path], object]] = {
    "job": lambda home: rewrite(home / "single-cylinder.seat", "job 41", "job 42"),
    "job, comment only": lambda home: rewrite(home / "single-cylinder.seat", "job 41", "# again\njob 41"),
    "shop file": lambda home: rewrite(home / "bench.shop", "0.002", "0.001"),
    "own template": lambda home: shutil.copytree(JOBS.parent / "templates", home / "templates"),
    "cards written into": lambda home: (home / "cards/single-cylinder/cards.html").write_text("no", "utf-8"),
    "cards taken away": lambda home: (home / "cards/single-cylinder/cards.md").unlink(),
    "record broken": lambda home: (home / "cards/single-cylinder/.built").write_text("{", "utf-8"),
    "record of another kind": lambda home: (home / "cards/single-cylinder/.built").write_text("[]", "utf-8"),
    "record edited": lambda home: rewrite(home / "cards/single-cylinder/.built", "cards in", "no cards in"),
    "record with an escape": lambda home: with_its_own_checksum(home / "cards/single-cylinder/.built", "cards in"),
    "commit": lambda home: committed(home),
}


def with_its_own_checksum(place: Path, before: str) -> None:
    """Somebody who knows how a record is kept puts something for a terminal into it."""
    body = place.read_text("utf-8").split("\n", 1)[1].replace(before, f"\\u001b]0;x\\u0007{before}", 1)
    place.write_text(f"{files.fingerprint(body.encode())}\n{body}", "utf-8")


def committed(home: Path) -> None:
    for words in (["init", "-q"], ["add", "single-cylinder.seat", "bench.shop"], ["commit", "-qm", "x"]):
        git = ["git", "-c", "user.name=x", "-c", "user.email=x@x", *words]
        subprocess.run(git, cwd=home, check=True, env={**os.environ, "GIT_CONFIG_GLOBAL": os.devnull})


@pytest.mark.parametrize("change", CHANGES)
def test_any_change_builds_again_what_a_first_build_would(home: Path, change: str) -> None:
    CHANGES[change](home)
    again = built(home)
    assert "unchanged" not in again.out
    made = {name: content for name, (content, _) in cards(home).items()}
    shutil.rmtree(home / "cards")
    assert built(home).out == again.out
    assert {name: content for name, (content, _) in cards(home).items()} == made
    assert "unchanged" in built(home).out


@pytest.mark.parametrize("words", [("--paper", "letter"), ("--afresh",)], ids=" ".join)
def test_other_words_build_again(home: Path, words: tuple[str, ...]) -> None:
    assert "unchanged" not in built(home, *words).out


def test_another_program_builds_again(
    home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(home)
    build(["single-cylinder.seat"], None, Print())
    assert "unchanged" in capsys.readouterr().out
    monkeypatch.setattr(unchanged, "program", lambda: "of tomorrow")
    build(["single-cylinder.seat"], None, Print())
    assert "unchanged" not in capsys.readouterr().out


def test_a_program_is_told_from_one_with_another_file_or_version(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = unchanged.program.__wrapped__
    (tmp_path / "render.py").write_text("1", "utf-8")
    monkeypatch.setattr(unchanged, "_ROOMS", tmp_path)
    now = told()
    assert told() == now
    (tmp_path / "render.py").write_text("12", "utf-8")
    changed = told()
    (tmp_path / "card.css").write_text("", "utf-8")
    monkeypatch.setattr(unchanged, "VERSION", "0.1.1")
    assert len({now, changed, told()}) == 3


def test_a_job_with_an_error_keeps_no_record(tmp_path: Path) -> None:
    (tmp_path / "a.seat").write_text("job 1\n", "utf-8")
    assert seatwright("build", "a.seat", cwd=tmp_path).code == 1
    assert not (tmp_path / "cards").exists()


def test_a_pdf_of_an_earlier_build_is_said_to_be_old_as_long_as_it_lies_there(home: Path) -> None:
    pdf = home / "cards" / "single-cylinder" / "cards.pdf"
    pdf.write_bytes(b"%PDF-1.7")
    for more in (("--afresh",), ()):  # built, and left alone
        assert "cards.pdf is from an earlier build: do not cut by it" in built(home, *more).out
    pdf.unlink()
    assert "earlier build" not in built(home).out
    assert "unchanged" in built(home).out
