"""Densities in complaints and notes, where nobody knows in which units the builder reads: in both."""

from __future__ import annotations

from pinfold.units import KG_PER_CUBIC_METER, both


def heavy(value: float) -> str:
    """A density in both units."""
    return both(value, KG_PER_CUBIC_METER)
