"""`stock`, `table` and `check FOLDER` over a folder of jobs: what they say, and that no job's cards know of another."""

from __future__ import annotations

import hashlib
import json
import shutil
import subprocess
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from tests.whole.shop import JOBS, ROOT, Ran, seatwright
from tests.whole.terminal import on_a_terminal

QUARTER = JOBS / "quarter"


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """The jobs of the quarter that are open, with their shelves."""
    folder = tmp_path / "shop"
    folder.mkdir()
    for name in ("2184-haulage.seat", "2185-farm.seat", "2186-quarry.seat", "2188-boatyard.seat", "2176-airfield.seat"):
        shutil.copy(QUARTER / name, folder)
    for name in ("bench.shop", "spare.shop"):
        shutil.copy(QUARTER / name, folder)
    return folder


def contents(folder: Path) -> dict[str, str]:
    places = sorted(place for place in folder.rglob("*") if place.is_file())
    return {str(place.relative_to(folder)): hashlib.sha256(place.read_bytes()).hexdigest() for place in places}


def stock(shop: Path, *words: str) -> Ran:
    return seatwright("stock", ".", *words, cwd=shop)


def test_two_jobs_that_are_promised_one_ring_are_both_named_in_stock_and_check(shop: Path) -> None:
    said = (
        "X36A: 1 on the shelf, 2 promised; job 2184 (due 2026-12-01) has it, job 2186 (due 2026-12-04) lacks 1 for E2."
    )
    ran = stock(shop)
    assert ran.code == 3
    assert said in " ".join(ran.err.split())
    assert "  1 × X36A (bench.shop), for job 2186 E2\n" in ran.out
    for form in ("lines", "json", "sarif"):
        checked = seatwright("check", ".", "--as", form, cwd=shop)
        assert said in checked.out, form
    checked = seatwright("check", ".", cwd=shop)
    assert said in " ".join(checked.err.split())
    assert "stock over all jobs: same-name-two-shelves" in checked.err
    assert checked.code == 0, "a short shelf is no error of a job's"
    assert seatwright("check", ".", "--strict", cwd=shop).code == 1
    each = seatwright("check", *sorted(place.name for place in shop.glob("*.seat")), cwd=shop)
    assert "promised-twice" not in each.err


def test_a_gauge_that_is_overdue_is_said_once_for_a_folder_with_its_jobs(shop: Path) -> None:
    said = "it was overdue for jobs 2176 2184 2186 2188, days 2026-11-11 to 2026-11-24."
    for form in ("text", "lines", "json", "sarif"):
        checked = (
            seatwright("check", ".", "--as", form, cwd=shop) if form != "text" else seatwright("check", ".", cwd=shop)
        )
        everything = " ".join((checked.out + checked.err).split())
        assert (
            everything.count(
                'The gauge \\"two-point bore' if form in ("json", "sarif") else 'The gauge "two-point bore'
            )
            == 1
        )
        assert said in everything, form
    alone = seatwright("check", "2184-haulage.seat", cwd=shop)
    assert "the job's day is" in " ".join(alone.err.split())
    assert seatwright("check", ".", "--strict", cwd=shop).code == 1


def test_what_came_in_or_is_due_earlier_changes_who_is_served(shop: Path) -> None:
    bench = (shop / "bench.shop").read_text("utf-8")
    (shop / "bench.shop").write_text(f"{bench}\nstock 2026-11-25\n  insert  delivered\n  X36A    1\n", "utf-8")
    assert stock(shop).code == 0
    (shop / "bench.shop").write_text(bench, "utf-8")
    job = shop / "2186-quarry.seat"
    job.write_text(job.read_text("utf-8").replace("2026-12-04", "2026-11-30"), "utf-8")
    assert "job 2186 (due 2026-11-30) has it, job 2184 (due 2026-12-01) lacks 1" in " ".join(stock(shop).err.split())


def test_json_keeps_to_its_schema_and_csv_says_the_same(shop: Path) -> None:
    whole = json.loads(stock(shop, "--as", "json").out)
    Draft202012Validator(json.loads((ROOT / "grammar" / "stock.schema.json").read_text("utf-8"))).validate(whole)
    assert (whole["format"], whole["jobs"], whole["left_out"]) == ("seatwright-stock/1", 5, [])
    [bench, spare] = whole["shelves"]
    assert (bench["shelf"], spare["shelf"]) == ("bench.shop", "spare.shop")
    short = [each for each in bench["pieces"] if each["short"]]
    assert [(each["name"], each["short"], each["left"]) for each in short] == [("X36A", 1, 0)]
    assert [(each["name"], each["for"][0]["job"], each["for"][0]["valves"]) for each in whole["order"]] == [
        ("X36A", "2186", ["E2"])
    ]
    lines = stock(shop, "--as", "csv").out.splitlines()
    assert "bench.shop,X36A,36.59,1,2026-10-31,0,0,2,0,1,2186,2026-12-04" in lines
    assert lines[-1] == "1,X36A,,,,,,1,2186"


def test_a_job_with_errors_is_named_left_out_and_ends_with_1(shop: Path) -> None:
    (shop / "later").mkdir()
    (shop / "later" / "2190.seat").write_text('job 2190 "no units"\nhead "x"\n', "utf-8")
    ran = stock(shop, "--as", "json")
    assert ran.code == 1
    assert "later/2190.seat has " in ran.err
    assert json.loads(ran.out)["left_out"] == ["later/2190.seat"]
    table = seatwright("table", ".", "bore.aim", cwd=shop)
    assert table.code == 1
    assert "is not in these figures" in table.err
    assert len(table.out.splitlines()) > 5
    assert "2190" not in table.out


def test_a_shelf_is_one_file_from_whatever_folder_its_jobs_use_it(shop: Path) -> None:
    before = stock(shop, "--as", "csv").out
    (shop / ".git").mkdir()
    (shop / "2026").mkdir()
    for name in ("2184-haulage.seat", "2176-airfield.seat"):
        text = (shop / name).read_text("utf-8").replace('use "bench.shop"', 'use "../bench.shop"')
        (shop / "2026" / name).write_text(text, "utf-8")
        (shop / name).unlink()
    assert stock(shop, "--as", "csv").out == before, "a move inside the folder changes nothing but the path"


def test_the_shelves_of_a_revision_are_those_that_stood_then(shop: Path) -> None:
    before = stock(shop, "--as", "csv").out
    for words in (
        ["init", "-q"], ["add", "."], ["-c", "user.name=a", "-c", "user.email=a@b.invalid", "commit", "-qm", "x"],
    ):  # fmt: skip
        subprocess.run(["git", "-C", str(shop), *words], check=True, capture_output=True)
    (shop / "2186-quarry.seat").unlink()
    assert stock(shop).code == 0
    ran = seatwright("stock", ".@HEAD", "--as", "csv", cwd=shop)
    assert (ran.code, ran.out) == (3, before)
    assert "bench.shop@HEAD:" in ran.err
    table = seatwright("table", f"{shop.name}@HEAD", "bore.aim", cwd=shop.parent)
    assert "2186-quarry.seat" in table.out
    assert seatwright("stock", "shop@nowhen", cwd=shop.parent).code == 2


def test_adding_breaking_or_deleting_a_job_leaves_every_other_jobs_cards_as_they_were(shop: Path) -> None:
    def built() -> dict[str, str]:
        assert seatwright("build", ".", "-o", "out", "--afresh", cwd=shop).code in (0, 1, 3)
        return contents(shop / "out")

    def of_others(found: dict[str, str]) -> dict[str, str]:
        return {name: value for name, value in found.items() if not name.startswith(("2186", "2999"))}

    before = built()
    assert before
    text = (shop / "2186-quarry.seat").read_text("utf-8")
    (shop / "2999.seat").write_text(text.replace("job 2186", "job 2999"), "utf-8")
    assert of_others(built()) == of_others(before)
    (shop / "2186-quarry.seat").write_text(text.replace("units", "unts"), "utf-8")
    assert of_others(built()) == of_others(before)
    (shop / "2186-quarry.seat").unlink()
    assert of_others(built()) == of_others(before)
    after = contents(shop)
    for words in (("stock", "."), ("history", "."), ("table", ".", "bore"), ("card", "deadbeef", "."), ("check", ".")):
        seatwright(*words, cwd=shop)
    assert contents(shop) == after, "what is said over many jobs writes nothing"


def test_many_side_by_side_say_what_one_after_the_other_does(shop: Path) -> None:
    for number in range(12):
        text = (shop / "2185-farm.seat").read_text("utf-8").replace("job 2185", f"job {3000 + number}")
        (shop / f"{3000 + number}.seat").write_text(text, "utf-8")
    alone, beside = (stock(shop, "--jobs", count) for count in ("1", "4"))
    assert (alone.code, alone.out, alone.err) == (beside.code, beside.out, beside.err)
    assert "lacks" in alone.err
    code, screen = on_a_terminal("", "stock", ".", "--as", "csv", cwd=shop)
    assert code == 3
    assert "17 of 17" in screen


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("stock", "nowhere"), "nowhere is no folder"),
        (("stock", "empty"), "empty is a folder without a job (.seat) in it"),
        (("table", ".", "bor.aim"), "no plan has a bor.aim; did you mean bore.aim?"),
        (("table", "bench.shop", "bore"), "bench.shop is no folder"),
        (("card", "zz", "."), "zz is no stamp"),
    ],
)
def test_what_cannot_be_meant_is_wrong_use(shop: Path, words: tuple[str, ...], why: str) -> None:
    (shop / "empty").mkdir()
    ran = seatwright(*words, cwd=shop)
    assert ran.code == 2
    assert why in ran.err
    assert ran.out == ""
