"""Build-ups within limits, and those that nothing betters."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from, as_html
from pinfold.actions.mending import trials_on
from pinfold.actions.sites import Site, changed_site, open_site
from pinfold.actions.weigh_options import Told, plan_table, weighed_at
from pinfold.errors import InputError, InvalidPlan
from pinfold.reports.weigh_amounts import Money
from pinfold.reports.weigh_picture import picture
from pinfold.reports.weigh_trade import trade_page
from pinfold.store.plan_put import with_puts
from pinfold.studies.mending.records import Mended
from pinfold.studies.mending.search import mended
from pinfold.studies.mending.weak import weak_of
from pinfold.studies.stability.assess import assess
from pinfold.studies.weighing.limits import Limits, key_named, limits_of
from pinfold.studies.weighing.records import CRITERIA, Option
from pinfold.studies.weighing.subject import USUAL_ANIMALS, Asked
from pinfold.studies.weighing.trading import USUAL, Trade, traded

MOST = 8
"""Criteria traded off at once."""
MENDED = 2
"""Failing checks of the nearest miss for which changes are tried."""


@dataclass(frozen=True, kw_only=True)
class TradeAsked:
    """What is asked, as typed; what is empty is as usual.

    Attributes:
        limits: in plain words.
        criteria: to trade off, their keys or in words.
        names: of build-ups, all where there is none.
    """

    limits: str = ""
    criteria: tuple[str, ...] = ()
    names: tuple[str, ...] = ()


def trade_site(folder: Path, typed: TradeAsked, told: Told | None = None) -> Answer:
    """The trade-off between build-ups.

    Raises:
        InvalidPlan: what is asked cannot be read, with every complaint at once.
        NotFoundError: there is no build-up of a name.
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    trade = trade_of(site, typed, told)
    return answer_from(site, trade, trade_page(site.plan.name, trade, site.plan.units, money_of(site)))


def trade_of(site: Site, typed: TradeAsked, told: Told | None = None) -> Trade:
    """The same as a record.

    Raises:
        As `trade_site`.
    """
    limits, keys = limits_and_criteria(site, typed.limits, typed.criteria)
    asked = Asked(animals=limits.animals or USUAL_ANIMALS)
    trade = traded(weighed_at(site, typed.names, asked, told), limits, keys)
    if trade.nearest is None or not any(short.limit.criterion.key == "margin" for short in trade.nearest.shorts):
        return trade
    return replace(trade, mended=_mended(site, trade.options[trade.nearest.number].option))


@lru_cache(maxsize=8)  # other limits on the same options often have the same nearest
def _mended(site: Site, option: Option) -> tuple[Mended, ...]:
    """What would mend the worst checks that an option fails."""
    table = plan_table(site)
    changed = changed_site(site, table, option.change)
    weak = weak_of(assess(changed.layout), changed.layout, near=False)[:MENDED]
    return tuple(mended(changed.plan, weak, trials_on(changed, with_puts(table, option.change))))


def limits_and_criteria(
    site: Site, limits_typed: str, keys_typed: tuple[str, ...], known: Collection[str] = ()
) -> tuple[Limits, tuple[str, ...]]:
    """Limits, and what to trade off, as they were typed.

    Args:
        site: for its currency and units
        limits_typed: in plain words
        keys_typed: criteria by key or in words, those that are usual where there is none
        known: keys there are to trade off; all where there is none

    Raises:
        InvalidPlan: with every complaint about what cannot be read.
    """
    complaints: list[InputError] = []
    limits = Limits()
    try:
        limits = limits_of(limits_typed, prices=site.lessons.prices, system=site.plan.units)
    except InvalidPlan as refused:
        complaints += refused.problems
    keys = []
    for name in keys_typed or USUAL:
        try:
            keys.append(_one_of(key_named(name), known))
        except InputError as mistake:
            complaints.append(InputError(mistake.message, place="on"))
    if len(keys) > MOST:
        complaints.append(InputError(f"{len(keys)} criteria; at most {MOST} are traded off at once", place="on"))
    if complaints:
        raise InvalidPlan("what is asked", complaints)
    return limits, tuple(dict.fromkeys(keys))


def _one_of(key: str, known: Collection[str]) -> str:
    if known and key not in known:
        raise InputError(f"{key} is not known of all of them; there are: {', '.join(known)}")
    return key


def money_of(site: Site) -> Money:
    """How the site's money is told."""
    return Money(site.lessons.prices.currency, site.lessons.prices.digits)


@dataclass(frozen=True, kw_only=True)
class TradeShown:
    """What the page shows.

    Attributes:
        title: of the answer.
        body: the words and tables.
        picture: of the two first criteria.
        criteria: key and words of all.
        chosen: keys of those traded off.
    """

    title: str
    body: str
    picture: str
    criteria: tuple[tuple[str, str], ...]
    chosen: tuple[str, ...]


def trade_shown(folder: Path, typed: TradeAsked) -> TradeShown:
    """The same for its page.

    Raises:
        As `trade_site`.
    """
    site = open_site(folder)
    trade = trade_of(site, typed)
    money = money_of(site)
    page = trade_page(site.plan.name, trade, site.plan.units, money)
    return TradeShown(
        title=page.title, body=as_html(answer_from(site, trade, page), titled=False),
        picture=picture(trade, site.plan.units, money),
        criteria=tuple((each.key, each.says) for each in CRITERIA),
        chosen=tuple(each.key for each in trade.criteria),
    )  # fmt: skip
