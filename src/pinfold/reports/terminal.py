"""Pages as text for a terminal, 80 columns wide unless told."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from pinfold.findings import Finding, by_urgency
from pinfold.reports.pages import Block, Caution, Findings, Heading, Page, Paragraph, Table
from pinfold.reports.working import line_of
from pinfold.units import System, show


def text_of(page: Page, system: System, *, width: int = 80) -> str:
    """The whole page; no line is longer than the width unless a single word is."""
    lines = [page.title, "=" * min(len(page.title), width)]
    for block in page.blocks:
        lines.append("")
        lines.extend(_lines(block, system, width))
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _lines(block: Block, system: System, width: int) -> Iterator[str]:
    if isinstance(block, Heading):
        yield block.text
        yield "-" * min(len(block.text), width)
    elif isinstance(block, Paragraph):
        yield from _wrapped(block.text, width)
    elif isinstance(block, Caution):
        yield from _wrapped(block.text, width, first="! ", rest="  ")
    elif isinstance(block, Table):
        yield from _table(block, width)
    else:
        yield from _findings(block, system, width)


def _wrapped(text: str, width: int, *, first: str = "", rest: str = "") -> list[str]:
    return textwrap.wrap(text, width, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False) or [""]


def _table(table: Table, width: int) -> Iterator[str]:
    if table.title:
        yield from _wrapped(table.title, width)
    widths = _widths(table, width)
    yield "  ".join(_cell(head, widths[place], place, table) for place, head in enumerate(table.heads))
    yield "  ".join("-" * size for size in widths)
    for row in table.rows:
        yield from _row(row, widths, table)
    if table.note:
        yield from _wrapped(table.note, width)


def _widths(table: Table, width: int) -> list[int]:
    widths = [
        max([len(head), *(len(row[place]) for row in table.rows)]) for place, head in enumerate(table.heads)
    ]
    over = sum(widths) + 2 * (len(widths) - 1) - width
    order = [table.wide, *sorted(set(range(len(widths))) - {table.wide}, key=lambda place: -widths[place])]
    for place in order:
        if over <= 0:
            break
        taken = min(over, max(widths[place] - max(len(table.heads[place]), 10), 0))
        widths[place] -= taken
        over -= taken
    return widths


def _cell(text: str, size: int, place: int, table: Table) -> str:
    return text.rjust(size) if place in table.right else text.ljust(size)


def _row(row: tuple[str, ...], widths: list[int], table: Table) -> Iterator[str]:
    cells = [textwrap.wrap(text, size) or [""] for text, size in zip(row, widths, strict=True)]
    for number in range(max(map(len, cells))):
        parts = [cell[number] if number < len(cell) else "" for cell in cells]
        yield "  ".join(_cell(part, widths[place], place, table) for place, part in enumerate(parts))


def _findings(block: Findings, system: System, width: int) -> Iterator[str]:
    for finding in by_urgency(block.findings):
        yield from _finding(finding, system, width)
        if block.working:
            yield from _working(finding, system, width)


def _finding(finding: Finding, system: System, width: int) -> Iterator[str]:
    head = f"{finding.verdict.value:<9}  {finding.check}, {finding.subject}"
    yield from _wrapped(head + numbers_of(finding, system), width, rest=" " * 11)
    for text in (finding.because, finding.mend and f"Mend: {finding.mend}", finding.caution and f"! {finding.caution}"):
        if text:
            yield from _wrapped(text, width, first=" " * 11, rest=" " * 11)


def numbers_of(finding: Finding, system: System) -> str:
    """`: 12 psf of 30 psf (40 %)`, or nothing when not shown."""
    if finding.use is None or finding.demand is None or finding.capacity is None:
        return ""
    share = "over" if finding.use == float("inf") else f"{finding.use:.0%}"
    return f": {show(finding.demand, finding.unit, system)} of {show(finding.capacity, finding.unit, system)} ({share})"


def _working(finding: Finding, system: System, width: int) -> Iterator[str]:
    for step in finding.working:
        line = line_of(step, system)
        equation = f": {line.equation}" if line.equation else ""
        yield from _wrapped(f"{line.says}{equation}", width, first=" " * 13, rest=" " * 15)
        yield from _wrapped(f"{', '.join(line.put_in)} → {line.gives}", width, first=" " * 15, rest=" " * 15)
        yield from _wrapped(line.source, width, first=" " * 15, rest=" " * 15)
    if finding.left_out:
        yield from _wrapped(f"Left out: {finding.left_out}", width, first=" " * 13, rest=" " * 13)
