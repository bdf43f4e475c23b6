"""What is said of a fit whose stresses come near what head and insert bear, or that heat takes away (handbook 9)."""

from __future__ import annotations

from msgspec import Struct

from seatwright.handbook import fit_stress
from seatwright.job.model import Head, Job, Material, Stated
from seatwright.planning.basis.findings import Findings
from seatwright.planning.basis.wording import degrees, length
from seatwright.planning.metal.thick_rings import two_figures
from seatwright.planning.plan import Judged
from seatwright.planning.plan.figure import Figure
from seatwright.text.slugs import WarningSlug

_LESS = "Take an interference nearer its least, an insert of another size, or ask the engine maker. An estimate."
_SAY_METAL = " `metal-around` says how much metal there is where it is known."


class Stress(Struct, frozen=True):
    """A hoop stress in the head.

    hoop: [MPa]. running: head and insert hot. shared: of a bridge with an insert on both sides.
    """

    hoop: float
    running: bool = False
    shared: bool = False


def head_stress(head: Head, plan: Judged, sure: Stress, worst: Stress, findings: Findings) -> None:
    """Hoop stress in the head, times the factor of the open face, against strength and yield.

    Beyond them with wide metal around is a warning. Beyond them only by the upper estimate (nearest metal, two inserts
    in a bridge, no help from the floor) holds for almost every head in service: a notice, for who wants to know.
    """
    material = head.material
    if material is None:
        return
    if material.strength is None and material.yield_strength is None:
        findings.unchecked(
            "head-strength-not-known",
            f"The strength of {material.name} is not known: whether the head bears the fit was not checked.",
            "Give `strength` and `yield` of the head's material in the shop file.",
            head.span,
            (plan.name,),
        )
        return
    limits: tuple[tuple[Stated | None, str, WarningSlug], ...] = (
        (material.strength, "breaks", "head-may-crack"),
        (material.yield_strength, "gives: the fit may come out looser", "head-may-yield"),
    )
    for limit, what, slug in limits:
        if limit is None:
            continue
        bears = f"more than the {two_figures(limit.value)} MPa at which {material.name} {what} ({limit.source})"
        if _at_open_face(sure) > limit.value:
            findings.warning(slug, f"The head would carry {_carried(sure)}, {bears}.", _LESS, head.span, (plan.name,))
            return
        if _at_open_face(worst) > limit.value:
            findings.notice(
                "head-stress-upper-estimate",
                f"By the upper estimate the head would carry {_carried(worst)}, {bears}.",
                "The floor and the metal further off help to carry it, so this is no verdict; look at the bridges for "
                f"cracks.{'' if worst.shared else _SAY_METAL}",
                head.span,
                (plan.name,),
            )
            return


def _at_open_face(stress: Stress) -> float:
    return fit_stress.OPEN_FACE * stress.hoop


def _carried(stress: Stress) -> str:
    where = "in a bridge with an insert on both sides" if stress.shared else "at the edge of the bore"
    running = ", running" if stress.running else ""
    return f"about {two_figures(_at_open_face(stress))} MPa {where}, with the most interference{running}"


def insert_stress(head: Head, plan: Judged, alloy: Material | None, hoop: float, findings: Findings) -> None:
    """Hoop stress in the insert at its hole [MPa], cold, against its yield."""
    if alloy is None:
        return
    if alloy.yield_strength is None:
        findings.unchecked(
            "insert-yield-not-known",
            f"The yield of {alloy.name} is not known: whether the insert bears the fit, cold or hot, was not checked.",
            "Give `yield` of the alloy in the shop file.",
            alloy.span or plan.valve.span,
            (plan.name,),
        )
    elif -hoop > alloy.yield_strength.value:
        findings.warning(
            "insert-may-yield",
            f"With the most interference the insert carries about {two_figures(-hoop)} MPa at its hole, "
            f"more than the {two_figures(alloy.yield_strength.value)} MPa at which {alloy.name} gives "
            f"({alloy.yield_strength.source}).",
            _LESS,
            head.span,
            (plan.name,),
        )


def gone_running(job: Job, plan: Judged, left: Figure, t_head: Figure, t_insert: Figure, findings: Findings) -> None:
    """The least fit does not last at running temperature."""
    findings.warning(
        "fit-gone-running",
        f"With the head at {degrees(job, t_head.value)} and the insert at {degrees(job, t_insert.value)} the least "
        f"fit is gone: {length(job, left.value, 4 if job.units == 'inch' else 3)} is left of it.",
        "Take more interference if the maker allows it, or an alloy that expands more like the head.",
        plan.valve.span,
        (plan.name,),
    )


def gone_soaked(job: Job, plan: Judged, left: Figure, t: Figure, gone: Figure | None, findings: Findings) -> None:
    """The least fit does not last with head and insert at one temperature: just after stopping, or overheated."""
    since = "" if gone is None else f"; it is gone at about {degrees(job, round(gone.value / 5) * 5.0)}"
    findings.warning(
        "fit-gone-soaked",
        f"With head and insert both at {degrees(job, t.value)}, as after a hot stop, the least fit is gone: "
        f"{length(job, left.value, 4 if job.units == 'inch' else 3)} is left of it{since}.",
        "Take more interference if the maker allows it, or an alloy that expands more like the head.",
        plan.valve.span,
        (plan.name,),
    )


def takes_a_set(job: Job, plan: Judged, pressure: Figure, limit: float, left: Figure, findings: Findings) -> None:
    """The insert is squeezed beyond its yield when hot and is looser when cold again."""
    findings.warning(
        "insert-may-take-a-set",
        f"Hot, the insert is squeezed with about {two_figures(pressure.value)} MPa and gives at about "
        f"{two_figures(limit)} MPa. Cold again, as little as "
        f"{length(job, left.value, 3 if job.units == 'inch' else 2)} of interference may be left. An estimate.",
        "Take an alloy with more yield or less expansion for this head, or ask the insert's maker.",
        plan.valve.span,
        (plan.name,),
    )
