"""Every message has a job that provokes it, with the exact text; the page is made of them."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from catalogue import FOLDER, PAGE, page, said, slugs, text_of
from slugs import NOT_MESSAGES, slugs_in_code

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


def test_every_message_in_the_code_has_a_job() -> None:
    there = set(slugs())
    missing = [
        f"{one.slug} ({one.where})"
        for one in slugs_in_code()
        if not (any(re.fullmatch(one.slug, slug) for slug in there) if one.pattern else one.slug in there)
    ]
    assert missing == []


def test_every_job_here_is_for_a_message_in_the_code() -> None:
    code = slugs_in_code()
    exact = {one.slug for one in code if not one.pattern}
    patterns = [one.slug for one in code if one.pattern]
    left_over = [
        slug
        for slug in slugs()
        if slug not in exact and slug not in _OF_TABLES and not any(re.fullmatch(each, slug) for each in patterns)
    ]
    assert left_over == []
    jobs = {path.stem for path in FOLDER.glob("*.seat")} | {"job-unreadable"}
    assert jobs == set(slugs()) | {"silent"}


_OF_TABLES = frozenset({"stand-not-given", "height-not-given", "no-insert-fits", "head-may-yield", "head-may-crack"})
"""Slugs that stand in a table of texts or in a variable, where the search for calls does not see them."""


def test_nothing_is_left_out_that_the_jobs_here_provoke() -> None:
    provoked = {message.slug for slug in slugs() for message in said(slug)[0]}
    assert provoked - set(slugs()) == set()
    assert not provoked & set(NOT_MESSAGES)


def test_the_job_that_all_these_vary_has_nothing_to_say() -> None:
    assert said("silent")[0] == ()


def test_the_page_of_messages_is_fresh() -> None:
    assert PAGE.read_text("utf-8") == page(), "renew it: python tests/messages/catalogue.py"
