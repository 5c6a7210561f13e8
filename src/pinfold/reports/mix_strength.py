"""Strength of mixes to read: how strong at which age, before and now, with the tests behind it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Table, Working, table
from pinfold.studies.lessons.applying import STRENGTHS
from pinfold.studies.lessons.records import Lessons, Topic
from pinfold.studies.lessons.rivals import RivalStrength
from pinfold.studies.lessons.strength_records import Strength, StrengthReading
from pinfold.tables.shelf import kind
from pinfold.units import PASCAL, UNIT_BY_SYMBOL, Second, System, show

_DAY = 86400.0
_PSI = UNIT_BY_SYMBOL["psi"].factor
_MOST_ROWS = 40
BREAKING = (
    "A body that breaks throws splinters: goggles and gloves, stand to the side, nothing of you under the load, and "
    "catch what falls."
)
"""Stands wherever bodies are crushed and broken."""
_LEFT_OUT = (
    "Bodies kept damp at about 20 °C (68 °F) are meant: cold slows it, frost and drying out can end it, and how warm "
    "it truly was is not looked at. A mold is better filled and kept than a wall."
)
_HOW = (
    "It starts from a published law, with how unsure that is, and moves to what your tests say: tests of the mix "
    "itself most, those of other mixes of its kind in part. Bodies cast on one day count as one batch; one far off "
    "counts little. A hand test says only between what and what."
)


@dataclass(frozen=True, kw_only=True)
class StrengthTold:
    """How strong one mix is.

    Attributes:
        mix: name of it.
        says: what it is.
        asked: at the age asked for.
        ages: at usual ages too, in order.
        readings: tests of it.
        rivals: what other published laws say at the age asked for.
    """

    mix: str
    says: str
    asked: Strength
    ages: tuple[Strength, ...]
    readings: tuple[StrengthReading, ...]
    rivals: tuple[RivalStrength, ...]


def strengths_page(told: Sequence[StrengthTold], age: Second, system: System) -> Page:
    """All mixes at one age."""
    title = f"How strong after {age_words(age)}"
    if not told:
        return Page(title=title, blocks=(Paragraph(text="The plan mixes nothing that has a strength."),))
    blocks = (Paragraph(text=_HOW), strengths_table(told, system), Paragraph(text=_LEFT_OUT), Caution(text=BREAKING))
    return Page(title=title, blocks=blocks)


def strength_sheet(told: Sequence[StrengthTold], system: System) -> tuple[Block, ...]:
    """The same for paper; nothing where the plan mixes nothing that has a strength."""
    if not told:
        return ()
    return (Paragraph(text=_HOW), strengths_table(told, system), Paragraph(text=_LEFT_OUT))


def lowered_blocks(lessons: Lessons) -> tuple[Block, ...]:
    """For whether it stands: what tests showed to be less than the plan counted on, and is used so."""
    lowered = [lesson for lesson in lessons.about(Topic.STRENGTH) if lesson.used]
    if not lowered:
        return ()
    notes = [each.says for each in lessons.figures if each.name in STRENGTHS]
    return (
        Heading(text="Weaker by your tests"), *(Paragraph(text=lesson.told) for lesson in lowered),
        *(Paragraph(text=note) for note in notes), Paragraph(text=_ONLY_LESS),
    )  # fmt: skip


_ONLY_LESS = (
    "Tests only take away: a wall is never counted stronger for them, for a body from a mold is kept better than a "
    "wall, and codes go by the class of its proportions."
)


def strengths_table(told: Sequence[StrengthTold], system: System) -> Table:
    """A row for each mix."""
    rows = [
        (
            each.mix, stress((each.asked.before or each.asked).mean, system), stress(each.asked.mean, system),
            _span(each.asked, system), _tests(each.asked), each.asked.standing.value,
        )
        for each in told
    ]  # fmt: skip
    note = "Half of all batches lie above 'now', five of a hundred below and five above the two ends."
    return table(
        ("mix", "before", "now", "90 of 100 batches", "tests", "standing"), rows, right=(1, 2, 3, 4), note=note
    )


def strength_page(told: StrengthTold, system: System) -> Page:
    """One mix at several ages, its tests, and how it was worked out."""
    asked = told.asked
    blocks: list[Block] = [Paragraph(text=_sentence(asked, system)), _ages(told.ages, system)]
    blocks += [Heading(text="Tests"), _readings(told.readings, system)] if told.readings else [Paragraph(text=_NONE)]
    if told.rivals:
        blocks += [Heading(text="By other laws, without tests"), _rivals(told, system)]
    blocks += [Paragraph(text=text) for text in (_HOW, *_notes(asked), _LEFT_OUT)]
    steps = (*asked.steps, *(step for rival in told.rivals for step in rival.steps))
    blocks += [Working(steps=steps, figures=asked.figures), Caution(text=BREAKING)]
    return Page(title=f"{told.mix}: how strong after {age_words(asked.age)}", blocks=tuple(blocks))


_NONE = (
    "Nothing of it was tried yet. Cast a few small bodies of each batch in oiled molds, mark them with the day, and "
    "crush or break them at 7 and 28 days: a beam across two supports with buckets hung in its middle will do. A nail "
    "and a drop from 1 m (3 ft) say a little too."
)


def _notes(asked: Strength) -> list[str]:
    family = kind("strengths", asked.family)
    return [family.word("note")] if family.word("note") else []


def _sentence(asked: Strength, system: System) -> str:
    return (
        f"After {age_words(asked.age)} about {stress(asked.mean, system)} as a {asked.body}, {_span(asked, system)} "
        f"for 90 of 100 batches: {asked.says}. Standing: {asked.standing.value}."
    )


def _ages(ages: Sequence[Strength], system: System) -> Table:
    rows = [
        (age_words(each.age), stress((each.before or each).mean, system), stress(each.mean, system),
         stress(each.low, system), stress(each.high, system))
        for each in ages
    ]  # fmt: skip
    heads = ("age", "before", "now", "5 of 100 below", "5 of 100 above")
    return table(heads, rows, right=(1, 2, 3, 4))


def _readings(readings: Sequence[StrengthReading], system: System) -> Table:
    rows = [(each.day, each.body, age_words(each.age), _shown(each, system)) for each in readings[-_MOST_ROWS:]]
    note = f"The last {_MOST_ROWS} of {len(readings)}." if len(readings) > _MOST_ROWS else ""
    return table(("day", "body or sign", "age", "told as the mix's own body"), rows, right=(2, 3), wide=1, note=note)


def _shown(reading: StrengthReading, system: System) -> str:
    if reading.is_exact:
        return stress(reading.strength, system)
    if reading.low is None or reading.high is None:
        end = reading.high if reading.low is None else reading.low
        assert end is not None
        return f"{'under' if reading.low is None else 'over'} {stress(end, system)}"
    return _range(reading.low, reading.high, system)


def _rivals(told: StrengthTold, system: System) -> Table:
    before = told.asked.before or told.asked
    rows = [("the law it is judged by", stress(before.mean, system))]
    rows += [(each.law, stress(each.strength, system)) for each in told.rivals]
    return table(("law", f"after {age_words(told.asked.age)}"), rows, right=(1,))


def _tests(asked: Strength) -> str:
    return f"{asked.own} and {asked.others} of its kind" if asked.others else str(asked.own)


def _span(asked: Strength, system: System) -> str:
    return _range(asked.low, asked.high, system)


def _range(low: float, high: float, system: System) -> str:
    """`1.2 to 3.1 MPa`."""
    first, second = stress(low, system), stress(high, system)
    return f"{first.rpartition(' ')[0]} to {second}"


def stress(value: float, system: System) -> str:
    """A strength in the units builders use: MPa with two figures or psi in round tens."""
    if system is System.METRIC:
        mega = value / 1e6
        return f"{mega:.2f} MPa" if mega < 1 else f"{mega:.1f} MPa" if mega < 20 else f"{mega:.0f} MPa"
    return show(round(value / _PSI, -1) * _PSI, PASCAL, system, in_unit="psi")


def age_words(age: Second) -> str:
    """An age in days, in hours where it is under two days."""
    if age < 2 * _DAY:
        return f"{age / 3600:.3g} h"
    days = age / _DAY
    return f"{days:.0f} days" if days >= 10 or abs(days - round(days)) < 0.005 else f"{days:.1f} days"
