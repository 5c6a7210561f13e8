"""The buying list: each need less what is on hand, in whole packs, with price and mass."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from pinfold.plan.place import Mixing
from pinfold.plan.stock import PilePiece, Price
from pinfold.studies.gathering.amounts import bed_room, carried_mass, category_of, is_bought
from pinfold.studies.gathering.needs import Need
from pinfold.studies.gathering.packs import (
    Pack,
    lengths_for,
    lengths_for_total,
    pack_of,
    pack_priced,
    whole_packs,
)
from pinfold.studies.gathering.pile import amount_on_hand, pieces_on_hand
from pinfold.studies.gathering.records import Line, Lot, cost_of
from pinfold.units import System, tape

_FINEST = 10**6
"""Of one size over another the largest denominator."""


@dataclass(frozen=True, kw_only=True)
class Shop:
    """All that decides how a need is met.

    Attributes:
        prices: price by item.
        pile: what is on hand.
        mixing: with the bags of the site.
        system: units of the plan.
    """

    prices: Mapping[str, Price]
    pile: tuple[PilePiece, ...]
    mixing: Mixing
    system: System


def lines_of(needs: Iterable[Need], shop: Shop) -> tuple[Line, ...]:
    """The buying list; what one line takes from the pile is no longer there for the next."""
    taken: dict[tuple[str, str], float] = {}
    lines = []
    for need in needs:
        key = (need.kind.name, need.unit.kind)
        lines.append(line_of(need, shop, taken=taken.get(key, 0.0)))
        taken[key] = taken.get(key, 0.0) + lines[-1].on_hand
    return tuple(lines)


def line_of(need: Need, shop: Shop, *, taken: float = 0.0) -> Line:
    """One line of the buying list.

    Args:
        need: what is needed
        shop: prices, pile and bags
        taken: what another line has taken from the pile already, in the need's unit
    """
    if not is_bought(need.kind):
        return _line(need, lots=(), notes=("Dug, found or made on site: nothing is bought.",), mass=0.0)
    price = shop.prices.get(need.kind.name)
    pack = pack_of(need.kind, unit=need.unit, system=shop.system, mixing=shop.mixing, price=price)
    on_hand, bought, too_long = _bought(need, pack, shop, taken)
    lots = _lots(need, bought, pack, price)
    anew = cost_of(lots)
    if on_hand:
        anew = cost_of(_lots(need, _bought(need, pack, replace(shop, pile=()), 0.0)[1], pack, price))
    total = sum(lot.packs * lot.size for lot in lots)
    mass = carried_mass(need.kind, total, need.unit, shop.mixing.sand_bulking) if total else 0.0
    notes = (*_notes(need, pack, price, shop), *too_long)
    return replace(_line(need, lots=lots, notes=notes, mass=mass), on_hand=on_hand, anew=anew)


def _lots(need: Need, bought: Mapping[float, int], pack: Pack, price: Price | None) -> tuple[Lot, ...]:
    """So many packs by size, priced."""
    return tuple(
        Lot(packs=packs, size=size, price=price_of(need, size, price), says=pack.says)
        for size, packs in bought.items()
        if packs
    )


def _line(need: Need, *, lots: tuple[Lot, ...], notes: tuple[str, ...], mass: float | None) -> Line:
    """A line with nothing on hand."""
    bought = sum(lot.packs * lot.size for lot in lots)
    return Line(
        kind=need.kind,
        category=category_of(need.kind, need.unit),
        unit=need.unit,
        net=need.net,
        waste=need.needed - need.net,
        needed=need.needed,
        on_hand=0.0,
        lots=lots,
        anew=cost_of(lots),
        mass=mass,
        bulk=bed_room(need.kind, bought, need.unit),
        uses=need.uses,
        notes=notes,
    )


def _bought(need: Need, pack: Pack, shop: Shop, taken: float) -> tuple[float, dict[float, int], tuple[str, ...]]:
    """What is taken from the pile, packs to buy by size, and a note where a piece is longer than any length sold."""
    if need.pieces:
        cut, left = pieces_on_hand(need.kind, shop.pile, need.pieces)
        longest = max(left, default=0.0)
        note = ("A piece is longer than any length sold: have it cut to order, or join two.",)
        return math.fsum(cut), lengths_for(left, pack.sizes), note if longest > pack.sizes[-1] + 1e-9 else ()
    there = amount_on_hand(need.kind, shop.pile, unit=need.unit, pack=pack.sizes[0])
    on_hand = min(max(there - taken, 0.0), need.needed)
    rest = need.needed - on_hand
    if pack.says == "length":
        return on_hand, lengths_for_total(rest, pack.sizes), ()
    return on_hand, {pack.sizes[0]: whole_packs(rest, pack.sizes[0])}, ()


def price_of(need: Need, size: float, price: Price | None) -> int | None:
    """Price of one pack of that size, in proportion to the pack of the price list, to the nearest coin, halves up."""
    pack = pack_priced(need.kind, need.unit, price)
    if price is None or not pack:
        return None
    share = Fraction(size / pack).limit_denominator(_FINEST)  # sizes as they are sold, not the floats nearest to them
    return math.floor(price.cost * share + Fraction(1, 2))


def _notes(need: Need, pack: Pack, price: Price | None, shop: Shop) -> tuple[str, ...]:
    notes = []
    if need.kind.shelf == "gates":
        notes.append("Lengths of the member its frame is made of.")
    if need.kind.has("roll_height") and need.kind.words.get("heights"):
        notes.append(f"Rolls {tape(need.kind.value('roll_height'), shop.system)} high.")
    if pack.usual is not None:
        notes.append(f"Taken as sold by {pack.usual.printed}, which is usual; ask the shop.")
    if price is not None and pack_priced(need.kind, need.unit, price) is None:
        notes.append(f"Its price is for {price.printed}, which cannot be turned into what is needed.")
    return tuple(notes)
