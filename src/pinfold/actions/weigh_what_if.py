"""What if: prices, wind, ways, people or pile were otherwise."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import Site, changed_site, open_site
from pinfold.actions.weigh_options import (
    judged_if_built,
    options_at,
    own_pace,
    plan_table,
    sized,
    subject_of,
)
from pinfold.actions.weigh_trade import money_of
from pinfold.errors import InputError, InvalidPlan
from pinfold.plan.changes import Change
from pinfold.reports.weigh_what_if import what_if_page
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.weighing.catalog import AS_PLANNED, chosen
from pinfold.studies.weighing.records import Option, Weighed
from pinfold.studies.weighing.subject import Asked, Subject
from pinfold.studies.weighing.supposing import Suppositions, WhatIf
from pinfold.studies.weighing.what_if import Supposed, pile_with, plan_with, prices_with, together
from pinfold.studies.weighing.what_if_words import EXAMPLES, Understood, supposed_of


def what_if(folder: Path, texts: Sequence[str], names: Sequence[str] = ()) -> Answer:
    """The plan, and options of some names, before and after each thing supposed and all of it together.

    Args:
        folder: site folder
        texts: what is supposed, such as `cement +20 %`
        names: of options beside the plan as it stands

    Raises:
        InvalidPlan: with every complaint about what is supposed.
        NotFoundError: there is no build-up of a name.
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    found = supposed_at(site, tuple(texts), tuple(names))
    return answer_from(site, found, what_if_page(site.plan.name, found, site.plan.units, money_of(site)))


SHOWN = 4
"""Lines of the form that are empty at first."""


def what_if_title(folder: Path) -> str:
    """Title of the page, before anything is supposed.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    return f"{open_site(folder).plan.name}: what if"


def supposed_at(site: Site, texts: tuple[str, ...], names: tuple[str, ...]) -> Suppositions:
    """The same as a record.

    Raises:
        As `what_if`.
    """
    told = [text for text in texts if text.strip()]
    if not told:
        raise InvalidPlan("what if", [InputError(f"nothing is supposed; write something like {EXAMPLES}")])
    each, lacking = _read(site, told)
    options = tuple(sized(site, each) for each in chosen(options_at(site), names or (AS_PLANNED,)))
    every = (*each, together(each)) if len(each) > 1 else each
    return Suppositions(
        before=_judged(site, options, None),
        each=tuple(WhatIf(one.says, _judged(site, options, one)) for one in every),
        lacking=lacking,
    )


def _read(site: Site, texts: Sequence[str]) -> Understood:
    kinds = dict.fromkeys(line.kind for line in reckon_all(site).gathered.lines)
    return supposed_of(texts, plan=site.plan, prices=site.lessons.prices, items=kinds)


def that_can_be(site: Site, texts: Sequence[str]) -> tuple[str, ...]:
    """Those of some things that can be supposed at a site: nobody's price moves without such goods in the plan."""
    found = []
    for text in texts:
        with suppress(InvalidPlan):
            _read(site, (text,))
            found.append(text)
    return tuple(found)


@lru_cache(maxsize=64)
def _judged(site: Site, options: tuple[Option, ...], supposed: Supposed | None) -> tuple[Weighed, ...]:
    """Options judged with something supposed of each."""
    table, pace = plan_table(site), own_pace(site)

    def subject(change: Change) -> Subject:
        changed = changed_site(site, table, change)
        return subject_of(changed if supposed is None else with_supposed(changed, supposed), pace)

    return tuple(judged_if_built(subject, option, Asked()) for option in options)


def with_supposed(site: Site, supposed: Supposed) -> Site:
    """The site as supposed: another plan, and prices and pile put over what the log teaches."""
    counted = reckon_all(site)
    kinds = tuple(dict.fromkeys(line.kind for line in counted.gathered.lines))

    def over(taught: Lessons) -> Lessons:
        prices = prices_with(taught.prices, site.plan, kinds, supposed)
        pile = pile_with(taught.pile, counted.gathered, counted.parts, supposed)
        return replace(taught, prices=prices, pile=pile, pile_whole=pile)

    return replace(site, plan=plan_with(site.plan, supposed), supposed=over)
