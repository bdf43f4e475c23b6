"""The JSON Schema of plan.json, made from the plan's own records.

`python -m seatwright.told.plan_schema > grammar/plan.schema.json` renews it; a test fails while it is stale.
"""

from __future__ import annotations

import json
from enum import Enum
from inspect import cleandoc, getdoc
from types import NoneType, UnionType
from typing import Union, get_args, get_origin, get_type_hints

from msgspec import Struct

from seatwright.job.model import Given, Measured, Reading
from seatwright.planning.plan import ValvePlan
from seatwright.planning.plan.figure import Figure
from seatwright.told.plan_json import AS_OBJECTS, FORMAT, OF_A_VALVE_ITS_OWN_WAY, Document, OverriddenEntry, in_json

Schema = dict[str, object]

_NUMBER: Schema = {"type": "number"}
TEXT: Schema = {"type": "string"}
_SIMPLE: dict[object, Schema] = {
    str: TEXT,
    int: {"type": "integer"},
    bool: {"type": "boolean"},
    float: _NUMBER,
    Figure: _NUMBER,
    Given: _NUMBER,
    Reading: _NUMBER,
}


def schema() -> str:
    """What plan.json holds, as JSON Schema 2020-12. What is not computed is absent; an empty list is not."""
    records: dict[str, Schema] = {}
    whole = _of_record(Document, records)
    assert isinstance(whole["properties"], dict)
    whole["properties"]["format"] = {"const": FORMAT}
    whole["properties"]["valves"] = _each(_valve(records))
    about = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": FORMAT,
        "title": "plan.json: every figure of a job's plan",
        "description": "Lengths in mm, angles from the plane square to the stem in degrees, temperatures in °C, "
        "stresses in MPa, forces in N; six decimals. A figure that was not computed is absent, neither null nor 0. "
        "Names may be added within this version; none is removed, renamed or given another meaning.",
    }
    return json.dumps({**about, **whole, "$defs": dict(sorted(records.items()))}, ensure_ascii=False, indent=2) + "\n"


def _valve(records: dict[str, Schema]) -> Schema:
    """A valve: the plan's own names, what was found as the columns of `measured`, its holds and their texts."""
    found: Schema = {
        name: _NUMBER for name, hint in get_type_hints(Measured).items() if Reading in (hint, *get_args(hint))
    }
    cells: Schema = {**found, "insert": TEXT, "size": TEXT, "temperature_C": _NUMBER}
    earlier: Schema = {"type": "array", "items": {"type": "object", "properties": {"date": TEXT, **found}}}
    valve = _of_record(ValvePlan, records, OF_A_VALVE_ITS_OWN_WAY)
    assert isinstance(valve["properties"], dict)
    valve["properties"].update(
        found={
            "type": "object",
            "description": "The cells of `measured` as read, in mm; earlier: what they held before.",
            "properties": {**cells, "earlier": earlier},
            "required": ["earlier"],
        },
        limits={
            "enum": ["new", "reconditioned"],
            "description": "Which of the two columns of the engine's maker counts.",
        },
        overridden=_of(tuple[OverriddenEntry, ...], records),
        holds={"type": "array", "items": TEXT},
        holds_text=_each(TEXT),
    )
    assert isinstance(valve["required"], list)
    valve["required"] += ["found", "holds", "holds_text"]
    return valve


def _each(one: Schema) -> Schema:
    return {"type": "object", "additionalProperties": one}


def _of_record(record: type[Struct], records: dict[str, Schema], leave_out: frozenset[str] = frozenset()) -> Schema:
    properties: Schema = {}
    required: list[str] = []
    for attribute, hint in get_type_hints(record).items():
        if attribute not in record.__struct_fields__ or attribute in leave_out:
            continue
        renamed = AS_OBJECTS.get((record, attribute))
        name = renamed or in_json(attribute)
        if renamed is None:
            properties[name] = _of(hint, records)
        else:  # pairs of a name and what it has
            pair = get_args(hint)[0]
            properties[name] = _each(_of(get_args(pair)[1], records))
        if NoneType not in get_args(hint):
            required.append(name)
    described = cleandoc(getdoc(record) or "")
    return {"type": "object", "description": described, "properties": properties, "required": required}


def _of(hint: object, records: dict[str, Schema]) -> Schema:
    if hint in _SIMPLE:
        return _SIMPLE[hint]
    origin, inner = get_origin(hint), get_args(hint)
    if origin in (Union, UnionType):
        (one,) = (each for each in inner if each is not NoneType)
        return _of(one, records)
    if origin is tuple and inner[1:] == (Ellipsis,):
        return {"type": "array", "items": _of(inner[0], records)}
    if origin is tuple:
        return {"type": "array", "prefixItems": [_of(each, records) for each in inner], "items": False}
    if origin is dict:
        return {"type": "object"} if inner[1] == dict[str, object] else _each(_of(inner[1], records))
    if isinstance(hint, type) and issubclass(hint, Enum):
        return {"enum": [each.value for each in hint]}
    if isinstance(hint, type) and issubclass(hint, Struct):
        if hint.__name__ not in records:
            records[hint.__name__] = {}  # a record may hold its own kind
            records[hint.__name__] = _of_record(hint, records)
        return {"$ref": f"#/$defs/{hint.__name__}"}
    raise TypeError(f"plan.json has no form for {hint}")


if __name__ == "__main__":
    print(schema(), end="")
