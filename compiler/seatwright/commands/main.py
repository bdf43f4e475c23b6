"""The command line: words in, one command called, an exit code out."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence

from seatwright import __version__
from seatwright.commands.terminal.examples import add_examples
from seatwright.commands.terminal.exits import Exit

FORMS = ("text", "lines", "json", "sarif")
PAPERS = ("a4", "letter", "a5", "half-letter")
_EPILOG = """\
exit codes: 0 done; 1 errors in the job; 2 wrong use, or a file that cannot be read or written; 3 cards written, with
valves on hold. Messages go to standard error, results to standard output; `-` reads a job from standard input."""

_EDITORS = """\
--as lines gives `file:line:column: severity slug: what is wrong – what to do`, one message a line, for the list of
places of an editor.
  vim    :set makeprg=seatwright\\ check\\ --as\\ lines\\ %
         :set errorformat=%f:%l:%c:\\ %t%*[a-z]\\ %m
  emacs  M-x compile, then: seatwright check --as lines FILE
         or an entry of compilation-error-regexp-alist:
         ("^\\\\(.+?\\\\):\\\\([0-9]+\\\\):\\\\([0-9]+\\\\): [ehwn][a-z]+ " 1 2 3)
--as json is described by the schema in grammar/messages.schema.json; --as sarif is SARIF 2.1.0."""


def parser(wanted: str | None = None) -> argparse.ArgumentParser:
    """The words that the command line understands; those of `new` only where it is wanted, or all (None).

    The flags of `new` are the declared fields of a job: to know them is to load the declarations.
    """
    whole = argparse.ArgumentParser(
        prog="seatwright",
        description="From a plain-text job to printed operation cards for re-seating cylinder heads.",
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    whole.add_argument("--version", action="version", version=f"seatwright {__version__}")
    commands = whole.add_subparsers(dest="command", metavar="COMMAND", required=True)

    build = commands.add_parser("build", help="write the cards of each job")
    build.add_argument(
        "jobs", nargs="+", metavar="JOB", help="a job file (.seat), a folder of them, or - for standard input"
    )
    build.add_argument("-o", dest="out", metavar="DIR", help="where the cards go (left out: cards beside the job file)")
    build.add_argument("--paper", choices=PAPERS, help="the paper, whatever the job says")
    build.add_argument("--card", metavar="NAME", help="this card alone: its kind, its number, or its setting")
    build.add_argument("--two-up", action="store_true", help="two cards of a5 or of half-letter on one sheet")
    build.add_argument("--pdf", action="store_true", help="cards.pdf as well (needs the extra seatwright[pdf])")
    build.add_argument(
        "--templates", metavar="DIR", help="the shop's own templates (left out: templates beside a shop file)"
    )
    build.add_argument(
        "--jobs", dest="at_once", type=_count, metavar="N", help="so many side by side (left out: one a processor)"
    )

    build.add_argument("--afresh", action="store_true", help="also the jobs whose cards stand as they would be built")

    check = commands.add_parser(
        "check",
        help="say what is wrong with each job, write nothing",
        epilog=_EDITORS,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    check.add_argument(
        "jobs", nargs="+", metavar="JOB", help="a job file (.seat), a folder of them, or - for standard input"
    )
    check.add_argument("--as", dest="form", choices=FORMS, default="text", help="how it is said")
    check.add_argument("--strict", action="store_true", help="warnings fail as errors do")
    check.add_argument("--allow-holds", action="store_true", help="a valve on hold does not fail")
    check.add_argument(
        "--jobs", dest="at_once", type=_count, metavar="N", help="so many side by side (left out: one a processor)"
    )

    plan = commands.add_parser("plan", help="print plan.json, every figure of the job, or its cards' figures as lines")
    plan.add_argument("job", metavar="JOB", help="a job file (.seat), or - for standard input")
    plan.add_argument("--paper", choices=PAPERS, help="the paper, whatever the job says")
    plan.add_argument("--as", dest="form", choices=("json", "text"), default="json", help="how it is printed")

    compare = commands.add_parser(
        "compare",
        help="what changes at the machine between two jobs, or two revisions (JOB@REV)",
        epilog="exit codes: 0 nothing changes at the machine; 1 something does; 2 a job has errors or cannot be read",
    )
    compare.add_argument("old", metavar="OLD", help="a job file, FILE@REV for a revision in git, or - ")
    compare.add_argument("new", metavar="NEW", help="likewise")
    compare.add_argument("--as", dest="form", choices=("text", "json"), default="text", help="how it is said")

    textconv = commands.add_parser("textconv", help="a job as lines, for git diff (see the README)")
    textconv.add_argument("job", metavar="FILE", help="a job file, as git hands it over")
    textconv.add_argument("--used-from", metavar="DIR", help="the folder that its shop files lie in")

    explain = commands.add_parser(
        "explain", help="how a figure came about, down to the measured lines; or what a message means"
    )
    explain.add_argument("job", metavar="JOB|SLUG", help="a job file (.seat), - for standard input; or a message")
    explain.add_argument("valve", metavar="VALVE", nargs="?", help="a valve of the job, such as I1; or `setting`")
    explain.add_argument(
        "figure",
        metavar="FIGURE",
        nargs="?",
        help="a figure of plan.json, such as bore.aim; the number behind `setting`; or `insert`",
    )
    explain.add_argument("name", metavar="NAME", nargs="?", help="behind `insert`: one that was looked at")
    explain.add_argument("--as", dest="form", choices=("text", "json"), default="text", help="how it is said")

    formatter = commands.add_parser("format", help="set files in the canonical layout; figures and texts stay as typed")
    formatter.add_argument(
        "files", nargs="+", metavar="FILE", help="a job or shop file, or - from standard input to standard output"
    )
    formatter.add_argument("--check", action="store_true", help="write nothing; 1 when a file would change")
    formatter.add_argument("--diff", action="store_true", help="write nothing; show what would change")

    new = commands.add_parser("new", help="write a starter job or shop file, from flags or from a few questions")
    if wanted in (None, "new"):
        from seatwright.commands.new_words import add_words

        add_words(new)

    watch = commands.add_parser("watch", help="rebuild on save and show the cards in a browser; writes nothing to disk")
    watch.add_argument("job", metavar="JOB", help="a job file (.seat)")
    watch.add_argument("--paper", choices=PAPERS, help="the paper, whatever the job says")
    watch.add_argument("--no-browser", action="store_true", help="only say at which address the cards are shown")

    completion = commands.add_parser("completion", help="print what a shell needs to complete the command")
    completion.add_argument("shell", choices=("bash", "zsh", "fish"), help="for which shell")

    commands.add_parser("manual", help="print the manual page, in the form that man reads")
    add_examples(commands.choices, {each.dest: each.help or "" for each in commands._choices_actions})
    return whole


def _count(typed: str) -> int:
    if not typed.isdecimal() or not 1 <= int(typed) <= 256:
        raise argparse.ArgumentTypeError(f"{typed} is no number from 1 to 256")
    return int(typed)


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

                return completion(given.shell, parser())
            case "manual":
                from seatwright.commands.manual import manual

                return manual(parser())
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
