"""The cards as headless Chromium prints them and shows them: a card a sheet, nothing cut off, never shrunk.

All demo jobs are looked at on every paper.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cards.demo import DEMO_JOBS, made, plan_of
from tests.cards.sheets_in_chromium import measured, printed, words_of

from seatwright.cards.paper import PAPERS
from seatwright.cards.render import documents

pytestmark = pytest.mark.browser

POINTS_PER_MM = 72 / 25.4
WORD_HEIGHT = 1.3  # of what pdftotext gives as the height of a word, over its size: of the built-in face
MEASURE = (Path(__file__).parent / "measure.js").read_text("utf-8")

# A card is a sheet: more pages than these on a job's own paper are too many to hang up.
MOST = {
    "as-found": 6, "four-cylinder-diesel": 10, "four-valve-aluminium": 14, "half-way": 9, "integral-seats": 8,
    "lined-guides": 5,
    "ready-to-leave": 2, "seats-that-stay": 8, "single-cylinder": 7,
}  # fmt: skip
MOST_ON_A5 = {"four-cylinder-diesel": 24}
LOWEST = 0.35  # of the page: less than that is no page, unless it is its card's only one or the back of the job sheet


@pytest.mark.slow
@pytest.mark.parametrize("name", DEMO_JOBS)
def test_a_deck_has_few_pages_each_worth_turning_to_and_nothing_outside(name: str, tmp_path: Path) -> None:
    own = plan_of(name).job.paper or "a4"
    for paper in (own, "a5", "letter"):
        page = PAPERS[paper]
        found = words_of(printed(made(name, paper).html, tmp_path, paper))
        if paper == own:
            assert len(found) <= MOST[name]
        elif paper == "a5":
            assert len(found) <= MOST_ON_A5.get(name, 99)
        low, high = page.sides * POINTS_PER_MM - 1, (page.width - page.sides) * POINTS_PER_MM + 1
        numbers = [_number(words) for words in found]
        for at, words in enumerate(found):
            assert not [word for word in words if word[0] < low or word[2] > high], (paper, at)
            foot = [word for word in words if word[1] > (page.height - page.bottom) * POINTS_PER_MM]
            assert [word[4] for word in foot][:1] == ["card"], (paper, at)
            only = numbers.count(numbers[at]) == 1 or "back" in [word[4] for word in words[:20]]
            inside = [word[3] for word in words if word not in foot]
            assert paper != own or only or max(inside) > LOWEST * page.height * POINTS_PER_MM, (paper, at + 1)


def _number(words: list[tuple[float, float, float, float, str]]) -> str:
    """The number of the card that a page says it is of, in its foot."""
    texts = [word[4] for word in words]
    return texts[len(texts) - texts[::-1].index("card")]


@pytest.mark.slow
def test_the_figure_to_set_prints_at_thirty_points_and_is_never_shrunk(tmp_path: Path) -> None:
    for paper, points in (("a4", 30), ("a5", 26)):
        found = words_of(printed(made("four-cylinder-diesel", paper).html, tmp_path, paper))
        large = [word[3] - word[1] for words in found for word in words if word[4] == "40.914"]
        assert max(large) == pytest.approx(points * WORD_HEIGHT, rel=0.01)


@pytest.mark.slow
@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_nothing_overflows_overlaps_or_is_too_small_or_faint_on_any_sheet(paper: str, tmp_path: Path) -> None:
    for name in DEMO_JOBS:
        # As wide as it is printed, on a screen that is wider than a phone.
        page = made(name, paper).html.replace("@media screen and (max-width", "@media (max-width: 1px) and (min-width")
        seen = measured(page, MEASURE, tmp_path)
        assert seen["sheets"] == page.count("<section ")
        assert seen["fetched"] == []
        assert seen["found"] == [], name


def test_the_browser_finds_what_stands_over_something_else_and_what_is_too_small_or_faint(tmp_path: Path) -> None:
    page = made("single-cylinder", "a4").html
    worse = page.replace(
        "</style>",
        ".step { margin-bottom: -4mm; } .small { font-size: 8pt !important; color: #999; } .loop li { font-size: 9pt; }"
        " .shout > :first-child { font-size: 20pt; }</style>",
    )
    kinds = {what for _, what, *_ in measured(worse, MEASURE, tmp_path)["found"]}
    assert {"over each other", "too small", "too faint", "does not shout", "a step too small"} <= kinds


@pytest.mark.slow
def test_two_small_cards_stand_beside_each_other_on_a_sheet(tmp_path: Path) -> None:
    one = words_of(printed(made("single-cylinder", "a5").html, tmp_path, "one"))
    two = words_of(printed(documents(plan_of("single-cylinder"), paper="a5", two_up=True).html, tmp_path, "two"))
    assert len(two) <= len(one) * 2 // 3 + 1
    words_one, words_two = ({word[4] for page in pages for word in page if word[4].isalpha()} for pages in (one, two))
    assert words_two >= words_one - {"page", "of", "commit"}
