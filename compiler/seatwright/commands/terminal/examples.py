"""The examples that `--help` and the manual show for each command. A test runs every one of them."""

from __future__ import annotations

import argparse
from collections.abc import Mapping

EXAMPLES: Mapping[str, tuple[tuple[str, str], ...]] = {
    "build": (
        ("seatwright build 2214.seat", "cards in cards/2214 beside the job"),
        ("seatwright build 2214.seat -o printed --paper letter", "elsewhere, on other paper"),
        ("seatwright build . --jobs 2", "every job of this folder, two at a time"),
    ),
    "check": (
        ("seatwright check 2214.seat", "all that is wrong, held or not given"),
        ("seatwright check --strict --as sarif 2214.seat", "for a program that gathers findings"),
    ),
    "plan": (
        ("seatwright plan 2214.seat", "every figure, as JSON"),
        ("seatwright plan --as text 2214.seat", "the figures of the cards, a line each"),
    ),
    "compare": (
        ("seatwright compare 2214.seat 2215.seat", "what the second changes at the machine"),
        ("seatwright compare 2214.seat@HEAD 2214.seat", "what is changed since the last commit"),
    ),
    "textconv": (("seatwright textconv 2214.seat", "the job as lines that git can compare"),),
    "explain": (
        ("seatwright explain 2214.seat E1", "every figure of a valve"),
        ("seatwright explain 2214.seat E1 bore.aim", "one figure, down to the lines that were measured"),
    ),
    "format": (
        ("seatwright format 2214.seat bench.shop", "set both files in the canonical layout"),
        ("seatwright format --check --diff 2214.seat", "only show what would change"),
    ),
    "new": (
        ("seatwright new bench.shop --units mm", "a shop file to fill in"),
        (
            'seatwright new 2216.seat --cylinders 4 --valves-per-cylinder 2 --units mm --material "grey iron"',
            "a job; on a terminal, what is left out is asked for",
        ),
    ),
    "watch": (
        ("seatwright watch 2214.seat", "the cards in a browser, following every save; Ctrl-C ends it"),
        ("seatwright watch 2214.seat --no-browser", "only say at which address"),
    ),
    "completion": (
        ("seatwright completion bash > ~/.local/share/bash-completion/completions/seatwright", "for bash"),
        ("seatwright completion zsh > ~/.zfunc/_seatwright", "for zsh, where ~/.zfunc is in fpath"),
        ("seatwright completion fish > ~/.config/fish/completions/seatwright.fish", "for fish"),
    ),
    "manual": (
        ("seatwright manual | man -l -", "read it here"),
        ("seatwright manual > ~/.local/share/man/man1/seatwright.1", "so that `man seatwright` finds it"),
    ),
}


def add_examples(commands: Mapping[str, argparse.ArgumentParser], summaries: Mapping[str, str]) -> None:
    """Give each command a description and its examples at the end of its `--help`."""
    for name, command in commands.items():
        if not command.description:
            command.description = f"{summaries[name][:1].upper()}{summaries[name][1:]}."
        if name in EXAMPLES:
            lines = "\n".join(f"  {line}\n      {what}" for line, what in EXAMPLES[name])
            command.epilog = f"examples:\n{lines}" + (f"\n\n{command.epilog}" if command.epilog else "")
            command.formatter_class = argparse.RawDescriptionHelpFormatter
