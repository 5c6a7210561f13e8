"""Pages as text for a terminal, 80 columns wide unless told."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Iterator, Sequence

from pinfold.figures import Figure
from pinfold.findings import Finding, Step, by_urgency
from pinfold.reports.alike import holding_groups, open_groups, subjects
from pinfold.reports.pages import (
    WORKED,
    Block,
    Boxes,
    Caution,
    Code,
    Findings,
    Heading,
    Page,
    Paragraph,
    Table,
    Working,
    table,
)
from pinfold.reports.printable import printable
from pinfold.reports.sides import side
from pinfold.reports.working import keys_of, line_of, shown
from pinfold.sources import publication
from pinfold.units import System

_GAP = 2
"""Spaces between two columns of a table."""
_NARROWEST = 28
"""Letters that a column with running text keeps as long as the others can do without."""


def text_of(page: Page, system: System, *, width: int = 80) -> str:
    """The whole page; no line is longer than the width unless a single word is."""
    lines = _headed(page.title, "=", width)
    for block in (block for block in page.blocks if not isinstance(block, Table) or block.rows):
        lines.append("")
        lines.extend(_lines(block, system, width))
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _lines(block: Block, system: System, width: int) -> Iterator[str]:
    if isinstance(block, Heading):
        yield from _headed(block.text, "-", width)
    elif isinstance(block, Paragraph):
        yield from _wrapped(block.text, width)
    elif isinstance(block, Caution):
        yield from _wrapped(block.text, width, first="! ", rest="  ")
    elif isinstance(block, Table):
        yield from _table(block, width)
    elif isinstance(block, Code):
        yield from _code(block, width)
    elif isinstance(block, Boxes):
        yield from _wrapped(f"{block.says}: {block.done} of {block.count} done", width)
    elif isinstance(block, Working):
        yield from _headed(WORKED, "-", width)
        yield from _worked(block.steps, system, width, indent=0)
        yield from _put_in(block.figures, system, width, indent=0)
    else:
        yield from _findings(block, system, width)


def _code(block: Code, width: int) -> Iterator[str]:
    from pinfold.reports.square_code import lines_of

    yield from _wrapped(block.says, width)
    yield block.address
    if block.drawn:
        yield from lines_of(block.address)


def _headed(text: str, mark: str, width: int) -> list[str]:
    lines = _wrapped(text, width)
    return [*lines, mark * min(max(map(len, lines)), width)]


def _wrapped(text: str, width: int, *, first: str = "", rest: str = "") -> list[str]:
    wrapper = textwrap.TextWrapper(
        width=width,
        initial_indent=first,
        subsequent_indent=rest,
        break_on_hyphens=False,
        break_long_words=False,
    )
    return wrapper.wrap(printable(text)) or [""]


def _table(table: Table, width: int) -> Iterator[str]:
    if table.title:
        yield from _wrapped(table.title, width)
    widths = _widths(table, width)
    if widths:
        yield from _row(table.heads, widths, table)
        yield (" " * _GAP).join("-" * size for size in widths)
        for row in table.rows:
            yield from _row(row, widths, table)
    else:
        yield from _stacked(table, width)
    if table.note:
        yield from _wrapped(table.note, width)


def _widths(table: Table, width: int) -> list[int]:
    """Widths of the columns; none when even the longest words have no room side by side.

    Only the wide column breaks over lines as long as that is enough; then all share, the narrow ones served first, and
    figures keep together while they can.
    """
    columns = [[printable(cell) for cell in column] for column in zip(table.heads, *table.rows, strict=True)]
    whole = [max(map(len, column)) for column in columns]
    least = [max(_longest_word(cell) for cell in column) for column in columns]
    room = width - _GAP * (len(columns) - 1)
    wide, figures = list(whole), list(least)
    if columns:
        wide[table.wide] = max(least[table.wide], min(whole[table.wide], _NARROWEST))
    for place in table.right:
        figures[place] = max([least[place], *map(len, columns[place][1:])])
    for floor in (whole, wide, figures, least):
        if sum(floor) <= room:
            return _grown(floor, whole, room - sum(floor))
    return []


def _grown(floor: list[int], whole: list[int], spare: int) -> list[int]:
    """Widths from a floor toward the whole text, one letter at a time to the narrowest."""
    widths = list(floor)
    for _ in range(spare):
        growing = [place for place, size in enumerate(widths) if size < whole[place]]
        if not growing:
            break
        widths[min(growing, key=lambda place: widths[place])] += 1
    return widths


def _longest_word(text: str) -> int:
    return max(map(len, re.split(r"[\t\n\x0b\x0c\r ]+", text)))


def _row(row: tuple[str, ...], widths: list[int], table: Table) -> Iterator[str]:
    cells = [_wrapped(text, max(size, 1)) for text, size in zip(row, widths, strict=True)]
    for number in range(max(map(len, cells), default=0)):
        parts = [cell[number] if number < len(cell) else "" for cell in cells]
        yield (" " * _GAP).join(
            part.rjust(widths[place]) if place in table.right else part.ljust(widths[place])
            for place, part in enumerate(parts)
        )


def _stacked(table: Table, width: int) -> Iterator[str]:
    """Row under row, each cell after its head, a line between rows."""
    for number, row in enumerate(table.rows):
        if number:
            yield ""
        for head, text in zip(table.heads, row, strict=True):
            if text.strip():
                yield from _wrapped(f"{head}: {text}", width, rest="    ")


def _findings(block: Findings, system: System, width: int) -> Iterator[str]:
    if block.working or block.each:
        yield from _one_by_one(block, system, width)
    else:
        yield from _together(block, system, width)
    if block.working:
        yield from _sources(block, width)
    else:
        yield from _left_out(block, width)


def _one_by_one(block: Findings, system: System, width: int) -> Iterator[str]:
    warned: set[str] = set()
    for finding in by_urgency(block.findings):
        yield from _finding((finding,), system, width)
        yield from _cautions((finding,), warned, width)
        if block.working:
            yield from _working(finding, system, width)


def _together(block: Findings, system: System, width: int) -> Iterator[str]:
    """What fails or is not shown, for each reason once; what holds, check by check."""
    warned: set[str] = set()
    for group in open_groups(block.findings):
        yield from _finding(group, system, width)
        yield from _cautions(group, warned, width)
    holding = holding_groups(block.findings)
    if not holding:
        return
    rows = [
        (group[0].check, group[0].subject, f"{group[0].use:.0%}", str(len(group))) for group in holding
    ]  # fmt: skip
    yield ""
    yield from _table(table(("holds", "nearest its limit", "used", "of"), rows, right=(2, 3), wide=1), width)
    yield from _wrapped(_CONDITIONS, width)
    for group in holding:
        yield from _cautions(group, warned, width)


_CONDITIONS = (
    "Each of them holds on conditions: 'pinfold stand --each' tells them one by one, 'pinfold stand --working' with "
    "all figures."
)


def _cautions(findings: Iterable[Finding], warned: set[str], width: int) -> Iterator[str]:
    """What of their cautions was not given before, sentence by sentence."""
    for finding in findings:
        fresh = [said for said in _SENTENCES.split(finding.caution) if said and said not in warned]
        warned.update(fresh)
        if fresh:
            yield from _wrapped(f"! {' '.join(fresh)}", width, first=" " * 11, rest=" " * 13)


_SENTENCES = re.compile(r"(?<=[.!?])\s+(?=[A-Z])")


def _left_out(block: Findings, width: int) -> Iterator[str]:
    """What each check does not look at, once."""
    told = {finding.left_out: finding.check for finding in block.findings if finding.left_out}
    if told:
        yield ""
        yield "Left out"
    for text, check in sorted(told.items(), key=lambda pair: (pair[1], pair[0])):
        yield from _wrapped(f"{check}: {text}", width, rest="  ")


def _sources(block: Findings, width: int) -> Iterator[str]:
    keys = {key for finding in block.findings for step in finding.working for key in keys_of(step)}
    keys |= {figure.source for finding in block.findings for _, figure in finding.figures}
    yield ""
    yield "Sources"
    for key in sorted(keys):
        yield from _wrapped(f"{key}: {publication(key).title}", width, rest="  ")


def _finding(group: Sequence[Finding], system: System, width: int) -> Iterator[str]:
    """One finding, or several of one check with one reason: the worst of them with its numbers."""
    finding = group[0]
    head = f"{finding.verdict.value:<9}  {finding.check}, {subjects(group)}{numbers_of(finding, system)}"
    yield from _wrapped(
        f"{head}{' the worst' if len(group) > 1 and finding.use is not None else ''}", width, rest=" " * 11
    )
    for text in (finding.because, finding.mend and f"Mend: {finding.mend}"):
        if text:
            yield from _wrapped(text, width, first=" " * 11, rest=" " * 11)


def numbers_of(finding: Finding, system: System) -> str:
    """`: 12 psf of 30 psf (40 %)`, or nothing when not shown."""
    if finding.use is None or finding.demand is None or finding.capacity is None:
        return ""
    share = "over" if finding.use == float("inf") else f"{finding.use:.0%}"
    return f": {side(finding.demand, finding, system)} of {side(finding.capacity, finding, system)} ({share})"


def _working(finding: Finding, system: System, width: int) -> Iterator[str]:
    yield from _worked(finding.working, system, width, indent=13)
    yield from _put_in(finding.figures, system, width, indent=13)
    if finding.left_out:
        yield from _wrapped(f"Left out: {finding.left_out}", width, first=" " * 13, rest=" " * 13)


def _worked(steps: Sequence[Step], system: System, width: int, *, indent: int) -> Iterator[str]:
    first, rest = " " * indent, " " * (indent + 2)
    for step in steps:
        line = line_of(step, system)
        equation = f": {line.equation}" if line.equation else ""
        why = f" ({line.why})" if line.why else ""
        yield from _wrapped(f"{line.says}{why}{equation}", width, first=first, rest=rest)
        yield from _wrapped(f"{', '.join(line.put_in)} → {line.gives}", width, first=rest, rest=rest)
        yield from _wrapped(line.keys, width, first=rest, rest=rest)


def _put_in(figures: Sequence[tuple[str, Figure]], system: System, width: int, *, indent: int) -> Iterator[str]:
    if figures:
        told = ", ".join(_figure(name, figure, system) for name, figure in figures)
        yield from _wrapped(f"Figures: {told}", width, first=" " * indent, rest=" " * (indent + 2))


def _figure(name: str, figure: Figure, system: System) -> str:
    """`friction 0.25 (IBC-1806, read)`."""
    return f"{name} {shown(figure.value, figure.unit, system)} ({figure.source}, {figure.standing})"
