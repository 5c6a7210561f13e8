"""The binder's chapters of weighing: build-ups side by side, what is given up for what, and what if."""

from __future__ import annotations

from pinfold.actions.sites import Site
from pinfold.actions.weigh_side import WeighAsked, weighing_of
from pinfold.actions.weigh_trade import TradeAsked, money_of, trade_of
from pinfold.actions.weigh_what_if import supposed_at, that_can_be
from pinfold.reports.binder.records import BinderPart, Sheet
from pinfold.reports.pages import Block, Caution, Heading, Paragraph
from pinfold.reports.weigh_options import CAUTION, weigh_page
from pinfold.reports.weigh_picture import LEGEND, marks_told, trade_sheet
from pinfold.reports.weigh_trade import trade_page
from pinfold.reports.weigh_what_if import what_if_page
from pinfold.studies.weighing.trading import Trade

TITLES = ("Which build-up", "What for what", "What if")
SUPPOSED = ("cement +20 %", "wind one up", "sand twice as far", "a helper less", "posts half off the pile")
"""What is supposed on paper, as far as it can be; anything else is asked at a terminal or on the page."""
_NO_LIMITS = "Here without limits: 'pinfold weigh trade-off' takes yours in plain words."
_WHAT_IF = "The plan as it stands, before and after. 'pinfold weigh what-if' supposes anything else in plain words."
_DRIVERS = (
    "Which unsure figure cash, hours and strength to spare hang on most takes some seconds to work out and is not in "
    "this binder: 'pinfold weigh drivers' tells it, and so does the page under weigh."
)


def weigh_parts(site: Site, *, wide_mm: float) -> tuple[BinderPart, ...]:
    """The chapters.

    Args:
        site: as read
        wide_mm: width of a picture on paper
    """
    return _side_by_side(site), _trade(site, wide_mm), _what_if(site)


def _side_by_side(site: Site) -> BinderPart:
    """All of them, in the order of the catalog."""
    page = weigh_page(weighing_of(site, WeighAsked()), site.plan.units)
    blocks = tuple(block for block in page.blocks if not isinstance(block, Caution))
    return BinderPart(title=TITLES[0], blocks=blocks, cautions=(CAUTION,))


def _trade(site: Site, wide_mm: float) -> BinderPart:
    trade, system, money = trade_of(site, TradeAsked()), site.plan.units, money_of(site)
    svg, high = trade_sheet(trade, system, money, wide_mm=wide_mm)
    page = trade_page(site.plan.name, trade, system, money)
    if not svg:
        return BinderPart(title=TITLES[1], intro=_NO_LIMITS, blocks=page.blocks)
    title = " and ".join(each.says for each in trade.criteria[:2]).capitalize()
    return BinderPart(
        title=TITLES[1], intro=_NO_LIMITS, blocks=(*page.blocks, *_key(trade)),
        sheets=(Sheet(title=title, svg=svg, width_mm=wide_mm, height_mm=high),),
    )  # fmt: skip


def _key(trade: Trade) -> tuple[Block, ...]:
    """What marks and numbers of the picture mean."""
    told = (f"{name} ({what})" if what else name for name, what in marks_told(trade))
    numbered = "; ".join(f"{number} {text}" for number, text in enumerate(told, start=1))
    return Heading(text="The picture"), Paragraph(text=LEGEND), Paragraph(text=f"{numbered}.")


def _what_if(site: Site) -> BinderPart:
    supposed = that_can_be(site, SUPPOSED)
    drivers = (Heading(text="What it hangs on"), Paragraph(text=_DRIVERS))
    if not supposed:
        return BinderPart(title=TITLES[2], blocks=drivers)
    found = supposed_at(site, supposed, ())
    page = what_if_page(site.plan.name, found, site.plan.units, money_of(site))
    return BinderPart(title=TITLES[2], intro=_WHAT_IF, blocks=(*page.blocks, *drivers))
