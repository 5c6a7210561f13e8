"""Plans of sheets and rolls as they are told where they are cut, every sheet and roll with its own code."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import count
from typing import NamedTuple

from pinfold.studies.cutting.records import STEP, Proof, Uncut
from pinfold.studies.cutting.roll_records import RollPlan, Unrolled
from pinfold.studies.cutting.sheet_records import Area, SheetPattern, SheetPlan
from pinfold.studies.parts.flat import FlatOrder
from pinfold.units import Meter, System


class Patch(NamedTuple):
    """A rectangle on a sheet, from its lower left corner.

    Attributes:
        code: mark of the part, or code of the offcut, which begins with Y; empty for waste.
        x: of its left edge.
        y: of its lower edge.
        wide: across the grain of the sheet.
        high: along it.
        turned: whether a part lies across the grain.
    """

    code: str
    x: Meter
    y: Meter
    wide: Meter
    high: Meter
    turned: bool = False


class CutThrough(NamedTuple):
    """One cut from edge to edge.

    Attributes:
        of: the rectangle that is cut.
        upright: whether it runs along the grain; else across it.
        measure: from the left, or lower, edge of the rectangle.
    """

    of: Patch
    upright: bool
    measure: Meter


@dataclass(frozen=True, kw_only=True)
class SheetCut:
    """A sheet, or several alike, with its cuts.

    Attributes:
        code: its own, a Q and a number.
        item: its name on the pile or the price list.
        row: its place on the pile, from 1; None for what is bought.
        says: what else is known of it.
        wide: across the grain.
        high: along it.
        times: how many are cut so.
        price: of each, in the smallest coin.
        parts: on it.
        cuts: in their order.
        rests: left over.
    """

    code: str
    item: str
    row: int | None
    says: str
    wide: Meter
    high: Meter
    times: int
    price: int
    parts: tuple[Patch, ...]
    cuts: tuple[CutThrough, ...]
    rests: tuple[Patch, ...]


class RollPiece(NamedTuple):
    """A piece off a roll.

    Attributes:
        code: mark of its band; with a letter where the band is joined out of several.
        mark: of the band.
        place: where it goes.
        start: along the band.
        end: likewise.
        length: to cut, overlap in it.
    """

    code: str
    mark: str
    place: str
    start: Meter
    end: Meter
    length: Meter


@dataclass(frozen=True, kw_only=True)
class RollCut:
    """A roll with what comes off it.

    Attributes:
        code: its own, an L and a number.
        item: its name on the pile or the price list.
        row: its place on the pile, from 1; None for what is bought.
        says: what else is known of it.
        length: of it.
        price: in the smallest coin.
        pieces: in the order they are cut.
        rest: left on it.
        rest_code: of a rest worth keeping, an X and a number; empty where it is not.
    """

    code: str
    item: str
    row: int | None
    says: str
    length: Meter
    price: int
    pieces: tuple[RollPiece, ...]
    rest: Meter
    rest_code: str


@dataclass(frozen=True, kw_only=True)
class FlatCut:
    """Everything of one sort of sheet, or of rolls of one height.

    Attributes:
        says: what it is.
        item: its name.
        sheets: that are cut.
        rolls: likewise.
        uncut: parts that nothing gives.
        money: what new ones cost.
        bound: no plan costs less.
        proof: whether that is proven.
        priced: whether new ones have a price.
        joints: of rolls, where two pieces meet.
        told: what could not be used, and why.
    """

    says: str
    item: str
    sheets: tuple[SheetCut, ...] = ()
    rolls: tuple[RollCut, ...] = ()
    uncut: tuple[Uncut, ...]
    money: int
    bound: int
    proof: Proof
    priced: bool
    joints: int = 0
    told: tuple[str, ...] = ()


def sheets_cut(orders: Sequence[FlatOrder], plans: Iterable[SheetPlan], system: System) -> tuple[FlatCut, ...]:
    """Plans of sheets as told, numbered through."""
    sheets, rests = count(1), count(1)
    return tuple(
        FlatCut(
            says=order.says, item=order.kind.name, priced=order.priced, told=order.told, uncut=plan.uncut,
            money=plan.money if order.priced else 0, bound=plan.bound if order.priced else 0, proof=plan.proof,
            sheets=tuple(_sheet(order, plan, each, system, (sheets, rests)) for each in _by_age(plan)),
        )
        for order, plan in zip(orders, plans, strict=True)
    )  # fmt: skip


def _by_age(plan: SheetPlan) -> list[SheetPattern]:
    rank = {stock.mark: (not stock.old, at) for at, stock in enumerate(plan.order.stock)}
    return sorted(plan.patterns, key=lambda each: rank[each.stock])


_Numbers = tuple[Iterator[int], Iterator[int]]


def _sheet(
    order: FlatOrder, plan: SheetPlan, pattern: SheetPattern, system: System, numbers: _Numbers
) -> SheetCut:  # fmt: skip
    step, source = STEP[system], order.sources[pattern.stock]
    stock = next(each for each in plan.order.stock if each.mark == pattern.stock)
    return SheetCut(
        code=f"Q{next(numbers[0])}", item=source.item, row=None if source.row is None else source.row + 1,
        says=stock.says, wide=stock.wide * step, high=stock.high * step, times=pattern.times, price=stock.price,
        parts=tuple(_patch(each.area, step, each.mark, turned=each.turned) for each in pattern.parts),
        cuts=tuple(CutThrough(_patch(cut.area, step), cut.upright, cut.at * step) for cut in pattern.cuts),
        rests=tuple(_patch(each.area, step, f"Y{next(numbers[1])}" if each.kept else "") for each in pattern.rests),
    )  # fmt: skip


def _patch(area: Area, step: Meter, code: str = "", *, turned: bool = False) -> Patch:
    return Patch(code, area.x * step, area.y * step, area.wide * step, area.high * step, turned)


def rolls_cut(orders: Sequence[FlatOrder], plans: Iterable[RollPlan], system: System) -> tuple[FlatCut, ...]:
    """Plans of rolls as told, numbered through."""
    rolls, rests = count(1), count(1)
    return tuple(
        FlatCut(
            says=order.says, item=order.kind.name, priced=order.priced, told=order.told, uncut=plan.uncut,
            money=plan.money if order.priced else 0, bound=plan.bound if order.priced else 0, proof=plan.proof,
            joints=plan.joints,
            rolls=tuple(_roll(order, plan, each, system, (rolls, rests)) for each in plan.unrolled),
        )
        for order, plan in zip(orders, plans, strict=True)
    )  # fmt: skip


def _roll(
    order: FlatOrder, plan: RollPlan, unrolled: Unrolled, system: System, numbers: _Numbers
) -> RollCut:  # fmt: skip
    step, source = STEP[system], order.sources[unrolled.roll]
    roll = next(each for each in plan.order.rolls if each.mark == unrolled.roll)
    codes = codes_of(plan)
    return RollCut(
        code=f"L{next(numbers[0])}", item=source.item, row=None if source.row is None else source.row + 1,
        says=roll.says, length=roll.length * step, price=roll.price, rest=unrolled.rest * step,
        pieces=tuple(
            RollPiece(codes[piece], piece.mark, piece.place, piece.start * step, piece.end * step, piece.length * step)
            for piece in unrolled.pieces
        ),
        rest_code=f"X{next(numbers[1])}" if unrolled.kept else "",
    )  # fmt: skip


def codes_of(plan: RollPlan) -> dict[object, str]:
    """A code for each piece: the mark of its band, with a letter where the band is joined out of several."""
    by_band: dict[tuple[str, str, int], list[object]] = {}
    pieces = [piece for unrolled in plan.unrolled for piece in unrolled.pieces]
    for piece in sorted(pieces, key=lambda each: each.start):
        by_band.setdefault((piece.mark, piece.place, piece.layer), []).append(piece)
    return {
        piece: mark if len(group) == 1 else f"{mark}{_letter(number)}"
        for (mark, _, _), group in by_band.items() for number, piece in enumerate(group)
    }  # fmt: skip


def _letter(number: int) -> str:
    return "abcdefghijklmnopqrstuvwxyz"[number] if number < 26 else f".{number + 1}"
