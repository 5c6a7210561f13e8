"""What a plan's cost, hours and strength to spare hang on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Table, table
from pinfold.reports.weigh_amounts import Money, amount
from pinfold.reports.weigh_words import percent
from pinfold.studies.weighing.drivers import Driven, Driver
from pinfold.studies.weighing.sensitivity import CONFIDENCE, POINTS, Share
from pinfold.units import System

_SHOWN = 10
_LEAST = 0.005
_BARS = 12
"""Blocks of the longest bar."""
METHOD = (
    f"Shares of the variance by two samples of {POINTS} draws and each figure swapped between them: the first order "
    "after Saltelli and others 2010, the whole after Jansen 1999 (read: SALTELLI-2010). Behind each share stands where "
    f"{100 * CONFIDENCE:.0f} of 100 resamples lie. Alone: what would go if the figure were known. In all: what it "
    "brings together with the others; where both are alike it acts by itself."
)
CAUTION = (
    "The strength to spare is that of the checks, with their safety in it: that it passes below nothing by a doubt is "
    "no chance of falling. 'pinfold stand --storms' has those chances."
)


def drivers_page(name: str, driven: Sequence[Driven], system: System, money: Money) -> Page:
    """What drives a plan, criterion by criterion.

    Args:
        name: of the plot
        driven: found
        system: of the plan
        money: how it is told
    """
    blocks: list[Block] = []
    for each in driven:
        blocks.append(Heading(text=each.criterion.says))
        blocks += _one(each, system, money)
    blocks += [Heading(text="How it was worked out"), Paragraph(text=METHOD)]
    return Page(title=f"{name}: what it hangs on", blocks=(*blocks, Caution(text=CAUTION)))


def _one(each: Driven, system: System, money: Money) -> Iterator[Block]:
    if each.middle is None or each.low is None or each.high is None:
        yield Paragraph(text=f"NOT SHOWN: {each.because}.")
        return
    low, middle, high = (amount(each.criterion, value, system, money) for value in (each.low, each.middle, each.high))
    below = f"; below nothing in {100 * each.below:.0f} of 100 draws" if each.below > 0 else ""
    yield Paragraph(text=f"In the middle {middle}; 90 of 100 draws lie from {low} to {high}{below}.")
    yield _table(each)
    yield Paragraph(text=f"How: {each.because}. Spreads by {each.standing.value}.")


def _table(of: Driven) -> Table:
    told = [driver for driver in of.drivers if driver.total.value >= _LEAST][:_SHOWN]
    rows = [
        (
            driver.unsure.says,
            f"±{percent(driver.unsure.spread)}",
            _share(driver.first),
            _share(driver.total),
            _bar(driver),
        )
        for driver in told
    ]
    rest = len(of.drivers) - len(told)
    note = f"{rest} more bring next to nothing." if rest else ""
    return table(("unsure", "by", "alone", "in all", ""), rows, right=(1, 2, 3), note=note)


def _share(share: Share) -> str:
    low, high = max(share.low, 0.0), min(max(share.high, 0.0), 1.0)
    return f"{100 * max(share.value, 0.0):.0f}\u00a0% ({100 * low:.0f}–{100 * high:.0f})"


def _bar(driver: Driver) -> str:
    return "=" * max(round(_BARS * min(driver.total.value, 1.0)), 1)
