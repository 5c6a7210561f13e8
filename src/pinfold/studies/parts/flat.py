"""Orders of sheets and of rolls out of the part list, the pile and the price list."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from pinfold.studies.cutting.records import STEP, Steps
from pinfold.studies.cutting.roll_records import Band, Roll, RollOrder
from pinfold.studies.cutting.sheet_records import SheetOrder, SheetPart, SheetStock
from pinfold.studies.gathering.packs import pack_priced
from pinfold.studies.gathering.sizes import rolled
from pinfold.studies.layout.records import Layout
from pinfold.studies.parts.listing import marked
from pinfold.studies.parts.orders import Source, Yard, in_steps, no_longer_than
from pinfold.studies.parts.pieces import Piece
from pinfold.studies.quantities.fence import is_wire
from pinfold.studies.quantities.reach import reaches
from pinfold.studies.quantities.records import Part
from pinfold.studies.quantities.strips import roll_height
from pinfold.tables.shelf import Kind
from pinfold.units import METER, RATIO, Meter, System, tape

_CLOTH = "meshes"
_SHORTEST_ROLL: Meter = 1.5
_NEAR: Meter = 0.01


@dataclass(frozen=True, kw_only=True)
class FlatOrder:
    """What is to be cut of one sort of sheet or of rolls of one height.

    Attributes:
        kind: of which.
        says: what it is.
        sheets: parts and sheets; None for rolls.
        rolls: bands and rolls; None for sheets.
        sources: of each stock, by its mark.
        priced: whether new ones have a price.
        told: what could not be used, and why.
    """

    kind: Kind
    says: str
    sheets: SheetOrder | None = None
    rolls: RollOrder | None = None
    sources: Mapping[str, Source]
    priced: bool
    told: tuple[str, ...] = ()


def sheet_orders(parts: Iterable[Part], yard: Yard) -> tuple[FlatOrder, ...]:
    """An order for each kind of sheet."""
    groups: dict[str, list[Part]] = {}
    for part in parts:
        if part.width is not None and part.kind.shelf != _CLOTH and part.count:
            groups.setdefault(part.kind.name, []).append(part)
    return tuple(_sheets(group, yard) for group in groups.values())


def _sheets(parts: Sequence[Part], yard: Yard) -> FlatOrder:
    kind, system = parts[0].kind, yard.system
    stock = [*_sheets_on_hand(kind, yard), _sheet_for_sale(kind, yard)]
    whole = stock[-1][0]
    wanted = tuple(_rectangle(part, whole, system) for part in parts)
    order = SheetOrder(
        parts=wanted, stock=tuple(each for each, _ in stock), kerf=_kerf(kind, yard),
        keep=in_steps(yard.cutting.keep_side, system),
    )  # fmt: skip
    sources = {each.mark: source for each, source in stock}
    return FlatOrder(kind=kind, says=kind.says, sheets=order, sources=sources, priced=kind.name in yard.prices)


def _rectangle(part: Part, whole: SheetStock, system: System) -> SheetPart:
    return SheetPart(
        mark=part.mark, wide=no_longer_than(in_steps(part.width or 0.0, system), whole.wide, system),
        high=no_longer_than(in_steps(part.length, system), whole.high, system), count=part.count,
        turns=part.kind.word("grain", "upright") == "none", says=part.says, places=part.places, up=part.up,
    )  # fmt: skip


def _kerf(kind: Kind, yard: Yard) -> Steps:
    """Sheet metal is cut with shears, which take nothing."""
    return 0 if kind.word("cut", "shears") == "shears" else in_steps(yard.cutting.kerf, yard.system)


def _down(length: Meter, system: System) -> Steps:
    return math.floor(length / STEP[system] + 1e-6)


def _sheets_on_hand(kind: Kind, yard: Yard) -> Iterator[tuple[SheetStock, Source]]:
    for row, piece in enumerate(yard.pile):
        if piece.item == kind.name and piece.count:
            wide, high = piece.width or kind.value("unit_length"), piece.length or kind.value("unit_height")
            yield SheetStock(
                mark=f"K{row + 1}", wide=_down(wide, yard.system), high=_down(high, yard.system), count=piece.count,
                says=piece.note,
            ), Source(piece.item, row)  # fmt: skip


def _sheet_for_sale(kind: Kind, yard: Yard) -> tuple[SheetStock, Source]:
    price = yard.prices.get(kind.name)
    holds = pack_priced(kind, RATIO, price)
    cost = math.ceil(price.cost / holds) if price is not None and holds else 1
    wide, high = kind.value("unit_length"), kind.value("unit_height")
    says = f"new, {tape(wide, yard.system)} x {tape(high, yard.system)}"
    stock = SheetStock(mark="N1", wide=in_steps(wide, yard.system), high=in_steps(high, yard.system), count=None,
                       price=cost, old=False, says=says)  # fmt: skip
    return stock, Source(kind.name, None)


def roll_orders(layout: Layout, yard: Yard, *, cut: Mapping[str, int]) -> tuple[FlatOrder, ...]:
    """An order for each height of roll of each kind of mesh, and for each kind of wire.

    Args:
        layout: whose bands and wires they are
        yard: pile, prices and habits
        cut: how many of each are cut already, by mark
    """
    groups: dict[tuple[str, Meter], list[tuple[str, Piece]]] = {}
    for mark, pieces in marked(layout).items():
        for piece in _left(pieces, cut.get(mark, 0)):
            if piece.kind.shelf == _CLOTH and piece.width is not None:
                height = roll_height(piece.kind, piece.width)
                groups.setdefault((piece.kind.name, height), []).append((mark, piece))
            elif is_wire(piece.kind):
                groups.setdefault((piece.kind.name, 0.0), []).append((mark, piece))
    heights = [height for _, height in groups]
    return tuple(
        _rolls(layout, group, yard, heights=(height, [each for each in heights if each > height]))
        for (_, height), group in groups.items()
    )


def _left(pieces: Iterable[Piece], cut: int) -> Iterator[Piece]:
    """Pieces that are not cut yet, the first of them taken as cut."""
    for piece in pieces:
        done = min(piece.many, cut)
        cut -= done
        if piece.many > done:
            yield piece._replace(many=piece.many - done)


def _rolls(
    layout: Layout, pieces: Sequence[tuple[str, Piece]], yard: Yard, *, heights: tuple[Meter, list[Meter]]
) -> FlatOrder:  # fmt: skip
    kind, (height, higher), system = pieces[0][1].kind, heights, yard.system
    old, told = _rolls_on_hand(kind, height, higher, yard)
    new = _roll_for_sale(kind, height, yard)
    posts = _posts_by_place(layout)
    bands = tuple(
        Band(
            mark=mark, posts=_joints(piece, posts.get(piece.place, ()), system), many=piece.many, place=piece.place,
            tie=in_steps(piece.tie, system),
        )
        for mark, piece in pieces
    )  # fmt: skip
    order = RollOrder(
        bands=bands, rolls=(*(roll for roll, _ in old), new[0]),
        lap=in_steps(yard.cutting.mesh_lap, system) if height else 0, keep=in_steps(yard.cutting.keep, system),
    )  # fmt: skip
    sources = {roll.mark: source for roll, source in (*old, new)}
    says = f"{kind.says}, rolls {tape(height, system)} high" if height else kind.says
    return FlatOrder(kind=kind, says=says, rolls=order, sources=sources, priced=kind.name in yard.prices, told=told)


def _posts_by_place(layout: Layout) -> dict[str, tuple[Meter, ...]]:
    """Posts along each stretch, from its start, with the stretch's own ends."""
    found = {}
    for reach in (each.between_ends for each in reaches(layout)):
        bays = reach.bays
        found[reach.stretch.name] = (bays[0][0], *(end for _, end in bays))
    return found


def _joints(piece: Piece, posts: Sequence[Meter], system: System) -> tuple[Steps, ...]:
    """Places along a band where pieces may meet, stretched over its whole length; its ends alone without posts."""
    whole = in_steps(piece.length - 2 * piece.tie, system)
    if len(posts) < 2 or not piece.splice:
        return (0, whole)
    share = whole / (posts[-1] - posts[0])
    inner = (round((post - posts[0]) * share) for post in posts[1:-1])
    return tuple(dict.fromkeys((0, *inner, whole)))


def _rolls_on_hand(
    kind: Kind, height: Meter, higher: Sequence[Meter], yard: Yard
) -> tuple[list[tuple[Roll, Source]], tuple[str, ...]]:  # fmt: skip
    """Part rolls of that height, or higher ones that nothing higher asks for; of wire, which has none, all."""
    found, told = [], []
    for row, piece in enumerate(yard.pile):
        if piece.item != kind.name or piece.length is None or not piece.count:
            continue
        if height and piece.width is None:
            told.append(
                f"Row {row + 1} of the pile, {piece.item}, is left out: write its width, the height of the roll."
            )
        elif not height or _high_enough(piece.width or 0.0, height, higher):
            high = [f"{tape(piece.width, yard.system)} high"] if height and piece.width else []
            says = ", ".join((*high, *([piece.note] if piece.note else [])))
            roll = Roll(mark=f"K{row + 1}", length=_down(piece.length, yard.system), count=piece.count, says=says)
            found.append((roll, Source(piece.item, row)))
    return found, tuple(told)


def _high_enough(own: Meter, height: Meter, higher: Sequence[Meter]) -> bool:
    return own >= height - _NEAR and not any(own >= each - _NEAR for each in higher)


def _roll_for_sale(kind: Kind, height: Meter, yard: Yard) -> tuple[Roll, Source]:
    price = yard.prices.get(kind.name)
    holds = pack_priced(rolled(kind, height) if height else kind, METER, price)
    by_length = price is not None and price.unit.kind == METER.kind and price.pack >= _SHORTEST_ROLL
    whole = kind.value("roll_length" if height else "pack_length")
    length = price.pack if by_length and price is not None else whole
    cost = math.floor(price.cost * length / holds + 0.5) if price is not None and holds else 1
    says = f"new, {tape(length, yard.system)}"
    roll = Roll(mark="N1", length=in_steps(length, yard.system), count=None, price=cost, old=False, says=says)
    return roll, Source(kind.name, None)
