"""What a command ends with."""

from __future__ import annotations

from collections.abc import Iterable
from enum import IntEnum


class Exit(IntEnum):
    """The exit codes: done; errors in the job; wrong use or a file that cannot be read or written; valves on hold."""

    DONE = 0
    ERRORS = 1
    WRONG_USE = 2
    HOLDS = 3


def worst(codes: Iterable[Exit]) -> Exit:
    """The code of a run over many jobs: wrong use before errors, errors before holds."""
    order = (Exit.DONE, Exit.HOLDS, Exit.ERRORS, Exit.WRONG_USE)
    return max(codes, key=order.index, default=Exit.DONE)
