"""Places in a file, and what is said about them."""

from seatwright.text.message import Message, Related, Severity
from seatwright.text.source import Source, Span

__all__ = ["Message", "Related", "Severity", "Source", "Span"]
