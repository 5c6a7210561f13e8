"""Two plans compared: this site's and that of another folder or file."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.sites import Site, open_site
from pinfold.actions.weigh_options import own_pace, subject_of
from pinfold.actions.weigh_trade import money_of
from pinfold.errors import InputError, InvalidPlan, NotFoundError, OutOfRangeError
from pinfold.reports.weigh_plans import plans_page
from pinfold.store import planfile
from pinfold.studies.weighing.between import differences
from pinfold.studies.weighing.judging import judged
from pinfold.studies.weighing.plans import PlansCompared
from pinfold.studies.weighing.records import CRITERIA, Option, Shown, Weighed, not_shown
from pinfold.studies.weighing.subject import Asked, Subject
from pinfold.studies.weighing.trading import TOLD_CRITERIA

_MONEY = (Shown.MONEY, Shown.MONEY_PER_LENGTH)


def compare_plans(folder: Path, other: Path) -> Answer:
    """This site's plan and another on every criterion.

    A plan file by itself is counted with this site's prices, pile and log; another site folder with its own.

    Args:
        folder: site folder
        other: site folder or plan file

    Raises:
        NotFoundError: there is no such folder or file.
        StoreError, NewerFileError, InvalidPlan: as reading the sites tells.
    """
    site = open_site(folder)
    found = plans_compared(site, _other(site, other))
    return answer_from(site, found, plans_page(found, site.plan.units, money_of(site)))


def plans_title(folder: Path) -> str:
    """Title of the page, before another plan is named.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    return f"{open_site(folder).plan.name}: beside another plan"


def other_plans(folder: Path) -> tuple[str, ...]:
    """Plan files in a site folder beside its own, such as `plan-before.toml`."""
    return tuple(sorted(path.name for path in folder.glob("plan-*.toml") if path.is_file()))


def _other(site: Site, path: Path) -> Site:
    if path.is_dir():
        return open_site(path)
    if not path.is_file():
        raise NotFoundError(f"no site folder and no plan file called {path.name!r} is there")
    return replace(site, plan=planfile.read_plan(path))


def plans_compared(site: Site, other: Site) -> PlansCompared:
    """The same as a record.

    Raises:
        InvalidPlan: one of them cannot be laid out.
    """
    pace = own_pace(site)
    one, two = subject_of(site, pace), subject_of(other, own_pace(other))
    names = _names(site, other)
    this, that = _judged(one, names[0]), _judged(two, names[1])
    notes = []
    here, there = site.lessons.prices.currency, other.lessons.prices.currency
    if here != there:
        that = _without_money(that, f"its prices are in {there or 'no currency'}, these in {here or 'none'}")
        notes.append(f"Money is NOT SHOWN of {names[1]}: its prices are in {there or 'no currency'}")
    if abs(one.layout.length - two.layout.length) > _SAME * one.layout.length:
        notes.append("They are not equally long: what is told for a length compares better")
    criteria = (*TOLD_CRITERIA, *(each for each in CRITERIA if each.shown is Shown.MONEY_PER_LENGTH))
    return PlansCompared(
        one=this, other=that, one_length=one.layout.length, other_length=two.layout.length,
        differences=differences(this, that, criteria), notes=tuple(notes),
    )  # fmt: skip


_SAME = 0.01


def _names(site: Site, other: Site) -> tuple[str, str]:
    """Names of both, told apart where they are alike."""
    one, two = site.plan.name, other.plan.name
    return (one, two) if one != two else (one, f"{two}, the other")


def _judged(subject: Subject, name: str) -> Weighed:
    try:
        return judged(Option(name=name, says=name, change=()), subject, Asked())
    except (InputError, OutOfRangeError) as refused:
        raise InvalidPlan(name, [InputError(str(refused))]) from None


def _without_money(weighed: Weighed, because: str) -> Weighed:
    keys = [each.key for each in CRITERIA if each.shown in _MONEY]
    return replace(weighed, scores={**weighed.scores, **{key: not_shown(because) for key in keys}})
