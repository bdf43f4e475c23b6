"""What a bare length of a file is in; it holds for the whole file, wherever it stands."""

from __future__ import annotations

from seatwright.job.typed.names import one_of_words
from seatwright.syntax import tree
from seatwright.syntax.tree import Text

_UNITS = ("mm", "inch")


def units_of(file: tree.File, section: str) -> str | None:
    """The units of a file, "mm" or "inch", as its first `job` or `shop` section has them; None where none can be read.

    That they are missing or wrong is said where that section is read.
    """
    for found in file.sections:
        if found.name != section:
            continue
        for line in found.fields:
            if line.word.text == "units" and line.arguments and not line.faulty:
                # As the field itself is read, so that what it takes is never taken as missing here.
                first = line.arguments[0]
                return one_of_words(first.text if isinstance(first, Text) else line.raw, _UNITS)
    return None
