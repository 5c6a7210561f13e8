"""A binder as plain data for the typesetter: only texts, numbers, lists and dictionaries."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from datetime import date
from typing import cast

from pinfold.reports.binder.finding_data import findings_data
from pinfold.reports.binder.papers import page_for, page_of
from pinfold.reports.binder.records import Binder, BinderBlock, BinderPart, Card, Checklist, Sheet
from pinfold.reports.binder.sources import STANDINGS
from pinfold.reports.pages import Caution, Findings, Heading, Paragraph, Table
from pinfold.reports.printable import printable
from pinfold.tables.shelf import kind
from pinfold.units import System

ABOUT = (
    "This binder holds one plan: drawings to scale, what was checked and how, mixes by the bag and bucket, "
    "and lists to buy and cut from. It is worked out from the plan file; when the plan changes, print it again "
    "and throw this one away.",
    "Every calculation sheet shows its equation, the figures put in and where they come from. "
    "NOT SHOWN means that something is missing: it is no pass.",
)
_ROOM = 92
"""Letters in a line of table text across a page, about."""
_LONGEST_WORD = 24
_LONGEST_CONTENTS = 34


def content_of(binder: Binder) -> dict[str, object]:
    """Everything the template prints, empty parts left out, every text cleaned of control letters."""
    parts = [data for part in binder.parts if (data := part_data(part, binder))]
    return {
        "title": printable(binder.title),
        "says": printable(binder.says),
        "printed_on": printable(binder.printed_on),
        "date": _date(binder.printed_on),
        "page": page_of(binder.paper),
        "summary": printable(binder.summary),
        "failing": _texts(binder.failing),
        "open": _texts(binder.open_points),
        "about": list(ABOUT),
        "caution": kind("cautions", "engineer").says,
        "standings": [list(pair) for pair in STANDINGS.values()],
        "parts": parts,
        "depth": 2 if _headings(parts) <= _LONGEST_CONTENTS else 1,
    }


def day_of(printed_on: str) -> date | None:
    """The day when it is written as 2026-05-03, else None."""
    try:
        return date.fromisoformat(printed_on.strip())
    except ValueError:
        return None


def part_data(part: BinderPart, binder: Binder) -> dict[str, object] | None:
    """One chapter, or None when it has neither blocks, drawings nor cautions."""
    blocks = [data for block in part.blocks for data in _block(block, binder.system)]
    if not (blocks or part.sheets or part.cautions):
        return None
    return {
        "title": printable(part.title),
        "intro": printable(part.intro),
        "cautions": _texts(part.cautions),
        "blocks": blocks,
        "sheets": [_sheet(sheet, binder) for sheet in part.sheets],
    }


def _date(printed_on: str) -> list[int] | None:
    day = day_of(printed_on)
    return [day.year, day.month, day.day] if day else None


def _texts(texts: Iterable[str]) -> list[str]:
    return [printable(text) for text in texts if text.strip()]


def _headings(parts: Iterable[dict[str, object]]) -> int:
    blocks = [block for part in parts for block in cast("list[dict[str, object]]", part["blocks"])]
    return sum(block["kind"] in {"heading", "findings", "card"} for block in blocks)


def _block(block: BinderBlock, system: System) -> list[object]:
    """A block as data; nothing for an empty one, several for findings."""
    if isinstance(block, Findings):
        return findings_data(block.findings, system, working=block.working)
    if isinstance(block, Checklist):
        return _table(block.table, boxes=len(block.table.rows) - block.sums)
    if isinstance(block, Card):
        return [_card(block, system)]
    return _PLAIN[type(block)](block)


def _card(card: Card, system: System) -> dict[str, object]:
    inside = [data for block in card.blocks for data in _block(block, system)]
    return {"kind": "card", "title": printable(card.title), "says": printable(card.says), "blocks": inside}


def _said(word: str) -> Callable[[BinderBlock], list[object]]:
    def data(block: BinderBlock) -> list[object]:
        text = printable(cast("Paragraph", block).text)
        return [{"kind": word, "text": text}] if text.strip() else []

    return data


def _table(table: Table, *, boxes: int = -1) -> list[object]:
    if not table.rows:
        return []
    return [
        {
            "kind": "table",
            "title": printable(table.title),
            "note": printable(table.note),
            "heads": _texts_all(table.heads),
            "rows": [_texts_all(row) for row in table.rows],
            "right": list(table.right),
            "stretch": _stretched(table),
            "boxes": boxes,
        }
    ]


def _texts_all(cells: Iterable[str]) -> list[str]:
    return [_breakable(printable(cell)) for cell in cells]


def _breakable(text: str) -> str:
    """A text whose overlong words may break anywhere, so that no cell runs into the next."""
    return re.sub(rf"\S{{{_LONGEST_WORD},}}", lambda word: "\u200b".join(word[0]), text)


def _stretched(table: Table) -> int:
    """The column that takes the spare width; -1 when the text is so long that all columns share."""
    natural = [max(map(len, column)) for column in zip(table.heads, *table.rows, strict=True)]
    rest = sum(natural) - natural[table.wide] + 3 * len(natural)
    return table.wide if rest + min(natural[table.wide], _ROOM // 3) <= _ROOM else -1


def _sheet(sheet: Sheet, binder: Binder) -> dict[str, object]:
    return {
        "title": printable(sheet.title),
        "scale": printable(sheet.scale),
        "svg": sheet.svg,
        "width": sheet.width_mm,
        "height": sheet.height_mm,
        "page": page_for(binder.paper, sheet.width_mm, sheet.height_mm),
    }


_PLAIN: dict[type, Callable[..., list[object]]] = {
    Table: _table, Paragraph: _said("paragraph"), Caution: _said("caution"), Heading: _said("heading"),
}  # fmt: skip
