"""What the editor answers of a place: each as a machinist meets it, in a demo job."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from seatwright.job.declarations import sections
from tests.editor.desk_of import JOBS, Editor, position
from tests.whole.shop import seatwright


class Job:
    """A demo job in a folder of its own, open, its shop file beside it. edited: what is changed in it first."""

    def __init__(self, folder: Path, name: str, *edited: tuple[str, str]) -> None:
        for path in JOBS.glob("*.s*"):
            shutil.copy(path, folder)
        self.path = folder / name
        text = self.path.read_text("utf-8")
        for old, new in edited:
            assert text.count(old) >= 1, old
            text = text.replace(old, new, 1)
        self.editor = Editor()
        self.editor.server.desk.snippets = True
        self.uri = self.editor.open(self.path, text)
        self.text = text

    def at(self, words: str, into: int = 1, count: int = 1) -> dict[str, Any]:
        """A document and a position within the so many-th of some words."""
        at = -1
        for _ in range(count):
            at = self.text.index(words, at + 1)
        return {"textDocument": {"uri": self.uri}, "position": position(self.text, at + into)}

    def ask(self, what: str, params: dict[str, Any]) -> Any:
        return self.editor.ask(f"textDocument/{what}", params)

    def hover(self, words: str, into: int = 1, count: int = 1) -> str:
        found = self.ask("hover", self.at(words, into, count))
        return "" if found is None else str(found["contents"]["value"])

    def offered(self, words: str) -> list[str]:
        """What is offered where the cursor stands behind some words."""
        return [item["label"] for item in self.ask("completion", self.at(words, len(words)))["items"]]

    def actions(self, words: str) -> dict[str, dict[str, Any]]:
        where = self.at(words)["position"]
        params = {"range": {"start": where, "end": where}, "context": {"diagnostics": []}}
        found = self.ask("codeAction", {"textDocument": {"uri": self.uri}, **params})
        return {action["title"]: action for action in found}

    def with_edits(self, edits: list[dict[str, Any]]) -> str:
        """The text with edits that do not overlap, put in from the end."""
        text = self.text
        offsets = {tuple(position(text, at).values()): at for at in range(len(text), -1, -1)}
        lines = text.count("\n") + 1
        for edit in sorted(edits, key=lambda each: tuple(each["range"]["start"].values()), reverse=True):
            start, end = (tuple(edit["range"][side].values()) for side in ("start", "end"))
            stop = len(text) if end[0] >= lines else offsets[end]
            text = text[: offsets[start]] + edit["newText"] + text[stop:]
        return text


Open = Callable[..., Job]


@pytest.fixture
def opened(tmp_path: Path) -> Open:
    def job(name: str, *edited: tuple[str, str]) -> Job:
        return Job(tmp_path, name, *edited)

    return job


DIESEL = "four-cylinder-diesel.seat"


def test_every_field_and_column_is_explained_by_its_declaration(tmp_path: Path) -> None:
    editor = Editor()
    for section in sections("job"):
        lines = [section.opening.split(" ")[0] + " x"] + [f"  {field.word} 1" for field in section.fields]
        uri = editor.open(tmp_path / f"{section.word}.seat", "\n".join(lines))
        for number, field in enumerate(section.fields, 1):
            where = {"textDocument": {"uri": uri}, "position": {"line": number, "character": 3}}
            said = editor.ask("textDocument/hover", where)
            assert field.help in said["contents"]["value"], field.word
            assert field.example in said["contents"]["value"], field.word


def test_behind_a_row_stands_what_it_makes_and_how_that_came_about(opened: Open) -> None:
    job = opened("half-way.seat")
    whole = {"start": {"line": 0, "character": 0}, "end": {"line": 999, "character": 0}}
    hints = job.ask("inlayHint", {"textDocument": {"uri": job.uri}, "range": whole})
    lines = job.text.split("\n")
    behind = [(lines[hint["position"]["line"]].split()[0], hint["label"]) for hint in hints]
    assert ("E1", "→ accepted, fit 0.072") in behind
    assert any(name == "I4" and label.startswith("→ HOLD: Held by hand") for name, label in behind)
    assert any(name in ("interference", "insert") and "fit 0." in label for name, label in behind)
    to_bore = next(hint for hint in hints if "setting C1 at" in hint["label"])
    tip = job.editor.ask("inlayHint/resolve", to_bore)["tooltip"]["value"]
    explained = seatwright("explain", str(job.path), to_bore["data"]["valve"], "bore.bench_least").out
    assert explained.split("\n")[0] in tip or "bench_least = shown_least" in tip
    job.editor.tell("workspace/didChangeConfiguration", {"settings": {"seatwright": {"inlay": False}}})
    assert job.ask("inlayHint", {"textDocument": {"uri": job.uri}, "range": whole}) == []


def test_a_figure_a_valve_and_an_insert_say_what_is_known_of_them(opened: Open) -> None:
    job = opened(DIESEL)
    assert "I1 clean_up.needed = " in job.hover("46.032")
    held = job.hover("E2 ", count=3)
    assert "E2 is on hold" in held
    assert "then measure guide" in held
    assert "0.012 mm over it" in held
    assert "bench.shop:86" in job.hover("XP9")
    assert "built in" in job.hover("grey iron")
    half = opened("half-way.seat")
    assert "this job takes" in half.hover("X36A")


def test_what_is_offered_is_what_may_stand_there_and_does_not_yet(opened: Open) -> None:
    job = opened(DIESEL, ("  depth-from     deck\n", "  depth-from     deck\n  l\n"))
    fields = job.offered("deck\n  l")
    assert "metal-around" in fields
    assert "least-bridge" not in fields, "it is given"
    assert {"valves", "measured", "note"} <= set(fields)
    job = opened(DIESEL, ("  pilot  XP9", "  pilot  "))
    assert "T8" in job.offered("  pilot  ")
    job = opened(DIESEL, ("insert        choose", "insert        "))
    assert {"choose", "turned", "stays", "none", "X41"} <= set(job.offered("insert        "))
    job = opened(DIESEL, ("  valve  damage  damage-depth", "  valve  damage  damage-depth "))
    columns = job.offered("  valve  damage  damage-depth ")
    assert "throat" in columns
    assert "damage" not in columns
    job = opened(DIESEL, ("  E3     40.45   3.5\n", "  E3     40.45   3.5\n  \n"))
    rows = job.offered("40.45   3.5\n  ")
    assert rows[0] == "I3"
    assert "E4" in rows
    assert "E3" not in rows, "it has its row"


def test_a_table_comes_with_the_valves_of_the_head_in_its_rows(opened: Open) -> None:
    job = opened("as-found.seat", ("valves I2 E2\n  stem  8.0\n", "valves I2 E2\n  stem  8.0\n\nme"))
    items = job.ask("completion", job.at("8.0\n\nme", 7))["items"]
    snippet = next(item for item in items if "guide-bottom" in item["label"])
    lines = snippet["textEdit"]["newText"].split("\n")
    assert lines[0] == "measured"
    assert lines[1].split()[0] == "valve"
    assert "guide-middle" in lines[1]
    assert [line.split()[0] for line in lines[2:4]] == ["I2", "E2"], "of this head, and not of the other"
    assert "${1:-}" in lines[2]


def test_it_goes_to_the_line_behind_a_thing_and_behind_a_hold(opened: Open) -> None:
    job = opened(DIESEL)
    (home,) = job.ask("definition", job.at("XP9"))
    assert (home["uri"].rpartition("/")[2], home["range"]["start"]["line"]) == ("bench.shop", 85)
    causes = job.ask("definition", job.at("E2 ", count=3))
    lines = job.text.split("\n")
    assert any("9.087" in lines[each["range"]["start"]["line"]] for each in causes), "the guide's widest reading"
    assert any("guide-wear-limit" in lines[each["range"]["start"]["line"]] for each in causes), "and its limit"


def test_a_thing_gets_another_name_in_the_shop_file_and_every_job_of_the_folder(opened: Open) -> None:
    job = opened(DIESEL)
    renamed = job.ask("rename", {**job.at("XP9"), "newName": "XP10"})["changes"]
    assert {uri.rpartition("/")[2] for uri in renamed} == {DIESEL, "bench.shop"}
    half = opened("half-way.seat")
    refused = half.editor.request("textDocument/rename", {**half.at("C1  "), "newName": "C2"})
    assert "already" in half.editor.send(refused)[refused["id"]]["error"]["message"]
    refused = half.editor.request("textDocument/rename", {**half.at("C1  "), "newName": "choose"})
    assert "error" in half.editor.send(refused)[refused["id"]]
    renamed = half.ask("rename", {**half.at("C1  "), "newName": "left one"})["changes"]
    edits = renamed[half.uri]
    assert {edit["newText"] for edit in edits} == {'"left one"'}
    shop = Job(half.path.parent, "bench.shop")
    shop.path.write_text(shop.with_edits(renamed[half.editor.server.desk.address(shop.path)]), "utf-8")
    half.path.write_text(half.with_edits(edits), "utf-8")
    assert seatwright("check", "--allow-holds", str(half.path)).code == 0
    assert "left one" in seatwright("plan", "--as", "text", str(half.path)).out


def test_a_certain_mend_is_preferred_and_all_of_them_are_what_fix_writes(opened: Open) -> None:
    job = opened(DIESEL, ("46.032 ", "46,032 "), ("40.036 ", "40,03 "), ("machinist  ", "machinst  "))
    path = job.path
    path.write_text(job.text, "utf-8")
    actions = job.actions("40,03 ")
    assert actions["write 40.03 (decimal-comma)"]["isPreferred"]
    whole = next(action for title, action in actions.items() if "certain" in title)
    mended = job.with_edits(whole["edit"]["changes"][job.uri])
    assert seatwright("check", "--fix", str(path)).code == 0
    assert path.read_text("utf-8") == mended
    # Two ways to read it: each is a choice, and none is preferred.
    unsure = job.actions("46,032")
    assert not any(action.get("isPreferred") for action in unsure.values())


def test_a_likely_meaning_is_a_choice_that_takes_the_message_away(opened: Open) -> None:
    job = opened(DIESEL, (" 7.54 ", " 75.4 "))
    actions = {title: action for title, action in job.actions("75.4").items() if "meant?" in title}
    assert actions
    for action in actions.values():
        assert not action["isPreferred"]
        job.editor.put(job.uri, job.with_edits(action["edit"]["changes"][job.uri]))
        assert not [each for each in job.editor.shown[job.uri] if each["code"] == "figure-unlikely"]


def test_the_remedy_of_a_hold_is_written_where_it_is_a_line(opened: Open) -> None:
    held = opened("half-way.seat").actions("hold I4")
    assert "take the hold line out (hold-by-hand)" in held
    job = opened(DIESEL, ("  pilot  XP9", "  pilot  P9000"))
    actions = job.actions("  E3     9.024")
    (action,) = [action for title, action in actions.items() if title.startswith("name the pilot XP9 for E3")]
    after = job.with_edits(action["edit"]["changes"][job.uri])
    assert "valves E3\n  pilot  XP9  #" in after
    job.editor.put(job.uri, after)
    assert not [each for each in job.editor.shown[job.uri] if each["code"].startswith("pilot-")]


def test_missing_columns_are_added_empty(opened: Open) -> None:
    job = opened("single-cylinder.seat")
    actions = job.actions("  valve  stem")
    title = next(title for title in actions if "guide-middle" in title)
    after = job.with_edits(actions[title]["edit"]["changes"][job.uri])
    job.editor.put(job.uri, after)
    assert not [each for each in job.editor.shown[job.uri] if each["severity"] == 1]
    assert "guide-middle" in after


def test_rows_out_of_a_spreadsheet_become_a_table(opened: Open) -> None:
    job = opened("single-cylinder.seat")
    pasted = "\nmeasured 2026-11-30\nValve\tFloor thickness\tinsert-height\nE1\t8.012\t\nI1\t8.0\t6.01\n"
    at = len(job.text)
    job.editor.type(job.uri, at, at, pasted)
    job.text += pasted
    where = {"start": position(job.text, at), "end": position(job.text, len(job.text))}
    params = {"textDocument": {"uri": job.uri}, "range": where, "options": {"tabSize": 2, "insertSpaces": True}}
    after = job.with_edits(job.ask("rangeFormatting", params))
    assert after.endswith(
        "measured 2026-11-30\n"
        "  valve  floor-thickness  insert-height\n"
        "  E1     8.012            -\n"
        "  I1     8.0              6.01\n"
    )
    assert after.startswith(job.text[:at])


def test_the_layout_is_that_of_format(opened: Open) -> None:
    job = opened(DIESEL, ("  least-bridge   2.0", "least-bridge 2.0"), ("\nvalves exhaust", "\n\n\nVALVES   exhaust"))
    edits = job.ask("formatting", {"textDocument": {"uri": job.uri}, "options": {"tabSize": 8, "insertSpaces": False}})
    path = job.path
    path.write_text(job.text, "utf-8")
    seatwright("format", str(path))
    assert job.with_edits(edits) == path.read_text("utf-8")


def test_heads_sections_and_valves_make_the_outline_and_fold(opened: Open) -> None:
    job = opened("as-found.seat")
    found = job.ask("documentSymbol", {"textDocument": {"uri": job.uri}})
    assert [each["name"].split()[0] for each in found] == ["job", "head", "head"]
    assert [each["name"] for each in found[1]["children"]] == ["valves I1 E1"]
    diesel = opened(DIESEL)
    (head,) = [
        each
        for each in diesel.ask("documentSymbol", {"textDocument": {"uri": diesel.uri}})
        if each["name"].startswith("head")
    ]
    measured = [each for each in head["children"] if each["name"].startswith("measured")]
    assert [each["name"] for each in measured[0]["children"]] == ["I1", "E1", "I2", "E2", "I3", "E3", "I4", "E4"]
    folds = diesel.ask("foldingRange", {"textDocument": {"uri": diesel.uri}})
    lines = diesel.text.split("\n")
    assert {lines[each["startLine"]].split()[0] for each in folds} >= {"job", "head", "valves", "measured", "layout"}
