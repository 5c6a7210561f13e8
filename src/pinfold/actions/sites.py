"""Opening a site folder and starting a new one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from functools import cached_property, lru_cache
from pathlib import Path
from typing import NamedTuple

from pinfold.errors import InputError, StoreError
from pinfold.logbook.carried import NOTHING, Carried
from pinfold.logbook.entries import Entry
from pinfold.plan.changes import Change
from pinfold.plan.enclosure import Enclosure
from pinfold.plan.stock import PilePiece, Prices
from pinfold.store.starting import Question
from pinfold.studies.layout.records import Layout
from pinfold.studies.lessons.records import Lessons

SILENT = ("crack", "level", "note", "photo", "plumb")
"""Kinds of entries of which none changes what is reckoned for a site; who tells of them asks the log each time."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Site:
    """A site folder as read. One is equal to itself alone, so that what was found from it can be kept by it.

    Attributes:
        folder: where it is.
        plan: what is to be built, as the builder wrote it.
        prices: what things cost here, as listed.
        pile: what is on hand, as listed.
        entries: of the log, as far as they teach the plan.
        log_told: what is wrong with the log, so that nothing of it is in any answer; empty where it could be read.
        carried: lessons carried here from other plots.
        supposed: puts what is supposed of prices and pile over what the log teaches; None for the site as it is.
    """

    folder: Path
    plan: Enclosure
    prices: Prices
    pile: tuple[PilePiece, ...]
    entries: tuple[Entry, ...] = ()
    log_told: str = ""
    carried: Carried = NOTHING
    supposed: Callable[[Lessons], Lessons] | None = None

    @property
    def cautions(self) -> tuple[str, ...]:
        """What is to be known of every answer from this site before it is used; mostly nothing."""
        return (without_log(self.log_told),) if self.log_told else ()

    @cached_property
    def lessons(self) -> Lessons:
        """What the log teaches, and plan, prices and pile by it and as supposed, worked out when first asked for."""
        from pinfold.studies.lessons.learned import learned

        taught = learned(self.plan, self.prices, self.pile, self.entries, self.carried)
        return taught if self.supposed is None else self.supposed(taught)

    @cached_property
    def layout(self) -> Layout:
        """The plan laid out with what the log teaches, worked out when first asked for."""
        from pinfold.studies.layout.resolve import lay_out

        return lay_out(self.lessons.plan)


def without_log(told: str) -> str:
    """The caution over an answer that was found without the log.

    Args:
        told: what is wrong with the log
    """
    return (
        f"The log cannot be read: {told.rstrip('.')}. Nothing learned from it is in this answer; figures are as the "
        "plan, the price list and the pile give them, else as shipped. 'pinfold log check' looks the log over, "
        "'pinfold log restore FILE' brings a backup of it back."
    )


def open_site(folder: Path) -> Site:
    """Read all files of a site folder; the same site again as long as none of them changed.

    A log that cannot be read stops no answer: the site is as if there were none, and says so in its cautions.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as the readers of all other files tell.
    """
    site = _site_at(folder.absolute(), _stamps(folder))
    try:
        file, tip = _log_tip(folder)
        return _with_log(site, file, tip) if tip else site
    except StoreError as fault:
        return _without_log(site, fault_of_log(folder, fault))


def changed_site(site: Site, table: Mapping[str, object], change: Change) -> Site:
    """The site with a change put into its plan.

    Args:
        site: whose plan is read from the table
        table: of the plan file
        change: what is written into it; nothing where it is empty

    Raises:
        InputError, InvalidPlan: it makes no plan.
    """
    from pinfold.store import planfile
    from pinfold.store.plan_put import with_puts

    return replace(site, plan=planfile.plan_of_table(with_puts(table, change))) if change else site


def as_drawn(site: Site) -> Site:
    """The same site as if nothing had been logged: kept while plan, prices and pile stay, however the log grows.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as `open_site`.
    """
    return _site_at(site.folder, _stamps(site.folder))


def site_stamps(folder: Path) -> tuple[object, ...]:
    """What changes when plan, prices, pile, or what of the log teaches, is written; none of them is read whole."""
    try:
        log: object = _log_tip(folder)
    except StoreError as fault:
        log = str(fault)
    return *_stamps(folder), log


def _stamps(folder: Path) -> tuple[object, ...]:
    """What changes when any file of the folder is written."""
    from pinfold.store import lessons_file, pile, planfile, prices
    from pinfold.store.stamps import stamp_of

    return tuple(stamp_of(folder / name) for name in (planfile.NAME, prices.NAME, pile.NAME, lessons_file.NAME))


@lru_cache(maxsize=4)
def _site_at(folder: Path, stamps: tuple[object, ...]) -> Site:  # read anew when they change
    from pinfold.store import lessons_file, pile, planfile, prices

    return Site(
        folder=folder,
        plan=planfile.read_plan(folder / planfile.NAME),
        prices=prices.read_prices(folder / prices.NAME),
        pile=pile.read_pile(folder / pile.NAME),
        carried=lessons_file.read_lessons(folder / lessons_file.NAME),
    )


@lru_cache(maxsize=4)
def _with_log(site: Site, file: int, tip: int) -> Site:
    return replace(site, entries=_entries_at(site.folder, file, tip))


@lru_cache(maxsize=4)
def _without_log(site: Site, told: str) -> Site:
    return replace(site, log_told=told)


@lru_cache(maxsize=4)
def _entries_at(folder: Path, file: int, tip: int) -> tuple[Entry, ...]:  # a log only grows: read anew when it has
    return entries_of(folder)


def entries_now(folder: Path) -> tuple[Entry, ...]:
    """`entries_of`, kept as long as nothing is added to the log that may teach.

    Raises:
        StoreError, NewerFileError: the log cannot be read.
    """
    file, tip = _log_tip(folder)
    return _entries_at(folder.absolute(), file, tip) if tip else ()


class Logged(NamedTuple):
    """What is at hand of the log.

    Attributes:
        entries: that teach the plan.
        told: what is wrong with the log, where none could be read; else empty.
    """

    entries: tuple[Entry, ...]
    told: str


def logged_now(folder: Path) -> Logged:
    """`entries_now`, or none of them and what is wrong where the log cannot be read."""
    try:
        return Logged(entries_now(folder), "")
    except StoreError as fault:
        return Logged((), fault_of_log(folder, fault))


def fault_of_log(folder: Path, fault: StoreError) -> str:
    """What is wrong with the log of a folder, without saying where the folder lies."""
    from pinfold.store.log_file import NAME

    return str(fault).replace(str(folder / NAME), NAME)


def _log_tip(folder: Path) -> tuple[int, int]:
    """Number of the log's file, another one once a backup was brought back, and place of its last entry; 0 for none.

    Entries of kinds that nothing is reckoned from are passed over: a site with another note is the same site.
    """
    from pinfold.store.log import open_log
    from pinfold.store.log_file import NAME, identity, in_plain_words

    path = folder / NAME
    with in_plain_words(path):
        file = identity(path)
    if file is None:
        return 0, 0
    with open_log(folder) as log:
        return file[1], log.tip(without=SILENT)


def entries_of(folder: Path) -> tuple[Entry, ...]:
    """The entries that teach the plan, those that stand, the newest of each kind; none where there is no log.

    Raises:
        StoreError, NewerFileError: the log cannot be read.
    """
    from pinfold.store.log import open_log
    from pinfold.studies.lessons.learned import TEACHING

    with open_log(folder) as log:
        return tuple(
            entry for kind, most in TEACHING.items() for entry in log.entries(kind=kind, standing=True, limit=most)
        )


def start_site(folder: Path, sample: str | None, answers: Mapping[str, str]) -> tuple[Path, ...]:
    """Start a site folder, from a sample or from a few answers.

    Args:
        folder: to make; it must not hold a plan yet
        sample: name of a sample, or None
        answers: key and text for the start plan, see `store.starting.QUESTIONS`

    Returns:
        the files written

    Raises:
        InputError: the folder holds a plan already, or a sample is to be started and answers are given too.
        NotFoundError: no such sample.
        InvalidPlan: answers that make no plan.
        StoreError: the folder cannot be written.
    """
    from pinfold.store import starting

    if sample and answers:
        flags = ", ".join(f"--{key}" for key in answers)
        raise InputError(f"a sample is written as it is; take {flags} out, or start without --sample")
    if not sample:
        return starting.from_answers(folder, answers)
    today = datetime.now().astimezone().date()  # the builder's own day: the sample's invented forecast begins then
    return starting.from_sample(folder, sample, today=today)


def fault_of(key: str, answers: Mapping[str, str]) -> InputError | None:
    """What is wrong with the answer under one key; None where nothing is."""
    from pinfold.store import starting

    return starting.fault_of(key, answers)


def questions() -> tuple[Question, ...]:
    """What is asked when a plan is started."""
    from pinfold.store.starting import QUESTIONS

    return QUESTIONS
