"""The whole plan of a job: every stage in the order of the work.

What was found, for each head; inserts, over all heads at once, since they share one stock. Then the seat, and what was
cut and finished so far: their verdicts come before bridges and settings, so that a bore that stays counts as it was cut
and the cutter is set only for bores that are still to be cut, and after the seat, since a finished valve is judged by
the seat's limits. Then the bridges, settings and speeds, the fit, the assembly, and how sure all that is.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from msgspec.structs import replace

from seatwright.job.model import Head, Job
from seatwright.told.plan_json import paper_left_out
from seatwright.planning.pressing.assembly import assembly
from seatwright.planning.metal.bridges import bridges as bridges_of
from seatwright.planning.whole_job.cautions import cautions
from seatwright.planning.found.clean_up import clean_up
from seatwright.planning.after.cut import cut
from seatwright.planning.whole_job.fetch import fetch
from seatwright.planning.basis.findings import Findings
from seatwright.planning.after.finished import finished
from seatwright.planning.metal.stresses import fit
from seatwright.planning.found.guides import guides
from seatwright.planning.inserts.inserts import inserts
from seatwright.planning.found.pilots import pilots
from seatwright.planning.plan import Bridge, Plan, Setting, TrialPlan, ValvePlan
from seatwright.planning.machine.reopen import reopen
from seatwright.planning.seat.seat import seat
from seatwright.planning.machine.settings import Settings, settings
from seatwright.planning.machine.speeds import speeds
from seatwright.planning.seat.stands import stands
from seatwright.planning.found.brought_to_20 import start
from seatwright.planning.machine.torque import torque
from seatwright.planning.certainty.uncertainty import planned_u, uncertainty

Stage = Callable[[Job, Head, tuple[ValvePlan, ...], Findings], tuple[ValvePlan, ...]]

_FOUND: tuple[Stage, ...] = (start, guides, pilots, clean_up)
"""From what was found to what the new pocket must clean up."""

_SO_FAR: tuple[Stage, ...] = (seat, stands, cut, finished)
"""The seat that is wanted, and where each valve stands: which bores are cut, judged and done with."""


def plan(job: Job) -> Plan:
    """Plan a job. Nothing is read or written: all that there is to say is in the plan's messages.

    Valves are in the order of their heads, settings numbered upwards over the whole job. A valve on hold keeps what
    could be computed, and stands in no setting.
    """
    findings = Findings(job.span)
    valves: tuple[ValvePlan, ...] = ()
    for head in job.heads:
        valves += _through(_FOUND, job, head, (), findings)
    valves = inserts(job, valves, findings)
    so_far = {head.number: _through(_SO_FAR, job, head, _of(head, valves), findings) for head in job.heads}
    of_head = {head.number: bridges_of(job, head, so_far[head.number], findings) for head in job.heads}
    bridges: tuple[Bridge, ...] = tuple(bridge for _, found in of_head.values() for bridge in found)
    made: list[Setting] = []
    trials: list[TrialPlan] = []
    proof: list[str] = []
    done: tuple[ValvePlan, ...] = ()
    for head in job.heads:
        machined = _machined(job, head, of_head[head.number][0], len(made) + 1, findings)
        plans = fit(job, head, machined.plans, bridges, findings)
        plans = assembly(job, head, plans, bridges, findings)
        done += uncertainty(job, head, plans, findings)
        made += machined.settings
        trials += machined.trials
        proof += machined.proof
    done = _judged(done, findings)
    _paper(job, findings)
    return Plan(
        job=job,
        heads=job.heads,
        valves=done,
        settings=tuple(made),
        trials=tuple(trials),
        fewest_settings_proof=tuple(proof),
        bridges=bridges,
        fetch=fetch(job, done, tuple(made)),
        cautions=cautions(job, done, bridges),
        not_checked=findings.not_checked(),
        messages=findings.messages(),
    )


def _of(head: Head, valves: tuple[ValvePlan, ...]) -> tuple[ValvePlan, ...]:
    return tuple(each for each in valves if each.head == head.number)


def _through(
    stages: Sequence[Stage], job: Job, head: Head, plans: tuple[ValvePlan, ...], findings: Findings
) -> tuple[ValvePlan, ...]:
    for stage in stages:
        plans = stage(job, head, plans, findings)
    return plans


def _machined(job: Job, head: Head, plans: tuple[ValvePlan, ...], first_number: int, findings: Findings) -> Settings:
    """The cutter's settings of a head, what opens its small bores, with speed, feed and torque."""
    set_up = settings(job, head, plans, findings, first_number, planned_u)
    plans = reopen(job, head, set_up.plans, set_up.settings, findings)
    plans, turned = speeds(job, head, plans, set_up.settings, findings)
    return replace(set_up, plans=torque(job, head, plans, findings), settings=turned)


def _judged(plans: tuple[ValvePlan, ...], findings: Findings) -> tuple[ValvePlan, ...]:
    """The valves with their holds, and the status that follows from them."""
    done = []
    for each in plans:
        holds = findings.holds_of(each.name)
        done.append(replace(each, holds=holds, status="hold" if holds else each.status))
    return tuple(done)


def _paper(job: Job, findings: Findings) -> None:
    if job.paper is None:
        findings.notice(
            "paper-left-out",
            f"The paper of the cards is left out: {paper_left_out(job)}.",
            "Write `paper a4`, `letter`, `a5` or `half-letter` under `job`.",
            job.span,
        )
