"""The templates: the built-in ones, a shop's own laid over them, in a sandbox that refuses an undefined name."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import Any

from jinja2 import BaseLoader, Environment, StrictUndefined, TemplateNotFound, Undefined
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup
from seatwright.cards.escape import Markdown

_SPARE_LINES = re.compile(r"\n{3,}")


class _Loader(BaseLoader):
    """A shop's own template of a name, else the built-in one."""

    def __init__(self, own: Mapping[str, str]) -> None:
        self._own = own

    def get_source(self, environment: Environment, template: str) -> tuple[str, str | None, None]:
        text = self._own[template] if template in self._own else built_in(template)
        return text, template, None


@cache
def built_in(name: str) -> str:
    """The text of a built-in template. Raises jinja2.TemplateNotFound."""
    place = resources.files("seatwright.templates").joinpath(name)
    if not re.fullmatch(r"[a-z][a-z.-]*", name) or not place.is_file():
        raise TemplateNotFound(name)
    return place.read_text(encoding="utf-8")


def environment(own: Mapping[str, str]) -> ImmutableSandboxedEnvironment:
    """Where templates are filled in, with the shop's own by name; compiled once for all jobs of a build."""
    return _environment(tuple(sorted(own.items())))


@cache
def _environment(own: tuple[tuple[str, str], ...]) -> ImmutableSandboxedEnvironment:
    """Where templates are filled in. A value is escaped for Markdown where it is printed, unless it is Markdown."""
    return ImmutableSandboxedEnvironment(
        loader=_Loader(dict(own)),
        undefined=StrictUndefined,
        autoescape=True,
        finalize=_printed,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


def write(house: Environment, name: str, **values: Any) -> str:
    """A template filled in, with no more than one empty line between two others.

    Raises jinja2.TemplateError, for what a shop's own template does wrong.
    """
    return _SPARE_LINES.sub("\n\n", house.get_template(name).render(**values)).strip("\n") + "\n"


def _printed(value: Any) -> Any:
    # An undefined name goes through, so that it is refused where it is printed and never shows as nothing.
    if isinstance(value, Markup | Undefined):
        return value
    return Markdown.escape(value)
