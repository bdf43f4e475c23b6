"""The words of the command line, each declared once: the parser, the completions and the manual are made of them."""

from __future__ import annotations

import argparse
import os
import re
from functools import partial
from typing import NamedTuple

from seatwright.commands.terminal.word import Slot
from seatwright.version import VERSION

DESCRIPTION = "From a plain-text job to printed operation cards for re-seating cylinder heads."
EPILOG = """\
exit codes: 0 done; 1 errors in the job; 2 wrong use, or a file that cannot be read or written; 3 cards written, with
valves on hold. Messages go to standard error, results to standard output; `-` reads a job from standard input."""
SHELLS = ("bash", "zsh", "fish")
_PAPERS = ("a4", "letter", "a5", "half-letter")
_EDITORS = """\
--as lines gives `file:line:column: severity slug: what is wrong – what to do`, one message a line, for the list of
places of an editor.
  vim    :set makeprg=seatwright\\ check\\ --as\\ lines\\ %
         :set errorformat=%f:%l:%c:\\ %t%*[a-z]\\ %m
  emacs  M-x compile, then: seatwright check --as lines FILE
         or an entry of compilation-error-regexp-alist:
         ("^\\\\(.+?\\\\):\\\\([0-9]+\\\\):\\\\([0-9]+\\\\): [ehwn][a-z]+ " 1 2 3)
--as json is described by the schema in grammar/messages.schema.json; --as sarif is SARIF 2.1.0."""


class Command(NamedTuple):
    """One command: what it does, its words, and what else there is to say."""

    name: str
    summary: str
    own_words: tuple[Slot, ...] = ()
    notes: str = ""

    @property
    def words(self) -> tuple[Slot, ...]:
        """Its words; those of `new` are the declared fields of a job: to know them is to load the declarations."""
        if self.name == "new":
            from seatwright.commands.terminal.new_words import NEW_WORDS

            return NEW_WORDS
        return self.own_words

    @property
    def options(self) -> tuple[Slot, ...]:
        """The words that have a spelling, help first."""
        return (_HELP, *(word for word in self.words if word.spelled))

    @property
    def places(self) -> tuple[Slot, ...]:
        """The words that have a place."""
        return tuple(word for word in self.words if not word.spelled)

    @property
    def examples(self) -> list[list[str]]:
        """Lines that show its use, and what each of them does."""
        lines = (line.split(" -> ") for line in _EXAMPLES.replace("\\\n", "").splitlines())
        return [each for each in lines if each[0].split()[1] == self.name]

    @property
    def epilog(self) -> str:
        """What stands at the end of its help."""
        lines = "\n".join(f"  {line}\n      {what}" for line, what in self.examples)
        return f"examples:\n{lines}" + (f"\n\n{self.notes}" if self.notes else "")


def _at_once(typed: str) -> int:
    if not typed.isdecimal() or not 1 <= int(typed) <= 256:
        raise argparse.ArgumentTypeError(f"{typed} is no number from 1 to 256")
    return int(typed)


def _day(typed: str) -> str:
    from seatwright.syntax.numbers.dates import is_day

    if typed != "today" and not is_day(typed):
        raise argparse.ArgumentTypeError(f"{typed} is no day; write it as 2026-11-17, or today")
    return typed


def _first_day(typed: str) -> str:
    from seatwright.syntax.numbers.dates import is_day

    if not is_day(typed):
        raise argparse.ArgumentTypeError(f"{typed} is no day; write it as 2026-09-01")
    return typed


def _temperature(typed: str) -> str:
    found = re.fullmatch(r"([+-]?[0-9]+(?:\.[0-9]+)?) ?°?([CFcf])", typed)
    if found is None:
        raise argparse.ArgumentTypeError(f"{typed} is no temperature; write it as 22C or 72F")
    return f"{found[1]} {found[2].upper()}"


def _as(*forms: str, help: str = "how it is said") -> Slot:
    return Slot("form", help, "--as", choices=forms, otherwise=forms[0])


def _flag(spelling: str, help: str) -> Slot:
    return Slot(spelling.strip("-").replace("-", "_"), help, spelling)


_HELP = Slot("help", "show this help message and exit", "-h --help")
_JOB = Slot("job", "a job file (.seat), or - for standard input", "", "JOB")
_JOBS = Slot("jobs", "a job file (.seat), a folder with all below it, or - for standard input", "", "JOB", how_many="+")
_FILES = Slot(
    "jobs",
    "a job (.seat), shop (.shop) or engine file (.engine), a folder of jobs with all below it, or - for standard input",
    "",
    "FILE",
    how_many="+",
)
_PAPER = Slot("paper", "the paper, whatever the job says", "--paper", choices=_PAPERS)
_AT_ONCE = Slot("at_once", "so many side by side (left out: one a processor)", "--jobs", "N", kind=_at_once)

_FOLDER = Slot(
    "folder",
    "a folder with all jobs below it, or FOLDER@REV for a revision in git (left out: this one)",
    "",
    "FOLDER",
    how_many="?",
    otherwise=".",
)

_AT_THE_BENCH = """\
in place of a figure: Enter alone for not now, < for one back, > for the next valve, >> for the next station, ? for what
is meant, . to end; 9.020/9.022 for two readings, - to empty a cell. A figure that brings an error is asked for again;
one that brings a warning is kept when it is typed once more."""

COMMANDS = (
    Command("build", "write the cards of each job", (
        _JOBS,
        Slot("out", "where the cards go (left out: cards beside the job file)", "-o", "DIR"),
        _PAPER,
        Slot("card", "this card alone: its kind, its number, or its setting", "--card", "NAME"),
        _flag("--two-up", "two cards of a5 or of half-letter on one sheet"),
        _flag("--pdf", "cards.pdf as well (needs the extra seatwright[pdf])"),
        Slot("templates", "the shop's own templates (left out: templates beside a shop file)", "--templates", "DIR"),
        _AT_ONCE,
        _flag("--afresh", "also the jobs whose cards stand as they would be built"),
    )),
    Command("check", "say what is wrong with each job, shop or engine file", (
        _FILES,
        _as("text", "lines", "json", "sarif"),
        _flag("--all", "every notice in full, with its place (left out: a line a topic)"),
        _flag("--fix", "write the slips of writing that have one certain mend into the file"),
        _flag("--diff", "with --fix: write nothing, show what would change"),
        _flag("--strict", "warnings fail as errors do"),
        _flag("--allow-holds", "a valve on hold does not fail"),
        _AT_ONCE,
    ), _EDITORS),
    Command("plan", "print plan.json, every figure of the job, or its cards' figures as lines", (
        _JOB, _PAPER, _as("json", "text", help="how it is printed"),
    )),
    Command("compare", "what changes at the machine between two jobs, folders or revisions (JOB@REV)", (
        Slot("old", "a job file or a folder, with @REV behind it for a revision in git, or - ", "", "OLD"),
        Slot("new", "likewise (left out: OLD as it is, against OLD@HEAD)", "", "NEW", how_many="?"),
        Slot("using", "of folders: only the jobs that use this shop or engine file", "--using", "FILE"),
        _as("text", "json"),
    ), "exit codes: 0 nothing changes at the machine; 1 something does; 2 a job has errors or cannot be read"),
    Command("textconv", "a job as lines, for git diff (see the README)", (
        Slot("job", "a job file, as git hands it over", "", "FILE"),
        Slot("used_from", "the folder that its shop files lie in", "--used-from", "DIR"),
    )),
    Command("stock", "what is on the shelves over all jobs of a folder, who is promised it, what to order", (
        _FOLDER, _as("text", "csv", "json"), _AT_ONCE,
    ), "exit codes: 0 nothing is short; 1 a job has errors and is left out; 3 something is to be ordered"),
    Command("history", "what the cutters really cut over all jobs of a folder, and what instruments and causes tell", (
        _FOLDER,
        Slot("since", "the first day that counts (left out: all)", "--since", "DATE", kind=_first_day),
        Slot("out", "where its cards and tables go too (left out: none are written)", "-o", "DIR"),
        _as("text", "csv", "json"), _AT_ONCE,
    ), "exit codes: 0 done; 1 a job has errors and is left out"),
    Command("card", "whether a printed card still holds, by the stamp at its foot", (
        Slot("stamp", "the stamp, or its first six letters (left out, or -: a line of standard input each)",
             "", "STAMP", how_many="?"),
        Slot("folder", "a folder with all jobs below it (left out: this one)", "", "FOLDER", how_many="?",
             otherwise="."),
        _AT_ONCE,
    ), "exit codes: 0 current; 1 out of date; 2 no such card; 3 current, and a valve of it is on hold now"),
    Command("table", "any figures of every valve of all jobs of a folder, for a spreadsheet", (
        Slot("folder", "a folder with all jobs below it, or FOLDER@REV for a revision in git", "", "FOLDER"),
        Slot("paths", "a figure as `explain` names it, such as bore.aim; or its first word, for all below it",
             "", "PATH", how_many="+"),
        _as("csv", "tsv", "json", "markdown", help="how it is written"),
        Slot("unit", "what lengths are in", "--in", choices=("mm", "inch"), otherwise="mm"),
        _AT_ONCE,
    ), "exit codes: 0 done; 1 a job has errors and is left out; 2 no plan can have such a figure"),
    Command("explain", "how a figure came about, down to the measured lines; or what a message means", (
        Slot("job", "a job file (.seat), - for standard input; or a message", "", "JOB|SLUG"),
        Slot("valve", "a valve of the job, such as I1; or `setting`", "", "VALVE", how_many="?"),
        Slot("figure", "a figure of plan.json, such as bore.aim; the name behind `setting`; or `insert`",
             value="FIGURE", how_many="?"),
        Slot("name", "behind `insert`: one that was looked at", "", "NAME", how_many="?"),
        _as("text", "json"),
        _flag("--short", "only the sentence that the rest explains"),
    )),
    Command("format", "set files in the canonical layout; figures and texts stay as typed", (
        Slot("files", "a job, shop or engine file, or - from standard input to output", "", "FILE", how_many="+"),
        _flag("--check", "write nothing; 1 when a file would change"),
        _flag("--diff", "write nothing; show what would change"),
    )),
    Command("enter", "type readings at the bench, by hand or by a gauge that types; each goes into the job at once", (
        Slot("job", "a job file (.seat)", "", "JOB"),
        Slot("valves", "these valves alone", "", "VALVE", how_many="*"),
        Slot("date", "the day of the readings, 2026-11-17, or today", "--date", "DAY", kind=_day),
        Slot("at", "what head and gauge are at, such as 22C", "--at", "TEMPERATURE", kind=_temperature),
        Slot("table", "where they belong", "--table", choices=("measured", "cut", "finished"), otherwise="measured"),
        _flag("--again", "also what is given already: the new readings replace it (wants a later --date)"),
    ), _AT_THE_BENCH),
    Command("new", "write a starter job, shop or engine file, from flags or from a few questions"),
    Command("watch", "rebuild on save and show the cards in a browser; writes nothing to disk", (
        Slot("job", "a job file (.seat)", "", "JOB"),
        _PAPER,
        _flag("--no-browser", "only say at which address the cards are shown"),
    )),
    Command("editor", "what an editor shows while a job is typed: a language server (needs seatwright[editor])", (),
        "The editor starts it and speaks with it on standard input and output; grammar/editors/README.md has the\n"
        "lines for each editor. It writes no file, opens no port and starts no program."),
    Command("completion", "print what a shell needs to complete the command", (
        Slot("shell", "for which shell", choices=SHELLS),
    )),
    Command("manual", "print the manual page, in the form that man reads"),
)  # fmt: skip
_EXAMPLES = """\
seatwright build 2214.seat -> cards in cards/2214 beside the job
seatwright build 2214.seat -o printed --paper letter -> elsewhere, on other paper
seatwright build . --jobs 2 -> every job of this folder and those below it, two at a time
seatwright check 2214.seat -> what is wrong or held, and a line for each topic not given
seatwright check --all 2214.seat -> each notice in full, with its place
seatwright check bench.shop -> a shop file by itself
seatwright check --fix --diff 2214.seat -> what --fix would write
seatwright check --strict --as sarif 2214.seat -> for a program that gathers findings
seatwright plan 2214.seat -> every figure, as JSON
seatwright plan --as text 2214.seat -> the figures of the cards, a line each
seatwright compare 2214.seat 2215.seat -> what the second changes at the machine
seatwright compare 2214.seat@HEAD 2214.seat -> what is changed since the last commit
seatwright compare . -> which jobs of this folder the changes since the last commit reach
seatwright compare .@v1 . --using engines/tc3.engine -> the same of the jobs that use an engine file
seatwright stock -> what this shop has, has promised and has to order
seatwright stock . --as csv -> for a spreadsheet
seatwright history -> what each cutter bores over its setting, and whether a trial is needed
seatwright card 1a2b3c4d -> whether that card still holds, or what stands in its place
seatwright table . bore.aim insert.name -> every valve of this shop, for a spreadsheet
seatwright table . cut --in inch --as tsv -> all that was cut, in inches, parted by tabs
seatwright textconv 2214.seat -> the job as lines that git can compare
seatwright explain 2214.seat E1 -> every figure of a valve
seatwright explain 2214.seat E1 --short -> what to bore, and why, in one sentence
seatwright explain 2214.seat E1 bore.aim -> one figure, down to the lines that were measured
seatwright format 2214.seat bench.shop -> set both files in the canonical layout
seatwright format --check --diff 2214.seat -> only show what would change
seatwright enter 2214.seat --date today --at 22C -> what is not measured yet, valve by valve
seatwright enter 2214.seat E1 I1 --table cut --date 2026-11-20 -> what was bored in two pockets
seatwright new bench.shop --units mm -> a shop file to fill in
seatwright new engines/tc3.engine --units mm --source "overhaul manual 3" -> an engine file to fill in
seatwright new 2217.seat --units mm --engine engines/tc3.engine -> a job of that engine, without what stands there
seatwright new 2216.seat --cylinders 4 --valves-per-cylinder 2 --units mm --material "grey iron" \
-> a job; on a terminal, what is left out is asked for
seatwright watch 2214.seat -> the cards in a browser, following every save; Ctrl-C ends it
seatwright watch 2214.seat --no-browser -> only say at which address
seatwright editor -> started by an editor, not by hand
seatwright completion bash > ~/.local/share/bash-completion/completions/seatwright -> for bash
seatwright completion zsh > ~/.zfunc/_seatwright -> for zsh, where ~/.zfunc is in fpath
seatwright completion fish > ~/.config/fish/completions/seatwright.fish -> for fish
seatwright manual | man -l - -> read it here
seatwright manual > ~/.local/share/man/man1/seatwright.1 -> so that `man seatwright` finds it
"""


def argument_parser(wanted: str) -> argparse.ArgumentParser:
    """The parser of the command line, with the words of the command that is wanted and no other; without one, the names
    of all."""
    as_typed = partial(argparse.RawDescriptionHelpFormatter, width=_columns() - 2)
    whole = argparse.ArgumentParser("seatwright", description=DESCRIPTION, epilog=EPILOG, formatter_class=as_typed)
    whole.add_argument("--version", action="version", version=f"seatwright {VERSION}")
    commands = whole.add_subparsers(dest="command", metavar="COMMAND", required=True)
    for each in [one for one in COMMANDS if one.name == wanted] or COMMANDS:
        command = commands.add_parser(each.name, help=each.summary, formatter_class=as_typed)
        if each.name == wanted:
            command.description = f"{each.summary[:1].upper()}{each.summary[1:]}."
            command.epilog = each.epilog
            for word in each.words:
                word.add(command)
    return whole


def _columns() -> int:
    """How wide the terminal is. By `shutil`, as argparse would ask, each start would load what unpacks archives."""
    said = os.environ.get("COLUMNS", "")
    if said.isdecimal() and int(said):
        return int(said)
    try:
        return os.get_terminal_size(1).columns or 80
    except OSError:  # standard output is none
        return 80
