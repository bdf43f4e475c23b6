"""Programs ended at random moments: what lies on the disk afterwards, and after the next run.

    .venv/bin/python tests/bench/kills.py [--kills 300] [--seed 1]

Of each kind a third: build (two at once of one job that was saved between them), format, new. Each is sent one of the
signals that end a program, SIGKILL among them, at a moment spread over the whole of its run. Then is looked at

    mixed      sets of cards that no single build made, before the next build and after it
    harmed     job, shop and other files that are neither as they were nor as they were to be
    left over  temporary files, locks and pieces after the next run
"""

from __future__ import annotations

import argparse
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

JOBS = Path(__file__).parents[2] / "jobs"
JOB = "single-cylinder.seat"
SIGNALS = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP, signal.SIGQUIT, signal.SIGKILL)
_SETS = ("cards.html", "cards.md", "plan.json")
_NEW = ("new", "2.shop", "--units", "mm")


@dataclass(slots=True)
class Tally:
    """What came of the kills so far. ended: how many programs a signal ended before they were done."""

    kills: int = 0
    ended: int = 0
    mixed: int = 0
    mixed_after: int = 0
    harmed: int = 0
    left_over: int = 0
    tracebacks: int = 0
    by_signal: Counter[str] = field(default_factory=Counter)

    def __str__(self) -> str:
        signals = ", ".join(f"{name} {count}" for name, count in sorted(self.by_signal.items()))
        return (
            f"{self.kills} kills ({signals}), {self.ended} before the end\n"
            f"mixed sets {self.mixed}, after the next build {self.mixed_after}\n"
            f"harmed files {self.harmed}\nleft-over files {self.left_over}\ntracebacks {self.tracebacks}"
        )


class Bench:
    """A folder with a job in two states, and the sets of cards that whole builds make of them."""

    def __init__(self, folder: Path, rng: random.Random) -> None:
        self.folder = folder
        self.rng = rng
        self.tally = Tally()
        shutil.copy(JOBS / "bench.shop", folder)
        text = (JOBS / JOB).read_text("utf-8").replace("\n  units ", "\n     units ", 1)
        first = text.split("job ", 1)[1].split()[0]
        self.states = [text.replace(f"job {first} ", f"job {number} ", 1).encode() for number in (first, "777")]
        self.whole: list[dict[str, bytes]] = []
        self.took = 0.0
        for state in self.states:
            self.save(state)
            begun = time.monotonic()
            self.run("build", "--afresh", JOB)
            self.took = time.monotonic() - begun
            self.whole.append(self.cards())
        self.save(self.states[0])
        self.run("format", JOB)
        self.formatted = (folder / JOB).read_bytes()
        self.run(*_NEW)
        self.new = (folder / "2.shop").read_bytes()

    def save(self, content: bytes) -> None:
        (self.folder / JOB).write_bytes(content)

    def begin(self, *words: str) -> subprocess.Popen[bytes]:
        command = [sys.executable, "-c", _BEGIN, *words]
        pipe, nothing = subprocess.PIPE, subprocess.DEVNULL
        return subprocess.Popen(command, cwd=self.folder, stdin=nothing, stdout=nothing, stderr=pipe)

    def run(self, *words: str) -> None:
        ran = self.begin(*words)
        _, said = ran.communicate(timeout=120)
        assert ran.returncode in (0, 2, 3), said.decode()

    def cards(self) -> dict[str, bytes]:
        folder = self.folder / "cards" / Path(JOB).stem
        return {name: (folder / name).read_bytes() for name in _SETS if (folder / name).is_file()}

    def kill(self, *runs: subprocess.Popen[bytes]) -> None:
        """End them, each at a moment of its own."""
        for run in runs:
            time.sleep(self.rng.uniform(0, self.took * 1.2 / len(runs)))
            number = self.rng.choice(SIGNALS)
            run.send_signal(number)
            self.tally.kills += 1
            self.tally.by_signal[number.name] += 1
        for run in runs:
            _, said = run.communicate(timeout=120)
            self.tally.ended += run.returncode not in (0, 2, 3)
            self.tally.tracebacks += b"Traceback" in said

    def builds(self) -> None:
        """Two at once, of the job before and after a save."""
        shutil.rmtree(self.folder / "cards", ignore_errors=True)
        self.save(self.states[0])
        if self.rng.random() < 0.7:
            self.run("build", JOB)
        first = self.begin("build", "--afresh", JOB)
        time.sleep(self.rng.uniform(0, self.took))
        self.save(self.states[1])
        second = self.begin("build", "--afresh", JOB)
        self.kill(first, second)
        if self.cards():
            self.tally.mixed += self.cards() not in self.whole
        self.tally.harmed += (self.folder / JOB).read_bytes() != self.states[1]
        self.run("build", JOB)
        self.tally.mixed_after += self.cards() != self.whole[1]
        self._look_for_pieces()

    def formats(self) -> None:
        self.save(self.states[0])
        self.kill(self.begin("format", JOB))
        self.tally.harmed += (self.folder / JOB).read_bytes() not in (self.states[0], self.formatted)
        self.run("format", JOB, "2.shop")
        self.tally.harmed += (self.folder / JOB).read_bytes() != self.formatted
        self._look_for_pieces()

    def news(self) -> None:
        (self.folder / "2.shop").unlink(missing_ok=True)
        self.kill(self.begin(*_NEW))
        made = self.folder / "2.shop"
        self.tally.harmed += made.exists() and made.read_bytes() != self.new
        self.run(*_NEW)
        self.tally.harmed += made.read_bytes() != self.new
        self.save(self.states[0])
        self._look_for_pieces()

    def _look_for_pieces(self) -> None:
        own = {JOB, "bench.shop", "2.shop", *_SETS, ".built"}
        self.tally.left_over += sum(place.name not in own and not place.is_dir() for place in self.folder.rglob("*"))


# The first byte of ours, from which on a signal is ours to answer; Python's own start is Python's.
_BEGIN = "from seatwright.__main__ import run; run()"


def kills(count: int, seed: int) -> Iterator[Tally]:
    """The tally after each round, until so many programs were sent a signal."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ["XDG_CACHE_HOME"] = str(Path(folder) / "cache")
        (Path(folder) / "bench").mkdir()
        bench = Bench(Path(folder) / "bench", random.Random(seed))
        while bench.tally.kills < count:
            for round_ in (bench.builds, bench.formats, bench.news):
                round_()
                yield bench.tally


def main() -> None:
    """Print the tally."""
    words = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    words.add_argument("--kills", type=int, default=300)
    words.add_argument("--seed", type=int, default=1)
    given = words.parse_args()
    # Started in the background of a script, a run ignores Ctrl-C, and so would every program that it starts.
    signal.signal(signal.SIGINT, signal.default_int_handler)
    *_, last = kills(given.kills, given.seed)
    print(last)


if __name__ == "__main__":
    main()
