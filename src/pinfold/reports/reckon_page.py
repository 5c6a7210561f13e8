"""Planned cost as a page."""

from __future__ import annotations

from collections.abc import Sequence

from pinfold.reports.pages import Block, Heading, Page, Paragraph, Table, table
from pinfold.studies.costing import Costs, CostShare
from pinfold.units import System, money, percent

_FOOT = 0.3048


def reckon_page(name: str, costs: Costs, system: System) -> Page:
    """Total, shares, and what the total leaves out."""
    blocks: list[Block] = [Paragraph(text=total_sentence(costs, system))]
    if not costs.total and costs.missing:
        listed: list[Block] = [Heading(text="without a price"), *(Paragraph(text=text) for text in costs.missing)]
        return Page(title=f"{name}: what it will cost", blocks=(*blocks, *listed))
    blocks.append(_whole(costs))
    for title, shares in (("by layer", costs.by_layer), ("by run", costs.by_run), ("by build-up", costs.by_buildup)):
        if shares:
            blocks.append(_shares(title, shares, costs))
    if costs.missing:
        blocks += [Heading(text="left out of the total"), *(Paragraph(text=text) for text in costs.missing)]
    blocks.append(Paragraph(text="Your own hours are not in it."))
    return Page(title=f"{name}: what it will cost", blocks=tuple(blocks))


def total_sentence(costs: Costs, system: System) -> str:
    """`At least USD 4 210.00, USD 12.40 a foot`."""
    if not costs.total and costs.missing:
        return "NOT SHOWN: nothing has a price yet; put what things cost here into prices.toml (docs/plan-file.md)."
    least = "At least " if costs.is_at_least else ""
    text = f"{least}{money(costs.total, costs.currency, costs.digits)}"
    if costs.per_meter is None:
        return f"{text}."
    each, of = (costs.per_meter * _FOOT, "foot") if system is System.US else (costs.per_meter, "meter")
    return f"{text}, {money(round(each), costs.currency, costs.digits)} a {of} of enclosure."


def _whole(costs: Costs) -> Table:
    rows = [
        ("goods", money(costs.goods, "", costs.digits)),
        ("trips to the shop", money(costs.haul, "", costs.digits)),
        ("trips for water", money(costs.water, "", costs.digits)),
        ("in all", money(costs.total, "", costs.digits)),
    ]
    return table(("what", costs.currency or "cost"), rows, right=(1,))


def _shares(title: str, shares: Sequence[CostShare], costs: Costs) -> Table:
    rows = [(share.name, _cost(share, costs), _of_goods(share, costs)) for share in shares]
    return table((title, costs.currency or "cost", "of goods"), rows, right=(1, 2))


def _cost(share: CostShare, costs: Costs) -> str:
    if not share.is_shown:
        return "NOT SHOWN"
    least = "at least " if share.unpriced else ""
    return f"{least}{money(share.cost, '', costs.digits)}"


def _of_goods(share: CostShare, costs: Costs) -> str:
    return percent(share.cost / costs.goods) if costs.goods and share.is_shown else ""
