"""The part list as a page."""

from __future__ import annotations

from collections.abc import Sequence

from pinfold.reports.pages import Block, Heading, Page, Paragraph, Table, table
from pinfold.studies.quantities.records import Part
from pinfold.units import System, tape


def cut_page(name: str, parts: Sequence[Part], system: System) -> Page:
    """Every part under the kind it is cut from."""
    blocks: list[Block] = [Paragraph(text="Write the mark on the face of each piece as you cut it.")]
    for says in dict.fromkeys(part.kind.says for part in parts):
        alike = [part for part in parts if part.kind.says == says]
        blocks += [Heading(text=says), parts_table(alike, system)]
    return Page(title=f"{name}: what to cut", blocks=tuple(blocks))


def parts_table(parts: Sequence[Part], system: System, *, boxes: bool = False) -> Table:
    """Mark, what, count, length, ends and place; a box to tick first where wanted."""
    rows = []
    for part in parts:
        cells = (part.mark, part.says, str(part.count), tape(part.length, system), part.ends, ", ".join(part.places))
        rows.append(("☐", *cells) if boxes else cells)
    heads = ("mark", "part", "count", "length", "ends", "where")
    if boxes:
        return table(("", *heads), rows, right=(3, 4), wide=6)
    return table(heads, rows, right=(2, 3), wide=5)
