"""The lettering of the drawings measured in Chromium: no two texts overlap, none leaves the paper.

The boxes are those that the browser gives the text it has set, so that the widths of letters reckoned with in the
drawings are checked against real typefaces.
"""

from __future__ import annotations

import html
import json
import re
import subprocess
from collections.abc import Sequence
from pathlib import Path as File
from typing import Any

import pytest
from tests.cards.drawn import all_drawings, as_svg, demo_plans, in_line, in_two_rows, iron_head, laid_out, read, seated

from seatwright.cards.drawings.head import head_from_deck

_MEASURE = """<script>
const found = [];
document.querySelectorAll('svg').forEach((svg, n) => {
  const sheet = svg.getBoundingClientRect();
  const texts = [...svg.querySelectorAll('text')].map(t => [t.textContent, t.getBoundingClientRect()]);
  texts.forEach(([words, box], i) => {
    if (box.left < sheet.left - 1 || box.right > sheet.right + 1 || box.top < sheet.top - 1 ||
        box.bottom > sheet.bottom + 1) found.push([n, 'off the paper', words]);
    texts.slice(i + 1).forEach(([other, b]) => {
      if (box.left < b.right - 0.5 && b.left < box.right - 0.5 && box.top < b.bottom - 0.5 && b.top < box.bottom - 0.5)
        found.push([n, words, other]);
    });
  });
});
document.body.innerHTML = '<pre id="found">' + JSON.stringify(found).replace(/</g, '&lt;') +
  '</pre>';
</script>"""


def in_chromium(svgs: Sequence[str], folder: File) -> list[list[Any]]:
    """What Chromium finds overlapping or off the paper: number of the drawing, two texts."""
    sized = []
    for svg in svgs:
        _, _, width, height = read(svg).get("viewBox", "").split()
        sized.append(f'<div style="width:{width}mm;height:{height}mm">{svg}</div>')
    page = folder / "drawings.html"
    page.write_text(
        f"<!doctype html><html><head><meta charset='utf-8'></head><body>{''.join(sized)}{_MEASURE}</body></html>",
        encoding="utf-8",
    )
    done = subprocess.run(
        [
            "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
            "--disable-background-networking", "--disable-component-update", "--disable-sync",
            f"--user-data-dir={folder / 'profile'}", "--dump-dom", page.as_uri(),
        ],
        capture_output=True, text=True, timeout=180, check=True,
    )  # fmt: skip
    answer = re.search(r'<pre id="found">(.*?)</pre>', done.stdout, re.DOTALL)
    assert answer is not None, "Chromium did not measure"
    found: list[list[Any]] = json.loads(html.unescape(answer[1]))
    return found


@pytest.mark.browser
@pytest.mark.slow
def test_no_two_texts_overlap_in_chromium_in_the_demo_jobs(tmp_path: File) -> None:
    svgs = [svg for plan in demo_plans() for svg in all_drawings(plan)]
    assert len(svgs) > 30
    assert in_chromium(svgs, tmp_path) == []


@pytest.mark.browser
def test_no_two_texts_overlap_in_chromium_in_heads_of_two_to_thirty_two_valves(tmp_path: File) -> None:
    svgs = []
    for count in (2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 28, 32):
        for rows in (in_line, in_two_rows):
            plan = laid_out(rows(count), 34.0)
            drawn = head_from_deck(plan, plan.heads[0])
            svgs += [as_svg(drawn)] if drawn is not None else []
    svgs += all_drawings(seated()[0]) + all_drawings(iron_head()[0])
    assert in_chromium(svgs, tmp_path) == []


@pytest.mark.browser
def test_chromium_finds_two_texts_that_do_overlap(tmp_path: File) -> None:
    texts = '<text x="5" y="10" font-size="4">one</text><text x="7" y="11" font-size="4">two</text>'
    svg = f'<svg viewBox="0 0 50 20">{texts}</svg>'
    assert in_chromium([svg], tmp_path) == [[0, "one", "two"]]
