"""Twenty-five mistakes on twenty-five lines: one run names them all, at their places, and nothing else."""

from __future__ import annotations

import re
from pathlib import Path

from tests.whole.shop import seatwright

from seatwright.job import read
from seatwright.text import Severity

# Behind each mistaken line stands what is to be said, and at which words.
JOB = """\
job 2214 "loose exhaust seats"
  units     mm
  received  16.11.2026                                     # date-wanted at 16.11.2026
  custmer   "the dairy"                                    # field-unknown at custmer
  paper     a6                                             # choice-unknown at a6

use "bench.shop"

head "four cylinder, iron"
  material:     grey iron                                  # mark-needless at :
  temperature   22                                         # unit-missing at 22
  least bridge  2.0                                        # field-unknown at least
  least-floor   0.4 cm                                     # unit-unknown at cm
  heat-limit    180 grd                                    # unit-unknown at grd
  depth-from    deck

valves exhaust
  insert           choose
  interference     0.08-0.10 "manual"                      # range-hyphen at 0.08-0.10
  stand            0.10                                    # stand-way at 0.10
  head-diameter    42,0                                    # decimal-comma at 42,0
  stem             8.0 +0.02                               # tolerance-half at 8.0 +0.02
  seat-width       2.0 to 1.6                              # range-reversed at 2.0 to 1.6
  seat-angle       45
  seat-runout      0.05                                    # runout-bare at 0.05
  guide-clearance  0.06 max                                # limit-word at max
  recession        0.5 to                                  # range-open at 0.5 to
  stem-height       1.739 in = 44.71 mm                     # units-disagree at 44.71 mm
  setback          0.8 1.0                                 # figures-many at 0.8 1.0

valves I1
  stem  8.0

hold E9 "crack in the floor"                               # valve-unknown at E9
note E1 "sound                                             # text-open at QUOTE

mesured 2026-11-18 at 22 C                                 # section-unknown at mesured
  valve  guide-middle  pocket-a  pocket-b  insert-od
  E1     8.015         44.O2     44.03     44.59           # letter-for-digit at 44.O2
  E2     8.016         44.02     44.03                     # cell-missing at 44.03
  E3     8.014         1.733     44.03     44.59           # figure-unlikely at 1.733
  EX4    8.014         44.02     44.03     44.59           # valve-name at EX4
"""
SHOP = 'shop "bench"\n  units  mm\n'


def _expected() -> list[tuple[int, str, str]]:
    found = []
    for number, line in enumerate(JOB.split("\n"), 1):
        for slug, typed in re.findall(r"# ([a-z-]+) at (.+?)\s*$", line):
            found.append((number, slug, typed.replace("QUOTE", '"sound')))
    return found


def test_twenty_five_mistakes_are_named_in_one_run_at_their_places_and_nothing_else() -> None:
    expected = _expected()
    assert len(expected) == len({line for line, _, _ in expected}) == 25
    files = {"a.seat": JOB.encode(), "bench.shop": SHOP.encode()}
    job, messages = read("a.seat", lambda name: files[name])
    assert job is None
    lines = JOB.split("\n")
    said = []
    for message in messages:
        assert message.span is not None
        assert message.severity is Severity.ERROR
        typed = lines[message.span.line - 1][message.span.column - 1 : message.span.end_column - 1]
        said.append((message.span.line, message.slug, re.split(r"\s+#", typed)[0].rstrip()))
    assert said == expected


def test_the_command_shows_all_twenty_five(tmp_path: Path) -> None:
    (tmp_path / "a.seat").write_text(JOB, "utf-8")
    (tmp_path / "bench.shop").write_text(SHOP, "utf-8")
    ran = seatwright("check", "--as", "lines", "a.seat", cwd=tmp_path)
    assert ran.code == 1
    assert len(ran.out.splitlines()) == 25
