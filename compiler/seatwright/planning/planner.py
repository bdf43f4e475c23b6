"""The whole plan of a job: every stage in the order of the work.

What was found, for each head; inserts, over all heads at once, since they share one stock. Then the seat, and what was
cut and finished so far: their verdicts come before bridges and settings, so that a bore that stays counts as it was cut
and the cutter is set only for bores that are still to be cut, and after the seat, since a finished valve is judged by
the seat's limits. Then the bridges, settings and speeds, the fit, the assembly, and how sure all that is. Last the
guides that are renewed: they come first at the bench, and nothing rests on one that is not in yet.
"""

from __future__ import annotations

from seatwright.job.model import Head, Job
from seatwright.planning.after.cut import cut
from seatwright.planning.after.finished import finished
from seatwright.planning.after.rework import waiting
from seatwright.planning.basis.findings import Findings
from seatwright.planning.certainty.uncertainty import uncertainty
from seatwright.planning.found.brought_to_20 import start
from seatwright.planning.found.clean_up import clean_up
from seatwright.planning.found.guides import guides
from seatwright.planning.found.of_maker import of_maker
from seatwright.planning.found.pilots import pilots
from seatwright.planning.inserts.inserts import inserts
from seatwright.planning.machine.passes import passes
from seatwright.planning.machine.reopen import reopen
from seatwright.planning.machine.settings import Settings, settings
from seatwright.planning.machine.speeds import speeds
from seatwright.planning.machine.torque import torque
from seatwright.planning.metal.bridges import bridges as bridges_of
from seatwright.planning.metal.stresses import fit
from seatwright.planning.plan import (
    Bridge,
    Closed,
    Found,
    Machined,
    Passed,
    Plan,
    Pocketed,
    Setting,
    TrialPlan,
    ValvePlan,
)
from seatwright.planning.pressing.assembly import assembly
from seatwright.planning.seat.seat import seat
from seatwright.planning.seat.springs import springs
from seatwright.planning.seat.stands import stands
from seatwright.planning.whole_job.cautions import cautions
from seatwright.planning.whole_job.fetch import fetch
from seatwright.planning.whole_job.overdue import overdue


def plan(job: Job) -> Plan:
    """Plan a job. Nothing is read or written: all that there is to say is in the plan's messages.

    Valves are in the order of their heads, settings numbered upwards over the whole job. A valve on hold keeps what
    could be computed, and stands in no setting.
    """
    findings = Findings(job.span)
    as_found = tuple(plan for head in job.heads for plan in _found(job, head, findings))
    pocketed = findings.held(inserts(job, as_found, findings))
    so_far = {head.number: _so_far(job, head, pocketed, findings) for head in job.heads}
    of_head = {head.number: bridges_of(job, head, so_far[head.number], findings) for head in job.heads}
    bridges = tuple(bridge for found in of_head.values() for bridge in found)
    made: list[Setting] = []
    trials: list[TrialPlan] = []
    proof: list[str] = []
    done: tuple[ValvePlan, ...] = ()
    for head in job.heads:
        set_up = settings(job, head, _passed(job, head, so_far[head.number], findings), findings, len(made) + 1)
        machined, turned = _machined(job, head, set_up, findings)
        done += _sure(job, head, machined, bridges, findings)
        made += turned
        trials += set_up.trials
        proof += set_up.proof
    done = findings.held(_guides_renewed(job, done, findings))
    overdue(job, findings)
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


def _found(job: Job, head: Head, findings: Findings) -> tuple[Found, ...]:
    """From what was found to what the new pocket must clean up."""
    of_maker(job, head, findings)
    started = findings.held(start(job, head, findings))
    guided = findings.held(guides(job, head, started, findings))
    piloted = findings.held(pilots(job, head, guided, findings))
    return findings.held(clean_up(job, head, piloted, findings))


def _so_far(job: Job, head: Head, pocketed: tuple[Pocketed, ...], findings: Findings) -> tuple[Closed, ...]:
    """The seat that is wanted, and where each valve stands: which bores are cut, judged and done with."""
    of_head = tuple(plan for plan in pocketed if plan.head == head.number)
    seated = findings.held(seat(job, head, of_head, findings))
    stood = findings.held(stands(job, head, seated, findings))
    sprung = findings.held(springs(job, head, stood, findings))
    judged = findings.held(cut(job, head, sprung, findings))
    return findings.held(finished(job, head, waiting(judged), findings))


def _passed(job: Job, head: Head, closed: tuple[Closed, ...], findings: Findings) -> tuple[Passed, ...]:
    """The bores that are still to be cut, bridges known, and the passes to them."""
    return findings.held(passes(job, head, findings.held(closed), findings))


def _machined(
    job: Job, head: Head, set_up: Settings, findings: Findings
) -> tuple[tuple[Machined, ...], tuple[Setting, ...]]:
    """What opens the small bores of a head, and the cutter's settings with speed, feed and torque."""
    in_setting = findings.held(set_up.plans)
    reopened = findings.held(reopen(job, head, in_setting, set_up.settings, set_up.openings, findings))
    timed, turned = speeds(job, head, reopened, set_up.settings, findings)
    return findings.held(torque(job, head, findings.held(timed), findings)), turned


def _sure(
    job: Job, head: Head, machined: tuple[Machined, ...], bridges: tuple[Bridge, ...], findings: Findings
) -> tuple[ValvePlan, ...]:
    """The fit, the way in, and how sure all that is."""
    fitted = findings.held(fit(job, head, machined, bridges, findings))
    assembled = findings.held(assembly(job, head, fitted, findings))
    return findings.held(uncertainty(job, head, assembled, findings))


def _guides_renewed(job: Job, done: tuple[ValvePlan, ...], findings: Findings) -> tuple[ValvePlan, ...]:
    """Which guides go in, and what is done with each."""
    if not any((wish := plan.valve.specification.guide) is not None and wish.renews for plan in done):
        return done  # most heads keep theirs: what reckons new ones is not even loaded
    from seatwright.planning.guides.new_guides import new_guides

    return new_guides(job, done, findings)


def _paper(job: Job, findings: Findings) -> None:
    if job.paper is None:
        findings.notice(
            "paper-left-out",
            f"The paper of the cards is left out: {job.paper_left_out}.",
            "Write `paper a4`, `letter`, `a5` or `half-letter` under `job`.",
            job.span,
        )
