"""Names of jobs that give their cards a folder of that name on every system, and none that is another job's."""

from __future__ import annotations

import os
import re
import unicodedata
from pathlib import Path

# Names of devices on Windows, with whatever ending: learn.microsoft.com, "Naming Files, Paths, and Namespaces" (from
# memory).
_DEVICE = re.compile(r"(?:con|prn|aux|nul|com[1-9¹²³]|lpt[1-9¹²³])(?:\..*)?", re.IGNORECASE)
_LONGEST = 255  # bytes of a name, as most disks have it


def trouble_with(file: str) -> str:
    """Why a job or shop file cannot be called so, in words; "" where it can."""
    name = os.path.basename(file)
    stem = Path(name).stem
    if name.startswith(".") or not stem.strip(". "):
        return "a name begins with a letter or a digit, not with a dot"
    if stem.endswith((".", " ")):
        return "a name that ends in a dot or a blank is another one on some systems"
    if _DEVICE.fullmatch(stem):
        return f"{stem} is the name of a device on some systems"
    if len(os.fsencode(name)) > _LONGEST:
        return f"the name has {len(os.fsencode(name))} bytes; the most that a disk takes is {_LONGEST}"
    return ""


def one_name(name: str) -> str:
    """What two names have in common that are one on a disk that ignores capitals, or how a letter is put together."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())


def same_but_for_capitals(place: Path) -> Path | None:
    """What stands beside a place under a name that is the same on such a disk, and is another here."""
    try:
        names = os.listdir(place.parent)
    except OSError:
        return None
    for name in sorted(names):
        other = place.parent / name
        if name != place.name and one_name(name) == one_name(place.name) and not _is(other, place):
            return other
    return None


def _is(one: Path, other: Path) -> bool:
    try:
        return os.path.samefile(one, other)
    except OSError:
        return False
