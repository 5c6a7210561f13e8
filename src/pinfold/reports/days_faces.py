"""Sun and shade on the faces through one day, to read: what is first and last, when the sun is on each, how strong."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import date, datetime

from pinfold.reports.pages import Block, Heading, Page, Paragraph, Table, table
from pinfold.sources import Standing
from pinfold.studies.sun.day import FaceDay, FacesDay
from pinfold.studies.sun.records import Face
from pinfold.units import SQUARE_METER, Radian, System, show

_WINDS = ("north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest")
_AT_ONCE = 8
"""Hours side by side in a table."""
_NAMED = 4
"""Names in a sentence before the rest is counted."""
NOT_SHOWN = "NOT SHOWN"
_LIGHT_NOTE = "W/m², all light; in brackets while the sun is on less than half of the face; ~ the sun is estimated."
_SPELL_NOTE = (
    "In the sun: on half of it or more, by the clock of the place. Sky: what it sees of it, of what it would see with "
    "nothing in the way. Takes up: share of the sun's heat, dry; * remembered or common practice."
)


def day_page(day: FacesDay, told: Sequence[str], system: System) -> Page:
    """The whole answer.

    Args:
        day: sun and shade through it
        told: what is to be known of the weather
        system: the plan's units
    """
    notes = dict.fromkeys((*told, *day.notes))
    return Page(title=title_of(day), blocks=(
        Paragraph(text=sun_told(day)), *(Paragraph(text=text) for text in order_told(day)),
        spells_table(day, system), *light_tables(day), Heading(text="What it rests on"),
        *(Paragraph(text=note) for note in notes),
    ))  # fmt: skip


def bare_page(faces: Sequence[Face], told: Sequence[str], system: System) -> Page:
    """What can be told of the faces while nobody knows where on earth they stand."""
    rows = [(face.name, _looks(face), show(face.area, SQUARE_METER, system), face.shows) for face in faces]
    blocks: list[Block] = [Paragraph(text=text) for text in told]
    blocks.append(table(("face", "looks", "area", "shows"), rows, right=(2,), wide=3, title="faces of the plan"))
    return Page(title=f"Sun and shade on the faces: {NOT_SHOWN}", blocks=tuple(blocks))


def day_section(day: FacesDay, system: System) -> tuple[Block, ...]:
    """The same for the binder: without the light hour by hour, which its picture has."""
    return (
        Heading(text=title_of(day)), Paragraph(text=sun_told(day)),
        *(Paragraph(text=text) for text in order_told(day)), spells_table(day, system),
    )  # fmt: skip


def title_of(day: FacesDay) -> str:
    """What it is about."""
    return f"Sun and shade on the faces, {day.day:%A} {day.day.isoformat()}"


def sun_told(day: FacesDay) -> str:
    """When the sun rises and sets, and whose sun it is."""
    sun, strength = day.sun, f"Its strength is by {day.weather}."
    if sun.always == "down":
        return "The sun does not rise on this day."
    if sun.always == "up":
        return f"The sun does not set on this day; it stands highest at {sun.noon:%H:%M}. {strength}"
    assert sun.rise is not None
    assert sun.set is not None
    return (
        f"The sun rises at {sun.rise:%H:%M}, stands highest at {sun.noon:%H:%M} and sets at {sun.set:%H:%M}, by the "
        f"clock of the place and over level land. {strength}"
    )


def order_told(day: FacesDay) -> Iterator[str]:
    """Which face has the sun first, which is first out of it again, which never has it, which has the most."""
    sunny = [face for face in day.faces if face.spells and face.is_upright]
    if not sunny:
        return
    first = min(sunny, key=lambda face: face.spells[0].start)
    start = first.spells[0].start
    together = [face.name for face in sunny if face.spells[0].start == start]
    yield f"First in the sun, at {start:%H:%M}: {_named(together)}."
    left = min(face.spells[-1].end for face in sunny)
    gone = [face.name for face in sunny if face.spells[-1].end == left]
    yield f"First out of it for the day, at {_until(left, day.day)}: {_named(gone)}."
    last = max(face.spells[-1].end for face in sunny)
    kept = [face.name for face in sunny if face.spells[-1].end == last]
    yield f"Last in the sun, until {_until(last, day.day)}: {_named(kept)}."
    shaded = [face.name for face in day.faces if face.is_upright and not face.spells]
    if shaded:
        yield f"Never half in the sun: {_named(shaded)}."
    most = max(sunny, key=lambda face: face.light[face.strongest])
    hour = day.hours[most.strongest]
    yield f"The strongest light on a wall: {most.light[most.strongest]:.0f} W/m² on {most.name} from {hour:%H:%M} on."


def _until(moment: datetime, day: date) -> str:
    """A time of the day; its very end is no beginning."""
    return f"{moment:%H:%M}" if moment.date() == day else "24:00"


def _named(names: Sequence[str]) -> str:
    shown = ", ".join(names[:_NAMED])
    return f"{shown} and {len(names) - _NAMED} more" if len(names) > _NAMED else shown


def spells_table(day: FacesDay, system: System) -> Table:
    """When the sun is on each face, and what is to be known of the face."""
    rows = [
        (
            face.name, _looks(face), show(face.area, SQUARE_METER, system),
            ", ".join(f"{spell.start:%H:%M}–{_until(spell.end, day.day)}" for spell in face.spells) or "—",
            f"{face.sky_view:.0%}", _taken_up(face),
        )
        for face in day.faces
    ]  # fmt: skip
    heads = ("face", "looks", "area", "in the sun", "sky", "takes up")
    return table(heads, rows, right=(2, 4, 5), wide=3, title="when the sun is on each face", note=_SPELL_NOTE)


def _looks(face: Face | FaceDay) -> str:
    return wind_of(face.facing) if face.is_upright else "up"


def _taken_up(face: FaceDay) -> str:
    if face.absorptance is None:
        return "—"
    loose = face.absorptance.standing in (Standing.MEMORY, Standing.PRACTICE)
    return f"{face.absorptance.value:.0%}{' *' if loose else ''}"


def light_tables(day: FacesDay) -> Iterator[Table]:
    """The light on each face in the hours in which there is some."""
    light = [max(face.light[hour] for face in day.faces) >= 1 for hour in range(len(day.hours))]
    shown = [hour for hour in range(len(day.hours)) if light[hour]]
    for first in range(0, len(shown), _AT_ONCE):
        some = shown[first : first + _AT_ONCE]
        heads = ("face", *(f"{day.hours[hour]:%H:%M}{'~' if day.estimated[hour] else ''}" for hour in some))
        rows = [(face.name, *(_cell(face, hour) for hour in some)) for face in day.faces]
        yield table(
            heads, rows, right=range(1, len(heads)), note="" if first else _LIGHT_NOTE,
            title=f"light by hours, from {day.hours[some[0]]:%H:%M} on",
        )  # fmt: skip


def _cell(face: FaceDay, hour: int) -> str:
    light = f"{face.light[hour]:.0f}"
    return light if face.lit[hour] >= 0.5 else f"({light})"


def wind_of(facing: Radian) -> str:
    """A direction as one of eight winds."""
    return _WINDS[round(math.degrees(facing) / 45) % 8]
