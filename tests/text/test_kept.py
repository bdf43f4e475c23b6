"""What is kept from one run to the next is never trusted where somebody else could have put it."""

from __future__ import annotations

import os
import pickle
from pathlib import Path

import pytest

from seatwright.text import kept as keeping
from seatwright.text.kept import VARIABLE, kept


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.delenv(VARIABLE, raising=False)
    return tmp_path / "seatwright"


def made(value: object = 1) -> object:
    return {"made": value, "pairs": [(1, "x")]}


def other() -> object:
    return {"made": "anew"}


def test_what_was_made_is_read_again_as_long_as_it_is_made_from_the_same(folder: Path) -> None:
    assert kept("tables", "of this", made) == made()
    assert kept("tables", "of this", other) == made()
    assert kept("tables", "of that", other) == other()
    assert kept("tables", "of this", other) == other()


def test_the_folder_is_the_users_alone_and_holds_no_half_file(folder: Path) -> None:
    kept("tables", "of this", made)
    assert folder.stat().st_mode & 0o777 == 0o700
    assert [each.name for each in folder.iterdir()] == ["tables"]


@pytest.mark.parametrize("mode", [0o770, 0o707, 0o777])
def test_a_folder_that_others_may_write_is_neither_read_nor_written(folder: Path, mode: int) -> None:
    kept("tables", "of this", made)
    folder.chmod(mode)
    assert kept("tables", "of this", other) == other()
    folder.chmod(0o700)
    assert kept("tables", "of this", other) == made()


def test_a_file_that_others_may_write_or_that_is_a_link_is_not_read(folder: Path, tmp_path: Path) -> None:
    kept("tables", "of this", made)
    (folder / "tables").chmod(0o666)
    assert kept("tables", "of this", other) == other()
    (folder / "tables").rename(tmp_path / "elsewhere")
    (folder / "tables").symlink_to(tmp_path / "elsewhere")
    assert kept("tables", "of this", made) == made()
    assert not (folder / "tables").is_symlink()


def test_another_users_folder_is_not_used(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    kept("tables", "of this", made)
    monkeypatch.setattr(keeping.os, "geteuid", lambda: os.getuid() + 1)
    assert kept("tables", "of this", other) == other()


class Runs:
    def __reduce__(self) -> tuple[object, tuple[str]]:
        return os.mkdir, ("ran",)


@pytest.mark.parametrize("content", [b"", b"\x80", pickle.dumps(("of this", Runs())), pickle.dumps("of this")])
def test_a_file_that_is_cut_short_or_would_run_code_is_made_anew(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, content: bytes
) -> None:
    monkeypatch.chdir(tmp_path)
    kept("tables", "of this", made)
    (folder / "tables").write_bytes(keeping._checksum(content) + b"\n" + content)
    assert kept("tables", "of this", other) == other()
    assert not (tmp_path / "ran").exists()
    assert kept("tables", "of this", made) == other()


def test_where_no_folder_can_be_made_nothing_is_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    assert kept("tables", "of this", made) == made()
    assert kept("tables", "of this", other) == other()


def test_off_keeps_nothing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(VARIABLE, "off")
    assert kept("tables", "of this", made) == made()
    assert not folder.exists()


def test_no_folder_is_made_where_the_command_runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import platformdirs

    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(platformdirs, "user_cache_path", lambda *_, **__: Path("~/.cache/seatwright"))
    assert kept("tables", "of this", made) == made()
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("at", [0, 40, 70, 90, -1])
def test_a_file_that_is_damaged_behind_a_right_beginning_is_made_anew(at: int, folder: Path) -> None:
    kept("tables", "of this", made)
    content = bytearray((folder / "tables").read_bytes())
    content[at] ^= 1
    (folder / "tables").write_bytes(content)
    assert kept("tables", "of this", other) == other()
    assert kept("tables", "of this", made) == other(), "and kept whole"
