"""cards.html as a PDF, by WeasyPrint, where it is installed: the pages that a browser prints, tagged and bookmarked."""

from __future__ import annotations

import logging
import re
from importlib import import_module
from importlib.util import find_spec
from typing import Any

from seatwright.cards.paper import MM_PER_POINT, width_of

EXTRA = "seatwright[pdf]"
_LETTERING = re.compile(
    r'<text x="([-\d.]+)" y="([-\d.]+)" font-size="([\d.]+)" text-anchor="(\w+)"([^>]*?)'
    r' fill="#000" stroke="#fff" stroke-width="[\d.]+" paint-order="stroke">([^<]*)</text>'
)


class NoPrinter(Exception):
    """WeasyPrint, or a library of the system that it needs, is not installed; the text says what to do."""


def check_printer() -> None:
    """Raises NoPrinter. To be asked before anything is written."""
    _weasyprint()


def pdf(html: str) -> bytes:
    """The PDF of cards.html: one page a sheet, with title, language, bookmarks and tags (PDF/UA-1 as far as WeasyPrint
    takes it), without a date, so that the same cards give the same bytes. Nothing is fetched. Raises NoPrinter."""
    weasyprint = _weasyprint()
    # It warns of what is for screens only.
    logging.getLogger("weasyprint").setLevel(logging.CRITICAL)
    fetcher = weasyprint.urls.URLFetcher(allowed_protocols=("data",))
    page = weasyprint.HTML(string=_with_lettering_on_white(html), url_fetcher=fetcher)
    made: bytes = page.write_pdf(pdf_variant="pdf/ua-1", pdf_tags=True)
    return made


def _weasyprint() -> Any:
    if find_spec("weasyprint") is None:
        raise NoPrinter(f"--pdf needs WeasyPrint: pip install '{EXTRA}', or print cards.html from a browser")
    try:
        return import_module("weasyprint")
    except OSError as problem:
        raise NoPrinter(
            f"--pdf needs the library Pango ({problem}); on Debian: apt-get install libpango-1.0-0 libpangoft2-1.0-0 "
            "libharfbuzz-subset0"
        ) from problem


def _with_lettering_on_white(html: str) -> str:
    """Lettering of drawings on white boxes: WeasyPrint would draw the white line around letters over them."""
    return _LETTERING.sub(_on_white, html)


def _on_white(found: re.Match[str]) -> str:
    x, y, size, anchor, more, words = found.groups()
    long = width_of(words, float(size) / MM_PER_POINT, "bold" in more)
    left = float(x) - {"start": 0.0, "middle": long / 2, "end": long}[anchor]
    turned = re.search(r' transform="[^"]*"', more)
    box = (
        f'<rect x="{left - 0.3:.2f}" y="{float(y) - 0.78 * float(size):.2f}" width="{long + 0.6:.2f}" '
        f'height="{0.95 * float(size):.2f}" fill="#fff" stroke="none"{turned[0] if turned else ""}/>'
    )
    place = f'x="{x}" y="{y}" font-size="{size}" text-anchor="{anchor}"{more}'
    return f'{box}<text {place} fill="#000" stroke="none">{words}</text>'
