"""`python -m seatwright.editor.highlighting` renews grammar/editors; a test says when it is stale."""

from __future__ import annotations

from pathlib import Path

from seatwright.editor.highlighting.emacs import emacs
from seatwright.editor.highlighting.textmate import textmate
from seatwright.editor.highlighting.vim import vim, vim_filetype

MADE = {
    "vscode/syntaxes/seatwright.tmLanguage.json": textmate,
    "vim/syntax/seatwright.vim": vim,
    "vim/ftdetect/seatwright.vim": vim_filetype,
    "emacs/seatwright-mode.el": emacs,
}
"""The files of grammar/editors that are made, and what makes each."""


def write_all() -> None:
    """Write each anew."""
    folder = Path(__file__).resolve().parents[4] / "grammar" / "editors"
    for name, make in MADE.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(make(), "utf-8")


if __name__ == "__main__":
    write_all()
