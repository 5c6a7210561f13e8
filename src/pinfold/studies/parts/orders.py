"""Cut orders out of the part list, the pile and the price list: one for each section that is cut from lengths."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.plan.cutting import Cutting
from pinfold.plan.place import Mixing
from pinfold.plan.stock import Condition, PilePiece, Price, RawEnds
from pinfold.studies.cutting.records import STEP, CutOrder, Defect, EndCut, PartWanted, Steps, Stock, Trim
from pinfold.studies.gathering.amounts import how_sold
from pinfold.studies.gathering.packs import pack_of, pack_priced
from pinfold.studies.quantities.records import Part
from pinfold.studies.quantities.standing import TAPE_STEP
from pinfold.tables.shelf import Kind, kind, shelf
from pinfold.units import METER, Meter, System, tape

_SHELVES = ("posts", "rails", "bars", "gates", "boards", "copings")
POOR = "poor"


class Source(NamedTuple):
    """Where a stock of a cut order comes from.

    Attributes:
        item: its name on the price list or the pile.
        row: its place on the pile; None for what is bought.
    """

    item: str
    row: int | None


@dataclass(frozen=True, kw_only=True)
class SectionOrder:
    """What is to be cut of one section.

    Attributes:
        section: name of the item that stands for it.
        says: what it is.
        order: parts and stock.
        sources: of each stock, by its mark.
        priced: whether new lengths have a price; where not, the least length is bought.
    """

    section: str
    says: str
    order: CutOrder
    sources: Mapping[str, Source]
    priced: bool


@dataclass(frozen=True, kw_only=True)
class Yard:
    """All that decides what parts are cut from.

    Attributes:
        pile: what is on hand.
        prices: by item.
        cutting: saw and habits.
        mixing: bags of the site, which the price list is read with.
        system: units of the plan.
    """

    pile: Sequence[PilePiece]
    prices: Mapping[str, Price]
    cutting: Cutting
    mixing: Mixing
    system: System


def section_of(made: Kind) -> str:
    """Name of the item that stands for its section: of a gate's frame what its members are."""
    return made.word("member", made.name)


def cut_from_lengths(part: Part) -> bool:
    """Whether a part is sawn off a length."""
    return (
        part.width is None and part.kind.shelf in _SHELVES and how_sold(part.kind) in ("length", "each")
        and part.kind.word("make") != "precast"
    )  # fmt: skip


def section_orders(parts: Iterable[Part], yard: Yard) -> tuple[SectionOrder, ...]:
    """An order for each section, in the order of the part list."""
    by_section: dict[str, list[Part]] = {}
    for part in parts:
        if part.count and cut_from_lengths(part):
            by_section.setdefault(section_of(part.kind), []).append(part)
    return tuple(_order(name, group, yard) for name, group in by_section.items())


def in_steps(length: Meter, system: System) -> Steps:
    """A length in whole steps; what is a hair off one is that one."""
    return round(length / STEP[system])


def _order(section: str, parts: list[Part], yard: Yard) -> SectionOrder:
    kinds = tuple(dict.fromkeys([*(part.kind for part in parts), *_kinds_of(section)]))
    old = tuple(_on_hand({each.name for each in kinds}, yard))
    new, priced = _for_sale(kinds, yard)
    longest = max((stock.length for stock, _ in (*old, *new)), default=0)
    order = CutOrder(
        parts=tuple(_wanted(part, longest, yard.system) for part in parts),
        stock=tuple(stock for stock, _ in (*old, *new)),
        kerf=in_steps(yard.cutting.kerf, yard.system), keep=in_steps(yard.cutting.keep, yard.system),
        system=yard.system,
    )  # fmt: skip
    says = next((each.says for each in kinds if each.name == section), parts[0].kind.says)
    sources = {stock.mark: source for stock, source in (*old, *new)}
    return SectionOrder(section=section, says=says, order=order, sources=sources, priced=priced)


def _kinds_of(section: str) -> Iterator[Kind]:
    return (kind(name, section) for name in _SHELVES if section in shelf(name))


def no_longer_than(wanted: Steps, whole: Steps, system: System) -> Steps:
    """A size that was rounded up to the tape past the whole of what it is cut from is that whole."""
    return whole if whole < wanted < whole + in_steps(TAPE_STEP[system], system) else wanted


def _wanted(part: Part, longest: Steps, system: System) -> PartWanted:
    over = in_steps(part.deep, system)
    return PartWanted(
        mark=part.mark, length=no_longer_than(in_steps(part.length, system), longest, system), count=part.count,
        left=_end(part.left, over), right=_end(part.right, over),
        tolerance=math.floor(part.tolerance / STEP[system] + 1e-6), allows=part.allows, splice=part.splice,
        says=part.says, places=part.places, up=part.up,
    )  # fmt: skip


def _end(lean: float, over: Steps) -> EndCut:
    return EndCut(run=round(over * math.tan(lean)), over=over) if lean and over else EndCut()


def _on_hand(names: set[str], yard: Yard) -> Iterator[tuple[Stock, Source]]:
    trim = math.ceil(yard.cutting.trim / STEP[yard.system] - 1e-6)
    for row, piece in enumerate(yard.pile):
        if piece.item in names and piece.length is not None and piece.count:
            mark = f"K{row + 1}"
            raw = piece.raw_ends
            stock = Stock(
                mark=mark, length=math.floor(piece.length / STEP[yard.system] + 1e-6), count=piece.count,
                defects=tuple(_defects(piece, yard.system)), says=_about(piece),
                trim=Trim(trim * (raw in (RawEnds.LEFT, RawEnds.BOTH)), trim * (raw in (RawEnds.RIGHT, RawEnds.BOTH))),
            )  # fmt: skip
            yield stock, Source(piece.item, row)


def _about(piece: PilePiece) -> str:
    words = [piece.note] if piece.note else []
    words += [str(piece.condition)] if piece.condition is not Condition.SOUND else []
    return ", ".join(words)


def _defects(piece: PilePiece, system: System) -> Iterator[Defect]:
    step = STEP[system]
    assert piece.length is not None
    whole = math.floor(piece.length / step + 1e-6)
    if piece.condition is Condition.POOR:
        yield Defect(0, whole, POOR)
    for flaw in piece.flaws:
        start, end = math.floor(flaw.start / step + 1e-6), min(math.ceil(flaw.end / step - 1e-6), whole)
        if start < end:
            yield Defect(start, end, flaw.kind)


def _for_sale(kinds: Sequence[Kind], yard: Yard) -> tuple[tuple[tuple[Stock, Source], ...], bool]:
    """New lengths with what they cost, and whether they have prices; the least length is bought where none has."""
    priced = [each for each in kinds if each.name in yard.prices]
    found: dict[Steps, tuple[int, str]] = {}
    for each in priced or kinds:
        for length, cost in _sizes(each, yard):
            steps = in_steps(length, yard.system)
            if steps not in found or cost < found[steps][0]:
                found[steps] = (cost, each.name)
    stock = []
    for number, (steps, (cost, item)) in enumerate(sorted(found.items()), start=1):
        says = f"new, {tape(steps * STEP[yard.system], yard.system)}"
        each_stock = Stock(mark=f"N{number}", length=steps, count=None, price=cost, old=False, says=says)
        stock.append((each_stock, Source(item, None)))
    return tuple(stock), bool(priced)


def _sizes(sold: Kind, yard: Yard) -> Iterator[tuple[Meter, int]]:
    """(length, what it costs) of every length that a thing is sold in; no cost where it has no price."""
    price = yard.prices.get(sold.name)
    pack = pack_of(sold, unit=METER, system=yard.system, mixing=yard.mixing, price=price)
    holds = pack_priced(sold, METER, price)
    for length in pack.sizes:
        cost = math.floor(price.cost * length / holds + 0.5) if price is not None and holds else 0
        yield length, cost
