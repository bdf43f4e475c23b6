"""A sample of the word slips in tests/bench: no traceback, and no figure changes without a word about it."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import pytest

BENCH = Path(__file__).parents[1] / "bench" / "word_slips.py"


@pytest.mark.slow
def test_no_slip_of_a_word_ends_in_a_traceback_or_changes_a_figure_unseen() -> None:
    found = importlib.util.spec_from_file_location("word_slips", BENCH)
    assert found is not None
    assert found.loader is not None
    word_slips = importlib.util.module_from_spec(found)
    sys.modules["word_slips"] = word_slips
    found.loader.exec_module(word_slips)
    counts = word_slips.run(every=41)
    assert counts.crashes == []
    assert sum(counts.outcomes.values()) > 100
    assert [slip for slip in counts.silent if not word_slips.is_valid_otherwise(slip)] == []
