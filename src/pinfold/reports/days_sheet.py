"""A day on one page: do this, here, from when to when, so many batches, so much water, wet then, cover by then."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from pinfold.reports.days_job import ESTIMATED, WorkTold, day_words, work_table
from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, table
from pinfold.units import CELSIUS, CUBIC_METER, Celsius, CubicMeter, System, show


@dataclass(frozen=True, kw_only=True)
class WetTold:
    """A face wetted through the day.

    Attributes:
        place: what is wetted.
        times: when.
        water: for all of them; None where it is not known.
        until: day to which it is kept damp, ISO.
        because: what the times rest on.
    """

    place: str
    times: tuple[datetime, ...]
    water: CubicMeter | None
    until: str
    because: str


@dataclass(frozen=True, kw_only=True)
class CoverTold:
    """Something fresh to be covered.

    Attributes:
        place: what.
        by: when at the latest.
        because: of what.
        lowest: air it is covered from; None for rain.
    """

    place: str
    by: datetime
    because: str
    lowest: Celsius | None


@dataclass(frozen=True, kw_only=True)
class SheetTold:
    """One day.

    Attributes:
        day: ISO.
        works: pieces of work in order.
        water: to mix with and to wet with; None where some of it is not known.
        wet: rounds with water.
        covers: what is covered.
        sun: when it rises and sets, in words; empty where it is not known.
        heat: what the heat asks of people, in words; empty where it asks nothing.
        weather: in words; empty where none is known.
        cautions: of the work.
        off: whether nobody works on that day of the week.
    """

    day: str
    works: tuple[WorkTold, ...]
    water: CubicMeter | None
    wet: tuple[WetTold, ...]
    covers: tuple[CoverTold, ...]
    sun: str
    heat: str
    weather: tuple[str, ...]
    cautions: tuple[str, ...]
    off: bool

    @property
    def date(self) -> datetime:
        """The day itself."""
        return datetime.fromisoformat(self.day)


def sheet_page(told: SheetTold, system: System) -> Page:
    """The page of one day."""
    blocks: list[Block] = [*(Paragraph(text=text) for text in _opening(told, system))]
    if told.works:
        blocks += [work_table(told.works), *_each(told.works, system)]
    else:
        blocks.append(Paragraph(text="A day off." if told.off else "Nothing in the plan for this day."))
    blocks += _wet(told.wet, system)
    blocks += _covers(told.covers, system)
    blocks += [Caution(text=text) for text in told.cautions]
    return Page(title=day_words(told.date), blocks=tuple(blocks))


def _opening(told: SheetTold, system: System) -> list[str]:
    lines = list(told.weather)
    if told.sun:
        lines.append(told.sun)
    if told.heat:
        lines.append(told.heat)
    if any(work.mixes for work in told.works) or told.wet:
        water = "NOT SHOWN" if told.water is None else _liters(told.water, system)
        lines.append(f"Water for mixing and wetting: {water}; washing out comes on top.")
    return lines


def _liters(water: CubicMeter, system: System) -> str:
    return show(water, CUBIC_METER, system, in_unit="gal" if system is System.US else "L", digits=2)


def _each(works: Sequence[WorkTold], system: System) -> list[Block]:
    blocks: list[Block] = []
    for work in works:
        mark = ESTIMATED if work.estimated else ""
        blocks.append(Heading(text=f"{mark}{work.start:%H:%M} to {work.end:%H:%M}: {work.named}, {work.where}"))
        blocks.append(Paragraph(text=f"{work.says[:1].upper()}{work.says[1:]}. {_with(work, system)}".strip()))
        blocks.append(Paragraph(text=f"Why now: {'; '.join(work.why)}."))
        blocks += [Paragraph(text=f"Do: {step}.") for step in work.steps]
        blocks += [Paragraph(text=f"{text[:1].upper()}{text[1:]}.") for text in work.not_shown]
    return blocks


def _with(work: WorkTold, system: System) -> str:
    hands = f"{work.people} {'person' if work.people == 1 else 'people'}"
    if not work.mixes:
        return f"{hands}."
    if work.batches is None or work.water is None:
        return f"{hands}; {', '.join(work.mixes)}: batches NOT SHOWN."
    return f"{hands}; {work.batches:.1f} batches of {', '.join(work.mixes)}, water {_liters(work.water, system)}."


def _wet(wet: Sequence[WetTold], system: System) -> list[Block]:
    if not wet:
        return []
    rows = [
        (each.place, ", ".join(f"{time:%H:%M}" for time in each.times),
         "NOT SHOWN" if each.water is None else _liters(each.water, system), each.until)
        for each in wet
    ]  # fmt: skip
    because = " ".join(dict.fromkeys(f"{each.because[:1].upper()}{each.because[1:]}." for each in wet))
    return [
        Heading(text="Wet at these hours"),
        table(("face", "at", "water", "damp until"), rows, right=(2,), wide=1, note=because),
    ]


def _covers(covers: Sequence[CoverTold], system: System) -> list[Block]:
    if not covers:
        return []
    rows = [
        (each.place, f"{each.by:%H:%M}", each.because,
         "" if each.lowest is None else show(each.lowest, CELSIUS, system, digits=2))
        for each in covers
    ]  # fmt: skip
    return [Heading(text="Cover by"), table(("what", "by", "because", "lowest"), rows, right=(3,), wide=0)]
