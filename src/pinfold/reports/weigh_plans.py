"""Two plans side by side on every criterion."""

from __future__ import annotations

from pinfold.reports.pages import Block, Heading, Page, Paragraph, table
from pinfold.reports.weigh_amounts import Money
from pinfold.reports.weigh_between import between
from pinfold.reports.weigh_words import head, said
from pinfold.studies.weighing.plans import PlansCompared
from pinfold.studies.weighing.records import CRITERIA
from pinfold.units import System, tape

_MOST = 6
"""Complaints told of either plan."""


def plans_page(found: PlansCompared, system: System, money: Money) -> Page:
    """This plan and another.

    Args:
        found: both judged
        system: of this plan
        money: how it is told
    """
    one, other = found.one, found.other
    names = (one.option.name, other.option.name)
    rows = [
        (head(each, system, money.currency),
         *(said(each, of.scores[each.key], system, money.digits) for of in (one, other)))
        for each in CRITERIA
    ]  # fmt: skip
    rows.insert(0, ("all checks", one.verdict.value, other.verdict.value))
    rows.insert(1, ("length", tape(found.one_length, system), tape(found.other_length, system)))
    told = between(found.differences, system, money, most=8)
    blocks: list[Block] = [
        Paragraph(text=f"{names[1]} beside {names[0]}: {told}."), *(Paragraph(text=f"{note}.") for note in found.notes),
        table(("", *names), rows, right=(1, 2)), Heading(text="What fails or is not shown"),
        *(Paragraph(text=f"{of.option.name}: {'; '.join(of.complaints[:_MOST]) or 'nothing'}.") for of in (one, other)),
    ]  # fmt: skip
    return Page(title=f"{names[0]} and {names[1]}", blocks=tuple(blocks))
