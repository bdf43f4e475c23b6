"""The job: declarations of the language, and the reading of a tree and its shop files into the model."""

from seatwright.job.model import Job
from seatwright.job.reader import Refused, read

__all__ = ["Job", "Refused", "read"]
