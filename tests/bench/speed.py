"""Speed and memory of whole processes, beside what the same machine needs only to import the libraries.

    .venv/bin/python tests/bench/speed.py [--rounds 7] [--json FILE]

Prints the rows of the table in DEVELOPERS.md ("Speed") as medians and ratios. It is no test: clocks differ between
machines, ratios on one machine in one run do not much.
"""

from __future__ import annotations

import argparse
import compileall
import json
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import asdict, dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
JOBS = ROOT / "jobs"
SIXTEEN = JOBS / "four-valve-aluminium.seat"


@dataclass(frozen=True, slots=True)
class Row:
    """One measured case: seconds (median), against what yardstick, and the aim for the ratio."""

    what: str
    seconds: float
    yardstick: float
    ratio: float
    aim: float
    peak_mb: float


def run(words: list[str]) -> tuple[float, float]:
    """Seconds and peak memory [MB] of one process."""
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    start = time.perf_counter()
    process = subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=environment)
    _, status, usage = os.wait4(process.pid, 0)
    seconds = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode not in (0, 3):
        raise SystemExit(f"{' '.join(words)} ended with {process.returncode}")
    return seconds, usage.ru_maxrss / 1024


def median(words: list[str], rounds: int) -> tuple[float, float]:
    """Median seconds, largest peak, after one round to warm up."""
    run(words)
    taken = [run(words) for _ in range(rounds)]
    return statistics.median(seconds for seconds, _ in taken), max(peak for _, peak in taken)


def many_valves(folder: Path, valves: int) -> Path:
    """A job with many valves, all measured alike, beside the demo shop file.

    Cylinders end at 99 and places at 3 m, so the valves have letters and stand in rows; the inserts are not counted,
    so that every valve gets one.
    """
    names = [
        (kind, f"{kind}{(number - 1) // 9 + 1}{'ABCDEFGHJ'[(number - 1) % 9]}", *divmod(number - 1, 24))
        for number in range(1, valves // 2 + 1)
        for kind in "IE"
    ]
    rows = "".join(f"  {name} 8.968 9.010 9.008 9.014 46.031 46.040 7.53 0.04 35.5 46.588\n" for _, name, _, _ in names)
    place = "".join(
        f"  {name} {122 * column + (0 if kind == 'I' else 50)} {80 * row}\n" for kind, name, row, column in names
    )
    job = folder / f"valves-{valves}.seat"
    (folder / "many.shop").write_text(
        'shop "uncounted"\n  units mm\ninserts\n'
        "  insert od od-least od-most height id chamfer chamfer-angle alloy seat on-hand\n"
        "  M46A 46.590 46.585 46.595 7.60 33.0 0.8 45 tool-steel any -\n",
        "utf-8",
    )
    job.write_text(
        'job 1 "bench"\n  units mm\n  paper a4\n  machine "pillar borer"\nuse "bench.shop"\nuse "many.shop"\n'
        'head "long"\n  material grey iron\n  temperature 22 C +/- 1\n  depth-from deck\n  least-bridge 2.0\n'
        "valves all\n  insert M46A\n  stand below 0.00 to 0.10\n  guide-length 62\n  guide-to-floor 28\n"
        "  head-diameter 42\n  margin 1.4\n  setback 0.8\n  seat-width 1.6 to 2.0\n  recession 0.6 to 1.2\n"
        "  face-angle 45\n  seat-angle 45\n  top-angle 30\n  throat-angle 60\n"
        f"layout\n  valve x y\n{place}measured at 22 C\n"
        "  valve stem guide-top guide-middle guide-bottom pocket-a pocket-b pocket-depth pocket-tir throat insert-od\n"
        f"{rows}",
        "utf-8",
    )
    return job


def main() -> None:
    """Measure, print, and write a JSON file if asked to."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--rounds", type=int, default=7)
    asked.add_argument("--json", type=Path)
    options = asked.parse_args()
    for folder in ("compiler", "grammar", "templates"):
        compileall.compile_dir(ROOT / folder, quiet=2)

    python = [sys.executable]
    tool = [sys.executable, "-m", "seatwright"]
    rows: list[Row] = []

    def row(what: str, words: list[str], imports: str, aim: float) -> None:
        base, _ = median([*python, "-c", f"import {imports}"], options.rounds)
        seconds, peak = median(words, options.rounds)
        rows.append(Row(what, seconds, base, seconds / base, aim, peak))

    with tempfile.TemporaryDirectory() as scratch:
        out = Path(scratch)
        for shop in JOBS.glob("*.shop"):
            (out / shop.name).write_bytes(shop.read_bytes())
        row("check, 16 valves, against import lark, pint", [*tool, "check", str(SIXTEEN)], "lark, pint", 1.5)
        row("format --check, against import lark", [*tool, "format", "--check", str(SIXTEEN)], "lark", 1.5)
        build = [*tool, "build", str(SIXTEEN), "-o", str(out / "cards")]
        row(
            "build, 16 valves, against import lark, pint, jinja2, markdown_it",
            build,
            "lark, pint, jinja2, markdown_it",
            1.5,
        )
        copies = []
        for number in range(9):
            copy = out / f"copy-{number}.seat"
            copy.write_bytes(SIXTEEN.read_bytes())
            copies.append(str(copy))
        for shop in JOBS.glob("*.shop"):
            (out / shop.name).write_bytes(shop.read_bytes())
        one, _ = median([*tool, "build", copies[0], "-o", str(out / "one")], options.rounds)
        nine, peak = median([*tool, "build", *copies, "-o", str(out / "nine")], options.rounds)
        each = (nine - one) / 8
        rows.append(Row("each further job in one build (aim 25 ms)", each, 0.025, each / 0.025, 1.0, peak))
        small, _ = median([*tool, "check", str(many_valves(out, 16))], options.rounds)
        large, peak = median([*tool, "check", str(many_valves(out, 1600))], 1)
        start, _ = median([*python, "-c", "import lark, pint, seatwright.planning.planner"], options.rounds)
        growth = (large - start) / (small - start) / 100
        rows.append(Row("growth of check from 16 to 1,600 valves, by valve", large, small, growth, 1.3, peak))

    for each_row in rows:
        print(
            f"{each_row.what:<68} {each_row.seconds * 1000:8.0f} ms  {each_row.ratio:6.2f} (aim {each_row.aim})"
            f"  peak {each_row.peak_mb:.0f} MB"
        )
    print(f"this script's own peak: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")
    if options.json:
        options.json.write_text(json.dumps([asdict(each_row) for each_row in rows], indent=2) + "\n", "utf-8")


if __name__ == "__main__":
    main()
