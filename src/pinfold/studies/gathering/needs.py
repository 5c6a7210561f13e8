"""What the work needs, thing by thing: the take-off and the batch cards added up in the units things are sold in."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.studies.batching.cards import is_mix
from pinfold.studies.batching.records import BatchCard, Ingredient
from pinfold.studies.gathering.amounts import how_sold, per, unit_to_buy
from pinfold.studies.gathering.records import Use
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import Kind, kind
from pinfold.units import CUBIC_METER, KILOGRAM, METER, Meter, Unit


@dataclass(frozen=True, kw_only=True)
class Need:
    """All that is needed of one thing.

    Attributes:
        kind: the thing.
        unit: it is bought in.
        net: what stays in the work.
        needed: with waste.
        pieces: to cut, where it is cut to length and the parts are known.
        uses: where it goes, the same place and layer added up.
    """

    kind: Kind
    unit: Unit
    net: float
    needed: float
    pieces: tuple[Meter, ...]
    uses: tuple[Use, ...]


class _Entry(NamedTuple):
    kind: Kind
    unit: Unit
    net: float
    use: Use


def needs_of(
    quantities: Iterable[Quantity], cards: Iterable[BatchCard], pieces: Mapping[tuple[str, str], tuple[Meter, ...]]
) -> tuple[Need, ...]:
    """One need for each thing, in the order things first come; rolls of each height apart.

    Args:
        quantities: the take-off; mixes and digging in it are left out, unknown amounts too
        cards: of the mixes, for what goes into them
        pieces: lengths to cut by shelf and name; they say how posts, rails and bars are bought
    """
    groups: dict[tuple[str, str, str, float], list[_Entry]] = {}
    for entry in (*_of_quantities(quantities), *_of_cards(cards)):
        groups.setdefault(_key(entry), []).append(entry)
    return tuple(_need(group, pieces.get((shelf, name), ())) for (shelf, name, _, _), group in groups.items())


def _key(entry: _Entry) -> tuple[str, str, str, float]:
    kind = entry.kind
    height = round(kind.value("roll_height"), 4) if kind.has("roll_height") else 0.0
    return kind.shelf, kind.name, entry.unit.kind, height


def unknown_amounts(quantities: Iterable[Quantity]) -> tuple[str, ...]:
    """What the take-off could not count, in plain words."""
    return tuple(
        f"{quantity.kind.name}, {quantity.place}: {quantity.note}"
        for quantity in quantities
        if not math.isfinite(quantity.gross)
    )


def _of_quantities(quantities: Iterable[Quantity]) -> list[_Entry]:
    found = []
    for quantity in quantities:
        if is_mix(quantity) or quantity.kind.shelf == "works" or not math.isfinite(quantity.gross) or quantity.net <= 0:
            continue
        unit = unit_to_buy(quantity.kind, quantity.unit)
        share = per(quantity.kind, quantity.unit, unit) or 1.0
        use = Use(layer=quantity.layer, place=quantity.place, amount=quantity.gross * share)
        found.append(_Entry(kind=quantity.kind, unit=unit, net=quantity.net * share, use=use))
    return found


def _of_cards(cards: Iterable[BatchCard]) -> list[_Entry]:
    found = []
    for card in cards:
        for kind_of, unit, total in _contents(card):
            for share in card.shares:
                use = Use(layer=card.layer, place=share.place, amount=total * share.gross / card.gross)
                found.append(_Entry(kind=kind_of, unit=unit, net=total * share.net / card.gross, use=use))
    return found


def _contents(card: BatchCard) -> list[tuple[Kind, Unit, float]]:
    rows = [(part.kind, *_amount(part)) for part in card.totals]
    if card.charge is not None and card.charge.foam is not None and card.charge.foam.agent:
        times = card.gross / card.charge.makes
        rows.append((kind("materials", "foaming-agent"), CUBIC_METER, card.charge.foam.agent * times))
    return rows


def _amount(part: Ingredient) -> tuple[Unit, float]:
    return (KILOGRAM, part.mass) if how_sold(part.kind) == "bag" else (CUBIC_METER, part.loose)


def _need(group: list[_Entry], pieces: tuple[Meter, ...]) -> Need:
    first = group[0]
    needed = math.fsum(entry.use.amount for entry in group)
    if pieces and how_sold(first.kind) in ("length", "each"):
        total = math.fsum(pieces)
        uses = _added(group, total / needed)
        return Need(kind=first.kind, unit=METER, net=total, needed=total, pieces=pieces, uses=uses)
    net = math.fsum(entry.net for entry in group)
    return Need(kind=first.kind, unit=first.unit, net=net, needed=needed, pieces=(), uses=_added(group, 1.0))


def _added(group: list[_Entry], by: float) -> tuple[Use, ...]:
    sums: dict[tuple[str, str], float] = {}
    for entry in group:
        key = (entry.use.layer, entry.use.place)
        sums[key] = sums.get(key, 0.0) + entry.use.amount * by
    return tuple(Use(layer=layer, place=place, amount=amount) for (layer, place), amount in sums.items())
