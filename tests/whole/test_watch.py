"""`seatwright watch`: what it serves and to whom, what it survives, and in a real browser that the figure follows."""

from __future__ import annotations

import contextlib
import html
import http.client
import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from tests.whole.chromium import tab
from tests.whole.shop import JOBS, seatwright

from seatwright.commands.watch.rebuild import Built, Latest
from seatwright.commands.watch.server import Server, serving

JOB = "single-cylinder.seat"


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    """A folder with one job and its shop file."""
    for name in (JOB, "bench.shop"):
        shutil.copy(JOBS / name, tmp_path)
    return tmp_path


# --- the server alone


@pytest.fixture
def server() -> Iterator[Server]:
    latest = Latest()
    latest.put(Built(b"<p>the cards</p>", ""))
    with serving("a <b>.seat", latest, lambda _: None) as running:
        yield running


def ask(server: Server, path: str, **headers: str) -> tuple[int, dict[str, str], bytes]:
    """One request. The path goes out as it is written here, which a browser would have tidied first."""
    connection = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=10)
    with contextlib.closing(connection):
        connection.request("GET", path, headers=headers)
        answer = connection.getresponse()
        return answer.status, {name.lower(): value for name, value in answer.getheaders()}, answer.read()


def test_the_page_and_the_cards_are_served_behind_the_token(server: Server) -> None:
    code, headers, body = ask(server, f"/{server.token}/")
    assert code == 200
    assert b"a &lt;b&gt;.seat" in body
    nonce = re.search(rb'script nonce="([\w-]+)"', body)
    assert nonce is not None
    assert f"script-src 'nonce-{nonce[1].decode()}'" in headers["content-security-policy"]
    assert headers["referrer-policy"] == "no-referrer"
    code, headers, body = ask(server, f"/{server.token}/cards.html?1")
    assert (code, body) == (200, b"<p>the cards</p>")
    assert "script-src" not in headers["content-security-policy"]
    assert "default-src 'none'" in headers["content-security-policy"]


@pytest.mark.parametrize("path", ["/", "/cards.html", "/x/cards.html", "//", "/{token}", "/{short}/", "*", "/%ff/"])
def test_without_the_token_there_is_nothing(server: Server, path: str) -> None:
    code, _, body = ask(server, path.format(token=server.token.swapcase(), short=server.token[:-1]))
    assert (code, body) == (404, b"Not here.\n")


@pytest.mark.parametrize(
    "name",
    [
        "../../etc/passwd",
        "..%2f..%2fetc%2fpasswd",
        "/etc/passwd",
        "plan.json",
        "bench.shop",
        "cards.html/",
        "./cards.html",
        "..\\cards.html",
        "state/../cards.html",
        "%2e%2e/cards.html",
        "cards.html%00",
    ],
)
def test_no_file_but_the_cards_is_served(server: Server, name: str) -> None:
    assert ask(server, f"/{server.token}/{name}")[0] == 404


@pytest.mark.parametrize(
    "host", ["example.test", "127.0.0.1", "localhost:1", "127.0.0.1:{port}.example.test", "[::1]:{port}", ""]
)
def test_a_request_for_another_host_is_refused(server: Server, host: str) -> None:
    code, _, body = ask(server, f"/{server.token}/", Host=host.format(port=server.server_port))
    assert code == 403
    assert server.token.encode() not in body


def test_two_hosts_or_none_are_refused(server: Server) -> None:
    for hosts in (f"Host: 127.0.0.1:{server.server_port}\r\nHost: example.test\r\n", ""):
        with socket.create_connection(("127.0.0.1", server.server_port), timeout=10) as connection:
            connection.sendall(f"GET /{server.token}/ HTTP/1.1\r\n{hosts}\r\n".encode())
            assert b" 403 " in connection.recv(4096)


def test_nothing_but_reading_is_answered(server: Server) -> None:
    for method in ("POST", "PUT", "DELETE", "OPTIONS"):
        connection = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=10)
        with contextlib.closing(connection):
            connection.request(method, f"/{server.token}/")
            assert connection.getresponse().status == 501


def test_clients_that_drip_keep_nobody_out_and_are_dropped(server: Server, monkeypatch: pytest.MonkeyPatch) -> None:
    def dripping() -> socket.socket:
        connection = socket.create_connection(("127.0.0.1", server.server_port), timeout=10)
        connection.sendall(b"GET / HT")
        return connection

    slow = [dripping() for _ in range(80)]
    path = urlsplit(server.address).path
    assert ask(server, path, Host=f"127.0.0.1:{server.server_port}")[0] == 200
    monkeypatch.setattr("seatwright.commands.watch.server._ARRIVES", 0.2)
    for connection in slow:
        with contextlib.closing(connection), contextlib.suppress(ConnectionError):
            assert connection.recv(1) == b"", "it is still waited for"


def test_it_listens_on_the_loopback_alone(server: Server) -> None:
    assert server.server_address[0] == "127.0.0.1"
    with Server("other.seat", Latest()) as other:
        assert other.server_port != server.server_port
        assert other.token != server.token


def test_a_page_that_waits_is_told_of_the_next_build_and_of_the_end() -> None:
    latest = Latest()
    latest.put(Built(b"first", ""))
    threads = threading.active_count()
    heard: list[dict[str, Any]] = []
    with serving("a.seat", latest, lambda _: None) as server:

        def wait(version: int) -> None:
            heard.append(json.loads(ask(server, f"/{server.token}/state?after={version}")[2]))

        for version in (1, 2):
            waiting = threading.Thread(target=wait, args=(version,))
            waiting.start()
            time.sleep(0.1)
            if version == 1:
                assert not heard
                latest.put(Built(None, "1 error in the file"))
                waiting.join(10)
        silent = socket.create_connection(("127.0.0.1", server.server_port))
        began = time.monotonic()
    waiting.join(10)
    silent.close()
    assert time.monotonic() - began < 5, "a silent connection held up the end"
    assert [(each["version"], each["cards"], each["ended"]) for each in heard] == [(2, 1, False), (2, 1, True)]
    assert "LAST GOOD CARDS" in heard[0]["banner"]
    assert threading.active_count() == threads


def test_nothing_of_a_broken_job_can_become_markup() -> None:
    latest = Latest()
    latest.put(Built(None, "<script>alert(1)</script>"))
    with serving("<img onerror=x>.seat", latest, lambda _: None) as server:
        page = ask(server, f"/{server.token}/")[2].decode()
        assert "<img" not in page
        assert html.escape("<img onerror=x>.seat") in page
        _, headers, _ = ask(server, f"/{server.token}/state?after=0")
        assert headers["content-type"] == "application/json"
        assert headers["x-content-type-options"] == "nosniff"


# --- the command in a process of its own


@dataclass(slots=True)
class Watching:
    """A running watch, as a browser's script sees it."""

    process: subprocess.Popen[str]
    address: str

    def state(self, after: int = -1) -> dict[str, Any]:
        where = urlsplit(self.address)
        connection = http.client.HTTPConnection(where.hostname or "", where.port, timeout=60)
        with contextlib.closing(connection):
            connection.request("GET", f"{where.path}state?after={after}")
            return dict(json.loads(connection.getresponse().read()))

    def cards(self) -> str:
        where = urlsplit(self.address)
        connection = http.client.HTTPConnection(where.hostname or "", where.port, timeout=60)
        with contextlib.closing(connection):
            connection.request("GET", f"{where.path}cards.html")
            return connection.getresponse().read().decode("utf-8")

    def until(self, wanted: Any, seconds: float = 30) -> dict[str, Any]:
        """The first state that is as wanted."""
        end = time.monotonic() + seconds
        state = self.state()
        while not wanted(state):
            assert time.monotonic() < end, state
            state = self.state(state["version"])
        return state

    def held(self) -> tuple[int, int]:
        """How many file descriptors and threads the process has."""
        home = Path("/proc", str(self.process.pid))
        return len(list((home / "fd").iterdir())), len(list((home / "task").iterdir()))


@contextlib.contextmanager
def watching(folder: Path, job: str = JOB) -> Iterator[Watching]:
    process = subprocess.Popen(
        [sys.executable, "-m", "seatwright", "watch", job, "--no-browser"],
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    try:
        assert process.stdout is not None
        found = re.search(r"http://127\.0\.0\.1:\d+/\S+/", process.stdout.readline())
        assert found is not None, process.stderr.read() if process.stderr else ""
        yield Watching(process, found[0])
    finally:
        process.kill()
        process.communicate(timeout=30)


def good(state: dict[str, Any]) -> bool:
    return state["version"] > 0 and not state["banner"]


def bad(state: dict[str, Any]) -> bool:
    return bool(state["banner"])


def noted(path: Path, words: str) -> str:
    return path.read_text("utf-8") + f'\nnote "{words}"\n'


def test_the_cards_in_the_watch_are_those_of_a_build(bench: Path) -> None:
    with watching(bench) as watch:
        watch.until(good)
        seatwright("build", JOB, "-o", "out", cwd=bench)
        assert watch.cards() == (bench / "out" / Path(JOB).stem / "cards.html").read_text("utf-8")
        assert not (bench / "cards").exists(), "the watch wrote to disk"


def test_the_shops_own_templates_are_on_the_cards_and_followed(bench: Path) -> None:
    (bench / "templates").mkdir()
    own = bench / "templates" / "guides.md"
    own.write_text("Guides at the small bench.\n", "utf-8")
    with watching(bench) as watch:
        first = watch.until(good)
        assert "at the small bench" in watch.cards()
        own.write_text("Guides at the large bench.\n", "utf-8")
        watch.until(lambda state: state["cards"] > first["cards"])
        assert "at the large bench" in watch.cards()
        own.write_text("{{ nobody }}\n", "utf-8")
        assert "emplate guides.md, line 1" in watch.until(bad)["banner"]


def test_a_job_deleted_and_put_back_is_followed_again(bench: Path) -> None:
    job = bench / JOB
    text = job.read_text("utf-8")
    with watching(bench) as watch:
        first = watch.until(good)
        job.unlink()
        gone = watch.until(bad)
        assert "cannot be read" in gone["banner"]
        assert gone["cards"] == first["cards"], "the last good cards are not kept"
        job.write_text(text + '\nnote "back again"\n', "utf-8")
        assert watch.until(good)["cards"] > first["cards"]
        assert "back again" in watch.cards()


def test_a_save_that_stops_half_way_keeps_the_last_good_cards_until_it_is_whole(bench: Path) -> None:
    job = bench / JOB
    text = noted(job, "saved whole")
    with watching(bench) as watch:
        first = watch.until(good)
        before = watch.cards()
        with job.open("w", encoding="utf-8") as file:
            file.write(text[: text.index("I1") + 20])
            file.flush()
            state = watch.until(bad)
            assert state["messages"][0]["severity"] == "error"
            assert state["cards"] == first["cards"]
            assert watch.cards() == before
            file.write(text[text.index("I1") + 20 :])
        watch.until(good)
        assert "saved whole" in watch.cards()


def test_a_changed_shop_file_changes_the_cards(bench: Path) -> None:
    shop = bench / "bench.shop"
    with watching(bench) as watch:
        first = watch.until(good)
        before = watch.cards()
        text = shop.read_text("utf-8")
        shop.write_text(text.replace("clean-up            0.10", "clean-up            0.12"), "utf-8")
        watch.until(lambda state: state["cards"] > first["cards"])
        assert watch.cards() != before


def test_a_shop_file_that_was_missing_is_seen_when_it_comes(bench: Path) -> None:
    (bench / "shelf").mkdir()
    job = bench / JOB
    job.write_text(job.read_text("utf-8").replace('"bench.shop"', '"shelf/new.shop"'), "utf-8")
    with watching(bench) as watch:
        assert "1 error" in watch.until(bad)["banner"]
        shutil.move(bench / "bench.shop", bench / "shelf" / "new.shop")
        watch.until(good)


@pytest.mark.parametrize("how", ["rename over it", "away and anew", "the folder away and back"])
def test_an_editor_that_saves_by_renaming_is_followed_more_than_once(bench: Path, how: str) -> None:
    home = bench / "home"
    home.mkdir()
    for name in (JOB, "bench.shop"):
        shutil.move(bench / name, home / name)
    job = home / JOB
    with watching(bench, f"home/{JOB}") as watch:
        watch.until(good)
        for number in (1, 2, 3):
            words = f"edit number {number}"
            beside = home / ".4913.swp"
            if how == "rename over it":
                beside.write_text(noted(job, words), "utf-8")
                os.replace(beside, job)
            elif how == "away and anew":
                text = noted(job, words)
                os.replace(job, home / f"{JOB}~")
                job.write_text(text, "utf-8")
            else:
                new = bench / "other"
                shutil.copytree(home, new)
                (new / JOB).write_text(noted(job, words), "utf-8")
                os.rename(home, bench / f"old{number}")
                os.rename(new, home)
            end = time.monotonic() + 20
            while words not in watch.cards():
                assert time.monotonic() < end, words
                time.sleep(0.05)


@pytest.mark.slow
def test_a_hundred_saves_in_ten_seconds_end_with_the_last_one_and_nothing_left_open(bench: Path) -> None:
    job = bench / JOB
    text = job.read_text("utf-8")
    with watching(bench) as watch:
        watch.until(good)
        time.sleep(1.5)
        before = watch.held()
        began = time.monotonic()
        for number in range(100):
            job.write_text(f'{text}\nnote "save number {number}"\n', "utf-8")
            time.sleep(max(0.0, began + (number + 1) * 0.1 - time.monotonic()))
        end = time.monotonic() + 20
        while "save number 99" not in watch.cards():
            assert time.monotonic() < end
            time.sleep(0.1)
        assert watch.process.poll() is None
        time.sleep(1.5)
        assert watch.held() == before


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_ctrl_c_ends_it_cleanly_with_pages_waiting(bench: Path, number: signal.Signals) -> None:
    with watching(bench) as watch:
        version = watch.until(good)["version"]
        heard: list[dict[str, Any]] = []
        waiting = threading.Thread(target=lambda: heard.append(watch.state(version)))
        waiting.start()
        time.sleep(0.3)
        watch.process.send_signal(number)
        _, err = watch.process.communicate(timeout=10)
        waiting.join(10)
    assert watch.process.returncode == 0
    assert "ended" in err
    assert "Traceback" not in err
    assert heard[0]["ended"]


def test_a_fault_of_the_program_itself_does_not_end_the_watch(bench: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from seatwright.commands.watch import rebuild

    def fail(_: object) -> None:
        raise ZeroDivisionError("a fault planted by the test")

    monkeypatch.setattr(rebuild, "outcome_of", fail)
    built = rebuild.build_in_memory(str(bench / JOB), None)
    assert built.cards is None
    assert "a fault planted by the test" in built.trouble
    assert (bench / JOB) in built.files


@pytest.mark.parametrize("job,says", [("-", "standard input cannot be watched"), ("nothing.seat", "cannot be read")])
def test_what_cannot_be_watched_is_said_at_once(bench: Path, job: str, says: str) -> None:
    ran = seatwright("watch", job, "--no-browser", cwd=bench)
    assert ran.code == 2
    assert says in ran.err


def test_without_its_package_it_says_what_to_install(
    bench: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from seatwright.commands.main import main

    monkeypatch.setattr("importlib.util.find_spec", lambda _: None)
    assert main(["watch", str(bench / JOB), "--no-browser"]) == 2
    assert "pip install 'seatwright[watch]'" in capsys.readouterr().err


# --- in a browser


@pytest.mark.browser
@pytest.mark.slow
def test_in_a_browser_the_figure_follows_an_edit_and_errors_raise_a_banner(bench: Path) -> None:
    job = bench / JOB
    text = job.read_text("utf-8")
    cards = "document.querySelector('iframe.shown')?.contentDocument?.body?.innerText ?? ''"
    with watching(bench) as watch, tab(bench / "profile") as page:
        page.open(watch.address)
        page.until(f"({cards}).includes('37.501')")
        page.value("document.querySelector('iframe.shown').contentWindow.scrollTo(0, 700)")
        # One digit of the insert in the hand.
        job.write_text(text.replace("37.501", "37.502"), "utf-8")
        page.until(f"({cards}).includes('37.502')")
        assert "37.501" not in page.value(cards)
        assert page.value("document.querySelector('iframe.shown').contentWindow.scrollY") == 700
        assert page.value("document.getElementById('banner').hidden")
        job.write_text(text.replace("37.502", "37,503").replace("37.501", "37,503"), "utf-8")
        banner = page.until("!document.getElementById('banner').hidden && document.getElementById('banner').innerText")
        assert "LAST GOOD CARDS" in banner
        assert "37.502" in page.value(cards), "the last good cards are not kept"
        assert "37,503" in page.value("document.getElementById('messages').innerText")
        job.write_text(text.replace("37.501", "37.504"), "utf-8")
        page.until(f"({cards}).includes('37.504') && document.getElementById('banner').hidden")
        assert not page.value("document.querySelector('iframe.shown').contentDocument.scripts.length")
        watch.process.send_signal(signal.SIGINT)
        page.until("document.getElementById('banner').innerText.includes('has ended')")
        blocked = [each for each in page.complaints if "favicon" not in each]
        assert not blocked, blocked
