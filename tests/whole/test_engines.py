"""Engine files over whole jobs: a type's lines in its own file change no figure; `compare` finds what one reaches."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from tests.engine_files import figures, parted
from tests.whole.generated import Files, jobs
from tests.whole.shop import JOBS

DEMO = sorted(path.name for path in JOBS.glob("*.seat"))


def beside(job: str) -> dict[str, bytes]:
    """The files that a demo job uses, by their names."""
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
    files = beside(name)
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
