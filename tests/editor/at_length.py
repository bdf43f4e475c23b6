"""The tests of the editor at full length, which take minutes: 1,000 mutants and 10,000 random edits.

.venv/bin/python -m tests.editor.at_length [--mutants 1000] [--edits 10000] [--seed 1]
"""

from __future__ import annotations

import argparse
import os
import random
import shutil
import tempfile
from pathlib import Path

from tests.editor.test_diagnostics import edits_told, mutants_told
from tests.whole.shop import JOBS


def main() -> None:
    """Both, in folders of their own; an AssertionError where the editor tells something else than `check`."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--mutants", type=int, default=1000)
    words.add_argument("--edits", type=int, default=10_000)
    words.add_argument("--seed", type=int, default=1)
    given = words.parse_args()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name).resolve()
        os.chdir(folder)
        mutants_told(given.mutants, folder, random.Random(given.seed))
        print(f"{given.mutants} mutants told as check tells them")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name).resolve()
        for file in ("single-cylinder.seat", "bench.shop"):
            shutil.copy(JOBS / file, folder)
        os.chdir(folder)
        edits_told(given.edits, 100, folder / "single-cylinder.seat", random.Random(given.seed))
        print(f"{given.edits} edits, equal to a fresh start after each 100")


if __name__ == "__main__":
    main()
