"""Sheets and rolls: which gives what, the cuts in their order, what is left over; pictures of the sheets."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from html import escape

from pinfold.plan.stock import Prices
from pinfold.reports.cut_picture import INK, QUIET, WASH
from pinfold.reports.cut_words import CAUTIONS, MESH_CAUTION, fine, lacking, sure
from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, table
from pinfold.studies.parts.flat_cut import CutThrough, FlatCut, Patch, RollPiece, SheetCut
from pinfold.studies.quantities.records import Part
from pinfold.units import System, money, tape

SHEETS_HOW = (
    "Every cut goes through from edge to edge. The sheet lies with its ribs or grain upright; measure from the left or "
    "the lower edge of the rectangle that is cut, and write the code on what is to be kept before you cut."
)
LEGEND = (
    "Boxes: parts with their marks. Dashed boxes with a code that begins with Y: offcuts to keep. Pale: waste. Ribs or "
    "grain run upright."
)
ROLLS_HOW = (
    "Unroll as much as the piece needs, measure from the fresh end, mark the post it ends on, cut between two wires. "
    "Pieces of one band meet on a post, their overlap is in the length; so is what a wire takes to be tied off at both "
    "ends. A roll that is higher than its strip is wide laps lower over the wall, or is trimmed along its length."
)


def sheets_page(
    name: str, found: Sequence[FlatCut], parts: Mapping[str, Part], *, prices: Prices, system: System
) -> Page:  # fmt: skip
    """All sheets."""
    if not found:
        return Page(title=f"{name}: sheets", blocks=(Paragraph(text="Nothing is to be cut from sheets."),))
    blocks: list[Block] = [Paragraph(text=SHEETS_HOW), *(Caution(text=text) for text in CAUTIONS)]
    for each in found:
        blocks += flat_blocks(each, parts, prices, system)
    return Page(title=f"{name}: which sheet gives which parts", blocks=tuple(blocks))


def rolls_page(
    name: str, found: Sequence[FlatCut], parts: Mapping[str, Part], *, prices: Prices, system: System
) -> Page:  # fmt: skip
    """All rolls."""
    if not found:
        return Page(title=f"{name}: rolls", blocks=(Paragraph(text="Nothing is to be cut off rolls."),))
    blocks: list[Block] = [Paragraph(text=ROLLS_HOW), Caution(text=MESH_CAUTION)]
    for each in found:
        blocks += flat_blocks(each, parts, prices, system)
    return Page(title=f"{name}: which roll goes where", blocks=tuple(blocks))


def flat_blocks(
    found: FlatCut, parts: Mapping[str, Part], prices: Prices, system: System
) -> list[Block]:  # fmt: skip
    """One sort of sheet, or rolls of one height."""
    return [*_head(found, prices, system), *sheet_tables(found, parts, system), *roll_tables(found, parts, system)]


def _head(found: FlatCut, prices: Prices, system: System) -> Iterator[Block]:
    yield Heading(text=found.says)
    new = sum(each.times for each in found.sheets if each.row is None) + sum(each.row is None for each in found.rolls)
    what = "sheet" if found.sheets else "roll"
    told = [f"{new} new {what}{'' if new == 1 else 's'}"]
    if found.priced:
        told[0] += f", {money(found.money, prices.currency, prices.digits)}"
        told.append(sure(found.proof, found.money, found.bound, currency=prices.currency, digits=prices.digits))
    else:
        told.append("No price is listed: as few new ones as were found.")
    if found.rolls:
        told.append(_joints(found.joints))
    yield Paragraph(text=". ".join(each.rstrip(".") for each in told) + ".")
    yield from (Paragraph(text=text) for text in found.told)
    yield from (Paragraph(text=lacking(each, system)) for each in found.uncut)


def _joints(count: int) -> str:
    if not count:
        return "No joints"
    return "1 joint, on a post" if count == 1 else f"{count} joints, all of them on posts"


def sheet_tables(found: FlatCut, parts: Mapping[str, Part], system: System) -> Iterator[Block]:
    """For each sheet what it gives and its cuts in their order."""
    for sheet in found.sheets:
        times = f" x {sheet.times}" if sheet.times > 1 else ""
        size = f"{tape(sheet.wide, system)} x {tape(sheet.high, system)}"
        where = f"row {sheet.row} of the pile" if sheet.row else "new"
        where += f", {sheet.says}" if sheet.row and sheet.says else ""
        gives = [(patch.code, f"{fine(patch.wide, system)} x {fine(patch.high, system)}", _what(patch, parts))
                 for patch in (*sheet.parts, *(each for each in sheet.rests if each.code))]  # fmt: skip
        yield table(("code", "wide x high", "what and where"), gives, wide=2,
                    title=f"{sheet.code}{times}, {size}, {where}")  # fmt: skip
        if sheet.cuts:
            rows = [(str(number), *_cut(cut, system)) for number, cut in enumerate(sheet.cuts, start=1)]
            yield table(("cut", "of the rectangle", "way", "measure"), rows, right=(0, 3), wide=2,
                        title=f"Cuts of {sheet.code}")  # fmt: skip


def _what(patch: Patch, parts: Mapping[str, Part]) -> str:
    part = parts.get(patch.code)
    if part is None:
        return "offcut, back on the pile"
    return f"{part.says}: {', '.join(part.places)}" + (", lies turned" if patch.turned else "")


def _cut(cut: CutThrough, system: System) -> tuple[str, str, str]:
    way = "upright, from its left edge" if cut.upright else "across, from its lower edge"
    return f"{fine(cut.of.wide, system)} x {fine(cut.of.high, system)}", way, fine(cut.measure, system)


def roll_tables(found: FlatCut, parts: Mapping[str, Part], system: System) -> Iterator[Block]:
    """For each roll what comes off it, in order."""
    for roll in found.rolls:
        where = f"row {roll.row} of the pile, {roll.says}" if roll.row else "new"
        rows = [
            (piece.code, fine(piece.length, system), _goes(piece, parts, system))
            for piece in roll.pieces
        ]  # fmt: skip
        rest = "back on the pile" if roll.rest_code else "waste"
        rows.append((roll.rest_code or "rest", fine(roll.rest, system), rest))
        yield table(("code", "length", "what and where"), rows, right=(1,), wide=2,
                    title=f"{roll.code}, {tape(roll.length, system)}, {where}")  # fmt: skip


def _goes(piece: RollPiece, parts: Mapping[str, Part], system: System) -> str:
    whole = f"{parts[piece.mark].says}: {piece.place}"
    if piece.code == piece.mark:
        return whole
    return f"{whole}, from {tape(piece.start, system)} to the post at {tape(piece.end, system)}"


def sheet_picture(sheet: SheetCut, system: System, *, wide: float = 420.0) -> str:
    """SVG of a sheet with its parts; the table beside it says the same."""
    inside, across, high = _drawn(sheet, system, wide)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="sawn flat" viewBox="-2 -2 {across + 4:.0f} {high + 4:.0f}" '
        f'width="{across + 4:.0f}" role="img" aria-label="{sheet.code}, {escape(_big(sheet, system))}; the table says '
        f'the same" font-family="Atkinson Hyperlegible Next, sans-serif" font-size="12">{inside}</svg>'
    )


def paper_sheets(
    sheets: Sequence[SheetCut], system: System, *, wide_mm: float, high_mm: float
) -> Iterator[tuple[str, float]]:  # fmt: skip
    """(SVG, its height in mm) of pages with all sheets, side by side and row under row."""
    wide, gap = 900.0, 24.0
    room = high_mm * wide / wide_mm
    page: list[str] = []
    x = y = row = 0.0
    for sheet in sheets:
        inside, across, high = _drawn(sheet, system, 280.0)
        if x and x + across > wide:
            x, y, row = 0.0, y + row + gap, 0.0
        if page and y + high > room:
            yield _paper(page, wide, y - gap), (y - gap) * wide_mm / wide
            page, x, y, row = [], 0.0, 0.0, 0.0
        page.append(f'<g transform="translate({x + 2:.1f} {y + 2:.1f})">{inside}</g>')
        x, row = x + max(across, 120.0) + gap, max(row, high)
    if page:
        yield _paper(page, wide, y + row), (y + row) * wide_mm / wide


def _paper(pictures: Sequence[str], wide: float, high: float) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:g} {high + 4:g}" '
        f'font-family="Atkinson Hyperlegible Next, sans-serif" font-size="12">{"".join(pictures)}</svg>'
    )


def _drawn(sheet: SheetCut, system: System, wide: float) -> tuple[str, float, float]:
    """A sheet as shapes, with how wide and how high they are, its name below it."""
    scale = min(wide / sheet.wide, 1.3 * wide / sheet.high)
    across, up = sheet.wide * scale, sheet.high * scale
    inside = "".join(
        _rect(patch, up, scale, kept=bool(patch.code), part=patch in sheet.parts)
        for patch in (*sheet.rests, *sheet.parts)
    )
    times = f" × {sheet.times}" if sheet.times > 1 else ""
    edge = f'<rect class="whole" x="0" y="0" width="{across:.1f}" height="{up:.1f}" fill="none" stroke="{QUIET}"/>'
    name = f'<text class="loud" x="0" y="{up + 15:.1f}" fill="{INK}">{sheet.code}{times}</text>'
    size = f'<text class="quiet" x="0" y="{up + 30:.1f}" fill="{QUIET}">{escape(_big(sheet, system))}</text>'
    return inside + edge + name + size, across, up + 34


def _big(sheet: SheetCut, system: System) -> str:
    return f"{tape(sheet.wide, system)} x {tape(sheet.high, system)}"


def _rect(patch: Patch, up: float, scale: float, *, kept: bool, part: bool) -> str:
    x, y = patch.x * scale, up - (patch.y + patch.high) * scale
    wide, high = patch.wide * scale, patch.high * scale
    style = f'class="part" fill="none" stroke="{INK}" stroke-width="1.4"' if part else (
        f'class="rest" fill="none" stroke="{QUIET}" stroke-dasharray="5 3"' if kept else f'class="lost" fill="{WASH}"'
    )  # fmt: skip
    text = (
        f'<text class="loud" x="{x + wide / 2:.1f}" y="{y + high / 2 + 4:.1f}" text-anchor="middle" fill="{INK}">'
        f"{patch.code}</text>"
        if patch.code
        else ""
    )
    return f'<rect {style} x="{x:.1f}" y="{y:.1f}" width="{wide:.1f}" height="{high:.1f}"/>{text}'
