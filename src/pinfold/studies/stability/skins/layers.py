"""The layers of a coated wall above the ground, from its outer face inward, and how stiff they are together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import NamedTuple

from pinfold.findings import Step, work
from pinfold.formulas import masonry, skins
from pinfold.plan.buildups import Buildup, Coat, Faces, Grout, Wall
from pinfold.studies.stability.factors import CORE_WIDTH
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, NewtonMeter, NewtonPerMeter, Pascal, Ratio

CORE = "core"


class Layer(NamedTuple):
    """One layer across the wall.

    Attributes:
        what: `core`, or the kind of coat.
        kind: of wall or coat.
        modulus: in bending; of a hollow part only what is filled.
        near: from the outer face of the wall to its outer side.
        far: to its inner side.
    """

    what: str
    kind: Kind
    modulus: Pascal
    near: Meter
    far: Meter


@dataclass(frozen=True, kw_only=True, eq=False)
class Stack:
    """Layers that bend together. One is equal to itself alone, so that what was found from it can be kept by it.

    Attributes:
        layers: from the outer face inward.
        stiffnesses: the working of each layer's stiffness.
    """

    layers: tuple[Layer, ...]
    stiffnesses: tuple[Step, ...]

    @cached_property
    def parts(self) -> tuple[skins.LayerStiffness, ...]:
        """What each layer adds."""
        results = [step.result for step in self.stiffnesses]
        return tuple(part for part in results if isinstance(part, skins.LayerStiffness))

    @cached_property
    def axial(self) -> NewtonPerMeter:
        """EA of all."""
        return sum(part.axial for part in self.parts)

    @cached_property
    def core(self) -> NewtonPerMeter:
        """EA of the core."""
        return sum(part.axial for layer, part in zip(self.layers, self.parts, strict=True) if layer.what == CORE)

    @cached_property
    def neutral(self) -> Step:
        """Neutral axis from the outer face."""
        first = sum(part.first for part in self.parts)
        return work(skins.neutral_axis, why="neutral axis from the outer face", axial=self.axial, first=first)

    @cached_property
    def bent(self) -> Step:
        """EI of all, and its working."""
        first, second = sum(part.first for part in self.parts), sum(part.second for part in self.parts)
        return work(
            skins.bending_stiffness, why="layers bending together", axial=self.axial, first=first, second=second
        )

    @property
    def stiffness(self) -> NewtonMeter:
        """EI of all."""
        return self.bent.number

    @property
    def whole(self) -> Meter:
        """Thickness of all."""
        return self.layers[-1].far

    @property
    def working(self) -> tuple[Step, ...]:
        """All of it."""
        return (*self.stiffnesses, self.neutral, self.bent)

    @cached_property
    def _skins(self) -> Mapping[Faces, tuple[Layer, ...]]:
        core = [place for place, layer in enumerate(self.layers) if layer.what == CORE]
        return {Faces.OUTER: self.layers[: core[0]][::-1], Faces.INNER: self.layers[core[-1] + 1 :]}

    def skins_on(self, side: Faces) -> tuple[Layer, ...]:
        """The coats on one face, from the core outward."""
        return self._skins[side]

    def distance(self, layer: Layer, side: Faces) -> Meter:
        """From the neutral axis to the side of a layer that faces one way, positive towards it."""
        return self.neutral.number - layer.near if side is Faces.OUTER else layer.far - self.neutral.number


@lru_cache(maxsize=256)  # asked for every step of every stretch
def beyond(stack: Stack, side: Faces, at: Meter) -> float:
    """First moment about the neutral axis of the stiffness between a face and a place."""
    total = 0.0
    for layer in stack.layers:
        near, far = (layer.near, min(layer.far, at)) if side is Faces.OUTER else (max(layer.near, at), layer.far)
        if far > near:
            part = skins.layer_stiffness(modulus=layer.modulus, near=near, far=far)
            total += part.first - stack.neutral.number * part.axial
    return abs(total)


@lru_cache(maxsize=256)  # likewise
def stack_of(buildup: Buildup, coats: tuple[Coat, ...]) -> Stack:
    """The wall of a build-up with some of its coats, in the order they are laid.

    Raises:
        NotFoundError: a modulus or the shells of hollow units are not known.
    """
    assert buildup.wall is not None
    outer = [coat for coat in reversed(coats) if coat.faces in (Faces.BOTH, Faces.OUTER)]
    inner = [coat for coat in coats if coat.faces in (Faces.BOTH, Faces.INNER)]
    layers: list[Layer] = []
    bare = [*map(_coat, outer), *_core(buildup.wall), *map(_coat, inner)]
    for what, kind, modulus, thickness in bare:
        near = layers[-1].far if layers else 0.0
        layers.append(Layer(what, kind, modulus, near, near + thickness))
    return Stack(layers=tuple(layers), stiffnesses=tuple(_stiffness(layer) for layer in layers))


def _stiffness(layer: Layer) -> Step:
    return work(skins.layer_stiffness, why=layer.what, modulus=layer.modulus, near=layer.near, far=layer.far)


_Bare = tuple[str, Kind, Pascal, Meter]


def _coat(coat: Coat) -> _Bare:
    return coat.kind.name, coat.kind, coat.kind.value("modulus"), coat.thickness


def _core(wall: Wall) -> list[_Bare]:
    """The wall itself; hollow units as two shells with what is grouted between them."""
    modulus = wall.kind.value("modulus")
    if wall.kind.word("bedding") != "face-shell" or wall.grout is Grout.FULL:
        return [(CORE, wall.kind, modulus, wall.thickness)]
    shell = wall.kind.value("shell")
    between = modulus * _filled(wall)
    return [
        (CORE, wall.kind, modulus, shell), (CORE, wall.kind, between, wall.thickness - 2 * shell),
        (CORE, wall.kind, modulus, shell),
    ]  # fmt: skip


def _filled(wall: Wall) -> Ratio:
    if wall.grout is not Grout.PARTIAL or wall.grout_spacing is None:
        return 0.0
    return masonry.filled_share(core_width=CORE_WIDTH.value, spacing=wall.grout_spacing)
