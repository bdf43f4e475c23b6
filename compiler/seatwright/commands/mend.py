"""`seatwright check --fix [--diff] FILE…`: the slips of writing that have one certain mend, written into the file."""

from __future__ import annotations

import sys
from difflib import unified_diff
from pathlib import Path

from seatwright.commands.disk import files, writing
from seatwright.commands.terminal.exits import Exit, worst
from seatwright.commands.terminal.saying import complain
from seatwright.job.mending import as_mended
from seatwright.text.showing import visible


def mend(names: list[str], *, diff: bool) -> Exit:
    """Mend each file in place, or show what would change. A shop file that a job uses is mended by its own name."""
    return worst([_mend(name, diff) for name in names])


def _mend(name: str, diff: bool) -> Exit:
    if name == files.STANDARD_INPUT:
        complain("check", "--fix writes into a file, and standard input is none")
        return Exit.WRONG_USE
    opened = files.open_job(name)
    before = opened.contents()[opened.name]
    after, count = as_mended(opened.name, before, opened.load)
    if diff:
        old, new = (data.decode("utf-8", "replace").splitlines(keepends=True) for data in (before, after))
        lines = unified_diff(old, new, visible(name), visible(name), "as it stands", "mended")
        sys.stdout.write("".join(line if line.endswith("\n") else f"{line}\n" for line in lines))
        return Exit.DONE
    try:
        if after != before:
            writing.rewrite(Path(name), before, after)
    except writing.Overtaken:
        complain("check", f"{name} was saved while it was mended, and stays as it was saved; try it again")
        return Exit.WRONG_USE
    except OSError as problem:
        complain("check", f"{name} cannot be written: {(problem.strerror or str(problem)).lower()}")
        return Exit.WRONG_USE
    sys.stdout.write(f"{visible(name)}: {count} {'slip' if count == 1 else 'slips'} mended\n")
    return Exit.DONE
