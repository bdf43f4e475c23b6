"""Names and words: which spellings are one, what may be a name, and what a valve is called."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache, lru_cache

from seatwright.job.declarations import PAIRS, trade_words
from seatwright.job.typed.gather import Mistake
from seatwright.job.wording import of_values as say
from seatwright.syntax import suggest
from seatwright.syntax.numbers import units
from seatwright.text import Span

FORBIDDEN = frozenset({"-", "any", "choose", "turned", "stays", "keep", "none"})
_SPELLINGS = {second: first for first, second in PAIRS}
_VALVE = re.compile(r"([IE])([1-9][0-9]?)([A-Z]?)", re.IGNORECASE)


@lru_cache(4096)
def key(name: str) -> str:
    """What two spellings of one name have in common: small letters, blanks for hyphens, the first of two spellings."""
    words = name.lower().replace("-", " ").split()
    return " ".join(_SPELLINGS.get(word, word) for word in words)


def check_name(name: str, span: Span, field: str) -> str:
    """The name, blanks made single. Raises Mistake where the word means something else in the language."""
    plain = " ".join(name.split())
    if not plain or plain.lower() in FORBIDDEN or units.canonical_unit(plain) is not None:
        raise Mistake(say.name_forbidden(span, field, plain))
    return plain


@cache
def _materials() -> dict[str, str]:
    return {key(other): key(ours) for other, ours in trade_words.MATERIAL_WORDS.items()}


def nearest_name(name: str, known: Iterable[str]) -> str | None:
    """The known name that this one is probably a slip for, or the trade's other word for."""
    by_key = {key(one): one for one in known}
    if (ours := _materials().get(key(name), "")) in by_key:
        return by_key[ours]
    found = suggest.nearest(key(name), sorted(by_key))
    return None if found is None else by_key[found]


def one_of_words(typed: str, choices: Iterable[str]) -> str | None:
    """The one of a few words that was typed, hyphens and spellings aside; None where it is none of them."""
    wanted = key(typed)
    return next((one for one in choices if key(one) == wanted), None)


def is_valve(word: str) -> bool:
    """Whether a word is the name of a valve."""
    return _parts(word) is not None


def valve_parts(name: str) -> tuple[str, int, str]:
    """Kind ("intake", "exhaust"), cylinder and letter of a valve's name. Raises ValueError where it is none."""
    parts = _parts(name)
    if parts is None:
        raise ValueError(name)
    return parts


# All heads call their valves alike, and a row's first word is asked many times.
@lru_cache(4096)
def _parts(word: str) -> tuple[str, int, str] | None:
    match = _VALVE.fullmatch(word)
    if match is None:
        return None
    return "intake" if match[1].upper() == "I" else "exhaust", int(match[2]), match[3].upper()


def valve_order(name: str) -> tuple[int, bool, str]:
    """Sorts valves by cylinder, intake before exhaust, letter."""
    kind, cylinder, letter = valve_parts(name)
    return cylinder, kind == "exhaust", letter


def valve_meant(word: str) -> str | None:
    """The valve that a word is probably a slip for: `l1`, `1E`, `I-1`, `I01`."""
    plain = word.upper().replace("-", "").replace("_", "").replace(" ", "")
    if word[:1] in "l|1" and plain[1:2].isdigit():
        plain = "I" + plain[1:]
    if re.fullmatch(r"[0-9]{1,2}[IE]", plain):
        plain = plain[-1] + plain[:-1]
    plain = re.sub(r"^(IN|EX)(?=[0-9])", lambda found: found[0][0], plain)
    plain = re.sub(r"^([IE])O*0*(?=[1-9])", r"\1", plain)
    return plain if is_valve(plain) else None
