"""cards.pdf: the pages that a browser prints, the same bytes each time, with title, bookmarks and tags."""

from __future__ import annotations

import contextlib
import re
import subprocess
import zlib
from pathlib import Path

import pytest
from tests.cards.demo import headings, made, plan_of
from tests.cards.sheets_in_chromium import printed
from tests.whole.shop import JOBS, seatwright

from seatwright.cards import pdf as printing
from seatwright.cards.render import documents

pytestmark = [pytest.mark.browser, pytest.mark.slow]


def text_of(pdf: Path) -> list[list[str]]:
    """The words of each page, in no order: the two printers run through a page differently."""
    done = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], check=True, capture_output=True, text=True)
    # A word that is broken over two lines is one in neither, so signs are counted and not words; the hyphen of a
    # break is of one printer alone.
    return [sorted(re.sub(r"[\s•\xad‐-]", "", page)) for page in done.stdout.split("\f")[:-1]]


def info(pdf: Path) -> dict[str, str]:
    done = subprocess.run(["pdfinfo", str(pdf)], check=True, capture_output=True, text=True)
    return {key: value.strip() for key, value in (line.split(":", 1) for line in done.stdout.splitlines())}


def all_in(pdf: bytes) -> bytes:
    """A PDF with its streams unpacked."""
    found = [pdf]
    for stream in re.findall(rb"stream\r?\n(.*?)\r?\nendstream", pdf, re.S):
        with contextlib.suppress(zlib.error):
            found.append(zlib.decompress(stream))
    return b"\n".join(found)


@pytest.mark.parametrize(
    "name,paper,two_up",
    [("four-cylinder-diesel", "a4", False), ("single-cylinder", "half-letter", False), ("single-cylinder", "a5", True)],
)
def test_the_pages_are_those_that_the_browser_prints(name: str, paper: str, two_up: bool, tmp_path: Path) -> None:
    html = documents(plan_of(name), paper=paper, two_up=two_up).html
    ours = tmp_path / "ours.pdf"
    ours.write_bytes(printing.pdf(html))
    theirs = printed(html, tmp_path)
    assert int(info(ours)["Pages"]) == int(info(theirs)["Pages"]) >= len(headings(html)) / (2 if two_up else 1)
    for number, (one, other) in enumerate(zip(text_of(ours), text_of(theirs), strict=True), start=1):
        assert one == other, number


def test_it_has_title_language_tags_and_a_bookmark_for_each_page_and_no_date(tmp_path: Path) -> None:
    html = made("single-cylinder", "a4").html
    content = printing.pdf(html)
    (tmp_path / "cards.pdf").write_bytes(content)
    facts = info(tmp_path / "cards.pdf")
    assert facts["Title"].startswith("Job 41: ")
    assert facts["Tagged"] == "yes"
    assert "CreationDate" not in facts
    objects = all_in(content)
    assert b"/Lang (en)" in objects
    assert objects.count(b"/Outlines") >= 1
    assert objects.count(b"/Dest") >= len(headings(html))


def test_the_same_cards_give_the_same_bytes_in_another_process(tmp_path: Path) -> None:
    for folder in ("one", "other"):
        done = seatwright("build", str(JOBS / "single-cylinder.seat"), "-o", str(tmp_path / folder), "--pdf")
        assert done.code in (0, 3), done.err
    one, other = (tmp_path / folder / "single-cylinder" / "cards.pdf" for folder in ("one", "other"))
    assert one.read_bytes() == other.read_bytes()


def test_without_the_extra_it_says_what_to_install_and_writes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from seatwright.commands.main import main

    monkeypatch.setattr(printing, "find_spec", lambda name: None)
    assert main(["build", str(JOBS / "single-cylinder.seat"), "-o", str(tmp_path / "out"), "--pdf"]) == 2
    assert "pip install 'seatwright[pdf]'" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_a_paper_of_which_two_do_not_go_on_a_sheet_is_refused(tmp_path: Path) -> None:
    job = str(JOBS / "single-cylinder.seat")
    done = seatwright("build", job, "-o", str(tmp_path / "out"), "--two-up", "--paper", "letter")
    assert done.code == 2
    assert "two of a5 or of half-letter do" in done.err
