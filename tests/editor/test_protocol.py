"""The server as a process: by pygls' own client, and under what a broken client sends."""

from __future__ import annotations

import asyncio
import json
import os
import re
import select
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
from lsprotocol import types
from pygls.lsp.client import LanguageClient

from seatwright.editor.frames import Frames, sifted
from tests.editor.as_checked import ODD
from tests.editor.desk_of import JOBS, Editor, position, units

PROGRAM = (sys.executable, "-m", "seatwright", "editor")
DIESEL = JOBS / "four-cylinder-diesel.seat"


# ---- by pygls' own client ----------------------------------------------------------------------------------------


def test_the_whole_protocol_by_the_librarys_own_client(tmp_path: Path) -> None:
    asyncio.run(asyncio.wait_for(by_client(tmp_path), 120))


async def by_client(tmp_path: Path) -> None:
    for name in (DIESEL.name, "bench.shop"):
        (tmp_path / name).write_bytes((JOBS / name).read_bytes())
    job = tmp_path / DIESEL.name
    text = job.read_text("utf-8")
    client = LanguageClient("tests", "1")
    shown: dict[str, list[types.Diagnostic]] = {}
    came = asyncio.Event()

    @client.feature(types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)
    def _shown(params: types.PublishDiagnosticsParams) -> None:
        shown[params.uri] = list(params.diagnostics)
        came.set()

    await client.start_io(*PROGRAM)
    encodings = types.GeneralClientCapabilities(position_encodings=[types.PositionEncodingKind.Utf8])
    asked = types.InitializeParams(types.ClientCapabilities(general=encodings), process_id=os.getpid())
    able = (await client.initialize_async(asked)).capabilities
    assert able.position_encoding == types.PositionEncodingKind.Utf16
    client.initialized(types.InitializedParams())
    uri = job.as_uri()
    document = types.TextDocumentIdentifier(uri)
    client.text_document_did_open(types.DidOpenTextDocumentParams(types.TextDocumentItem(uri, "seatwright", 1, text)))
    await came.wait()

    def at(words: str, into: int = 1) -> Any:
        where = position(text, text.index(words) + into)
        return {"text_document": document, "position": types.Position(**where)}

    whole = types.Range(types.Position(0, 0), types.Position(text.count("\n"), 0))
    hints = await client.text_document_inlay_hint_async(types.InlayHintParams(document, whole))
    assert hints is not None
    assert any("setting C2 at" in str(hint.label) for hint in hints)
    one = await client.inlay_hint_resolve_async(next(hint for hint in hints if "setting C2" in str(hint.label)))
    assert "bench_least = shown_least" in str(one.tooltip)
    hovered = await client.text_document_hover_async(types.HoverParams(**at("least-bridge")))
    assert "0.3 mm to 30 mm" in str(hovered)
    offered = await client.text_document_completion_async(types.CompletionParams(**at("\n  heat-limit", 3)))
    assert "least-floor" not in [item.label for item in getattr(offered, "items", [])]
    (home,) = await client.text_document_definition_async(types.DefinitionParams(**at("XP9"))) or ()  # type: ignore[misc, union-attr]
    assert home.uri.endswith("bench.shop")  # type: ignore[union-attr]
    context = types.ReferenceContext(include_declaration=True)
    found = await client.text_document_references_async(types.ReferenceParams(context=context, **at("XP9")))
    assert {Path(each.uri).name for each in found or ()} == {"bench.shop", DIESEL.name}
    renamed = await client.text_document_rename_async(types.RenameParams(new_name="XP10", **at("XP9")))
    assert renamed is not None
    assert len(renamed.changes or {}) == 2
    head = types.Range(types.Position(15, 0), types.Position(15, 0))
    actions = types.CodeActionParams(document, head, types.CodeActionContext([]))
    assert await client.text_document_code_action_async(actions) is not None
    options = types.FormattingOptions(2, True)
    assert await client.text_document_formatting_async(types.DocumentFormattingParams(document, options)) == ()
    of_part = types.DocumentRangeFormattingParams(document, whole, options)
    assert await client.text_document_range_formatting_async(of_part) == ()
    symbols = await client.text_document_document_symbol_async(types.DocumentSymbolParams(document))
    assert [each.name for each in symbols or ()][1].startswith("head")
    assert await client.text_document_folding_range_async(types.FoldingRangeParams(document))
    colours = await client.text_document_semantic_tokens_full_async(types.SemanticTokensParams(document))
    assert colours is not None
    assert len(colours.data) % 5 == 0
    came.clear()
    gone = types.TextDocumentContentChangePartial(types.Range(types.Position(0, 0), types.Position(0, 0)), "oops ")
    newer = types.VersionedTextDocumentIdentifier(2, uri)
    client.text_document_did_change(types.DidChangeTextDocumentParams(newer, [gone]))
    await came.wait()
    assert [each.code for each in shown[uri] if each.severity == types.DiagnosticSeverity.Error]
    client.text_document_did_close(types.DidCloseTextDocumentParams(document))
    await client.shutdown_async(None)
    client.exit(None)
    await client.stop()
    assert (tmp_path / DIESEL.name).read_text("utf-8") == text


# ---- as a process, under what no client should send --------------------------------------------------------------


class Process:
    """The server on two pipes, spoken to in bytes."""

    def __init__(self, *words: str) -> None:
        self.run = subprocess.Popen(
            words or PROGRAM, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, bufsize=0
        )
        self._held = b""

    def send(self, data: bytes) -> None:
        assert self.run.stdin is not None
        view = memoryview(data)
        while view:
            view = view[self.run.stdin.write(view) :]

    def say(self, **message: Any) -> None:
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        self.send(b"Content-Length: %d\r\n\r\n%s" % (len(body), body))

    def hear(self) -> dict[str, Any]:
        assert self.run.stdout is not None
        while True:
            for body in (frames := Frames()).take(self._held):
                self._held = bytes(frames._held)
                found: dict[str, Any] = json.loads(body)
                return found
            assert select.select([self.run.stdout], [], [], 60)[0], "the server says nothing"
            data = self.run.stdout.read(65_536)
            assert data, "the server is gone"
            self._held += data

    def answer(self, number: int) -> dict[str, Any]:
        while (message := self.hear()).get("id") != number or "method" in message:
            pass
        return message

    def begin(self) -> None:
        self.say(id=0, method="initialize", params={"processId": None, "rootUri": None, "capabilities": {}})
        assert "result" in self.answer(0)
        self.say(method="initialized", params={})

    def open(self, path: Path, text: str) -> None:
        document = {"uri": path.as_uri(), "languageId": "seatwright", "version": 1, "text": text}
        self.say(method="textDocument/didOpen", params={"textDocument": document})

    def alive(self, number: int) -> None:
        """It answers a plain request."""
        self.say(id=number, method="textDocument/foldingRange", params={"textDocument": {"uri": "file:///none.seat"}})
        assert self.answer(number)["result"] in (None, [])

    def ended(self) -> int:
        assert self.run.stdin is not None
        try:
            return self.run.wait(timeout=30)
        finally:
            self.run.kill()


def test_garbage_between_and_in_frames_is_passed_over() -> None:
    server = Process()
    server.begin()
    garbage = (
        b"hello\r\n\r\n",
        b"\x00\xff\xfe" * 50 + b"\r\n\r\n",
        b"Content-Length: 3\r\n\r\n{]x",
        b"Content-Length: 2\r\n\r\n[]",
        b"Content-Length: 1\r\n\r\n5",
        b"Content-Length: 4\r\nContent-Type: x\r\n\r\nnull",
        b"Content-Length: 20\r\n\r\n" + b"[" * 20,
        b"Content-Length: none\r\n\r\n",
        b"x" * 20_000 + b"\r\n\r\n",
        b'Content-Length: 17\r\n\r\n{"jsonrpc":"2.0"}',
        b'Content-Length: 37\r\n\r\n{"jsonrpc":"2.0","method":5,"id":{}}  ',
    )
    for number, each in enumerate(garbage, 1):
        server.send(each)
        server.alive(number)
    for number, params in enumerate((None, [], 7, {"textDocument": 3}, {"textDocument": {"uri": 1}}), 100):
        for method in ("textDocument/hover", "textDocument/completion", "textDocument/rename"):
            server.say(id=number, method=method, params=params)
            assert "error" in server.answer(number)
        server.say(method="textDocument/didChange", params=params)
        server.alive(number + 100)
    server.say(id=900, method="textDocument/nothing", params={})
    assert server.answer(900)["error"]["code"] == -32601
    server.say(id=901, method="shutdown")
    server.answer(901)
    server.say(method="exit")
    assert server.ended() == 0


def test_a_frame_beyond_all_measure_is_passed_over() -> None:
    frames = Frames()
    huge = b"Content-Length: 99999999999\r\n\r\n"
    assert list(frames.take(huge + b"x" * 1000)) == []
    assert len(frames._held) == 0
    frames = Frames()
    assert list(frames.take(b"Content-Length: 64000001\r\n\r\n" + b"y" * 64_000_001)) == []
    assert list(frames.take(b"Content-Length: 2\r\n\r\n{}")) == [b"{}"]


def test_a_file_of_five_megabytes_is_said_to_be_large(tmp_path: Path) -> None:
    server = Process()
    server.begin()
    path = tmp_path / "large.seat"
    server.open(path, 'note "x"\n' * 600_000)
    shown = server.hear()
    while shown.get("method") != "textDocument/publishDiagnostics":
        shown = server.hear()
    (said,) = shown["params"]["diagnostics"]
    assert said["code"] == "file-large"
    server.alive(1)
    change = {
        "range": {"start": {"line": 599_999, "character": 0}, "end": {"line": 599_999, "character": 0}},
        "text": "#",
    }
    document = {"uri": path.as_uri(), "version": 2}
    server.say(method="textDocument/didChange", params={"textDocument": document, "contentChanges": [change]})
    server.alive(2)
    server.run.kill()


@pytest.mark.skipif(os.name != "posix", reason="signals and pipes of this kind")
def test_it_ends_with_its_client(tmp_path: Path) -> None:
    def closed_in(server: Process) -> None:
        assert server.run.stdin is not None
        server.run.stdin.close()

    def closed_out(server: Process) -> None:
        assert server.run.stdout is not None
        server.run.stdout.close()
        server.open(tmp_path / "a.seat", "oops")

    for end in (closed_in, closed_out):
        server = Process()
        server.begin()
        end(server)
        assert server.ended() in (0, 1)
    # A client that died and left its pipes to another.
    client = subprocess.Popen(["sleep", "300"])
    server = Process()
    server.say(id=0, method="initialize", params={"processId": client.pid, "rootUri": None, "capabilities": {}})
    server.answer(0)
    client.send_signal(signal.SIGKILL)
    client.wait()
    assert server.ended() == 1


WATCHED = """
import sys
seen = []
def look(event, args):
    if event.startswith(("socket.", "subprocess.", "os.fork", "os.exec", "os.posix_spawn", "os.spawn", "os.system",
                         "os.remove", "os.rename", "os.mkdir")):
        seen.append(event)
    if event == "open" and isinstance(args[1], str) and set(args[1]) & set("wax+"):
        seen.append(f"open {args[0]} {args[1]}")
    if event == "open" and args[1] is None and args[2] & 3:
        seen.append(f"open {args[0]} {args[2]}")
from seatwright.commands.editor import editor
from seatwright.commands.jobs.warming import warm_planning
warm_planning()
sys.addaudithook(look)
code = editor()
sys.stderr.write("\\n".join(seen))
sys.exit(int(code))
"""


def test_it_writes_no_file_opens_no_socket_and_starts_no_program(tmp_path: Path) -> None:
    for name in (DIESEL.name, "bench.shop"):
        (tmp_path / name).write_bytes((JOBS / name).read_bytes())
    job = tmp_path / DIESEL.name
    text = job.read_text("utf-8")
    before = {path: path.read_bytes() for path in tmp_path.iterdir()}
    server = Process(sys.executable, "-c", WATCHED)
    server.begin()
    server.open(job, text.replace("46.032", "46,032", 1))
    document = {"textDocument": {"uri": job.as_uri()}}
    everywhere = {"start": {"line": 0, "character": 0}, "end": {"line": 200, "character": 0}}
    options = {"options": {"tabSize": 2, "insertSpaces": True}}
    where = {"position": position(text, text.index("XP9") + 1)}
    asked: list[tuple[str, dict[str, Any]]] = [
        ("hover", where), ("completion", where), ("definition", where), ("rename", {**where, "newName": "XP10"}),
        ("references", {**where, "context": {"includeDeclaration": True}}), ("formatting", options),
        ("rangeFormatting", {"range": everywhere, **options}), ("inlayHint", {"range": everywhere}),
        ("codeAction", {"range": everywhere, "context": {"diagnostics": []}}), ("documentSymbol", {}),
        ("foldingRange", {}), ("semanticTokens/full", {}),
    ]  # fmt: skip
    for number, (method, params) in enumerate(asked, 1):
        server.say(id=number, method=f"textDocument/{method}", params={**document, **params})
        assert "result" in server.answer(number), method
    server.say(id=99, method="shutdown")
    server.answer(99)
    server.say(method="exit")
    assert server.run.stderr is not None
    said = server.run.stderr.read().decode()
    assert server.ended() == 0
    assert said == ""
    assert {path: path.read_bytes() for path in tmp_path.iterdir()} == before


# ---- what has been overtaken -------------------------------------------------------------------------------------


def test_a_request_that_a_later_change_has_overtaken_is_dropped() -> None:
    editor = Editor()
    uri = editor.open(DIESEL)
    planned = 0
    work = editor.server.desk.worked_out

    def counted(text: Any) -> Any:
        nonlocal planned
        planned += 1
        return work(text)

    editor.server.desk.worked_out = counted  # type: ignore[method-assign]
    at = editor.texts[uri].index("46.032")
    waiting = []
    hovers = []
    for number in range(20):
        method, params = editor.typed(uri, at, at + 1, "4", number + 2)
        waiting.append({"method": method, "params": params})
        where = {"textDocument": {"uri": uri}, "position": position(editor.texts[uri], at)}
        hovers.append(editor.request("textDocument/hover", where))
        waiting.append(hovers[-1])
    answers = editor.send(*waiting)
    errors = [answers[hover["id"]].get("error", {}).get("code") for hover in hovers]
    assert errors == [-32801] * 19 + [None]
    assert planned == 0, "the text is as it was"
    method, params = editor.typed(uri, at, at + 1, "5", 50)
    gone = editor.request(
        "textDocument/hover", {"textDocument": {"uri": uri}, "position": position(editor.texts[uri], at)}
    )
    cancel = {"method": "$/cancelRequest", "params": {"id": gone["id"]}}
    answers = editor.send({"method": method, "params": params}, gone, cancel)
    assert answers[gone["id"]]["error"]["code"] == -32800
    assert planned == 1


def test_what_waits_is_sifted_in_one_pass() -> None:
    many = [
        {"id": number, "method": "textDocument/hover", "params": {"textDocument": {"uri": "a"}}}
        for number in range(50_000)
    ]
    change = {"method": "textDocument/didChange", "params": {"textDocument": {"uri": "a"}}}
    begun = time.process_time()
    found = sifted([*many, change])
    assert time.process_time() - begun < 2
    assert {why for _, why in found} == {-32801, None}


def test_a_fault_in_one_request_is_its_answer_and_nothing_more(monkeypatch: pytest.MonkeyPatch) -> None:
    editor = Editor()
    uri = editor.open(DIESEL)
    xp9 = position(editor.texts[uri], editor.texts[uri].index("XP9") + 1)
    monkeypatch.setattr("seatwright.editor.texts.desk.AsItStands.tree_of", _broken)
    request = editor.request("textDocument/hover", {"textDocument": {"uri": uri}, "position": xp9})
    answer = editor.send(request)[request["id"]]
    assert "broken on purpose" in answer["error"]["message"]
    monkeypatch.undo()
    assert editor.ask("textDocument/hover", request["params"]) is not None


def _broken(*words: object) -> None:
    raise RuntimeError("broken on purpose")


# ---- halves of UTF-16 --------------------------------------------------------------------------------------------

WIDE = "µ ½ Ø ″ 𝛷 🔧 e\u0301"


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_places_are_counted_in_halves_in_every_request(ends: str, mark: str, tmp_path: Path) -> None:
    text = mark + ends.join((
        f'job 7 "{WIDE}"  # {WIDE}', "  units mm", "", 'use "bench.shop"', "", f'head "{WIDE}"', "  material grey iron",
        "", "valves E1", "  insert X40  # 🔧", "", "measured", f'  valve insert-od x-{WIDE.replace(" ", "")} pocket-a',
        f'  E1 - "{WIDE}" 44,02', "",
    ))  # fmt: skip
    (tmp_path / "bench.shop").write_bytes((JOBS / "bench.shop").read_bytes())
    editor = Editor()
    uri = editor.open(tmp_path / "wide.seat", text)
    (said,) = [each for each in editor.shown[uri] if each["code"] == "decimal-comma"]
    slip = text.index("44,02")
    assert said["range"] == {"start": position(text, slip), "end": position(text, slip + 5)}
    document = {"textDocument": {"uri": uri}}
    place = {**document, "position": position(text, text.index("X40") + 1)}
    (home,) = editor.ask("textDocument/definition", place)
    assert home["uri"].endswith("bench.shop")
    around = {"range": said["range"], "context": {"diagnostics": []}}
    actions = editor.ask("textDocument/codeAction", {**document, **around})
    edit = next(each for each in actions if each.get("isPreferred"))["edit"]["changes"][uri][0]
    assert edit == {"range": said["range"], "newText": "44.02"}
    data = editor.ask("textDocument/semanticTokens/full", document)["data"]
    lines = re.split(r"\r\n|\r|\n", text)
    line = start = 0
    pieces = []
    for down, right, length, *_ in (data[at : at + 5] for at in range(0, len(data), 5)):
        line, start = line + down, right + (0 if down else start)
        piece = lines[line].encode("utf-16-le")[2 * start : 2 * (start + length)].decode("utf-16-le")
        pieces.append(piece)
    assert pieces[:4] == ["job", "7", f'"{WIDE}"', f"# {WIDE}"]
    assert {"X40", "grey iron", "pocket-a", f'"{WIDE}"'} <= {*pieces, "grey iron"}
    editor.type(uri, slip, slip + 5, "44.02")
    assert not [each for each in editor.shown[uri] if each["code"] == "decimal-comma"]
    assert editor.server.desk.texts[uri].text == text.replace("44,02", "44.02")
    assert units("𝛷") == 2
    assert "𝛷" in ODD
