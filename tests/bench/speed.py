"""Speed and memory of whole processes, beside what the same machine needs only to import the libraries.

    .venv/bin/python tests/bench/speed.py [--rounds 7] [--jobs 1000] [--json FILE]

Prints what each command takes as least times of the processor, ratios against their aims and peak memory, and writes
them to FILE. It is no test: times differ between machines, ratios on one machine in one run do not much. Beside
it, as a yardstick of a plain-text compiler, stands `bean-check` of the PyPI package beancount on as many lines, where
it is installed (`pip install beancount`, in any environment; --bean-check says where).
"""

from __future__ import annotations

import argparse
import compileall
import json
import os
import platform
import random
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.bench.short_shelves import SHELVES, write

ROOT = Path(__file__).resolve().parents[2]
JOBS = ROOT / "jobs"
SIXTEEN = JOBS / "four-valve-aluminium.seat"
TOOL = (sys.executable, "-m", "seatwright")
CORES = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
# Read and planned again and again where all is loaded, as an editor would have it after each keystroke.
_WARM = """
import sys, time, statistics
from pathlib import Path
from seatwright.job import read
from seatwright.planning.planner import plan
path = Path(sys.argv[1])
def once():
    begun = time.perf_counter()
    plan(read(path.name, lambda name: (path.parent / name).read_bytes())[0])
    return time.perf_counter() - begun
once()
print(statistics.median(once() for _ in range(15)))
"""


@dataclass(frozen=True, slots=True)
class Row:
    """One measured case: least seconds and peak memory; against a yardstick [s] the ratio, and the aim for it."""

    what: str
    seconds: float
    peak_mb: float
    yardstick: float | None = None
    ratio: float | None = None
    aim: float | None = None


def run(words: Sequence[str], *, cpu: bool = False) -> tuple[float, float]:
    """Seconds, of the clock or the processor, and peak memory [MB] of one process and those that it starts."""
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    start = time.perf_counter()
    process = subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=environment)
    _, status, usage = os.wait4(process.pid, 0)
    seconds = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode not in (0, 3):
        raise SystemExit(f"{' '.join(words)} ended with {process.returncode}")
    return (usage.ru_utime + usage.ru_stime if cpu else seconds), usage.ru_maxrss / 1024


def instructions(words: Sequence[str]) -> float | None:
    """Instructions of one process, in millions, by cachegrind; None where valgrind is not installed."""
    if shutil.which("valgrind") is None:
        return None
    counter = ("valgrind", "--tool=cachegrind", "--cache-sim=no", "--cachegrind-out-file=/dev/null")
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    environment["PYTHONHASHSEED"] = "0"
    done = subprocess.run((*counter, *words), capture_output=True, text=True, env=environment, check=False)
    found = re.search(r"I *refs: *([0-9,]+)", done.stderr)
    return None if found is None else int(found[1].replace(",", "")) / 1e6


def differing(text: str, seed: int) -> str:
    """A job with other figures: the last digit of every pocket, throat and guide moved by one, each place as it was."""
    dice = random.Random(seed)
    head, measured, found = text.partition("\nmeasured")

    def moved(row: re.Match[str]) -> str:
        return re.sub(r"(\d*\.\d{2,})(?=\s)", lambda each: _nudged(each[1], dice.choice((-1, 0, 1))), row[0])

    return head + measured + re.sub(r"^  [IE]\d[AB]  +[^=\n]*$\n", moved, found, flags=re.MULTILINE)


def _nudged(typed: str, by: int) -> str:
    places = len(typed.partition(".")[2])
    moved = f"{float(typed) + by * 10**-places:.{places}f}"
    return moved[1:] if typed.startswith(".") else moved


def least(rounds: int, *cases: Sequence[str]) -> list[tuple[float, float]]:
    """For each case its least seconds of the processor and its largest peak, the rounds of all cases in turn: what else
    the machine does then falls on all of them alike."""
    for words in cases:
        run(words)  # to warm up
    taken = [[run(words, cpu=True) for words in cases] for _ in range(rounds)]
    return [(min(each[0] for each in of), max(each[1] for each in of)) for of in zip(*taken, strict=True)]


def many_valves(folder: Path, valves: int, a_head: int = 0) -> Path:
    """A job with many valves, all measured alike, beside the demo shop file.

    a_head: valves of each head; 0: all in one. Cylinders end at 99 and places at 3 m, so the valves have letters and
    stand in rows; the inserts are not counted, so that every valve gets one.
    """
    (folder / "many.shop").write_text(
        'shop "uncounted"\n  units mm\ninserts\n'
        "  insert od od-least od-most height id chamfer chamfer-angle alloy seat on-hand\n"
        "  M46A 46.590 46.585 46.595 7.60 33.0 0.8 45 tool-steel any -\n",
        "utf-8",
    )
    each = a_head or valves
    heads = "".join(
        _head(f" h{number}" if a_head else "", number * each // 2, each) for number in range(valves // each)
    )
    job = folder / f"valves-{valves}{f'-by-{a_head}' if a_head else ''}.seat"
    job.write_text(
        'job 1 "bench"\n  units mm\n  paper a4\n  machine "seat-and-guide machine"\nuse "bench.shop"\nuse "many.shop"\n'
        + heads,
        "utf-8",
    )
    return job


def _head(name: str, before: int, valves: int) -> str:
    """A head with so many valves; before: so many of each kind stand in the heads before, as no name stands twice."""
    names = [
        (kind, f"{kind}{(before + number) // 9 + 1}{'ABCDEFGHJ'[(before + number) % 9]}", *divmod(number, 24))
        for number in range(valves // 2)
        for kind in "IE"
    ]
    rows = "".join(f"  {name} 8.968 9.010 9.008 9.014 46.031 46.040 7.53 0.04 35.5 46.588\n" for _, name, _, _ in names)
    place = "".join(
        f"  {name} {122 * column + (0 if kind == 'I' else 50)} {80 * row}\n" for kind, name, row, column in names
    )
    return (
        f'head{name} "long"\n  material grey iron\n  temperature 22 C +/- 1\n  depth-from deck\n  least-bridge 2.0\n'
        "valves all\n  insert M46A\n  stand below 0.00 to 0.10\n  guide-length 62\n  guide-to-floor 28\n"
        "  head-diameter 42\n  margin 1.4\n  setback 0.8\n  seat-width 1.6 to 2.0\n  recession 0.6 to 1.2\n"
        "  face-angle 45\n  seat-angle 45\n  top-angle 30\n  throat-angle 60\n"
        f"layout\n  valve x y\n{place}measured at 22 C\n"
        "  valve stem guide-top guide-middle guide-bottom pocket-a pocket-b pocket-depth pocket-tir throat insert-od\n"
        f"{rows}"
    )


def ledger(folder: Path, lines: int) -> Path:
    """A ledger of so many lines, in the form that `bean-check` reads."""
    book = folder / f"ledger-{lines}.beancount"
    opened = "2026-01-01 open Assets:Cash\n2026-01-01 open Expenses:Shop\n"
    entry = '2026-01-02 * "seat {}"\n  Assets:Cash  -1.00 USD\n  Expenses:Shop\n'
    book.write_text(opened + "".join(entry.format(number) for number in range((lines - 2) // 3)), "utf-8")
    return book


class Bench:
    """The rows, measured one after another in a folder of their own."""

    def __init__(self, out: Path, rounds: int) -> None:
        self.out = out
        self.rounds = rounds
        self.rows: list[Row] = []
        for shop in JOBS.glob("*.shop"):
            (out / shop.name).write_bytes(shop.read_bytes())

    def add(self, row: Row) -> None:
        """Keep a row and show it."""
        self.rows.append(row)
        compared = f"{row.ratio:6.2f} (aim {row.aim})" if row.ratio is not None else ""
        print(f"{row.what:<72} {row.seconds * 1000:8.1f} ms {compared:<18} peak {row.peak_mb:.0f} MB", flush=True)

    def against_imports(self, what: str, words: Sequence[str], imports: str, aim: float) -> None:
        """A command beside the import of the libraries it is made with; by valgrind as well, where that is."""
        bare = (sys.executable, "-c", f"import {imports}")
        (base, _), (seconds, peak) = least(self.rounds, bare, words)
        self.add(Row(f"{what}, against import {imports}", seconds, peak, base, seconds / base, aim))

    def starts(self) -> None:
        """Whole runs on a job of 2, 16 and 32 valves."""
        thirty_two = str(many_valves(self.out, 32))
        for valves, job in ((2, str(JOBS / "single-cylinder.seat")), (16, str(SIXTEEN)), (32, thirty_two)):
            self.against_imports(f"check, {valves} valves", (*TOOL, "check", job), "lark, pint", 1.2)
            build = (*TOOL, "build", "--afresh", job, "-o", str(self.out / "cards"))
            self.against_imports(f"build, {valves} valves", build, "lark, pint, jinja2, markdown_it", 1.2)
        self.against_imports("format --check, 16 valves", (*TOOL, "format", "--check", str(SIXTEEN)), "lark", 1.5)
        again = (*TOOL, "build", str(SIXTEEN), "-o", str(self.out / "again"))
        ((seconds, peak),) = least(self.rounds, again)
        self.add(Row("build, 16 valves, unchanged since the last", seconds, peak))
        self.without_a_home()

    def without_a_home(self) -> None:
        """Where nothing can be kept from one run to the next, a start takes no longer."""
        check = (*TOOL, "check", str(SIXTEEN))
        nowhere = ("env", "HOME=/nonexistent", "XDG_CACHE_HOME=/nonexistent", *check)
        (usual, _), (seconds, peak) = least(self.rounds, check, nowhere)
        self.add(
            Row("check, 16 valves, with a home that cannot be written", seconds, peak, usual, seconds / usual, 1.1)
        )

    def counted(self) -> None:
        """The same ratios in instructions, which no other work on the machine disturbs."""
        cards = ("build", "--afresh", str(SIXTEEN), "-o", str(self.out / "counted"))
        for what, words, imports, aim in (
            ("check", ("check", str(SIXTEEN)), "lark, pint", 1.2),
            ("build", cards, "lark, pint, jinja2, markdown_it", 1.2),
            ("format --check", ("format", "--check", str(SIXTEEN)), "lark", 1.5),
        ):
            run((*TOOL, *words))
            base = instructions((sys.executable, "-c", f"import {imports}"))
            count = instructions((*TOOL, *words))
            if base is None or count is None:
                print("valgrind is not installed: no instructions are counted")
                return
            ratio = count / base
            print(f"{what}, against import {imports}: {count:.0f} M instructions, {ratio:.2f} (aim {aim})", flush=True)

    def stock(self) -> None:
        """A short stock: seconds of the processor against those that it may take."""
        for number, shelf in enumerate(SHELVES):
            job = write(self.out / f"shelf-{number}", shelf)
            seconds, peak = min(run((*TOOL, "check", str(job)), cpu=True) for _ in range(min(3, self.rounds)))
            self.add(Row(f"check, {shelf.name}", seconds, peak, shelf.seconds, seconds / shelf.seconds, 1.0))

    def warm(self) -> None:
        """From a keystroke to messages, all loaded."""
        done = subprocess.run((sys.executable, "-c", _WARM, str(SIXTEEN)), capture_output=True, text=True, check=True)
        seconds = float(done.stdout)
        self.add(Row("read and plan 16 valves, all loaded (a keystroke)", seconds, 0, 0.030, seconds / 0.030, 1.0))

    def folder(self, jobs: int) -> None:
        """A folder of jobs of 16 valves."""
        folder = self.out / "many"
        folder.mkdir()
        for shop in JOBS.glob("*.shop"):
            (folder / shop.name).write_bytes(shop.read_bytes())
        for number in range(jobs):
            (folder / f"{number:04}.seat").write_text(differing(SIXTEEN.read_text("utf-8"), number), "utf-8")
        one, _ = run((*TOOL, "build", "--afresh", str(folder / "0000.seat"), "-o", str(self.out / "one")))
        seconds, peak = run((*TOOL, "build", str(folder), "-o", str(self.out / "all")))
        each = (seconds - one) / (jobs - 1)
        self.add(Row(f"build of {jobs} jobs of 16 valves, {CORES} cores", seconds, peak))
        self.add(Row("each further job in one build, a core", each * CORES, peak, 0.045, each * CORES / 0.045, 1.0))
        seconds, peak = run((*TOOL, "build", str(folder), "-o", str(self.out / "all")))
        self.add(Row(f"the same {jobs} jobs again, unchanged", seconds, peak))
        seconds, peak = run((*TOOL, "check", *(str(each) for each in sorted(folder.glob("*.seat")))))
        self.add(Row(f"check of {jobs} jobs of 16 valves", seconds, peak))
        for name, words in (("stock", ("stock", str(folder))), ("table", ("table", str(folder), "bore", "cut"))):
            seconds, peak = run((*TOOL, *words))
            self.add(Row(f"{name} over {jobs} jobs of 16 valves", seconds, peak))

    def growth(self) -> None:
        """What a further valve costs beyond 160 against what it costs up to 160: the start is in neither."""
        to = ("-o", str(self.out / "grown"))
        cases = (("check", ()), ("plan", ()), ("build", ("--afresh", *to)))
        for (name, more), a_head in ((case, a_head) for a_head in (0, 16) for case in cases):
            jobs = [str(many_valves(self.out, valves, a_head)) for valves in (16, 160, 1600)]
            taken = least(self.rounds, *((*TOOL, name, job, *more) for job in jobs[:2]))
            few, some = (seconds for seconds, _ in taken)
            many, peak = run((*TOOL, name, jobs[2], *more), cpu=True)
            usual, ratio = (some - few) / 144, ((many - some) / 1440) / ((some - few) / 144)
            heads = f"in heads of {a_head}" if a_head else "in one head"
            self.add(Row(f"{name}, 1,600 valves {heads}: growth of a valve", many, peak, usual, ratio, 1.3))

    def beside(self, bean_check: str | None) -> None:
        """Another compiler of plain text, on as many lines."""
        if bean_check is None:
            print("bean-check is not installed: no yardstick of another compiler (pip install beancount)")
            return
        read = (SIXTEEN, JOBS / "inch-bench.shop")
        lines = sum(len(each.read_text("utf-8").splitlines()) for each in read)
        words = (bean_check, str(ledger(self.out, lines)))
        (base, _), (seconds, peak) = least(self.rounds, words, (*TOOL, "check", str(SIXTEEN)))
        what = f"check, 16 valves, against bean-check of as many lines ({lines})"
        self.add(Row(what, seconds, peak, base, seconds / base, 1.5))
        long = self.out / "valves-1600.seat"
        lines = len(long.read_text("utf-8").splitlines())
        ((seconds, peak),) = least(min(3, self.rounds), (bean_check, str(ledger(self.out, lines))))
        self.add(Row(f"bean-check of {lines} lines, as {long.name} has", seconds, peak))


def main() -> None:
    """Measure, print, and write a JSON file if asked to."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--rounds", type=int, default=7)
    asked.add_argument("--jobs", type=int, default=1000, help="in the folder of many")
    asked.add_argument("--bean-check", default=shutil.which("bean-check"), help="where that command is")
    asked.add_argument("--json", type=Path, help="a file for the rows")
    options = asked.parse_args()
    for folder in ("compiler", "grammar", "templates"):
        compileall.compile_dir(ROOT / folder, quiet=2)
    with tempfile.TemporaryDirectory() as scratch:
        bench = Bench(Path(scratch), options.rounds)
        bench.starts()
        bench.counted()
        bench.warm()
        bench.stock()
        bench.growth()
        bench.beside(options.bean_check)
        bench.folder(options.jobs)
    if options.json:
        machine = {"python": platform.python_version(), "machine": platform.machine(), "cores": CORES}
        found = {"machine": machine, "rows": [asdict(each) for each in bench.rows]}
        options.json.write_text(json.dumps(found, indent=2) + "\n", "utf-8")


if __name__ == "__main__":
    main()
