"""Tight wires between supports: sag, and what cold, warmth and wind do to their pull."""

from __future__ import annotations

import math

from pinfold.errors import OutOfRangeError
from pinfold.formulas.ranges import within
from pinfold.units import Celsius, Meter, Newton, NewtonPerMeter, Pascal, Ratio

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


def pull_at_sag(*, load: NewtonPerMeter, span: Meter, sag: Meter) -> Newton:
    """Pull at which a tight wire hangs through so far: T = w L² / (8 f).

    Args:
        load: w, load square to the wire, wind and weight together [N/m]
        span: L, distance between supports [m]
        sag: f, at mid-span [m]

    Returns:
        T, level pull [N]

    Raises:
        OutOfRangeError: load is below 0, span or sag not above 0, or the sag over 5 % of the span.

    Range:
        w ≥ 0, L > 0, 0 < f ≤ 0.05 L; refused outside.

    Source:
        SAG-PAGE, solved for the pull (read)
        STATICS, a parabola for the catenary (derived)

    Example:
        >>> pull_at_sag(load=100.0, span=2.0, sag=0.1)
        500.0
    """
    reach = within(span, "span in m", above=0.0)
    hangs = within(sag, "sag in m", above=0.0, high=_STEEPEST_SAG * reach)
    return within(load, "load in N/m", low=0.0) * reach**2 / (8 * hangs)


def wire_stiffness(*, diameter: Meter, modulus: Pascal) -> Newton:
    """Pull that would stretch a wire by its own length: K = E π d² / 4.

    Args:
        diameter: d, of the wire without its zinc [m]
        modulus: E, modulus of elasticity [Pa]

    Returns:
        K, stiffness of the wire [N]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        d, E > 0; refused otherwise. Straight wire: crimps and twists stretch much more.

    Source:
        STATICS (derived)

    Example:
        >>> wire_stiffness(diameter=0.002, modulus=200e9)
        628319
    """
    return within(modulus, "modulus in Pa", above=0.0) * math.pi * within(diameter, "diameter in m", above=0.0) ** 2 / 4


def tension_after(
    *, tension: Newton, stiffness: Newton, before: NewtonPerMeter, after: NewtonPerMeter, span: Meter,
    expansion: Ratio, warming_c: Celsius,
) -> Newton:  # fmt: skip
    """Pull of a wire once load or warmth has changed: H − K (w2 L)² / (24 H²) = T − K (w1 L)² / (24 T²) − K α ΔT.

    The wire keeps its length but for stretch and warmth, and hangs in a parabola before and after.

    Args:
        tension: T, pull as strained [N]
        stiffness: K, of the wire, from wire_stiffness [N]
        before: w1, load on the wire as strained, its weight [N/m]
        after: w2, load on it afterwards, wind and weight together [N/m]
        span: L, between posts [m]
        expansion: α, expansion per °C, about 0.000012 for steel [-]
        warming_c: ΔT, how much warmer it is than when strained; colder is below 0 [°C]

    Returns:
        H, level pull afterwards; 0 for a straight wire without load that went slack [N]

    Raises:
        OutOfRangeError: tension, stiffness or span is not above 0, a load or the expansion below 0, or w1 L over 0.4 T.

    Range:
        T, K, L > 0; w1, w2, α ≥ 0, w1 L ≤ 0.4 T (a sag of 5 %); refused outside. Ends that do not give: what they
        give lowers a rising pull.

    Source:
        STATICS, change of state of a parabola (derived)

    Example:
        >>> tension_after(
        ...     tension=1000.0, stiffness=1e6, before=0.0, after=0.0, span=10.0, expansion=12e-6, warming_c=-50.0
        ... )
        1600.0
    """
    pull, stiff = within(tension, "tension in N", above=0.0), within(stiffness, "stiffness in N", above=0.0)
    reach = within(span, "span in m", above=0.0)
    hung = within(before, "load in N/m", low=0.0) * reach / pull
    within(hung, "weight of the span over the pull it is strained with", high=8 * _STEEPEST_SAG)
    was = stiff * hung**2 / 24
    straight = pull - was - stiff * within(expansion, "expansion per °C", low=0.0) * warming_c
    bow = stiff * (within(after, "load in N/m", low=0.0) * reach) ** 2 / 24
    if bow == 0:
        return max(straight, 0.0)
    return _pull_of_parabola(straight, bow)


def _pull_of_parabola(straight: Newton, bow: float) -> Newton:
    """The positive root of H³ − straight H² = bow, from above, where Newton's steps only fall until they meet it."""
    pull = max(straight, 0.0) + math.pow(bow, 1 / 3)
    lower = pull - (pull**3 - straight * pull**2 - bow) / (3 * pull**2 - 2 * straight * pull)
    while lower < pull * (1 - 1e-15):
        pull = lower
        lower = pull - (pull**3 - straight * pull**2 - bow) / (3 * pull**2 - 2 * straight * pull)
    return pull


def loads_together(*, across: NewtonPerMeter, down: NewtonPerMeter) -> NewtonPerMeter:
    """Wind across a wire or rail and weight down it, as one: w = √(p² + g²).

    Args:
        across: p, level load [N/m]
        down: g, weight [N/m]

    Returns:
        w, load square to the wire [N/m]

    Raises:
        OutOfRangeError: a load is below 0.

    Range:
        p, g ≥ 0; refused below.

    Source:
        STATICS (derived)

    Example:
        >>> loads_together(across=30.0, down=40.0)
        50.0
    """
    return math.hypot(within(across, "level load in N/m", low=0.0), within(down, "weight in N/m", low=0.0))
