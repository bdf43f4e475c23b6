"""What there is to say of the shelves over all jobs: promised twice, counted on no day, one name on two shelves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from seatwright.over_jobs.stock.fewest_sizes import MOST_WAYS
from seatwright.over_jobs.stock.pieces import JobPieces
from seatwright.over_jobs.stock.shelves import Promise, Standing
from seatwright.over_jobs.stock.to_order import Ordering
from seatwright.planning.basis.wording import listed
from seatwright.text import Message, Related, Severity
from seatwright.text.slugs import NoticeSlug, WarningSlug
from seatwright.text.source import Span

_FEW = 5  # inserts that are named in one message


def stock_messages(stand: Sequence[Standing], jobs: Sequence[JobPieces], ordering: Ordering) -> tuple[Message, ...]:
    """All messages: first what is short, then what makes the figures less sure."""
    return (
        *(_short(each) for each in stand if each.short),
        *(_overdrawn(each) for each in stand if each.there is not None and each.there < 0),
        *_same_names(stand),
        *_undated_counts(stand),
        *_undated_cuts(jobs, stand),
        *(_not_proved(ordering) if not ordering.proved else ()),
    )


def job_named(job: JobPieces, *, due: bool = False) -> str:
    """`job 2219`, `job 2219 (due 2026-11-20)`."""
    when = f" (due {job.due})" if job.due is not None else " (no due date)"
    return f"job {job.number}{when if due else ''}"


def pieces_counted(count: int) -> str:
    """`none`, `1`, `7`."""
    return str(count) if count else "none"


def _short(one: Standing) -> Message:
    name, there = one.row.name, max(one.there or 0, 0)
    having = [each.job for each in one.promises if each.gets]
    lacking = [each for each in one.promises if each.lacks]
    them = "it" if there == 1 else "them"
    has = f"{listed(job_named(job, due=True) for job in having)} {'have' if len(having) > 1 else 'has'} {them}, "
    lacks = listed(
        f"{job_named(each.job, due=True)} lacks {len(each.lacks)} for {' '.join(each.lacks)}" for each in lacking
    )
    gone = ""
    if not having and one.gone:
        took = dict.fromkeys(job.number for job, _ in one.gone)
        gone = f", {one.used} gone since {one.row.counted_on} ({'jobs' if len(took) > 1 else 'job'} {' '.join(took)})"
    return _warning(
        "promised-twice",
        one.row.span,
        f"{name}: {pieces_counted(there)} on the shelf{gone}, {one.promised} promised; {has if having else ''}{lacks}.",
        f"Order {one.short}, or change the due dates." if having else f"Order {one.short}.",
        tuple(_related(each) for each in lacking),
    )


def _related(promise: Promise) -> Related:
    piece = next(each for each in promise.job.pieces if each.valve == promise.lacks[0])
    return Related(piece.span, f"{job_named(promise.job)}, {' '.join(promise.lacks)}")


def _overdrawn(one: Standing) -> Message:
    row = one.row
    came = f" and {row.delivered} delivered" if row.delivered else ""
    jobs = dict.fromkeys(job.number for job, _ in one.gone)
    return _warning(
        "more-gone-than-counted",
        row.span,
        f"{row.name}: {row.counted} counted on {row.counted_on}{came}, {one.used} gone since "
        f"({'jobs' if len(jobs) > 1 else 'job'} {' '.join(jobs)}).",
        "Count them again, or write what came in under `delivered`.",
    )


def _same_names(stand: Sequence[Standing]) -> Iterator[Message]:
    """One message for each two shelves that have a name in common."""
    by_key: dict[tuple[str, str], list[Standing]] = {}
    for each in stand:
        by_key.setdefault(each.row.place[1:], []).append(each)
    pairs: dict[tuple[str, str], list[tuple[Standing, Standing]]] = {}
    for alike in by_key.values():
        for other in alike[1:]:
            pairs.setdefault((alike[0].row.shelf, other.row.shelf), []).append((alike[0], other))
    for (shelf, other_shelf), both in pairs.items():
        first, second = both[0]
        more = f", and {len(both) - _FEW} more" if len(both) > _FEW else ""
        names = "; ".join(_in_both(one, other) for one, other in both[:_FEW])
        yield _notice(
            "same-name-two-shelves",
            second.row.span,
            f"{names}{more}: two shelves, counted apart.",
            f"Give them other names in {other_shelf} (`formerly` keeps the old ones), or `use` one shop file.",
            (Related(first.row.span, f"{first.row.name} of {shelf}"),),
        )


def _in_both(one: Standing, other: Standing) -> str:
    return (
        f"{one.row.name} of {one.row.shelf} has an od of {one.row.od_typed or '-'}, that of {other.row.shelf} of "
        f"{other.row.od_typed or '-'}"
    )


def _undated_counts(stand: Sequence[Standing]) -> Iterator[Message]:
    seen: set[str] = set()
    for each in stand:
        row = each.row
        if row.counted is not None and row.counted_on is None and row.shelf not in seen:
            seen.add(row.shelf)
            yield _notice(
                "count-without-date",
                row.span,
                f"on-hand of {row.shelf} has no date: nothing is counted down.",
                "Write the day at the end of which they were counted, such as `inserts 2026-11-01`.",
            )


def _undated_cuts(jobs: Iterable[JobPieces], stand: Sequence[Standing]) -> Iterator[Message]:
    """Only where it makes a difference: a piece of a shelf that is counted with a date."""
    dated = {each.row.place for each in stand if each.row.counted_on is not None}
    for job in jobs:
        pieces = [each for each in job.pieces if each.left and each.day is None and each.place in dated]
        if pieces:
            yield _notice(
                "cut-without-date",
                pieces[0].span,
                f"job {job.number}: `cut` without a date: its pieces count as taken since the count, its bores are "
                "left out of the history.",
                "Write the day on the section's line, such as `cut 2026-11-20`.",
            )


def _not_proved(ordering: Ordering) -> Iterator[Message]:
    row = next(line.row for line in ordering.lines if line.row is not None)
    yield _notice(
        "order-not-proved",
        row.span,
        f"the order may take fewer sizes: {MOST_WAYS:,} ways were tried.",
        "Name the inserts of some valves by hand: the rest is then proved.",
    )


def _warning(slug: WarningSlug, span: Span, text: str, help: str, related: tuple[Related, ...] = ()) -> Message:
    return Message(Severity.WARNING, slug, span, text, help, related)


def _notice(slug: NoticeSlug, span: Span, text: str, help: str, related: tuple[Related, ...] = ()) -> Message:
    return Message(Severity.NOTICE, slug, span, text, help, related)
