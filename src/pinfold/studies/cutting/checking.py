"""What a cut order must be before it can be answered; all complaints at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from pinfold.errors import InputError, InvalidPlan
from pinfold.studies.cutting.records import CutOrder, PartWanted, Stock


def check(order: CutOrder) -> None:
    """Complains of all that cannot be.

    Raises:
        InvalidPlan: something cannot be.
    """
    problems = list(_of_order(order))
    if problems:
        raise InvalidPlan("the cut order", problems)


def _of_order(order: CutOrder) -> Iterator[InputError]:
    if order.kerf < 0:
        yield InputError("is less than nothing; wanted what the blade takes, or 0 where it takes nothing", place="kerf")
    if order.keep < 0:
        yield InputError("is less than nothing; wanted the shortest offcut worth keeping", place="keep")
    for what, marks in (("part", order.parts), ("stock", order.stock)):
        for mark, many in Counter(each.mark for each in marks).items():
            if many > 1:
                yield InputError(f"stands {many} times; give each {what} a mark of its own", place=f"{what} {mark}")
    for part in order.parts:
        yield from _of_part(part)
    for stock in order.stock:
        yield from _of_stock(stock)


def _of_part(part: PartWanted) -> Iterator[InputError]:
    place = f"part {part.mark}"
    if part.length <= 0:
        yield InputError(f"its length is {part.length}; wanted more than nothing", place=place)
    if part.count <= 0:
        yield InputError(f"{part.count} are wanted; want at least one, or leave the part out", place=place)


def _of_stock(stock: Stock) -> Iterator[InputError]:
    place = f"stock {stock.mark}"
    if stock.length <= 0:
        yield InputError(f"its length is {stock.length}; wanted more than nothing", place=place)
    if stock.count is not None and stock.count < 0:
        yield InputError(f"there are {stock.count}; wanted how many there are", place=place)
    if stock.price < 0:
        yield InputError(f"its price is {stock.price}; wanted 0 for what is on hand, or what it costs", place=place)
    if min(stock.trim) < 0 or sum(stock.trim) > stock.length:
        yield InputError(f"{sum(stock.trim)} come off raw ends of {stock.length}; wanted less than its length",
                         place=place)  # fmt: skip
    for defect in stock.defects:
        if defect.end <= defect.start:
            yield InputError(f"a defect goes from {defect.start} to {defect.end}; wanted its start, then its end",
                             place=place)  # fmt: skip
        elif defect.start < 0 or defect.end > stock.length:
            yield InputError(f"a defect from {defect.start} to {defect.end} does not lie on a piece of {stock.length}; "
                             "measure both again", place=place)  # fmt: skip
