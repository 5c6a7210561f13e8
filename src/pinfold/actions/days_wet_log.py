"""Wettings in the log that were seen to dry, against what was reckoned for the weather of their hours."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime, time
from functools import lru_cache

import numpy as np

from pinfold.actions.days_site import SiteDays
from pinfold.logbook.entries import Entry
from pinfold.studies.drying.day import DAY
from pinfold.studies.drying.lesson import DryingLesson, Seen, lesson_of
from pinfold.studies.drying.records import Asked, Drying
from pinfold.studies.drying.study import drying_of
from pinfold.studies.sun.records import Face

KIND = "wetting"
MOST = 12
"""Newest wettings that are looked at: each day of them is reckoned again."""
_PARTS = {"outer": ("outer",), "inner": ("inner",), "both": ("outer", "inner"), "top": ("top", "coping")}


def drying_lesson(days: SiteDays, asked: Asked) -> DryingLesson:
    """What the log teaches of drying, for a share of the wind; nothing where there is no log or it cannot be read.

    Args:
        days: a site and its weather at one moment
        asked: its share of the wind counts; faces are taken as without cover

    Raises:
        StoreError, NewerFileError: the log cannot be read though the site's own entries could.
    """
    bare, seen, aside = Asked(wind_share=asked.wind_share), [], []
    for entry in _entries(days):
        found = _seen(days, entry, bare)
        if isinstance(found, Seen):
            seen.append(found)
        else:
            aside.append(f"wetting of {entry.at[:16].replace('T', ' ')}: {found}")
    return lesson_of(seen, tuple(aside))


def _entries(days: SiteDays) -> tuple[Entry, ...]:
    from pinfold.store.log import open_log

    if days.site.log_told:
        return ()
    with open_log(days.site.folder) as log:
        newest = log.entries(kind=KIND, standing=True, limit=MOST)
    return tuple(entry for entry in newest if entry.number("lasted") is not None)


def _seen(days: SiteDays, entry: Entry, asked: Asked) -> Seen | str:
    """One wetting against what was reckoned, or why it cannot be used."""
    places = _places(days.faces, entry)
    if not places:
        return f"the plan has no face at {entry.text('place')}"
    at = entry.when.astimezone(days.zone)
    if at > days.now:
        return "it lies ahead"
    start = datetime.combine(at.date(), time(), days.zone)
    joined = days.over(start, 3 * DAY)
    hour = (at.astimezone(UTC) - start.astimezone(UTC)).total_seconds() / 3600
    if joined is None or not joined.foreseen[int(hour)]:
        return "no weather of that very hour is kept in the folder 'weather'"
    light, lighting = days.light_in(joined.weather), days.lighting_in(joined.weather)
    if light is None or lighting is None:
        return "nobody knows where on earth the plot is"
    reckoned = _reckoned(_dried(light, lighting, joined.weather, asked), places, hour)
    lasted = entry.number("lasted")
    if lasted is None or not np.isfinite(reckoned) or reckoned <= 0:
        return "it cannot be reckoned how long it should have lasted"
    return Seen(lasted=lasted, reckoned=reckoned, day=entry.at[:10])


_dried = lru_cache(maxsize=MOST)(drying_of)


def _places(faces: Sequence[Face], entry: Entry) -> list[int]:
    """Faces of the place that was wetted; its outer and inner ones where it is not said which."""
    parts = _PARTS.get(entry.text("face"), _PARTS["both"])
    place = entry.text("place")
    return [
        number for number, face in enumerate(faces)
        if face.part.value in parts and (face.stretch.startswith(place) or face.side == place)
    ]  # fmt: skip


def _reckoned(drying: Drying, places: Sequence[int], hour: float) -> float:
    """How long a wetting at a moment lasts, the mean of its faces."""
    clock = np.arange(len(drying.known))
    return float(np.mean([np.interp(hour, clock, drying.wet_interval[place]) for place in places]))
