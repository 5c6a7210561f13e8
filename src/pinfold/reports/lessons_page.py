"""What the log taught, as a page: before beside now, with spread, how many entries, and where it is used."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from pinfold.plan.stock import Prices
from pinfold.reports.pages import Block, Heading, Page, Paragraph, Table, table
from pinfold.studies.lessons.records import Lesson, Lessons, Topic
from pinfold.studies.lessons.telling import for_one, with_spread
from pinfold.units import System, money, percent

MIXED = (Topic.BUCKET_WEIGHT, Topic.MOISTURE, Topic.YIELD, Topic.FOAM, Topic.COVERAGE)
"""What changes batches."""
BOUGHT = (*MIXED, Topic.PRICE)
"""What changes a buying list."""
HEADING = "What the log taught"


def lessons_page(name: str, lessons: Lessons) -> Page:
    """All lessons with what was thought before, what they change, and what could not be used."""
    title = f"{name}: what the log taught"
    if lessons.is_empty:
        text = "The log teaches nothing yet. Weigh a bucket, measure what a batch gave, write down what was paid."
        return Page(title=title, blocks=(Paragraph(text=text),))
    return Page(title=title, blocks=(Paragraph(text=_rule()), *_tables(lessons), *_rest(lessons)))


def _rule() -> str:
    return (
        "Each figure starts as published or as usual and moves to what the log says, the more entries the further; an "
        "entry far off counts little. What the plan itself says stays, and the lesson is told beside it. Spreads are "
        "one standard deviation: two of three times the truth lies within."
    )


def taught_blocks(lessons: Lessons, topics: Sequence[Topic]) -> tuple[Block, ...]:
    """A section for another page: the lessons of these topics, one sentence each; nothing where there is none."""
    told = [lesson for lesson in lessons.lessons if lesson.topic in topics]
    if not told and not lessons.set_aside:
        return ()
    aside = f"Not used: {'; '.join(lessons.set_aside)}." if lessons.set_aside else ""
    texts = [*(_told(lesson) for lesson in told), *([aside] if aside else [])]
    return (Heading(text=HEADING), *(Paragraph(text=text) for text in texts))


def with_taught(page: Page, lessons: Lessons, topics: Sequence[Topic]) -> Page:
    """A page with that section at its end; the page itself where the log taught nothing about it."""
    blocks = taught_blocks(lessons, topics)
    return replace(page, blocks=(*page.blocks, *blocks)) if blocks else page


def _told(lesson: Lesson) -> str:
    return f"{lesson.told} Used for: {lesson.used}." if lesson.used else f"{lesson.told} Only told."


def _told_whole(lesson: Lesson) -> str:
    return f"{_told(lesson)} {percent(lesson.weight)} of it is this log's; standing: {lesson.standing.value}."


def _tables(lessons: Lessons) -> tuple[Block, ...]:
    blocks: list[Block] = []
    for topic in Topic:
        of_it = lessons.about(topic)
        if of_it:
            blocks += [Heading(text=topic.value), _table(of_it, lessons), *_carried(of_it, lessons)]
            blocks += [Paragraph(text=_told_whole(lesson)) for lesson in of_it]
    return tuple(blocks)


def _table(of_it: Sequence[Lesson], lessons: Lessons) -> Table:
    """Before, what the entries say by themselves, and now; narrow enough that no figure breaks over lines."""
    heads = ("of what", "before", "entries say", "now", "entries")
    return table(heads, [_row(lesson, lessons) for lesson in of_it], right=(1, 2, 3, 4))


def _row(lesson: Lesson, lessons: Lessons) -> tuple[str, ...]:
    system = lessons.plan.units
    before, now = before_and_now(lesson, lessons)
    paid = now if lesson.topic is Topic.PRICE and lesson.count else ""
    said = paid if lesson.alone is None else amount(lesson, lesson.alone.value, lesson.alone.spread, system)
    return subject(lesson, system), before, said, now, str(lesson.count)


def _carried(of_it: Sequence[Lesson], lessons: Lessons) -> Iterator[Table]:
    """What was thought here before the first entry, by what was carried here; nothing where nothing was."""
    brought = [lesson for lesson in of_it if lesson.prior.shipped is not None and lesson.prior.value is not None]
    rows = [(subject(each, lessons.plan.units), _brought(each, lessons), each.prior.says) for each in brought]
    if rows:
        yield table(("of what", "carried here", "from"), rows, right=(1,), wide=2)


def _brought(lesson: Lesson, lessons: Lessons) -> str:
    assert lesson.prior.value is not None
    return amount(lesson, lesson.prior.value, lesson.prior.spread, lessons.plan.units)


def subject(lesson: Lesson, system: System) -> str:
    """What a lesson is about, with what one is for."""
    if lesson.topic is Topic.PRICE:
        return f"{lesson.subject}, {lesson.per}"
    if lesson.per:
        return f"{lesson.subject}, for 1 {for_one(1.0, lesson.per, system)[1]}"
    return lesson.subject


def before_and_now(lesson: Lesson, lessons: Lessons) -> tuple[str, str]:
    """What was thought first and what is believed now, each with its spread, in the plan's units."""
    return _money(lesson, lessons.prices) if lesson.topic is Topic.PRICE else _amounts(lesson, lessons.plan.units)


def _money(lesson: Lesson, prices: Prices) -> tuple[str, str]:
    listed = lesson.prior.value
    before = "none" if listed is None else money(round(listed), prices.currency, prices.digits)
    now = money(round(lesson.value), prices.currency, prices.digits)
    return before, f"{now} ± {money(round(lesson.spread), '', prices.digits)}" if lesson.spread else now


def _amounts(lesson: Lesson, system: System) -> tuple[str, str]:
    prior = lesson.prior.first
    before = "none" if prior.value is None else amount(lesson, prior.value, prior.spread, system)
    return before, amount(lesson, lesson.value, lesson.spread, system)


def amount(lesson: Lesson, value: float, spread: float | None, system: System) -> str:
    """A value of a lesson with its spread, for what the plan counts in."""
    if lesson.per:
        value = for_one(value, lesson.per, system)[0]
        spread = None if spread is None else for_one(spread, lesson.per, system)[0]
    return with_spread(value, spread, lesson.prior.unit, system)


def _rest(lessons: Lessons) -> tuple[Block, ...]:
    blocks: list[Block] = []
    if lessons.pile_told:
        blocks += [Heading(text="on the pile since its list"), *(Paragraph(text=text) for text in lessons.pile_told)]
    if lessons.carried_told:
        blocks += [Heading(text="carried and not counted"), *(Paragraph(text=text) for text in lessons.carried_told)]
    if lessons.set_aside:
        blocks += [Heading(text="could not be used"), *(Paragraph(text=text) for text in lessons.set_aside)]
    return tuple(blocks)
