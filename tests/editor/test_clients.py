"""Real editors, headless, set up with the very lines of grammar/editors/README.md: a slip is mended, the job saved."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path
from typing import Any

import pytest

from tests.editor.desk_of import JOBS
from tests.editor.needs import need
from tests.editor.test_highlighting import EDITORS, ENGINES
from tests.whole.shop import seatwright

SLIP = ("46.032    46.051", "46,03 46.051")
"""In the row of the first pocket, line 113: a decimal comma, and the layout of the table lost."""
PROGRAM = Path(sys.executable).with_name("seatwright")


def slipped(folder: Path) -> Path:
    """The diesel job with one slip, one line before it with characters of one and of two halves, and its shop file."""
    text = (JOBS / "four-cylinder-diesel.seat").read_text("utf-8")
    assert text.count(SLIP[0]) == 1
    text = text.replace(*SLIP).replace("  least-bridge   2.0", "  least-bridge 2.0  # µ ½ Ø 𝛷 🔧")
    job = folder / "2214.seat"
    job.write_text(text, "utf-8")
    shutil.copy(JOBS / "bench.shop", folder)
    return job


def lines_for(editor: str) -> str:
    """The lines of the README in the fence of a language, our own paths in them."""
    page = (EDITORS / "README.md").read_text("utf-8")
    found = re.search(rf"```{editor}\n(.*?)```", page, re.DOTALL)
    assert found is not None
    return found[1].replace("grammar/editors", str(EDITORS)).replace('"seatwright", "editor"', f'"{PROGRAM}", "editor"')


def done(words: list[str], tmp_path: Path, **environment: str) -> Any:
    """What an editor wrote down, once it has ended."""
    out = tmp_path / "out.json"
    variables = {**os.environ, "OUT": str(out), "LC_ALL": "C.UTF-8", **environment}
    ended = subprocess.run(words, env=variables, capture_output=True, text=True, timeout=180, cwd=tmp_path)
    assert out.exists(), ended.stdout + ended.stderr
    return json.loads(out.read_text("utf-8"))


def assert_mended(job: Path) -> None:
    """Saved, mended, in the canonical layout, and as `check` has nothing against it."""
    text = job.read_text("utf-8")
    assert "46,03" not in text
    assert re.search(r"^  I1     46\.03     46\.051 ", text, re.MULTILINE)
    assert seatwright("format", "--check", str(job)).code == 0
    assert seatwright("check", "--allow-holds", str(job)).code == 0


def test_neovim_shows_mends_lays_out_and_saves(tmp_path: Path) -> None:
    nvim = need("nvim")
    settings = tmp_path / "init.lua"
    settings.write_text(lines_for("lua"), "utf-8")
    job = slipped(tmp_path)
    words = [nvim, "--headless", "--clean", "-u", str(settings), "-S", str(ENGINES / "client.lua")]
    told = done(words, tmp_path, JOB=str(job))
    ((line, column, _, end, slug, text),) = told["diagnostics"]
    assert (line, column, end, slug) == (112, 9, 14, "decimal-comma")
    assert text.startswith("pocket-a: `46,03` is no number")
    behind = dict(told["behind"])
    assert re.fullmatch(r"→ N46A, 46\.5\d\d–46\.5\d\d, setting C2 at 46\.51\d", behind[112])
    assert behind[115].startswith("→ HOLD: The guide of E2 has 0.132 mm")
    assert told["encoding"] == "utf-16"
    assert told["stopped"]
    assert_mended(job)


def test_emacs_shows_mends_lays_out_and_saves(tmp_path: Path) -> None:
    emacs = need("emacs")
    settings = tmp_path / "settings.el"
    mode = f'(add-to-list \'eglot-server-programs \'(seatwright-mode . ("{PROGRAM}" "editor")))\n'
    settings.write_text(lines_for("elisp") + mode, "utf-8")
    job = slipped(tmp_path)
    words = [emacs, "--batch", "-l", str(ENGINES / "client.el")]
    told = done(words, tmp_path, JOB=str(job), SETTINGS=str(settings), HOME=str(tmp_path))
    ((line, column, text),) = told["diagnostics"]
    assert (line, column) == (112, 9)
    assert "decimal-comma" in text
    assert_mended(job)


@pytest.mark.slow
def test_vs_code_extension_is_packed(tmp_path: Path) -> None:
    npm = need("npm")
    folder = tmp_path / "vscode"
    shutil.copytree(EDITORS / "vscode", folder)
    quiet = {"cwd": folder, "capture_output": True, "text": True, "timeout": 240}
    installed = subprocess.run([npm, "install", "--omit=dev", "--no-audit", "--no-fund"], **quiet)  # type: ignore[call-overload]
    assert installed.returncode == 0, installed.stderr
    pack = ["exec", "--yes", "--", "@vscode/vsce", "package", "--allow-missing-repository", "--skip-license"]
    packed = subprocess.run([npm, *pack], **quiet)  # type: ignore[call-overload]
    assert packed.returncode == 0, packed.stdout + packed.stderr
    (made,) = folder.glob("*.vsix")
    inside = set(zipfile.ZipFile(made).namelist())
    assert {f"extension/{name}" for name in ("extension.js", "language-configuration.json", "package.json")} <= inside
    assert "extension/syntaxes/seatwright.tmLanguage.json" in inside
    assert any(name.startswith("extension/node_modules/vscode-languageclient/") for name in inside)
