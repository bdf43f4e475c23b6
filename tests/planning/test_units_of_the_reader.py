"""A job in inches is answered in inches and °F."""

from __future__ import annotations

import re
from pathlib import Path

from seatwright.job import read
from seatwright.planning.basis.wording import not_over, not_under
from seatwright.planning.planner import plan

JOBS = Path(__file__).parents[2] / "jobs"


def test_the_messages_of_a_job_in_inches_have_no_millimetres_and_no_celsius_beside_a_figure_of_its_own() -> None:
    text = (JOBS / "four-valve-aluminium.seat").read_text("utf-8")
    cooler = re.sub(r"heat-limit .*", "heat-limit 240 F", text)
    assert cooler != text
    files = {"four-valve-aluminium.seat": cooler.encode()}
    job, _ = read(
        "four-valve-aluminium.seat", lambda name: files[name] if name in files else (JOBS / name).read_bytes()
    )
    assert job is not None
    messages = plan(job).messages
    (oven,) = [message for message in messages if message.slug == "oven-over-heat-limit"]
    assert "this head may be taken to 240 °F" in oven.text
    assert oven.help == "Set the oven to 240 °F for this head."
    for message in messages:
        assert not re.search(r"[0-9] mm\b", message.text), message.text
        # 20 °C is the reference temperature of lengths (ISO 1), 150 °C that of a practice.
        assert not re.search(r"(?<!20)(?<!150) °C", message.text), message.text


def test_a_bound_is_rounded_to_its_own_side_and_a_figure_on_the_digit_stays() -> None:
    job, _ = read("single-cylinder.seat", lambda name: (JOBS / name).read_bytes())
    assert job is not None
    assert (not_under(job, 31.8712), not_over(job, 31.8718)) == ("31.872 mm", "31.871 mm")
    assert (not_under(job, 0.1 + 0.2), not_over(job, 0.1 + 0.2)) == ("0.30 mm", "0.30 mm")
