"""The pocket side of planning run through, for the tests beside it."""

from __future__ import annotations

from typing import Any

import jobs

from seatwright.job.model import Head, Shop
from seatwright.planning.metal.bridges import bridges
from seatwright.planning.found.clean_up import clean_up
from seatwright.planning.basis.findings import Findings
from seatwright.planning.found.guides import guides
from seatwright.planning.inserts.inserts import inserts
from seatwright.planning.found.pilots import pilots
from seatwright.planning.plan import Bridge, ValvePlan
from seatwright.planning.found.brought_to_20 import start


def pocket_side(
    *heads: Head, shop: Shop, **job_fields: Any
) -> tuple[dict[str, ValvePlan], Findings, tuple[Bridge, ...]]:
    """The plans by valve, what was said, and the bridges of all heads."""
    findings = Findings()
    job = jobs.job(*heads, shop=shop, **job_fields)
    plans: tuple[ValvePlan, ...] = ()
    for head in heads:
        of_head: tuple[ValvePlan, ...] = ()
        for stage in (start, guides, pilots, clean_up):
            of_head = stage(job, head, of_head, findings)
        plans += of_head
    plans = inserts(job, plans, findings)
    found: tuple[Bridge, ...] = ()
    for head in heads:
        found += bridges(job, head, tuple(plan for plan in plans if plan.head == head.number), findings)[1]
    return {plan.name: plan for plan in plans}, findings, found


def one(valve, *stock, **fields):
    """One valve alone in an iron head: its plan and what was said. `head`: fields of the head; others of the job."""
    head_fields = fields.pop("head", {})
    shop = fields.pop("shop", None) or jobs.shop(inserts=stock, **fields.pop("shop_fields", {}))
    plans, findings, _ = pocket_side(jobs.head([valve], **head_fields), shop=shop, **fields)
    return plans[valve.name], findings


def passed_over(plan: ValvePlan) -> dict[str, str]:
    """The reason for each insert that was not taken."""
    return {each.name: each.reason for each in plan.insert.passed_over} if plan.insert else {}
