"""A step of wall with its coats just above the ground: what turns it there, and what presses on it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from pinfold.errors import NotFoundError
from pinfold.formulas import walls
from pinfold.plan.buildups import Buildup, Faces
from pinfold.studies.stability.cases import Case
from pinfold.studies.stability.factors import COAT_DENSITY
from pinfold.studies.stability.pieces import Piece
from pinfold.studies.stability.skins.layers import Stack, stack_of
from pinfold.studies.stability.skins.moments import Loaded
from pinfold.studies.stability.skins.strengths import core_tension, pressed_strength
from pinfold.studies.stability.tipping import Turning
from pinfold.studies.stability.weights import weight_above
from pinfold.units import NewtonMeterPerMeter, NewtonPerMeter, Pascal, Ratio


@dataclass(frozen=True, kw_only=True)
class Coated:
    """A step of wall with its coats, just above the ground.

    What is asked for and not known raises NotFoundError; what is past a published table OutOfRangeError.

    Attributes:
        case: the step with what acts on it.
    """

    case: Case

    @cached_property
    def turned(self) -> Turning:
        """Moment and level force about the ground, without factors."""
        return self.case.acting.about(0.0)

    @cached_property
    def weight(self) -> NewtonPerMeter:
        """Above the ground, without factor, its coats in it."""
        return math.fsum(line.number for line in weight_above(self.case.piece, self.case.piece.sunk))

    @property
    def moment(self) -> NewtonMeterPerMeter:
        """With its factor."""
        return self.case.acting.factors.strength.value * self.turned.moment

    @property
    def shear(self) -> NewtonPerMeter:
        """With its factor."""
        return self.case.acting.factors.strength.value * self.turned.force

    def loaded(self, stack: Stack, *, coats: Ratio = 1.0) -> Loaded:
        """A stack under the weight, of which a share of the coats is there.

        Raises:
            NotFoundError: what the core takes is not known.
        """
        weight = self.weight if coats == 1 else self.weight - (1 - coats) * coats_weight(self.case.piece)
        load = self.case.acting.factors.weight.value * weight
        return Loaded(stack=stack, load=load, core=self._core, pressed=pressed_strength(self.case.piece.wall))

    @cached_property
    def _core(self) -> Pascal:
        tension, _, _ = core_tension(self.case.of.family, self.case.piece.wall)
        return tension


def coats_weight(piece: Piece) -> NewtonPerMeter:
    """Weight of all coats above the ground."""
    thickness = piece.buildup.coats_thickness(Faces.OUTER) + piece.buildup.coats_thickness(Faces.INNER)
    return walls.layer_weight(density=COAT_DENSITY.value, thickness=thickness, height=piece.exposed)


def stack_with_all(buildup: Buildup) -> Stack:
    """The wall of a build-up with all its coats.

    Raises:
        NotFoundError: a modulus is not known.
    """
    wall = buildup.wall
    if wall is None or not wall.kind.has("modulus"):
        raise NotFoundError(f"no modulus is known for {wall.kind.name if wall else 'no wall'}")
    return stack_of(buildup, buildup.coats)
