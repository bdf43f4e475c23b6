"""The protocol: which request is answered by what, and the one loop in which all is done, one thing after the other.

No request is worked out that has been overtaken, nothing runs beside anything else, and what goes wrong in one request
is that request's answer.
"""

from __future__ import annotations

import gc
import logging
import os
import queue
import threading
from collections.abc import Callable, Generator
from pathlib import Path
from typing import Any, Protocol
from urllib.parse import unquote, urlsplit

from lsprotocol import types
from pygls.lsp.server import LanguageServer
from pygls.protocol import LanguageServerProtocol, lsp_method
from pygls.uris import to_fs_path

from seatwright.editor import diagnostics, frames
from seatwright.editor.answers import ANSWERS
from seatwright.editor.highlighting.known_words import FILE_ENDS
from seatwright.editor.texts.desk import AsItStands, Desk, Disk, OpenText
from seatwright.editor.texts.positions import text_changed
from seatwright.version import VERSION

_LOOK_AFTER = 3.0  # seconds between two looks whether the editor still runs


class Out(Protocol):
    """Where answers go."""

    def write(self, data: bytes) -> object:
        """Hand bytes over. Raises OSError where nobody takes them."""

    def close(self) -> None:
        """No more will come."""


class _Protocol(LanguageServerProtocol):
    """The texts are kept on the desk and nowhere else; columns are halves of UTF-16, whatever else is offered."""

    _server: EditorServer

    @lsp_method(types.INITIALIZE)
    def lsp_initialize(self, params: types.InitializeParams) -> Generator[Any, Any, types.InitializeResult]:
        """Say what can be asked."""
        general = params.capabilities.general
        if general is not None:
            general.position_encodings = [types.PositionEncodingKind.Utf16]
        params.workspace_folders = None  # nothing is kept of them
        self._server.desk.snippets = _knows_snippets(params.capabilities)
        self._server.set_up(params.initialization_options)
        return (yield from super().lsp_initialize(params))

    @lsp_method(types.TEXT_DOCUMENT_DID_OPEN)
    def lsp_text_document__did_open(self, params: types.DidOpenTextDocumentParams) -> None:
        """A file lies open."""
        document = params.text_document
        self._server.desk.open(_opened(document, self._server.desk.disk))

    @lsp_method(types.TEXT_DOCUMENT_DID_CHANGE)
    def lsp_text_document__did_change(self, params: types.DidChangeTextDocumentParams) -> None:
        """Something was typed."""
        text = self._server.desk.texts.get(params.text_document.uri)
        if text is None:
            return
        for change in params.content_changes:
            where = getattr(change, "range", None)
            text.text = change.text if where is None else text_changed(text.text, where, change.text)
        text.version = params.text_document.version

    @lsp_method(types.TEXT_DOCUMENT_DID_CLOSE)
    def lsp_text_document__did_close(self, params: types.DidCloseTextDocumentParams) -> None:
        """A file is put away."""
        self._server.desk.close(params.text_document.uri)

    def wrong(self, number: int | str | None, code: int, text: str) -> None:
        """Answer that something is wrong with a request."""
        self._send_response(number, error=types.ResponseError(code, text))  # type: ignore[arg-type]


class EditorServer(LanguageServer):
    """The server of one editor. shown: what was shown last, by the file that said it, then by where."""

    protocol: _Protocol

    def __init__(self, disk: Disk) -> None:
        super().__init__("seatwright", VERSION, types.TextDocumentSyncKind.Incremental, protocol_cls=_Protocol)
        self.desk = Desk(disk)
        self.shown: dict[str, dict[str, list[types.Diagnostic]]] = {}
        self._stood: dict[str, AsItStands] = {}
        self._published: dict[str, tuple[list[types.Diagnostic], int | None]] = {}
        for method, (answer, options) in ANSWERS.items():
            self.feature(method, options)(self._answering(answer))
        self.feature(types.INITIALIZED)(lambda params: self._watch_files())
        self.feature(types.WORKSPACE_DID_CHANGE_CONFIGURATION)(lambda params: self.set_up(params.settings))
        for said in (types.WORKSPACE_DID_CHANGE_WATCHED_FILES, types.TEXT_DOCUMENT_DID_SAVE):
            self.feature(said)(lambda params: None)  # what stands on disk is looked at after every message

    def report_server_error(self, error: Exception, source: Any) -> None:
        """What went wrong in a request is in its answer, and in the editor's log; nobody's typing is interrupted."""
        if not isinstance(error, BrokenPipeError):
            self.window_log_message(types.LogMessageParams(types.MessageType.Error, f"seatwright: {error}"))

    def set_up(self, settings: Any) -> None:
        """Take the one setting there is, `inlay`, as it stands or under the program's name."""
        named = settings.get("seatwright", settings) if isinstance(settings, dict) else None
        wanted = named.get("inlay") if isinstance(named, dict) else None
        if isinstance(wanted, bool):
            self.desk.inlay = wanted

    def _answering(self, answer: Callable[..., Any]) -> Callable[[Any], Any]:
        def answered(params: Any) -> Any:
            return answer(self.desk, params)

        return answered

    def _watch_files(self) -> None:
        """Ask to be told when a file changes on disk, where the editor can."""
        workspace = self.client_capabilities.workspace
        watching = workspace.did_change_watched_files if workspace is not None else None
        if watching is None or not watching.dynamic_registration:
            return
        options = types.DidChangeWatchedFilesRegistrationOptions(
            [types.FileSystemWatcher(f"**/*.{{{','.join(FILE_ENDS)}}}")]
        )
        method = types.WORKSPACE_DID_CHANGE_WATCHED_FILES
        registration = types.Registration("files", method, options)
        self.client_register_capability(types.RegistrationParams([registration]), _heard)

    def say_what_changed(self) -> None:
        """Show what is to be said of each open file, wherever it is not what is shown already."""
        by_another = False
        for uri in list(self.desk.texts):
            stands = self.desk.stands(uri)
            if stands is None:
                continue
            before = self._stood.get(uri)
            by_another |= before is not None and before is not stands and before.text == stands.text
            self._stood[uri] = stands
            self.shown[uri] = diagnostics.said_of(stands, self.desk)
        for uri in self.shown.keys() - self.desk.texts.keys():
            del self.shown[uri], self._stood[uri]
        addresses = {address for shown in self.shown.values() for address in shown}
        for address in sorted(addresses | self._published.keys()):
            text = self.desk.texts.get(address)
            now = (diagnostics.said_together(self.shown, address), text.version if text is not None else None)
            if self._published.get(address) != now:
                self._published[address] = now
                self.text_document_publish_diagnostics(types.PublishDiagnosticsParams(address, *now))
            if address not in addresses:
                del self._published[address]
        if by_another:
            self._ask_anew()

    def _ask_anew(self) -> None:
        """What stands behind the lines of a job has changed with a file that it uses: the editor is to ask again."""
        workspace = self.client_capabilities.workspace
        if workspace is not None and workspace.inlay_hint is not None and workspace.inlay_hint.refresh_support:
            self.workspace_inlay_hint_refresh(None, _heard)

    def handle(self, waiting: list[bytes]) -> None:
        """All that waits, in its order, what has been overtaken answered unworked; then the messages of `check`."""
        messages = []
        for body in waiting:
            try:
                messages.append(frames.message_of(body))
            except frames.Wrong as wrong:
                self.protocol.wrong(None, wrong.code, str(wrong))
        for message, overtaken in frames.sifted(messages):
            if overtaken is not None:
                self.protocol.wrong(message["id"], overtaken, "the text has changed, or the request was taken back")
                continue
            try:
                structured: Any = self.protocol.structure_message(message)
            except Exception as problem:
                if "id" in message and "method" in message:
                    self.protocol.wrong(message["id"], -32602, f"the request cannot be read: {problem}")
                continue
            self.protocol.handle_message(structured)
        try:
            self.say_what_changed()
        except OSError:
            raise
        except Exception as problem:  # a fault of the program's own: said, and the next keystroke is a new chance
            self.report_server_error(problem, type(problem))


def serve_editor(disk: Disk, read: Callable[[int], bytes], out: Out) -> int:
    """Answer one editor until it says so or is gone; the exit code."""
    logging.disable(logging.CRITICAL)  # faults go into the answers; a line on the terminal would be nobody's
    server = EditorServer(disk)
    pipe = _Pipe(out)
    server.protocol.set_writer(pipe)
    came: queue.SimpleQueue[bytes | None] = queue.SimpleQueue()
    threading.Thread(target=frames.pump, args=(read, came), daemon=True).start()
    gc.freeze()  # what is loaded by now stays; only what a keystroke makes is looked through
    try:
        while not pipe.broken:
            waiting = _waiting(came)
            if not waiting and not _runs(server.process_id):
                return 1
            if (bodies := [body for body in waiting if body is not None]) or waiting == []:
                server.handle(bodies)
            if None in waiting:  # the editor has closed the pipe
                return 0
    except SystemExit as done:  # the editor said `exit`
        return int(done.code or 0)
    except OSError:
        pass
    return 1


class _Pipe:
    """The way out, and whether anybody still takes what comes."""

    def __init__(self, out: Out) -> None:
        self._out = out
        self.broken = False

    def write(self, data: bytes) -> None:
        try:
            self._out.write(data)
        except (OSError, ValueError):
            self.broken = True
            raise BrokenPipeError from None

    def close(self) -> None:
        self._out.close()


def _waiting(came: queue.SimpleQueue[bytes | None]) -> list[bytes | None]:
    """All that has come, once something has; nothing where nothing came for a while."""
    try:
        found = [came.get(timeout=_LOOK_AFTER)]
    except queue.Empty:
        return []
    while not came.empty():
        found.append(came.get())
    return found


def _runs(process: int | None) -> bool:
    """Whether the editor's process is there; where that cannot be asked without harm, it is."""
    if process is None or os.name != "posix":
        return True
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True


def _knows_snippets(capabilities: types.ClientCapabilities) -> bool:
    of_text = capabilities.text_document
    completion = of_text.completion if of_text is not None else None
    item = completion.completion_item if completion is not None else None
    return bool(item is not None and item.snippet_support)


def _opened(document: types.TextDocumentItem, disk: Disk) -> OpenText:
    path = to_fs_path(document.uri)
    try:
        place = None if not path else Path(path)
        folder = None if place is None else disk.truly(place.parent)
        truly = None if place is None else disk.truly(place)
    except ValueError:  # a name that no system takes
        place, folder, truly = None, None, None
    name = place.name if place is not None else unquote(urlsplit(document.uri).path).rpartition("/")[2]
    return OpenText(document.uri, folder, disk.shown(name or "unsaved.seat"), truly, document.text, document.version)


def _heard(result: Any) -> None:
    """The editor's answer says nothing that is needed."""
