"""Concretes by a wish, for the tests: a site without a plan, and the wish read as any door reads it."""

from __future__ import annotations

from pinfold.plan.place import Mixing
from pinfold.studies.proportioning.families import family_named
from pinfold.studies.proportioning.wishes import read_wish
from pinfold.tables.shelf import kind
from pinfold.units import UNIT_BY_SYMBOL

SITE = Mixing(batch=0.06, bucket=0.012, bag=25.0, lime_bag=20.0, sand_bulking=None)
FT3, YD3, LB, PSI, PCY, PCF = (UNIT_BY_SYMBOL[s].factor for s in ("ft3", "yd3", "lb", "psi", "lb/yd3", "lb/ft3"))
WATER = 62.4 * PCF


def wish_of(name, **typed):
    return read_wish(family_named(name), typed, mixing=SITE, material=lambda each: kind("materials", each))


def proposed(name, **typed):
    return family_named(name).propose(wish_of(name, **typed))


def gravity(number):
    """Density typed for a specific gravity, water at 62.4 lb/ft3 as the American sources have it."""
    return f"{number * 62.4} lb/ft3"


def step(found, why):
    """The result of the line of working that says so."""
    return next(line.result for line in found.working if line.why == why)
