"""The editor says what `check --as json` says, at the same places, whatever was typed before."""

from __future__ import annotations

import random
import shutil
from pathlib import Path

import pytest

from seatwright.syntax import grammar
from tests.editor.as_checked import as_checked, edit, mutant
from tests.editor.desk_of import Editor, position, shown
from tests.whole.shop import JOBS, ROOT

MESSAGES = ROOT / "tests" / "messages"
CHANCE = 20261128
NO_UTF8 = ("file-encoding.seat", "file-utf16.seat")
"""What stands in these no editor hands on: it makes text of them first."""


def rows(editor: Editor) -> dict[str, list[tuple[object, ...]]]:
    """What is shown by file, where anything is."""
    return {uri: sorted(map(shown, said)) for uri, said in editor.shown.items() if said}


@pytest.mark.parametrize(
    "folder, pattern",
    [
        (JOBS, "*.seat"),
        (JOBS, "*.shop"),
        (JOBS / "engines", "*.engine"),
        (JOBS / "quarter", "*.seat"),
        (MESSAGES, "*.seat"),
    ],
)
def test_every_demo_and_message_file_is_told_as_check_tells_it(
    folder: Path, pattern: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(folder)
    editor = Editor()
    count = 0
    for path in sorted(folder.glob(pattern)):
        if path.name in NO_UTF8:
            continue
        uri = editor.open(path)
        assert rows(editor) == as_checked(path), path.name
        count += sum(map(len, editor.shown.values()))
        editor.close(uri)
        assert rows(editor) == {}, path.name
    assert count > 0 or pattern != "*.seat"
    assert editor.logged == []


def mutants_told(count: int, folder: Path, chance: random.Random) -> None:
    """So many mutants of the demo jobs and their shop files, each told as `check` tells it. folder: worked in."""
    for path in JOBS.glob("*.s*"):
        shutil.copy(path, folder)
    editor = Editor()
    files = sorted((*folder.glob("*.seat"), *folder.glob("*.shop")))
    originals = {path: path.read_bytes().decode() for path in files}
    for number in range(count):
        path = chance.choice(files)
        text = mutant(originals[path], chance)
        path.write_bytes(text.encode())
        uri = editor.open(path, text)
        assert rows(editor) == as_checked(path), (number, path.name)
        editor.close(uri)
        path.write_bytes(originals[path].encode())
    assert editor.logged == []


@pytest.mark.slow
def test_mutants_are_told_as_check_tells_them(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    mutants_told(60, tmp_path, random.Random(CHANCE))


def edits_told(count: int, each: int, path: Path, chance: random.Random) -> None:
    """So many random edits of a job and its shop file, both open; now and then all that is shown is what a server that
    has just been started shows of the same texts."""
    editor = Editor()
    shop = next(path.parent.glob("*.shop"))
    texts = {editor.open(file): file for file in (path, shop)}
    originals = dict(editor.texts)
    for number in range(1, count + 1):
        uri = chance.choice(list(texts))
        if chance.random() < 0.04:  # begin anew, else nothing is left that can be read
            editor.put(uri, originals[uri], number)
        else:
            editor.type(uri, *edit(editor.texts[uri], chance), version=number)
        if number % each == 0:
            fresh = Editor()
            for address, file in texts.items():
                fresh.open(file, editor.texts[address])
            assert rows(editor) == rows(fresh), number
            assert all(editor.server.desk.texts[address].text == editor.texts[address] for address in texts)
    assert editor.logged == []


@pytest.mark.slow
def test_after_any_edits_all_is_as_if_just_opened(tmp_path: Path) -> None:
    for name in ("single-cylinder.seat", "bench.shop"):
        shutil.copy(JOBS / name, tmp_path)
    edits_told(300, 20, tmp_path / "single-cylinder.seat", random.Random(CHANCE))


def test_a_change_in_the_shop_file_renews_every_open_job_that_uses_it(tmp_path: Path) -> None:
    for name in ("single-cylinder.seat", "half-way.seat", "as-found.seat", "bench.shop"):
        shutil.copy(JOBS / name, tmp_path)
    editor = Editor()
    jobs = [editor.open(tmp_path / name) for name in ("single-cylinder.seat", "half-way.seat", "as-found.seat")]
    shop = editor.open(tmp_path / "bench.shop")
    before = rows(editor)
    whole, empty = editor.texts[shop], 'shop "sold out"\n  units  mm\n'
    editor.put(shop, empty)
    after = rows(editor)
    assert editor.asked_anew == 1
    assert [uri for uri in jobs if before.get(uri) != after.get(uri)] == jobs[:2]
    editor.put(shop, whole)
    assert rows(editor) == before
    # Unsaved, it counts as typed; put away, as it stands on disk; changed there, as it stands now.
    editor.put(shop, empty)
    editor.close(shop)
    assert {uri: rows(editor).get(uri) for uri in jobs} == {uri: before.get(uri) for uri in jobs}
    (tmp_path / "bench.shop").write_text(empty, "utf-8")
    editor.tell("workspace/didChangeWatchedFiles", {"changes": [{"uri": shop, "type": 2}]})
    assert {uri: rows(editor).get(uri) for uri in jobs} == {uri: after.get(uri) for uri in jobs}


def test_a_keystroke_reads_no_shop_file_anew_and_no_line_but_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    editor = Editor()
    uri = editor.open(JOBS / "four-valve-aluminium.seat")
    grammar.read_piece.cache_clear()
    text = editor.texts[uri]
    digit = max(at for at in range(len(text)) if text[at].isdigit())
    for put in ("1", "2"):  # the first reads every piece of the file once more
        editor.type(uri, digit, digit + 1, put)
    read = grammar.read_piece.cache_info().misses
    monkeypatch.setattr("seatwright.job.used_files.read_shop_file", None)
    editor.type(uri, digit, digit + 1, "3")
    assert editor.logged == []
    assert grammar.read_piece.cache_info().misses - read <= 1


def test_a_change_in_an_engine_file_renews_the_job_and_a_valve_leads_to_its_line(tmp_path: Path) -> None:
    shutil.copytree(JOBS, tmp_path / "jobs")
    editor = Editor()
    job = editor.open(tmp_path / "jobs" / "seats-that-stay.seat")
    before = rows(editor).get(job)
    (used,) = [
        line.split('"')[1] for line in editor.texts[job].split("\n") if line.startswith("use") and ".engine" in line
    ]
    where = {
        "textDocument": {"uri": job},
        "position": position(editor.texts[job], editor.texts[job].rindex("  E1") + 3),
    }
    lines = editor.ask("textDocument/definition", where)
    assert any(each["uri"].endswith(".engine") for each in lines)
    engine = editor.open(tmp_path / "jobs" / used)
    editor.put(engine, 'engine other "another"\n  units  mm\n')
    assert rows(editor).get(job) != before
    editor.close(engine)
    assert rows(editor).get(job) == before
