"""Plans of sheets and rolls as they are told where they are cut, every sheet and roll with its own code."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.studies.cutting.records import STEP, Proof, Uncut
from pinfold.studies.cutting.roll_records import RollPlan, Unrolled
from pinfold.studies.cutting.sheet_records import Area, SheetPattern, SheetPlan
from pinfold.studies.parts.codes import coded, letter_of, rest_codes
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
        code: its own, a Q and digits.
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
        code: its own, an L and digits.
        item: its name on the pile or the price list.
        row: its place on the pile, from 1; None for what is bought.
        says: what else is known of it.
        length: of it.
        price: in the smallest coin.
        pieces: in the order they are cut.
        rest: left on it.
        rest_code: of a rest worth keeping, an X and the digits of its roll; empty where it is not.
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
    """Plans of sheets as told, every sheet with its code."""
    told = list(zip(orders, plans, strict=True))
    contents = [_of_sheet(order, plan, each) for order, plan in told for each in _by_age(plan)]
    codes = iter(coded("Q", contents))
    return tuple(
        FlatCut(
            says=order.says, item=order.kind.name, priced=order.priced, told=order.told, uncut=plan.uncut,
            money=plan.money if order.priced else 0, bound=plan.bound if order.priced else 0, proof=plan.proof,
            sheets=tuple(_sheet(order, plan, each, system, next(codes)) for each in _by_age(plan)),
        )
        for order, plan in told
    )  # fmt: skip


def _by_age(plan: SheetPlan) -> list[SheetPattern]:
    rank = {stock.mark: (not stock.old, at) for at, stock in enumerate(plan.order.stock)}
    return sorted(plan.patterns, key=lambda each: rank[each.stock])


def _of_sheet(order: FlatOrder, plan: SheetPlan, pattern: SheetPattern) -> object:
    stock = next(each for each in plan.order.stock if each.mark == pattern.stock)
    parts = [(each.mark, each.turned, each.area.x, each.area.y) for each in pattern.parts]
    return order.sources[pattern.stock].item, stock.wide, stock.high, parts


def _sheet(
    order: FlatOrder, plan: SheetPlan, pattern: SheetPattern, system: System, code: str
) -> SheetCut:  # fmt: skip
    step, source, rests = STEP[system], order.sources[pattern.stock], rest_codes("Y", code)
    stock = next(each for each in plan.order.stock if each.mark == pattern.stock)
    return SheetCut(
        code=code, item=source.item, row=None if source.row is None else source.row + 1,
        says=stock.says, wide=stock.wide * step, high=stock.high * step, times=pattern.times, price=stock.price,
        parts=tuple(_patch(each.area, step, each.mark, turned=each.turned) for each in pattern.parts),
        cuts=tuple(CutThrough(_patch(cut.area, step), cut.upright, cut.at * step) for cut in pattern.cuts),
        rests=tuple(_patch(each.area, step, next(rests) if each.kept else "") for each in pattern.rests),
    )  # fmt: skip


def _patch(area: Area, step: Meter, code: str = "", *, turned: bool = False) -> Patch:
    return Patch(code, area.x * step, area.y * step, area.wide * step, area.high * step, turned)


def rolls_cut(orders: Sequence[FlatOrder], plans: Iterable[RollPlan], system: System) -> tuple[FlatCut, ...]:
    """Plans of rolls as told, every roll with its code."""
    told = list(zip(orders, plans, strict=True))
    contents = [_of_roll(order, plan, each) for order, plan in told for each in plan.unrolled]
    codes = iter(coded("L", contents))
    return tuple(
        FlatCut(
            says=order.says, item=order.kind.name, priced=order.priced, told=order.told, uncut=plan.uncut,
            money=plan.money if order.priced else 0, bound=plan.bound if order.priced else 0, proof=plan.proof,
            joints=plan.joints,
            rolls=tuple(_roll(order, plan, each, system, next(codes)) for each in plan.unrolled),
        )
        for order, plan in told
    )  # fmt: skip


def _of_roll(order: FlatOrder, plan: RollPlan, unrolled: Unrolled) -> object:
    roll = next(each for each in plan.order.rolls if each.mark == unrolled.roll)
    return order.sources[unrolled.roll].item, order.says, roll.length, [tuple(piece) for piece in unrolled.pieces]


def _roll(
    order: FlatOrder, plan: RollPlan, unrolled: Unrolled, system: System, code: str
) -> RollCut:  # fmt: skip
    step, source = STEP[system], order.sources[unrolled.roll]
    roll = next(each for each in plan.order.rolls if each.mark == unrolled.roll)
    codes = codes_of(plan)
    return RollCut(
        code=code, item=source.item, row=None if source.row is None else source.row + 1,
        says=roll.says, length=roll.length * step, price=roll.price, rest=unrolled.rest * step,
        pieces=tuple(
            RollPiece(codes[piece], piece.mark, piece.place, piece.start * step, piece.end * step, piece.length * step)
            for piece in unrolled.pieces
        ),
        rest_code=next(rest_codes("X", code)) if unrolled.kept else "",
    )  # fmt: skip


def codes_of(plan: RollPlan) -> dict[object, str]:
    """A code for each piece: the mark of its band, with a letter where the band is joined out of several."""
    by_band: dict[tuple[str, str, int], list[object]] = {}
    pieces = [piece for unrolled in plan.unrolled for piece in unrolled.pieces]
    for piece in sorted(pieces, key=lambda each: each.start):
        by_band.setdefault((piece.mark, piece.place, piece.layer), []).append(piece)
    return {
        piece: mark if len(group) == 1 else f"{mark}{letter_of(number)}"
        for (mark, _, _), group in by_band.items() for number, piece in enumerate(group, start=1)
    }  # fmt: skip
