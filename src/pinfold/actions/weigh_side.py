"""Which build-up to choose: all of them side by side, and one of them with its working."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlencode

from pinfold.actions.answers import Answer, answer_from, as_folded, as_html
from pinfold.actions.sites import Site, open_site
from pinfold.actions.weigh_options import Told, options_at, weighed_at
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.reports.pages import Block, Heading, Page
from pinfold.reports.weigh_options import open_parts, option_page, weigh_page
from pinfold.studies.weighing.catalog import height_of
from pinfold.studies.weighing.limits import key_named
from pinfold.studies.weighing.records import CRITERIA
from pinfold.studies.weighing.subject import USUAL_ANIMALS, USUAL_YEARS, Asked, animals_known
from pinfold.studies.weighing.weighing import Weighing, in_order
from pinfold.tables.shelf import kind

_MOST_YEARS = 200
_LONGEST = 40


@dataclass(frozen=True, kw_only=True)
class WeighAsked:
    """What is asked, as typed; what is empty is as usual.

    Attributes:
        names: of build-ups, all where there is none.
        by: the criterion to sort by, its key or in words.
        animals: names, with commas between.
        years: to look over.
    """

    names: tuple[str, ...] = ()
    by: str = ""
    animals: str = ""
    years: str = ""


def weigh_site(folder: Path, typed: WeighAsked, *, working: bool = False, told: Told | None = None) -> Answer:
    """The enclosure in several build-ups, side by side.

    Args:
        folder: site folder
        typed: what is asked
        working: whether each option stands with all its working, too
        told: of the progress

    Raises:
        InvalidPlan: what is asked cannot be read, with every complaint at once.
        NotFoundError: there is no build-up of a name.
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    weighing = weighing_of(site, typed, told)
    page = weigh_page(weighing, site.plan.units)
    if working:
        page = Page(title=page.title, blocks=(*page.blocks, *_worked(site, weighing)))
    return answer_from(site, weighing, page)


def _worked(site: Site, weighing: Weighing) -> tuple[Block, ...]:
    pages = (option_page(weighing, each, site.plan.units) for each in weighing.options)
    return tuple(block for page in pages for block in (Heading(text=page.title), *page.blocks))


def weighing_of(site: Site, typed: WeighAsked, told: Told | None = None) -> Weighing:
    """The same as a record.

    Raises:
        As `weigh_site`.
    """
    asked, by = _asked(typed)
    prices = site.lessons.prices
    return Weighing(
        name=site.plan.name, length=site.layout.length, height=height_of(site.plan), years=asked.years,
        animals=asked.animals, people=site.plan.people.count, currency=prices.currency, digits=prices.digits,
        sorted_by=by, options=in_order(weighed_at(site, typed.names, asked, told), by),
    )  # fmt: skip


def _asked(typed: WeighAsked) -> tuple[Asked, str]:
    """What was typed, read, and the key of the criterion to sort by; empty where none is named.

    Raises:
        InvalidPlan: with every complaint at once.
    """
    wrong: list[InputError] = []
    by = ""
    try:
        by = key_named(typed.by[:_LONGEST]) if typed.by else ""
    except InputError as mistake:
        wrong.append(InputError(mistake.message, place="by"))
    animals = _animals(typed.animals)
    strange = [name for name in animals if name not in animals_known()]
    if strange:
        told = f"{', '.join(map(repr, strange))[:80]} found; what is known of: {', '.join(animals_known())}"
        wrong.append(InputError(told, place="animals"))
    years = typed.years or str(USUAL_YEARS)
    if not years.isdecimal() or not 1 <= int(years[:6]) <= _MOST_YEARS:
        wrong.append(InputError(f"{years[:20]!r} found; whole years from 1 to {_MOST_YEARS} are wanted", place="years"))
    if wrong:
        raise InvalidPlan("what is asked", wrong)
    return Asked(years=int(years), animals=animals), by


def _animals(text: str) -> tuple[str, ...]:
    """Names as written, `small dog` as well as `small-dog`, in singular; `none` for no animal."""
    if not text:
        return USUAL_ANIMALS
    if text.strip().lower() == "none":
        return ()
    return tuple(dict.fromkeys(_named(each.strip().lower()) for each in text.split(",") if each.strip()))


def _named(word: str) -> str:
    hyphened = word.replace(" ", "-")
    return hyphened if hyphened in animals_known() else hyphened.removesuffix("s")


@dataclass(frozen=True, kw_only=True)
class WeighShown:
    """What the page shows.

    Attributes:
        title: of the answer.
        body: the tables.
        criteria: key and words of all that can be sorted by.
        animals: name, words and whether it is asked about, of all that are known.
        years: looked over.
        by: what it is sorted by.
        names: build-ups there are.
        chosen: of them, those shown.
        again: address of the same question, to which another order is put.
    """

    title: str
    body: str
    criteria: tuple[tuple[str, str], ...]
    animals: tuple[tuple[str, str, bool], ...]
    years: int
    by: str
    names: tuple[str, ...]
    chosen: tuple[str, ...]
    again: str


def weigh_shown(folder: Path, typed: WeighAsked) -> WeighShown:
    """The same for its page.

    Raises:
        As `weigh_site`.
    """
    site = open_site(folder)
    weighing = weighing_of(site, typed)
    answer = answer_from(site, weighing, weigh_page(weighing, site.plan.units, link=_link(typed)))
    return WeighShown(
        title=answer.page.title, body=as_folded(answer, unfolded=open_parts(weighing)), years=weighing.years,
        by=weighing.sorted_by,
        criteria=tuple((each.key, each.says) for each in CRITERIA), chosen=typed.names,
        animals=tuple((name, kind("passers", name).says, name in weighing.animals) for name in animals_known()),
        names=tuple(each.name for each in options_at(site)), again=f"/weigh?{_question(typed, typed.names)}",
    )  # fmt: skip


def _link(typed: WeighAsked) -> str:
    """Address of one option, whose name is put behind it."""
    return f"/weigh/option?{_question(typed, ('',))}"


def _question(typed: WeighAsked, names: tuple[str, ...]) -> str:
    """What was asked, as it stands in an address; names last."""
    asked = [("years", typed.years), ("animals", typed.animals), *(("name", name) for name in names)]
    return urlencode(asked)


def option_shown(folder: Path, name: str, typed: WeighAsked) -> tuple[str, str]:
    """Title and body of one option with its working.

    Raises:
        As `weigh_site`.
    """
    site = open_site(folder)
    weighing = weighing_of(site, typed)
    each = next((found for found in weighing.options if found.option.name == name), None)
    if each is None:
        raise NotFoundError(f"no build-up called {name[:60]!r} is weighed here")
    answer = answer_from(site, each, option_page(weighing, each, site.plan.units))
    return answer.page.title, as_html(answer, titled=False)
