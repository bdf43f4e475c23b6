"""The command line as data, read off the parser: what the completions and the manual are made from."""

from __future__ import annotations

import argparse

from msgspec import Struct


class Word(Struct, frozen=True):
    """An option, with its spellings, or a place for a word, without. value: what it takes, "" for nothing.

    choices: the words it takes, where they are few. many: it may stand several times.
    """

    spellings: tuple[str, ...]
    value: str
    help: str
    choices: tuple[str, ...]
    many: bool


class Command(Struct, frozen=True):
    """One command with its options and places."""

    name: str
    summary: str
    options: tuple[Word, ...]
    places: tuple[Word, ...]
    epilog: str


def commands(parser: argparse.ArgumentParser) -> tuple[Command, ...]:
    """Every command of the parser, in its order."""
    found = subparsers(parser)
    summaries = {choice.dest: choice.help or "" for choice in found._choices_actions}
    return tuple(_command(name, summaries.get(name, ""), each) for name, each in found.choices.items())


def subparsers(parser: argparse.ArgumentParser) -> argparse._SubParsersAction[argparse.ArgumentParser]:
    """The part of a parser that holds its commands. Raises StopIteration for a parser without."""
    return next(action for action in parser._actions if isinstance(action, argparse._SubParsersAction))


def _command(name: str, summary: str, parser: argparse.ArgumentParser) -> Command:
    words = [_word(action) for action in parser._actions]
    return Command(
        name,
        summary,
        tuple(word for word in words if word.spellings),
        tuple(word for word in words if not word.spellings),
        parser.epilog or "",
    )


def _word(action: argparse.Action) -> Word:
    choices = tuple(str(choice) for choice in action.choices or ())
    takes = action.nargs != 0
    metavar = action.metavar if isinstance(action.metavar, str) else ""
    return Word(
        tuple(action.option_strings),
        (metavar or "WORD") if takes else "",
        action.help or "",
        choices if takes and not metavar else (),
        action.nargs in ("+", "*"),
    )
