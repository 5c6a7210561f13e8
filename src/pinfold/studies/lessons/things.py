"""Names that entries use for things, and amounts of them as mass or loose volume."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache

from pinfold.logbook.entries import Amount
from pinfold.plan.place import Mixing
from pinfold.studies.batching.loose import bag_of
from pinfold.studies.lessons.records import Override
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import CubicMeter, Kilogram

_ALSO = {"cement": "portland-cement", "lime": "hydrated-lime", "hydraulic lime": "hydraulic-lime"}


@lru_cache(maxsize=4096)
def thing(shelf_name: str, name: str) -> Kind | None:
    """A kind by the name an entry uses for it, however it is spaced and capitalized; None where there is none."""
    kinds = shelf(shelf_name)
    plain = " ".join(name.split()).casefold()
    return kinds.get(_ALSO.get(plain, plain)) or kinds.get(plain.replace(" ", "-")) or kinds.get(name.strip())


def part_named(name: str, parts: Iterable[tuple[str, Kind]]) -> str:
    """The part of a mix that an entry means, by the part's word or its material's name; empty for none."""
    plain = " ".join(name.split()).casefold().replace(" ", "-")
    return next((part for part, kind in parts if plain in (part.replace("_", "-"), kind.name)), "")


@dataclass(frozen=True, kw_only=True)
class Measures:
    """The measures of a site.

    Attributes:
        mixing: with bucket and bags of the plan.
        volumes: what each measure holds, as far as known.
    """

    mixing: Mixing
    volumes: Mapping[str, CubicMeter]

    def volume(self, amount: Amount) -> CubicMeter | None:
        """Loose volume of an amount; None where it is not measured by volume or the measure is not known."""
        if amount.measure == "m3":
            return amount.amount
        held = self.volumes.get(amount.measure)
        return None if held is None else held * amount.amount

    def mass(self, amount: Amount, material: Kind) -> Kilogram | None:
        """Mass of an amount that was weighed or taken by the bag; None for all else."""
        if amount.measure == "kg":
            return amount.amount
        bag = bag_of(material, self.mixing) if amount.measure == "bag" else None
        return None if bag is None else bag * amount.amount


def figure_of(kind: Kind, name: str, figures: Iterable[Override]) -> float:
    """A figure as learned, else as shipped.

    Raises:
        NotFoundError: neither is known.
    """
    found = [each.figure for each in figures if (each.shelf, each.kind, each.name) == (kind.shelf, kind.name, name)]
    return found[-1].value if found else kind.value(name)
