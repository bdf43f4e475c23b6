"""A short sample of the bench of kills (tests/bench/kills.py), at moments of its own."""

from __future__ import annotations

import pytest
from tests.bench.kills import kills


@pytest.mark.slow
def test_a_killed_program_leaves_whole_sets_whole_files_and_nothing_else() -> None:
    *_, last = kills(16, seed=7)
    assert last.kills >= 16
    assert (last.mixed, last.mixed_after, last.harmed, last.left_over, last.tracebacks) == (0, 0, 0, 0, 0), str(last)
