"""Pages as HTML: the same blocks as on paper and in the terminal, each finding open to its working.

Every text is escaped and freed of letters that steer; nothing a builder or a data file says becomes markup.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from typing import Literal

from pinfold.reports.html_findings import findings_html, references_html, worked_html
from pinfold.reports.html_text import named, safe
from pinfold.reports.lessons_page import HEADING
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
)
from pinfold.units import System

_NUMBERED = re.compile(r"\d{1,2}\. ")
_SIDE_BY_SIDE = 3
"""So many columns have room on a phone; the rows of a table with more are stacked there."""
_SENTENCE = 40
"""Letters of a cell that leave no room for two others beside it there."""


def html_of(page: Page, system: System, *, boxes: bool = False, titled: bool = True) -> str:
    """The whole page as HTML for inside `main`.

    Args:
        page: what it says
        system: units of the findings
        boxes: whether every row of a table gets a box to tick
        titled: whether the title stands above it
    """
    title = [f"<h1>{safe(page.title)}</h1>"] if titled else []
    parts = [*title, *blocks_html(page.blocks, system, boxes=boxes)]
    return "\n".join(parts) + "\n"


def cards_html(page: Page, system: System) -> str:
    """A page as cards, one for each heading, then what the log taught; what stands before the first is left out."""
    sections = sections_of(page.blocks)
    cards = [section for section in sections if section[0] != Heading(text=HEADING)]
    names = named(block.text for card in cards for block in card[:1] if isinstance(block, Heading))
    parts = ['<div class="cards">']
    for name, card in zip(names, cards, strict=True):
        parts += [f'<article class="card" id="{name}">', *blocks_html(card, system), "</article>"]
    parts.append("</div>")
    for section in sections:
        if section not in cards:
            parts += blocks_html(section, system)
    return "\n".join(parts)


def sections_of(blocks: Iterable[Block]) -> list[list[Block]]:
    """Blocks from heading to heading; those before the first are left out."""
    found: list[list[Block]] = []
    for block in blocks:
        if isinstance(block, Heading):
            found.append([block])
        elif found:
            found[-1].append(block)
    return found


def blocks_html(blocks: Sequence[Block], system: System, *, boxes: bool = False) -> Iterator[str]:
    """Blocks in their order, what findings leave out and rest on at the end; paragraphs numbered one after the other
    become a list."""
    heading, names = "", Counter[str]()
    for numbered, alike in groupby(blocks, key=_is_numbered):
        if numbered:
            yield from _steps(block.text for block in alike if isinstance(block, Paragraph))
            continue
        for block in alike:
            heading = block.text if isinstance(block, Heading) else heading
            if isinstance(block, Table):
                yield from _table(block, _own_name(block, heading, names), boxes=boxes, under=heading)
            else:
                yield from _block(block, system)
    for block in blocks:
        if isinstance(block, Findings):
            yield from references_html(block.findings)


def _is_numbered(block: Block) -> bool:
    return isinstance(block, Paragraph) and _NUMBERED.match(block.text) is not None


def _steps(texts: Iterable[str]) -> Iterator[str]:
    """Steps keep the numbers they were given."""
    yield '<ol class="steps">'
    for text in texts:
        number, _, rest = text.partition(". ")
        yield f'<li value="{number}">{safe(rest)}</li>'
    yield "</ol>"


def _block(block: Block, system: System) -> Iterator[str]:
    if isinstance(block, Heading):
        yield f"<h2>{safe(block.text)}</h2>"
    elif isinstance(block, Paragraph):
        yield f"<p>{_running(block)}</p>"
    elif isinstance(block, Caution):
        yield f'<p class="caution">{safe(block.text)}</p>'
    elif isinstance(block, Code):
        yield from _code(block)
    elif isinstance(block, Boxes):
        yield f'<p class="boxes"><span>{safe(block.says)}:</span> {_boxes(block)}</p>'
    elif isinstance(block, Working):
        yield f'<details class="worked"><summary>{WORKED}</summary>'
        yield from worked_html(block.steps, block.figures, system)
        yield "</details>"
    elif isinstance(block, Findings):
        yield from findings_html(block, system)


def _running(block: Paragraph) -> str:
    links = ", ".join(f'<a href="{safe(address)}">{safe(words)}</a>' for words, address in block.links)
    return " ".join(part for part in (safe(block.on_screen or block.text), links) if part)


def _code(block: Code) -> Iterator[str]:
    from pinfold.reports.square_code import svg_of

    link = f' <a class="screen" href="{safe(block.here)}">Open it here</a>' if block.here else ""
    yield f'<div class="code">{svg_of(block.address)}<p>{safe(block.says)}{link}</p></div>'


def _boxes(block: Boxes) -> str:
    ticks = [f'<span class="box{" done" if number < block.done else ""}"></span>' for number in range(block.count)]
    told = f'<span class="unseen">{block.done} of {block.count} done</span>'
    return f'{told}<span aria-hidden="true">{" ".join(ticks)}</span>'


def _own_name(table: Table, under: str, names: Counter[str]) -> str:
    """What a table is called by those who only hear the page: its heading with its title or its first column; no other
    of those in `names` is called so."""
    name = ", ".join(word for word in (under, table.title or table.heads[0]) if word) or "table"
    names[name] += 1
    return name if names[name] == 1 else f"{name}, part {names[name]}"


def _table(table: Table, name: str, *, boxes: bool, under: str) -> Iterator[str]:
    """A table in a frame that scrolls by itself; nothing for one without rows.

    Args:
        table: the rows
        name: what it is called
        boxes: whether each row gets a box to tick
        under: heading it stands under, for the names of its ticks
    """
    if not table.rows:
        return
    yield f'<div class="sheet" tabindex="0" role="region" aria-label="{safe(name)}">'
    yield '<table class="stacks">' if _is_wide(table) else "<table>"
    if table.title:
        yield f"<caption>{safe(table.title)}</caption>"
    heads = "".join(_cell(text, place, table, "th") for place, text in enumerate(table.heads))
    tick = '<th scope="col" class="tick"><span class="unseen">done</span></th>' if boxes else ""
    yield f"<thead><tr>{tick}{heads}</tr></thead>"
    yield "<tbody>"
    seen: Counter[str] = Counter()
    for number, row in enumerate(table.rows):
        link = table.links[number] if table.links else ""
        cells = "".join(_cell(text, place, table, "td", "" if place else link) for place, text in enumerate(row))
        lead = ": ".join(word for word in (under, table.title, row[0].partition(" x ")[0]) if word)
        seen[lead] += 1
        yield f"<tr>{_tick(row, lead, seen[lead]) if boxes else ''}{cells}</tr>"
    yield "</tbody></table></div>"
    if table.note:
        yield f'<p class="note">{safe(table.note)}</p>'


def _is_wide(table: Table) -> bool:
    """Whether its cells stand under each other on a small screen: many to a row, or a sentence beside two others."""
    columns = len(table.heads)
    told = any(len(text) > _SENTENCE for row in table.rows for text in row)
    return columns > _SIDE_BY_SIDE or (columns == _SIDE_BY_SIDE and told)


def _tick(row: tuple[str, ...], lead: str, number: int) -> str:
    """A box that a script keeps ticked by what the row begins with, so that it lasts while amounts change.

    Args:
        row: cells
        lead: what it begins with, and what it stands under
        number: which of the rows that begin so, from 1
    """
    what = " ".join(text for text in row[:2] if text) + (f", {number}" if number > 1 else "")
    key = lead if number == 1 else f"{lead}, {number}"
    return (
        f'<td class="tick"><label><input type="checkbox" data-tick="{safe(key)}">'
        f'<span class="unseen">{safe(what)}: done</span></label></td>'
    )


def _cell(text: str, place: int, table: Table, tag: Literal["th", "td"], link: str = "") -> str:
    sorts = {
        "figure": place in table.right,
        "wide": place == table.wide,
        "lead": place == 0 and place not in table.right,
    }
    sort = " ".join(name for name, fits in sorts.items() if fits)
    of_sort = f' class="{sort}"' if sort else ""
    if tag == "th" and not text:
        return f"<td{of_sort}></td>"  # a head that says nothing is none
    if tag == "th":
        return f'<th scope="col"{of_sort}>{safe(text)}</th>'
    head = f' data-head="{safe(table.heads[place])}"' if text and table.heads[place] else ""
    shown = f'<a href="{safe(link)}">{safe(text)}</a>' if link else safe(text)
    return f"<td{of_sort}{head}>{shown}</td>"
