"""The server of the watch: three addresses behind a token, on the loopback port alone. It opens no file at all."""

from __future__ import annotations

import hmac
import secrets
import socket
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any
from urllib.parse import parse_qs, urlsplit

from seatwright.commands.watch import page
from seatwright.commands.watch.rebuild import Latest

LOOPBACK = "127.0.0.1"
_WAIT = 20.0  # s that a page waits for the next build before it asks again
_MOST_AT_ONCE = 64  # connections; a browser with a few pages open has a handful
_ARRIVES = 5.0  # s that a request has to arrive in full, however it drips
_FAREWELL = 1.0  # s that a page has, at the end, to be told so

_HTML, _JSON, _TEXT = "text/html; charset=utf-8", "application/json", "text/plain; charset=utf-8"


class Server(ThreadingHTTPServer):
    """Serves what is to be shown of one job. address: with the token, as a browser needs it."""

    daemon_threads = False  # they are waited for: none may outlive the watch
    request_queue_size = 32

    def __init__(self, job: str, latest: Latest) -> None:
        self.job = job
        self.latest = latest
        self.token = secrets.token_urlsafe(24)
        self._open: dict[socket.socket, float] = {}  # since when
        self._arrived: set[socket.socket] = set()
        self._lock = threading.Lock()
        super().__init__((LOOPBACK, 0), _Handler)
        self.hosts = frozenset(f"{name}:{self.server_port}" for name in (LOOPBACK, "localhost"))
        self.address = f"http://{LOOPBACK}:{self.server_port}/{self.token}/"

    def process_request(self, request: Any, client_address: Any) -> None:
        """Answer in a thread of its own; one connection too many is closed at once."""
        with self._lock:
            if len(self._open) >= _MOST_AT_ONCE:
                self._drop(self._waited_for()[:1])  # the slowest makes room
            full = len(self._open) >= _MOST_AT_ONCE
            if not full:
                self._open[request] = time.monotonic()
        if full:
            super().shutdown_request(request)
            return
        super().process_request(request, client_address)

    def shutdown_request(self, request: Any) -> None:
        """Close a connection."""
        with self._lock:
            self._open.pop(request, None)
            self._arrived.discard(request)
        super().shutdown_request(request)

    def service_actions(self) -> None:
        """Every moment: drop those whose request has not arrived in its time."""
        with self._lock:
            late = time.monotonic() - _ARRIVES
            self._drop([each for each in self._waited_for() if self._open[each] < late])

    def arrived(self, request: socket.socket) -> None:
        """Its request is here: from now on it may wait for the next build."""
        with self._lock:
            self._arrived.add(request)

    def _waited_for(self) -> list[socket.socket]:
        return [each for each in self._open if each not in self._arrived]

    def _drop(self, connections: list[socket.socket]) -> None:
        for each in connections:
            self._open.pop(each, None)
            with suppress(OSError):
                each.shutdown(socket.SHUT_RDWR)  # its thread wakes up and closes it

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that went away in the middle is no fault worth a word."""

    def let_go(self) -> None:
        """Give the open pages a moment to be told that it is over, then close what is still open."""
        until = time.monotonic() + _FAREWELL
        while self._open and time.monotonic() < until:
            time.sleep(0.02)
        with self._lock:
            for connection in self._open:
                try:
                    connection.shutdown(socket.SHUT_RDWR)
                except OSError:
                    continue


class _Handler(BaseHTTPRequestHandler):
    server: Server
    server_version = "seatwright"
    sys_version = ""
    timeout = 10  # s for a request to arrive

    def do_GET(self) -> None:
        """Answer one request: the page, its state or the cards; anything else is refused without a word about why."""
        self.server.arrived(self.connection)
        if self.headers.get_all("Host", []) not in [[host] for host in self.server.hosts]:
            self._answer(403, _TEXT, b"This address is not served.\n")
            return
        address = urlsplit(self.path)
        token, _, name = address.path.removeprefix("/").partition("/")
        if not hmac.compare_digest(token.encode("utf-8", "replace"), self.server.token.encode()):
            self._answer(404, _TEXT, b"Not here.\n")
            return
        found = {"": self._page, "state": self._state, "cards.html": self._cards}.get(name)
        if found is None:
            self._answer(404, _TEXT, b"Not here.\n")
            return
        found(address.query)

    def _page(self, _: str) -> None:
        nonce = secrets.token_urlsafe(16)
        self._answer(200, _HTML, page.page(self.server.job, nonce), page.policy(nonce))

    def _state(self, query: str) -> None:
        after = parse_qs(query).get("after", [""])[0]
        known = int(after) if after.isdecimal() and len(after) < 12 else -1
        self._answer(200, _JSON, page.state(self.server.latest.newer_than(known, _WAIT)))

    def _cards(self, _: str) -> None:
        cards = self.server.latest.shown.cards
        if cards is None:
            self._answer(404, _TEXT, b"There are no cards yet: the job has errors.\n")
            return
        self._answer(200, _HTML, cards, page.CARDS_POLICY)

    def _answer(self, code: int, kind: str, body: bytes, policy: str = "default-src 'none'") -> None:
        self.send_response(code)
        for name, value in (
            ("Content-Type", kind),
            ("Content-Length", str(len(body))),
            ("Content-Security-Policy", policy),
            ("Cache-Control", "no-store"),
            ("Cross-Origin-Resource-Policy", "same-origin"),
            ("Referrer-Policy", "no-referrer"),  # the address holds the token
            ("X-Content-Type-Options", "nosniff"),
        ):
            self.send_header(name, value)
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing: the terminal is for what the builds come to."""


@contextmanager
def serving(job: str, latest: Latest, say: Callable[[str], None]) -> Iterator[Server]:
    """A running server, told to `say` at which address; ended, with all its threads, on leaving. Raises OSError."""
    server = Server(job, latest)
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.1}, name="watch-server")
    thread.start()
    try:
        say(server.address)
        yield server
    finally:
        latest.end()
        server.shutdown()
        thread.join()
        server.let_go()
        server.server_close()
