"""Which piece gives which parts, on a site."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.sites import Site, open_site
from pinfold.errors import InputError, NotFoundError, QuantityError
from pinfold.plan.cutting import MOST, Cutting
from pinfold.reports.cut_pieces import pieces_page
from pinfold.studies.cutting.carrying import carried, left_of, mended
from pinfold.studies.cutting.lengths import cut_lengths
from pinfold.studies.cutting.records import CutOrder, CutPlan
from pinfold.studies.parts.done import Progress, progress
from pinfold.studies.parts.following import moments
from pinfold.studies.parts.listing import parts
from pinfold.studies.parts.orders import SectionOrder, Yard, section_orders
from pinfold.studies.parts.sawn import Planned, SectionCut, places_cut, sections_cut
from pinfold.studies.quantities.records import Part
from pinfold.units import METER, System, read, tape

SECONDS = 20.0
"""That all sections together may take, unless told otherwise."""
_LEAST = 1.0


@dataclass(frozen=True, kw_only=True)
class CutAsked:
    """What is asked, as typed.

    Attributes:
        section: name of one; all where empty.
        kerf: of the saw, over the plan's.
        keep: shortest offcut worth keeping, over the plan's.
        trim: off raw ends, over the plan's.
        seconds: that the search may take.
    """

    section: str = ""
    kerf: str = ""
    keep: str = ""
    trim: str = ""
    seconds: float = SECONDS


@dataclass(frozen=True, kw_only=True)
class PiecesAnswer:
    """Which piece gives which parts.

    Attributes:
        sections: each by itself.
        money: what all new lengths cost.
        bound: no plan costs less.
    """

    sections: tuple[SectionCut, ...]
    money: int
    bound: int


def asked_as(typed: Mapping[str, str]) -> CutAsked:
    """What is asked, out of the boxes of a form."""
    return CutAsked(section=typed["section"], kerf=typed["kerf"], keep=typed["keep"], trim=typed["trim"])


Told = Callable[[int, int], None]


def cut_pieces(folder: Path, asked: CutAsked, *, told: Told | None = None) -> Answer:
    """The cut plan of all lengths.

    Args:
        folder: of the site
        asked: as typed
        told: hears how far it is: sections done, sections in all

    Raises:
        NotFoundError: no such section.
        InputError: a length that is none.
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    cutting = cutting_of(site, asked)
    sections = pieces_of(site, asked, told=told)
    record = PiecesAnswer(
        sections=sections, money=sum(each.money for each in sections), bound=sum(each.bound for each in sections)
    )
    page = pieces_page(
        site.plan.name, sections, parts_by_mark(site), prices=site.lessons.prices, cutting=cutting,
        system=site.plan.units, told=told_first(site),
    )  # fmt: skip
    return answer_from(site, record, page)


def parts_by_mark(site: Site) -> Mapping[str, Part]:
    """The part list by its marks."""
    return {part.mark: part for part in parts(site.layout)}


def pieces_of(site: Site, asked: CutAsked, *, told: Told | None = None) -> tuple[SectionCut, ...]:
    """The sections that are asked for, cut."""
    found = _all_cut(site, cutting_of(site, asked), asked.seconds, told)
    if not asked.section:
        return found
    wanted = tuple(each for each in found if asked.section in (each.section, each.says))
    if not wanted:
        names = ", ".join(each.section for each in found) or "none"
        raise NotFoundError(f"nothing is cut from {asked.section!r}; there are {names}")
    return wanted


def cutting_of(site: Site, asked: CutAsked) -> Cutting:
    """The plan's saw and habits with what is asked over them.

    Raises:
        InputError: a length that is none.
    """
    typed = {key: getattr(asked, key).strip() for key in ("kerf", "keep", "trim")}
    changes = {key: _length(key, text, site.plan.units) for key, text in typed.items() if text}
    return replace(site.plan.cutting, **changes)  # type: ignore[arg-type]  # lengths all of them


def _length(key: str, text: str, system: System) -> float:
    try:
        value = read(text, like=METER)
    except QuantityError as mistake:
        raise InputError(mistake.message, place=key) from None
    if not 0 <= value <= MOST[key]:
        raise InputError(f"{text!r} found; a length from 0 to {tape(MOST[key], system)} is wanted", place=key)
    return value


def _all_cut(site: Site, cutting: Cutting, seconds: float, told: Told | None) -> tuple[SectionCut, ...]:
    """The plan as it was when cutting began, carried on from moment to moment, so that what is cut as planned changes
    no other piece."""
    plans: dict[str, Planned] = {}
    before: list[Planned] = []
    for moment in moments(site.entries, site.lessons.pile_first):
        left = progress(parts(site.layout), moment.cuts).left
        orders = section_orders(left, replace(yard_of(site, cutting), pile=moment.pile))
        limit, known = max(seconds / max(len(orders), 1), _LEAST), plans
        plans = {}
        for number, order in enumerate(orders):
            if told is not None:
                told(number, len(orders))
            plans[order.section] = order, _carried_on(order, known.get(order.section), moment.pieces, limit)
        before += plans.values()
    return sections_cut(tuple(plans.values()), site.plan.units, before=before)


def _carried_on(order: SectionOrder, before: Planned | None, cut: Counter[str], limit: float) -> CutPlan:
    """What is left of a plan, mended where it lacks something; a new one where that is better, or there was none."""
    if before is None or before[0].order == order.order:
        return _plan(order.order, limit) if before is None else before[1]
    left = carried(before[1], places_cut(*before, cut), order.order)
    if left.as_planned and cut:
        return left_of(before[1], left.patterns, order.order)
    lacking = () if left.lacking is None else _plan(left.lacking, limit).patterns
    return mended((*left.patterns, *lacking), _plan(order.order, limit))


@lru_cache(maxsize=64)  # pages, labels and binder ask for the same sections
def _plan(order: CutOrder, limit: float) -> CutPlan:
    return cut_lengths(order, limit=limit)


@lru_cache(maxsize=8)
def orders_of(site: Site, cutting: Cutting) -> tuple[SectionOrder, ...]:
    """An order for each section of a site, with its pile and prices as the log left them."""
    return section_orders(cut_so_far(site).left, yard_of(site, cutting))


@lru_cache(maxsize=4)
def cut_so_far(site: Site) -> Progress:
    """The part list less what the log says is cut."""
    return progress(parts(site.layout), site.entries)


def told_first(site: Site) -> tuple[str, ...]:
    """What is to be known before anything is cut: cuts that fit no more, and entries of the pile that are not used."""
    unused = (text for text in site.lessons.set_aside if text.startswith("pile:"))
    return (*cut_so_far(site).told, *(f"Not used: {text}." for text in unused))


def yard_of(site: Site, cutting: Cutting) -> Yard:
    """What parts are cut from: pile and prices as the log left them."""
    taught = site.lessons
    return Yard(
        pile=taught.pile, prices=taught.prices.by_item, cutting=cutting, mixing=taught.mixing, system=site.plan.units
    )


def section_names(folder: Path) -> tuple[tuple[str, str], ...]:
    """Sections that can be asked for: name, what it is."""
    site = open_site(folder)
    return tuple((order.section, order.says) for order in orders_of(site, site.plan.cutting))
