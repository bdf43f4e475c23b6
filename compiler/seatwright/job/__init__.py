"""The job: declarations of the language, and the reading of a tree and its shop files into the model.

The model and the reader are loaded when first asked for: whoever only needs the declarations starts in half the time.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from seatwright.job.model import Job
    from seatwright.job.reader import Refused, read, read_shop

__all__ = ["Job", "Refused", "read", "read_shop"]


def __getattr__(name: str) -> object:
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from seatwright.job import model, reader

    globals().update(Job=model.Job, Refused=reader.Refused, read=reader.read, read_shop=reader.read_shop)
    return globals()[name]
