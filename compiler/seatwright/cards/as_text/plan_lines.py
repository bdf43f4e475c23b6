"""A plan as plain lines, to read and to hold against another: `E2  bore at 20 °C  41.012 to 41.037 mm`.

Every line names whose it is, and no line depends on another, so that a change of one figure changes one line. Digits
and words are those of the cards.
"""

from __future__ import annotations

from collections.abc import Iterator

from seatwright.cards.as_text.as_printed import printed
from seatwright.planning.plan import Plan
from seatwright.told.printed_facts import Subject, subjects

_WORDS_WIDE = 42  # fixed: a longer name elsewhere must not move this line


def plan_lines(plan: Plan) -> str:
    """All that the plan says to the machine, a line each; the job first, then settings, then valves."""
    parts = (list(_lines(plan, subject)) for subject in subjects(plan))
    head = f"job {plan.job.number}  {plan.job.title}\n"
    return head + "".join("\n" + "".join(part) for part in parts if part)


def called(kind: str, name: str) -> str:
    """`job`, `setting C2 at 41.014`, `E2`."""
    return {"job": "job", "setting": f"setting {name}"}.get(kind, name)


def _lines(plan: Plan, subject: Subject) -> Iterator[str]:
    whose = called(subject.kind, subject.name)
    for particular in subject.particulars:
        yield f"{whose}  {particular.words:<{_WORDS_WIDE}}  {printed(plan, particular)}\n"
