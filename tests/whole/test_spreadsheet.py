"""A spreadsheet opens what `table` and `stock` write: the figures come back equal, and a text is never reckoned."""

from __future__ import annotations

import csv
import io
import os
import shutil
import subprocess
import xml.etree.ElementTree as xml
from pathlib import Path

import pytest
from tests.whole.shop import JOBS, seatwright

OFFICE = shutil.which("soffice") or shutil.which("libreoffice")
REQUIRED = os.environ.get("SEATWRIGHT_SPREADSHEET") == "required"
_IN = "{urn:oasis:names:tc:opendocument:xmlns:%s:1.0}"

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(OFFICE is None and not REQUIRED, reason="wants LibreOffice (Debian: libreoffice-calc-nogui)"),
]


def opened(text: str, folder: Path, filter_: str) -> list[list[str | float]]:
    """The cells as the spreadsheet took them. filter_: separator and quote by their codes, UTF-8, English figures."""
    assert OFFICE is not None, "LibreOffice is not installed"
    (folder / "table.csv").write_text(text, "utf-8", newline="")
    subprocess.run(
        [OFFICE, f"-env:UserInstallation={(folder / 'office').as_uri()}", "--headless", f"--infilter={filter_}",
         "--convert-to", "fods", "--outdir", str(folder), str(folder / "table.csv")],
        check=True, capture_output=True, timeout=120,
    )  # fmt: skip
    rows = []
    for row in xml.parse(folder / "table.fods").iter(f"{_IN % 'table'}table-row"):
        cells: list[str | float] = []
        for cell in row.iter(f"{_IN % 'table'}table-cell"):
            assert f"{_IN % 'table'}formula" not in cell.attrib, "a text was taken for a formula"
            times = int(cell.get(f"{_IN % 'table'}number-columns-repeated", "1"))
            value = cell.get(f"{_IN % 'office'}value")
            text_ = "\n".join("".join(each.itertext()) for each in cell.iter(f"{_IN % 'text'}p"))
            cells += [float(value) if value is not None else text_] * (times if times < 1000 else 1)
        while cells and cells[-1] == "":
            cells.pop()
        if cells:
            rows.append(cells)
    return rows


def as_read(text: str, separator: str) -> list[list[str | float]]:
    """The cells as the file has them: figures as figures."""
    rows = []
    for row in csv.reader(io.StringIO(text), delimiter=separator):
        cells: list[str | float] = [_figure(cell) for cell in row]
        while cells and cells[-1] == "":
            cells.pop()
        if cells:
            rows.append(cells)
    return rows


def _figure(cell: str) -> str | float:
    try:
        return float(cell)
    except ValueError:
        return cell


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A job with an insert and a head of names that a spreadsheet might reckon."""
    folder = tmp_path_factory.mktemp("shop")
    job = (JOBS / "half-way.seat").read_text("utf-8").replace("X36A", '"=1+1"')
    (folder / "=half-way.seat").write_text(job, "utf-8")
    (folder / "bench.shop").write_text((JOBS / "bench.shop").read_text("utf-8").replace("X36A", '"=1+1"'), "utf-8")
    return folder


@pytest.mark.parametrize(("form", "separator", "code"), [("csv", ",", 44), ("tsv", "\t", 9)])
def test_the_figures_of_a_table_come_back_equal(
    shop: Path, tmp_path: Path, form: str, separator: str, code: int
) -> None:
    ran = seatwright("table", str(shop), "bore", "insert", "cut", "found", "--as", form)
    assert ran.code == 0, ran.err
    rows = opened(ran.out, tmp_path, f"CSV:{code},34,76,1,,1033,false,true")
    dates = _dates_as_typed(rows, ran.out, separator)
    assert dates == as_read(ran.out, separator)
    assert "'=half-way.seat" in ran.out
    assert "'=1+1" in ran.out
    assert len(rows) > 4
    assert sum(isinstance(cell, float) for row in rows[1:] for cell in row) > 50


def _dates_as_typed(rows: list[list[str | float]], text: str, separator: str) -> list[list[str | float]]:
    """A spreadsheet shows a date as the person likes it: only that it is one is looked at."""
    typed = as_read(text, separator)
    return [
        [one if isinstance(one, str) and one.count("-") == 2 and other != one and one[:2] == "20" else other
         for one, other in zip(line, row, strict=True)]
        for line, row in zip(typed, rows, strict=True)
    ]  # fmt: skip


def test_stock_opens_too_and_its_counts_are_counts(shop: Path, tmp_path: Path) -> None:
    ran = seatwright("stock", str(shop), "--as", "csv")
    assert ran.code in (0, 3), ran.err
    rows = opened(ran.out, tmp_path, "CSV:44,34,76,1,,1033")
    [first] = [row for row in rows[1:] if row[1] == "'=1+1"]
    assert (first[0], first[2], first[3]) == ("bench.shop", 36.59, 5.0)
    assert rows[0][:3] == ["shelf", "insert", "od_mm"]


def test_the_bores_of_the_history_open_and_come_back_equal(tmp_path: Path) -> None:
    ran = seatwright("history", str(JOBS / "quarter"), "-o", str(tmp_path / "history"))
    assert ran.code == 0, ran.err
    for name, figures in (("overcuts.csv", 100), ("readings.csv", 70)):
        text = (tmp_path / "history" / name).read_text("utf-8")
        rows = opened(text, tmp_path, "CSV:44,34,76,1,,1033,false,true")
        assert _dates_as_typed(rows, text, ",") == as_read(text, ",")
        assert sum(isinstance(cell, float) for row in rows[1:] for cell in row) > figures
