"""What to add at a few readings, worked out before anyone mixes: for the card, where there is no computer."""

from __future__ import annotations

import math
from typing import NamedTuple

from pinfold.errors import PinfoldError
from pinfold.studies.batching.records import Charge
from pinfold.studies.correcting.foamed import FoamedReading, correct_foamed, near_foamed
from pinfold.studies.correcting.held import is_foamed
from pinfold.studies.correcting.records import Off, ToAdd
from pinfold.studies.correcting.slump import correct_slump, slump_wanted
from pinfold.tables.shelf import kind
from pinfold.units import KgPerCubicMeter, Meter, Ratio

_DENSITIES: tuple[Ratio, ...] = (0.85, 0.92, 1.0, 1.08, 1.16, 1.25)
"""Readings of a pail, over what is wanted."""
_STEPS = (-3, -2, 0, 2, 3)
"""Readings of a slump, in steps of the rule off what is wanted."""


class Rung(NamedTuple):
    """One reading and what to do then.

    Attributes:
        found: density or slump.
        off: how the batch is off.
        add: for all of a batch; what the mixer would not hold is not looked at.
    """

    found: float
    off: Off
    add: ToAdd


def foam_ladder(charge: Charge) -> tuple[Rung, ...]:
    """Readings of a level pail of a foamed mix; none of them where its figures do not give them."""
    assert charge.foam is not None
    return tuple(
        rung for share in _DENSITIES if (rung := _foam_rung(charge, charge.foam.cast * share)) is not None
    )  # fmt: skip


def _foam_rung(charge: Charge, density: KgPerCubicMeter) -> Rung | None:
    try:
        found = correct_foamed(charge, FoamedReading(density=density), most=math.inf)
    except PinfoldError:  # heavier than it is without any foam
        return None
    return Rung(density, found.off, found.add)


def slump_ladder(charge: Charge) -> tuple[Rung, ...]:
    """Readings of a slump about what is wanted."""
    wanted, step = slump_wanted(charge.mix).value, kind("corrections", "slump").value("step")
    return tuple(_slump_rung(charge, wanted + by * step) for by in _STEPS if wanted + by * step >= 0)


def _slump_rung(charge: Charge, slump: Meter) -> Rung:
    found = correct_slump(charge, slump=slump, wanted=None, most=math.inf)
    return Rung(slump, found.off, found.add)


def has_ladder(charge: Charge) -> bool:
    """Whether a mix is judged by its weight or its slump; what is set dry in its hole is by neither."""
    slumps = charge.mix.word("family") == "concrete" and charge.mix.word("order") != "dry-set"
    return slumps or is_foamed(charge.mix)


def near_of(charge: Charge) -> float:
    """How near is near enough: of a foamed mix its density, else its slump."""
    return near_foamed().value if is_foamed(charge.mix) else kind("corrections", "slump").value("near")
