"""The grammars for editors, each in the engine that it is for, held against the parser on demo and message files."""

from __future__ import annotations

import json
import os
import subprocess
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from seatwright.editor.highlighting.__main__ import MADE
from seatwright.editor.highlighting.known_words import FILE_ENDS
from tests.editor.coloured_by_parser import files, stretches
from tests.editor.desk_of import units
from tests.editor.needs import need, need_folder
from tests.whole.shop import ROOT

EDITORS = ROOT / "grammar" / "editors"
ENGINES = Path(__file__).with_name("engines")
Names = Mapping[str, list[str]]
Places = dict[str, list[tuple[int, int, str]]]
"""Line, column and the whole line, by file."""


@pytest.mark.parametrize("name", MADE)
def test_what_is_made_of_the_declarations_is_up_to_date(name: str) -> None:
    assert (EDITORS / name).read_text("utf-8") == MADE[name](), "python -m seatwright.editor.highlighting"


def held(
    engine: Callable[[dict[str, list[tuple[int, int, str]]]], Names], expected: Mapping[str, tuple[str, ...]]
) -> None:
    """Every stretch that the parser colours has its kind in the engine; a name or choice has none that is another's."""
    rows = {str(path): list(stretches(path)) for path in files()}
    rows = {name: found for name, found in rows.items() if found}
    texts = {name: Path(name).read_text("utf-8").split("\n") for name in rows}
    places = {name: [(line, column, texts[name][line]) for line, column, _, _ in found] for name, found in rows.items()}
    wrong, seen = [], dict.fromkeys(expected, 0)
    for name, answers in engine(places).items():
        for (line, _, kind, typed), answer in zip(rows[name], answers, strict=True):
            if kind in expected:
                seen[kind] += 1
                right = answer.startswith(expected[kind])
            else:
                right = kind != "enumMember" or not answer.startswith((*expected["keyword"], *expected["comment"]))
            if not right:
                wrong.append(f"{Path(name).name}:{line + 1} {typed}: {kind}, not {answer}")
    assert wrong == []
    assert all(count > 50 for count in seen.values()), seen


def test_textmate_grammar_colours_as_the_parser_reads() -> None:
    node = need("node")
    modules = need_folder(
        "SEATWRIGHT_TEXTMATE", "npm install vscode-textmate vscode-oniguruma, then their node_modules"
    )

    def engine(places: Places) -> Names:
        texts = {name: Path(name).read_text("utf-8") for name in places}
        asked = {"grammar": str(EDITORS / "vscode/syntaxes/seatwright.tmLanguage.json"), "files": texts}
        words = [node, str(ENGINES / "textmate.js"), str(modules)]
        done = subprocess.run(words, input=json.dumps(asked), capture_output=True, text=True, check=True, timeout=120)
        tokens = json.loads(done.stdout)
        return {
            name: [
                next((scope for start, end, scope in tokens[name][line] if start <= units(typed[:column]) < end), "")
                for line, column, typed in found
            ]
            for name, found in places.items()
        }

    held(engine, {
        "keyword": ("keyword.control",),
        "property": ("variable.other.property",),
        "number": ("constant.numeric", "keyword.operator"),  # `+/- 0.001` begins with a mark
        "string": ("string.quoted",),
        "comment": ("comment.line",),
        "variable": ("variable.parameter",),
    })  # fmt: skip


def asked_by_file(words: list[str], places: object, tmp_path: Path, **environment: str) -> Names:
    """What a program writes to $OUT of what it reads in $IN."""
    asked, answer = tmp_path / "in.json", tmp_path / "out.json"
    asked.write_text(json.dumps(places), "utf-8")
    variables = {**os.environ, "IN": str(asked), "OUT": str(answer), "LC_ALL": "C.UTF-8", **environment}
    subprocess.run(words, env=variables, capture_output=True, check=True, timeout=300)
    names: Names = json.loads(answer.read_text("utf-8"))
    return names


def test_vim_colours_as_the_parser_reads(tmp_path: Path) -> None:
    settings = tmp_path / "init.lua"
    settings.write_text(f'vim.opt.runtimepath:prepend("{EDITORS / "vim"}")\n', "utf-8")
    words = [need("nvim"), "--headless", "--clean", "-u", str(settings), "-S", str(ENGINES / "vim.lua")]

    def engine(places: Places) -> Names:
        of_bytes = {
            name: [(line, len(typed[:column].encode())) for line, column, typed in found]
            for name, found in places.items()
        }
        return asked_by_file(words, of_bytes, tmp_path)

    held(engine, {
        "keyword": ("seatwrightOpening",),
        "property": ("seatwrightField", "seatwrightColumn"),
        "number": ("seatwrightFigure", "seatwrightMark"),
        "string": ("seatwrightText",),
        "comment": ("seatwrightComment",),
        "variable": ("seatwrightValve",),
    })  # fmt: skip


def test_emacs_colours_as_the_parser_reads(tmp_path: Path) -> None:
    words = [need("emacs"), "--batch", "-Q", "-l", str(ENGINES / "colours.el")]

    def engine(places: Places) -> Names:
        bare = {name: [(line, column) for line, column, _ in found] for name, found in places.items()}
        return asked_by_file(words, bare, tmp_path, MODE=str(EDITORS / "emacs" / "seatwright-mode.el"))

    held(engine, {
        "keyword": ("font-lock-keyword",),
        "property": ("font-lock-variable-name",),
        "number": ("font-lock-constant", "font-lock-builtin"),
        "string": ("font-lock-string",),
        "comment": ("font-lock-comment",),
        "variable": ("font-lock-function-name",),
    })  # fmt: skip


def test_settings_written_by_hand_name_every_kind_of_file() -> None:
    package = json.loads((EDITORS / "vscode" / "package.json").read_text("utf-8"))
    assert package["contributes"]["languages"][0]["extensions"] == [f".{end}" for end in FILE_ENDS]
    listed = ", ".join(f'"{end}"' for end in FILE_ENDS)
    assert f"file-types = [{listed}]" in (EDITORS / "README.md").read_text("utf-8")
