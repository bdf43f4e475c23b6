"""Messages as SARIF 2.1.0 (OASIS standard), for code hosts and editors that show findings beside the lines."""

from __future__ import annotations

from collections.abc import Iterable
from urllib.parse import quote

from seatwright.text.message import Message, Severity, fewer
from seatwright.text.registry import declared
from seatwright.text.showing import for_programs
from seatwright.text.source import Span

_SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_LEVELS = {
    Severity.ERROR: "error",
    Severity.HOLD: "error",
    Severity.WARNING: "warning",
    Severity.NOTICE: "note",
}


def render(messages: Iterable[Message]) -> str:
    """All messages, in order, as one run. A hold is of level `error`, its kind kept under `properties.severity`."""
    ordered = fewer(messages)
    rules: list[str] = sorted({message.slug for message in ordered})
    document = {
        "$schema": _SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "tool": {"driver": {"name": "seatwright", "rules": [_rule(slug) for slug in rules]}},
                # Columns are counted in characters, not in UTF-16 halves.
                "columnKind": "unicodeCodePoints",
                "results": [_result(message, rules) for message in ordered],
            }
        ],
    }
    return for_programs(document)


def _rule(slug: str) -> dict[str, object]:
    return {"id": slug, "shortDescription": {"text": declared()[slug].meaning}}


def _result(message: Message, rules: list[str]) -> dict[str, object]:
    whose = f"{' '.join(message.valves)}: " if message.valves else ""
    said = f"{whose}{message.text}\n{message.help}" if message.help else f"{whose}{message.text}"
    result: dict[str, object] = {
        "ruleId": message.slug,
        "ruleIndex": rules.index(message.slug),
        "level": _LEVELS[message.severity],
        "message": {"text": said},
        "properties": {"severity": message.severity.value, "valves": list(message.valves)},
    }
    if message.span is not None:
        result["locations"] = [{"physicalLocation": _place(message.span)}]
    if message.related:
        result["relatedLocations"] = [
            {"id": number, "physicalLocation": _place(related.span), "message": {"text": related.text}}
            for number, related in enumerate(message.related, 1)
        ]
    return result


def _place(span: Span) -> dict[str, object]:
    return {
        "artifactLocation": {"uri": quote(span.file)},
        "region": {
            "startLine": span.line,
            "startColumn": span.column,
            "endLine": span.end_line,
            "endColumn": span.end_column,
        },
    }
