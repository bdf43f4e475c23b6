"""Why an insert does not serve a valve: one condition that it fails, with its figure and limit."""

from __future__ import annotations

from msgspec import Struct

from seatwright.planning.plan import PassedOver
from seatwright.planning.plan.figure import Figure
from seatwright.planning.serves.offers import Offer
from seatwright.text.slugs import ReasonSlug

_CONDITIONS = (
    "for-another-seat",
    "other-alloy",
    "none-on-hand",
    "no-makers-size",
    "size-which",
    "no-interference",
    "clean-up-unknown",
    "outside-makers-bore",
    "does-not-clean-up",
    "od-too-wide-for-fit",
    "does-not-cover-seat",
    "hole-too-wide",
    "floor-does-not-clean-up",
    "floor-thin",
    "depth-limits-disagree",
    "stands-proud",
    "no-floor",
    "ledge-narrow",
    "under-seat-thin",
    "cutter-unknown",
    "cutter-range",
    "cutter-first-pass",
    "rides-on-corner",
    "bridge-thin",
)
"""The conditions in the order in which an insert is held against them."""


class Reason(Struct, frozen=True):
    """What a condition found wrong: a slug, the figure, its limit, and a sentence."""

    slug: ReasonSlug
    text: str
    figure: Figure | None = None
    limit: Figure | None = None

    def of(self, offer: Offer) -> PassedOver:
        """The insert that it rules out."""
        return PassedOver(offer.name, self.slug, self.text, self.figure, self.limit)


def rank(reason: Reason) -> int:
    """How far an insert came before it failed: the further, the nearer it is to serving."""
    return _CONDITIONS.index(reason.slug) if reason.slug in _CONDITIONS else -1
