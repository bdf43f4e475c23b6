"""Reading, saying what is wrong and formatting cost no more a line in a long file than in a short one.

Calls are counted, not seconds: they are the same on every machine, however busy.
"""

from __future__ import annotations

import cProfile
import pstats
from collections.abc import Callable
from itertools import combinations, islice

import pytest

from seatwright.job import read
from seatwright.job.declarations import vocabulary
from seatwright.syntax.formatting.format import formatted
from seatwright.text import as_json, sarif, terminal
from seatwright.text.reading import read_source as read_text

HEAD = 'job 1 "long"\n  units mm\nuse "bench.shop"\nhead "long"\n  material grey iron\nvalves all\n  stem 8.0\n'
TABLE = HEAD + "measured\n  valve guide-top pocket-a\n"
SHOP = 'shop "long"\n  units mm\n'
NAMES = [f"{kind}{number}{letter}" for letter in "ABCDEFGHJKL" for number in range(1, 100) for kind in "IE"]


def rows(count: int, cells: str) -> str:
    return "".join(f"  {name} {cells}\n" for name in NAMES[:count])


def spacings(count: int, distance: str) -> str:
    pairs = islice(combinations(NAMES[:400], 2), count)
    return "".join(f"  {one} {other} {distance}\n" for one, other in pairs)


def lines(line: str) -> Callable[[int], str]:
    return lambda count: "".join(line.format(number, name=NAMES[number]) for number in range(count))


JOBS: dict[str, Callable[[int], str]] = {
    "many valves": lambda count: TABLE + rows(count, "9.020 44.20"),
    "a layout": lambda count: HEAD + "layout\n  valve x y\n" + lines("  {name} {0}.5 20.0\n")(count),
    "spacings": lambda count: HEAD + "spacing\n" + spacings(count, "48.5"),
    "spacings, each with a decimal comma": lambda count: HEAD + "spacing\n" + spacings(count, "48,5"),
    "spacings, each out of bounds": lambda count: HEAD + "spacing\n" + spacings(count, "4.85"),
    "the same spacing over and over": lambda count: HEAD + "spacing\n" + "  I1 E1 48.5\n" * count,
    "rows, each out of bounds": lambda count: TABLE + rows(count, "9.020 4.420"),
    "rows that are too short": lambda count: TABLE + rows(count, "9.020"),
    "rows, each with an open text": lambda count: TABLE + rows(count, '9.020 "44'),
    "the same row over and over": lambda count: TABLE + "  E1 9.020 44.20\n" * count,
    "a section a valve": lambda count: TABLE + rows(count, "9.0 44.2") + lines("valves {name}\n  stem 8.1\n")(count),
    "sections that mean none": lambda count: TABLE + "  I1 9.0 44.2\n" + "valves exhaust\n  stem 8.1\n" * count,
    "fields that there are none of": lambda count: HEAD + lines("  frob{0} 3\n")(count),
    "a hold a valve": lambda count: TABLE + rows(count, "9.0 44.2") + lines('hold {name} "wait"\n')(count),
    "a note between all rows": lambda count: TABLE + lines('  {name} 9.0 44.2\nnote {name} "look"\n')(count),
    "comments": lambda count: HEAD + "# a comment\n" * count,
}
SHOPS: dict[str, Callable[[int], str]] = {
    "inserts": lambda count: SHOP + "inserts\n  insert od height\n" + lines("  M{0} 44.0 7.0\n")(count),
    "the same insert over and over": lambda count: SHOP + "inserts\n  insert od height\n" + "  M1 44.0 7.0\n" * count,
    "interference, each row of another material": lambda count: (
        SHOP + "interference\n  head alloy least most source\n" + lines('  m{0} any 0.08 0.10 "a"\n')(count)
    ),
    "the same interference over and over": lambda count: (
        SHOP + "interference\n  head alloy least most source\n" + '  grey-iron any 0.08 0.10 "a"\n' * count
    ),
    "cutters": lambda count: SHOP + lines("cutter C{0}\n  pilot any\n")(count),
}


def calls(kind: str, long: str) -> int:
    """How many calls it takes to read a file, to say in every form what is wrong with it, and to format it."""
    data = long.encode()
    files = {"long.seat": data} if kind == "job" else {"long.seat": HEAD.encode(), "bench.shop": data}
    files.setdefault("bench.shop", SHOP.encode())
    profile = cProfile.Profile()
    profile.enable()
    _, messages = read("long.seat", lambda name: files[name])
    source, _ = read_text("long.seat" if kind == "job" else "bench.shop", data)
    assert source is not None
    for render in (as_json.render, sarif.render):
        render(messages)
    terminal.render(messages, {source.path: source})
    formatted(source, vocabulary(kind))
    profile.disable()
    return int(pstats.Stats(profile).total_calls)  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("kind", "of_size"),
    [*(("job", one) for one in JOBS.values()), *(("shop", one) for one in SHOPS.values())],
    ids=[*JOBS, *SHOPS],
)
def test_six_times_the_lines_take_six_times_the_calls(kind, of_size):
    calls(kind, of_size(2))  # what is made once, such as the parser
    few, many = (calls(kind, of_size(count)) / count for count in (50, 300))
    assert many / few < 1.1
