"""Whether the lines of a bill add up to what it says, by how much they do not, and what that may come of."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pinfold.studies.ledger.records import LedgerLine, Point, PointSort

_TAX = (3, 27)
"""Percent between which sales and value-added taxes lie, for telling what a difference may come of."""
_MOST = 3
"""Likely reasons that are told."""


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
    if len(totals) > 1:
        return Point(PointSort.BILL, f"{_named(ordered)}: its lines say different totals", seqs)
    if len({line.currency.casefold() for line in ordered}) > 1:
        return Point(PointSort.BILL, f"{_named(ordered)}: its lines are in different currencies", seqs)
    total, whole = totals[0], sum(line.paid for line in ordered)
    off = total - whole
    if off in (0, -_haul(ordered)):
        return None
    says = f"{_named(ordered)}: its lines come to {'less' if off > 0 else 'more'} than it says"
    likely = tuple(dict.fromkeys(_reasons(ordered, off)))[:_MOST]
    return Point(PointSort.BILL, says, seqs, off, ordered[0].currency, likely)


def _named(lines: Sequence[LedgerLine]) -> str:
    first = lines[0]
    bill = f"bill {first.bill}" if first.bill else f"the bill of {first.day}"
    return f"{bill} of {first.shop}" if first.shop else bill


def _goods(line: LedgerLine) -> int:
    """What was paid for the thing alone, in the currency it was paid in."""
    return line.paid - _delivery(line)


def _delivery(line: LedgerLine) -> int:
    """Delivery in the site's currency; on a bill in another one it is not told apart."""
    return 0 if line.currency else line.haul or 0


def _haul(lines: Sequence[LedgerLine]) -> int:
    return sum(map(_delivery, lines))


def _reasons(lines: Sequence[LedgerLine], off: int) -> Iterator[str]:
    """What a difference may come of, the likeliest first; told without sums, which who tells it adds."""
    tax = sum(line.tax for line in lines)
    if tax and abs(off) == tax:
        yield "tax left out of the lines" if off > 0 else "tax counted twice"
    for line in lines:
        if _goods(line) == -off:
            yield f"entry {line.seq} too many, or twice"
    yield from (f"a slipped digit in entry {line.seq}" for line in lines if slipped(_goods(line), off))
    whole = sum(line.paid for line in lines)
    if off > 0 and not tax and _TAX[0] * whole <= 100 * off <= _TAX[1] * whole:
        yield f"tax left out of the lines: it would be {off / whole:.1%}"
    yield "a missing line" if off > 0 else "a discount, or a line of another bill"


def slipped(coins: int, off: int) -> bool:
    """Whether writing an amount with one slip is off by so much: two neighbors swapped, or the point one place over.

    Args:
        coins: as written
        off: what the true amount is more
    """
    meant = coins + off
    if coins <= 0 or meant <= 0 or off == 0:
        return False
    if coins == 10 * meant or meant == 10 * coins:
        return True
    one, other = str(coins), str(meant)
    if len(one) != len(other):
        return False
    wrong = [at for at, (a, b) in enumerate(zip(one, other, strict=True)) if a != b]
    return (
        len(wrong) == 2
        and wrong[1] == wrong[0] + 1
        and one[wrong[0] : wrong[1] + 1] == other[wrong[0] : wrong[1] + 1][::-1]
    )
