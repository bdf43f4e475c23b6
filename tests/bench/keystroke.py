"""From a keystroke to messages in a warm language server: processor time, medians over a hundred keys.

    .venv/bin/python -m tests.bench.keystroke [--keys 100]

A figure of sixteen valves is typed and taken back, with the shelf as it is in the demo and with 500 inserts on it. The
aims stand in DEVELOPERS.md. It is no test: clocks differ between machines.
"""

from __future__ import annotations

import argparse
import gc
import json
import statistics
import tempfile
import time
from pathlib import Path

from tests.editor.desk_of import Editor
from tests.whole.shop import JOBS

SIXTEEN = "four-valve-aluminium.seat"


def with_inserts(shelf: str, count: int) -> str:
    """The demo's shelf with so many more inserts on it, from 0.9 to 2.4 inches, for intakes and exhausts in turn."""
    rows = []
    for number in range(count):
        od = 0.9 + 1.5 * number / count
        seat = "exhaust" if number % 2 else "intake"
        limits = f"{od:.4f}  {od - 0.0003:.4f}  {od + 0.0003:.4f}"
        rows.append(f"  S-{number}  {limits}  .265  {od - 0.26:.2f}  .030  tool-steel  {seat}  5\n")
    place = shelf.index("  X-20 ")
    return shelf[:place] + "".join(rows) + shelf[place:]


def keys(job: Path, count: int) -> float:
    """Median milliseconds of the processor for one key, in the last row of readings."""
    editor = Editor()
    uri = editor.open(job)
    line = max(editor.texts[uri].rindex(f"\n  E{cylinder}") for cylinder in range(1, 5)) + 1
    end = editor.texts[uri].find("\n", line)
    at = max(place for place in range(line, end) if editor.texts[uri][place].isdigit())
    digit = editor.texts[uri][at]
    other = str((int(digit) + 1) % 10)
    taken = []
    for number in range(count):
        method, params = editor.typed(uri, at, at + 1, digit if number % 2 else other, number + 2)
        body = json.dumps({"jsonrpc": "2.0", "method": method, "params": params}).encode()
        begun = time.process_time()
        editor.server.handle([body])
        taken.append(time.process_time() - begun)
    stands = editor.server.desk.stands(uri)
    assert stands is not None
    assert stands.plan is not None, "the job is planned anew with each key"
    return statistics.median(taken) * 1000


def main() -> None:
    """Both shelves."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--keys", type=int, default=100)
    count = words.parse_args().keys
    gc.set_threshold(100_000, 50, 50)  # as the command sets it
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name).resolve()
        job = folder / SIXTEEN
        job.write_bytes((JOBS / SIXTEEN).read_bytes())
        shelf = (JOBS / "inch-bench.shop").read_text("utf-8")
        for aim, inserts in ((30, 0), (60, 500)):
            (folder / "inch-bench.shop").write_text(with_inserts(shelf, inserts), "utf-8")
            print(f"16 valves, {inserts or 'the demo’s'} inserts: {keys(job, count):.1f} ms (aim {aim})")


if __name__ == "__main__":
    main()
