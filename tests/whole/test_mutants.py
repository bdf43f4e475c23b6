"""A short sample of the bench of mutants (tests/bench/mutants.py), at a seed of its own."""

from __future__ import annotations

from tests.bench.mutants import run


def test_files_put_together_wrongly_are_answered_in_time_and_without_a_fault() -> None:
    tally = run(120, seed=77)
    assert not tally.wrong, str(tally)
    assert tally.answers["on cards"] > 20
    assert tally.answers["with errors"] > 20
