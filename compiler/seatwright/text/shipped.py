"""The files that come with the program beside its code: grammar, templates, typeface."""

from __future__ import annotations

import pkgutil
import re

# Of a template, ours or a shop's own: one folder deep at most, and no name that leads anywhere else.
TEMPLATE_NAME = re.compile(r"(?:drawings/)?[a-z][a-z0-9-]*\.(?:md|html|css|svg)")


def shipped(package: str, name: str) -> bytes:
    """A file of one of our packages, such as `job.lark` of `seatwright.grammar`. Raises OSError where there is none.

    By pkgutil: importlib.resources takes longer to load than the files to read.
    """
    content = pkgutil.get_data(package, name)
    assert content is not None, f"the loader of {package} hands out no files"
    return content
