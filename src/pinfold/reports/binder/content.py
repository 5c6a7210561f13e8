"""A binder as plain data for the typesetter: only texts, numbers, lists and dictionaries."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from itertools import accumulate
from textwrap import shorten
from typing import cast

from pinfold.reports.binder.finding_data import findings_data, step_data
from pinfold.reports.binder.papers import page_for, page_of
from pinfold.reports.binder.records import Binder, BinderBlock, BinderPart, Card, Checklist, Paper, Sheet
from pinfold.reports.binder.sources import STANDINGS
from pinfold.reports.binder.table_data import table_data
from pinfold.reports.binder.wording import BREAK, all_worded, opened, worded
from pinfold.reports.pages import Boxes, Caution, Code, Findings, Heading, Paragraph, Table, Working
from pinfold.reports.square_code import svg_file
from pinfold.tables.shelf import kind
from pinfold.units import System

ABOUT = (
    "This binder holds one plan: drawings to scale, what was checked and how, mixes by the bag and bucket, "
    "and lists to buy and cut from. It is worked out from the plan file; when the plan changes, print it again "
    "and throw this one away.",
    "Every calculation sheet shows its equation, the figures put in and where they come from. "
    "NOT SHOWN means that something is missing: it is no pass.",
)
_CONTENTS_ROOM: dict[Paper, float] = {"letter": 500.0, "a4": 550.0}
"""Room for the contents on their page, in points; where all headings need more only the parts are listed."""
_PART_HIGH, _HEADING_HIGH = 17.5, 11.7
"""Height of a part and of a heading in the contents, in points."""
_SHORT = 70
"""Letters of the title at the head of a page."""
_COVER_LINES, _COVER_LETTERS = 26, 40
"""Of a box on the cover, under a title, place and verdict of one line each."""
_COVER_LINE = 60
"""Letters of place and verdict to a line of the cover, about."""
_PLAIN: dict[type, str] = {Paragraph: "paragraph", Caution: "paragraph", Heading: "heading"}


def content_of(binder: Binder) -> dict[str, object]:
    """Everything the template prints, empty parts left out, every text cleaned of control letters."""
    parts = [data for part in binder.parts if (data := part_data(part, binder))]
    return {
        "title": worded(binder.title),
        "short": shorten(worded(binder.title).replace(BREAK, ""), _SHORT, placeholder=" …"),
        "says": opened(worded(binder.says)),
        "printed_on": worded(binder.printed_on),
        "date": _date(binder.printed_on),
        "page": page_of(binder.paper),
        "summary": worded(binder.summary),
        "cautions": all_worded(binder.cautions),
        "failing": [opened(text) for text in all_worded(binder.failing)],
        "failing_shown": _on_cover(binder.failing, binder),
        "open": [opened(text) for text in all_worded(binder.open_points)],
        "open_shown": _on_cover(binder.open_points, binder),
        "about": list(ABOUT),
        "caution": kind("cautions", "engineer").says,
        "standings": [list(pair) for pair in STANDINGS.values()],
        "parts": parts,
        "depth": 2 if _contents_high(parts) <= _CONTENTS_ROOM[binder.paper] else 1,
    }


def day_of(printed_on: str) -> date | None:
    """The day when it is written as 2026-05-03, else None."""
    try:
        return date.fromisoformat(printed_on.strip())
    except ValueError:
        return None


def part_data(part: BinderPart, binder: Binder) -> dict[str, object] | None:
    """One chapter, or None when it has neither blocks, drawings nor cautions."""
    blocks = _blocks(part.blocks, binder.system)
    if not (blocks or part.sheets or part.cautions):
        return None
    return {
        "title": worded(part.title),
        "intro": worded(part.intro),
        "cautions": all_worded(part.cautions),
        "blocks": blocks,
        "sheets": [_sheet(sheet, binder) for sheet in part.sheets],
    }


def _blocks(blocks: Iterable[BinderBlock], system: System) -> list[dict[str, object]]:
    """Blocks as data; cautions that follow each other share a box."""
    found: list[dict[str, object]] = []
    for block in blocks:
        if isinstance(block, Caution) and block.text.strip():
            if not found or found[-1]["kind"] != "cautions":
                found.append({"kind": "cautions", "texts": []})
            cast("list[str]", found[-1]["texts"]).append(worded(block.text))
        else:
            found += _block(block, system)
    return found


def _on_cover(texts: tuple[str, ...], binder: Binder) -> int:
    """How many of several lines the box on the cover has room for, at least one."""
    above = sum(2 * (len(text) // _COVER_LINE) for text in (binder.title * 2, binder.says, binder.summary))
    above += sum(2 + len(text) // _COVER_LINE for text in binder.cautions)
    ends = accumulate(1 + len(text) // _COVER_LETTERS for text in texts if text.strip())
    return max(sum(end <= _COVER_LINES - above for end in ends), 1)


def _date(printed_on: str) -> list[int] | None:
    day = day_of(printed_on)
    return [day.year, day.month, day.day] if day else None


def _contents_high(parts: Sequence[dict[str, object]]) -> float:
    """What parts, their headings and the list before them take in the contents, in points."""
    blocks = [block for part in parts for block in cast("list[dict[str, object]]", part["blocks"])]
    headings = sum(block["kind"] in {"heading", "findings", "card"} for block in blocks)
    return (len(parts) + 1) * _PART_HIGH + headings * _HEADING_HIGH


def _block(block: BinderBlock, system: System) -> list[dict[str, object]]:
    """A block as data; nothing for an empty one, several for findings."""
    if isinstance(block, Findings):
        return findings_data(block.findings, system, working=block.working)
    if isinstance(block, Working):
        steps = [step_data(step, system) for step in block.steps]
        return [{"kind": "working", "steps": steps}] if steps else []
    if isinstance(block, Table):
        return [table_data(block)] if block.rows else []
    if isinstance(block, Checklist):
        return [table_data(block.table, boxes=len(block.table.rows) - block.sums)] if block.table.rows else []
    if isinstance(block, Card):
        return [_card(block, system)]
    if isinstance(block, Code):
        return [{"kind": "code", "svg": svg_file(block.address), "says": worded(block.says), "address": block.address}]
    if isinstance(block, Boxes):
        return [{"kind": "boxes", "says": worded(block.says), "count": block.count, "done": block.done}]
    text = opened(worded(block.text)) if isinstance(block, Heading) else worded(block.text)
    return [{"kind": _PLAIN[type(block)], "text": text}] if text.strip() else []


def _card(card: Card, system: System) -> dict[str, object]:
    title, says = opened(worded(card.title)), worded(card.says)
    half = any(isinstance(block, Code) for block in card.blocks)
    return {"kind": "card", "title": title, "says": says, "blocks": _blocks(card.blocks, system), "half": half}


def _sheet(sheet: Sheet, binder: Binder) -> dict[str, object]:
    return {
        "title": worded(sheet.title),
        "short": opened(worded(sheet.title.removeprefix(f"{binder.title}: "))),
        "scale": worded(sheet.scale),
        "svg": sheet.svg,
        "width": sheet.width_mm,
        "height": sheet.height_mm,
        "page": page_for(binder.paper, sheet.width_mm, sheet.height_mm),
    }
