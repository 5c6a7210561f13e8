"""Pages that take seconds: as last worked out, while they are worked out anew for an entry, weather or the hour."""

from __future__ import annotations

import time
from collections.abc import Callable, Hashable
from datetime import UTC, datetime
from functools import lru_cache
from pathlib import Path
from typing import Generic, NamedTuple, TypeVar, cast

from pinfold.actions.beside import Beside
from pinfold.actions.sites import site_stamps
from pinfold.errors import PinfoldError
from pinfold.store.weather.folder import weather_stamps

_SOON = 1.0
"""Seconds: what took no longer the last time is waited for."""
_PATIENCE = 0.03
"""Seconds that one waits for what took longer."""
_HALF_HOUR = 1800

Found = TypeVar("Found")


class Lately(NamedTuple, Generic[Found]):
    """An answer.

    Attributes:
        answer: the newest there is.
        is_of_now: whether nothing has changed since.
    """

    answer: Found
    is_of_now: bool


class _Worked(NamedTuple, Generic[Found]):
    """What came of it, or why nothing, and the seconds it took."""

    answer: Found | PinfoldError
    took: float


def lately(folder: Path, what: Hashable, work: Callable[[], Found]) -> Lately[Found]:
    """The newest answer to what is asked of a site's days; the first one is waited for, a later one where it is quick.

    Args:
        folder: of the site
        what: is asked, so that another question has another answer
        work: gives the answer

    Raises:
        PinfoldError: as the work tells, each time it is asked while nothing changes.
    """
    beside = cast("Beside[_Worked[Found]]", _beside(folder.absolute(), what))
    found = beside.latest(_key(folder), lambda: _worked(work), patience=_patience(beside.last))
    if found.answer is None:
        return Lately(work(), is_of_now=True)
    if isinstance(found.answer.answer, PinfoldError):
        raise found.answer.answer
    return Lately(found.answer.answer, found.is_of_now)


def first(folder: Path, what: Hashable, work: Callable[[], Found], *, patience: float | None) -> Found | None:
    """The answer of now to what is asked of a site; None while it is worked out.

    Args:
        folder: of the site
        what: is asked, so that another question has another answer
        work: gives the answer
        patience: seconds to wait for it; None for as long as it takes

    Raises:
        PinfoldError: as the work tells, each time it is asked while nothing changes.
    """
    beside = cast("Beside[_Worked[Found]]", _beside(folder.absolute(), what))
    found = beside.latest(_key(folder), lambda: _worked(work), patience=patience)
    if not found.is_of_now:
        return None
    if found.answer is None:  # something broke in the thread: let it break here, where it is told
        return work()
    if isinstance(found.answer.answer, PinfoldError):
        raise found.answer.answer
    return found.answer.answer


def _key(folder: Path) -> Hashable:
    """What changes whenever an answer may."""
    return site_stamps(folder), weather_stamps(folder), int(datetime.now(UTC).timestamp()) // _HALF_HOUR


def _patience(last: _Worked[Found] | None) -> float | None:
    """How long to wait for a newer answer, by what the last one took."""
    if last is None or isinstance(last.answer, PinfoldError):
        return None
    return 2 * _SOON if last.took <= _SOON else _PATIENCE


def _worked(work: Callable[[], Found]) -> _Worked[Found]:
    begun = time.monotonic()
    try:
        answer: Found | PinfoldError = work()
    except PinfoldError as refused:
        answer = refused
    return _Worked(answer, time.monotonic() - begun)


@lru_cache(maxsize=24)
def _beside(folder: Path, what: Hashable) -> Beside[_Worked[object]]:  # each question has its own
    del folder, what
    return Beside()
