"""From a drawing to the SVG that stands in the card."""

from __future__ import annotations

from functools import cache
from importlib import resources

from jinja2 import StrictUndefined, Template
from jinja2.sandbox import ImmutableSandboxedEnvironment
from seatwright.cards.drawings.shapes import Drawing, number


def svg(drawing: Drawing) -> str:
    """The drawing as one inline SVG: nothing in it is loaded, named or run; text of the job stays text."""
    return _template().render(drawing=drawing).strip()


@cache
def _template() -> Template:
    house = ImmutableSandboxedEnvironment(
        undefined=StrictUndefined, autoescape=True, trim_blocks=True, lstrip_blocks=True
    )
    house.filters["mm"] = number
    text = resources.files("seatwright.templates").joinpath("drawings", "drawing.svg").read_text(encoding="utf-8")
    return house.from_string(text)
