"""Where a mix goes: the layer, the build-up and the coat that a name means, and how much the plan needs of it."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from pinfold.errors import NotFoundError
from pinfold.plan.buildups import Buildup, Coat
from pinfold.studies.batching.cards import is_mix
from pinfold.studies.layout.records import Layout
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import CubicMeter, Meter


@dataclass(frozen=True, kw_only=True)
class Place:
    """Where a mix goes.

    Attributes:
        mix: as the log teaches it.
        layer: word of the layer; empty where the plan does not use the mix.
        buildup: whose coat or wall it is; None for none.
        coat: of the build-up; None where it is none.
        gross: volume the plan needs with waste; 0 where it needs none.
    """

    mix: Kind
    layer: str = ""
    buildup: Buildup | None = None
    coat: Coat | None = None
    gross: CubicMeter = 0.0

    @property
    def is_wall(self) -> bool:
        """Whether the wall itself is poured of it."""
        return self.layer == "wall" and self.buildup is not None

    @property
    def thickness(self) -> Meter | None:
        """Of the coat or the wall; None where it has no face."""
        if self.coat is not None:
            return self.coat.thickness
        return self.buildup.wall.thickness if self.is_wall and self.buildup and self.buildup.wall else None

    @property
    def face(self) -> Kind | None:
        """Kind of coat or wall, with its waste."""
        if self.coat is not None:
            return self.coat.kind
        return self.buildup.wall.kind if self.is_wall and self.buildup and self.buildup.wall else None


def places_of(layout: Layout, quantities: Iterable[Quantity]) -> tuple[Place, ...]:
    """Every mix of the plan by layer, coats by build-up, in order of the take-off.

    Args:
        layout: with the plan as the log teaches it
        quantities: the take-off, likewise
    """
    sums: dict[tuple[str, str], tuple[Kind, float]] = {}
    for line in quantities:
        if is_mix(line) and math.isfinite(line.gross) and line.gross > 0:
            mix, gross = sums.get((line.layer, line.kind.name), (line.kind, 0.0))
            sums[line.layer, line.kind.name] = (mix, gross + line.gross)
    found: list[Place] = []
    for (layer, name), (mix, gross) in sums.items():
        owners = _owners(layout, layer, name)
        found += [Place(mix=mix, layer=layer, buildup=buildup, coat=coat, gross=gross) for buildup, coat in owners] or [
            Place(mix=mix, layer=layer, gross=gross)
        ]
    return tuple(found)


def _owners(layout: Layout, layer: str, mix: str) -> list[tuple[Buildup, Coat | None]]:
    used = {stretch.buildup.name: stretch.buildup for stretch in layout.stretches}
    if layer == "coat":
        return [(each, coat) for each in used.values() for coat in each.coats if coat.kind.word("mix") == mix]
    if layer == "wall":
        return [(each, None) for each in used.values() if each.wall is not None and each.wall.kind.word("mix") == mix]
    return []


def place_named(name: str, places: tuple[Place, ...], buildup: str = "") -> Place:
    """The place that a mix, a coat or a layer names; a shipped mix that the plan does not use has none.

    Args:
        name: of a mix, a kind of coat, or a layer; the first of them where it has several
        places: of the plan
        buildup: whose it is, where several have it; the first one's where empty

    Raises:
        NotFoundError: nothing is called so; the message lists what is.
    """
    fits = [each for each in places if name in _names(each) and buildup in ("", _of(each))]
    if fits:
        return fits[0]
    if name in shelf("mixes") and not buildup:
        return Place(mix=shelf("mixes")[name])
    known = sorted({each for place in places for each in _names(place)})
    where = f" in a build-up called {buildup!r}" if buildup else ""
    raise NotFoundError(
        f"the plan has no mix, coat or layer called {name!r}{where}; it has {', '.join(known) or 'none'}; any mix that "
        "pinfold ships may be named too"
    )


def _names(place: Place) -> tuple[str, ...]:
    coat = (place.coat.kind.name,) if place.coat is not None else ()
    return (place.mix.name, *coat, place.layer)


def _of(place: Place) -> str:
    return place.buildup.name if place.buildup is not None else ""


def beside(place: Place, *, under: bool) -> Coat | None:
    """The coat that lies under a coat, or over it, on the same face; None where there is none."""
    if place.coat is None or place.buildup is None:
        return None
    coats = [each for each in place.buildup.coats if each.kind.word("mix")]
    at = next(number for number, each in enumerate(coats) if each is place.coat)
    near = at - 1 if under else at + 1
    return coats[near] if 0 <= near < len(coats) else None
