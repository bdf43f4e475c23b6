"""A sample of the spoilt figures in tests/bench: few move anything in silence, few true ones are doubted."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

BENCH = Path(__file__).parents[1] / "bench"
SEED = 4000  # not one of those that the bench was looked at with
HEADS = 6


@pytest.mark.slow
def test_a_slip_that_moves_something_at_the_machine_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(str(BENCH))
    sys.modules.pop("figure_slips", None)
    import figure_slips
    from worn_heads import Head

    counts = figure_slips.Counts()
    figure_slips.demo_jobs(counts, figure_slips.Counts(), every=61, wishes=False)
    for seed in range(SEED, SEED + HEADS):
        figure_slips.made_job(Head(seed), f"head-{seed}.seat", counts, every=61, shift=seed)
    assert counts.slips > 250
    assert counts.total("silent") <= 0.03 * counts.slips, counts.silent
    assert len(counts.flagged) <= 0.01 * counts.honest, counts.flagged
