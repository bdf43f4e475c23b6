"""Places in a file, and what is said about them."""

from seatwright.text.message import Message, Related, Severity, in_order
from seatwright.text.source import Source, Span

__all__ = ["Message", "Related", "Severity", "Source", "Span", "in_order"]
