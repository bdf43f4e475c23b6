"""A starter job: clean as it is, every word of the language in it, and each example a line that reads."""

from __future__ import annotations

import itertools
import re

import pytest
from tests.job.given_jobs import read_files

from seatwright.job import Job
from seatwright.job.declarations import job_tables, sections, vocabulary
from seatwright.job.starter import (
    VALVES_PER_CYLINDER,
    StarterWanted,
    WantedShop,
    starter_job,
    starter_shop,
    valve_names,
)
from seatwright.planning.planner import plan
from seatwright.syntax.formatting.format import formatted
from seatwright.text import Message, Severity
from seatwright.text.reading import source_of

MATERIALS = ("grey iron", "ductile iron", "compacted iron", "aluminium")
# What an example names and only a shop of one's own can have.
NAMES_OF_A_SHOP = {
    "machine-unknown",
    "gauge-unknown",
    "bore-gauge-unknown",
    "pilot-unknown",
    "cutter-unknown",
    "insert-unknown",
    "alloy-unknown",
    "engine-unknown",
    "cylinders-count",
    "limits-none",
    "size-unknown",
}


def job(units: str = "mm", cylinders: int = 2, valves: int = 2, material: str = "grey iron", use: str = "") -> str:
    return starter_job(StarterWanted("2214", cylinders, valves, {"units": units}, {"material": material}, use=use))


def errors(messages: tuple[Message, ...]) -> list[Message]:
    return [message for message in messages if message.severity is Severity.ERROR]


@pytest.mark.parametrize(
    "units,cylinders,valves,material",
    list(itertools.product(("mm", "inch"), (1, 3, 12), VALVES_PER_CYLINDER, MATERIALS)),
)
def test_a_starter_job_says_nothing_but_that_no_insert_is_asked_for(
    units: str, cylinders: int, valves: int, material: str
) -> None:
    found, messages = read_files(job(units, cylinders, valves, material))
    assert isinstance(found, Job)
    made = plan(found)
    assert [valve.name for valve in made.valves] == list(valve_names(cylinders, valves))
    said = {(message.severity, message.slug) for message in (*messages, *made.messages)}
    assert said == {(Severity.NOTICE, "insert-not-said")}


def test_an_insert_asked_for_leaves_notices_and_waits_for_its_pocket_to_be_measured() -> None:
    found, messages = read_files(job().replace("  # insert choose ", "  insert choose "))
    assert isinstance(found, Job)
    said = (*messages, *plan(found).messages)
    assert {message.severity for message in said} == {Severity.NOTICE, Severity.HOLD}
    assert {message.slug for message in said if message.severity is Severity.HOLD} == {"pocket-not-measured"}


@pytest.mark.parametrize("units", ["mm", "inch"])
def test_every_example_behind_a_mark_reads_once_the_mark_is_gone(units: str) -> None:
    lines = job(units).split("\n")
    tried = 0
    for number, line in enumerate(lines):
        hidden = re.fullmatch(r"  # (\S+ .*  # .*)", line)
        if hidden is None:
            continue
        tried += 1
        shown = "\n".join([*lines[:number], f"  {hidden[1]}", *lines[number + 1 :]])
        wrong = errors(read_files(shown)[1])
        assert {message.slug for message in wrong} <= NAMES_OF_A_SHOP, (line, wrong)
    declared = sum(len(section.fields) for section in sections("job"))
    stand = 4  # units, paper, material, depth-from
    assert tried == declared - stand


@pytest.mark.parametrize("units", ["mm", "inch"])
def test_a_starter_shop_with_every_mark_gone_is_a_shop_without_an_error(units: str) -> None:
    shown = "\n".join(line.removeprefix("# ") for line in starter_shop(WantedShop("a", units)).split("\n")[3:])
    found, messages = read_files(job(units, use="s.shop"), s=shown)
    assert not errors(messages), errors(messages)
    assert found is not None
    shop = found.shop
    assert shop.inserts
    assert shop.cutters
    assert len(shop.pilots) == 3


@pytest.mark.parametrize("units", ["mm", "inch"])
def test_a_starter_shop_as_it_is_has_nothing_wrong(units: str) -> None:
    _, messages = read_files(job(units, use="s.shop"), s=starter_shop(WantedShop("a", units)))
    assert messages == ()


@pytest.mark.parametrize("units", ["mm", "inch"])
def test_the_tables_before_and_after_cutting_read_once_their_marks_are_gone(units: str) -> None:
    lines = job(units).split("\n")
    start = lines.index(next(line for line in lines if line.startswith("# layout")))
    shown = [line.removeprefix("# ") for line in lines[start:]]
    wrong = errors(read_files("\n".join([*lines[:start], *shown]))[1])
    assert {message.slug for message in wrong} <= NAMES_OF_A_SHOP, wrong


def test_every_column_of_measured_has_its_place_in_the_order_of_the_bench_once() -> None:
    ordered = [word for step in job_tables.BENCH_ORDER for word in step]
    declared = {column.word for column in job_tables.MEASURED.headers[0].columns}
    assert len(ordered) == len(set(ordered))
    # A runout is written as needle movement or as an offset: the sheet asks for the needle.
    assert declared - set(ordered) == {"pocket-offset"}
    assert set(ordered) <= declared


@pytest.mark.parametrize("units", ["mm", "inch"])
def test_a_starter_stands_in_the_canonical_layout(units: str) -> None:
    for kind, text in (("job", job(units)), ("shop", starter_shop(WantedShop("a", units)))):
        source, _ = source_of(f"x.{kind}", text)
        assert formatted(source, vocabulary(kind)).text == text
        assert max(map(len, text.split("\n"))) <= 130


def test_quotes_and_odd_names_reach_the_job_as_they_were_said() -> None:
    text = starter_job(
        StarterWanted(
            "20/3 b", 1, 2, {"units": "mm", "customer": 'the "dairy"'}, {"material": "grey iron"}, title="a # b"
        )
    )
    found, messages = read_files(text)
    assert not errors(messages)
    assert found is not None
    assert found.customer is not None
    assert (found.number, found.title, found.customer.text) == ("20/3 b", "a # b", 'the "dairy"')


@pytest.mark.parametrize("bad", ["two\nlines", "a\x00b"])
def test_an_answer_that_would_break_the_line_is_refused(bad: str) -> None:
    with pytest.raises(ValueError, match="does not fit on one line"):
        starter_job(StarterWanted("1", 1, 2, {"units": "mm", "customer": bad}, {"material": "grey iron"}))


def test_valves_are_named_by_cylinder_intake_first() -> None:
    assert valve_names(2, 2) == ("I1", "E1", "I2", "E2")
    assert valve_names(1, 4) == ("I1A", "I1B", "E1A", "E1B")
    assert valve_names(1, 5) == ("I1A", "I1B", "I1C", "E1A", "E1B")
