"""What a binder holds, before it is typeset."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from pinfold.reports.pages import Block, Heading, Table
from pinfold.units import System

Paper = Literal["a4", "letter"]


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """A drawing on a page of its own, printed at its true size.

    Attributes:
        title: what it shows.
        svg: the drawing as SVG text.
        width_mm: of the drawing on paper.
        height_mm: of the drawing on paper.
        scale: as printed, such as `1:50`; empty for a drawing without scale.
    """

    title: str
    svg: str
    width_mm: float
    height_mm: float
    scale: str = ""


@dataclass(frozen=True, kw_only=True)
class Checklist:
    """A table whose rows are ticked off by hand.

    Attributes:
        table: the rows.
        sums: how many rows at its end are sums and get no box.
    """

    table: Table
    sums: int = 0


@dataclass(frozen=True, kw_only=True)
class Card:
    """A page in large letters inside a cut line, to hang where the work is; half a page where it has a code to scan.

    Attributes:
        title: in the largest letters, such as the name of the mix.
        says: under it, such as the layer and the number of batches; may be empty.
        blocks: what stands on it.
    """

    title: str
    says: str = ""
    blocks: tuple[Block | Checklist, ...] = ()


BinderBlock = Block | Checklist | Card


@dataclass(frozen=True, kw_only=True)
class BinderPart:
    """One chapter; it begins on a new page and is left out when there is nothing in it but title and intro.

    Attributes:
        title: of the chapter.
        intro: a few sentences under the title, may be empty.
        blocks: in reading order.
        sheets: drawings, after the blocks.
        cautions: boxed before the blocks.
    """

    title: str
    intro: str = ""
    blocks: tuple[BinderBlock, ...] = ()
    sheets: tuple[Sheet, ...] = ()
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Binder:
    """All of a plot on paper.

    Attributes:
        title: of the plot.
        says: place and kind of the plot in a line, may be empty.
        printed_on: the day as printed; written as 2026-05-03 it is also the date inside the file.
        paper: a4 or letter.
        system: units of the findings.
        summary: the verdict on the whole in a sentence.
        open_points: what could not be shown, one line each.
        failing: what does not hold, one line each.
        parts: chapters in order.
        cautions: what is to be known before any of it is used, boxed on the cover.
    """

    title: str
    says: str
    printed_on: str
    paper: Paper
    system: System
    summary: str
    open_points: tuple[str, ...]
    failing: tuple[str, ...]
    parts: tuple[BinderPart, ...]
    cautions: tuple[str, ...] = ()


def ticked(blocks: Iterable[Block]) -> tuple[Block | Checklist, ...]:
    """The blocks of a page with every table made a checklist."""
    return tuple(Checklist(table=block) if isinstance(block, Table) else block for block in blocks)


def cards_of(blocks: Iterable[Block]) -> tuple[BinderBlock, ...]:
    """The blocks of a page as cards, one for each heading; what stands before the first heading stays as it is."""
    before: list[BinderBlock] = []
    cards: list[tuple[str, list[Block]]] = []
    for block in blocks:
        if isinstance(block, Heading):
            cards.append((block.text, []))
        elif cards:
            cards[-1][1].append(block)
        else:
            before.append(block)
    return (*before, *(Card(title=title, blocks=tuple(inside)) for title, inside in cards))
