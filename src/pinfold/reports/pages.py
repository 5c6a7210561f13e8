"""A page: what an answer says, as headings, paragraphs, tables, findings, cautions, before paper or terminal."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pinfold.figures import Figure
from pinfold.findings import Finding, Step


@dataclass(frozen=True, kw_only=True)
class Table:
    """Rows under heads.

    Attributes:
        heads: one per column.
        rows: cells as text, already in the plan's units.
        right: places of the columns that are set flush right (figures).
        title: above the table, may be empty.
        note: below the table, may be empty.
        wide: place of the column that may break over lines; the first by default.
        links: address that the first cell of each row opens on a screen; none when empty.
    """

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    right: tuple[int, ...] = ()
    title: str = ""
    note: str = ""
    wide: int = 0
    links: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Paragraph:
    """Running text.

    Attributes:
        text: as a terminal and paper say it.
        on_screen: what a screen says in its place, where it has links instead of commands; the same when empty.
        links: words and address of what a screen opens, after the text.
    """

    text: str
    on_screen: str = ""
    links: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, kw_only=True)
class Caution:
    """A warning that stands where the work is."""

    text: str


@dataclass(frozen=True, kw_only=True)
class Heading:
    """A heading inside a page."""

    text: str


@dataclass(frozen=True, kw_only=True)
class Findings:
    """Findings in order of urgency.

    Attributes:
        findings: as the study gave them.
        working: whether the lines of working are shown.
        each: whether those that hold are told one by one, not check by check; with their working they always are.
    """

    findings: tuple[Finding, ...]
    working: bool = False
    each: bool = False


WORKED = "How it was worked out"
"""Stands over working."""


@dataclass(frozen=True, kw_only=True)
class Working:
    """How an answer that is no finding was reached; folded away where a page can.

    Attributes:
        steps: lines of working.
        figures: figures that went in, with their standing.
    """

    steps: tuple[Step, ...]
    figures: tuple[tuple[str, Figure], ...] = ()


@dataclass(frozen=True, kw_only=True)
class Code:
    """An address as a square code that a phone's camera reads, with the address beside it.

    Attributes:
        address: what the code opens.
        says: what it is for.
        here: the same on this machine, without its host; empty where a link has no place.
        drawn: whether a terminal draws it too.
    """

    address: str
    says: str
    here: str = ""
    drawn: bool = False


@dataclass(frozen=True, kw_only=True)
class Boxes:
    """Boxes to tick off by hand, one after the other.

    Attributes:
        says: what each stands for.
        count: how many.
        done: how many of them are ticked already.
    """

    says: str
    count: int
    done: int = 0


Block = Table | Paragraph | Caution | Heading | Findings | Working | Code | Boxes


@dataclass(frozen=True, kw_only=True)
class Page:
    """One answer to read.

    Attributes:
        title: what it answers.
        blocks: in reading order.
    """

    title: str
    blocks: tuple[Block, ...]


def table(
    heads: Sequence[str], rows: Sequence[Sequence[str]], *, right: Sequence[int] = (), title: str = "", note: str = "",
    wide: int = 0, links: Sequence[str] = (),
) -> Table:  # fmt: skip
    """A table from any sequences."""
    return Table(
        heads=tuple(heads),
        rows=tuple(tuple(row) for row in rows),
        right=tuple(right),
        title=title,
        note=note,
        wide=wide,
        links=tuple(links),
    )
