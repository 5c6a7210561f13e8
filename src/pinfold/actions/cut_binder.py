"""The binder's chapters of cutting: part list, cut sheets with boxes and pictures, sheets and rolls, labels."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from pinfold.actions.cut_flat import rolls_of, sheets_of
from pinfold.actions.cut_labels import labels_for
from pinfold.actions.cut_pieces import CutAsked, parts_by_mark, pieces_of, told_first
from pinfold.actions.sites import Site
from pinfold.plan.enclosure import Paper
from pinfold.reports.binder.records import BinderBlock, BinderPart, Sheet, ticked
from pinfold.reports.cut_flat import ROLLS_HOW, SHEETS_HOW, flat_blocks, paper_sheets
from pinfold.reports.cut_labels import HOW, SHEETS, label_sheets
from pinfold.reports.cut_page import cut_page
from pinfold.reports.cut_picture import LEGEND, paper_pictures
from pinfold.reports.cut_pieces import buying, opening, section_blocks
from pinfold.reports.cut_words import MESH_CAUTION, cautions
from pinfold.reports.pages import Block, Heading, Paragraph

TITLES = ("What to cut", "Out of which pieces", "Labels")
_HIGH = {Paper.LETTER: 215.0, Paper.A4: 232.0}
"""Most of a page that pictures take, in mm."""
_LABELS = 12
"""Sheets of labels in a binder; their page prints all."""


def cut_parts(site: Site, *, wide_mm: float) -> tuple[BinderPart, ...]:
    """The chapters.

    Args:
        site: as read
        wide_mm: width of a picture on paper
    """
    plan = site.plan
    listed = cut_page(plan.name, tuple(parts_by_mark(site).values()), plan.units).blocks
    return (
        BinderPart(title=TITLES[0], blocks=ticked(listed)),
        BinderPart(
            title=TITLES[1], blocks=tuple(_blocks(site)), sheets=tuple(_pictures(site, wide_mm)),
            cautions=(*cautions(plan.cutting), MESH_CAUTION),
        ),
        _labels(site),
    )  # fmt: skip


def _blocks(site: Site) -> Iterator[BinderBlock]:
    plan, prices, by_mark = site.plan, site.lessons.prices, parts_by_mark(site)
    sections = pieces_of(site, CutAsked())
    yield from (Paragraph(text=text) for text in told_first(site))
    yield from (Paragraph(text=text) for text in opening(sections, prices, plan.cutting, plan.units))
    yield Paragraph(text=f"Pictures of the pieces stand at the end of this chapter. {LEGEND}")
    to_buy = buying(sections, prices, plan.units)
    blocks: list[Block] = [to_buy] if to_buy is not None else []
    for section in sections:
        blocks += section_blocks(section, by_mark, prices, plan.units)
    for how, flat in ((SHEETS_HOW, sheets_of(site)), (ROLLS_HOW, rolls_of(site))):
        if flat:
            heading = "Sheets" if how is SHEETS_HOW else "Rolls"
            blocks += [Heading(text=heading), Paragraph(text=how)]
            blocks += [block for each in flat for block in flat_blocks(each, by_mark, prices, plan.units)]
    yield from ticked(blocks)


def _pictures(site: Site, wide_mm: float) -> Iterator[Sheet]:
    system = site.plan.units
    sections = [(section.says, section.pieces) for section in pieces_of(site, CutAsked())]
    pages = paper_pictures(sections, system, wide_mm=wide_mm, high_mm=_HIGH[site.plan.paper])
    for number, (svg, high) in enumerate(pages, start=1):
        title = "Pieces with their cuts" + (f", {number}" if number > 1 else "")
        yield Sheet(title=title, svg=svg, width_mm=wide_mm, height_mm=high)
    flat = [sheet for each in sheets_of(site) for sheet in each.sheets]
    for svg, high in paper_sheets(flat, system, wide_mm=wide_mm, high_mm=_HIGH[site.plan.paper]):
        yield Sheet(title="Sheets with their cuts", svg=svg, width_mm=wide_mm, height_mm=high)


def _labels(site: Site) -> BinderPart:
    labels, paper = labels_for(site, each=False), site.plan.paper.value
    lay = SHEETS[paper]
    sheets = tuple(
        Sheet(title=f"Labels, sheet {number}", svg=svg, width_mm=lay.wide, height_mm=lay.high)
        for number, svg in enumerate(islice(label_sheets(labels, paper, site.plan.units), _LABELS), start=1)
    )
    more = -(-len(labels) // lay.many) - len(sheets)
    left_out = f" {more} further sheets print from the page of labels." if more > 0 else ""
    return BinderPart(title=TITLES[2], intro=f"{HOW}{left_out}" if sheets else "", sheets=sheets)
