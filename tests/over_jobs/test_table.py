"""Any figure of every valve of all jobs: what a path means, and what is written for a spreadsheet."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from tests.whole.shop import JOBS

from seatwright.handbook import MM_PER_INCH
from seatwright.job import read
from seatwright.over_jobs.spreadsheets import csv_rows, sheet_text, tsv_rows
from seatwright.over_jobs.table.document import schema, written_table
from seatwright.over_jobs.table.paths import NoSuchPath, paths_below, table_paths
from seatwright.over_jobs.table.rows import OWN_COLUMNS, TableCell, TableRow, filled_columns, headings, table_rows
from seatwright.planning.plan import Plan
from seatwright.planning.planner import plan
from seatwright.told.derivation import named_figures
from seatwright.told.plan_json import plan_document, rounded


@pytest.fixture(scope="module", params=["four-valve-aluminium", "half-way", "ready-to-leave", "seats-that-stay"])
def made(request: pytest.FixtureRequest) -> Plan:
    job, _ = read(f"{request.param}.seat", lambda name: (JOBS / name).read_bytes())
    assert job is not None
    return plan(job)


def test_every_figure_that_explain_names_can_be_asked_for_and_is_the_same(made: Plan) -> None:
    for valve in made.valves:
        figures = {path: each for path, each in named_figures(valve) if path and not path.startswith("holds")}
        assert figures
        paths = list(figures)
        assert [paths_below(path) for path in paths] == [(path,) for path in paths]
        [row] = [row for row in table_rows(made, "a.seat", paths, inch=False) if row.own[3] == valve.name]
        [inches] = [row for row in table_rows(made, "a.seat", paths, inch=True) if row.own[3] == valve.name]
        for path, cell, inch in zip(paths, row.cells, inches.cells, strict=True):
            figure = figures[path]
            assert cell is not None
            assert inch is not None
            assert cell.value == rounded(figure.value)
            assert cell.unit == figure.unit.removeprefix("1") if figure.unit == "1" else figure.unit
            length = figure.unit == "mm"
            assert inch.value == rounded(figure.value / MM_PER_INCH if length else figure.value)
            assert (inch.unit == "inch") is length


def test_the_first_word_gives_all_below_it_in_the_order_of_plan_json(made: Plan) -> None:
    document = plan_document(made)
    valves = document["valves"]
    assert isinstance(valves, dict)
    for valve in made.valves:
        for word, part in valves[valve.name].items():
            if not isinstance(part, dict) or word == "holds_text":
                continue
            leaves = list(_leaves(part, word))
            paths = list(paths_below(word))
            [row] = [row for row in table_rows(made, "a.seat", paths, inch=False) if row.own[3] == valve.name]
            found = [(path, cell.value) for path, cell in zip(paths, row.cells, strict=True) if cell is not None]
            assert [each for each in found if each[1] != []] == leaves


def _leaves(part: dict[str, object], path: str) -> list[tuple[str, object]]:
    """Figures and words of a part of plan.json; lists of records are no figures."""
    found: list[tuple[str, object]] = []
    for name, value in part.items():
        if isinstance(value, dict):
            found += _leaves(value, f"{path}.{name}")
        elif not isinstance(value, list) or (value and not isinstance(value[0], dict | list)):
            found.append((f"{path}.{name}", value))
    return found


@pytest.mark.parametrize(
    ("path", "hint"),
    [
        ("bor.aim", "did you mean bore.aim?"),
        ("insert.nam", "did you mean insert.name?"),
        ("bore.", "did you mean bore?"),
        ("", ""),
        ("qqqqqqq", "`seatwright explain JOB VALVE`"),
        ("insert.passed_over", "name one of them by its name or its number"),
        ("bore.aim.value", "did you mean bore.aim?"),
    ],
)
def test_a_path_that_no_plan_can_have_is_refused_with_the_nearest(path: str, hint: str) -> None:
    with pytest.raises(NoSuchPath) as said:
        paths_below(path)
    assert hint in str(said.value)


def test_the_paths_of_a_plan_are_known_before_a_job_is_read() -> None:
    assert {"bore.aim", "cut.left_shelf", "insert.shelf", "found.guide_top", "holds", "seat.cuts.*.outer"} <= set(
        table_paths()
    )
    assert paths_below("cut.earlier.2.bore") == ("cut.earlier.2.bore",)


ROWS = (
    TableRow(
        ("7", "a, b.seat", "1", "E1", "exhaust", "to-bore", "", "2026-11-20"),
        (TableCell(44.02, "mm"), TableCell("=1+1", ""), TableCell(True, ""), TableCell([1.5, 2.0], "mm"), None),
    ),
    TableRow(
        ("7", "a, b.seat", "1", "E2", "exhaust", "hold", "", ""),
        (TableCell(-0.000001, "mm"), TableCell('say "so"', ""), None, None, None),
    ),
)
PATHS = ("bore.aim", "insert.name", "cut.again", "passes", "cut.bore")


def test_csv_has_point_decimals_and_quotes_and_no_formula() -> None:
    text = written_table("csv", PATHS, ROWS, ())
    assert text == (
        "job,file,head,valve,kind,status,received,due,bore.aim [mm],insert.name,cut.again,passes [mm],cut.bore\n"
        '7,"a, b.seat",1,E1,exhaust,to-bore,,2026-11-20,44.02,\'=1+1,yes,1.5 2,\n'
        '7,"a, b.seat",1,E2,exhaust,hold,,,-0.000001,"say ""so""",,,\n'
    )
    tabbed = list(csv.reader(io.StringIO(written_table("tsv", PATHS, ROWS, ())), delimiter="\t"))
    assert tabbed == list(csv.reader(io.StringIO(text)))


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@a", "\t=1"])
def test_a_text_that_a_spreadsheet_would_reckon_gets_a_mark_in_front(text: str) -> None:
    assert sheet_text(text) == f"'{text}"
    assert sheet_text(f"a{text}") == f"a{text}"
    assert csv_rows([[text, -1.5]]).endswith(",-1.5\n")
    assert tsv_rows([[-1.5, 3]]) == "-1.5\t3\n"


def test_json_leaves_out_what_was_not_computed_and_keeps_to_its_schema() -> None:
    whole = json.loads(written_table("json", PATHS, ROWS, ("b.seat",)))
    Draft202012Validator(json.loads(schema())).validate(whole)
    assert whole["columns"][0] == {"path": "bore.aim", "unit": "mm"}
    assert whole["rows"][0]["figures"] == {
        "bore.aim": 44.02, "insert.name": "=1+1", "cut.again": True, "passes": [1.5, 2.0],
    }  # fmt: skip
    assert (whole["format"], whole["left_out"]) == ("seatwright-table/1", ["b.seat"])
    assert "due" not in whole["rows"][1]


def test_markdown_is_a_table_in_which_nothing_is_markup() -> None:
    rows = (TableRow(("7", "a|b_c.seat", *ROWS[0].own[2:]), ROWS[0].cells), ROWS[1])
    lines = written_table("markdown", PATHS, rows, ()).splitlines()
    assert len({line.replace("\\|", "").count("|") for line in lines}) == 1
    assert "a\\|b\\_c.seat" in lines[2]


def test_a_column_below_what_was_asked_for_is_shown_where_any_valve_has_it() -> None:
    assert filled_columns(["bore.aim", "cut"], PATHS, ROWS) == [0, 1, 2, 3]
    assert filled_columns(["cut.bore"], PATHS, ROWS) == [0, 1, 2, 3, 4]
    assert list(headings(PATHS, ROWS))[-1] == "cut.bore"
    assert len(OWN_COLUMNS) == len(ROWS[0].own)


def test_the_shipped_schema_is_the_one_that_the_records_make() -> None:
    there = (Path(__file__).parents[2] / "grammar" / "table.schema.json").read_text("utf-8")
    assert there == schema(), "renew it: python -m seatwright.over_jobs.table.document > grammar/table.schema.json"
