"""Lessons as a page: figures before and now, what was most wrong and what that changes, what batch changes did."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from pinfold.plan.enclosure import Enclosure
from pinfold.plan.stock import Prices
from pinfold.reports.lessons_page import before_and_now, subject
from pinfold.reports.lessons_page import lessons_page as figures_page
from pinfold.reports.pages import Block, Heading, Page, Paragraph, Working, table
from pinfold.studies.lessons.batch_changes import BatchChange, ChangeEffect, Seen
from pinfold.studies.lessons.lessons_told import LessonsTold
from pinfold.studies.lessons.put_back import Wrong
from pinfold.studies.lessons.records import Lessons
from pinfold.units import KG_PER_CUBIC_METER, METER, RATIO, SECOND, System, Unit, money, percent, poured, show

WRONG = "What was most wrong"
DID = "What each change of a batch did"
BATCHES = "Batch against the batch before"
_ON_PAPER = 8
"""So many rows of each table are printed."""
_NEWEST = 40
_SAME = "same"
_UNITS: dict[str, Unit] = {"wet_density": KG_PER_CUBIC_METER, "made": RATIO, "slump": METER, "score": RATIO}


def lessons_page(plan: Enclosure, lessons: Lessons, answer: LessonsTold, *, working: bool) -> Page:
    """All of it.

    Args:
        plan: of the site
        lessons: of its log
        answer: what was found
        working: whether the lines of working are shown
    """
    page = figures_page(plan.name, lessons)
    blocks: list[Block] = [*wrong_blocks(answer.wrong, lessons), *page.blocks]
    if working:
        blocks += [
            block for lesson in lessons.lessons if lesson.working
            for block in (Heading(text=f"{lesson.topic.value}: {subject(lesson, plan.units)}"),
                          Working(steps=lesson.working))
        ]  # fmt: skip
    blocks += change_blocks(answer.changes, answer.effects, plan.units)
    return Page(title=page.title, blocks=tuple(blocks))


def lessons_sheet(plan: Enclosure, lessons: Lessons, answer: LessonsTold) -> tuple[Block, ...]:
    """The same for paper, short: what moved most, each lesson in a sentence, what changes did."""
    if lessons.is_empty:
        return figures_page(plan.name, lessons).blocks
    told = [Paragraph(text=lesson.told) for lesson in lessons.lessons]
    changes = change_blocks(answer.changes[-_ON_PAPER:], answer.effects[:_ON_PAPER], plan.units)
    return (*wrong_blocks(answer.wrong[:_ON_PAPER], lessons), Heading(text="Each figure"), *told, *changes)


def wrong_blocks(wrong: Sequence[Wrong], lessons: Lessons) -> tuple[Block, ...]:
    """What was thought and was most wrong, then what it changes in the plan."""
    if not wrong:
        return ()
    text = (
        "First what lies the most of its own first spreads off what was thought; within one it was thought well, past "
        "two it was wrong. Listed prices have no spread and stand last."
    )
    figures = table(
        ("of what", "before", "now", "spreads off"), [_figure_row(each, lessons) for each in wrong], right=(1, 2, 3)
    )
    return (Heading(text=WRONG), Paragraph(text=text), figures, *_changing(wrong, lessons))


def _changing(wrong: Sequence[Wrong], lessons: Lessons) -> tuple[Block, ...]:
    """What the plan takes more or less for each; of those that change nothing it is said."""
    rows = [_change_of(each, lessons) for each in wrong]
    kept = [row for row in rows if set(row[1:]) != {_SAME}]
    if not kept:
        return (Paragraph(text="None of them changes what the plan takes in money, water or hours."),)
    text = (
        "What the plan takes more (+) or less (−) for it than with that one figure put back; hours are by norms of the "
        "trade."
    )
    if len(kept) < len(rows):
        text += " The others change nothing of it."
    return (Paragraph(text=text), table(("for", "money", "water", "hours"), kept, right=(1, 2, 3)))


def _about(each: Wrong, lessons: Lessons) -> str:
    return f"{each.lesson.topic.value}: {subject(each.lesson, lessons.plan.units)}"


def _figure_row(each: Wrong, lessons: Lessons) -> tuple[str, ...]:
    spreads = "" if each.moved is None else f"{each.moved:.1f}"
    return _about(each, lessons), *before_and_now(each.lesson, lessons), spreads


def _change_of(each: Wrong, lessons: Lessons) -> tuple[str, ...]:
    system = lessons.plan.units
    return (
        _about(each, lessons), _coins(each.money, lessons.prices),
        _more(each.water, 0.0005, lambda value: poured(value, system)),
        _more(each.hours, 60.0, lambda value: show(value, SECOND, system)),
    )  # fmt: skip


def _coins(coins: int, prices: Prices) -> str:
    return _SAME if not coins else f"{_sign(coins)}{money(abs(coins), prices.currency, prices.digits)}"


def _more(value: float, least: float, said: Callable[[float], str]) -> str:
    return _SAME if abs(value) < least else f"{_sign(value)}{said(abs(value))}"


def _sign(value: float) -> str:
    return "+" if value > 0 else "−"


def change_blocks(
    changes: Sequence[BatchChange], effects: Sequence[ChangeEffect], system: System
) -> tuple[Block, ...]:  # fmt: skip
    """What each change did all times it was made alone, then each batch against the one before."""
    if not changes:
        text = (
            "No two batches of one mix were written down with what went in and what came of it, so nothing can be said "
            "of changes. Write down amounts, and what was seen: wet density, slump, what it gave."
        )
        return (Heading(text=DID), Paragraph(text=text))
    blocks: list[Block] = [Heading(text=DID), Paragraph(text=_rule())]
    if effects:
        rows = [_effect_row(each) for each in effects]
        blocks.append(table(("mix", "change", "seen", "up", "down", "same", "so far"), rows, right=(3, 4, 5), wide=6))
        blocks.append(Working(steps=tuple(each.step for each in effects[:_ON_PAPER])))
    shown = changes[-_NEWEST:]
    note = f"The newest {_NEWEST} of {len(changes)}." if len(changes) > len(shown) else ""
    rows = [_change_row(each, system) for each in reversed(shown)]
    blocks += [Heading(text=BATCHES), table(("day", "mix", "changed", "seen"), rows, wide=3, note=note)]
    return tuple(blocks)


def _rule() -> str:
    return (
        "Each batch or trial stands against the one before it of its mix. Only what was changed alone is counted; "
        "where several things were changed at once, what came of it cannot be laid to one of them. It is told that a "
        "change works one way once that is sure to 95 of 100: four times alike with none otherwise. Changes that went "
        "both ways stay side by side."
    )


def _effect_row(effect: ChangeEffect) -> tuple[str, ...]:
    return (
        effect.mix, effect.change, _spoken(effect.what), str(effect.up), str(effect.down), str(effect.same),
        so_far(effect),
    )  # fmt: skip


def so_far(effect: ChangeEffect) -> str:
    """What can be told of it."""
    way = "up" if effect.up >= effect.down else "down"
    if effect.is_told:
        return f"{way}, sure to {percent(effect.chance)}" + (", though it went the other way too" * effect.contradicts)
    return "contradictory, not enough to tell" if effect.contradicts else "not enough to tell"


def _change_row(change: BatchChange, system: System) -> tuple[str, ...]:
    changed = "; ".join(name if by is None else f"{name} ({by:+.0%})" for name, by in change.changes)
    kind = "" if change.kind == "batch" else f" ({change.kind})"
    many = "" if change.is_alone else " – several at once"
    return change.day, f"{change.mix}{kind}", f"{changed}{many}", "; ".join(_seen(each, system) for each in change.seen)


def _seen(seen: Seen, system: System) -> str:
    if not seen.way:
        return f"{_spoken(seen.what)} the same"
    if seen.what == "made":  # over its binder, so that no unit says more than the share
        assert isinstance(seen.before, float)
        assert isinstance(seen.after, float)
        return f"gave {seen.after / seen.before - 1:+.0%} for its binder"
    return f"{_spoken(seen.what)} {_value(seen, seen.before, system)} → {_value(seen, seen.after, system)}"


def _value(seen: Seen, value: float | str, system: System) -> str:
    return value if isinstance(value, str) else show(value, _UNITS[seen.what], system)


def _spoken(what: str) -> str:
    return "what it gave" if what == "made" else what.replace("_", " ")
