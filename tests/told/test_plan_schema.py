"""plan.json against its schema, which is made from the records that it is written from."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from seatwright import documents, plan, read
from seatwright.told.plan_schema import schema

TOP = Path(__file__).resolve().parents[2]
JOBS = TOP / "jobs"


def with_no_other_name(part: object) -> None:
    """Makes a schema refuse every name that it does not declare."""
    if isinstance(part, dict):
        if part.get("type") == "object" and "properties" in part:
            part.setdefault("additionalProperties", False)
        for each in part.values():
            with_no_other_name(each)
    elif isinstance(part, list):
        for each in part:
            with_no_other_name(each)


def test_the_shipped_schema_is_the_one_that_the_records_make() -> None:
    assert (TOP / "grammar" / "plan.schema.json").read_text("utf-8") == schema()


@pytest.mark.parametrize("name", sorted(path.name for path in JOBS.glob("*.seat")))
def test_the_plan_of_a_demo_job_has_every_name_that_is_required_and_none_that_is_not_declared(name: str) -> None:
    strict = json.loads(schema())
    with_no_other_name(strict)
    jsonschema.Draft202012Validator.check_schema(strict)
    job, _ = read(name, lambda path: (JOBS / path).read_bytes())
    assert job is not None
    written = json.loads(documents(plan(job)).plan_json)
    jsonschema.Draft202012Validator(strict).validate(written)
    next(iter(written["valves"].values()))["bore"] = {"least": "33.4"}
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft202012Validator(strict).validate(written)
