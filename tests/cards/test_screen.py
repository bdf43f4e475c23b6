"""The cards on a screen: readable on a phone at the bench, and to whoever cannot see them (axe-core)."""

from __future__ import annotations

import os
import re
from itertools import pairwise
from pathlib import Path

import pytest
from tests.cards.demo import DEMO_JOBS, made
from tests.cards.sheets_in_chromium import measured

pytestmark = pytest.mark.browser

PHONE = 360  # CSS px wide
_PHONE = """
const wide = [...document.querySelectorAll('.sheet *')].filter(e => !e.closest('.roll, svg') &&
  e.getBoundingClientRect().right > innerWidth + 0.5).map(e => e.tagName + ' ' + e.textContent.slice(0, 40));
const loud = [...document.querySelectorAll('.shout > :first-child')];
const sizes = loud.map(e => parseFloat(getComputedStyle(e).fontSize));
const letters = [...document.querySelectorAll('svg text')].map(e => e.getBoundingClientRect().height);
return {width: innerWidth, scroll: document.documentElement.scrollWidth, wide, least: Math.min(...sizes),
  lettering: Math.min(...letters)};
"""


def in_a_frame(page: str, width: int) -> str:
    """A page as a screen of that width shows it: Chromium's own window cannot be made so narrow."""
    held = page.replace("&", "&amp;").replace('"', "&quot;")
    frame = f'<iframe id="f" style="width:{width}px;height:800px;border:0" srcdoc="{held}"></iframe>'
    return f"<html><body>{frame}</body></html>"


def in_frame(script: str) -> str:
    """A script of a page, run in the frame."""
    return (
        "const frame = document.getElementById('f'), inner = frame.contentWindow;"
        "await inner.document.fonts.ready;"
        f"return await inner.eval({'(async () => {' + script + '})()'!r});"
    )


@pytest.mark.parametrize("name", ["four-cylinder-diesel", "four-valve-aluminium"])
def test_nothing_but_a_table_is_wider_than_a_phone_and_figures_stay_large(name: str, tmp_path: Path) -> None:
    found = measured(in_a_frame(made(name, "a4").html, PHONE), in_frame(_PHONE), tmp_path)
    assert found["width"] == PHONE
    assert found["wide"] == []
    assert found["scroll"] <= PHONE
    assert found["least"] >= 26 * 96 / 72 - 0.1
    assert found["lettering"] >= 8 * 96 / 72


def axe() -> str:
    """The text of axe-core. Where CI has put it, SEATWRIGHT_AXE names it."""
    place = os.environ.get("SEATWRIGHT_AXE", "")
    if place and Path(place).is_file():
        return Path(place).read_text("utf-8")
    if os.environ.get("SEATWRIGHT_BROWSER") == "required":
        pytest.fail("axe-core is not installed, and this run requires it (SEATWRIGHT_AXE names axe.min.js)")
    pytest.skip("axe-core is not installed: npm install axe-core, then SEATWRIGHT_AXE=node_modules/axe-core/axe.min.js")


@pytest.mark.slow
@pytest.mark.parametrize("width", [PHONE, 1200])
def test_axe_core_finds_no_violation(width: int, tmp_path: Path) -> None:
    text = axe().replace("</script>", "<\\/script>")
    script = (
        "const done = await axe.run(document, {resultTypes: ['violations', 'incomplete']});"
        "return done.violations.map(v => [v.id, v.nodes.length, v.nodes[0].html.slice(0, 160)]);"
    )
    # A4 in one job with every kind of card, and one that has the as-found sheet.
    for name in ("four-cylinder-diesel", "as-found"):
        page = made(name, "a4").html.replace("</body>", f"<script>{text}</script></body>")
        assert measured(in_a_frame(page, width), in_frame(script), tmp_path) == [], name


def test_headings_go_down_in_order_tables_have_headers_and_drawings_a_name() -> None:
    all_on_a4 = "".join(made(name, "a4").html for name in DEMO_JOBS)
    assert '<html lang="en">' in all_on_a4
    for card in re.findall(r"<section .*?</section>", all_on_a4, re.S):
        levels = [int(level) for level in re.findall(r"<h([1-6])", card)]
        assert levels[0] == 1
        assert all(deeper <= level + 1 for level, deeper in pairwise(levels))
        assert levels.count(1) == 1
        assert all("scope=" in header for header in re.findall(r"<th\b[^>]*>", card))
        for drawing in re.findall(r"<svg.*?</svg>", card, re.S):
            assert 'role="img"' in drawing
            assert re.search(r"<title>[^<]+</title>", drawing)
    # Paper is white, and so is this: no dark dress of its own, and the browser is told so.
    assert "prefers-color-scheme" not in all_on_a4
    assert "color-scheme: light" in all_on_a4
