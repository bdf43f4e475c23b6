"""What the stresses, forces and hot fits of a valve take for granted: printed beside them by `explain` (handbook 9)."""

from __future__ import annotations

from collections.abc import Iterable

from seatwright.job.model import Head
from seatwright.planning.plan import ValvePlan

_COLD = ("pressure", "hoop_head", "hoop_insert", "push_out", "press_in", "set_left")
_HOT = ("hot_least", "hot_most", "soaked_least", "soaked_most", "gone_at_C", "set_left")


def assumptions(head: Head, plan: ValvePlan, paths: Iterable[str]) -> tuple[str, ...]:
    """What is taken for granted by the figures of these paths (`fit.pressure`, `assembly.press_N`); () for none."""
    named = [path.split(".")[-1].removesuffix("_least").removesuffix("_most") for path in paths if "fit." in path]
    whole = [path.split(".")[-1] for path in paths if path.startswith("fit.")]
    press = any(path.endswith("press_N") for path in paths)
    cold = press or any(name in _COLD for name in named)
    hot = any(name in _HOT for name in whole)
    said: list[str] = []
    if cold:
        said += [
            "Insert and head are two rings in plane stress with free ends, and nothing yields.",
            "A short insert in a deep block has 10 to 38 % more pressure than such rings, and 8 to 22 % more stress at "
            "the open face: forces to push it out are on the safe side, and warnings take 1.25 times the stress.",
            _metal(head, plan),
            "In a bridge with an insert on both sides both count, in a wide plate: the edge of the head, holes and a "
            "third insert are not in it.",
        ]
    if "guide.closes" in paths or "guide.push_out" in paths:
        said.append("A guide is a thick ring in wide metal, nothing yields: so its bore closes the most that it can.")
    if any(name in ("push_out", "press_in") for name in named) or press:
        said.append("Pushing out is reckoned with the least friction of head and insert, pressing in with the most.")
    if hot:
        said += [
            "Insert and head are each at one temperature throughout; running temperatures are those of the job.",
            "Expansion is the mean from 20 °C, in a straight line between the lines of the material's table.",
            "Creep is not reckoned: an aluminium head held hot for long loses fit beside what is said here.",
        ]
    if (cold or hot) and plan.fit is not None and plan.fit.roughness_loss is None:
        said.append("The peaks of bore and insert that press flat are not taken off: the shop gives no `roughness`.")
    if "set_left" in named:
        said.append("What goes beyond the yield of the ring is lost as set: an estimate.")
    if any(name == "in_limits_probability" for name in named):
        said.append("What is not known of bore and insert is taken as normal; of an insert known by limits, as even.")
        said.append(
            "Bores of one setting share its errors: that all are good is likelier than each by itself multiplied."
        )
    return tuple(said)


def _metal(head: Head, plan: ValvePlan) -> str:
    spec = plan.valve.specification
    if plan.found.metal_around or spec.metal_around or head.metal_around:
        return "The metal around the pocket is as thick all round as `metal-around` says."
    return (
        "How thick the metal around is, is not given: one end of each range is a ring as thick as the thinnest bridge, "
        "the other wide metal."
    )
