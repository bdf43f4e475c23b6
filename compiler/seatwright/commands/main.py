"""The command line: words in, one command called, an exit code out."""

from __future__ import annotations

import _thread
import argparse
import gc
import io
import os
import signal
import sys
from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from seatwright.commands.terminal.exits import Exit
from seatwright.commands.terminal.words import argument_parser


def main(words: Sequence[str] | None = None) -> int:
    """Run one command; return its exit code."""
    _speak_utf8()
    # What a job is made of lives until its cards are written and holds no circles: looking for circles in it over and
    # over costs a long job half its time. Nor is anything looked for in what is loaded once and stays.
    gc.set_threshold(1_000_000, 50, 50)
    typed = sys.argv[1:] if words is None else list(words)
    given = argument_parser(typed[0] if typed else "").parse_args(typed)
    try:
        work = _work(given)
        gc.freeze()
        _listen_to_ctrl_c()
        return int(_done(given.command, work))
    except BrokenPipeError:
        # The reader has gone, as `seatwright plan job.seat | head` does: nothing is wrong with the job.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return int(Exit.DONE)
    except KeyboardInterrupt:
        sys.stderr.write("seatwright: stopped\n")
        return 130


def _speak_utf8() -> None:
    """Whatever the system takes for its encoding: a µ in a pipe must not end the program, and a file is UTF-8 as every
    other. What is no text, such as a name of a file in bytes of its own, is shown by its codes."""
    for stream in (sys.stdin, sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="replace" if stream is sys.stdin else "backslashreplace")


def _listen_to_ctrl_c() -> None:
    """From here on Ctrl-C is answered in order, also where Python calls back into us and would only report it."""
    if signal.getsignal(signal.SIGINT) is signal.SIG_DFL:
        signal.signal(signal.SIGINT, signal.default_int_handler)
    report = sys.unraisablehook

    def again(what: Any) -> None:
        if issubclass(what.exc_type, KeyboardInterrupt):
            _thread.interrupt_main()
        else:
            report(what)

    sys.unraisablehook = again


def _done(command: str, work: Callable[[], Exit]) -> Exit:
    from seatwright.commands.disk.files import Unreadable
    from seatwright.text.showing import visible

    try:
        return work()
    except Unreadable as problem:
        sys.stderr.write(f"seatwright {command}: {visible(str(problem))}\n")
        return Exit.WRONG_USE


def _work(given: argparse.Namespace) -> Callable[[], Exit]:
    """The command with its words, all that it needs loaded."""
    match given.command:
        case "build":
            from seatwright.commands.build import Print, build

            how = Print(given.paper, given.two_up, given.pdf, given.templates, given.afresh, given.card)
            return partial(build, given.jobs, given.out, how, given.at_once)
        case "check" if given.fix:
            from seatwright.commands.mend import mend

            return partial(mend, given.jobs, diff=given.diff)
        case "check":
            from seatwright.commands.check import How, check

            said = How(given.form, given.all, given.strict, given.allow_holds)
            return partial(check, given.jobs, said, given.at_once)
        case "plan":
            from seatwright.commands.plan import plan

            return partial(plan, given.job, given.paper, given.form)
        case "compare":
            from seatwright.commands.compare import compare

            return partial(compare, given.old, given.new, given.form, given.using)
        case "stock":
            from seatwright.commands.many.stock import stock

            return partial(stock, given.folder, given.form, given.at_once)
        case "history":
            from seatwright.commands.many.history import history

            return partial(history, given.folder, given.since or "", given.form, given.out, given.at_once)
        case "card":
            from seatwright.commands.many.card import card

            return partial(card, given.stamp, given.folder, given.at_once)
        case "table":
            from seatwright.commands.many.table import table

            return partial(table, given.folder, given.paths, given.form, given.unit, given.at_once)
        case "textconv":
            from seatwright.commands.textconv import textconv

            return partial(textconv, given.job, given.used_from)
        case "format":
            from seatwright.commands.format import format_files

            return partial(format_files, given.files, check=given.check, diff=given.diff)
        case "enter":
            from seatwright.commands.bench.enter import enter

            return partial(enter, given.job, given.valves, given.table, given.date, given.at, again=given.again)
        case "watch":
            from seatwright.commands.watch import watch

            return partial(watch, given.job, given.paper, browser=not given.no_browser)
        case "editor":
            from seatwright.commands.editor import editor

            return editor
        case "completion":
            from seatwright.commands.completion import completion

            return partial(completion, given.shell)
        case "manual":
            from seatwright.commands.manual import manual

            return manual
        case "new":
            from seatwright.commands.new import Answers, new
            from seatwright.commands.terminal.new_words import fields_given

            fields = fields_given(given)
            told = (given.number, given.title, given.cylinders, given.valves_per_cylinder, given.shop)
            of_engine = (given.engine, given.numbers, given.source)
            return partial(new, given.file, Answers(fields, *told, *of_engine))
        case _:
            if given.valve is None:
                from seatwright.commands.explain_message import explain_message

                return partial(explain_message, given.job)
            from seatwright.commands.explain import explain

            return partial(explain, given.job, given.valve, given.figure, given.name, given.form, given.short)


if __name__ == "__main__":
    sys.exit(main())
