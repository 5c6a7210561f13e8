"""Opening a site folder and starting a new one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from pathlib import Path

from pinfold.plan.enclosure import Enclosure
from pinfold.plan.stock import PilePiece, Prices
from pinfold.store.starting import Question
from pinfold.studies.layout.records import Layout


@dataclass(frozen=True, kw_only=True, eq=False)
class Site:
    """A site folder as read. One is equal to itself alone, so that what was found from it can be kept by it.

    Attributes:
        folder: where it is.
        plan: what is to be built.
        prices: what things cost here.
        pile: what is on hand.
    """

    folder: Path
    plan: Enclosure
    prices: Prices
    pile: tuple[PilePiece, ...]

    @cached_property
    def layout(self) -> Layout:
        """The plan laid out, worked out when first asked for."""
        from pinfold.studies.layout.resolve import lay_out

        return lay_out(self.plan)


def open_site(folder: Path) -> Site:
    """Read all files of a site folder; the same site again as long as none of them changed.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as the readers tell.
    """
    return _site_at(folder.absolute(), _stamp(folder))


def _stamp(folder: Path) -> tuple[tuple[str, int, int], ...]:
    """What changes when any file of the folder is written."""
    from pinfold.store import pile, planfile, prices

    found = []
    for name in (planfile.NAME, prices.NAME, pile.NAME):
        try:
            stat = (folder / name).stat()
        except OSError:
            continue
        found.append((name, stat.st_mtime_ns, stat.st_size))
    return tuple(found)


@lru_cache(maxsize=4)
def _site_at(folder: Path, stamp: tuple[tuple[str, int, int], ...]) -> Site:  # read anew when it changes
    from pinfold.store import pile, planfile, prices

    return Site(
        folder=folder,
        plan=planfile.read_plan(folder / planfile.NAME),
        prices=prices.read_prices(folder / prices.NAME),
        pile=pile.read_pile(folder / pile.NAME),
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
    from pinfold.errors import InputError
    from pinfold.store import starting

    if sample and answers:
        flags = ", ".join(f"--{key}" for key in answers)
        raise InputError(f"a sample is written as it is; take {flags} out, or start without --sample")
    return starting.from_sample(folder, sample) if sample else starting.from_answers(folder, answers)


def questions() -> tuple[Question, ...]:
    """What is asked when a plan is started."""
    from pinfold.store.starting import QUESTIONS

    return QUESTIONS
