"""Amounts in complaints and notes, where nobody knows in which units the builder reads: in both."""

from __future__ import annotations

from pinfold.units import CUBIC_METER, KG_PER_CUBIC_METER, KILOGRAM, METER, PASCAL, System, Unit, poured, show

_IN = {
    METER.kind: ("mm", "in"),
    KILOGRAM.kind: ("kg", "lb"),
    PASCAL.kind: ("MPa", "psi"),
}


_TAPE = 0.003
"""What is shorter a tape in sixteenths does not show."""


def both(value: float, unit: Unit) -> str:
    """A quantity in metric and in US units: `800 kg/m³ (49.9 lb/ft³)`, a liquid as it is measured out."""
    if unit.kind == CUBIC_METER.kind:
        return f"{poured(value, System.METRIC)} ({poured(value, System.US)})"
    metric, american = _IN.get(unit.kind, ("", ""))
    return f"{show(value, unit, System.METRIC, in_unit=metric)} ({show(value, unit, System.US, in_unit=american)})"


def either(value: float, unit: Unit) -> str:
    """A bound in both, each in the unit of its size: `7 MPa (1 015 psi)`; plain numbers once."""
    fine = "in" if unit.kind == METER.kind and 0 < value < _TAPE else ""
    metric, american = show(value, unit, System.METRIC), show(value, unit, System.US, in_unit=fine)
    return metric if metric == american else f"{metric} ({american})"


def heavy(value: float) -> str:
    """A density so."""
    return both(value, KG_PER_CUBIC_METER)
