"""What is built for others: a wheel with every file of the package, and an sdist with what a developer needs."""

from __future__ import annotations

import os
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[2]
MAPPED = {"compiler/seatwright": "seatwright", "grammar": "seatwright/grammar", "templates": "seatwright/templates"}

pytestmark = pytest.mark.slow


def in_the_tree(folder: str) -> set[str]:
    """The files of a folder that are kept in version control, or would be."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard", folder],
        cwd=TOP,
        capture_output=True,
        text=True,
        check=True,
    )
    return {name for name in listed.stdout.split("\0") if name and (TOP / name).is_file()}


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the sdist, and the wheel that is made of it."""
    out = tmp_path_factory.mktemp("built")
    subprocess.run([sys.executable, "-m", "build", "--outdir", str(out), str(TOP)], check=True, capture_output=True)
    return out


def test_the_wheel_has_every_file_of_the_package_and_no_other(built: Path) -> None:
    (wheel,) = built.glob("*.whl")
    held = {name for name in zipfile.ZipFile(wheel).namelist() if ".dist-info/" not in name}
    wanted = {f"{place}{name.removeprefix(folder)}" for folder, place in MAPPED.items() for name in in_the_tree(folder)}
    assert held == wanted


def test_the_sdist_carries_tests_jobs_and_the_page_for_developers(built: Path) -> None:
    (sdist,) = built.glob("*.tar.gz")
    with tarfile.open(sdist) as archive:
        held = {name.split("/", 1)[1] for name in archive.getnames() if "/" in name}
    for folder in ("compiler", "grammar", "templates", "tests", "jobs"):
        assert in_the_tree(folder) <= held
    assert {"README.md", "DEVELOPERS.md", "pyproject.toml"} <= held


def test_an_installed_wheel_builds_a_demo_job_to_the_bytes_of_this_tree(built: Path, tmp_path: Path) -> None:
    (wheel,) = built.glob("*.whl")
    elsewhere = tmp_path / "elsewhere"
    subprocess.run(
        [sys.executable, "-m", "pip", "install", "-q", "--no-deps", "--target", str(elsewhere), str(wheel)], check=True
    )
    job = TOP / "jobs" / "single-cylinder.seat"
    cards = {}
    for name, path in (("wheel", str(elsewhere)), ("tree", "")):
        ran = subprocess.run(
            [sys.executable, "-m", "seatwright", "build", str(job), "-o", str(tmp_path / name)],
            env={**os.environ, "PYTHONPATH": path},
            cwd=tmp_path,
            capture_output=True,
            text=True,
            check=True,
        )
        cards[name] = [(tmp_path / name / "single-cylinder" / one).read_bytes() for one in ("cards.html", "plan.json")]
        assert ran.returncode == 0
    place = subprocess.run(
        [sys.executable, "-c", "import seatwright; print(seatwright.__file__)"],
        env={**os.environ, "PYTHONPATH": str(elsewhere)},
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    )
    assert Path(place.stdout.strip()).is_relative_to(elsewhere)
    assert cards["wheel"] == cards["tree"]
