"""In which units a ladder of mixes is told, by the plan's units."""

from __future__ import annotations

from pinfold.units import System

STRENGTH = {System.US: "psi", System.METRIC: "MPa"}
STIFF = {System.US: "ksi", System.METRIC: "GPa"}
MASS = {System.US: "lb", System.METRIC: "kg"}
WATER = {System.US: "gal", System.METRIC: "L"}
FACE = {System.US: ("100 ft²", 100 * 0.3048**2), System.METRIC: ("10 m²", 10.0)}
BULK = {System.US: ("1 yd³", 27 * 0.3048**3), System.METRIC: ("1 m³", 1.0)}
