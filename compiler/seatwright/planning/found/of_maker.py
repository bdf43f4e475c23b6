"""What is to be said of the engine's maker before anything is planned: what the job says in place of him, which of his
two columns counts, and labels of his sizes that do not fit their bores."""

from __future__ import annotations

from collections.abc import Iterable

from seatwright.job.model import Head, Job, Limits, Overridden, PocketSize, Valve
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import length
from seatwright.text import Related

LABEL = 0.02
"""How far a size may lie from what its name says [mm]; common practice."""

LABEL_INCH = 0.0254
"""The same in a job in inches, .001 in [mm]; common practice."""


def of_maker(job: Job, head: Head, findings: Findings) -> None:
    """Say it, of every valve of a head and of the head itself."""
    for one in head.overridden:
        _override(one, (), findings)
    for valve in head.valves:
        of = valve.of_engine
        for one in of.overridden if of is not None else ():
            _override(one, (valve.name,), findings)
        if of is not None and of.assumed is not None:
            findings.notice(
                "limits-new",
                "The maker prints limits for reconditioned heads too; the new ones are used.",
                "Say `limits new` or `limits reconditioned` under `valves`.",
                of.assumed,
                (valve.name,),
            )
        limits = valve.specification.limits
        if of is not None and of.limits is None and limits is not None and limits.text == "reconditioned":
            findings.notice(
                "limits-new-alone",
                "The maker prints no limits of a reconditioned head here: those of a new one count.",
                "Nothing is to be done where the manual has none either; else write them into the engine file, under "
                "`valves … reconditioned`.",
                limits.span,
                (valve.name,),
            )
        _labels(job, valve, findings)


def _override(one: Overridden, valves: Iterable[str], findings: Findings) -> None:
    place = f"{one.engine_span.file}:{one.engine_span.line}"
    where = f"({', '.join(part for part in (place, one.engine_source) if part)})"
    makers = (Related(one.engine_span, "the maker's stands here"),)
    if one.reason:
        text = f"{one.field} of the maker, {one.engine}, is not used: {one.reason} {where}."
    else:
        text = f"{one.field} is {one.job}; the maker has {one.engine} {where}."
    findings.notice("engine-overridden", text, "Nothing is to be done where this is meant.", one.job_span, valves)
    if one.outside:
        text = f"{one.field} {one.outside} is outside the maker's {one.engine}."
        if one.field == "pocket-sizes":
            ours, table = f"{one.job[:1].upper()}{one.job[1:]}", one.engine.removeprefix("a ")
            text = f"{ours} reaches outside every bore of the maker's {table}."
        findings.warning(
            "beyond-the-maker",
            text,
            f'It goes by "{one.on_whose_word}"; the record names both.'
            if one.on_whose_word
            else "Say whose figure it is, in quotes behind it, or use the maker's.",
            one.job_span,
            valves,
            makers,
        )


def _labels(job: Job, valve: Valve, findings: Findings) -> None:
    """A size that is a figure must be what its bore says."""
    sizes = valve.specification.pocket_sizes
    standard = next((_middle(row.bore) for row in sizes if row.standard), None)
    if standard is None:
        return
    near = LABEL_INCH if job.units == "inch" else LABEL
    for row in sizes:
        middle = _middle(row.bore)
        if row.name is None or row.name.over is None or middle is None:
            continue
        over = middle - standard
        if abs(over - row.name.over) > near + 1e-9:
            findings.warning(
                "size-label",
                f"The size {_called(row)} is bored {length(job, over)} over standard.",
                "Check the table: its name or its bore is a slip.",
                row.name.span,
                (valve.name,),
            )


def _called(row: PocketSize) -> str:
    return "" if row.name is None else row.name.text


def _middle(bore: Limits | None) -> float | None:
    return None if bore is None else bore.aim
