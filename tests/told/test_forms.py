"""What `explain` and `compare` write for programs, held against the schemas of their forms; citations that resolve."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from seatwright import plan, read
from seatwright.commands import compare, compare_folders, explain
from seatwright.handbook.page import SECTIONS
from seatwright.told.derivation import named_figures

TOP = Path(__file__).resolve().parents[2]
JOBS = TOP / "jobs"
DEMOS = sorted(path.name for path in JOBS.glob("*.seat"))
_CITED = re.compile(r"handbook ((?:\d+)(?:(?:, | and )\d+)*)")


def said(*words: str) -> dict[str, object]:
    ran = subprocess.run([sys.executable, "-m", "seatwright", *words], cwd=JOBS, capture_output=True, check=False)
    found = json.loads(ran.stdout)
    assert isinstance(found, dict)
    return found


def strict(schema: str) -> jsonschema.Draft202012Validator:
    whole = json.loads(schema)
    for record in whole["$defs"].values():
        record["additionalProperties"] = False
    jsonschema.Draft202012Validator.check_schema(whole)
    return jsonschema.Draft202012Validator(whole)


@pytest.mark.parametrize("module", [explain, compare, compare_folders], ids=["explain", "compare", "folders"])
def test_the_shipped_schema_is_the_one_that_the_records_make(module: object) -> None:
    name = module.__name__.rpartition(".")[2]  # type: ignore[attr-defined]
    shipped = (TOP / "grammar" / f"{name}.schema.json").read_text("utf-8")
    assert shipped == module.schema()  # type: ignore[attr-defined]


def test_what_explain_says_of_a_demo_valve_and_of_a_setting_fits_its_schema() -> None:
    fits = strict(explain.schema())
    for words in (
        ("single-cylinder.seat", "E1"),
        ("four-cylinder-diesel.seat", "E2"),
        ("half-way.seat", "setting", "1"),
    ):
        answer = said("explain", *words, "--as", "json")
        fits.validate(answer)
        assert answer["format"] == "seatwright-explain/1"
    with pytest.raises(jsonschema.ValidationError):
        fits.validate({**answer, "figures": 3})


def test_what_compare_says_of_two_demo_jobs_fits_its_schema() -> None:
    fits = strict(compare.schema())
    answer = said("compare", "single-cylinder.seat", "half-way.seat", "--as", "json")
    fits.validate(answer)
    assert answer["changes"] is True
    with pytest.raises(jsonschema.ValidationError):
        fits.validate({**answer, "changes": "yes"})


def test_what_compare_says_of_two_folders_fits_its_schema(tmp_path: Path) -> None:
    for side, file in (("old", "single-cylinder.seat"), ("new", "as-found.seat")):
        shutil.copytree(JOBS, tmp_path / side, ignore=shutil.ignore_patterns("cards", "quarter"))
        (tmp_path / side / "a.seat").write_bytes((JOBS / file).read_bytes())
    (tmp_path / "new" / "as-found.seat").unlink()
    answer = said("compare", str(tmp_path / "old"), str(tmp_path / "new"), "--as", "json")
    strict(compare_folders.schema()).validate(answer)
    assert (answer["format"], answer["only_old"]) == ("seatwright-compare-folders/1", ["as-found.seat"])
    reached = answer["reached"]
    assert isinstance(reached, list)
    assert [one["file"] for one in reached] == ["a.seat"]


@pytest.mark.parametrize("name", DEMOS)
def test_each_citation_of_the_handbook_is_a_section_of_the_page_that_ships(name: str) -> None:
    job, _ = read(name, lambda path: (JOBS / path).read_bytes())
    assert job is not None
    made = plan(job)
    page = (TOP / "compiler" / "seatwright" / "handbook" / "README.md").read_text("utf-8")
    titles = {str(section.number) for section in SECTIONS if f"## {section.number} {section.title}" in page}
    cited = set()
    for part in (*made.valves, *made.settings):
        for _, figure in named_figures(part):
            for each in figure.walk():
                assert not re.search(r"\[S\d|trade.facts|worked.checks", each.source), each.source
                for sections in _CITED.findall(each.source):
                    cited |= set(re.findall(r"\d+", sections))
    assert cited <= titles
    assert cited or not any(valve.bore for valve in made.valves)
