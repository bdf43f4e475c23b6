"""Whole files: the example of the language, thirteen mistakes planted in one file, and the demo jobs."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.job.given_jobs import clean, read_files

from seatwright.job import Refused, read
from seatwright.text import Severity

ROOT = Path(__file__).parents[2]

# The example at the end of the language page, as it stands there.
EXAMPLE = """\
job 318 "tractor engine, iron head, three loose exhaust seats"
  units     inch
  received  2026-11-16

use "bench.shop"

head "four cylinder, two valves each"
  material      grey iron
  least-bridge  .100
  depth-from    rim

valves exhaust
  insert           choose
  interference     .0025 to .0040 "service manual"
  stand            below .002 to .006
  seat-angle       45
  seat-width       .078 to .098
  guide-clearance  .0015 to .0045

spacing
  E1  I1  1.895
  E2  I2  1.895

measured at 68 F
  valve  guide-top  guide-middle  guide-bottom  pocket-a  pocket-b  pocket-depth  pocket-tir  insert-od
  E1     .3745      .3743         .3748         1.6085    1.6093    .281          .004        1.6330
  E2     .3744      .3743         .3745         1.6081    1.6083    .280          .001        1.6327
"""

BENCH = """\
shop "an inch bench"
  units inch
inserts
  insert  od      od-least  od-most  height  id    alloy       seat     on-hand
  X1      1.6330  1.6325    1.6335   .281    1.25  tool-steel  exhaust  8
"""

# The thirteen mistakes of the grammar notes, section 4, one a line.
PLANTED = """\
language 1
job 77 "planted"
  received 16.11.2026
  units mm

head "four cylinder"
  leest-bridge 2.0
  heat-limit 180
  material grey iron
valves exhaust
  interference 0.08-0.10 "manual"
  seat-width 1.6 to
  seat-runout 0.05
  head-diameter 42.10 +0.02
  seat-angle 45
valves intake
  head-diameter 44.0
hold I2 "crack in the floor
note I1 "sound"
mesured at 22 C
  valve  pocket-a  pocket-b  pocket-depth  insert-od
  I1     44.02     44,21     7.1           -
  E1     40.02     40.03     7.1
  I2     1.500     44.21     7.1           -
  E2     40.02     40.03     7.1           1.518 in = 38.71 mm
"""


def test_the_example_of_the_language_reads_clean() -> None:
    job, messages = read_files(EXAMPLE, bench=BENCH)
    assert job is not None
    assert {message.severity for message in messages} <= {Severity.NOTICE}
    head = job.heads[0]
    assert [valve.name for valve in head.valves] == ["E1", "E2"]
    assert [valve.name for valve in head.neighbours] == ["I1", "I2"]
    assert job.shop.names[0].text == "an inch bench"
    assert [source.path for source in job.sources] == ["job.seat", "bench.shop"]
    found = head.valves[0].measured
    assert found.pocket_offset is not None
    assert found.pocket_offset.value == pytest.approx(0.002 * 25.4)  # half of the needle's movement
    assert found.pocket_a is not None
    assert found.pocket_a.at is not None
    assert found.pocket_a.at.value == pytest.approx(20.0)


def test_thirteen_planted_mistakes_give_thirteen_messages_at_their_places() -> None:
    job, messages = read_files(PLANTED)
    assert job is None
    assert [(one.span.line, one.span.column, one.slug) for one in messages if one.span] == [
        (3, 12, "date-wanted"),
        (7, 3, "field-unknown"),
        (8, 14, "unit-missing"),
        (11, 16, "range-hyphen"),
        (12, 14, "range-open"),
        (13, 15, "runout-bare"),
        (14, 17, "tolerance-half"),
        (18, 9, "text-open"),
        (20, 1, "section-unknown"),
        (22, 20, "decimal-comma"),
        (23, 30, "cell-missing"),
        (24, 10, "figure-unlikely"),
        (25, 55, "units-disagree"),
    ]


@pytest.mark.parametrize("path", sorted((ROOT / "jobs").rglob("*.seat")), ids=lambda path: path.stem)
def test_a_demo_job_reads_without_an_error(path: Path) -> None:
    job, messages = read(path.name, lambda name: (path.parent / name).read_bytes())
    assert [message for message in messages if message.severity is Severity.ERROR] == []
    assert job is not None


@pytest.mark.parametrize(
    ("path", "slug"),
    [
        ("../bench.shop", "use-unreadable"),  # how far up it may lie the loader says
        ("a/../../bench.shop", "use-unreadable"),
        ("/etc/bench.shop", "use-refused"),
        ("C:/bench.shop", "use-refused"),
        ("a\\bench.shop", "use-refused"),
        ("bench.txt", "use-refused"),
        ("nowhere.shop", "use-unreadable"),
    ],
)
def test_a_shop_file_out_of_reach_is_one_error_and_no_consequence(path: str, slug: str) -> None:
    # E1 wants an insert of that shop: that it is not found is no second mistake.
    job = f'job 1 "x"\n units mm\nuse "{path}"\nhead "h"\n material my-iron\nvalves E1\n insert X46\n'
    found, messages = read_files(job)
    assert found is None
    assert [(message.span.line, message.slug) for message in messages if message.span] == [(3, slug)]


def test_a_loader_may_refuse_a_link() -> None:
    def load(path: str) -> bytes:
        if path == "job.seat":
            return b'job 1 "x"\n units mm\nuse "link.shop"\nhead "h"\n material grey iron\nvalves E1\n'
        raise Refused("link.shop leads out of the job's folder")

    job, messages = read("job.seat", load)
    assert job is None
    assert [message.slug for message in messages] == ["use-refused"]
    assert "leads out" in messages[0].text


def test_a_shop_file_lies_beside_its_job() -> None:
    asked = []

    def load(path: str) -> bytes:
        asked.append(path)
        return EXAMPLE.encode() if path.endswith(".seat") else BENCH.encode()

    job, _ = read("heads/318.seat", load)
    assert asked == ["heads/318.seat", "heads/bench.shop"]
    assert job is not None


def test_a_job_that_is_not_there_is_an_error_with_its_reason() -> None:
    def load(path: str) -> bytes:
        raise FileNotFoundError(2, "No such file or directory")

    job, messages = read("gone.seat", load)
    assert job is None
    assert [message.slug for message in messages] == ["job-unreadable"]


def test_spellings_of_two_countries_are_one_word() -> None:
    first = clean('job 1 "x"\n units mm\nhead "h"\n material grey iron\n fuel petrol\nvalves intake I1\n stem 8\n')
    second = clean('JOB 1 "x"\n Units MM\nhead "h"\n material gray-iron\n fuel gasoline\nvalves inlet I1\n stem 8\n')
    assert first.heads[0].material == second.heads[0].material
    assert first.heads[0].fuel is not None
    assert second.heads[0].fuel is not None
    assert first.heads[0].fuel.text == second.heads[0].fuel.text == "petrol"


def test_extra_fields_and_columns_are_kept_as_typed() -> None:
    job = clean(
        'job 1 "x"\n units mm\n x-bin  shelf 4, left  # at the door\nhead "h"\n material grey iron\n x-cast 1,5/2\n'
        "measured\n valve x-hardness stem\n E1 210HB 8.0\n"
    )
    assert [(one.word, one.text, one.valve) for one in job.extras] == [("x-bin", "shelf 4, left", None)]
    assert [(one.word, one.text, one.valve) for one in job.heads[0].extras] == [
        ("x-cast", "1,5/2", None),
        ("x-hardness", "210HB", "E1"),
    ]
