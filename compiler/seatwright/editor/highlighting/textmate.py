"""The grammar in TextMate's form, which many editors read."""

from __future__ import annotations

import json

from seatwright.editor.highlighting.known_words import FILE_ENDS, either, known_words

_ENDS = r"(?=[ \t:=,#]|$)"
_PROPERTY = "variable.other.property.seatwright"
_TEXT = r'"(?:[^"]|"")*"'


def textmate() -> str:
    """The whole grammar: a line is read by itself, so every pattern is a match and none spans lines."""
    words = known_words()
    document = {
        "name": "Seatwright",
        "scopeName": "source.seatwright",
        "fileTypes": list(FILE_ENDS),
        "patterns": [
            {
                "comment": "a header: its columns",
                "match": rf"(?i)^[ \t]+(?:{either(words.first)})[ \t]+(?=[a-z])(?:{_COLUMN}[ \t]*)*(?:#.*)?$",
                "captures": {"0": {"patterns": [{"include": "#comment"}, {"include": "#column"}]}},
            },
            {"match": rf"(?i)^(?:{either(words.opening)}){_ENDS}", "name": "keyword.control.seatwright"},
            {
                "match": rf"(?i)^[ \t]+(?:{either(words.fields)}|x-[a-z]\S*){_ENDS}",
                "name": "variable.other.property.seatwright",
            },
            {"match": r"(?i)^x-[a-z]\S*", "name": _PROPERTY},
            {"include": "#comment"},
            {"match": _TEXT, "name": "string.quoted.double.seatwright"},
            {"match": r"(?<![^ \t])(?:\+/-|±|-)(?=[ \t]|$)", "name": "keyword.operator.seatwright"},
            {
                "match": r"(?<![^ \t])[+\-±−–]?[ØØø⌀∅]?(?:\d|\.\d|[½⅓⅔¼¾⅛⅜⅝⅞])[^ \t#\"]*\"?",
                "name": "constant.numeric.seatwright",
            },
            {"match": r"(?i)(?<![^ \t])[IE][1-9]\d?[A-Z]?(?=[ \t#]|$)", "name": "variable.parameter.seatwright"},
            {"match": rf"(?i)(?<![^ \t])(?:{either(words.taken)}|to){_ENDS}", "name": "constant.language.seatwright"},
            {"match": rf"(?<![^ \t])(?:{either(words.of_units)})(?=[ \t#]|$)", "name": "storage.type.unit.seatwright"},
        ],
        "repository": {
            "comment": {"match": "#.*$", "name": "comment.line.number-sign.seatwright"},
            "column": {"match": r"[^ \t#]+", "name": _PROPERTY},
        },
    }
    return json.dumps(document, ensure_ascii=False, indent=2) + "\n"


_COLUMN = rf"(?:{either(known_words().columns)}|x-[^ \t#]+)(?=[ \t#]|$)"
