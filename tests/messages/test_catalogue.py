"""Every message has a job that provokes it, with the exact text; the page is made of them."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest
from tests.messages.catalogue import FOLDER, PAGE, examples, page, said, slugs, text_of

from seatwright.text import registry
from seatwright.text.registry import REASON, declared

COMPILER = FOLDER.parents[1] / "compiler" / "seatwright"

_PARSER_WORDS = {
    "token", "tokens", "eof", "lexer", "parser", "parse", "syntax", "terminal", "expected", "invalid", "identifier",
    "string", "integer", "float", "null", "none:", "exception", "traceback", "nan", "inf", "boolean", "argument",
    "arguments", "parameter", "keyword", "whitespace", "newline", "delimiter", "literal", "operator", "unexpected",
}  # fmt: skip


@pytest.mark.parametrize("slug", slugs())
def test_the_job_of_a_message_gives_its_exact_text(slug: str) -> None:
    assert text_of(slug) == (FOLDER / f"{slug}.txt").read_text("utf-8")


@pytest.mark.parametrize("slug", slugs())
def test_the_job_of_a_message_provokes_it_at_a_place_and_says_what_to_do(slug: str) -> None:
    messages, _ = said(slug)
    own = [message for message in messages if message.slug == slug]
    assert own
    if own[0].severity == "error":
        assert len(messages) == 1, "an error stands alone"
    for message in messages:
        assert message.span is not None
        assert message.help[-1:] in (".", "?")
        words = set(re.sub(r"`[^`]*`", "", f"{message.text} {message.help}".lower()).replace(",", " ").split())
        assert not words & _PARSER_WORDS


def test_every_message_declared_has_a_job_and_every_job_is_for_one() -> None:
    assert set(slugs()) == {one.slug for one in declared().values() if one.weights != (REASON,)}
    assert examples() == slugs()


def test_a_message_weighs_what_is_declared() -> None:
    for slug in slugs():
        for message in said(slug)[0]:
            assert message.severity in declared()[message.slug].weights, message.slug


def test_every_message_and_reason_stands_in_the_room_that_is_declared() -> None:
    rooms = {one.room for one in declared().values()}
    code = {
        room: "".join(path.read_text("utf-8") for path in (COMPILER / room).rglob("*.py") if path.name != "slugs.py")
        for room in rooms
    }
    assert [one.slug for one in declared().values() if f'"{one.slug}"' not in code[one.room]] == []


def test_the_types_of_the_names_are_fresh() -> None:
    there = (COMPILER / "text" / "slugs.py").read_text("utf-8")
    assert there == registry.types(), (
        "renew them: python -m seatwright.text.registry > compiler/seatwright/text/slugs.py"
    )


@pytest.mark.slow
def test_a_slug_that_is_not_declared_or_weighs_otherwise_does_not_type_check(tmp_path: Path) -> None:
    said_wrong = (
        'findings.hold("I1", "bridge-thinn", "", "")',
        'findings.warning("bridge-thin", "", "")',
        'findings.notice("decimal-comma", "", "")',
        'findings.unchecked("", "", "")',
        'Message(Severity.ERROR, "decimal-point", None, "", "")',
    )
    said_right = ('findings.hold("I1", "bridge-thin", "", "")', 'findings.notice("feed", "", "")')
    program = tmp_path / "said.py"
    program.write_text("\n".join((
        "from seatwright.planning.basis.findings import Findings", "from seatwright.text import Message, Severity",
        "findings = Findings()", *said_wrong, *said_right,
    )), "utf-8")  # fmt: skip
    checked = subprocess.run(
        [sys.executable, "-m", "mypy", str(program)], capture_output=True, text=True, cwd=FOLDER.parents[1]
    )
    assert [int(line) for line in re.findall(r"said\.py:(\d+): error: Argument", checked.stdout)] == [4, 5, 6, 7, 8]


def test_the_job_that_all_these_vary_has_nothing_to_say() -> None:
    assert said("silent")[0] == ()


def test_the_page_of_messages_is_fresh() -> None:
    assert PAGE.read_text("utf-8") == page(), "renew it: python tests/messages/catalogue.py"
