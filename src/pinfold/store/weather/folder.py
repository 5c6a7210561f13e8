"""The folder `weather` of a site: every file in it read, or what is wrong with it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from pinfold.errors import InputError, InvalidPlan, NotFoundError, StoreError
from pinfold.plan.weather_file import WeatherFile
from pinfold.store.stamps import stamp_of
from pinfold.store.weather.recognize import weather_file
from pinfold.store.weather.texts import MOST_BYTES

NAME = "weather"
MOST_FILES = 60


class Found(NamedTuple):
    """A file of the folder.

    Attributes:
        name: of the file.
        file: what it says; None where it cannot be read.
        wrong: what is wrong with it then.
    """

    name: str
    file: WeatherFile | None
    wrong: InvalidPlan | None


def weather_files(site: Path) -> tuple[Found, ...]:
    """All files of the folder by name, hidden ones passed over; none where there is no folder.

    Args:
        site: the site's folder

    Raises:
        StoreError: the folder or a file of it cannot be read.
    """
    paths = _paths(site)
    if len(paths) > MOST_FILES:
        raise StoreError(f"{NAME} holds {len(paths)} files; at most {MOST_FILES} are read: take old forecasts out")
    return tuple(_found(path, stamp_of(path)) for path in paths)


def weather_stamps(site: Path) -> tuple[tuple[str, object], ...]:
    """What changes when a file of the folder is written, comes or goes; none of them is read.

    Raises:
        StoreError: the folder cannot be read.
    """
    return tuple((path.name, stamp_of(path)) for path in _paths(site))


def _paths(site: Path) -> list[Path]:
    folder = site / NAME
    with _in_plain_words(folder):
        if not folder.is_dir():
            return []
        return sorted(path for path in folder.iterdir() if not path.name.startswith(".") and path.is_file())


@lru_cache(maxsize=MOST_FILES)
def _found(path: Path, stamp: object) -> Found:  # read anew when it changes
    try:
        return Found(path.name, read_weather(path), None)
    except InvalidPlan as wrong:
        return Found(path.name, None, wrong)


def read_weather(path: Path) -> WeatherFile:
    """One file, wherever it lies.

    Raises:
        NotFoundError: it is not there.
        StoreError: it cannot be read.
        InvalidPlan: with every complaint.
    """
    return weather_file(content_of(path), name=path.name)


def content_of(path: Path) -> bytes:
    """The bytes of such a file.

    Raises:
        NotFoundError: it is not there.
        StoreError: it cannot be read.
        InvalidPlan: it is too large to be one.
    """
    if not path.exists():
        raise NotFoundError(f"there is no file {path}")
    with _in_plain_words(path):
        if path.stat().st_size > MOST_BYTES:
            told = f"is larger than {MOST_BYTES // 1_000_000} MB; a year of hours takes less than 2 MB"
            raise InvalidPlan(path.name, [InputError(told)])
        return path.read_bytes()


@contextmanager
def _in_plain_words(path: Path) -> Iterator[None]:
    try:
        yield
    except OSError as fault:
        raise StoreError(f"{path} cannot be read: {(fault.strerror or str(fault)).lower()}") from None
