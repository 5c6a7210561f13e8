"""A search for its page: worked on by a thread of its own, with how far it is, until there is an answer to show."""

from __future__ import annotations

import time
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from pinfold.actions.answers import as_html
from pinfold.actions.beside import Beside
from pinfold.actions.sites import open_site, site_stamps
from pinfold.actions.weigh_search import KNOWN, SearchAsked, every_axis, search_site, varied, varied_in, vetted
from pinfold.errors import PinfoldError
from pinfold.studies.weighing.axes import AXES

CHOOSING = "/weigh/choose?name="
"""Where the page of choosing one by its code is."""
_PATIENCE = 1.5
"""Seconds that a page waits for an answer before it tells how far it is."""


@dataclass(frozen=True, kw_only=True)
class Going:
    """How far a search is.

    Attributes:
        looked_at: how often something was laid out, asked or counted so far.
        seconds: since it began.
    """

    looked_at: int
    seconds: int


@dataclass(frozen=True, kw_only=True)
class SearchShown:
    """What the page shows.

    Attributes:
        title: of the answer.
        body: what was found; empty before it is asked, and while it is searched.
        going: how far it is; None where nothing is searched.
        buildups: that can be varied.
        buildup: that is.
        axes: key, words and all choices of every axis.
        criteria: keys of what may be traded off.
    """

    title: str
    body: str
    going: Going | None
    buildups: tuple[str, ...]
    buildup: str
    axes: tuple[tuple[str, str, tuple[str, ...]], ...]
    criteria: tuple[str, ...] = KNOWN


@dataclass(frozen=True)
class _Found:
    """Title and body of an answer, or why there is none, and to what."""

    asked: SearchAsked
    title: str = ""
    body: str = ""
    refused: PinfoldError | None = None


class _Tally:
    """How far a search is: counted up by its thread, read by pages."""

    def __init__(self) -> None:
        self._begun = time.monotonic()
        self._looked_at = 0

    def told(self, done: int) -> None:
        """So many by now."""
        self._looked_at = done

    @property
    def going(self) -> Going:
        """How far it is now."""
        return Going(looked_at=self._looked_at, seconds=round(time.monotonic() - self._begun))


class _Bench:
    """The searches of one site, one after the other."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._beside: Beside[_Found] = Beside()
        self.tally = _Tally()

    def latest(self, asked: SearchAsked, patience: float) -> _Found | None:
        """What was found; None while it is searched."""
        key = (site_stamps(self._folder), asked)
        found = self._beside.latest(key, lambda: self._work(asked), patience=patience)
        if not found.is_of_now:
            return None
        return found.answer if found.answer is not None and found.answer.asked == asked else self._work(asked)

    def _work(self, asked: SearchAsked) -> _Found:
        self.tally = _Tally()
        try:
            answer = search_site(self._folder, asked, self.tally.told, link=CHOOSING)
        except PinfoldError as refused:
            return _Found(asked, refused=refused)
        return _Found(asked, answer.page.title, as_html(answer, titled=False))


@lru_cache(maxsize=4)
def _bench(folder: Path) -> _Bench:
    return _Bench(folder)


def search_shown(folder: Path, asked: SearchAsked, *, run: bool, patience: float = _PATIENCE) -> SearchShown:
    """What the page of the search shows: what can be asked, and what was found or how far that is.

    Args:
        folder: site folder
        asked: what is asked
        run: whether to search; else only what can be asked
        patience: seconds to wait for the answer before it is told how far it is

    Raises:
        As `search_site`.
    """
    site, bench = open_site(folder), _bench(folder.absolute())
    name = varied_in(site, asked)
    found = None
    if run:
        vetted(site, asked)
        found = bench.latest(asked, patience)
    if found is not None and found.refused is not None:
        raise found.refused
    return SearchShown(
        title=found.title if found is not None else f"{site.plan.name}: search over build-ups",
        body=found.body if found is not None else "", going=bench.tally.going if run and found is None else None,
        buildup=name, buildups=varied(site.plan),
        axes=tuple((axis.key, AXES[axis.key], tuple(each.says for each in axis.choices))
                   for axis in every_axis(site, name)),
    )  # fmt: skip
