"""The cards as headless Chromium prints them: one page a part, nothing cut off, never shrunk."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import plans
import pytest
from seatwright.cards.paper import PAPERS
from seatwright.cards.render import documents
from seatwright.job import read
from seatwright.planning import planner
from seatwright.planning.plan import Plan

pytestmark = pytest.mark.browser

JOBS = Path(__file__).parents[2] / "jobs"
DEMO_JOBS = sorted(path.stem for path in JOBS.glob("*.seat"))

POINTS_PER_MM = 72 / 25.4
# What pdftotext gives as the height of a word, over its size: ascent and descent of the family that card.css asks for.
WORD_HEIGHT = 1.117
HOUSEHOLD = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def printed(html: str, folder: Path) -> Path:
    """The PDF that Chromium prints of cards.html."""
    page, pdf = folder / "cards.html", folder / "cards.pdf"
    page.write_text(html, "utf-8")
    command = ["chromium", *HOUSEHOLD, f"--user-data-dir={folder / 'profile'}", "--no-pdf-header-footer"]
    subprocess.run([*command, f"--print-to-pdf={pdf}", page.as_uri()], check=True, capture_output=True, timeout=120)
    return pdf


def words_of(pdf: Path) -> list[list[tuple[float, float, float, float, str]]]:
    """The words of each page with their boxes: left, top, right, bottom in points."""
    done = subprocess.run(["pdftotext", "-bbox", str(pdf), "-"], check=True, capture_output=True, text=True)
    pattern = r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>'
    return [
        [(float(a), float(b), float(c), float(d), text) for a, b, c, d, text in re.findall(pattern, page)]
        for page in re.findall(r"<page .*?</page>", done.stdout, re.S)
    ]


def long_plan() -> Plan:
    """A job whose tables run over pages: the whole job, with notes of every length."""
    from dataclasses import replace

    from seatwright.job.model import Note

    import jobs

    plan = plans.bench_plan()
    notes = tuple(Note("word " * length, jobs.span()) for length in range(1, 90, 4))
    return replace(plan, job=replace(plan.job, notes=notes))


def check_pages(plan: Plan, paper: str, folder: Path) -> None:
    """One page a part, all words inside the margins, in the size in which they were set."""
    sheet = PAPERS[paper]
    html = documents(plan, paper=paper, commit="0" * 40).html
    pages = words_of(printed(html, folder))
    headings = re.findall(r"<section[^>]*>\n<header>\n<h1>(\S+)", html)
    # A part that ran over would push its rest onto a page of its own, without a heading.
    assert [page[0][4] for page in pages] == headings

    low, high = sheet.margin * POINTS_PER_MM - 1, (sheet.width - sheet.margin) * POINTS_PER_MM + 1
    bottom = (sheet.height - sheet.margin) * POINTS_PER_MM + 1
    for number, page in enumerate(pages, start=1):
        outside = [word for word in page if word[0] < low or word[2] > high or word[3] > bottom]
        assert not outside, (number, outside)

    # Chromium shrinks a page that is too wide: then its words would be smaller than they were set.
    small = min(word[3] - word[1] for page in pages for word in page if word[4] in ("stamp", "sources"))
    assert small == pytest.approx(11 * WORD_HEIGHT, rel=0.01)


@pytest.mark.parametrize("paper", sorted(PAPERS))
@pytest.mark.parametrize("make", [plans.bench_plan, plans.as_found_plan, long_plan], ids=lambda make: make.__name__)
def test_every_part_of_a_card_prints_on_exactly_one_page(make: Callable[[], Plan], paper: str, tmp_path: Path) -> None:
    check_pages(make(), paper, tmp_path)


@pytest.mark.parametrize("paper", sorted(PAPERS))
@pytest.mark.parametrize("name", DEMO_JOBS)
def test_every_card_of_a_demo_job_prints_on_any_paper(name: str, paper: str, tmp_path: Path) -> None:
    job, _ = read(f"{name}.seat", lambda path: (JOBS / path).read_bytes())
    assert job is not None
    check_pages(planner.plan(job), paper, tmp_path)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_figure_to_read_off_a_dial_is_at_least_24_points_high(paper: str, tmp_path: Path) -> None:
    pages = words_of(printed(documents(plans.bench_plan(), paper=paper).html, tmp_path))
    heights = [word[3] - word[1] for page in pages for word in page if word[4] == "40.914"]
    assert max(heights) >= 24 * WORD_HEIGHT
