"""Which request of the protocol is answered by what."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from lsprotocol import types

from seatwright.editor.hover import hover
from seatwright.editor.inlay import inlay, with_derivation
from seatwright.editor.navigation import definition, may_rename, references, rename

ANSWERS: Mapping[str, tuple[Callable[..., Any], Any]] = {
    types.TEXT_DOCUMENT_INLAY_HINT: (inlay, types.InlayHintOptions(resolve_provider=True)),
    types.INLAY_HINT_RESOLVE: (with_derivation, None),
    types.TEXT_DOCUMENT_HOVER: (hover, None),
    types.TEXT_DOCUMENT_DEFINITION: (definition, None),
    types.TEXT_DOCUMENT_REFERENCES: (references, None),
    types.TEXT_DOCUMENT_PREPARE_RENAME: (may_rename, None),
    types.TEXT_DOCUMENT_RENAME: (rename, types.RenameOptions(prepare_provider=True)),
}
