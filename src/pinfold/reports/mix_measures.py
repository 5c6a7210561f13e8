"""Measures of a site and sand tried on it, as pages: what was known before the log, what is now, what one more does."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from pinfold.findings import Step
from pinfold.reports.amounts import water
from pinfold.reports.counting_words import STANDINGS
from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Table, Working, table
from pinfold.sources import Standing
from pinfold.studies.batching.sand import SiteSand, dampness_of
from pinfold.studies.lessons.records import Lesson, Lessons, Topic
from pinfold.studies.lessons.site_measures import FullWeight, MeasureRow
from pinfold.studies.lessons.telling import with_spread
from pinfold.tables.shelf import kind
from pinfold.units import CUBIC_METER, KILOGRAM, CubicMeter, System

TOPICS = (Topic.MEASURE, Topic.SCALE, Topic.BUCKET_WEIGHT, Topic.MOISTURE)
"""What measures and sand teach."""
BLANK_ROWS = 8
"""Rows of the table to fill by hand."""
_TRY = (
    "One weighing each is enough: a level bucket of water for the bucket itself, then a bucket, a heaped shovel and a "
    "barrow of the sand as you fill them; an unopened bag for the scale."
)
_DUST = "Dry sand raises silica dust: stir it in the pan out of doors, upwind. The pan stays hot longer than it looks."


def measures_page(name: str, rows: Sequence[MeasureRow], lessons: Lessons, system: System) -> Page:
    """All measures and the sand of a site."""
    return Page(title=f"{name}: measures and sand", blocks=tuple(measures_blocks(rows, lessons, system)))


def measures_blocks(rows: Sequence[MeasureRow], lessons: Lessons, system: System) -> list[Block]:
    """What each measure holds and weighs, the scale, the sand, and what the log says of them."""
    blocks: list[Block] = [Paragraph(text=_TRY), holds_table(rows, system)]
    blocks += [Heading(text="What one weighs, filled as you fill it"), weights_table(rows, system)]
    blocks += [Heading(text="The sand"), _sand_table(lessons, system), Caution(text=_DUST)]
    scales = lessons.about(Topic.SCALE)
    blocks.append(Heading(text="The scale"))
    if scales:
        blocks += [_lesson_table(scales, system), *(Paragraph(text=lesson.told) for lesson in scales)]
    else:
        blocks.append(
            Paragraph(text="Taken at its word, ± 5%: put a known weight on it, such as 10 L of water in a bucket.")
        )
    told = [lesson.told for topic in (Topic.MEASURE, Topic.MOISTURE) for lesson in lessons.about(topic)]
    return [*blocks, *(Paragraph(text=text) for text in told)]


def holds_table(rows: Sequence[MeasureRow], system: System) -> Table:
    """What each measure holds, before the log and now."""
    shown = [
        (row.measure, _before(row, system), with_spread(row.holds, row.spread, CUBIC_METER, system), str(row.weighed),
         STANDINGS[row.standing])
        for row in rows if row.holds is not None
    ]  # fmt: skip
    return table(
        ("measure", "before", "holds now", "entries", "by"), shown, right=(1, 2, 3), title="What each measure holds",
        note="± is one standard deviation: two of three times the truth lies within.",
    )  # fmt: skip


def _before(row: MeasureRow, system: System) -> str:
    return "" if row.before is None else with_spread(row.before, row.before_spread, CUBIC_METER, system)


def weights_table(rows: Sequence[MeasureRow], system: System) -> Table:
    """What each measure weighs full of each stuff, the measure taken off."""
    shown = [
        (row.measure, each.material.name, with_spread(each.mass, each.spread, KILOGRAM, system),
         _times(each), STANDINGS[each.standing])
        for row in rows for each in row.weights
    ]  # fmt: skip
    return table(
        ("measure", "of", "weighs", "weighed", "by"), shown, right=(2,), wide=1, note="The empty measure is taken off."
    )


def _times(each: FullWeight) -> str:
    return "never, reckoned" if not each.weighed else "once" if each.weighed == 1 else f"{each.weighed} times"


def blank_table() -> Table:
    """A table to fill by hand where no phone is."""
    heads = ("day", "measure", "of what", "full", "empty", "how full")
    line = "_" * 8
    return table(heads, [(line,) * len(heads)] * BLANK_ROWS, title="To fill by hand", wide=2)


def blank_sand_table() -> Table:
    """The same for sand."""
    heads = ("day", "pan", "damp", "dried", "jar: damp", "flooded", "silt")
    line = "_" * 6
    return table(heads, [(line,) * len(heads)] * (BLANK_ROWS // 2), title="Sand, to fill by hand", wide=6)


def _sand_table(lessons: Lessons, system: System) -> Table:
    learned = lessons.about(Topic.MOISTURE)
    if learned:
        return _lesson_table(learned, system)
    bulking, sand = lessons.mixing.sand_bulking, kind("materials", "sand")
    water, usual = dampness_of(sand, bulking).value, sand.value("bulking_low")
    told = (_USUAL, _USUAL) if bulking is None else ("in proportion to its swelling", STANDINGS[Standing.GIVEN])
    rows = [
        ("water over dry mass", f"{100 * water:.2g}%", told[0]),
        ("swollen by", f"{usual if bulking is None else bulking:.0%}", told[1]), ("silt", "not known", ""),
    ]  # fmt: skip
    return table(("of the sand", "counts", "by"), rows, right=(1,), wide=2)


_USUAL = "as mixes count on it, not yours"


def _lesson_table(lessons: Sequence[Lesson], system: System) -> Table:
    rows = [
        (lesson.subject, _was(lesson, system), with_spread(lesson.value, lesson.spread, lesson.prior.unit, system),
         str(lesson.count), STANDINGS[lesson.standing])
        for lesson in lessons
    ]  # fmt: skip
    return table(("of what", "before", "now", "entries", "by"), rows, right=(1, 2, 3))


def _was(lesson: Lesson, system: System) -> str:
    prior = lesson.prior
    return "not known" if prior.value is None else with_spread(prior.value, prior.spread, prior.unit, system)


class Tried(NamedTuple):
    """What one reading shows.

    Attributes:
        made: label and figure of what was seen.
        moved: each lesson before, where there was one, and with the reading.
        says: what follows for the batch.
        aside: why it cannot be used, where it cannot.
        working: lines of working.
    """

    made: Sequence[tuple[str, str]]
    moved: Sequence[tuple[Lesson | None, Lesson]]
    says: Sequence[str]
    aside: Sequence[str]
    working: tuple[Step, ...]


def tried_page(tried: Tried, system: System) -> Page:
    """What one reading shows, and how far it would move what is believed; nothing is written down."""
    blocks: list[Block] = []
    if tried.made:
        blocks.append(table(("what was seen", ""), tried.made, right=(1,)))
    blocks += [Paragraph(text=text) for text in tried.says]
    rows = [row for old, new in tried.moved if (row := _moved(old, new, system))[1] != row[2]]
    if rows:
        blocks.append(
            table(
                ("of what", "believed now", "with this reading", "log's share"), rows, right=(1, 2, 3),
                title="What it would move",
            )
        )  # fmt: skip
    else:
        blocks.append(Paragraph(text="It would move nothing that is believed."))
    blocks += [Caution(text=f"It cannot be used: {reason}.") for reason in tried.aside]
    blocks.append(Paragraph(text="Nothing was written down."))
    if tried.working:
        blocks.append(Working(steps=tried.working, figures=()))
    return Page(title="Tried, not written down", blocks=tuple(blocks))


def _moved(old: Lesson | None, new: Lesson, system: System) -> tuple[str, str, str, str]:
    now = _was(new, system) if old is None else _with(old, system)
    return new.subject, now, _with(new, system), f"{new.weight:.0%}"


def _with(lesson: Lesson, system: System) -> str:
    return with_spread(lesson.value, lesson.spread, lesson.prior.unit, system)


def sand_says(found: SiteSand, specified: CubicMeter, system: System) -> str:
    """What the sand that was tried means for a bucket of it."""
    share = found.loose / specified
    brings = f"brings {water(found.water / 1000, system)} of the water" if found.water >= 0 else (
        f"drinks {water(-found.water / 1000, system)} of the water"
    )  # fmt: skip
    return f"Where a mix wants 10 buckets of sand, measure {10 * share:.1f} of this; each wanted bucket {brings}."
