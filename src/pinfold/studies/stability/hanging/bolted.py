"""Bolts of a hinge right through thin steel: the hole, the bolt itself, and the washer behind."""

from __future__ import annotations

from pinfold.findings import work
from pinfold.formulas import bolts, sheet_screws
from pinfold.studies.gates.records import GateFrame
from pinfold.studies.stability.hanging.figures import HOLE_SAFETY, NO_WASHERS, SHEET_SAFETY
from pinfold.studies.stability.hanging.records import Held
from pinfold.tables.shelf import Kind
from pinfold.units import Meter


def bolted(hinge: Kind, bolt: Kind, frame: GateFrame, wall: Meter) -> Held:
    """One bolt through a hinge plate and a wall behind it; the leaf's strength stands for the post's too."""
    diameter, steel = bolt.value("diameter"), frame.made.figure("strength")
    thin = min(wall, hinge.value("plate"))
    pressed = work(
        bolts.hole_bearing, why="one bolt pushed, the thinner of wall and plate", thickness=thin, diameter=diameter,
        strength=steel.value, washers=NO_WASHERS.value,
    )  # fmt: skip
    drawn = work(bolts.hole_stretch, why="its hole drawn long", thickness=thin, diameter=diameter, strength=steel.value)
    cut = work(bolts.bolt_strength, why="the bolt itself, pushed", diameter=diameter, stress=bolt.value("shear"))
    over = work(
        sheet_screws.pull_over, why="the wall over the washer behind", thickness=wall, head=bolt.value("head"),
        strength=steel.value,
    )  # fmt: skip
    apart = work(bolts.bolt_strength, why="the bolt itself, pulled", diameter=diameter, stress=bolt.value("tension"))
    return Held(
        pulled=min(over.number / SHEET_SAFETY.value, apart.number),
        pushed=min(pressed.number / HOLE_SAFETY.value, drawn.number / HOLE_SAFETY.value, cut.number), wood=False,
        steps=(pressed, drawn, cut, over, apart),
        figures=(("tensile strength behind", steel), ("washers", NO_WASHERS), ("safety of holes", HOLE_SAFETY),
                 ("safety of the wall", SHEET_SAFETY), ("shear of the bolt", bolt.figure("shear")),
                 ("tension of the bolt", bolt.figure("tension"))),
    )  # fmt: skip
