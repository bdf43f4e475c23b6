"""Messages for a person, for an editor, for a program."""

from __future__ import annotations

import json

from hypothesis import given
from hypothesis import strategies as st

from seatwright.text import Message, Related, Severity, Source, Span, as_json, sarif, terminal
from seatwright.text.showing import excerpt, visible, width

_LINE = '  bore  38.000 to 38.016 "manual"'
_SOURCE = Source("a.seat", f"valves all\n{_LINE}\n", "")
_BRIDGE = Message(
    Severity.HOLD,
    "bridge-thin",
    Span("a.seat", 2, 9, 2, 25),
    "the bridge would be 1.8 mm",
    "Take a smaller insert.",
    (Related(Span("b.shop", 7, 3, 7, 9), "the least is set here"),),
    ("E1", "I1"),
)
_FILE = Message(Severity.ERROR, "job-unreadable", None, "no file", "Check the path.")


def test_a_message_in_a_terminal_shows_place_line_reason_and_remedy():
    assert terminal.render([_BRIDGE], {"a.seat": _SOURCE}) == (
        "hold bridge-thin  a.seat:2:9  E1 I1\n"
        f"    2 | {_LINE}\n"
        "      |         ^^^^^^^^^^^^^^^^\n"
        "  the bridge would be 1.8 mm\n"
        "  see b.shop:7:3: the least is set here\n"
        "  → Take a smaller insert.\n"
    )


def test_messages_are_shown_by_place_whatever_their_order():
    text = terminal.render([_BRIDGE, _FILE], {})
    assert text.index("job-unreadable") < text.index("bridge-thin")
    assert terminal.render([]) == ""


def test_colour_is_asked_for():
    assert "\x1b[" in terminal.render([_BRIDGE], {}, colour=True)
    assert "\x1b" not in terminal.render([_BRIDGE], {})


def test_tabs_wide_letters_and_combining_marks_move_the_mark_as_they_move_the_line():
    line = "\tx 漢字 e\u0301 bad"
    start = line.index("bad")
    shown, at, length = excerpt(line, start, start + 3, 80)
    assert shown == "    x 漢字 e\u0301 bad"
    assert (at, length) == (width("    x 漢字 e\u0301 "), 3)
    assert at == 13


def test_a_very_long_line_is_cut_around_the_place():
    line = "a" * 500 + " bad " + "b" * 500
    shown, at, length = excerpt(line, 501, 504, 60)
    assert width(shown) <= 60
    assert shown.startswith("…")
    assert shown.endswith("…")
    assert shown[at : at + length] == "bad"


@given(st.text(max_size=60), st.integers(0, 60), st.integers(0, 20), st.integers(20, 80))
def test_the_mark_is_always_below_the_line_that_is_shown(line, start, length, room):
    shown, at, marked = excerpt(line, start, start + length, room)
    assert 0 <= at <= width(shown)
    assert marked >= 1
    assert shown.isprintable()


@given(st.text(max_size=60))
def test_no_text_of_a_job_can_command_a_terminal(text):
    message = Message(Severity.ERROR, "a-slug", Span("a\x1b.seat", 1, 1, 1, 2), text, text, (), (text,))
    for shown in (
        terminal.render([message], {"a\x1b.seat": Source("a\x1b.seat", text, "")}),
        terminal.one_a_line([message]),
    ):
        assert all(character.isprintable() or character == "\n" for character in shown)


def test_control_characters_are_made_visible():
    assert visible("a\x1b[31m\u202e\u00a0") == "a␛[31m<U+202E> "


def test_one_line_for_each_message():
    assert terminal.one_a_line([_BRIDGE]) == (
        "a.seat:2:9: hold bridge-thin: E1 I1: the bridge would be 1.8 mm – Take a smaller insert.\n"
    )
    assert terminal.one_a_line([_FILE]) == "error job-unreadable: no file – Check the path.\n"


def test_json_has_a_version_and_every_place():
    document = json.loads(as_json.render([_BRIDGE, _FILE]))
    assert document["format"] == "seatwright-messages/1"
    without, placed = document["messages"]
    assert without["file"] is None
    assert placed == {
        "severity": "hold",
        "slug": "bridge-thin",
        "file": "a.seat",
        "line": 2,
        "column": 9,
        "end_line": 2,
        "end_column": 25,
        "text": "the bridge would be 1.8 mm",
        "help": "Take a smaller insert.",
        "valves": ["E1", "I1"],
        "related": [
            {
                "file": "b.shop",
                "line": 7,
                "column": 3,
                "end_line": 7,
                "end_column": 9,
                "text": "the least is set here",
                "same": False,
            }
        ],
        "topic": "",
        "fix": None,
    }


def test_sarif_has_what_the_standard_requires():
    # SARIF 2.1.0 (OASIS): 3.13 version and runs; 3.14 tool; 3.19 driver name; 3.27 message; 3.27.9 levels.
    document = json.loads(sarif.render([_BRIDGE, _FILE]))
    assert document["version"] == "2.1.0"
    (run,) = document["runs"]
    assert run["tool"]["driver"]["name"] == "seatwright"
    assert [rule["id"] for rule in run["tool"]["driver"]["rules"]] == ["bridge-thin", "job-unreadable"]
    without, placed = run["results"]
    assert without["level"] == placed["level"] == "error"
    assert "locations" not in without
    region = placed["locations"][0]["physicalLocation"]["region"]
    assert region == {"startLine": 2, "startColumn": 9, "endLine": 2, "endColumn": 25}
    assert placed["relatedLocations"][0]["physicalLocation"]["artifactLocation"]["uri"] == "b.shop"
    assert all(run["tool"]["driver"]["rules"][one["ruleIndex"]]["id"] == one["ruleId"] for one in run["results"])


def test_of_one_kind_a_hundred_are_shown_and_the_rest_counted() -> None:
    from seatwright.text import as_json, sarif, terminal

    many = [
        Message(Severity.ERROR, "cell-extra", Span("1.seat", line, 1, line, 2), "too much", "Take it out.")
        for line in range(1, 45_001)
    ]
    other = Message(Severity.NOTICE, "bore-big", Span("1.seat", 9, 1, 9, 2), "big", "Look.")
    shown = terminal.one_a_line([*many, other]).splitlines()
    assert len(shown) == 102
    assert shown[-1].startswith("1.seat:101:1: error cell-extra: from here on 44,900 more of this kind are not shown")
    assert sum("bore-big" in line for line in shown) == 1
    for each in (terminal, as_json, sarif):
        assert len(each.render([*many, other])) < 100_000
        assert "44,900 more" in each.render([*many, other])
    assert "more of this kind" not in terminal.one_a_line(many[:100])


def test_a_rule_of_sarif_says_what_the_message_means():
    rules = json.loads(sarif.render([_BRIDGE]))["runs"][0]["tool"]["driver"]["rules"]
    meaning = "Too little metal would be left between two bores."
    assert rules == [{"id": "bridge-thin", "shortDescription": {"text": meaning}}]
