"""A wet wall's day on a site: which face, which day, in which share of the wind, behind which cover."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from functools import lru_cache
from pathlib import Path

import numpy as np

from pinfold.actions.answers import Answer, answer_from, as_html
from pinfold.actions.days_site import NO_PLACE, NO_WEATHER, SiteDays, days_site
from pinfold.actions.days_wet_log import drying_lesson
from pinfold.actions.sites import Site, as_drawn
from pinfold.errors import InputError, InvalidPlan, NotFoundError, QuantityError
from pinfold.figures import Figure, given
from pinfold.reports.days_wet import WetDay, not_shown, wet_blocks, wet_page
from pinfold.reports.pages import Block, Heading
from pinfold.reports.wet_chart import wet_chart, wet_sheet
from pinfold.studies.drying.day import DAY, Setting, WetFace, effects, faces_on_day
from pinfold.studies.drying.lesson import DryingLesson
from pinfold.studies.drying.records import Asked, Drying, limits, usual_wind_share
from pinfold.studies.drying.wetting import FROST, cure_of
from pinfold.studies.drying.working import figures_of, steps_of
from pinfold.studies.sun.records import Face
from pinfold.tables.shelf import kind, shelf
from pinfold.units import RATIO, read

NIGHT = 10
"""Hours of the night after a day that frost is looked for in."""
LEAST_WIND, MOST_WIND = 0.02, 2.0
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
_WORDS = {"today": 0, "tomorrow": 1}


@dataclass(frozen=True, kw_only=True)
class WetAsked:
    """What is asked, as typed.

    Attributes:
        face: name of a face, or what names begin with; all where empty.
        day: such as `2026-06-21`, `today`, `tomorrow`; today where empty.
        wind_share: wind at the faces over that at 10 m; the usual share where empty.
        cover: of shelf `covers`; none where empty.
    """

    face: str = ""
    day: str = ""
    wind_share: str = ""
    cover: str = ""


def asked_in_words(words: tuple[str, ...], *, wind_share: str = "", cover: str = "") -> WetAsked:
    """What is asked on a command line: the words of a face, a day among them or not."""
    days = [word for word in words if _DAY.fullmatch(word) or word in _WORDS]
    face = " ".join(word for word in words if word not in days)
    return WetAsked(face=face, day=days[-1] if days else "", wind_share=wind_share, cover=cover)


def days_wet(folder: Path, asked: WetAsked, *, now: datetime | None = None) -> Answer:
    """When to wet which face with how much water on a day, and what becomes of a fresh coat.

    Args:
        folder: of the site
        asked: as typed
        now: the moment it is asked; the clock's where None

    Raises:
        NotFoundError: no such face.
        InvalidPlan: complaints about what was asked, all at once.
        StoreError, NewerFileError: as reading the site and its weather tells.
    """
    days = days_site(folder, now=now)
    found = _found(days, asked)
    return answer_from(days.site, found, wet_page(found, days.site.plan.units))


@dataclass(frozen=True, kw_only=True)
class WetShown:
    """What a page shows.

    Attributes:
        title: of the answer.
        picture: of the face that is asked for, or of the one in most danger.
        body: the answer.
        about: name of the face in the picture.
    """

    title: str
    picture: str
    body: str
    about: str


def wet_as_html(folder: Path, asked: WetAsked) -> WetShown:
    """The same for a page.

    Raises:
        NotFoundError, InvalidPlan, StoreError, NewerFileError: as `days_wet` tells.
    """
    answer = days_wet(folder, asked)
    assert isinstance(answer.record, WetDay)
    worst = worst_of(answer.record)
    return WetShown(
        title=answer.page.title, picture="" if worst is None else wet_chart(worst, answer.system),
        body=as_html(answer, titled=False), about="" if worst is None else worst.name,
    )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class WetChoices:
    """What can be asked for.

    Attributes:
        faces: by name.
        covers: (name, what it is).
    """

    faces: tuple[str, ...]
    covers: tuple[tuple[str, str], ...]


def wet_choices(folder: Path) -> WetChoices:
    """Faces of the plan and covers of the shelf.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    faces = tuple(face.name for face in days_site(folder).faces)
    return WetChoices(faces=faces, covers=tuple((each.name, each.says) for each in shelf("covers").values()))


def wet_sheets(days: SiteDays, *, wide_mm: float) -> tuple[tuple[Block, ...], tuple[tuple[str, str, float], ...]]:
    """For the binder: what it tells of today, and (title, SVG, height in mm) of the face in most danger.

    Args:
        days: a site and its weather at one moment
        wide_mm: width of the picture on paper
    """
    found, system = _found(days, WetAsked()), days.site.plan.units
    worst = worst_of(found)
    if worst is None:
        return not_shown(found), ()
    svg, high = wet_sheet(worst, system, wide_mm=wide_mm)
    heading = Heading(text=f"Keeping faces damp on {found.day}")
    return (heading, *wet_blocks(found, system)), ((f"{worst.name} on {found.day}", svg, high),)


def worst_of(found: WetDay) -> WetFace | None:
    """The face on which a fresh coat loses most; None where nothing is shown."""
    return max(found.faces, key=lambda face: face.fastest.fresh_evaporation, default=None)


def _found(days: SiteDays, asked: WetAsked) -> WetDay:
    _, wanted = _read(days, asked)
    lesson = drying_lesson(days, wanted)
    return replace(_kept(as_drawn(days.site), days.weather.sources, days.today, asked, lesson), weather=days.told)


@lru_cache(maxsize=8)  # a march takes a third of a second, and pages are looked at again
def _kept(site: Site, sources: object, today: datetime, asked: WetAsked, lesson: DryingLesson) -> WetDay:
    del sources  # the weather hangs on the folder; it is here so that other weather is another day
    days = days_site(site.folder, now=today)
    day, wanted = _read(days, asked)
    places = _places(days.faces, asked.face)
    wanted = replace(wanted, longer=lesson.longer, spread=lesson.spread)
    start = datetime.combine(day, time(), days.zone)
    whole = _setting(days, start, DAY * (1 + _cure_days([days.faces[place] for place in places])))
    if isinstance(whole, str):
        return _told(days, day, wanted, lesson=lesson, because=(whole,))
    drying, faces = faces_on_day(whole, wanted, places)
    first = _setting(days, start, DAY)
    if not drying.shown or isinstance(first, str):
        return _told(days, day, wanted, lesson=lesson, because=drying.because)
    worst = max(faces, key=lambda face: face.fastest.fresh_evaporation)
    number = drying.of(worst.name)
    return _told(
        days, day, wanted, lesson=lesson, faces=faces, effects=effects(first, wanted, places), notes=drying.notes,
        frost=_frost(drying), estimated=bool(drying.estimated[:DAY].any()), steps=steps_of(drying, whole, number),
        figures=figures_of(drying, number),
    )  # fmt: skip


def _frost(drying: Drying) -> datetime | None:
    """The first hour of the day or the night after in which it freezes."""
    cold = np.flatnonzero(drying.air_c[: DAY + NIGHT] < FROST.value)
    return (drying.start + timedelta(hours=int(cold[0]))).astimezone(drying.zone) if cold.size else None


def _told(days: SiteDays, day: date, wanted: Asked, **found: object) -> WetDay:
    base = {
        "faces": (), "effects": (), "because": (), "notes": (), "estimated": False,
    }  # fmt: skip
    return WetDay(
        day=f"{day:%Y-%m-%d}",
        wind_share=wanted.wind_share,
        cover=_cover_words(wanted),
        limits=limits(),
        spread=wanted.spread,
        weather=days.told,
        **{**base, **found},  # type: ignore[arg-type]  # fields of its own
    )


def _cover_words(wanted: Asked) -> str:
    return "none" if wanted.cover.name == "none" else wanted.cover.says


def _setting(days: SiteDays, start: datetime, hours: int) -> Setting | str:
    """Faces in so many hours from a moment on, or why there is nothing to be shown."""
    joined = days.over(start, hours)
    if joined is None:
        return NO_WEATHER
    light, lighting = days.light_in(joined.weather), days.lighting_in(joined.weather)
    if light is None or lighting is None:
        return NO_PLACE
    return Setting(light, lighting, joined.weather)


def _cure_days(faces: list[Face]) -> int:
    return math.ceil(max((cure_of(face).value for face in faces), default=0.0) / (DAY * 3600))


def _places(faces: tuple[Face, ...], name: str) -> list[int]:
    """Places of the faces of that name, else of all whose names begin so."""
    if not name:
        return list(range(len(faces)))
    found = [place for place, face in enumerate(faces) if face.name == name]
    found = found or [place for place, face in enumerate(faces) if face.name.startswith(name)]
    if not found:
        names = ", ".join(face.name for face in faces)
        raise NotFoundError(f"there is no face {name!r}; there are {names or 'none'}")
    return found


def _read(days: SiteDays, asked: WetAsked) -> tuple[date, Asked]:
    problems: list[InputError] = []
    day, share, cover = days.today.date(), usual_wind_share(), kind("covers", "none")
    try:
        day = days.day_of(asked.day)
    except InputError as mistake:
        problems.append(InputError(mistake.message, place="day"))
    try:
        share = _share(asked.wind_share.strip(), share)
    except InputError as mistake:
        problems.append(InputError(mistake.message, place="wind_share"))
    try:
        cover = kind("covers", asked.cover.strip() or "none")
    except NotFoundError as mistake:
        problems.append(InputError(str(mistake), place="cover"))
    if problems:
        raise InvalidPlan("what is asked of a wet wall's day", problems)
    return day, Asked(wind_share=share, cover=cover)


def _share(text: str, usual: Figure) -> Figure:
    if not text:
        return usual
    value = read(text, like=RATIO)
    if not LEAST_WIND <= value <= MOST_WIND:
        raise QuantityError(f"{text!r} found; a share from {LEAST_WIND} to {MOST_WIND:g} is wanted, such as 0.5")
    return given(value, RATIO, text)
