"""Figures that cannot both be true, and maker's figures that disagree among themselves."""

from __future__ import annotations

from collections.abc import Iterator

from seatwright.job.model import Job
from seatwright.text import Message


def check_job(job: Job) -> Iterator[Message]:
    yield from ()
