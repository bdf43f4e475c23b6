"""What the tests of the editor share: a server in this process, spoken to in the protocol's own words."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from seatwright.commands.editor import EditorDisk
from seatwright.editor.server import EditorServer

JOBS = Path(__file__).with_name("jobs")
"""Jobs and a shop file of the tests' own, so that a demo job may tell another story without changing what is tried."""
_END = re.compile(r"\r\n|\r|\n")


class _Heard:
    """What the server sends."""

    def __init__(self) -> None:
        self.messages: list[dict[str, Any]] = []

    def write(self, data: bytes) -> None:
        head, _, body = data.partition(b"\r\n\r\n")
        assert int(re.search(rb"Content-Length: (\d+)", head)[1]) == len(body)  # type: ignore[index]
        self.messages.append(json.loads(body))

    def close(self) -> None:
        """Nothing is open."""


class Editor:
    """An editor's side: it opens, types and asks. shown: the diagnostics that it has by file."""

    def __init__(self) -> None:
        self.server = EditorServer(EditorDisk())
        self._heard = _Heard()
        self.server.protocol.set_writer(self._heard)
        self.shown: dict[str, list[dict[str, Any]]] = {}
        self.logged: list[str] = []
        self.texts: dict[str, str] = {}
        self._count = 0
        able = {"workspace": {"inlayHint": {"refreshSupport": True}}}
        self.capabilities = self.ask("initialize", {"processId": None, "rootUri": None, "capabilities": able})
        self.asked_anew = 0
        self.tell("initialized", {})

    def send(self, *bodies: dict[str, Any]) -> dict[int | str, dict[str, Any]]:
        """Messages that come all at once; the answers by their numbers."""
        self.server.handle([json.dumps({"jsonrpc": "2.0", **body}).encode() for body in bodies])
        answers = {}
        for message in self._heard.messages:
            if message.get("method") == "textDocument/publishDiagnostics":
                self.shown[message["params"]["uri"]] = message["params"]["diagnostics"]
            elif message.get("method") == "window/logMessage":
                self.logged.append(message["params"]["message"])
            elif message.get("method") == "workspace/inlayHint/refresh":
                self.asked_anew += 1
            elif "method" not in message:
                answers[message["id"]] = message
        self._heard.messages.clear()
        return answers

    def request(self, method: str, params: Any) -> dict[str, Any]:
        """A request, to be sent along with others."""
        self._count += 1
        return {"id": self._count, "method": method, "params": params}

    def ask(self, method: str, params: Any) -> Any:
        """One request; its result. Fails where the answer is an error."""
        request = self.request(method, params)
        answer = self.send(request)[request["id"]]
        assert "error" not in answer, answer
        return answer.get("result")

    def tell(self, method: str, params: Any) -> None:
        """One notification."""
        self.send({"method": method, "params": params})

    def open(self, path: Path, text: str | None = None) -> str:
        """Open a file, with its own text or another; its address."""
        uri = path.as_uri()
        text = path.read_bytes().decode("utf-8") if text is None else text
        self.texts[uri] = text
        document = {"uri": uri, "languageId": "seatwright", "version": 1, "text": text}
        self.tell("textDocument/didOpen", {"textDocument": document})
        return uri

    def close(self, uri: str) -> None:
        """Put a file away."""
        del self.texts[uri]
        self.tell("textDocument/didClose", {"textDocument": {"uri": uri}})

    def type(self, uri: str, start: int, end: int, put: str, version: int = 2) -> None:
        """Exchange the characters of a file from one up to another, as an editor would tell it."""
        self.tell(*self.typed(uri, start, end, put, version))

    def typed(self, uri: str, start: int, end: int, put: str, version: int = 2) -> tuple[str, dict[str, Any]]:
        """Exchange them here; what has to be told."""
        text = self.texts[uri]
        where = {"start": position(text, start), "end": position(text, end)}
        self.texts[uri] = text[:start] + put + text[end:]
        change = {"range": where, "text": put}
        document = {"uri": uri, "version": version}
        return "textDocument/didChange", {"textDocument": document, "contentChanges": [change]}

    def put(self, uri: str, text: str, version: int = 2) -> None:
        """Exchange the whole of a file."""
        self.texts[uri] = text
        document = {"uri": uri, "version": version}
        self.tell("textDocument/didChange", {"textDocument": document, "contentChanges": [{"text": text}]})


def units(text: str) -> int:
    """How many halves of UTF-16 a text takes, by Python's own codec."""
    return len(text.encode("utf-16-le", "surrogatepass")) // 2


def position(text: str, at: int) -> dict[str, int]:
    """Where a character of a text stands, as the protocol counts."""
    before = _END.split(text[:at])
    return {"line": len(before) - 1, "character": units(before[-1])}


def line_of(text: str, number: int) -> str:
    """A line of a text, from 0."""
    return _END.split(text)[number]


def shown(diagnostic: dict[str, Any]) -> tuple[Any, ...]:
    """A diagnostic as a plain row, to be compared."""
    start, end = diagnostic["range"]["start"], diagnostic["range"]["end"]
    where = (start["line"], start["character"], end["line"], end["character"])
    return (*where, diagnostic["source"], diagnostic["code"], diagnostic["message"])
