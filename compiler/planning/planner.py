"""The whole plan of a job: every stage in the order of the work, one head after the other."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from seatwright.job.model import Head, Job
from seatwright.planning.as_json import paper_left_out
from seatwright.planning.cautions import cautions
from seatwright.planning.clean_up import clean_up
from seatwright.planning.fetch import fetch
from seatwright.planning.findings import Findings
from seatwright.planning.guides import guides
from seatwright.planning.pilots import pilots
from seatwright.planning.plan import Bridge, Plan, Setting, TrialPlan, ValvePlan
from seatwright.planning.settings import settings
from seatwright.planning.speeds import speeds
from seatwright.planning.start import start
from seatwright.planning.torque import torque

Stage = Callable[[Job, Head, tuple[ValvePlan, ...], Findings], tuple[ValvePlan, ...]]

_POCKET: tuple[Stage, ...] = (start, guides, pilots, clean_up)
"""From what was found to what the new pocket must clean up."""


def plan(job: Job) -> Plan:
    """Plan a job. Nothing is read or written: all that there is to say is in the plan's messages.

    Valves are in the order of their heads, settings numbered upwards over the whole job. A valve on hold keeps what
    could be computed, and stands in no setting.
    """
    findings = Findings()
    valves: list[ValvePlan] = []
    made: list[Setting] = []
    trials: list[TrialPlan] = []
    proof: list[str] = []
    bridges: list[Bridge] = []
    for head in job.heads:
        plans: tuple[ValvePlan, ...] = ()
        for stage in _POCKET:
            plans = stage(job, head, plans, findings)
        set_up = settings(job, head, plans, findings, len(made) + 1)
        plans, of_head = speeds(job, head, set_up.plans, set_up.settings, findings)
        plans = torque(job, head, plans, findings)
        valves += _judged(plans, findings)
        made += of_head
        trials += set_up.trials
        proof += set_up.proof
    _paper(job, findings)
    planned = tuple(valves)
    return Plan(
        job=job,
        heads=job.heads,
        valves=planned,
        settings=tuple(made),
        trials=tuple(trials),
        fewest_settings_proof=tuple(proof),
        bridges=tuple(bridges),
        fetch=fetch(job, planned, tuple(made)),
        cautions=cautions(job, planned, tuple(bridges)),
        not_checked=findings.not_checked(),
        messages=findings.messages(),
    )


def _judged(plans: tuple[ValvePlan, ...], findings: Findings) -> tuple[ValvePlan, ...]:
    """The valves with their holds, and the status that follows from them."""
    done = []
    for each in plans:
        holds = findings.holds_of(each.name)
        status = "hold" if holds else each.status
        done.append(replace(each, holds=holds, status=status))
    return tuple(done)


def _paper(job: Job, findings: Findings) -> None:
    if job.paper is None:
        paper = paper_left_out(job)
        findings.notice(
            "paper-left-out",
            f"The paper of the cards is left out: {paper}.",
            "Write `paper a4`, `letter`, `a5` or `half-letter` under `job`.",
            job.span,
        )
