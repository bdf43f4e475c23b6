"""The templates: the built-in ones, a shop's own laid over them. An undefined name is refused; a shop's own run in a
sandbox."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import cache, lru_cache
from typing import Any

from jinja2 import BaseLoader, Environment, StrictUndefined, TemplateNotFound, TemplateSyntaxError, nodes
from jinja2.compiler import CodeGenerator, Frame
from markupsafe import Markup, escape

from seatwright.cards.compiled import beside_the_byte_code
from seatwright.cards.escape import Markdown, for_markdown
from seatwright.text.shipped import TEMPLATE_NAME, shipped

_SPARE_LINES = re.compile(r"\n{3,}")
_KEPT = 4096  # texts
_MARK = "template "  # before the name, in the place of a file: found again in the trace of what went wrong


class TemplateFault(Exception):
    """What a template does wrong: its name, the line, and why, in words."""


class _Loader(BaseLoader):
    """A shop's own template of a name, else the built-in one."""

    def __init__(self, own: Mapping[str, str]) -> None:
        self._own = own

    def get_source(self, environment: Environment, template: str) -> tuple[str, str | None, None]:
        text = self._own[template] if template in self._own else built_in_template(template)
        return text, f"{_MARK}{template}", None


class _EscapedOnce(CodeGenerator):
    """Prints what `finalize` made of a value as it is, which escaped it: Jinja would escape each of the thousands for
    HTML as well."""

    def _output_child_pre(self, node: nodes.Expr, frame: Frame, finalize: CodeGenerator._FinalizeInfo) -> None:
        self.write(str(finalize.src))

    def _output_child_post(self, node: nodes.Expr, frame: Frame, finalize: CodeGenerator._FinalizeInfo) -> None:
        self.write(")")


@cache
def built_in_template(name: str) -> str:
    """The text of a built-in template. Raises jinja2.TemplateNotFound."""
    if not TEMPLATE_NAME.fullmatch(name):
        raise TemplateNotFound(name)
    try:
        return shipped("seatwright.templates", name).decode("utf-8")
    except OSError:
        raise TemplateNotFound(name) from None


def environment(own: Mapping[str, str]) -> Environment:
    """Where cards are written as Markdown, with the shop's own templates by name; compiled once for all jobs of a
    build. A value is escaped for Markdown where it is printed, unless it is Markdown."""
    return _environment(tuple(sorted(own.items())), True)


def texts(own: Mapping[str, str]) -> Environment:
    """Where what is no Markdown is filled in: page.html, card.css, drawings. A value is escaped for HTML."""
    return _environment(tuple(sorted(own.items())), False)


@cache
def _environment(own: tuple[tuple[str, str], ...], markdown: bool) -> Environment:
    house = _kind_of_environment(sandboxed=bool(own))(
        loader=_Loader(dict(own)),
        undefined=StrictUndefined,
        autoescape=True,
        finalize=_in_markdown if markdown else _in_html,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        bytecode_cache=None if own else beside_the_byte_code(__file__),
    )
    house.code_generator_class = _EscapedOnce
    house.filters["mm"] = _mm
    house.globals["inside"] = Markdown("    ")  # of a step: what is not printed plainly would be escaped away
    return house


def _kind_of_environment(*, sandboxed: bool) -> type[Environment]:
    if not sandboxed:
        return Environment
    # Ours run in the sandbox too where the shop has any template of its own: they may be called from it.
    from jinja2.sandbox import ImmutableSandboxedEnvironment

    return ImmutableSandboxedEnvironment


def write(house: Environment, name: str, **values: Any) -> str:
    """A Markdown template filled in, with no more than one empty line between two others. Raises TemplateFault."""
    return _SPARE_LINES.sub("\n\n", fill(house, name, **values)).strip("\n") + "\n"


def fill(house: Environment, name: str, **values: Any) -> str:
    """A template filled in. Raises TemplateFault, for what a shop's own template does wrong."""
    with _blamed(name):
        return house.get_template(name).render(**values)


@contextmanager
def _blamed(name: str) -> Iterator[None]:
    """Say of whatever goes wrong in a template in which one, and where."""
    try:
        yield
    except TemplateSyntaxError as problem:
        raise TemplateFault(f"template {problem.name or name}, line {problem.lineno}: {problem.message}") from problem
    except TemplateNotFound as problem:
        raise TemplateFault(f"{_place(problem, name)}: there is no template {problem.name}") from problem
    except RecursionError as problem:
        raise TemplateFault(f"{_place(problem, name)}: it calls itself without end") from problem
    except MemoryError as problem:
        raise TemplateFault(f"{_place(problem, name)}: it takes more memory than cards may") from problem
    except Exception as problem:
        if not isinstance(problem, TemplateFault) and not _inside(problem):
            raise  # a fault of the program's own
        raise TemplateFault(f"{_place(problem, name)}: {problem}") from problem


def _place(problem: BaseException, name: str) -> str:
    inside = _inside(problem)
    return f"template {inside[-1][0]}, line {inside[-1][1]}" if inside else f"template {name}"


def _inside(problem: BaseException) -> list[tuple[str, int]]:
    """Template and line of each step of the way to what went wrong; Jinja keeps them in the trace alone."""
    found: list[tuple[str, int]] = []
    trace = problem.__traceback__
    while trace is not None:
        file = trace.tb_frame.f_code.co_filename
        if file.startswith(_MARK):
            found.append((file.removeprefix(_MARK), trace.tb_lineno))
        trace = trace.tb_next
    return found


def _in_markdown(value: Any) -> str:
    """Text escaped, Markdown as it is. An undefined name is refused here, since it is no text: it never shows as
    nothing."""
    if type(value) is str:
        return for_markdown(value)
    return value if isinstance(value, Markup) else for_markdown(str(value))


def _in_html(value: Any) -> str:
    if type(value) is str:
        return _escaped(value)
    return f"{value:.6g}" if isinstance(value, float) else escape(value)


_escaped = lru_cache(_KEPT)(escape)  # the same few weights, sizes and places stand in every drawing


def _mm(value: float) -> str:
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
