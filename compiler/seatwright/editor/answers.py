"""Which request of the protocol is answered by what."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from lsprotocol import types

from seatwright.editor.asked.completion import offered
from seatwright.editor.asked.hover import hover
from seatwright.editor.asked.inlay import inlay, with_derivation
from seatwright.editor.asked.laying_out import laid_out, laid_out_part
from seatwright.editor.asked.navigation import definition, may_rename, references, rename
from seatwright.editor.asked.outline import folding, symbols
from seatwright.editor.asked.quick_fixes import quick_fixes
from seatwright.editor.asked.tokens import LEGEND, tokens

ANSWERS: Mapping[str, tuple[Callable[..., Any], Any]] = {
    types.TEXT_DOCUMENT_INLAY_HINT: (inlay, types.InlayHintOptions(resolve_provider=True)),
    types.INLAY_HINT_RESOLVE: (with_derivation, None),
    types.TEXT_DOCUMENT_COMPLETION: (offered, types.CompletionOptions(trigger_characters=[" "])),
    types.TEXT_DOCUMENT_HOVER: (hover, None),
    types.TEXT_DOCUMENT_DEFINITION: (definition, None),
    types.TEXT_DOCUMENT_REFERENCES: (references, None),
    types.TEXT_DOCUMENT_PREPARE_RENAME: (may_rename, None),
    types.TEXT_DOCUMENT_RENAME: (rename, types.RenameOptions(prepare_provider=True)),
    types.TEXT_DOCUMENT_CODE_ACTION: (
        quick_fixes,
        types.CodeActionOptions([types.CodeActionKind.QuickFix, types.CodeActionKind.SourceFixAll]),
    ),
    types.TEXT_DOCUMENT_FORMATTING: (laid_out, None),
    types.TEXT_DOCUMENT_RANGE_FORMATTING: (laid_out_part, None),
    types.TEXT_DOCUMENT_DOCUMENT_SYMBOL: (symbols, None),
    types.TEXT_DOCUMENT_FOLDING_RANGE: (folding, None),
    types.TEXT_DOCUMENT_SEMANTIC_TOKENS_FULL: (tokens, LEGEND),
}
