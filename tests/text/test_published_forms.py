"""What is printed for programs is held against the schemas of its forms."""

from __future__ import annotations

import json
from importlib import resources
from pathlib import Path

import jsonschema
import pytest

from seatwright.job import read
from seatwright.planning.planner import plan
from seatwright.text import Message, Related, Severity, Span, as_json, sarif

JOBS = Path(__file__).parents[2] / "jobs"
SCHEMA = json.loads(resources.files("seatwright.grammar").joinpath("messages.schema.json").read_text("utf-8"))

_HOLD = Message(
    Severity.HOLD, "bridge-thin", Span("a b.seat", 2, 9, 2, 25), "1.8 mm", "Take a smaller one.",
    (Related(Span("b.shop", 7, 3, 7, 9), "the least is set here"),), ("E1", "I1"),
)  # fmt: skip
_FILE = Message(Severity.ERROR, "job-unreadable", None, "no file", "")

# SARIF 2.1.0 (OASIS standard), the part of its object model that is used here, restated from the text of the standard:
# each object with all the properties that the standard gives it, so that a misspelt one is found out. No package on
# PyPI that was looked at (sarif-om, sarif-tools, pydantic-sarif, joern2sarif, fluidattacks-core-sarif) carries the
# published schema file itself.
_TEXT = {"type": "string"}
_SARIF = {
    "type": "object",
    "required": ["version", "runs"],  # 3.13.2, 3.13.4
    "additionalProperties": False,
    "properties": {
        "$schema": {"type": "string", "format": "uri"},  # 3.13.3
        "version": {"const": "2.1.0"},
        "runs": {"type": "array", "items": {"$ref": "#/$defs/run"}},
    },
    "$defs": {
        "run": {  # 3.14
            "type": "object",
            "required": ["tool"],
            "additionalProperties": False,
            "properties": {
                "tool": {"$ref": "#/$defs/tool"},
                "columnKind": {"enum": ["utf16CodeUnits", "unicodeCodePoints"]},  # 3.14.17
                "results": {"type": "array", "items": {"$ref": "#/$defs/result"}},
            },
        },
        "tool": {  # 3.18, 3.19
            "type": "object",
            "required": ["driver"],
            "additionalProperties": False,
            "properties": {
                "driver": {
                    "type": "object",
                    "required": ["name"],
                    "additionalProperties": False,
                    "properties": {
                        "name": _TEXT,
                        "version": _TEXT,
                        "rules": {"type": "array", "uniqueItems": True, "items": {"$ref": "#/$defs/rule"}},
                    },
                }
            },
        },
        "rule": {  # 3.49
            "type": "object",
            "required": ["id"],
            "additionalProperties": False,
            "properties": {"id": _TEXT, "shortDescription": {"$ref": "#/$defs/said"}},
        },
        "said": {  # 3.11
            "type": "object",
            "required": ["text"],
            "additionalProperties": False,
            "properties": {"text": _TEXT},
        },
        "result": {  # 3.27
            "type": "object",
            "required": ["message"],
            "additionalProperties": False,
            "properties": {
                "ruleId": _TEXT,
                "ruleIndex": {"type": "integer", "minimum": -1},
                "level": {"enum": ["none", "note", "warning", "error"]},
                "message": {"$ref": "#/$defs/said"},
                "locations": {"type": "array", "items": {"$ref": "#/$defs/location"}},
                "relatedLocations": {"type": "array", "uniqueItems": True, "items": {"$ref": "#/$defs/location"}},
                "properties": {"type": "object"},  # 3.8: a property bag takes any keys
            },
        },
        "location": {  # 3.28
            "type": "object",
            "additionalProperties": False,
            "properties": {
                "id": {"type": "integer", "minimum": -1},
                "physicalLocation": {"$ref": "#/$defs/physical"},
                "message": {"$ref": "#/$defs/said"},
            },
        },
        "physical": {  # 3.29
            "type": "object",
            "required": ["artifactLocation"],
            "additionalProperties": False,
            "properties": {
                "artifactLocation": {
                    "type": "object",
                    "additionalProperties": False,
                    "properties": {"uri": {"type": "string", "format": "uri-reference"}},
                },
                "region": {  # 3.30: all count from 1
                    "type": "object",
                    "additionalProperties": False,
                    "properties": {
                        key: {"type": "integer", "minimum": 1}
                        for key in ("startLine", "startColumn", "endLine", "endColumn")
                    },
                },
            },
        },
    },
}


def _said_of(name: str, spoilt: str = "") -> list[Message]:
    def load(path: str) -> bytes:
        data = (JOBS / path).read_bytes()
        return data + spoilt.encode() if path == name else data

    job, messages = read(name, load)
    return [*messages, *(plan(job).messages if job else ())]


@pytest.mark.parametrize("messages", [[], [_HOLD, _FILE]], ids=["none", "two"])
def test_the_json_form_fits_its_published_schema(messages: list[Message]) -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    jsonschema.validate(json.loads(as_json.render(messages)), SCHEMA)


@pytest.mark.parametrize("job", sorted(path.name for path in JOBS.glob("*.seat")))
@pytest.mark.parametrize("spoilt", ["", 'measured\n E1 44,2\nnote "open\n'], ids=["whole", "spoilt"])
def test_the_json_of_every_demo_job_fits_its_published_schema(job: str, spoilt: str) -> None:
    document = json.loads(as_json.render(_said_of(job, spoilt)))
    assert document["format"] == SCHEMA["$id"]
    assert document["messages"] or not spoilt
    jsonschema.validate(document, SCHEMA)


def test_the_schema_refuses_what_the_form_is_not() -> None:
    document = json.loads(as_json.render([_HOLD]))
    for spoil in ({"format": "seatwright-messages/0"}, {"messages": [{**document["messages"][0], "severity": "bad"}]}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate({**document, **spoil}, SCHEMA)


def test_the_schema_is_fresh() -> None:
    assert json.loads(as_json.schema()) == SCHEMA, (
        "renew it: python -m seatwright.text.as_json > grammar/messages.schema.json"
    )


@pytest.mark.parametrize("messages", [[], [_HOLD, _FILE]], ids=["none", "two"])
def test_sarif_is_as_the_standard_says(messages: list[Message]) -> None:
    jsonschema.validate(json.loads(sarif.render(messages)), _SARIF)


def test_the_sarif_of_a_real_job_is_as_the_standard_says() -> None:
    document = json.loads(sarif.render(_said_of("as-found.seat", 'note "open\n')))
    jsonschema.validate(document, _SARIF)
    assert document["runs"][0]["results"]
