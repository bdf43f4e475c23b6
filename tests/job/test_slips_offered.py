"""What is offered for a figure never falls over the figure."""

from __future__ import annotations

import pytest
from tests.job.given_jobs import HEAD, read_files, slugs


def test_a_comma_between_a_figure_and_its_unit_is_no_stumbling_block() -> None:
    text = HEAD.format(units="mm") + "valves E1\n seat-angle 19., mm\n stem 900., mm\n"
    assert {slug for _, slug in slugs(text)} == {"mark-needless", "unit-kind", "figure-unlikely"}


def test_a_range_that_runs_downwards_beside_one_figure_is_one_message() -> None:
    text = HEAD.format(units="mm") + "valves E1\n guide-clearance 0.25 to 0.062 mm = .001 in\n"
    assert [slug for _, slug in slugs(text)] == ["range-reversed"]


@pytest.mark.parametrize("units", ["mm", "MM", '"mm"', "- mm", "inch", "mm inch", "metres", "-", '"mm'])
def test_units_that_are_taken_are_taken_for_every_bare_length(units: str) -> None:
    text = f'job 7 "x"\n units {units}\nhead "h"\n material grey iron\nvalves E1\n margin 0.5 mm\n'
    job, messages = read_files(text)
    assert (job is None) == any(message.severity == "error" for message in messages)
