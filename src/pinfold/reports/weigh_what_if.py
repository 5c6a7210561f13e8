"""What if: a table of what changes, before and after, for each thing supposed and for all together."""

from __future__ import annotations

from collections.abc import Iterator

from pinfold.reports.pages import Block, Heading, Page, Paragraph, table
from pinfold.reports.weigh_amounts import Money, amount
from pinfold.reports.weigh_words import NOT_SHOWN, head, said
from pinfold.studies.weighing.between import Difference, differences
from pinfold.studies.weighing.records import CRITERIA, Criterion, Score, Shown, Weighed
from pinfold.studies.weighing.supposing import Suppositions, WhatIf
from pinfold.units import System


def what_if_page(name: str, found: Suppositions, system: System, money: Money) -> Page:
    """Before and after.

    Args:
        name: of the plot
        found: judged before and after
        system: of the plan
        money: how it is told
    """
    blocks: list[Block] = []
    for each in found.each:
        blocks.append(Heading(text=each.says))
        for before, after in zip(found.before, each.after, strict=True):
            blocks += _one(before, after, system, money)
    if len(found.each) > 1:
        blocks.append(Paragraph(text=_summed(found, system, money)))
    return Page(title=f"{name}: what if", blocks=(*blocks, *_lacking(found)))


def _lacking(found: Suppositions) -> Iterator[Paragraph]:
    """What could not be supposed, and what is not shown whatever is."""
    for each in found.lacking:
        yield Paragraph(text=f"NOT SHOWN what {each.says!r} would do: {each.because}.")
    for at, before in enumerate(found.before):
        options = (before, *(each.after[at] for each in found.each))
        cash = [each.scores[CRITERIA[0].key] for each in options if each.can_be_built]
        if cash and not any(score.is_shown for score in cash):
            yield Paragraph(text=f"{before.option.name}: {CRITERIA[0].says} NOT SHOWN, before and after: "
                            f"{cash[0].because}.")  # fmt: skip


def _one(before: Weighed, after: Weighed, system: System, money: Money) -> Iterator[Block]:
    name = before.option.name
    if not before.can_be_built or not after.can_be_built:
        yield Paragraph(text=f"{name}: {'; '.join(after.complaints or before.complaints)}.")
        return
    changed = differences(before, after, CRITERIA)
    rows = [_row(each, before, after, system, money) for each in changed]
    rows += [
        (each.says, _cell(each, before, system, money), _cell(each, after, system, money), "")
        for each in CRITERIA if before.scores[each.key].is_shown is not after.scores[each.key].is_shown
    ]  # fmt: skip
    if not rows:
        yield Paragraph(text=f"{name}: nothing that is shown changes by as much as 1 %.")
        return
    yield table(
        ("", "before", "after", "more or less"), rows, right=(1, 2, 3), title=name, note=_verdicts(before, after)
    )


def _row(each: Difference, before: Weighed, after: Weighed, system: System, money: Money) -> tuple[str, str, str, str]:
    head_ = head(each.criterion, system, money.currency)
    old, new = (_cell(each.criterion, of, system, money) for of in (before, after))
    return head_, old, new, _change(each, system, money)


def _cell(criterion: Criterion, of: Weighed, system: System, money: Money) -> str:
    score: Score = of.scores[criterion.key]
    return said(criterion, Score(value=score.value), system, money.digits) if score.is_shown else NOT_SHOWN


def _change(each: Difference, system: System, money: Money) -> str:
    by = each.after - each.before
    sign = "+" if by > 0 else "−"
    told = amount(each.criterion, abs(by), system, money)
    if each.criterion.shown is Shown.SHARE:
        told = told.replace("%", "points")
    return f"{sign}{told}, {'better' if each.is_better else 'worse'}"


def _verdicts(before: Weighed, after: Weighed) -> str:
    """How the checks answer, where that changes."""
    if before.verdict is after.verdict:
        new = [text for text in after.complaints if text not in before.complaints]
        return f"New: {'; '.join(new[:3])}" if new else ""
    new = [text for text in after.complaints if text not in before.complaints]
    return f"All checks: {before.verdict.value} before, {after.verdict.value} after. {'; '.join(new[:3])}".strip()


def _summed(found: Suppositions, system: System, money: Money) -> str:
    """Whether what happens together is more than what each does by itself."""
    together: WhatIf = found.each[-1]
    criterion = CRITERIA[0]
    start = found.before[0].scores.get(criterion.key)
    if start is None or start.value is None or not together.after[0].can_be_built:
        return "The last table has all of it together."
    alone = sum((each.after[0].scores[criterion.key].value or start.value) - start.value for each in found.each[:-1])
    both = (together.after[0].scores[criterion.key].value or start.value) - start.value
    one, all_ = (_signed(value, system, money) for value in (alone, both))
    return f"The last has all of it together. {criterion.says}: one by one they come to {one}, together to {all_}."


def _signed(coins: float, system: System, money: Money) -> str:
    return f"{'−' if coins < 0 else '+'}{amount(CRITERIA[0], abs(coins), system, money)}"
