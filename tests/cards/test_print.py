"""The cards as headless Chromium prints them and shows them: one page a part, nothing cut off, never shrunk.

All demo jobs are looked at on every paper, with two starts of the browser a paper.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace
from tests.cards import plans
from tests.cards.demo import DEMO_JOBS, headings, made, together
from tests.cards.sheets_in_chromium import measured, printed, words_of
from tests.planning import jobs

from seatwright.cards.paper import PAPERS, SIZES
from seatwright.cards.render import documents
from seatwright.job.model import Note
from seatwright.planning.plan import Plan

pytestmark = pytest.mark.browser

POINTS_PER_MM = 72 / 25.4
# What pdftotext gives as the height of a word, over its size: ascent and descent of the built-in face.
WORD_HEIGHT = 1.3
LETTERING = 3.5  # mm, of the drawings
MEASURE = (Path(__file__).parent / "measure.js").read_text("utf-8")


def long_plan() -> Plan:
    """A job whose tables run over pages: the whole job, with notes of every length."""
    plan = plans.bench_plan()
    notes = tuple(Note("word " * length, jobs.span()) for length in range(1, 90, 4))
    return replace(plan, job=replace(plan.job, notes=notes))


def all_sheets(paper: str) -> str:
    """All sheets of the demo jobs and of the plans made by hand."""
    pages = {name: made(name, paper).html for name in DEMO_JOBS}
    for make in (plans.bench_plan, plans.as_found_plan, long_plan):
        pages[make.__name__] = documents(make(), paper=paper, commit="0" * 40).html
    return together(pages)


def number_on(words: list[tuple[float, float, float, float, str]]) -> str:
    """What stands in the box at the top left of a page."""
    left = min(word[0] for word in words if word[1] < 20 * POINTS_PER_MM)
    inside = [word[4] for word in words if word[1] < 20 * POINTS_PER_MM and word[0] < left + 3 * POINTS_PER_MM]
    return inside[0]


@pytest.mark.slow
@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_every_part_of_a_card_prints_on_exactly_one_page_and_as_large_as_it_is_set(paper: str, tmp_path: Path) -> None:
    sheet, page = PAPERS[paper], all_sheets(paper)
    found = words_of(printed(page, tmp_path))
    # A part that ran over would push its rest onto a page of its own, without a heading.
    assert [number_on(words) for words in found] == headings(page)

    low, high = sheet.margin * POINTS_PER_MM - 1, (sheet.width - sheet.margin) * POINTS_PER_MM + 1
    bottom = (sheet.height - sheet.margin) * POINTS_PER_MM + 1
    for number, words in enumerate(found, start=1):
        outside = [word for word in words if word[0] < low or word[2] > high or word[3] > bottom]
        assert not outside, (number, outside)

    # Chromium shrinks a page that is too wide: then its words would be smaller than they were set.
    small = min(word[3] - word[1] for words in found for word in words if word[4] in ("stamp", "sources"))
    assert small == pytest.approx(SIZES.body * WORD_HEIGHT, rel=0.01)
    large = [word[3] - word[1] for words in found for word in words if word[4] == "40.914"]
    assert max(large) == pytest.approx(sheet.reading_points * WORD_HEIGHT, rel=0.01)


@pytest.mark.slow
@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_nothing_overflows_overlaps_or_is_too_small_or_faint_on_any_sheet(paper: str, tmp_path: Path) -> None:
    script = MEASURE.replace("HEIGHT", str(PAPERS[paper].height)).replace("LEAST_POINTS", str(SIZES.body))
    script = script.replace("LEAST_LETTERING", str(LETTERING * 0.72))
    page = all_sheets(paper)
    seen = measured(page, script, tmp_path)
    assert seen["sheets"] == len(headings(page)) > 20
    assert seen["fetched"] == []
    assert seen["found"] == []


def test_a_figure_to_read_off_a_dial_is_set_at_24_points_at_least_and_body_at_11() -> None:
    assert all(paper.reading_points >= 24 for paper in PAPERS.values())
    assert SIZES.body >= 11
    assert SIZES.blank_row >= 8


def test_the_browser_finds_what_overflows_and_what_stands_over_something_else(tmp_path: Path) -> None:
    page = made("single-cylinder", "a4").html
    script = MEASURE.replace("HEIGHT", "297").replace("LEAST_POINTS", "11").replace("LEAST_LETTERING", "2")
    worse = page.replace("</style>", "h1 + p { margin-top: -3mm !important; } header { margin-bottom: 400mm; } "
                         "header p { font-size: 9pt; color: #999; }</style>")  # fmt: skip
    kinds = {what for _, what, *_ in measured(worse, script, tmp_path)["found"]}
    assert {"over each other", "too tall by px", "too small", "too faint"} <= kinds
