"""From a drawing to the SVG that stands in the card."""

from __future__ import annotations

from jinja2 import Environment

from seatwright.cards.drawings.shapes import Drawing
from seatwright.cards.templating import fill

TEMPLATE = "drawings/drawing.svg"


def svg(drawing: Drawing, house: Environment) -> str:
    """The drawing as one inline SVG: nothing in it is loaded, named or run; text of the job stays text.

    house : the templates of what is no Markdown, the shop's own among them

    Raises TemplateFault, for what a shop's own template does wrong.
    """
    return fill(house, TEMPLATE, drawing=drawing).strip()
