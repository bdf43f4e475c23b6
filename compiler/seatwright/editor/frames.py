"""What comes in from the editor: messages out of a stream of bytes, whatever else the stream holds.

A reader of its own hands them on as they come, so that what does the work sees all that waits before it begins:
a request that a later change has overtaken is not worked out at all.
"""

from __future__ import annotations

import json
import queue
import re
from collections.abc import Callable, Iterator
from typing import Any

_LENGTH = re.compile(rb"(?im)content-length:[ \t]*(\d{1,12})[ \t]*\r?$")
_HEADER_ENDS = re.compile(rb"\r?\n\r?\n")
_LONGEST_HEADER = 8_192
LONGEST = 64_000_000
"""Bytes of a message at most; a longer one is passed over, and nothing is set aside for it."""

PARSE_ERROR, INVALID_REQUEST, CONTENT_MODIFIED, REQUEST_CANCELLED = -32700, -32600, -32801, -32800


class Frames:
    """Takes a stream apart, bytes as they come; what is no frame is passed over."""

    def __init__(self) -> None:
        self._held = bytearray()
        self._skip = 0

    def take(self, data: bytes) -> Iterator[bytes]:
        """The bodies that are complete with these bytes."""
        self._held += data
        while True:
            if self._skip:
                gone = min(self._skip, len(self._held))
                del self._held[:gone]
                self._skip -= gone
                if self._skip:
                    return
            end = _HEADER_ENDS.search(self._held)
            if end is None:
                if len(self._held) > _LONGEST_HEADER:
                    del self._held[:-_LONGEST_HEADER]
                return
            length = _LENGTH.search(self._held, 0, end.start() + 1)
            size = None if length is None else int(length[1])
            if size is None:
                del self._held[: end.end()]
            elif size > LONGEST:
                del self._held[: end.end()]
                self._skip = size
            elif len(self._held) < end.end() + size:
                return
            else:
                body = bytes(self._held[end.end() : end.end() + size])
                del self._held[: end.end() + size]
                yield body


class Wrong(Exception):
    """A body that is no message; code: as the protocol numbers it."""

    def __init__(self, code: int, text: str) -> None:
        super().__init__(text)
        self.code = code


def message_of(body: bytes) -> dict[str, Any]:
    """A message out of its frame. Raises Wrong for what is none."""
    try:
        found = json.loads(body)
    except (ValueError, RecursionError) as problem:
        raise Wrong(PARSE_ERROR, f"no JSON: {problem}") from None
    if not isinstance(found, dict) or found.get("jsonrpc") != "2.0":
        raise Wrong(INVALID_REQUEST, "no message of JSON-RPC 2.0")
    return found


def sifted(waiting: list[dict[str, Any]]) -> list[tuple[dict[str, Any], int | None]]:
    """The messages that wait, each request with the reason, as a code of the protocol, why it need not be worked out:
    the editor has taken it back, or has changed the text since. None where it is wanted."""
    taken_back: set[object] = set()
    changed: set[object] = set()
    found: list[tuple[dict[str, Any], int | None]] = []
    for message in reversed(waiting):
        method, number = message.get("method"), message.get("id")
        why = None
        if method == "$/cancelRequest":
            taken_back.add(_named(_of(message, "id")))
        elif method == "textDocument/didChange":
            changed.add(_address(message) or "")
        elif method is not None and number is not None:
            if _named(number) in taken_back:
                why = REQUEST_CANCELLED
            elif _address(message) in changed:
                why = CONTENT_MODIFIED
        found.append((message, why))
    return found[::-1]


def _named(number: Any) -> object:
    return number if isinstance(number, str | int) else None


def _address(message: dict[str, Any]) -> object:
    document = _of(message, "textDocument")
    address = document.get("uri") if isinstance(document, dict) else None
    return address if isinstance(address, str) else None


def _of(message: dict[str, Any], key: str) -> Any:
    params = message.get("params")
    return params.get(key) if isinstance(params, dict) else None


def pump(read: Callable[[int], bytes], out: queue.SimpleQueue[bytes | None]) -> None:
    """Hand on what is read until there is no more, then None."""
    frames = Frames()
    try:
        while data := read(65_536):
            for body in frames.take(data):
                out.put(body)
    except OSError:
        pass  # the editor is gone
    out.put(None)
