"""What a weather file says, what was mended in it and what is estimated; taking it into the site's folder."""

from __future__ import annotations

import secrets
import threading
from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from, as_html
from pinfold.actions.site_weather import site_weather, taken_from
from pinfold.actions.sites import Site, open_site
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.reports.days_weather import WeatherTold, file_page, site_page
from pinfold.store.weather.folder import NAME, content_of
from pinfold.store.weather.recognize import weather_file
from pinfold.store.weather.texts import MOST_BYTES
from pinfold.store.writing import write_bytes
from pinfold.studies.weather.choosing import over
from pinfold.studies.weather.records import Weather
from pinfold.studies.weather.summing import spells

_MOST_WAITING = 4
_LONGEST_NAME = 80


@dataclass(frozen=True, kw_only=True)
class WeatherAnswer:
    """What a site knows of weather.

    Attributes:
        sources: every file that could be taken.
        used: which of them the days are reckoned with, and why.
        wrong: what is wrong with the others, each in a text.
    """

    sources: tuple[WeatherTold, ...]
    used: tuple[str, ...]
    wrong: tuple[str, ...]


def days_weather(folder: Path, *, now: datetime | None = None) -> Answer:
    """All weather files of a site, and which of them is used.

    Args:
        folder: of the site
        now: with its offset; the clock's where it is not given

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site and its weather tells.
    """
    site = open_site(folder)
    found = site_weather(site, now=now or datetime.now(UTC))
    record = WeatherAnswer(
        sources=tuple(_told(each) for each in found.sources), used=found.chosen.notes,
        wrong=tuple(str(each) for each in found.wrong),
    )  # fmt: skip
    return answer_from(site, record, site_page(record.sources, record.used, record.wrong, system=site.plan.units))


def weather_in(folder: Path, path: Path, *, now: datetime | None = None) -> Answer:
    """What one file says, wherever it lies.

    Args:
        folder: of the site
        path: of the file
        now: with its offset; the clock's where it is not given

    Raises:
        NotFoundError, StoreError, InvalidPlan: the file cannot be read, with every complaint; or the site.
    """
    return _of_content(open_site(folder), path.name, content_of(path), now or datetime.now(UTC))


def take_weather(folder: Path, path: Path) -> Path:
    """Copy a weather file into the site's folder `weather`, once it can be read.

    Returns:
        where it lies now

    Raises:
        NotFoundError, StoreError, InvalidPlan: the file cannot be read, with every complaint; or the site.
        InputError: another file of that name lies there.
    """
    return _take(open_site(folder), path.name, content_of(path), datetime.now(UTC))


def _take(site: Site, name: str, content: bytes, now: datetime) -> Path:
    taken_from(site, weather_file(content, name=name), now=now)
    target = site.folder / NAME / name
    if target.exists() and target.read_bytes() != content:
        raise InputError(f"another file of that name lies in {NAME}; give this one another name", place=name)
    write_bytes(target, content, make_folder=True)
    return target


def _of_content(site: Site, name: str, content: bytes, now: datetime) -> Answer:
    weather = taken_from(site, weather_file(content, name=name), now=now)
    told = _told(replace(weather, notes=(*over(weather, now), *weather.notes)))
    return answer_from(site, told, file_page(told, site.plan.units))


def _told(weather: Weather) -> WeatherTold:
    return WeatherTold(
        says=weather.says, kind=weather.kind, start=weather.start.astimezone(weather.zone), hours=weather.count,
        latitude=weather.latitude, longitude=weather.longitude, elevation=weather.elevation, written=weather.written,
        elements=tuple(weather.series), spells=spells(weather), notes=weather.notes,
        estimated=tuple(each for each, marks in weather.estimated.items() if marks.any()),
    )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Looked:
    """What a page shows of a file that was sent to it.

    Attributes:
        name: of the file.
        html: what it says.
        waiting: what it is asked for again by, to take it; empty where it cannot be taken.
        taken: whether it was taken into the site's folder.
        wrong: complaints.
    """

    name: str
    html: str = ""
    waiting: str = ""
    taken: bool = False
    wrong: Sequence[str] = ()


_waiting: OrderedDict[str, tuple[Path, str, bytes]] = OrderedDict()
_lock = threading.Lock()


def look_at(folder: Path, name: str, content: bytes, *, now: datetime | None = None) -> Looked:
    """What a file says that was sent to a page; it is kept in hand for `take_in`.

    Args:
        folder: of the site
        name: as the browser tells it; empty for days that were typed
        content: all of it
        now: with its offset; the clock's where it is not given
    """
    moment = now or datetime.now(UTC)
    name = _plain_name(name or f"typed-{moment:%Y-%m-%d-%H%M%S}.txt")
    try:
        answer = _of_content(open_site(folder), name, content, moment)
    except InvalidPlan as refused:
        return Looked(name=name, wrong=[str(problem) for problem in refused.problems])
    key = secrets.token_urlsafe(16)
    with _lock:
        _waiting[key] = (folder, name, content)
        while len(_waiting) > _MOST_WAITING:
            _waiting.popitem(last=False)
    return Looked(name=name, html=as_html(answer, titled=False), waiting=key)


def take_in(folder: Path, waiting: str) -> Looked:
    """Take a file into the site's folder that was looked at.

    Raises:
        NotFoundError: it is no longer in hand.
        InputError: another file of that name lies there.
        StoreError: it cannot be written.
    """
    with _lock:
        held = _waiting.get(waiting)
    if held is None or held[0] != folder:
        raise NotFoundError("the file is no longer in hand; choose it again")
    _, name, content = held
    _take(open_site(folder), name, content, datetime.now(UTC))
    with _lock:
        _waiting.pop(waiting, None)
    return Looked(name=name, taken=True)


def _plain_name(name: str) -> str:
    """The last part of a name, with signs that any disk takes; never a hidden one."""
    last = name.replace("\\", "/").rpartition("/")[2]
    plain = "".join(sign if sign.isalnum() or sign in "-_." else "-" for sign in last).lstrip(".-")
    return plain[-_LONGEST_NAME:].lstrip(".-") or "weather.txt"


def largest() -> int:
    """Most bytes of a weather file."""
    return MOST_BYTES
