"""The builder's own sand: how much of it to measure, and the water it brings along.

Mixes are given in parts of damp loose sand. Such sand stands swollen over its dry volume by the figure `bulking_low` of
kind `sand` (about 5 % moisture); a bulking measured on site shifts the volume to measure and nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.figures import Figure, practice, printed
from pinfold.findings import Step, work
from pinfold.formulas import concrete_batch
from pinfold.formulas import sand as sand_formulas
from pinfold.sources import Standing
from pinfold.tables.shelf import Kind
from pinfold.units import RATIO, CubicMeter, Kilogram, Ratio

DAMP = printed("5 %", RATIO, Standing.READ, "BULKING-BATCH", "about 5 % moisture")
"""Water on and in damp sand over its dry mass, at the bulking the mixes are given for."""

_WETTEST: Ratio = 0.06  # sand swells most at 4 to 6 % moisture; what is wetter shrinks again


@dataclass(frozen=True, kw_only=True)
class SiteSand:
    """Sand as it lies on the heap, for one batch.

    Attributes:
        loose: volume to measure.
        water: free water it brings; below 0 where dry sand drinks.
        note: what was assumed.
        working: lines of working.
    """

    loose: CubicMeter
    water: Kilogram
    note: str
    working: tuple[Step, ...]


def dampness_of(kind: Kind, bulking: Ratio | None) -> Figure:
    """Water over dry mass in sand that swells so much.

    As the log teaches it, where it does; else in proportion to the swelling; DAMP where that was not measured either.
    """
    if kind.has("moisture"):
        return kind.figure("moisture")
    if bulking is None:
        return DAMP
    share = min(DAMP.value * bulking / kind.value("bulking_low"), _WETTEST)
    return practice(f"{share:.6g}", RATIO, "in proportion to how far it swells")


def moisture_of(kind: Kind, bulking: Ratio | None) -> Ratio:
    """The same as a number."""
    return dampness_of(kind, bulking).value


def site_sand(kind: Kind, *, specified: CubicMeter, mass: Kilogram, bulking: Ratio | None) -> SiteSand:
    """What to measure for a specified damp loose volume of sand, and the water that comes with it.

    Args:
        kind: of the sand
        specified: volume the mix asks for, damp and loose
        mass: dry mass in that volume
        bulking: measured on site; None when not

    Raises:
        NotFoundError: the kind lacks a figure.
    """
    moisture = moisture_of(kind, bulking)
    free = work(
        concrete_batch.free_water, why="water the damp sand brings", moist=mass * (1 + moisture), moisture=moisture,
        absorption=kind.value("absorption"),
    )  # fmt: skip
    if bulking is None:
        note = (
            f"Sand taken as damp and loose with about {moisture:.0%} moisture; its swelling was not measured. "
            "Do the jar test and write sand_bulking into the plan."
        )
        return SiteSand(loose=specified, water=free.number, note=note, working=(free,))
    usual = kind.value("bulking_low")
    true = work(sand_formulas.true_volume, why="sand truly in the parts of the mix", measured=specified, bulking=usual)
    measured = work(sand_formulas.measured_volume, why="your damp sand to measure", wanted=true.number, bulking=bulking)
    note = (
        f"The mix counts on sand swollen {usual:.0%}; yours swells {bulking:.0%}, so its volume to measure is "
        f"{(1 + bulking) / (1 + usual):.0%} of the parts. Drenched sand swells little and brings much more water."
    )
    return SiteSand(loose=measured.number, water=free.number, note=note, working=(true, measured, free))
