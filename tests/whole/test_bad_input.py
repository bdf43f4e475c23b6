"""Input that nobody should type, and that must never end in a traceback."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.whole.shop import JOBS, seatwright

from seatwright.job import read
from seatwright.planning.planner import plan

SMALL = """job 7 "test"
  units mm
head "one cylinder"
  material grey iron
valves all
  insert choose
measured
  valve  pocket-a  pocket-b
  I1     40.10     40.12
"""

BAD_FILES: dict[str, bytes] = {
    "an empty file": b"",
    "only blank lines": b"\n\n  \n",
    "a binary": bytes(range(256)) * 40,
    "a zero byte": SMALL.encode().replace(b"40.10", b"40\x00.10"),
    "UTF-16": SMALL.encode("utf-16"),
    "broken UTF-8": SMALL.encode().replace(b"test", b"te\xff\xfest"),
    "a decimal comma": SMALL.replace("40.10", "40,10").encode(),
    "an unclosed quote": SMALL.replace('"test"', '"test').encode(),
    "an unknown word": SMALL.replace("material", "metal").encode(),
    "no units": SMALL.replace("  units mm\n", "").encode(),
    "a temperature without its unit": SMALL.replace(
        "material grey iron", "material grey iron\n  temperature 24"
    ).encode(),
    "a row too long": SMALL.replace("40.12", "40.12 3.3").encode(),
    "a row too short": SMALL.replace(" 40.12", "").encode(),
    "a valve twice": (SMALL + "  I1     40.10     40.12\n").encode(),
    "a shop file that is missing": (SMALL + 'use "gone.shop"\n').encode(),
    "a shop file elsewhere": (SMALL + 'use "../../etc/passwd.shop"\n').encode(),
    "an absolute path": (SMALL + 'use "/etc/passwd"\n').encode(),
    "5 MB of comments": SMALL.encode() + b"# filling\n" * 500_000,
    "5 MB in one line": SMALL.encode() + b'note "' + b"x" * 5_000_000 + b'"\n',
    "a number of a thousand digits": SMALL.replace("40.10", "4" * 1000).encode(),
    "a division by nothing": SMALL.replace("40.10", "1/0").encode(),
    "a terminal escape": SMALL.replace("test", "te\x1b[31mst").encode(),
    "a right-to-left override": SMALL.replace("test", "te\u202est").encode(),
}


@pytest.mark.parametrize("name", BAD_FILES)
def test_bad_input_is_answered_in_words(name: str, tmp_path: Path) -> None:
    (tmp_path / "bad.seat").write_bytes(BAD_FILES[name])
    ran = seatwright("build", "bad.seat", cwd=tmp_path)
    assert ran.code in (1, 2), ran.out
    assert ran.err.strip(), "an error must be said"
    assert "Traceback" not in ran.err
    assert "\x1b" not in ran.err
    assert not (tmp_path / "cards").exists()


def test_a_shop_file_that_uses_another_is_refused(tmp_path: Path) -> None:
    (tmp_path / "one.shop").write_text('shop "one"\n  units mm\nuse "two.shop"\n', "utf-8")
    (tmp_path / "two.shop").write_text('shop "two"\n  units mm\n', "utf-8")
    (tmp_path / "job.seat").write_text(SMALL + 'use "one.shop"\n', "utf-8")
    ran = seatwright("check", "job.seat", cwd=tmp_path)
    assert ran.code == 1
    assert "one.shop:3" in ran.err


def test_a_link_that_leads_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    inside = tmp_path / "inside"
    inside.mkdir()
    (tmp_path / "secret.shop").write_text('shop "secret"\n  units mm\n', "utf-8")
    os.symlink(tmp_path / "secret.shop", inside / "bench.shop")
    (inside / "job.seat").write_text(SMALL + 'use "bench.shop"\n', "utf-8")
    ran = seatwright("check", "job.seat", cwd=inside)
    assert ran.code == 1
    assert "secret" not in ran.err


def test_ten_thousand_valves_are_planned(tmp_path: Path) -> None:
    rows = "".join(f"  I{number}  40.10  40.12\n" for number in range(1, 10_001))
    (tmp_path / "many.seat").write_text(SMALL.replace("  I1     40.10     40.12\n", rows), "utf-8")
    ran = seatwright("check", "many.seat", cwd=tmp_path)
    assert ran.code in (0, 1, 3)
    assert "Traceback" not in ran.err


SEEDS = [path.read_text("utf-8") for path in sorted(JOBS.glob("*.seat"))]
USED = (*JOBS.glob("*.shop"), *JOBS.glob("engines/*.engine"))
FILES = {path.relative_to(JOBS).as_posix(): path.read_bytes() for path in sorted(USED)}
SCRAPS = [
    "",
    " ",
    "-",
    "#",
    '"',
    "=",
    "1/0",
    "-5",
    "0",
    "9e9",
    "44,1",
    "to",
    "+/-",
    "in",
    "mm",
    "choose",
    "turned",
    "I1",
    "x-y",
]


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """A demo job with a few words deleted, doubled, swapped or replaced."""
    lines = draw(st.sampled_from(SEEDS)).split("\n")
    for _ in range(draw(st.integers(1, 4))):
        place = draw(st.integers(0, len(lines) - 1))
        words = lines[place].split(" ")
        at = draw(st.integers(0, len(words) - 1))
        match draw(st.integers(0, 4)):
            case 0:
                del words[at]
            case 1:
                words.insert(at, words[at])
            case 2:
                words[at] = draw(st.sampled_from(SCRAPS))
            case 3:
                words[at] = draw(st.text(max_size=6))
            case _:
                other = draw(st.integers(0, len(lines) - 1))
                lines[place], lines[other] = lines[other], lines[place]
                words = lines[place].split(" ")
        lines[place] = " ".join(words)
    return "\n".join(lines)


@settings(max_examples=200)
@given(mutated())
def test_a_mutated_job_never_ends_in_a_traceback(text: str) -> None:
    job, messages = read("job.seat", lambda name: text.encode() if name == "job.seat" else FILES[name])
    if job is None:
        assert any(message.severity == "error" for message in messages)
    else:
        plan(job)
