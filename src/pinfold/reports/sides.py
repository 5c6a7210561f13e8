"""Both sides of a finding in the unit its trade speaks: stress in material in psi or MPa, all else as usual."""

from __future__ import annotations

import math

from pinfold.findings import Finding
from pinfold.units import METER, PASCAL, Meter, System, show, symbol_for

MATERIAL = ("tension", "bending", "shear")
"""Checks about stress inside a material, by a word in their name; pressure on the ground stays in psf or kPa."""


def side(value: float | None, finding: Finding, system: System) -> str:
    """Demand or capacity as text; empty when not known, `without limit` when endless."""
    if value is None or math.isnan(value):
        return ""
    if math.isinf(value):
        return "without limit"
    return show(value, finding.unit, system, in_unit=_unit(finding, system))


def _unit(finding: Finding, system: System) -> str:
    """One unit for both sides: by the trade for stress in material, else what suits the larger of the two."""
    if finding.unit.kind == PASCAL.kind and any(word in finding.check for word in MATERIAL):
        return "psi" if system is System.US else "MPa"
    if finding.unit.kind == METER.kind:
        return _fine(finding, system)
    known = [abs(value) for value in (finding.demand, finding.capacity) if value is not None and math.isfinite(value)]
    return symbol_for(max(known, default=0.0), finding.unit, system)


def _fine(finding: Finding, system: System) -> str:
    """A tape shows lengths; widths of cracks, which no tape shows, are in decimals of an inch."""
    fine = finding.capacity is not None and abs(finding.capacity) < FINE
    return "in" if fine and system is System.US else ""


FINE: Meter = 0.0015
"""A sixteenth of an inch."""
