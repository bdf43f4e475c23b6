"""Text of a job stays text: it never becomes HTML, Markdown structure, a template expression, an escape or a path."""

from __future__ import annotations

import os
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from markdown_it import MarkdownIt
from tests.whole.shop import seatwright

ROOT = Path(__file__).resolve().parents[2]

JOB = """\
job "{0}" "{0}"
  units      mm
  customer   "{0}"
  machinist  "{0}"
  x-bin      {0}

use "bench.shop"

note "{0}"
note E1 "{0}"
hold E2 "{0}"

head "{0}" "{0}"
  material       "{0}"
  temperature    22 C +/- 1
  depth-from     deck
  crack-test     "{0}"
  pressure-test  "{0}"

valves exhaust
  insert           choose
  interference     0.060 to 0.085 "{0}"
  bore             40.505 to 40.530 "{0}"
  stand            below 0.00 to 0.10
  head-diameter    36.0
  stem             8.955
  seat-angle       45
  setback          0.8
  seat-width       1.8 to 2.2
  guide-length     62
  guide-to-floor   28

holes
  hole   x   y   diameter
  "{0}"  40  40  7.0

layout
  valve  x   y
  E1     0   0
  E2     80  0

measured at 22 C
  valve  guide-top  guide-middle  guide-bottom  pocket-a  pocket-b  pocket-depth  pocket-tir  throat  insert-od  x-{1}
  E1     9.018      9.009         9.026         40.036    40.058    7.60          0.06        30.0    40.590     {2}
  E2     9.018      9.009         9.026         40.036    40.058    7.60          0.06        30.0    40.590     {2}
"""

SHOP = """\
shop "{0}"
  units  mm

machine "{0}"
  speeds  35 50 70 rpm
  feeds   0.05 0.10 mm/rev

gauge "{0}"
  step  0.002

bore-gauge "{0}"
  step  0.001

cutter "{0}"
  range      30 to 62
  tip-width  6.5

pilots
  pilot  diameter  length  kind
  "{0}"  9.005     90      dead

inserts
  insert  od      od-least  od-most  height  id    alloy  seat
  "{0}"   40.590  40.585    40.595   8.00    30.5  "{0}"  any

practice
  leak  3 s "{0}"
  feed  0.10 mm/rev

assembly
  oven   160 C
  chill  "{0}" -78.5 C arrives -40 C

material "{0}"
  expansion  10.8 um/m/C to 400 C
  source     "{0}"

alloy "{0}"
  expansion  11.2 um/m/C to 400 C
  hazard     beryllium
  source     "{0}"
"""

HOSTILE = (
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "</td></tr></table><h1>x</h1>",
    "' onmouseover='alert(1)",
    "&lt;b&gt; &amp; &#60;",
    "{{ 7*7 }} {% raw %} {# x #}",
    "| a | b |",
    "# heading",
    "- [x] * _a_ **b** `c` ~~d~~",
    "](javascript:alert(1)) ![x](http://x.example/y.png)",
    "[x]: http://x.example",
    "<!-- x --> <![CDATA[ x ]]> <?x?>",
    "1. one",
    "``` --- === +++",
    "../../../etc/passwd",
    "$(touch x) `touch x` ; touch x",
    "%s %d {job} \\0 \\x1b[31m",
)


_LEADING = ("href", "src", "action", "xlink:href")
_OUR_STYLE = re.compile(r"[a-z0-9:;.%# -]*")


class _Tags(HTMLParser):
    """The tags of a page with the names of their attributes, and where links and pictures lead."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: set[tuple[str, tuple[str, ...]]] = set()
        self.targets: set[str] = set()
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add((tag, tuple(sorted(name for name, _ in attrs))))
        self.targets |= {value or "" for name, value in attrs if name in _LEADING}
        styles = (value or "" for name, value in attrs if name == "style")
        self.targets |= {style for style in styles if not _OUR_STYLE.fullmatch(style)}

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def _cards(folder: Path, text: str) -> tuple[_Tags, str]:
    folder.mkdir()
    # What has no quotes around it is one word in a table.
    word = text.replace(" ", "").replace('"', "")
    filled = JOB.replace("{1}", "note").replace("{2}", word).replace("{0}", text)
    (folder / "job.seat").write_text(filled, "utf-8")
    (folder / "bench.shop").write_text(SHOP.replace("{0}", text), "utf-8")
    ran = seatwright("build", "job.seat", cwd=folder)
    assert ran.code in (0, 3), ran.err
    assert "\x1b" not in ran.err + ran.out
    page = _Tags()
    page.feed((folder / "cards" / "job" / "cards.html").read_text("utf-8"))
    assert sorted(path.name for path in folder.iterdir()) == ["bench.shop", "cards", "job.seat"]
    assert not list((folder / "cards").glob("*/*/*"))
    return page, (folder / "cards" / "job" / "cards.md").read_text("utf-8")


def _structure(markdown: str) -> set[str]:
    tokens = MarkdownIt("commonmark").enable("table").parse(markdown)
    inline = [child for token in tokens for child in token.children or ()]
    return {f"{token.type}:{token.tag}" for token in (*tokens, *inline)}


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> tuple[_Tags, str]:
    return _cards(tmp_path_factory.mktemp("hostile") / "plain", "plain words")


@pytest.mark.parametrize("text", [" ".join(HOSTILE[at::5]) for at in range(5)])
def test_text_of_a_job_stays_text_on_every_card(text: str, plain: tuple[_Tags, str], tmp_path: Path) -> None:
    page, markdown = _cards(tmp_path / "made", text)
    assert page.tags - plain[0].tags == set()
    assert page.targets - plain[0].targets == set()
    assert _structure(markdown) - _structure(plain[1]) == set()
    shown = " ".join("".join(page.text).split())
    assert " ".join(text.split()) in shown, "it is shown as it was typed"


@pytest.mark.parametrize(
    ("mark", "name"),
    [("\x1b[31m", "escape"), ("\u202e", "override"), ("\u2066", "isolate"), ("\x07", "bell"), ("\x9b", "one byte")],
)
def test_what_could_command_a_screen_is_an_error_at_its_place(mark: str, name: str, tmp_path: Path) -> None:
    (tmp_path / "job.seat").write_text(f'job 7 "a{mark}b"\n  units mm\nhead "h"\n  material grey iron\n', "utf-8")
    ran = seatwright("check", "--as", "lines", "job.seat", cwd=tmp_path)
    assert ran.code == 1
    assert "job.seat:1:9: error character-control" in ran.out
    assert mark[0] not in ran.out + ran.err


NUMBERS = (
    "4" * 1000, "4." + "4" * 1000, "1/" + "9" * 500, "1e400", "inf", "nan", "-inf", "9" * 30, "0." + "0" * 29 + "1",
)  # fmt: skip


@pytest.mark.parametrize("number", NUMBERS, ids=lambda one: one[:12])
def test_a_number_beyond_all_bounds_is_an_error_in_words(number: str, tmp_path: Path) -> None:
    text = f'job 7 "x"\n  units mm\nhead "h"\n  material grey iron\nvalves E1\n  stem {number}\n'
    (tmp_path / "job.seat").write_text(text, "utf-8")
    ran = seatwright("check", "--as", "lines", "job.seat", cwd=tmp_path)
    assert ran.code == 1
    assert len(ran.out.splitlines()) == 1
    assert "job.seat:6:8: error" in ran.out


@pytest.mark.parametrize(
    ("text", "slug"),
    [
        ("# a line\n" * 1_000_000, "file-large"),
        ("E1 1 2 3\n" * 200_000, "file-large"),
        ("x" * 3_000_000, "file-large"),
        ('use "a.shop"\n' * 60_000, "file-large"),
        ("".join(f'use "{number}.shop"\n' for number in range(40)), "use-many"),
    ],
    ids=["a million lines", "rows", "one line", "uses", "forty shop files"],
)
def test_what_is_too_large_is_one_error_at_once(text: str, slug: str, tmp_path: Path) -> None:
    start = 'job 7 "x"\n  units mm\n' if slug == "use-many" else ""
    (tmp_path / "job.seat").write_text(start + text, "utf-8")
    for number in range(20):
        (tmp_path / f"{number}.shop").write_text(f'shop "{number}"\n  units mm\n', "utf-8")
    ran = seatwright("check", "--as", "lines", "job.seat", cwd=tmp_path)
    assert ran.code == 1
    assert [line.split(" error ")[1].split(":")[0] for line in ran.out.splitlines() if slug in line] == [slug]


def test_a_link_or_a_device_is_no_shop_file(tmp_path: Path) -> None:
    (tmp_path / "in").mkdir()
    (tmp_path / "out.shop").write_text('shop "secret words"\n  units mm\n', "utf-8")
    os.symlink(tmp_path / "out.shop", tmp_path / "in" / "a.shop")
    os.symlink("/dev/zero", tmp_path / "in" / "b.shop")
    os.symlink(tmp_path, tmp_path / "in" / "up")
    used = "".join(f'use "{path}"\n' for path in ("a.shop", "b.shop", "up/out.shop", "../out.shop"))
    text = f'job 7 "x"\n  units mm\n{used}head "h"\n  material grey iron\n'
    (tmp_path / "in" / "job.seat").write_text(text, "utf-8")
    ran = seatwright("check", "--as", "lines", "job.seat", cwd=tmp_path / "in")
    assert ran.code == 1
    assert "secret" not in ran.out + ran.err
    assert [line.split(":")[1] for line in ran.out.splitlines() if "use-" in line] == ["3", "4", "5", "6"]


def test_the_limits_that_these_tests_meet_stand_in_the_reference() -> None:
    page = (ROOT / "grammar" / "README.md").read_text("utf-8")
    limits = page[page.index("## Limits") :]
    for figure in ("2,000,000", "50,000", "10,000", "30 digits", "20 shop and engine files", "9 digits"):
        assert figure in limits
