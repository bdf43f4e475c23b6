"""The pocket side of planning run through, for the tests beside it."""

from __future__ import annotations

from typing import Any

from tests.planning import jobs

from seatwright.job.model import Head, Shop
from seatwright.planning.basis.findings import Findings
from seatwright.planning.found.brought_to_20 import start
from seatwright.planning.found.clean_up import clean_up
from seatwright.planning.found.guides import guides
from seatwright.planning.found.pilots import pilots
from seatwright.planning.inserts.inserts import inserts
from seatwright.planning.metal.bridges import bridges
from seatwright.planning.plan import Bridge, Found, ValvePlan, into


def pocket_side(
    *heads: Head, shop: Shop, **job_fields: Any
) -> tuple[dict[str, ValvePlan], Findings, tuple[Bridge, ...]]:
    """The plans by valve, what was said, and the bridges of all heads."""
    findings = Findings()
    job = jobs.job(*heads, shop=shop, **job_fields)
    found: tuple[Found, ...] = ()
    for head in heads:
        piloted = pilots(job, head, guides(job, head, start(job, head, findings), findings), findings)
        found += clean_up(job, head, piloted, findings)
    pocketed = inserts(job, found, findings)
    plans = tuple(into(ValvePlan, plan.on_hold(findings.holds_of(plan.name))) for plan in pocketed)
    left: tuple[Bridge, ...] = ()
    for head in heads:
        left += bridges(job, head, tuple(plan for plan in plans if plan.head == head.number), findings)
    return {plan.name: plan for plan in plans}, findings, left


def one(valve, *stock, **fields):
    """One valve alone in an iron head: its plan and what was said. `head`: fields of the head; others of the job."""
    head_fields = fields.pop("head", {})
    shop = fields.pop("shop", None) or jobs.shop(inserts=stock, **fields.pop("shop_fields", {}))
    plans, findings, _ = pocket_side(jobs.head([valve], **head_fields), shop=shop, **fields)
    return plans[valve.name], findings


def passed_over(plan: ValvePlan) -> dict[str, str]:
    """The reason for each insert that was not taken."""
    return {each.name: each.reason for each in plan.insert.passed_over} if plan.insert else {}
