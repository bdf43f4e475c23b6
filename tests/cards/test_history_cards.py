"""The cards of the history: on paper, on a screen, and to whoever cannot see them."""

from __future__ import annotations

import re
import subprocess
from itertools import pairwise
from pathlib import Path

import pytest
from tests.cards.sheets_in_chromium import measured, printed
from tests.cards.test_screen import axe, in_a_frame, in_frame
from tests.over_jobs.quarter import QUARTER, quarters_history
from tests.over_jobs.test_history import CHIP, bores

from seatwright.cards.drawings.run_chart import LAST, WIDTH, run_chart
from seatwright.cards.drawings.shapes import Circle, Lettering
from seatwright.cards.many.history import HistoryCards, history_cards
from seatwright.over_jobs.history.runs import Run, runs_of
from seatwright.over_jobs.history.whole import whole_history

MANY = bores(*[7.0 + (number * 7 % 11 - 5) * 0.2 for number in range(60)])
ODD = bores(7.0, 7.4, 6.6, 7.2, 22.5, 6.9, 7.3, 6.8, 7.1, 6.7, not_counted=None)


def made() -> HistoryCards:
    return history_cards(quarters_history())


def test_every_run_has_a_card_with_its_chart_its_table_and_its_own_stamp():
    cards = made()
    runs = quarters_history().runs
    sections = re.findall(r"<section .*?</section>", cards.html, re.S)
    assert len(sections) == len(runs) + 2
    for section, run in zip(sections[2:], runs, strict=True):
        assert section.count("<svg") == 1
        rows = re.findall(r"<tr>(?!<th scope=\"col\")", section)
        assert len(rows) >= len(run.bores)
        assert all(bore.point.job in section for bore in run.bores)
    stamps = re.findall(r"stamp \*\*([0-9a-f]{8})\*\*", cards.markdown)
    assert len(set(stamps)) == len(sections)


def test_a_later_bore_makes_only_the_cards_stale_that_it_changes():
    def stamps(found: HistoryCards) -> dict[str, str]:
        parts = found.markdown.split("\n---\n")
        return {re.search(r"\d+\. (.*)", part)[1]: re.search(r"stamp \*\*(\w+)", part)[1] for part in parts}  # type: ignore[index]

    before, after = stamps(made()), stamps(history_cards(quarters_history(CHIP)))
    changed = {title for title in before if before[title] != after[title]}
    assert changed == {"All cutters", "Instruments, causes, time", "C1 in grey iron, tip of 2026-10-05"} - (
        {"Instruments, causes, time"}
        if before["Instruments, causes, time"] == after["Instruments, causes, time"]
        else set()
    )


def test_the_same_history_gives_the_same_bytes_with_nothing_to_load_and_no_colour():
    assert made() == history_cards(quarters_history())
    html = made().html
    assert "http" not in re.sub(r"http://www\.w3\.org/2000/svg", "", html)
    assert "<script" not in html
    for drawing in re.findall(r"<svg.*?</svg>", html, re.S):
        assert set(re.findall(r"#[0-9a-f]{3,6}\b", drawing)) <= {"#000", "#fff"}


def test_an_empty_history_says_so_on_one_card():
    found = history_cards(whole_history([]))
    assert found.html.count("<section") == 1
    assert "No bore of these jobs" in found.markdown


def one(points: list) -> Run:
    [run] = runs_of(points)
    return run


def test_the_last_forty_bores_are_drawn_and_the_earlier_ones_counted():
    drawing = run_chart(one(MANY), "")
    chart = [shape for shape in drawing.shapes if isinstance(shape, Circle) and shape.radius > 0.9]
    assert len(chart) == LAST
    assert "20 earlier" in {text.words for text in drawing.texts}
    assert "20 earlier bores are not drawn" in drawing.caption


def test_a_bore_that_does_not_count_is_hollow_at_the_edge_with_its_figure():
    run = next(run for run in quarters_history().runs if len(run.counted) != len(run.bores))
    drawing = run_chart(run, "")
    hollow = [shape for shape in drawing.shapes if isinstance(shape, Circle) and shape.fill == "white"]
    assert len(hollow) == 1
    assert "22.0" in {text.words for text in drawing.texts}
    assert "hollow: not counted" in drawing.caption


def test_a_bore_that_breaks_a_rule_is_ringed():
    drawing = run_chart(one(ODD), "")
    assert len([shape for shape in drawing.shapes if isinstance(shape, Circle) and shape.radius > 2]) >= 1
    assert "ringed: breaks a rule" in drawing.caption


@pytest.mark.parametrize(
    "points",
    [MANY, MANY[:1], MANY[:2], MANY[:8], MANY[:17], ODD, bores(*[7.0] * 12),
     bores(*[9.0 - 0.3 * number + (number % 3) * 0.1 for number in range(30)]),
     bores(*[7.0 + (number * 7 % 11 - 5) * 0.2 for number in range(25)], units="inch")],
)  # fmt: skip
def test_no_lettering_of_a_chart_lies_on_another_or_off_the_paper(points: list):
    for changed_on in ("", "2026-12-01"):
        drawing = run_chart(one(points), changed_on)
        texts: list[Lettering] = list(drawing.texts)
        for place, text in enumerate(texts):
            box = text.box
            assert box.left >= 0
            assert box.right <= WIDTH + 1
            assert box.top >= 0
            assert box.bottom <= drawing.height
            assert not [other.words for other in texts[place + 1 :] if box.meets(other.box)], text.words


@pytest.mark.browser
def test_a_run_of_the_quarter_fits_a_page_and_all_of_it_is_printed(tmp_path: Path):
    pdf = printed(made().html, tmp_path)
    done = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], check=True, capture_output=True, text=True)
    pages = done.stdout.split("\f")[:-1]
    assert len(pages) == len(quarters_history().runs) + 2
    assert all(f"card {number} of {len(pages)}" in page for number, page in enumerate(pages, 1))


@pytest.mark.browser
def test_a_long_run_goes_on_overleaf_with_its_head(tmp_path: Path):
    from msgspec.structs import replace

    found = replace(quarters_history(), runs=runs_of(MANY))
    pdf = printed(history_cards(found).html, tmp_path)
    done = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], check=True, capture_output=True, text=True)
    pages = [page for page in done.stdout.split("\f") if "C1 in grey iron, tip of" in page]
    assert len(pages) >= 2


@pytest.mark.browser
@pytest.mark.slow
@pytest.mark.parametrize("width", [360, 1200])
def test_axe_core_finds_no_violation_in_the_history(width: int, tmp_path: Path):
    text = axe().replace("</script>", "<\\/script>")
    script = (
        "const done = await axe.run(document, {resultTypes: ['violations', 'incomplete']});"
        "return done.violations.map(v => [v.id, v.nodes.length, v.nodes[0].html.slice(0, 160)]);"
    )
    page = made().html.replace("</body>", f"<script>{text}</script></body>")
    assert measured(in_a_frame(page, width), in_frame(script), tmp_path) == []


def test_headings_go_down_in_order_and_drawings_have_a_name():
    for card in re.findall(r"<section .*?</section>", made().html, re.S):
        levels = [int(level) for level in re.findall(r"<h([1-6])", card)]
        assert levels[0] == 1
        assert all(deeper <= level + 1 for level, deeper in pairwise(levels))
        for drawing in re.findall(r"<svg.*?</svg>", card, re.S):
            assert 'role="img"' in drawing
            assert re.search(r"<title>[^<]+</title>", drawing)


def test_a_check_that_is_overdue_stands_beside_its_master_and_its_ring_on_the_setting_card():
    from seatwright import documents, plan, read

    def of(name: str, *changes: tuple[str, str]) -> str:
        def load(file: str) -> bytes:
            text = (QUARTER / file).read_text("utf-8")
            for old, new in changes:
                text = text.replace(old, new)
            return text.encode()

        job, _ = read(name, load)
        assert job is not None
        return documents(plan(job)).markdown

    late = of("2188-boatyard.seat")
    assert late.count("Its check is overdue since 2026-09-15.") == 2  # on each of two setting cards, at the master
    assert late.count("Its check is overdue since 2026-11-02.") == 2  # and at the ring
    assert "overdue" not in of("2188-boatyard.seat", ("check-every", "x-every"))
