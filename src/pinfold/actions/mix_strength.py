"""How strong a mix is at an age: what was thought, what the site's own tests made of it, and the tests themselves."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.sites import Site, open_site
from pinfold.errors import InputError, NotFoundError, OutOfRangeError
from pinfold.reports.mix_strength import StrengthTold, strength_page, strengths_page
from pinfold.reports.strength_chart import chart, points
from pinfold.studies.batching.cards import is_mix
from pinfold.studies.lessons.applying import taught_kind
from pinfold.studies.lessons.rivals import rivals_at
from pinfold.studies.lessons.strength_prior import DAY, DAYS_28
from pinfold.studies.lessons.strengths import strength_at
from pinfold.studies.quantities.take_off import take_off
from pinfold.tables.shelf import Kind, kind, shelf
from pinfold.units import SECOND, Second, read

AGES: tuple[Second, ...] = tuple(days * DAY for days in (1, 3, 7, 14, 28, 56, 90, 365))
"""Ages that are told of every mix."""
_LEAST, _MOST = 3600.0, 100 * 365 * DAY


@dataclass(frozen=True, kw_only=True)
class StrengthForm:
    """The form of a question after strength.

    Attributes:
        mix: that is chosen; empty for all.
        mixes: to choose from, those of the plan and those tried first.
        at: the age as typed.
        wrong: what is wrong with it; empty when nothing is.
    """

    mix: str
    mixes: tuple[str, ...]
    at: str
    wrong: str


def mix_strength(folder: Path, mix: str, at: str) -> Answer:
    """How strong the mixes of the plan and those that were tried are, or one mix at several ages.

    Args:
        folder: of the site; its log counts
        mix: name of a mix; empty for all of the plan and all that were tried
        at: an age as text, such as `7 d`; empty for 28 days

    Raises:
        NotFoundError: no such mix, or nothing is known of its strength.
        InputError: the age cannot be read or cannot be.
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site, age = open_site(folder), _age(at)
    if mix:
        told = _one(site, mix, age)
        return answer_from(site, told, strength_page(told, site.plan.units))
    all_told = tuple(each for name in _used(site) if (each := _perhaps(site, name, age)) is not None)
    return answer_from(site, all_told, strengths_page(all_told, age, site.plan.units))


def strength_picture(folder: Path, mix: str) -> str:
    """One mix's curve with its band, its tests and what was thought before, as an SVG for the middle of a page.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as `mix_strength`.
    """
    site = open_site(folder)
    of = _mix(site, mix)
    readings = site.lessons.strengths.readings.get(of.name, ())
    return chart(
        points(lambda age: strength_at(of, age, site.lessons), readings), readings, site.plan.units
    )  # fmt: skip


def strength_form(folder: Path, mix: str, at: str, wrong: str) -> StrengthForm:
    """The form with what was typed and what is wrong with it.

    Raises:
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    used = _used(open_site(folder))
    return StrengthForm(mix=mix, mixes=tuple(dict.fromkeys([*used, *shelf("mixes")])), at=at, wrong=wrong)


def strengths_told(site: Site) -> tuple[StrengthTold, ...]:
    """Every mix of the plan and every one that was tried, at 28 days."""
    return tuple(each for name in _used(site) if (each := _perhaps(site, name, DAYS_28)) is not None)


def _age(at: str) -> Second:
    if not at:
        return DAYS_28
    age = read(at, like=SECOND, place="--at")
    if not _LEAST <= age <= _MOST:
        raise InputError(f"{at!r} is no age of a mix; from an hour to a hundred years is wanted", place="--at")
    return age


def _used(site: Site) -> tuple[str, ...]:
    """Mixes of the plan, then those that were tried."""
    planned = sorted({line.kind.name for line in take_off(site.layout) if is_mix(line)})
    return tuple(dict.fromkeys([*planned, *site.lessons.strengths.readings]))


def _mix(site: Site, name: str) -> Kind:
    return taught_kind(kind("mixes", name), site.lessons.figures)


def _perhaps(site: Site, name: str, age: Second) -> StrengthTold | None:
    """One mix; None for what carries nothing."""
    try:
        return _one(site, name, age)
    except (NotFoundError, OutOfRangeError):
        return None


def _one(site: Site, name: str, age: Second) -> StrengthTold:
    of = _mix(site, name)
    return StrengthTold(
        mix=of.name,
        says=of.says,
        asked=strength_at(of, age, site.lessons),
        ages=tuple(strength_at(of, each, site.lessons) for each in sorted({*AGES, age})),
        readings=site.lessons.strengths.readings.get(of.name, ()),
        rivals=rivals_at(of, age),
    )
