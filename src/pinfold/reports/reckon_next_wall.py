"""The next wall as a page: each build-up with shipped figures beside learned ones, and whether the order changes."""

from __future__ import annotations

from pinfold.plan.stock import Prices
from pinfold.reports.pages import Block, Heading, Page, Paragraph, table
from pinfold.studies.weighing.next_wall import COMPARED, NextWall, Order
from pinfold.studies.weighing.records import CRITERION_BY_KEY, Criterion, Score, Shown, Weighed
from pinfold.units import System, money, show

_UNMOVED = (
    "Nothing that the log taught so far moves any of it: as learned is as shipped. What moves it: yields and coats "
    "with their batches, prices paid, hours with what was done in them. Each in full: "
)


def title_of(name: str) -> str:
    """What stands over it, for a plot of a name."""
    return f"{name}: the next wall"


def next_wall_page(name: str, found: NextWall, prices: Prices, system: System) -> Page:
    """Orders first, then a table for each criterion."""
    blocks: list[Block] = [
        Paragraph(
            text="Every build-up weighed twice: with the figures as shipped, and with what your log taught and what "
            "was carried here. No score joins them; where the order on one of them changes, it is told."
        )
    ]
    if found.is_unmoved:
        blocks.append(Paragraph(text=f"{_UNMOVED}'pinfold weigh'.", on_screen=_UNMOVED, links=(("weigh", "/weigh"),)))
    else:
        blocks += [Paragraph(text=_told(order)) for order in found.orders if order.shipped or order.learned]
    for key in () if found.is_unmoved else COMPARED:
        criterion = CRITERION_BY_KEY[key]
        of = f", {prices.currency}" if criterion.shown is Shown.MONEY and prices.currency else ""
        blocks += [Heading(text=f"{criterion.says}{of}"), _table(key, found, prices, system)]
    unbuilt = [each for each in found.learned if not each.can_be_built]
    if unbuilt:
        told = (f"{each.option.name}: {'; '.join(each.complaints)}" for each in unbuilt)
        blocks += [Heading(text="cannot be built here"), *(Paragraph(text=text) for text in told)]
    return Page(title=title_of(name), blocks=tuple(blocks))


def _told(order: Order) -> str:
    head = CRITERION_BY_KEY[order.criterion].says.capitalize()
    if not order.changes:
        return f"{head}: the order stays. {_listed(order.learned)}."
    first = "the best changes" if order.shipped[:1] != order.learned[:1] else "the best stays, others change places"
    return f"{head}: {first}. As shipped {_listed(order.shipped)}; as learned {_listed(order.learned)}."


def _listed(names: tuple[str, ...]) -> str:
    few = ", ".join(names[:4])
    return f"{few} and {len(names) - 4} more" if len(names) > 4 else few or "none with a number"


def _table(key: str, found: NextWall, prices: Prices, system: System) -> Block:
    criterion = CRITERION_BY_KEY[key]
    rows = [
        (learned.option.name, _shown(shipped, criterion, prices, system), _shown(learned, criterion, prices, system),
         _moved(shipped.scores.get(key), learned.scores.get(key)), learned.verdict.value)
        for shipped, learned in zip(found.shipped, found.learned, strict=True) if learned.can_be_built
    ]  # fmt: skip
    return table(("build-up", "as shipped", "as learned", "change", "stands"), rows, right=(1, 2, 3))


def _shown(weighed: Weighed, criterion: Criterion, prices: Prices, system: System) -> str:
    score = weighed.scores.get(criterion.key)
    if score is None or score.value is None:
        return "NOT SHOWN"
    ends = (score.value, score.low, score.high)
    middle, *spread = (_value(each, criterion, prices, system) for each in ends if each is not None)
    return f"{middle} ({' to '.join(spread)})" if spread else middle


def _value(value: float, criterion: Criterion, prices: Prices, system: System) -> str:
    if criterion.shown is Shown.MONEY:
        return money(round(value), "", prices.digits)
    if criterion.shown is Shown.HOURS:
        return f"{value / 3600:.0f} h"
    if criterion.shown is Shown.AMOUNT:
        return show(value, criterion.unit, system)
    return f"{value:.0f}" if criterion.shown in (Shown.DAYS, Shown.COUNT) else f"{value:.2f}"


def _moved(shipped: Score | None, learned: Score | None) -> str:
    if shipped is None or learned is None or not shipped.value or learned.value is None:
        return ""
    share = learned.value / shipped.value - 1
    return "same" if abs(share) < 0.0005 else f"{share:+.1%}".replace("-", "−")
