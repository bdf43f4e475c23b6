"""The forms that programs read: each names itself under `format`, and has a schema made from its records."""

from __future__ import annotations

from inspect import cleandoc

import msgspec
from msgspec import Struct

from seatwright.text.showing import for_programs


def schema_of(form: type[Struct], name: str, title: str) -> str:
    """The JSON Schema of a form, from the records that it is written from.

    form : the record of the whole document, its first field `format`. name : of the form and its version
    """
    made = msgspec.json.schema(form)
    for record in made["$defs"].values():
        record["description"] = cleandoc(record["description"])
    return for_programs(
        {"$schema": "https://json-schema.org/draft/2020-12/schema", "$id": name, "title": title, **made}
    )
