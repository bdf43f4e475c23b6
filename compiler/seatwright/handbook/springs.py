"""The valve spring: its rate by two points of the maker, its force at a height, what sinking costs, room at full lift.

Heights are installed ones, from retainer to spring seat; a spring is weaker the longer it stands.
"""

from __future__ import annotations

__all__ = ["force_at_height", "force_lost", "rate_holds", "room_at_lift", "room_over_seal", "spring_rate"]

BEYOND = 0.25
"""Share of the span between two points that the rate still holds beyond them [-]; common practice, this program's own
bound. Printed free lengths do not lie on the line: 590 N at 58 and 1150 N at 45 would put it at 71.7, and 73 to 74 is
printed."""

_SLACK = 1e-9


def spring_rate(force_short: float, height_short: float, force_long: float, height_long: float) -> float:
    """Rate of a spring from two points [N/mm]: (F₁ − F₂)/(h₂ − h₁).

    `force_short`, `height_short`: the point pressed further, F₁ and h₁ [N, mm]; `force_long`, `height_long`: the other,
    F₂ and h₂ [N, mm]. Raises ValueError where the spring is not stronger when it is shorter.
    Source: the definition of a rate; the worked figure is a published service manual's.

    >>> round(spring_rate(980, 35.55, 340, 45.75), 3)
    62.745
    """
    if not (height_long > height_short and force_short > force_long):
        raise ValueError("a spring is stronger the shorter it is: these two points are not of one")
    return (force_short - force_long) / (height_long - height_short)


def rate_holds(height: float, height_short: float, height_long: float) -> bool:
    """Whether the rate of two points holds at a height: between them and a quarter of their span beyond, no further.

    `height` [mm]; `height_short`, `height_long`: of the two points [mm]. Raises no error. Source: common practice.

    >>> rate_holds(48.0, 35.55, 45.75), rate_holds(53.9, 35.55, 45.75)
    (True, False)
    """
    beyond = BEYOND * (height_long - height_short)
    return height_short - beyond <= height * (1 + _SLACK) and height <= (height_long + beyond) * (1 + _SLACK)


def force_at_height(force: float, at: float, rate: float, height: float) -> float:
    """Force of a spring at another height than it was read at [N]: F + k·(at − height).

    `force`: F, as read [N]; `at`: the height of that reading [mm]; `rate`: k [N/mm]; `height`: wanted [mm].
    Valid where `rate_holds`. Raises no error. Source: the definition of a rate.

    >>> round(force_at_height(340, 45.75, 62.745, 35.55))
    980
    """
    return force + rate * (at - height)


def force_lost(rate: float, sinks: float) -> float:
    """Force that a spring loses when its valve sinks [N]: k·z; a valve that comes up gains it.

    `rate`: k [N/mm]; `sinks`: z, by how much deeper the valve sits [mm]. Raises no error. Source: geometry.

    >>> round(force_lost(62.745, 0.4), 1)
    25.1
    """
    return rate * sinks


def room_at_lift(height: float, lift: float, bind: float) -> float:
    """Room that is left between the coils at full lift [mm]: height − lift − coil bind.

    `height`: installed, over any shim [mm]; `lift`: of the valve [mm]; `bind`: height at which the coils touch [mm].
    Raises no error. Source: geometry.

    >>> room_at_lift(38.9, 9.5, 25.0) == 38.9 - 9.5 - 25.0
    True
    """
    return height - lift - bind


def room_over_seal(found: float, sinks: float, lift: float) -> float:
    """Room between retainer and seal or guide at full lift [mm]: found + z − lift; a shim does not change it.

    `found`: retainer to seal with the valve shut, as measured [mm]; `sinks`: z [mm]; `lift`: of the valve [mm].
    Raises no error. Source: geometry.

    >>> round(room_over_seal(11.5, 0.3, 9.5), 2)
    2.3
    """
    return found + sinks - lift
