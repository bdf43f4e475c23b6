"""Our own templates compiled, kept between two runs.

Compiling them takes a cold start as long as laying out all cards of a job. They are kept with Python's own byte code
and under the same rules: there are none where Python is told to write none, or cannot, and what was compiled from
another text, by another Jinja2, or before `templating` was changed, is compiled anew.
"""

from __future__ import annotations

import hashlib
import marshal
import os
import sys
from contextlib import suppress
from importlib.util import cache_from_source
from pathlib import Path

import jinja2
from jinja2.bccache import Bucket, BytecodeCache


def beside_the_byte_code(source: str) -> BytecodeCache | None:
    """Where compiled templates are kept; None where Python is told to keep nothing. source: as below."""
    return None if sys.dont_write_bytecode else _BesideTheByteCode(source)


class _BesideTheByteCode(BytecodeCache):
    """One file for each template, in the folder that Python keeps the byte code of a module in.

    source: the file of the module that says how templates are compiled.
    """

    def __init__(self, source: str) -> None:
        self._folder = Path(cache_from_source(source)).parent
        self._compiled_by = f"{jinja2.__version__} {sys.version} {_age(source)}"

    def get_cache_key(self, name: str, filename: str | None = None) -> str:
        """What the file is called."""
        return f"{name.replace('/', '-')}.{sys.implementation.cache_tag}.compiled"

    def get_source_checksum(self, source: str) -> str:
        """What it was compiled from, and by what."""
        return hashlib.sha256(f"{self._compiled_by} {source}".encode()).hexdigest()

    def load_bytecode(self, bucket: Bucket) -> None:
        """Take what was compiled, if there is any and it is of this template."""
        with suppress(OSError, EOFError, ValueError, TypeError):
            compiled_from, of_code, code = (self._folder / bucket.key).read_bytes().split(b"\n", 2)
            # What is not as it was written must not be read: it can bring down the whole program.
            if compiled_from == bucket.checksum.encode() and of_code == _checksum(code):
                bucket.code = marshal.loads(code)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what was compiled, whole or not at all."""
        place = self._folder / bucket.key
        begun = place.with_name(f"{place.name}.part")
        with suppress(OSError):
            self._folder.mkdir(exist_ok=True)
            code = marshal.dumps(bucket.code)
            begun.write_bytes(b"\n".join((bucket.checksum.encode(), _checksum(code), code)))
            begun.replace(place)


def _checksum(code: bytes) -> bytes:
    return hashlib.sha256(code).hexdigest().encode("ascii")


def _age(source: str) -> str:
    try:
        told = os.stat(source)
    except OSError:  # in an archive
        return ""
    return f"{told.st_mtime_ns} {told.st_size}"
