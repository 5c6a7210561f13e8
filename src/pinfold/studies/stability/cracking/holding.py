"""What the footing holds back of a panel's shortening, the crack that opens, and what steel in the beds makes of it."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.figures import practice, printed
from pinfold.findings import Step, work
from pinfold.formulas import cracking
from pinfold.plan.buildups import Buildup, Grout, Wall
from pinfold.sources import Standing
from pinfold.studies.stability.cracking.shrinking import Shortening, known_thickness
from pinfold.studies.stability.factors import YIELD_STRESS
from pinfold.studies.stability.height import course_steel
from pinfold.units import METER, PASCAL, RATIO, Meter, Pascal, Ratio, SquareMeterPerMeter

CREEP = printed("0.65", RATIO, Standing.READ, "CIRIA-C660", "creep factor K1 of a calculation sheet")
SUSTAINED = printed("0.8", RATIO, Standing.READ, "CIRIA-C660", "sustained load factor K2 of a calculation sheet")
HALFWAY = practice("0.5", RATIO, "a crack that shows runs half the height")
FOOTING_MODULUS = printed("2850000 psi", PASCAL, Standing.MEMORY, "ACI-318", "57000 times the root of 2500 psi")
TOLERATED = printed("0.012 in", METER, Standing.MEMORY, "ACI-224", "crack width in humid air, moist air and soil")
WIRE_COVER = printed("16 mm", METER, Standing.MEMORY, "TMS-402-13", "mortar over wire in the beds, 5/8 in")


@dataclass(frozen=True, kw_only=True)
class Panel:
    """A panel of wall between joints as its footing holds it.

    Attributes:
        buildup: how it is built.
        wall: of it.
        length: from joint to joint.
        height: above the footing.
        shortens: what it would shorten by.
    """

    buildup: Buildup
    wall: Wall
    length: Meter
    height: Meter
    shortens: Shortening

    @property
    def capacity(self) -> Ratio:
        """Strain at which it cracks."""
        return self.wall.kind.value("strain_capacity")

    @property
    def area(self) -> SquareMeterPerMeter:
        """Of wall that pulls along its length, per height: the shells alone where units are hollow."""
        thickness = known_thickness(self.wall)
        if self.wall.kind.word("bedding") != "face-shell" or self.wall.grout is Grout.FULL:
            return thickness
        return 2 * self.wall.kind.value("shell")

    @property
    def tension(self) -> Pascal:
        """What it can be pulled along its length, from the strain it takes."""
        return self.capacity * self.wall.kind.value("modulus") * CREEP.value / SUSTAINED.value

    def restraint(self, length: Meter) -> tuple[Step, Step]:
        """Restraint of a panel so long, and what the footing yields of it."""
        held = work(
            cracking.restraint_by_aci207, why="share the footing holds back halfway up", length=length,
            height=self.height, level=HALFWAY.value,
        )  # fmt: skip
        footing, wall = self.buildup.footing, self.wall.kind.value("modulus") * self.area * self.height
        base = FOOTING_MODULUS.value * footing.width * footing.thickness if _is_strip(self.buildup) and footing else 0.0
        yields = work(
            cracking.base_yielding, why="and it yields", wall=wall if base else 0.0, base=base or 1.0
        )  # fmt: skip
        return held, yields

    def strains(self) -> tuple[Step, Step, tuple[Step, ...]]:
        """Strain held back, strain that opens cracks, and the working before."""
        held, yields = self.restraint(self.length)
        restrained = work(
            cracking.restrained_strain, why="strain held back", restraint=held.number * yields.number,
            creep=CREEP.value, strain=self.shortens.strain,
        )  # fmt: skip
        opens = work(
            cracking.crack_strain, why="of it opens cracks", restrained=restrained.number, capacity=self.capacity
        )
        return restrained, opens, (held, yields)

    def longest(self) -> Meter:
        """Longest panel that does not crack, by strain; endless where nothing would."""
        _, yields = self.restraint(self.length)
        full = CREEP.value * yields.number * self.shortens.strain
        share = self.capacity / full if full > 0 else 1.0
        return cracking.panel_by_restraint(height=self.height, restraint=share, level=HALFWAY.value)


def _is_strip(buildup: Buildup) -> bool:
    return buildup.footing is not None and buildup.footing.kind.word("make") == "strip"


def least_steel(panel: Panel) -> Step:
    """Steel in the beds that makes many fine cracks of one wide one."""
    return work(
        cracking.crack_steel, why="steel in the beds for fine cracks", tension=panel.tension, area=panel.area,
        stress=YIELD_STRESS.value, share=1.0,
    )  # fmt: skip


def steel_of(wall: Wall) -> SquareMeterPerMeter:
    """Steel in the beds as planned."""
    return course_steel(wall)


def width_with(panel: Panel, steel: SquareMeterPerMeter, strain: Ratio) -> tuple[Step, ...]:
    """Crack spacing and width where so much steel holds the cracks; the wire is as thick as the plan's, or 4 mm."""
    bar = panel.wall.course_bar
    diameter = bar.value("diameter") if bar is not None and bar.has("diameter") else 0.004
    spaced = work(
        cracking.crack_spacing_by_en1992, why="cracks so far apart with it", cover=WIRE_COVER.value, diameter=diameter,
        steel=steel / panel.area, strain_shape=1.0,
    )  # fmt: skip
    wide = work(cracking.crack_width, why="and so wide", strain=strain, spacing=min(spaced.number, panel.length))
    return spaced, wide
