"""The typeface of the cards, built in, so that a card is the same on every machine.

Two weights of an open face made to be told apart at a distance: a nought from an O, a one from an l, an 8 from a B.
Cut down to Latin letters, its figures of one width; how, from what, and under which licence: templates/face.
"""

from __future__ import annotations

import base64
from functools import cache

from seatwright.text.shipped import shipped


@cache
def face() -> dict[str, str]:
    """The faces `regular` and `bold`, WOFF2 in base64."""
    return {
        name: base64.b64encode(shipped("seatwright.templates", f"face/{name}.woff2")).decode("ascii")
        for name in ("regular", "bold")
    }
