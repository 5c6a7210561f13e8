"""What a mix's own drying pulls in its place, by the very formulas 'stand' goes by: a coat on its wall, a wall poured.

A coat is held by the wall under it (skins.drying_tension), a poured wall by its footing (cracking.restrained_strain).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Protocol

from pinfold.errors import NotFoundError
from pinfold.findings import Step, work
from pinfold.formulas import cracking, richness
from pinfold.plan.buildups import Buildup, Coat
from pinfold.studies.richness.hardened import (
    CREEP_SPREAD,
    MODULUS_SPREAD,
    SHRINKAGE_SPREAD,
    TENSION_SPREAD,
    Known,
    as_kind,
)
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.cracking.checks import longest_panel
from pinfold.studies.stability.cracking.holding import Panel
from pinfold.studies.stability.skins.layers import stack_of
from pinfold.studies.stability.skins.strengths import dried
from pinfold.tables.shelf import Kind
from pinfold.units import Pascal, Ratio

PULL_SPREAD = math.sqrt(
    SHRINKAGE_SPREAD.value**2 + MODULUS_SPREAD.value**2 + CREEP_SPREAD.value**2
)  # a product of the three


@dataclass(frozen=True, kw_only=True)
class Pull:
    """What drying pulls.

    Attributes:
        pull: tension that it makes.
        opens: strain that shows as cracks; 0 where it stays whole.
        chance: of cracking.
        steps: lines of working.
    """

    pull: Pascal
    opens: Ratio
    chance: Ratio
    steps: tuple[Step, ...]


class Held(Protocol):
    """A mix in its place."""

    @property
    def known(self) -> Known:
        """What is known of the present mix there."""

    def pulled(self, now: Known) -> Pull:
        """What drying pulls where the mix has other figures.

        Raises:
            NotFoundError: a figure is missing.
            OutOfRangeError: a figure lies outside what the formulas allow.
        """


@dataclass(frozen=True, kw_only=True, eq=False)
class HeldCoat:
    """A coat on the wall of its build-up.

    Attributes:
        buildup: with its wall and all its coats.
        coat: the one whose mix is changed.
    """

    buildup: Buildup
    coat: Coat

    @cached_property
    def known(self) -> Known:
        """As the coat has it."""
        return Known(*(_value(self.coat.kind, name) for name in ("modulus", "tension", "shrinkage", "relaxation")))

    def pulled(self, now: Known) -> Pull:
        """Drying of all coats together on the core, this one with other figures."""
        if self.buildup.wall is None or not self.buildup.wall.kind.has("modulus"):
            raise NotFoundError("how stiff the wall under the coat is is not known")
        changed = as_kind(self.coat.kind, now._asdict().items())
        coats = tuple(replace(each, kind=changed) if each is self.coat else each for each in self.buildup.coats)
        stack = stack_of(self.buildup, coats)
        layer = next(layer for layer in stack.layers if layer.kind is changed)
        drying = dried(stack, layer)
        return _pull(drying.number, takes=changed.value("tension"), modulus=layer.modulus, before=(drying,))


@dataclass(frozen=True, kw_only=True, eq=False)
class HeldWall:
    """A wall poured on its footing, at its longest panel.

    Attributes:
        ask: the stretch with the longest panel.
    """

    ask: Exposed

    @cached_property
    def _panel(self) -> Panel:
        return longest_panel(self.ask)

    @cached_property
    def known(self) -> Known:
        """As the wall has it; its tension from the strain it takes."""
        panel = self._panel
        modulus = panel.wall.kind.value("modulus")
        return Known(modulus, panel.capacity * modulus, panel.shortens.drying, None)

    def pulled(self, now: Known) -> Pull:
        """Drying and cooling of the panel, held back by its footing."""
        modulus, tension, shrinkage = (_needed(now, name) for name in ("modulus", "tension", "shrinkage"))
        panel = self._panel
        kind = as_kind(panel.wall.kind, (("modulus", modulus), ("strain_capacity", tension / modulus)))
        cooling = panel.shortens.strain - panel.shortens.drying
        changed = replace(
            panel, wall=replace(panel.wall, kind=kind),
            shortens=panel.shortens._replace(strain=shrinkage + cooling, drying=shrinkage),
        )  # fmt: skip
        restrained, _, held = changed.strains()
        return _pull(
            restrained.number * modulus, takes=tension, modulus=modulus, before=(*held, restrained)
        )  # fmt: skip


def _pull(pull: Pascal, *, takes: Pascal, modulus: Pascal, before: tuple[Step, ...]) -> Pull:
    if pull <= 0:
        return Pull(pull=0.0, opens=0.0, chance=0.0, steps=before)
    chance = work(
        richness.chance_of_cracking, why="chance that it cracks", pull=pull, takes=takes, pull_spread=PULL_SPREAD,
        takes_spread=TENSION_SPREAD.value,
    )  # fmt: skip
    opens = work(
        cracking.crack_strain, why="strain that shows as cracks", restrained=pull / modulus, capacity=takes / modulus
    )
    return Pull(pull=pull, opens=opens.number, chance=chance.number, steps=(*before, chance, opens))


def _value(of: Kind, name: str) -> float | None:
    return of.value(name) if of.has(name) else None


def _needed(now: Known, name: str) -> float:
    value = getattr(now, name)
    if value is None:
        raise NotFoundError(f"no {name} is known")
    return float(value)


def worst_panel(exposures: Mapping[str, Exposed], buildup: str) -> Exposed | None:
    """The stretch of a build-up whose longest panel is the longest; None where it has no such wall."""
    asks = [ask for ask in exposures.values() if ask.stretch.buildup.name == buildup and ask.stretch.buildup.wall]
    return max(asks, key=lambda ask: _longest(ask), default=None)


def _longest(ask: Exposed) -> float:
    try:
        return longest_panel(ask).length
    except NotFoundError:
        return 0.0
