"""The job: declarations of the language, and the reading of a tree and its shop files into the model.

The model and the reader are loaded when first asked for: whoever only needs the declarations starts in half the time.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from seatwright.job.model import Job
    from seatwright.job.reader import read
    from seatwright.job.used_files import Refused, read_used

__all__ = ["Job", "Refused", "read", "read_used"]


def __getattr__(name: str) -> object:
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from seatwright.job import model, reader, used_files

    globals().update(Job=model.Job, Refused=used_files.Refused, read=reader.read, read_used=used_files.read_used)
    return globals()[name]
