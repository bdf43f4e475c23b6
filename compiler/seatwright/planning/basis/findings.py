"""What planning has to say: notices, warnings and holds, gathered while the decisions are made."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from msgspec import Struct, field

from seatwright.planning.plan import Hold, Phase
from seatwright.planning.plan.figure import Figure
from seatwright.text import Message, Related, Severity, Span
from seatwright.text.slugs import HoldSlug, NoticeSlug, ReasonSlug, Slug, WarningSlug

T = TypeVar("T")


class _Said(Struct):
    """A message while valves are still being added to it."""

    severity: Severity
    slug: Slug
    span: Span | None
    text: str
    help: str
    related: tuple[Related, ...]
    valves: dict[str, None] = field(default_factory=dict)

    def message(self) -> Message:
        return Message(self.severity, self.slug, self.span, self.text, self.help, self.related, tuple(self.valves))


class Findings:
    """The messages of one plan. The same slug at the same place is one message, with the valves of all.

    A text does not begin with the name of its valve: the valves are the message's, and whoever prints it puts them in
    front. Within a sentence a valve is named where it helps.
    """

    def __init__(self, home: Span | None = None) -> None:
        # home: the job's own line, which bears what no other line bears, so that every message has a place.
        self._home = home
        self._said: dict[tuple[str, Span | None, str], _Said] = {}
        self._holds: dict[str, list[Hold]] = {}
        self._unchecked: dict[Slug, None] = {}
        self._worked_out: dict[tuple[object, ...], Any] = {}

    def once(self, key: tuple[object, ...], work_out: Callable[[], T]) -> T:
        """What is the same for many valves, worked out and said with the first of them.

        key : what it depends on; things of the job by their id, which stands as long as the job does
        """
        if key not in self._worked_out:
            self._worked_out[key] = work_out()
        found: T = self._worked_out[key]
        return found

    def notice(
        self, slug: NoticeSlug, text: str, help: str, span: Span | None = None, valves: Iterable[str] = ()
    ) -> None:
        """Something worth knowing: a left-out or built-in figure was used."""
        self._say(Severity.NOTICE, slug, text, help, span, valves)

    def unchecked(
        self, slug: NoticeSlug | ReasonSlug, text: str, help: str, span: Span | None = None, valves: Iterable[str] = ()
    ) -> None:
        """A notice that something was not given, so not checked or not computed; it is listed on the job sheet."""
        self._unchecked[slug] = None
        self._say(Severity.NOTICE, slug, text, help, span, valves)

    def unchecked_risk(
        self, slug: WarningSlug, text: str, help: str, span: Span | None = None, valves: Iterable[str] = ()
    ) -> None:
        """A warning that something cannot be checked, from which harm may come; it is listed on the job sheet."""
        self._unchecked[slug] = None
        self._say(Severity.WARNING, slug, text, help, span, valves)

    def warning(
        self,
        slug: WarningSlug,
        text: str,
        help: str,
        span: Span | None = None,
        valves: Iterable[str] = (),
        related: tuple[Related, ...] = (),
    ) -> None:
        """It can be done, with a risk that is named."""
        self._say(Severity.WARNING, slug, text, help, span, valves, related)

    def hold(
        self,
        valve: str,
        slug: HoldSlug | ReasonSlug,
        text: str,
        help: str,
        span: Span | None = None,
        figure: Figure | None = None,
        limit: Figure | None = None,
        related: tuple[Related, ...] = (),
    ) -> None:
        """One valve cannot be cut as the job stands: why, and what would lift it. A slug holds a valve once.

        A reason why an insert does not serve holds the valve where no other serves either.
        """
        holds = self._holds.setdefault(valve, [])
        if all(hold.slug != slug for hold in holds):
            holds.append(Hold(slug, text, help, figure, limit))
            self._say(Severity.HOLD, slug, text, help, span, (valve,), related)

    def holds_of(self, valve: str) -> tuple[Hold, ...]:
        """Why this valve is on hold, () if it is not."""
        return tuple(self._holds.get(valve, ()))

    def held(self, plans: tuple[Phase, ...]) -> tuple[Phase, ...]:
        """The valves as a stage left them, on hold where anything holds them, before the next stage looks at them."""
        if not self._holds:
            return plans
        return tuple(plan.on_hold(self.holds_of(plan.name)) for plan in plans)

    def messages(self) -> tuple[Message, ...]:
        """All that was said, sorted by place."""
        return tuple(sorted((one.message() for one in self._said.values()), key=lambda message: message.place))

    def not_checked(self) -> tuple[str, ...]:
        """The slugs of what was not checked, sorted."""
        return tuple(sorted(self._unchecked))

    def _say(
        self,
        severity: Severity,
        slug: Slug,
        text: str,
        help: str,
        span: Span | None,
        valves: Iterable[str],
        related: tuple[Related, ...] = (),
    ) -> None:
        span = span or self._home
        # One message grows by a valve at a time: with a tuple built anew each time, a long head would cost n squared.
        said = self._said.setdefault((slug, span, text), _Said(severity, slug, span, text, help, related))
        said.severity, said.help, said.related = severity, help, related
        said.valves.update(dict.fromkeys(valves))
