"""A job that has errors is in no figure over many jobs, which is said."""

from __future__ import annotations

from collections.abc import Sequence

from seatwright.text import Message, Severity


def job_left_out(job: str, errors: Sequence[Message]) -> Message:
    """The warning, at the first of its errors. errors: not none of them"""
    count = len(errors)
    return Message(
        Severity.WARNING,
        "job-left-out",
        errors[0].span,
        f"{job} has {count} error{'' if count == 1 else 's'} and is not in these figures.",
        f"`seatwright check {job}` says what is wrong.",
    )
