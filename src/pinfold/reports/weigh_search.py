"""A search over build-ups as a page: how many stand, the cheapest and the strongest, and the trade-off front."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Table, table
from pinfold.reports.weigh_options import CAUTION
from pinfold.reports.weigh_words import head, number, percent
from pinfold.studies.weighing.records import CRITERION_BY_KEY
from pinfold.studies.weighing.search_records import Proven, Row, Search
from pinfold.units import System

_SHOWN = ("cash_now", "trips", "hauled", "cement", "water", "margin")


def search_page(found: Search, system: System) -> Page:
    """All that a search answers.

    Args:
        found: by the search
        system: of the plan
    """
    blocks: list[Block] = [Paragraph(text=_opening(found)), *_left_out(found), *_miss(found, system)]
    if found.front:
        blocks += [Heading(text="What no other betters"), _rows(found, system)]
        blocks += [Paragraph(text=text) for text in _given_up(found, system)]
    if found.proven:
        blocks.append(Heading(text="Proven on the whole plan"))
        blocks += [Paragraph(text=_proof(each)) for each in found.proven]
    blocks += [Heading(text="What was varied"), _axes(found), Caution(text=CAUTION)]
    return Page(title=f"{found.name}: search over {found.buildup}", blocks=tuple(blocks))


def _opening(found: Search) -> str:
    asked = f" {found.kept} of them keep to: {', '.join(found.asked)}." if found.asked else ""
    unsure = f" Of {found.unsure} more something limited is not shown: they are not among them." if found.unsure else ""
    return (
        f"{found.tried} build-ups were asked every check of 'pinfold stand'; {found.stands} fail in none, "
        f"{found.fails} fail.{asked}{unsure}"
    )


def _left_out(found: Search) -> Iterator[Paragraph]:
    if found.everywhere:
        yield Paragraph(text=f"Not shown, whichever is picked: {', '.join(found.everywhere)}. 'pinfold stand' says "
                        "what is missing.")  # fmt: skip
    for why, many in list(found.cannot.items())[:5]:
        yield Paragraph(text=f"{many} cannot be built: {why}.")


def _miss(found: Search, system: System) -> Iterator[Paragraph]:
    if found.nearest is None:
        return
    told = []
    for short in found.shorts:
        criterion = short.limit.criterion
        told.append(f"{short.limit.text}: past it by {number(criterion, short.by, system, found.digits)} "
                    f"{head(criterion, system, found.currency)}")  # fmt: skip
    yield Paragraph(text=f"None keeps to all. Nearest: {found.nearest.says}; {'; '.join(told)}.")


def _rows(found: Search, system: System) -> Table:
    criteria = [CRITERION_BY_KEY[key] for key in _SHOWN]
    rows = [
        (str(place), *(number(each, row.numbers[each.key], system, found.digits) for each in criteria))
        for place, row in enumerate(found.front, start=1)
    ]  # fmt: skip
    heads = ("no.", *(head(each, system, found.currency) for each in criteria))
    says = " · ".join(CRITERION_BY_KEY[key].says for key in found.by)
    note = f"Those that no other betters in {says}; the cheapest first."
    return table(heads, rows, right=range(len(heads)), note=note)


def _given_up(found: Search, system: System) -> Iterator[str]:
    """Each of the front in words, with what is given up for what beside the one before."""
    before: Row | None = None
    for place, row in enumerate(found.front, start=1):
        beside = f" Beside the one before: {_beside(before, row, found, system)}." if before is not None else ""
        yield f"{place}. {row.says}.{beside}"
        before = row


def _beside(before: Row, row: Row, found: Search, system: System) -> str:
    told = []
    for key in found.by:
        criterion, more = CRITERION_BY_KEY[key], row.numbers[key] - before.numbers[key]
        if more:
            size = number(criterion, abs(more), system, found.digits)
            told.append(f"{size} {'more' if more > 0 else 'less'} {head(criterion, system, found.currency)}")
    return ", ".join(told) or "alike"


def _proof(each: Proven) -> str:
    verdict = "something FAILS" if each.fails else "nothing fails"
    differs = " This is another number than the search found: trust this one." if each.differs else ""
    return f"{each.row.says}: {verdict}; {each.check} of {each.where} uses most, {percent(each.use)}.{differs}"


def _axes(found: Search) -> Table:
    rows: Sequence[tuple[str, str]] = [(key, "; ".join(says or "as planned" for says in choices))
                                       for key, choices in found.axes.items()]  # fmt: skip
    return table(("axis", "choices"), rows, wide=1, note="Others with --wall, --wall-height and so on.")
