"""A plan's documents; where a shop has templates of its own, made in a process apart, with limits of time and size."""

from __future__ import annotations

import contextlib
import os
import signal
import sys
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from seatwright.cards.render import Documents, documents
from seatwright.cards.templating import TemplateFault
from seatwright.planning.plan import Plan

if TYPE_CHECKING:
    from multiprocessing.connection import Connection

_SECONDS = 20
_GRACE = 3  # s: what is stuck inside one single step cannot be told the line, and is ended
_MOST_MEMORY = 1_000_000_000  # bytes beyond what the program has already
_MOST_SIZE = 50_000_000  # characters of all documents together
_TOO_LONG = f"it takes longer than {_SECONDS} s"


class _Late(Exception):
    """The time is over."""


def documents_of(plan: Plan, *, templates: Mapping[str, str], **wish: Any) -> Documents:
    """As `cards.render.documents`. Raises TemplateFault also for templates that take too long or grow too large."""
    if not templates:
        return documents(plan, **wish)
    import multiprocessing

    forks = sys.platform == "linux" and hasattr(os, "fork")
    context: Any = multiprocessing.get_context("fork" if forks else "spawn")
    ours, its = context.Pipe(duplex=False)
    process = context.Process(target=_make, args=(its, plan, dict(templates), wish), daemon=True)
    process.start()
    its.close()
    try:
        if not ours.poll(_SECONDS + _GRACE):
            raise TemplateFault(f"the shop's own templates ({', '.join(sorted(templates))}): {_TOO_LONG}")
        made = ours.recv()
    except EOFError:
        raise TemplateFault(f"the shop's own templates ({', '.join(sorted(templates))}) ended the program") from None
    finally:
        process.kill()
        process.join()
        ours.close()
    if isinstance(made, Exception):
        raise made
    assert isinstance(made, Documents)
    return made


def _make(answer: Connection, plan: Plan, templates: dict[str, str], wish: dict[str, Any]) -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the first process says so, and ends this one
    _limit()
    try:
        made = documents(plan, templates=templates, **wish)
        if len(made.html) + len(made.markdown) + len(made.plan_json) > _MOST_SIZE:
            raise TemplateFault(f"the shop's own templates make cards of more than {_MOST_SIZE // 1_000_000} MB")
    except (MemoryError, _Late) as problem:
        # Outside every template, over what one of them made.
        why = _TOO_LONG if isinstance(problem, _Late) else "it takes more memory than cards may"
        answer.send(TemplateFault(f"the shop's own templates ({', '.join(sorted(templates))}): {why}"))
        return
    except Exception as problem:
        answer.send(problem)
        return
    answer.send(made)


def _limit() -> None:
    """Where the system can: no more memory than that, and an end at the line where the time is over."""
    with contextlib.suppress(ImportError, OSError, ValueError):
        import resource

        with open("/proc/self/statm", encoding="ascii") as file:
            had = int(file.read().split()[0]) * resource.getpagesize()
        _, hard = resource.getrlimit(resource.RLIMIT_AS)
        resource.setrlimit(resource.RLIMIT_AS, (had + _MOST_MEMORY, hard))
    if hasattr(signal, "setitimer"):
        signal.signal(signal.SIGALRM, _late)
        signal.setitimer(signal.ITIMER_REAL, _SECONDS)


def _late(_number: int, _frame: object) -> None:
    raise _Late(_TOO_LONG)
