"""Which request of the protocol is answered by what."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

ANSWERS: Mapping[str, tuple[Callable[..., Any], Any]] = {}
