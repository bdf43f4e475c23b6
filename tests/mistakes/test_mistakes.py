"""What people really type is understood, or answered with what it was probably meant to be."""

from __future__ import annotations

import pytest
from tests.mistakes.table import Mistake, answer, entries

from seatwright.job import read
from seatwright.planning.planner import plan


@pytest.mark.parametrize("mistake", entries(), ids=lambda one: f"{one.kind}: {one.name}")
def test_a_mistake_is_understood_or_answered_as_the_table_says(mistake: Mistake) -> None:
    assert answer(mistake) == mistake.answers


def test_the_table_has_every_kind_and_more_than_sixty_mistakes() -> None:
    listed = entries()
    assert len(listed) >= 60
    assert len({(one.kind, one.name) for one in listed}) == len(listed)
    assert {one.kind for one in listed} == {
        "decimal", "inch", "unit", "meaning", "row", "word", "character", "date", "renamed", "angle", "two units",
    }  # fmt: skip


def test_a_valve_that_is_in_one_table_and_not_in_another_is_named() -> None:
    text = (
        'job 7 "x"\n  units  mm\n\nhead "h"\n  material  grey iron\n\nvalves all\n  insert  turned\n\n'
        "measured\n  valve  guide-middle\n  E1     8.015\n  E2     8.016\n\n"
        "measured\n  valve  pocket-a  pocket-b\n  E1     44.02     44.03\n"
    )
    job, _ = read("a.seat", lambda name: text.encode())
    assert job is not None
    said = [message for message in plan(job).messages if message.slug == "pocket-not-measured"]
    assert [message.valves for message in said] == [("E2",)]
