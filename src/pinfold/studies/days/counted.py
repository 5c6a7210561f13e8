"""The take-off and the batch cards as the tasks ask them: how much of a layer goes into a place."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import cached_property

from pinfold.studies.batching.cards import is_mix
from pinfold.studies.batching.records import BatchCard
from pinfold.studies.days.records import Dose
from pinfold.studies.quantities.records import Quantity
from pinfold.units import CubicMeter, Ratio


class Counted:
    """Lines of the take-off by place and layer, and charges by layer and mix."""

    def __init__(self, quantities: Iterable[Quantity], cards: Iterable[BatchCard]) -> None:
        self.quantities = tuple(quantities)
        self.cards = tuple(cards)

    @cached_property
    def _by_place(self) -> dict[tuple[str, str], list[Quantity]]:
        found: dict[tuple[str, str], list[Quantity]] = {}
        for line in self.quantities:
            found.setdefault((line.place, line.layer), []).append(line)
        return found

    @cached_property
    def _cards(self) -> dict[tuple[str, str], BatchCard]:
        return {(card.layer, card.mix.name): card for card in self.cards}

    def lines(self, place: str, *layers: str) -> tuple[Quantity, ...]:
        """Lines of some layers at a place."""
        return tuple(line for layer in layers for line in self._by_place.get((place, layer), ()))

    def net(self, lines: Iterable[Quantity]) -> float:
        """What stays in the work; not a number where one of them could not be counted."""
        return math.fsum(line.net for line in lines)

    def doses(self, lines: Iterable[Quantity], share: Ratio = 1.0) -> tuple[Dose, ...]:
        """The mixes among some lines, or a share of them."""
        return tuple(self._dose(line, share) for line in lines if is_mix(line) and line.is_known and line.net > 0)

    def _dose(self, line: Quantity, share: Ratio) -> Dose:
        volume: CubicMeter = line.gross * share
        card = self._cards.get((line.layer, line.kind.name))
        charge = card.charge if card is not None else None
        batches = volume / charge.makes if charge is not None else math.nan
        return Dose(
            mix=line.kind.name, layer=line.layer, volume=volume, batches=batches,
            water=batches * charge.water_to_add if charge is not None else math.nan,
        )  # fmt: skip

    @property
    def missing(self) -> tuple[str, ...]:
        """Lines that could not be counted, in words."""
        unknown = [line for line in self.quantities if not line.is_known]
        return tuple(f"{line.layer}, {line.place}: {line.note}" for line in unknown)


def mixes(lines: Sequence[Quantity]) -> tuple[Quantity, ...]:
    """The mixes among some lines."""
    return tuple(line for line in lines if is_mix(line))


def of_shelf(lines: Sequence[Quantity], shelf: str) -> tuple[Quantity, ...]:
    """Those of one shelf."""
    return tuple(line for line in lines if line.kind.shelf == shelf)
