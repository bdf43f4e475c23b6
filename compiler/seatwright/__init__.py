"""Seatwright: from a plain-text job to printed operation cards for re-seating cylinder heads.

Four calls, one behind the other, with no file, clock or terminal in them:

- `read(path, load)` gives the job, or None where it has an error, and the messages of reading it;
- `plan(job)` gives the plan: every figure with how it came about, and what there is to say of it;
- `plan_document(plan)` gives plan.json as plain dictionaries, lists, texts and numbers;
- `documents(plan)` gives cards.html, cards.md and plan.json as texts.

>>> from seatwright import plan, read
>>> text = b'job 7 "to measure"\\n units mm\\nhead "one cylinder"\\n material grey iron\\nvalves E1\\n insert turned'
>>> job, messages = read("7.seat", lambda path: text)
>>> [message.slug for message in messages]
[]
>>> [valve.name for valve in plan(job).valves]
['E1']
"""

from __future__ import annotations

from seatwright.version import VERSION as __version__

TYPE_CHECKING = False  # as the type checker knows it; to load `typing` for it would cost the first moments of each run

if TYPE_CHECKING:
    from seatwright.cards.render import documents
    from seatwright.job import read
    from seatwright.planning.planner import plan
    from seatwright.told.plan_json import plan_document


__all__ = ["__version__", "documents", "plan", "plan_document", "read"]

_HOMES = {"read": "job", "plan": "planning.planner", "plan_document": "told.plan_json", "documents": "cards.render"}


def __getattr__(name: str) -> object:
    """Each call from its room when it is first asked for: who only checks a job loads no card."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
