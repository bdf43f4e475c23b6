"""One message a thing: places, valves and figures of one slug in one message; notices by their topic."""

from __future__ import annotations

from seatwright.text import Message, Severity, Span
from seatwright.text.gathered import by_topic, gathered
from seatwright.text.registry import declared
from seatwright.text.terminal import render


def at(line: int) -> Span:
    return Span("bench.shop", line, 3, line, 5)


def pilot(line: int, name: str, *valves: str) -> Message:
    text = f"The kind of {name} is left out: dead is meant."
    return Message(Severity.NOTICE, "pilot-kind-left-out", at(line), text, "Write `kind dead`.", valves=valves)


def test_five_places_of_one_slug_are_one_message_that_names_them_all() -> None:
    (one,) = gathered([pilot(line, f"P{line}") for line in (41, 37, 38, 40, 39)])
    assert one.text == "The kind of P37, P38, P39, P40 and P41 is left out: dead is meant."
    assert one.span == at(37)
    assert [related.span.line for related in one.related] == [38, 39, 40, 41]
    assert "also bench.shop:38, 39, 40, 41" in render([one])


def test_figures_of_all_valves_stand_in_the_one_text() -> None:
    def thin(valve: str, left: str, line: int) -> Message:
        text = f"The bridge has {left} mm; the least is 4 mm, and {left} mm of it is iron."
        return Message(Severity.HOLD, "bridge-thin", at(line), text, "Take a smaller insert.", valves=(valve,))

    (one,) = gathered([thin("E1", "3.1", 5), thin("E2", "2.9", 6), thin("E3", "3.0", 7)])
    assert one.text.startswith("E1: The bridge has 3.1 mm; the least is 4 mm")
    assert one.text.endswith("Likewise E2 2.9, 2.9; E3 3.0, 3.0.")
    assert one.valves == ("E1", "E2", "E3")


def test_what_is_said_in_other_words_is_said_in_full_of_each() -> None:
    first = Message(Severity.WARNING, "bore-big", at(5), "It came out big", "Stop.", valves=("E1",))
    other = Message(Severity.WARNING, "bore-big", at(6), "No insert fits it any more.", "Stop.", valves=("E2",))
    (one,) = gathered([first, other])
    assert one.text == "E1: It came out big. E2: No insert fits it any more."


def test_errors_stay_one_a_mistake_and_come_first() -> None:
    errors = [
        Message(Severity.ERROR, "number-missing", at(line), "A number is missing.", "Write it.") for line in (9, 8)
    ]
    assert gathered([pilot(1, "P1"), *errors]) == (*reversed(errors), pilot(1, "P1"))


def test_gathered_twice_is_gathered_once() -> None:
    once = gathered([pilot(line, f"P{line}", "I1") for line in (37, 38)])
    assert gathered(once) == once


def test_every_notice_has_a_topic_and_nothing_else_has() -> None:
    for one in declared().values():
        assert bool(one.topic) == ("notice" in one.weights), f"{one.slug}: the topic stands in brackets in slugs.txt"


def test_notices_are_counted_under_their_topics() -> None:
    chamfer = Message(Severity.NOTICE, "chamfer-angle-left-out", at(9), "45° is used.", "Write it.")
    hot = Message(Severity.NOTICE, "running-temperature-not-given", at(9), "Not given.", "Give it.")
    found = by_topic([pilot(1, "P1"), hot, chamfer])
    assert [len(of_it) for of_it in found.values()] == [2, 1]
    assert "fit when hot" in found
