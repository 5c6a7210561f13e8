"""Whether the lines of a bill add up to what it says, by how much they do not, and what that may come of."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from pinfold.studies.ledger.records import LedgerLine, Point, PointSort
from pinfold.units import percent

_TAX = (3, 27)
"""Percent between which sales and value-added taxes lie, for telling what a difference may come of."""
_MOST = 3
"""Likely reasons that are told."""


class _Fault(NamedTuple):
    """Something that may be wrong with a bill.

    Attributes:
        says: what.
        off: how much more than its lines the bill says then.
        seq: entry that it is in; 0 for all of them.
        shown: whether the bill itself shows it: its tax, or a line that stands there twice.
    """

    says: str
    off: int
    seq: int = 0
    shown: bool = False


def bill_point(lines: Sequence[LedgerLine]) -> Point | None:
    """What is to be said of the lines of one bill; None where they add up, or where it says no total.

    A bill may have the delivery on it or not: the lines add up either way.

    Args:
        lines: of one bill of one shop, in any order
    """
    ordered = sorted(lines)
    totals = sorted({line.bill_total for line in ordered if line.bill_total is not None})
    if not totals:
        return None
    seqs = tuple(line.seq for line in ordered)
    told = _at_odds(ordered, totals)
    if told:
        return Point(PointSort.BILL, f"{_named(ordered)}: its lines {' and '.join(told)}", seqs)
    off = totals[0] - _paid(ordered)
    if off in _adding_up(ordered):
        return None
    says = f"{_named(ordered)}: its lines come to {'less' if off > 0 else 'more'} than it says"
    likely = tuple(dict.fromkeys(_reasons(ordered, off)))[:_MOST]
    return Point(PointSort.BILL, says, seqs, off, ordered[0].currency, likely)


def _at_odds(lines: Sequence[LedgerLine], totals: Sequence[int]) -> list[str]:
    """In what the lines contradict each other: all of it, so that mending one does not bring the next to light."""
    mixed = len({line.currency.casefold() for line in lines}) > 1
    told = []
    if len(totals) > 1:
        told.append("say different totals")
    if mixed:
        told.append("are in different currencies")
    elif told:
        fits = any(total - _paid(lines) in _adding_up(lines) for total in totals)
        told.append(f"come to {'one' if fits else 'none'} of them")
    return told


def _named(lines: Sequence[LedgerLine]) -> str:
    first = lines[0]
    bill = f"bill {first.bill}" if first.bill else f"the bill of {first.day}"
    return f"{bill} of {first.shop}" if first.shop else bill


def _paid(lines: Sequence[LedgerLine]) -> int:
    return sum(line.paid for line in lines)


def _haul(lines: Sequence[LedgerLine]) -> int:
    return sum(line.paid_haul for line in lines)


def _adding_up(lines: Sequence[LedgerLine]) -> tuple[int, int]:
    """How far a bill may be off its lines that add up: delivery on it, or apart."""
    return 0, -_haul(lines)


def _reasons(lines: Sequence[LedgerLine], off: int) -> Iterator[str]:
    """What a difference may come of, the likeliest first; told without sums, which who tells it adds."""
    faults = list(_faults(lines))
    found = [*_explaining(faults, off, ""), *(_explaining(faults, off + _haul(lines), _APART) if _haul(lines) else ())]
    yield from found
    whole = _paid(lines)
    taxed = off > 0 and not _tax(lines) and _TAX[0] * whole <= 100 * off <= _TAX[1] * whole
    if taxed:
        yield f"tax left out of the lines: it would be {percent(off / whole, 1)}"
    if not found and not taxed:
        yield from _both(faults, off)
    yield "a missing line" if off > 0 else "a discount, or a line of another bill"


_APART = ", the delivery apart"


def _explaining(faults: Sequence[_Fault], off: int, also: str) -> Iterator[str]:
    return (f"{fault.says}{also}" for fault in faults if fault.off == off)


def _both(faults: Sequence[_Fault], off: int) -> Iterator[str]:
    """Two faults that make it together, one of which the bill shows.

    Two slips, or a slip and any line at all, would explain most differences of a long bill, and so none.
    """
    for one in (fault for fault in faults if fault.shown):
        for other in faults:
            if one.off + other.off == off and one.seq != other.seq:
                yield f"{one.says}, and {other.says}"


def _tax(lines: Sequence[LedgerLine]) -> int:
    return sum(line.paid_tax for line in lines)


def _faults(lines: Sequence[LedgerLine]) -> Iterator[_Fault]:
    """All that may be wrong by itself, the likeliest first."""
    if tax := _tax(lines):
        yield _Fault("tax left out of the lines", tax, shown=True)
        yield _Fault("tax counted twice", -tax, shown=True)
    alike = Counter((line.what, line.amount, line.paid) for line in lines)
    for line in lines:
        said, shown = f"entry {line.seq} too many, or twice", alike[line.what, line.amount, line.paid] > 1
        for coins in sorted({line.paid, line.paid - line.paid_haul} - {0}):
            yield _Fault(said, -coins, line.seq, shown)
    for line in lines:
        coins, said = line.paid - line.paid_haul, f"a slipped digit in entry {line.seq}"
        yield from (_Fault(said, meant - coins, line.seq) for meant in sorted(slips(coins)))


def slips(coins: int) -> set[int]:
    """What may have been meant where one slip was made: two neighbors swapped, or the point one place over.

    Args:
        coins: as written
    """
    if coins <= 0:
        return set()
    text = str(coins)
    swapped = (f"{text[:at]}{two}{one}{text[at + 2 :]}" for at, (one, two) in enumerate(pairwise(text)))
    found = {int(each) for each in swapped if each[0] != "0"} | {10 * coins}
    return (found | {coins // 10} if coins % 10 == 0 else found) - {coins}
