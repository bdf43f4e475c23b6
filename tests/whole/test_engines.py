"""Engine files over whole jobs: a type's lines in its own file change no figure; `compare` finds what one reaches."""

from __future__ import annotations

import resource
import subprocess
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from tests.engine_files import figures, made, parted
from tests.whole.generated import Files, jobs
from tests.whole.shop import JOBS, seatwright

from seatwright.cards.deck import cards
from seatwright.cards.stamp import own

DEMO = sorted(path.name for path in JOBS.glob("*.seat"))


def beside() -> dict[str, bytes]:
    """The files that demo jobs use, by their names."""
    used = (*JOBS.glob("*.shop"), *JOBS.glob("engines/*.engine"))
    return {path.relative_to(JOBS).as_posix(): path.read_bytes() for path in used}


@pytest.mark.parametrize("units", ["mm", "inch"])
@pytest.mark.parametrize("name", DEMO)
def test_a_demo_job_and_the_same_on_an_engine_file_have_the_same_plan(name: str, units: str) -> None:
    whole = (JOBS / name).read_text("utf-8")
    if '\nuse "engines/' in whole:
        pytest.skip("it rests on an engine file already")
    apart = parted(whole, units)
    if apart is None:
        pytest.skip("it has two heads")
    files = beside()
    assert figures(apart.job, {**files, "type.engine": apart.engine.encode()}) == figures(whole, files)


@pytest.mark.slow
@settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
@given(files=jobs())
def test_a_generated_job_and_the_same_on_an_engine_file_have_the_same_plan(files: Files) -> None:
    shop = {"made-up.shop": files.shop.encode()}
    whole = figures(files.job, shop)
    for units in ("mm", "inch"):
        apart = parted(files.job, units)
        assert apart is not None
        assert figures(apart.job, {**shop, "type.engine": apart.engine.encode()}) == whole


# --- compare over a folder --------------------------------------------------------------------------------------------


def folder_of(jobs_in_it: dict[str, str], place: Path) -> Path:
    """A folder of jobs under version control, with the demo's shop and engine files."""
    place.mkdir()
    for name, data in beside().items():
        (place / name).parent.mkdir(exist_ok=True)
        (place / name).write_bytes(data)
    for name, text in jobs_in_it.items():
        (place / name).parent.mkdir(exist_ok=True)
        (place / name).write_text(text, "utf-8")
    commit(place)
    return place


def commit(place: Path) -> None:
    git = ["git", "-C", str(place), "-c", "user.name=a", "-c", "user.email=a@b.invalid"]
    for words in (["init", "-q"], ["add", "."], ["commit", "-qm", "x"]):
        subprocess.run([*git, *words], check=True, capture_output=True)


STAYS = (JOBS / "seats-that-stay.seat").read_text("utf-8")
SINGLE = (JOBS / "single-cylinder.seat").read_text("utf-8")
LEAVES = (JOBS / "ready-to-leave.seat").read_text("utf-8")


def numbered(text: str, number: int) -> str:
    """The same job under another number, its files named from a folder below."""
    head, _, rest = text.partition("\njob ")
    return f"{head}\njob {number} {rest.split(' ', 1)[1]}".replace('use "', 'use "../')


def correct(place: Path, was: str, now: str) -> None:
    file = place / "engines" / "rj4.engine"
    text = file.read_text("utf-8")
    assert was in text
    file.write_text(text.replace(was, now), "utf-8")


def test_compare_of_two_hundred_jobs_names_exactly_those_that_rest_on_a_figure_and_takes_less_than_ten_seconds(
    tmp_path: Path,
) -> None:
    kinds = {"stays": STAYS, "single": SINGLE, "leaves": LEAVES}
    texts = {
        f"year/{kind}-{number}.seat": numbered(text, number) for number in range(1, 68) for kind, text in kinds.items()
    }
    texts = dict(sorted(texts.items())[:200])
    place = folder_of(texts, tmp_path / "shop")
    correct(place, "1.6 to 2.0", "1.7 to 2.1")
    begun = resource.getrusage(resource.RUSAGE_CHILDREN)
    ran = seatwright("compare", ".", cwd=place)
    ended = resource.getrusage(resource.RUSAGE_CHILDREN)
    took = (ended.ru_utime - begun.ru_utime + ended.ru_stime - begun.ru_stime) / 2  # two cores, whoever else uses them
    assert ran.code == 1, ran.err
    named = {line.split()[1] for line in ran.out.splitlines() if line.startswith("  ")}
    assert named == {name for name in texts if "stays" in name}
    assert took < 10, f"{took:.1f} s"


def test_a_job_that_is_cut_stands_apart_and_jobs_of_one_side_only_are_named(tmp_path: Path) -> None:
    texts = {"a.seat": STAYS, "b.seat": SINGLE, "gone.seat": SINGLE.replace("job 41", "job 42")}
    place = folder_of({**texts, "cut.seat": LEAVES}, tmp_path / "shop")
    bt2 = place / "engines" / "bt2.engine"
    bt2.write_text(bt2.read_text("utf-8").replace(", marine petrol", ", boats"), "utf-8")
    correct(place, "1.6 to 2.0", "1.7 to 2.1")
    (place / "gone.seat").unlink()
    (place / "new.seat").write_text(SINGLE.replace("job 41", "job 43"), "utf-8")
    (place / "broken.seat").write_text("job 44\n", "utf-8")
    out = seatwright("compare", ".", cwd=place).out
    opened, _, rest = out.partition("already cut, for the record:")
    assert "a.seat" in opened
    assert "b.seat" not in out
    assert "cut.seat" in rest
    assert "only in .@HEAD: gone.seat" in rest
    assert "only in .: broken.seat" in rest
    assert "only in .: new.seat" in rest
    only = seatwright("compare", ".@HEAD", ".", "--using", "engines/bt2.engine", "--as", "json", cwd=place)
    assert '"a.seat"' not in only.out
    assert '"cut.seat"' in only.out


def test_nothing_changed_is_said_and_a_changed_comment_is_nothing(tmp_path: Path) -> None:
    place = folder_of({"a.seat": STAYS}, tmp_path / "shop")
    assert seatwright("compare", ".", cwd=place).code == 0
    correct(place, "# What the maker of the RJ4", "# What is printed by the maker of the RJ4")
    ran = seatwright("compare", ".", cwd=place)
    assert (ran.code, ran.out) == (0, ".@HEAD and .: nothing changes on the cards of 1 job.\n")


# --- how far `use` may climb ------------------------------------------------------------------------------------------


def test_a_job_may_climb_to_the_folder_that_holds_git_and_no_further(tmp_path: Path) -> None:
    place = folder_of({"old/a.seat": numbered(STAYS, 1)}, tmp_path / "shop")
    assert seatwright("check", "old/a.seat", cwd=place).code == 0
    (tmp_path / "bench.shop").write_bytes((place / "bench.shop").read_bytes())
    further = place / "old" / "b.seat"
    further.write_text(numbered(STAYS, 2).replace('"../bench.shop"', '"../../bench.shop"'), "utf-8")
    assert "use-refused" in seatwright("check", "old/b.seat", cwd=place).err
    link = place / "linked.engine"
    link.symlink_to(tmp_path / "bench.shop")
    further.write_text(numbered(STAYS, 2).replace('"../engines/rj4.engine"', '"../linked.engine"'), "utf-8")
    assert "use-refused" in seatwright("check", "old/b.seat", cwd=place).err


def test_without_a_repository_a_job_stays_in_its_own_folder(tmp_path: Path) -> None:
    (tmp_path / "old").mkdir()
    (tmp_path / "bench.shop").write_bytes((JOBS / "bench.shop").read_bytes())
    (tmp_path / "old" / "a.seat").write_text(numbered(SINGLE, 1), "utf-8")
    assert "use-refused" in seatwright("check", "old/a.seat", cwd=tmp_path).err


def test_what_a_card_says_does_not_change_with_a_comment_in_the_engine_file() -> None:
    files = beside()
    before, _ = made(STAYS, files)
    files["engines/rj4.engine"] = b"# another comment\n\n" + files["engines/rj4.engine"]
    after, _ = made(STAYS, files)
    assert [own(card) for card in cards(before)] == [own(card) for card in cards(after)]


# --- new --------------------------------------------------------------------------------------------------------------


def test_a_new_job_of_an_engine_says_none_of_its_figures_and_reads_clean(tmp_path: Path) -> None:
    place = folder_of({}, tmp_path / "shop")
    words = ("new", "n.seat", "--engine", "engines/rj4.engine", "--units", "mm", "--shop", "bench.shop")
    assert seatwright(*words, "--numbers", "5 6 7 8", cwd=place).code == 0
    text = (place / "n.seat").read_text("utf-8")
    assert 'use "engines/rj4.engine"' in text
    assert "\nvalves I5 E5 I6 E6 I7 E7 I8 E8 " in text
    assert "  cylinders  5 6 7 8" in text
    assert "recession 0.5" not in text
    assert "material" in text.split("\nhead")[0]
    assert seatwright("check", "n.seat", cwd=place).code in (0, 3)


@pytest.mark.parametrize("units", ["mm", "inch"])
def test_a_new_engine_file_checks_clean_and_stands_in_its_layout(units: str, tmp_path: Path) -> None:
    words = ("new", "x.engine", "--units", units, "--source", "overhaul manual 3", "--title", "two cylinders")
    assert seatwright(*words, cwd=tmp_path).code == 0
    ran = seatwright("check", "--all", "x.engine", cwd=tmp_path)
    assert (ran.code, ran.err) == (0, "")
    assert seatwright("format", "--check", "x.engine", cwd=tmp_path).out == ""
