"""Cut plans of a site for pages: each section with its picture and its table to tick off."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from pinfold.actions.answers import Answer, as_html, as_opening
from pinfold.actions.cut_flat import FlatAnswer, rolls_site, sheets_site
from pinfold.actions.cut_pieces import CutAsked, PiecesAnswer, cut_pieces, section_names
from pinfold.reports import cut_flat
from pinfold.reports.cut_flat import sheet_picture
from pinfold.reports.cut_picture import LEGEND, pieces_picture
from pinfold.reports.pages import Block, Heading


@dataclass(frozen=True, kw_only=True)
class SectionShown:
    """One section of a page.

    Attributes:
        says: its heading.
        picture: SVG of its pieces; empty where there is none.
        body: its table to tick off.
    """

    says: str
    picture: str
    body: str


@dataclass(frozen=True, kw_only=True)
class CutShown:
    """What a page shows.

    Attributes:
        title: of the answer.
        opening: what stands before the first section.
        sections: each by itself.
        legend: of the pictures.
        names: sections that can be asked for alone: name, what it is.
    """

    title: str
    opening: str
    sections: tuple[SectionShown, ...]
    legend: str
    names: tuple[tuple[str, str], ...] = ()


def pieces_shown(folder: Path, asked: CutAsked) -> CutShown:
    """Lengths; raises as `cut_pieces`."""
    answer = cut_pieces(folder, asked)
    assert isinstance(answer.record, PiecesAnswer)
    pictures = (pieces_picture(each.pieces, answer.system) for each in answer.record.sections)
    return _shown(answer, pictures, LEGEND, section_names(folder))


def sheets_shown(folder: Path) -> CutShown:
    """Sheets; raises as `sheets_site`."""
    answer = sheets_site(folder)
    assert isinstance(answer.record, FlatAnswer)
    pictures = ("".join(sheet_picture(sheet, answer.system) for sheet in each.sheets) for each in answer.record.found)
    return _shown(answer, pictures, cut_flat.LEGEND)


def rolls_shown(folder: Path) -> CutShown:
    """Rolls; raises as `rolls_site`."""
    answer = rolls_site(folder)
    assert isinstance(answer.record, FlatAnswer)
    return _shown(answer, ("" for _ in answer.record.found), "")


def _shown(
    answer: Answer, pictures: Iterable[str], legend: str, names: tuple[tuple[str, str], ...] = ()
) -> CutShown:  # fmt: skip
    blocks = answer.page.blocks
    heads = [at for at, block in enumerate(blocks) if isinstance(block, Heading)]
    ends = [*heads[1:], len(blocks)][: len(heads)]
    sections = tuple(
        SectionShown(says=_says(blocks[start]), picture=picture, body=_body(answer, blocks[start + 1 : end]))
        for start, end, picture in zip(heads, ends, pictures, strict=True)
    )
    return CutShown(
        title=answer.page.title, opening=as_opening(answer), sections=sections, legend=legend if sections else "",
        names=names,
    )  # fmt: skip


def _says(block: Block) -> str:
    assert isinstance(block, Heading)
    return block.text


def _body(answer: Answer, blocks: Sequence[Block]) -> str:
    return as_html(replace(answer, page=replace(answer.page, blocks=tuple(blocks))), boxes=True, titled=False)
