"""The formatter changes nothing but white space and the capitals of known words, and changes it once."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec import Struct

from seatwright.cards.render import documents
from seatwright.job import read as read_job
from seatwright.job.declarations import JOB_SECTIONS, SHOP_SECTIONS, vocabulary
from seatwright.planning.planner import plan
from seatwright.syntax.formatting import format as layout_of
from seatwright.syntax.formatting.blanks import BLANKS, NOTHING, bare, single_spaced
from seatwright.syntax.formatting.format import LayoutBroken, formatted
from seatwright.syntax.parse import parse
from seatwright.text import Span
from seatwright.text.folding import fold
from seatwright.text.reading import read_source, source_of

JOBS = Path(__file__).resolve().parents[2] / "jobs"
DEMOS = sorted([*JOBS.glob("*.seat"), *JOBS.glob("*.shop"), *JOBS.glob("engines/*.engine")])
KINDS = {".seat": "job", ".shop": "shop", ".engine": "engine"}


def laid_out(text: str, kind: str = "job") -> str:
    source, _ = source_of("a", text)
    return formatted(source, vocabulary(kind)).text


def left_in(text: str, kind: str = "job") -> tuple[int, ...]:
    source, _ = source_of("a", text)
    return formatted(source, vocabulary(kind)).left


def meaning(text: str, kind: str) -> object:
    """The tree without its places; white space inside what was typed counts as one blank, capitals of words do not."""
    source, _ = source_of("a", text)
    return _without_places(parse(source, vocabulary(kind))[0])


_AS_TYPED = {"typed", "written", "raw", "raws"}


def _without_places(node: object, name: str = "") -> object:
    if isinstance(node, Span):
        return None
    if isinstance(node, Struct):
        return type(node).__name__, [_without_places(getattr(node, field), field) for field in node.__struct_fields__]
    if isinstance(node, tuple):
        return [_without_places(each, name) for each in node]
    if isinstance(node, str):
        if name in _AS_TYPED:
            return single_spaced(node).lower()
        return node.upper() if re.fullmatch("[IEie][0-9]+[A-Za-z]?", node) else node
    return node


# ---- what it looks like ----------------------------------------------------------------------------------------


def test_a_job_typed_without_care_reads_well():
    typed = """LANGUAGE 1
Job   7 "a  title"   # the  comment
units mm # as ever
  CUSTOMER   "the  yard"
X-Bin   a,  b  "c
use "bench.shop"
head "one"
   material   grey    iron
# below the head
      depth-from deck


   # and this
valves i1 e1
seat-angle 44°  53'
interference .0025   to .0040 "service  manual"

recession 0.7 to 1.1
spacing
i1 e1 46.48 # centres
I3   E3 106.4
measured 2026-11-17   in mm at 22 C
Valve pocket-a   PIN-A x-note
i1 1 2 3
valve pocket-a pocket-tir insert x-Bin
i1 44.02 -  X46 a # one
note i1 "between   rows"
I2 104 .05   x46a bcd # two
# the last of them

NOTE "at  the end"
"""
    expected = """language 1

job 7 "a  title"  # the  comment
  units     mm  # as ever
  customer  "the  yard"
  X-Bin     a,  b  "c

use "bench.shop"

head "one"
  material    grey iron
  # below the head
  depth-from  deck

# and this
valves I1 E1
  seat-angle    44° 53'
  interference  .0025 to .0040 "service  manual"

  recession  0.7 to 1.1

spacing
  I1  E1   46.48  # centres
  I3  E3  106.4

measured 2026-11-17 in mm at 22 C
Valve pocket-a   PIN-A x-note
i1 1 2 3
  valve  pocket-a  pocket-tir  insert  x-Bin
  I1      44.02    -           X46     a      # one
  note I1 "between   rows"
  I2     104       .05         x46a    bcd    # two
  # the last of them

note "at  the end"
"""
    source, _ = source_of("a", typed)
    made = formatted(source, vocabulary("job"))
    assert made.text == expected
    assert made.left == (23, 24)


@pytest.mark.parametrize(
    ("figures", "expected"),
    [
        (["-23.5", "0", "145.0"], ["-23.5", "  0", "145.0"]),
        ([".71", "-.65", "11.29"], ["  .71", " -.65", "11.29"]),
        (["9/16", "1-1/2", ".5", "10"], ["  9/16", " 1-1/2", "  .5", "10"]),
        (["1½", "½", "10.5"], [" 1½", "  ½", "10.5"]),
        (["44.20 mm", "104", "1.739 in = 44.17 mm"], [" 44.20 mm", "104", "  1.739 in = 44.17 mm"]),
        (["9.020/9.022/9.021", "10.1"], [" 9.020/9.022/9.021", "10.1"]),
        (["Ø44.0", "104"], ["Ø44.0", "104"]),
        (["-", "100", "1.5"], ["-", "100", "  1.5"]),
    ],
)
def test_figures_stand_by_their_decimal_point(figures, expected):
    rows = "".join(f"I{number} {figure} ok\n" for number, figure in enumerate(figures, 1))
    lines = laid_out(f"measured\nvalve pocket-a x-a\n{rows}").split("\n")[2:-1]
    size = max(len("pocket-a"), *map(len, expected))
    assert lines == [f"  I{number}     {figure:<{size}}  ok" for number, figure in enumerate(expected, 1)]


def test_a_column_with_a_word_in_it_stands_at_the_left_and_names_do_so_too():
    made = laid_out("pilots\npilot diameter kind\n11/32 8.0 live\n9 10.0 dead\n", "shop")
    assert made == "pilots\n  pilot  diameter  kind\n  11/32   8.0      live\n  9      10.0      dead\n"
    assert laid_out("finished\nvalve leak\nI1 pass\nI2 10.5 s\n").endswith("  I1     pass\n  I2     10.5 s\n")


@pytest.mark.parametrize("typed", ["", "\n", "   \n\n\t\n", "#", "\n\n# only a comment\n\n"])
def test_a_file_of_nothing_much(typed):
    made = laid_out(typed)
    assert made == {"": "", "#": "#\n"}.get(typed, "# only a comment\n" if "#" in typed else "\n")


def test_a_cutter_may_look_like_a_valve_and_keeps_its_letters():
    made = laid_out("trial\ne2 read 44.480 bored 44.487\nE2A   read 4.1 bored 4.2\n")
    assert made == "trial\n  e2   read  44.480  bored  44.487\n  E2A  read   4.1    bored   4.2\n"


def test_lines_at_fault_keep_every_byte_and_the_others_are_set():
    typed = 'job 1\n   units   mm\n \tcustomer   "open  \nhead "a"\n material:   grey   iron\n  fuel   diesel\n'
    assert laid_out(typed) == (
        'job 1\n  units  mm\n \tcustomer   "open  \n\nhead "a"\n material:   grey   iron\n  fuel  diesel\n'
    )
    assert left_in(typed) == (3, 5)


@pytest.mark.parametrize(
    "line", ['job 7"touching"', "  bore 44.02\x1b[31m", "  bore\x0044", "  bore 44\u202e.02", " I1 44.1,  44.2, -"]
)
def test_a_line_whose_pieces_touch_or_hide_something_is_left_alone(line):
    typed = f"measured\nvalve pocket-a, pocket-b, throat\n{line}\n" if line.startswith(" I1") else f"{line}\n"
    assert f"{line}\n" in laid_out(typed)


def test_pasted_characters_stay_and_pasted_blanks_go():
    typed = "job\u00a01 “a\u00a0 title”\r\n\tbore-gauge\u2003“it”\u200b\n".replace("\r", "")
    assert laid_out(typed) == "job 1 “a\u00a0 title”\n  bore-gauge  “it”\n"
    assert laid_out("valves all\n  bore  Ø 44.02  to  60½\u200b\n") == "valves all\n  bore  Ø 44.02 to 60½\n"


def test_every_blank_is_read_as_one_and_every_character_without_width_as_nothing():
    assert {fold(f"a{blank}b")[0].replace("\t", " ") for blank in BLANKS} == {"a b"}
    assert {fold(f"a{nothing}b")[0] for nothing in NOTHING} == {"ab"}


# ---- that nothing is lost --------------------------------------------------------------------------------------


@pytest.mark.parametrize("demo", DEMOS, ids=lambda path: path.name)
def test_the_demo_files_stand_in_their_layout(demo: Path):
    text = demo.read_text("utf-8")
    assert laid_out(text, "shop" if demo.suffix == ".shop" else "job") == text


def _planned(job: Path, texts: dict[str, str]) -> str:
    made, messages = read_job(job.name, lambda name: texts[name].encode("utf-8"))
    assert made is not None, messages
    text = documents(plan(made)).plan_json
    return re.sub(r'"(line|column|end_line|end_column|sha256|stamp)": ("[0-9a-f]+"|[0-9]+)', "", text)


@pytest.mark.parametrize("job", sorted(JOBS.glob("*.seat")), ids=lambda path: path.name)
def test_a_demo_job_plans_the_same_before_and_after(job: Path):
    texts = {path.relative_to(JOBS).as_posix(): path.read_text("utf-8") for path in DEMOS}
    careless = {name: re.sub(r"(?m)^ +", "\t", re.sub(r"(?m)(?<=[0-9a-z])  +(?=[0-9])", " ", text))
                for name, text in texts.items()}  # fmt: skip
    again = {name: laid_out(text, KINDS[Path(name).suffix]) for name, text in careless.items()}
    assert careless != texts
    assert again == texts
    assert _planned(job, careless) == _planned(job, again)


def test_the_check_finds_a_lost_digit_a_lost_comment_and_a_changed_name():
    words = vocabulary("job")
    check = layout_of._check_nothing_lost
    check(["  bore   44.02 # a", "", "VALVES i1"], ["bore 44.02  # a", "valves I1"], words)
    for before, after in [
        ("bore 44.02", "bore 44.0"),
        ("bore 44.02 # a", "bore 44.02"),
        ("bore 44.02 # a  b", "bore 44.02 # a b"),
        ("insert X46", "insert x46"),
        ('customer "The  yard"', 'customer "The yard"'),
        ('customer "The yard"', 'customer "the yard"'),
        ("bore 44.02", "bore 44. 02"),
        ("bore 44.02", ""),
    ]:
        with pytest.raises(LayoutBroken):
            check([before], [after], words)


def test_a_fault_of_the_formatter_is_raised_and_nothing_comes_out(monkeypatch):
    good = layout_of.lay_out
    monkeypatch.setattr(
        layout_of, "lay_out", lambda *given: ([line.replace("44.02", "44.0") for line in good(*given)[0]], ())
    )
    with pytest.raises(LayoutBroken, match="44"):
        laid_out("valves all\n  bore 44.02\n")
    monkeypatch.setattr(layout_of, "lay_out", lambda *given: ([" " + line for line in good(*given)[0]], ()))
    laid_out("valves all\n")
    monkeypatch.setattr(layout_of, "lay_out", lambda lines, *_: ([f" {line}" for line in lines if line], ()))
    with pytest.raises(LayoutBroken, match="again"):
        laid_out("valves all\n")


# ---- for any file ----------------------------------------------------------------------------------------------

_WORDS = sorted(
    {word for section in JOB_SECTIONS + SHOP_SECTIONS for word in (section.word, *section.by_word)}
    | {column for section in JOB_SECTIONS + SHOP_SECTIONS for header in section.headers for column in header.by_word}
    | {"language", "use", "note", "hold"}
)
_PIECES = st.sampled_from(
    ["44.02", ".030", "9/16", "1-1/2", "1", "0", "+0.02", "-0.01", "to", "+/-", "=", "mm", "in", "°", '"', '"x  y"',
     "#", ",", ":", "-", "E1", "i2b", "2026-11-16", "44°53'", "1.1/1.2", "½", "Ø", "“a", "b”", "\t", "  ", "\u00a0",
     "\u200b", "x-a", "rpm", "at", "22 C", "\x1b", "＃", "×"]
)  # fmt: skip
_WORDS_OR_PIECES = st.sampled_from(_WORDS) | st.sampled_from(_WORDS).map(str.upper) | _PIECES
_LINES = st.lists(st.tuples(_WORDS_OR_PIECES, st.sampled_from(["", " ", "  "])).map("".join), max_size=8).map("".join)


def _holds(text: str, kind: str) -> None:
    made = laid_out(text, kind)
    assert laid_out(made, kind) == made
    assert meaning(made, kind) == meaning(text, kind)
    assert [bare(line).lower() for line in text.split("\n") if bare(line)] == [
        bare(line).lower() for line in made.split("\n") if line
    ]
    assert bool(made) == bool(text)
    assert "\n\n\n" not in made
    assert not text or made.endswith("\n")


@settings(max_examples=400)
@given(st.lists(_LINES, max_size=12), st.sampled_from(["job", "shop"]))
def test_any_lines_are_set_once_and_mean_the_same(lines, kind):
    _holds("\n".join(lines), kind)


@settings(max_examples=200)
@given(st.sampled_from(DEMOS), st.data())
def test_a_mutilated_demo_file_is_set_once_and_means_the_same(demo: Path, data: st.DataObject):
    lines = demo.read_text("utf-8").split("\n")
    start = data.draw(st.integers(0, max(0, len(lines) - 30)))
    lines = lines[start : start + 30]
    for _ in range(data.draw(st.integers(1, 6))):
        at = data.draw(st.integers(0, len(lines) - 1))
        match data.draw(st.integers(0, 4)):
            case 0:
                lines.insert(at, data.draw(_LINES))
            case 1:
                lines[at] = lines[at].replace(" ", data.draw(st.sampled_from(["\t", "   ", " ", "", "\u00a0"])))
            case 2:
                lines[at] = lines[at][: data.draw(st.integers(0, len(lines[at])))]
            case 3:
                lines[at] = lines[at].upper()
            case _:
                lines[at] += data.draw(_PIECES)
    _holds("\n".join(lines), "shop" if demo.suffix == ".shop" else "job")


def test_fifty_thousand_lines_of_comment_take_seconds_at_most():
    from time import perf_counter

    start = perf_counter()
    text = "valves all\n" + "# a\n" * 20_000 + "# b\n\n" * 10_000 + 'note "c"\n' * 5_000
    assert read_source("a.seat", text.encode())[0] is not None
    laid_out(text)
    assert perf_counter() - start < 10
