"""Which sheet gives which parts and which roll goes where, on a site."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.cut_pieces import cut_so_far, parts_by_mark, yard_of
from pinfold.actions.sites import Site, open_site
from pinfold.reports.cut_flat import rolls_page, sheets_page
from pinfold.studies.cutting.roll_records import RollOrder, RollPlan
from pinfold.studies.cutting.rolls import unroll
from pinfold.studies.cutting.sheet_records import SheetOrder, SheetPlan
from pinfold.studies.cutting.sheets import cut_sheets
from pinfold.studies.parts.flat import roll_orders, sheet_orders
from pinfold.studies.parts.flat_cut import FlatCut, rolls_cut, sheets_cut

SECONDS = 10.0
"""That each sort of sheet or roll may take, unless told otherwise."""
Told = Callable[[int, int], None]


@dataclass(frozen=True, kw_only=True)
class FlatAnswer:
    """Sheets or rolls.

    Attributes:
        found: each sort by itself.
        money: what all new ones cost.
        bound: no plan costs less.
    """

    found: tuple[FlatCut, ...]
    money: int
    bound: int


def sheets_site(folder: Path, *, seconds: float = SECONDS) -> Answer:
    """Which sheet gives which parts.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    found = sheets_of(site, seconds=seconds)
    page = sheets_page(
        site.plan.name, found, parts_by_mark(site), prices=site.lessons.prices, system=site.plan.units
    )  # fmt: skip
    return answer_from(site, _answer(found), page)


def rolls_site(folder: Path, *, seconds: float = SECONDS) -> Answer:
    """Which roll goes where.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    found = rolls_of(site, seconds=seconds)
    page = rolls_page(site.plan.name, found, parts_by_mark(site), prices=site.lessons.prices, system=site.plan.units)
    return answer_from(site, _answer(found), page)


def _answer(found: tuple[FlatCut, ...]) -> FlatAnswer:
    return FlatAnswer(
        found=found, money=sum(each.money for each in found), bound=sum(each.bound for each in found)
    )  # fmt: skip


@lru_cache(maxsize=8)
def sheets_of(site: Site, *, seconds: float = SECONDS) -> tuple[FlatCut, ...]:
    """All sheets of a site, cut."""
    orders = sheet_orders(cut_so_far(site).left, yard_of(site, site.plan.cutting))
    plans = [_sheets(each.sheets, seconds) for each in orders if each.sheets is not None]
    return sheets_cut(orders, plans, site.plan.units)


@lru_cache(maxsize=8)
def rolls_of(site: Site, *, seconds: float = SECONDS) -> tuple[FlatCut, ...]:
    """All rolls of a site, cut."""
    orders = roll_orders(site.layout, yard_of(site, site.plan.cutting), cut=cut_so_far(site).cut)
    plans = [_rolls(each.rolls, seconds) for each in orders if each.rolls is not None]
    return rolls_cut(orders, plans, site.plan.units)


@lru_cache(maxsize=32)
def _sheets(order: SheetOrder, seconds: float) -> SheetPlan:
    return cut_sheets(order, seconds=seconds)


@lru_cache(maxsize=32)
def _rolls(order: RollOrder, seconds: float) -> RollPlan:
    return unroll(order, seconds=seconds)
