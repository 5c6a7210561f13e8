"""A long page as HTML: jumps to its parts on top, long ones folded under their headings; on paper all are open."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from pinfold.reports.html import blocks_html, sections_of
from pinfold.reports.html_text import named, safe
from pinfold.reports.pages import Block, Heading, Page, Paragraph, Table
from pinfold.units import System

_WIDE = 40
"""Letters in a line on a phone."""
_LONG = 60
"""Lines there from which on a part is folded."""


def folded_html(page: Page, system: System, *, unfolded: Collection[str] = ()) -> str:
    """The page without its title as HTML for inside `main`; a jump opens what it goes to.

    Args:
        page: what it says
        system: units of the findings
        unfolded: headings of long parts that are open from the start, as short ones are
    """
    parts = sections_of(page.blocks)
    before = page.blocks[: len(page.blocks) - sum(map(len, parts))]
    heads = [block.text for part in parts for block in part[:1] if isinstance(block, Heading)]
    names = [f"on-{name}" for name in named(heads)]
    lines = [*_jumps(heads, names), *blocks_html(before, system)]
    for head, name, part in zip(heads, names, parts, strict=True):
        lines += _folded(part, name, system, is_open=head in unfolded or _high(part) < _LONG)
    return "\n".join(lines) + "\n"


def _jumps(heads: Sequence[str], names: Sequence[str]) -> Iterator[str]:
    yield '<nav class="jumps screen" aria-label="Parts of this page"><ul>'
    for head, name in zip(heads, names, strict=True):
        yield f'<li><a href="#{name}">{safe(head)}</a></li>'
    yield "</ul></nav>"


def _folded(part: Sequence[Block], name: str, system: System, *, is_open: bool) -> Iterator[str]:
    """A part under its heading; its name is inside, so that who jumps there finds it open."""
    head, *rest = blocks_html(part, system)
    yield f'<details class="part"{" open" if is_open else ""}><summary>{head}</summary><div id="{name}">'
    yield from rest
    yield "</div></details>"


def _high(part: Sequence[Block]) -> int:
    """Lines that the tables and paragraphs of a part take on a phone, where cells stand under each other."""
    texts = [block.text for block in part if isinstance(block, Paragraph)]
    for block in part:
        if isinstance(block, Table):
            texts += [block.note, *(text for row in block.rows for text in row)]
    return sum(1 + len(text) // _WIDE for text in texts)
