"""Tight wires between supports."""

from __future__ import annotations

from pinfold.errors import OutOfRangeError
from pinfold.formulas.ranges import within
from pinfold.units import Meter, Newton, NewtonPerMeter

_STEEPEST_SAG = 0.05


def wire_sag(*, weight: NewtonPerMeter, span: Meter, tension: Newton) -> Meter:
    """Sag of a tight wire between supports of one height: f = w L² / (8 T).

    Args:
        weight: w, weight of the wire per length, with ice where it may come [N/m]
        span: L, distance between supports [m]
        tension: T, level pull of the wire [N]

    Returns:
        f, sag at mid-span [m]

    Raises:
        OutOfRangeError: an argument is out of its range, or the sag passes 5 % of the span.

    Range:
        w ≥ 0, L, T > 0, f ≤ 0.05 L; refused outside.

    Source:
        SAG-PAGE (read)
        STATICS, a parabola for the catenary (derived)

    Example:
        >>> wire_sag(weight=0.4, span=10.0, tension=500.0)
        0.01
    """
    reach = within(span, "span in m", above=0.0)
    sag = within(weight, "weight in N/m", low=0.0) * reach**2 / (8 * within(tension, "tension in N", above=0.0))
    if sag > _STEEPEST_SAG * reach:
        raise OutOfRangeError(
            f"a sag of {sag:.3g} m is over 5 % of the {reach:.3g} m span: the wire is no longer tight"
        )
    return sag
