"""The command line: words in, one command called, an exit code out."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence

from seatwright.commands.terminal.exits import Exit
from seatwright.commands.terminal.words import parser


def main(words: Sequence[str] | None = None) -> int:
    """Run one command; return its exit code."""
    typed = sys.argv[1:] if words is None else list(words)
    given = parser(typed[0] if typed else "").parse_args(typed)
    # What a job is made of lives until its cards are written and holds no circles: looking for circles in it over and
    # over costs a long job half its time.
    gc.set_threshold(100_000, 50, 50)
    try:
        return int(_run(given))
    except BrokenPipeError:
        # The reader has gone, as `seatwright plan job.seat | head` does: nothing is wrong with the job.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return int(Exit.DONE)
    except KeyboardInterrupt:
        sys.stderr.write("seatwright: stopped\n")
        return 130


def _run(given: argparse.Namespace) -> Exit:
    from seatwright.commands.disk.files import Unreadable

    try:
        match given.command:
            case "build":
                from seatwright.commands.build import Print, build

                how = Print(given.paper, given.two_up, given.pdf, given.templates, given.afresh, given.card)
                return build(given.jobs, given.out, how, given.at_once)
            case "check":
                from seatwright.commands.check import check

                return check(given.jobs, given.form, given.strict, given.allow_holds, given.at_once)
            case "plan":
                from seatwright.commands.plan import plan

                return plan(given.job, given.paper, given.form)
            case "compare":
                from seatwright.commands.compare import compare

                return compare(given.old, given.new, given.form)
            case "textconv":
                from seatwright.commands.textconv import textconv

                return textconv(given.job, given.used_from)
            case "format":
                from seatwright.commands.format import format_files

                return format_files(given.files, check=given.check, diff=given.diff)
            case "watch":
                from seatwright.commands.watch import watch

                return watch(given.job, given.paper, browser=not given.no_browser)
            case "completion":
                from seatwright.commands.completion import completion

                return completion(given.shell)
            case "manual":
                from seatwright.commands.manual import manual

                return manual()
            case "new":
                from seatwright.commands.new import Answers, new
                from seatwright.commands.new_words import fields_given

                fields = fields_given(given)
                said = (given.number, given.title, given.cylinders, given.valves_per_cylinder, given.shop)
                return new(given.file, Answers(fields, *said))
            case _:
                if given.valve is None:
                    from seatwright.commands.explain_message import explain_message

                    return explain_message(given.job)
                from seatwright.commands.explain import explain

                return explain(given.job, given.valve, given.figure, given.name, given.form)
    except Unreadable as problem:
        sys.stderr.write(f"seatwright {given.command}: {problem}\n")
        return Exit.WRONG_USE


if __name__ == "__main__":
    sys.exit(main())
