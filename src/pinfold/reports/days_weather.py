"""Weather files to read: what each says day by day, what was mended, what is estimated."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from pinfold.plan.weather_file import Element, WeatherKind
from pinfold.reports.pages import Block, Heading, Page, Paragraph, Table, table
from pinfold.studies.weather.summing import Spell
from pinfold.units import METER, UNIT_BY_SYMBOL, Meter, Radian, System, show

MARK = "~"
_UNKNOWN = "—"
_NOTE = (
    "air: lowest to highest; wind at 10 m: mean to strongest hour; sun and sky on the level of the whole day. "
    "~ estimated, at least in part; + some hours are not known; — NOT SHOWN."
)
_MONTHS = f"Sun is that of a mean day, rain that of the month. {_NOTE[:1].upper()}{_NOTE[1:]}"
_KWH_A_DAY = 0.024
_NONE = (
    "No weather is known: put a file into the folder 'weather' of the site, or take one with 'pinfold days weather "
    "FILE --take'. EPW, TMY3, saved hourly forecasts, tables, daily lows and highs and monthly normals are read."
)
_EARTH = "°"


@dataclass(frozen=True, kw_only=True)
class WeatherTold:
    """What one source says.

    Attributes:
        says: its name.
        kind: of weather.
        start: of its first hour, by the clock of the place.
        hours: how many.
        latitude: of its own place; None where it does not say.
        longitude: likewise.
        elevation: likewise.
        written: when a forecast was made; None where it does not say.
        elements: what it knows.
        estimated: of which some hours are estimated.
        spells: day by day, or month by month.
        notes: what was mended, estimated or left out.
    """

    says: str
    kind: WeatherKind
    start: datetime
    hours: int
    latitude: Radian | None
    longitude: Radian | None
    elevation: Meter | None
    written: datetime | None
    elements: tuple[Element, ...]
    estimated: tuple[Element, ...]
    spells: tuple[Spell, ...]
    notes: tuple[str, ...]


def site_page(
    sources: Sequence[WeatherTold], used: Iterable[str], wrong: Iterable[str], *, system: System
) -> Page:  # fmt: skip
    """All of a site's files."""
    blocks: list[Block] = [Paragraph(text=text) for text in used]
    blocks += [Paragraph(text=text) for text in wrong]
    if not sources and not blocks:
        blocks.append(Paragraph(text=_NONE))
    for told in sources:
        blocks += [Heading(text=told.says), *source_blocks(told, system)]
    return Page(title="The weather", blocks=tuple(blocks))


def file_page(told: WeatherTold, system: System) -> Page:
    """One file."""
    return Page(title=f"What {told.says} says", blocks=source_blocks(told, system))


def source_blocks(told: WeatherTold, system: System) -> tuple[Block, ...]:
    """Where and when it is of, its days, and what was mended."""
    return (
        Paragraph(text=_head(told, system)), _days(told, system),
        *(Paragraph(text=note) for note in told.notes),
    )  # fmt: skip


def _head(told: WeatherTold, system: System) -> str:
    begins = f"{told.start:%Y-%m-%d %H:%M} (UTC{told.start.isoformat()[-6:]})"
    hours = f"{told.hours} hour{'' if told.hours == 1 else 's'}"
    parts = [f"{str(told.kind).capitalize()}: {hours} from {begins}"]
    if told.latitude is not None and told.longitude is not None:
        parts.append(f"for {math.degrees(told.latitude):.2f}{_EARTH}, {math.degrees(told.longitude):.2f}{_EARTH}")
    if told.elevation is not None:
        height = show(told.elevation, METER, system, in_unit="ft" if system is System.US else "m", digits=4)
        parts.append(f"{height} above the sea")
    if told.written is not None:
        parts.append(f"made {told.written.astimezone(told.start.tzinfo):%Y-%m-%d %H:%M}")
    return ", ".join(parts) + "."


def _days(told: WeatherTold, system: System) -> Table:
    months = any(spell.days > 1 for spell in told.spells)
    degrees, speed, depth = ("°F", "mph", "in") if system is System.US else ("°C", "km/h", "mm")
    heads = ["month" if months else "day", f"air {degrees}", f"dew {degrees}", "humid %", f"wind {speed}", "sun kWh/m²",
             f"rain {depth}", "frost days" if months else "chance %"]  # fmt: skip
    rows = [_row(spell, system, months=months) for spell in told.spells]
    return table(heads, rows, right=tuple(range(1, len(heads))), note=_MONTHS if months else _NOTE)


def _row(spell: Spell, system: System, *, months: bool) -> list[str]:
    speed, depth = ("mph", "in") if system is System.US else ("km/h", "mm")
    celsius = "°F" if system is System.US else "°C"
    return [
        f"{spell.begins:%Y-%m}" if months else f"{spell.begins:%a}\u00a0{spell.begins:%m-%d}",
        _cell(spell, ("lowest", "highest"), celsius), _cell(spell, ("dew_point",), celsius),
        _cell(spell, ("humidity",), "%"), _cell(spell, ("wind", "strongest"), speed),
        _cell(spell, ("sun",), ""), _cell(spell, ("rain",), depth),
        _frost(spell) if months else _cell(spell, ("rain_chance",), "%"),
    ]  # fmt: skip


def _frost(spell: Spell) -> str:
    if spell.frost_days is None:
        return _UNKNOWN
    return f"{spell.frost_days}{'+' if 'lowest' in spell.partly else ''}"


def _cell(spell: Spell, names: tuple[str, ...], symbol: str) -> str:
    """One figure, or from the one to the other, in a unit; of the sun what a day gives."""
    values = [getattr(spell, name) for name in names]
    if any(math.isnan(value) for value in values):
        return _UNKNOWN
    if not symbol:
        text = f"{values[0] * _KWH_A_DAY:.1f}"
    else:
        unit = UNIT_BY_SYMBOL[symbol]
        text = " to ".join(_number((value - unit.offset) / unit.factor, symbol) for value in values)
    return f"{MARK if names[0] in spell.estimated else ''}{text}{'+' if names[0] in spell.partly else ''}"


def _number(value: float, symbol: str) -> str:
    decimals = {"in": 2, "mm": 1}.get(symbol, 0)
    return f"{value:.{decimals}f}".replace("-0", "0") if abs(value) < 0.5 and not decimals else f"{value:.{decimals}f}"
