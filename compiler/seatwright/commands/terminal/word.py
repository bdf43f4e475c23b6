"""A word of the command line: a place, or an option with its spellings.

Named tuples, not msgspec's records: `--help` and `--version` need nothing else of msgspec, which takes as long to load.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from typing import Any, NamedTuple


class Slot(NamedTuple):
    """A place for a word, or an option with its spellings.

    name: under which the command finds it. value: what it takes, as help calls it; "" where help shows the choices, and
    for an option that takes nothing. how_many: "+" for one or more, "*" for any number, "?" for none or
    one. otherwise: what is meant where
    it is left out. kind: what makes a value of what was typed.
    """

    name: str
    help: str
    spelled: str = ""
    value: str = ""
    choices: Sequence[Any] = ()
    how_many: str | None = None
    otherwise: str | None = None
    kind: Callable[[str], Any] = str

    @property
    def spellings(self) -> list[str]:
        """As an option is typed, none for a place."""
        return self.spelled.split()

    @property
    def takes(self) -> str:
        """What stands behind it or in its place, "" for nothing."""
        return self.value or ("WORD" if self.choices else "")

    @property
    def offered(self) -> tuple[str, ...]:
        """The words it takes, where they are few enough to be shown."""
        return () if self.value else tuple(map(str, self.choices))

    def add(self, command: argparse.ArgumentParser) -> None:
        """Give it to a command's parser."""
        how: dict[str, Any] = {"help": self.help, "dest": self.name} if self.spelled else {"help": self.help}
        if self.takes:
            how |= {"default": self.otherwise, "type": self.kind, "choices": self.choices or None}
            how |= {"nargs": self.how_many, "metavar": self.value or None}
        else:
            how["action"] = "store_true"
        command.add_argument(*(self.spellings or [self.name]), **how)
