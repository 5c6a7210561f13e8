"""Both sides of a finding in the unit its trade speaks: stress in material in psi or MPa, all else as usual."""

from __future__ import annotations

import math

from pinfold.findings import Finding
from pinfold.units import PASCAL, System, show

MATERIAL = ("tension", "bending", "shear")
"""Checks about stress inside a material, by a word in their name; pressure on the ground stays in psf or kPa."""


def side(value: float | None, finding: Finding, system: System) -> str:
    """Demand or capacity as text; empty when not known, `without limit` when endless."""
    if value is None or math.isnan(value):
        return ""
    if math.isinf(value):
        return "without limit"
    stress = finding.unit.kind == PASCAL.kind and any(word in finding.check for word in MATERIAL)
    unit = ("psi" if system is System.US else "MPa") if stress else ""
    return show(value, finding.unit, system, in_unit=unit)
