"""cards.html as a PDF, by WeasyPrint, where it is installed: the pages that a browser prints, tagged and bookmarked."""

from __future__ import annotations

import logging
from importlib import import_module
from importlib.util import find_spec
from typing import Any

EXTRA = "seatwright[pdf]"


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
    page = weasyprint.HTML(string=html, url_fetcher=fetcher)
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
