"""Whole packs: how many bags, lengths, rolls or loads hold what is needed."""

from __future__ import annotations

import math
from bisect import bisect_left, insort
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from pinfold.figures import Figure
from pinfold.plan.place import Mixing
from pinfold.plan.stock import Price
from pinfold.sources import Standing
from pinfold.studies.batching.loose import bag_of
from pinfold.studies.gathering.amounts import how_sold, per
from pinfold.tables.shelf import Kind
from pinfold.tables.shelf import kind as shelf_kind
from pinfold.units import CUBIC_METER, KILOGRAM, METER, RATIO, SQUARE_METER, Meter, System, Unit, read

SLACK = 1e-9
KERF: Meter = 0.003  # lost in a saw cut
_SHORTEST_STOCK: Meter = 1.5  # a price for a shorter length than this is a price by length, not of a stocked piece


def _usual(value: float, unit: Unit, printed: str) -> Figure:
    return Figure(value=value, unit=unit, standing=Standing.PRACTICE, source="PRACTICE", printed=printed)


USUAL = {
    ("length", System.US): _usual(20 * 0.3048, METER, "20 ft"),
    ("length", System.METRIC): _usual(6.0, METER, "6 m"),
    ("wood", System.US): _usual(12 * 0.3048, METER, "12 ft"),
    ("wood", System.METRIC): _usual(3.6, METER, "3.6 m"),
    ("bulk", System.US): _usual(27 * 0.3048**3 / 4, CUBIC_METER, "1/4 yd3"),
    ("bulk", System.METRIC): _usual(0.1, CUBIC_METER, "0.1 m3"),
    ("can", System.US): _usual(231 * 0.0254**3, CUBIC_METER, "1 gal"),
    ("can", System.METRIC): _usual(0.005, CUBIC_METER, "5 L"),
    ("roll", System.US): _usual(100 * 0.3048, METER, "100 ft"),
    ("roll", System.METRIC): _usual(30.0, METER, "30 m"),
    ("box", System.US): _usual(100.0, RATIO, "100"),
    ("box", System.METRIC): _usual(100.0, RATIO, "100"),
}
"""Packs of what has no pack of its own."""


@dataclass(frozen=True, kw_only=True)
class Pack:
    """Sizes a thing is sold in.

    Attributes:
        sizes: in the unit asked, smallest first; more than one only for stocked lengths.
        says: what a pack is.
        usual: the usual figure that was taken where nothing better is known; None otherwise.
    """

    sizes: tuple[float, ...]
    says: str
    usual: Figure | None = None


def whole_packs(needed: float, pack: float) -> int:
    """The fewest whole packs that hold what is needed, always rounded up.

    Args:
        needed: amount that is not on hand
        pack: what one pack holds, in the same unit, above 0
    """
    return max(math.ceil(needed / pack - SLACK), 0)


def whole_packs_each(needed: npt.NDArray[np.float64], pack: float) -> npt.NDArray[np.int64]:
    """The same for many amounts at once."""
    return np.maximum(np.ceil(needed / pack - SLACK), 0.0).astype(np.int64)


def lengths_for_each(totals: npt.NDArray[np.float64], stocked: Sequence[Meter]) -> dict[Meter, npt.NDArray[np.int64]]:
    """`lengths_for_total` for many lengths at once: packs of each stocked length."""
    packs = np.array([whole_packs_each(totals, size) for size in stocked])
    left = np.round(packs * np.array(stocked)[:, None], 6)
    best = left == left.min(axis=0)
    longest = len(stocked) - 1 - np.argmax(best[::-1], axis=0)  # of equals the longer one
    wanted = totals > SLACK
    return {size: np.where(wanted & (longest == at), packs[at], 0) for at, size in enumerate(stocked)}


def pack_of(kind: Kind, *, unit: Unit, system: System, mixing: Mixing, price: Price | None) -> Pack:
    """What one pack of a thing holds: by the price list, by the site's bag, by its kind, or as usual in the trade.

    Args:
        kind: the thing
        unit: of the amounts on the buying list
        system: of the plan
        mixing: with the bags of the site
        price: of the price list; None when it has none
    """
    sold = how_sold(kind)
    priced = pack_priced(kind, unit, price)
    stocked = stocked_lengths(kind, system) if unit.kind == METER.kind and sold in ("length", "each") else None
    if stocked is not None:
        whole_piece = priced is not None and priced >= _SHORTEST_STOCK
        return Pack(sizes=(priced,), says="length") if whole_piece and priced else stocked
    by_area = price is not None and sold == "roll" and price.unit.kind == SQUARE_METER.kind  # a price for any height
    if priced is not None and not by_area:
        return Pack(sizes=(priced,), says=_says(sold, priced))
    return _own_pack(kind, unit, system, mixing)


def _says(sold: str, size: float) -> str:
    if sold == "each":
        return "each" if size == 1 else "pack"
    return "load" if sold == "bulk" else sold


def pack_priced(kind: Kind, unit: Unit, price: Price | None) -> float | None:
    """Pack of the price list in the unit asked; None without price or when it cannot be turned into that unit."""
    share = None if price is None else per(kind, price.unit, unit)
    return None if share is None or price is None else price.pack * share


def stocked_lengths(kind: Kind, system: System) -> Pack:
    """Lengths a thing is stocked in, shortest first; the usual one where its kind names none."""
    named = kind.words.get("lengths", ())
    if isinstance(named, list) and named:
        return Pack(sizes=tuple(sorted(read(length, like=METER) for length in named)), says="length")
    if kind.shelf == "bars":  # as the take-off laps them
        carried = shelf_kind("waste", "bars").figure(f"length_{system.value}")
        return Pack(sizes=(carried.value,), says="length", usual=carried)
    usual = USUAL["wood" if kind.word("material") == "wood" else "length", system]
    return Pack(sizes=(usual.value,), says="length", usual=usual)


def _own_pack(kind: Kind, unit: Unit, system: System, mixing: Mixing) -> Pack:
    sold = how_sold(kind)
    if sold == "bag" and unit.kind == KILOGRAM.kind:
        names = ("bag_us", "bag_metric") if system is System.US else ("bag_metric", "bag_us")
        own = next((kind.value(name) for name in names if kind.has(name)), None)
        bag = bag_of(kind, mixing) or own
        return Pack(sizes=(bag,), says="bag") if bag else Pack(sizes=(1.0,), says="by weight")
    if sold == "roll":
        length = next((kind.value(name) for name in ("roll_length", "pack_length") if kind.has(name)), None)
        if length:
            return Pack(sizes=(length,), says="roll")
    usual = USUAL.get((sold, system))
    if usual is not None and usual.unit.kind == unit.kind:
        return Pack(sizes=(usual.value,), says="load" if sold == "bulk" else sold, usual=usual)
    return Pack(sizes=(1.0,), says="each")


MANY = 1000
"""No stocked length gives more pieces than this; more wanted changes no choice."""


def cut_from_pile(pieces: Iterable[Meter], on_hand: Iterable[Meter]) -> tuple[tuple[Meter, ...], tuple[Meter, ...]]:
    """Pieces that can be cut out of lengths on hand, and those that cannot.

    The longest piece goes first, each out of the shortest length that takes it.
    """
    rests = sorted(on_hand)
    if not rests:
        return (), tuple(sorted(pieces, reverse=True))
    cut, left = [], []
    for piece in sorted(pieces, reverse=True):
        at = bisect_left(rests, piece - SLACK)
        if at < len(rests):
            insort(rests, max(rests.pop(at) - piece - KERF, 0.0))
            cut.append(piece)
        else:
            left.append(piece)
    return tuple(cut), tuple(left)


def lengths_for(pieces: Iterable[Meter], stocked: Sequence[Meter]) -> dict[Meter, int]:
    """Stocked lengths to buy for pieces, by length: the least length for each piece, rests used for shorter ones.

    The longest piece goes first, each out of the shortest rest that takes it. A piece longer than any stocked length is
    bought at its own length.
    """
    bought: Counter[float] = Counter()
    rests: list[Meter] = []
    sold, longest_first = tuple(stocked), sorted(pieces, reverse=True)
    shortest = longest_first[-1] - SLACK if longest_first else 0.0
    for number, piece in enumerate(longest_first):
        at = bisect_left(rests, piece - SLACK)
        if at < len(rests):
            left = rests.pop(at)
        else:
            left = best_length(piece, sold, wanted=min(len(longest_first) - number, MANY))
            bought[left] += 1
        left = max(left - piece - KERF, 0.0)
        if left >= shortest:
            insort(rests, left)
    return dict(sorted(bought.items()))


@lru_cache(maxsize=4096)
def best_length(piece: Meter, stocked: tuple[Meter, ...], *, wanted: int) -> Meter:
    """The stocked length that costs least length for each piece cut from it; the shorter of two equals.

    Args:
        piece: to cut
        stocked: lengths sold
        wanted: how many such pieces, or shorter ones, are still to be cut
    """
    fitting = [length for length in stocked if length + SLACK >= piece]
    if not fitting:
        return piece
    return min(fitting, key=lambda length: (round(length / min(pieces_in(length, piece), wanted), 6), length))


def pieces_in(length: Meter, piece: Meter) -> int:
    """How many pieces a length gives, with a saw cut between each two."""
    return math.floor((length + KERF) / (piece + KERF) + SLACK) or 1


def lengths_for_total(total: Meter, stocked: Sequence[Meter]) -> dict[Meter, int]:
    """Stocked lengths to buy for a length that may be lapped or joined: least left over, the longer of two equals."""
    if total <= SLACK:
        return {}
    length = min(stocked, key=lambda size: (round(whole_packs(total, size) * size, 6), -size))
    return {length: whole_packs(total, length)}
