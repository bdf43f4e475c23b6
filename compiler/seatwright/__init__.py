"""Seatwright: from a plain-text job to printed operation cards for re-seating cylinder heads."""

__version__ = "0.1.0"
