"""SHA-256 by Python's own code: the library that `hashlib` asks for takes longer to load than a job to read."""

from __future__ import annotations

from importlib import import_module
from typing import Any


def _own_sha256() -> Any:
    for module in ("_sha2", "_sha256"):  # from Python 3.12 on, and before
        try:
            return import_module(module).sha256
        except (ImportError, AttributeError):
            continue
    return import_module("hashlib").sha256


new_sha256: Any = _own_sha256()
"""A sum to which more is added, as `hashlib.sha256`."""


def sha256_of(data: bytes) -> str:
    """The SHA-256 of bytes in hexadecimal digits."""
    digits: str = new_sha256(data).hexdigest()
    return digits
