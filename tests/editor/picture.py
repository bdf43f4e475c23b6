"""`python -m tests.editor.picture` renews grammar/editors/neovim.png: a demo job in Neovim, in a terminal of tmux.

Wants nvim (the extra `test`), tmux and chromium; look at the picture before it is committed.
"""

from __future__ import annotations

import html
import re
import shutil
import subprocess
import tempfile
import time
from pathlib import Path

from tests.editor.desk_of import JOBS
from tests.editor.needs import need
from tests.editor.test_clients import lines_for
from tests.editor.test_highlighting import EDITORS

COLUMNS, ROWS = 172, 28
_COLOUR = re.compile(r"\x1b\[([0-9;]*)m")
_SETTINGS = "vim.o.termguicolors, vim.o.number, vim.o.background, vim.o.wrap = true, true, 'light', false\n"
_PAGE = (
    "<style>body{{margin:12px;background:#e0e2ea;font:14px/1.25 'DejaVu Sans Mono',monospace;color:#14161b}}"
    "pre{{margin:0;font:inherit}}</style><pre>{}</pre>"
)


def screen(folder: Path) -> str:
    """What stands on the terminal, with its colours: the valve that is on hold under the cursor."""
    for name in ("four-cylinder-diesel.seat", "bench.shop"):
        shutil.copy(JOBS / name, folder)
    settings = folder / "init.lua"
    settings.write_text(lines_for("lua") + _SETTINGS, "utf-8")
    tmux = ["tmux", "-L", "seatwright-picture"]
    nvim = f"env LC_ALL=C.UTF-8 {need('nvim')} --clean -u {settings} {folder / 'four-cylinder-diesel.seat'}"
    subprocess.run([*tmux, "new-session", "-d", "-x", str(COLUMNS), "-y", str(ROWS), nvim], check=True)
    try:
        time.sleep(5)
        subprocess.run([*tmux, "send-keys", ":98", "Enter", "zt", ":104", "Enter", ":", "Escape"], check=True)
        time.sleep(5)
        return subprocess.run([*tmux, "capture-pane", "-e", "-p"], check=True, capture_output=True, text=True).stdout
    finally:
        subprocess.run([*tmux, "kill-server"], check=False)


def as_page(captured: str) -> str:
    """A terminal's colours as a page's."""
    parts = []
    style = ""
    for at, piece in enumerate(_COLOUR.split(captured)):
        if at % 2:
            found = re.findall(r"([34])8;2;(\d+);(\d+);(\d+)", piece)
            style = style if found else ""
            for ground, *shade in found:
                name = "color" if ground == "3" else "background"
                style = re.sub(rf"(^|;){name}:[^;]*", "", style) + f";{name}:rgb({','.join(shade)})"
        else:
            parts.append(f'<span style="{style}">{html.escape(piece)}</span>')
    return _PAGE.format("".join(parts))


def main() -> None:
    """Take it and write it down."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name).resolve()
        page = folder / "screen.html"
        page.write_text(as_page(screen(folder)), "utf-8")
        words = ["chromium", "--headless", "--no-sandbox", "--hide-scrollbars", "--force-device-scale-factor=1"]
        words += [
            f"--window-size={COLUMNS * 9 - 70},{ROWS * 18 + 16}",
            f"--screenshot={EDITORS / 'neovim.png'}",
            page.as_uri(),
        ]
        subprocess.run(words, check=True, capture_output=True)


if __name__ == "__main__":
    main()
