"""The part list as a page."""

from __future__ import annotations

from collections.abc import Sequence

from pinfold.reports.cut_words import whole
from pinfold.reports.pages import Block, Heading, Page, Paragraph, Table, table
from pinfold.studies.quantities.records import Part
from pinfold.units import System, tape

_WOOD = "Wood; the plan does not know its species, so low strengths are taken: choose straight and sound."
HOW = (
    "Write the mark on the face of each piece as you cut it. Under each table: how true its parts must be, what may be "
    "in them, and which way up they go."
)


def cut_page(name: str, parts: Sequence[Part], system: System) -> Page:
    """Every part under the kind it is cut from."""
    blocks: list[Block] = [Paragraph(text=HOW)]
    for says in dict.fromkeys(part.kind.says for part in parts):
        alike = [part for part in parts if part.kind.says == says]
        blocks += [Heading(text=says), parts_table(alike, system)]
    return Page(title=f"{name}: what to cut", blocks=tuple(blocks))


def parts_table(parts: Sequence[Part], system: System) -> Table:
    """Mark, what, count, size, ends and place of the parts of one kind, and what holds of each sort below."""
    flat = any(part.width is not None for part in parts)
    rows = []
    for part in parts:
        across = [tape(part.width, system) if part.width is not None else ""] if flat else []
        size = [*across, tape(part.length, system)]
        rows.append((part.mark, part.says, str(part.count), *size, part.ends, ", ".join(part.places)))
    heads = ("mark", "part", "count", *(["width"] if flat else []), "length", "ends", "where")
    right = (2, 3, 4) if flat else (2, 3)
    return table(heads, rows, right=right, wide=len(heads) - 1, note=_note(parts, system))


def _note(parts: Sequence[Part], system: System) -> str:
    sorts = {part.says: part for part in parts}
    told = [_WOOD] if parts[0].kind.word("material") == "wood" else []
    return " ".join((*told, *(_sort(part, system) for part in sorts.values())))


def _sort(part: Part, system: System) -> str:
    words = [f"to {whole(part.tolerance, system)} either way"]
    words += [f"may have {', '.join(sorted(part.allows))} in it"] if part.allows else []
    words += [part.up] if part.up else []
    return f"{part.says.capitalize()}: {'; '.join(words)}."
