"""Carrying lessons from other site folders to this one, and starting one with them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from pinfold.actions.sites import Site, entries_now, open_site, start_site
from pinfold.errors import InputError
from pinfold.logbook.carried import NOTHING, Carried, CarriedSite
from pinfold.logbook.works import named_works
from pinfold.studies.lessons.carried import each_once
from pinfold.studies.lessons.choosing import SAYS, USUAL, Going, packed
from pinfold.studies.lessons.learned import TEACHING
from pinfold.studies.lessons.records import Topic

ALL_WORK = "all work"
"""What hours are of that say nothing of it."""


@dataclass(frozen=True, kw_only=True)
class Started:
    """A site folder that was started.

    Attributes:
        written: its files.
        told: what was carried there and what was not.
    """

    written: tuple[Path, ...]
    told: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Brought:
    """Lessons of other folders, read and not yet written.

    Attributes:
        sites: each place once.
        told: what goes along and what stays.
    """

    sites: tuple[CarriedSite, ...]
    told: tuple[str, ...]


def choices() -> tuple[tuple[str, str, bool], ...]:
    """What may go along: its word, what it is, and whether it does unless told."""
    return tuple((each.value, SAYS[each], each in USUAL) for each in Going)


def bring(folders: Sequence[Path], words: Iterable[str] = ()) -> Brought:
    """Read what other site folders have to give; nothing is written.

    Args:
        folders: of sites
        words: what is to go along, as `choices` has them; the usual when there are none

    Raises:
        InputError: a word that is none of them.
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the folders tells.
    """
    going = _going(words)
    sites: list[CarriedSite] = []
    told: list[str] = []
    for folder in folders:
        site = open_site(folder)
        found = packed(
            site.plan.name, site.lessons, _ids(folder), going=going, layers=_layers(site)
        )  # fmt: skip
        sites += [each for each in (*site.carried.sites, found.site) if each.figures or each.prices]
        told += [_goes(found.site), *(f"stays: {why}" for why in found.left)]
        told += [f"goes on from there: what was learned at {each.name}" for each in site.carried.sites]
    once, left = each_once(sites)
    return Brought(sites=once, told=(*dict.fromkeys(told), *left))


def _going(words: Iterable[str]) -> tuple[Going, ...]:
    typed = tuple(words)
    wrong = [word for word in typed if word not in list(Going)]
    if wrong:
        raise InputError(f"{wrong[0]!r} found; any of {', '.join(Going)} is wanted", place="carry")
    return tuple(Going(word) for word in typed) or USUAL


def _ids(folder: Path) -> tuple[str, ...]:
    """Of all that ever taught there, so that an entry corrected since is known again."""
    from pinfold.store.log import open_log

    entries_now(folder)  # told plainly where the log cannot be read
    with open_log(folder) as log:
        return tuple(entry.id for kind in TEACHING for entry in log.entries(kind=kind))


def _layers(site: Site) -> frozenset[str]:
    """Words for work that pinfold knows itself."""
    paces = (lesson.subject for lesson in site.lessons.about(Topic.PACE))
    return frozenset({ALL_WORK, *(subject for subject in paces if named_works(subject))})


_BY = {"m": " by the meter", "m2": " by the square meter", "each": " by the piece"}


def _goes(site: CarriedSite) -> str:
    if not site.figures and not site.prices:
        return f"{site.name}: its log has nothing to give yet"
    names = [f"{each.topic} of {each.subject}{_BY.get(each.per, '')} ({each.count})" for each in site.figures]
    names += [f"price of {each.price.item}" for each in site.prices]
    return f"from {site.name} goes along: {'; '.join(names)}"


def start_with_lessons(
    folder: Path, sample: str | None, answers: Mapping[str, str], others: Sequence[Path], going: Iterable[str] = ()
) -> Started:  # fmt: skip
    """Start a site folder with lessons of others; nothing is written where those cannot be read.

    Args:
        folder: to make
        sample: name of a sample, or None
        answers: as of `start_site`
        others: folders that lessons come from
        going: what is to go along, as of `bring`

    Raises:
        InputError, NotFoundError, InvalidPlan, StoreError, NewerFileError: as `start_site` and `bring`.
    """
    brought = bring(others, going)
    written = start_site(folder, sample, answers)
    if not others:
        return Started(written=written, told=())
    file, told = _put(folder, brought)
    return Started(written=(*written, file), told=told)


def carry_here(folder: Path, others: Sequence[Path], going: Iterable[str] = ()) -> Started:
    """Carry lessons of other folders into a site that stands; what was carried already is brought up to date.

    Args:
        folder: of the site
        others: folders that lessons come from
        going: what is to go along, as of `bring`

    Raises:
        InputError: a folder is the site itself, or as `bring`.
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the folders and writing the file tell.
    """
    if any(other.resolve() == folder.resolve() for other in others):
        raise InputError("a plot's own log teaches it already; name another site folder")
    open_site(folder)
    file, told = _put(folder, bring(others, going))
    return Started(written=(file,), told=told)


def _put(folder: Path, brought: Brought) -> tuple[Path, tuple[str, ...]]:
    from pinfold.store import lessons_file

    path = folder / lessons_file.NAME
    there = lessons_file.read_lessons(path)
    sites, told = each_once((*there.sites, *brought.sites))
    carried = Carried(alike=there.alike if there is not NOTHING else NOTHING.alike, sites=sites)
    lessons_file.write_lessons(path, carried)
    return path, (*brought.told, *told, *_other_money(folder, carried))


def _other_money(folder: Path, carried: Carried) -> tuple[str, ...]:
    site = replace(open_site(folder), carried=carried)
    here = site.prices.currency
    return tuple(
        f"prices of {each.name} are in {each.currency or 'no currency'}, here it is {here or 'none'}: they do not count"
        for each in carried.sites if each.prices and each.currency != here
    )  # fmt: skip
