"""`seatwright explain SLUG` prints the catalogue's entry."""

from __future__ import annotations

import pytest

from seatwright.commands.explain_message import entries
from seatwright.commands.main import main
from seatwright.text.registry import declared


def test_every_message_declared_can_be_explained() -> None:
    assert sorted(entries()) == sorted(declared())
    assert all(one.meaning in entries()[slug] for slug, one in declared().items())


def test_an_entry_says_how_it_weighs_what_was_seen_and_what_to_do(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "decimal-comma"]) == 0
    printed = capsys.readouterr().out
    assert printed.startswith("decimal-comma\nNothing is written until it is put right.\n")
    assert "44,02" in printed
    assert "→ Write `44.02`." in printed
    assert "```" not in printed


def test_a_message_misspelt_is_answered_with_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "bridge-thinn"]) == 2
    assert "did you mean bridge-thin" in capsys.readouterr().err


def test_a_job_without_a_valve_is_told_what_is_missing(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "job.seat"]) == 2
    assert "name a valve" in capsys.readouterr().err
