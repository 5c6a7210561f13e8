"""Pictures of pieces with their cuts: a bar for each, its parts from left to right, flaws and what is left over.

The inks are written into the drawing, for paper; a page puts its own colors over them by the classes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from pinfold.plan.stock import RawEnds
from pinfold.reports.cut_words import fine
from pinfold.studies.cutting.sawing import Falls
from pinfold.studies.parts.sawn import CutStep, PieceCut
from pinfold.units import System

_LEFT, _RIGHT, _ROW, _BAR = 92.0, 86.0, 56.0, 22.0
_LETTER = 6.4
_SMALL, _FIGURE = 10, 5.4
"""Size of small letters, and about how wide a figure of theirs is."""
INK, QUIET, RULE, FIRM, WASH = "#1f2326", "#545b60", "#c9c4b8", "#9c3f28", "#ece8de"
LEGEND = (
    "Each bar is a piece, left end to the left, cut from there on. Boxes: parts with their marks. Pale: waste. Open "
    "boxes with a code that begins with Z: offcuts to keep. Slashed: flaws. Under each cut what a tape shows there "
    "that lies along the whole piece; the blade goes to the right of it."
)


def pieces_picture(pieces: Sequence[PieceCut], system: System, *, wide: float = 900.0) -> str:
    """SVG of the pieces of one section; the table beside it says the same. Empty without pieces."""
    if not pieces:
        return ""
    longest = max(piece.length for piece in pieces)
    scale = (wide - _LEFT - _RIGHT) / longest
    high = len(pieces) * _ROW + 6
    inside = "".join(_row(piece, 4 + at * _ROW, scale, system) for at, piece in enumerate(pieces))
    told = f"{len(pieces)} ways to cut a piece; the table says the same"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="sawn" viewBox="0 0 {wide:.0f} {high:.0f}" width="{wide:.0f}" '
        f'role="img" aria-label="{told}" font-family="Atkinson Hyperlegible Next, sans-serif" font-size="12">'
        f"<g>{inside}</g></svg>"
    )


def _row(piece: PieceCut, top: float, scale: float, system: System) -> str:
    times = f" × {piece.times}" if piece.times > 1 else ""
    end = _LEFT + piece.length * scale
    texts = (
        f'<text class="loud" x="{_LEFT - 8:g}" y="{top + 15:.1f}" text-anchor="end" fill="{INK}">'
        f"{piece.code}{times}</text>"
        f'<text class="quiet" x="{end + 7:.1f}" y="{top + 15:.1f}" fill="{QUIET}">'
        f"{escape(fine(piece.length, system))}</text>"
    )
    return "".join((*_steps(piece, top, scale), *_flaws(piece, top, scale), *_tape(piece, top, scale, system), texts))


def _tape(piece: PieceCut, top: float, scale: float, system: System) -> Iterator[str]:
    """What the tape shows at each cut; where cuts crowd, at those that have room, and the table has the others."""
    free, y = 0.0, top + _BAR
    for step in piece.steps:
        if not step.sawn or (step.falls is Falls.WASTE and step.measure <= 0):
            continue
        x, text = _LEFT + step.running * scale, fine(step.running, system)
        start = x - len(text) * _FIGURE
        yield f'<path class="mark" d="M{x:.1f} {y:.1f}v4" stroke="{QUIET}" fill="none"/>'
        if start >= free:
            yield (
                f'<text class="quiet" x="{x:.1f}" y="{y + 13:.1f}" text-anchor="end" font-size="{_SMALL}" '
                f'fill="{QUIET}">{escape(text)}</text>'
            )
            free = x + 5


def _steps(piece: PieceCut, top: float, scale: float) -> Iterator[str]:
    lean = 0.0
    for step in piece.steps:
        start, end = _LEFT + (step.running - step.measure) * scale, _LEFT + step.running * scale
        yield _box(step, (start, end), top, (lean, step.lean * scale))
        lean = step.lean * scale


def _box(step: CutStep, across: tuple[float, float], top: float, leans: tuple[float, float]) -> str:
    (start, end), foot = across, top + _BAR
    left, right = (max(min(each, 30.0), -30.0) for each in leans)
    path = f"M{start + left:.1f} {top:.1f}L{end + right:.1f} {top:.1f}L{end:.1f} {foot:.1f}L{start:.1f} {foot:.1f}Z"
    style = {
        Falls.PART: f'class="part" fill="none" stroke="{INK}" stroke-width="1.4"',
        Falls.KEPT: f'class="rest" fill="none" stroke="{QUIET}" stroke-width="1" stroke-dasharray="5 3"',
        Falls.WASTE: f'class="lost" fill="{WASH}" stroke="none"',
    }[step.falls]
    return f'<path {style} d="{path}"/>{_code(step, across, top, foot)}'


def _code(step: CutStep, across: tuple[float, float], top: float, foot: float) -> str:
    start, end = across
    if not step.code:
        return ""
    ink, name = (INK, "loud") if step.falls is Falls.PART else (QUIET, "quiet")
    if end - start >= len(step.code) * _LETTER + 2:
        spot = f'x="{(start + end) / 2:.1f}" y="{top + 15:.1f}" text-anchor="middle"'
    else:
        spot = f'x="{(start + end) / 2:.1f}" y="{foot + 24:.1f}" text-anchor="middle" font-size="{_SMALL}"'
    return f'<text class="{name}" {spot} fill="{ink}">{step.code}</text>'


def _flaws(piece: PieceCut, top: float, scale: float) -> Iterator[str]:
    foot = top + _BAR
    if piece.raw_ends in (RawEnds.LEFT, RawEnds.BOTH):
        yield _warning("raw end", _LEFT, foot, "end")
    if piece.raw_ends in (RawEnds.RIGHT, RawEnds.BOTH):
        yield _warning("raw end", _LEFT + piece.length * scale + 7, foot, "start")
    for flaw in piece.flaws:
        start, end = _LEFT + flaw.start * scale, _LEFT + flaw.end * scale
        yield f'<path class="flaw" d="{_slashes(start, max(end, start + 3), foot)}" stroke="{FIRM}" fill="none"/>'
        yield _warning(flaw.kind, (start + end) / 2, foot, "middle")


def _warning(text: str, x: float, foot: float, anchor: str) -> str:
    return (
        f'<text class="flawed" x="{x:.1f}" y="{foot + 24:.1f}" text-anchor="{anchor}" font-size="{_SMALL}" '
        f'fill="{FIRM}">{escape(text)}</text>'
    )


def _slashes(start: float, end: float, foot: float) -> str:
    count = max(int((end - start) / 6), 1)
    each = (end - start) / count
    marks = (f"M{start + at * each:.1f} {foot:.1f}l{each:.1f} {-_BAR * 0.7:.1f}" for at in range(count))
    return "".join(marks) + f"M{start:.1f} {foot:.1f}H{end:.1f}"


def paper_pictures(
    sections: Sequence[tuple[str, Sequence[PieceCut]]], system: System, *, wide_mm: float, high_mm: float
) -> Iterator[tuple[str, float]]:
    """(SVG, its height in mm) of pages with the pieces of all sections under their headings.

    Args:
        sections: what each is, and its pieces
        system: units of the plan
        wide_mm: of a page
        high_mm: most of a page
    """
    wide = 900.0
    room = high_mm * wide / wide_mm
    page: list[str] = []
    top = 0.0
    for says, piece, first, scale in _in_rows(sections, wide):
        need = _ROW + (_HEAD if first or not page else 0.0)
        if page and top + need > room:
            yield _paper(page, wide, top), top * wide_mm / wide
            page, top = [], 0.0
        if first or not page:
            page.append(f'<text x="0" y="{top + 18:.1f}" font-size="15" fill="{INK}">{escape(says)}</text>')
            top += _HEAD
        page.append(_row(piece, top + 4, scale, system))
        top += _ROW
    if page:
        yield _paper(page, wide, top), top * wide_mm / wide


_HEAD = 30.0


def _in_rows(
    sections: Sequence[tuple[str, Sequence[PieceCut]]], wide: float
) -> Iterator[tuple[str, PieceCut, bool, float]]:
    for says, pieces in sections:
        if pieces:
            scale = (wide - _LEFT - _RIGHT) / max(piece.length for piece in pieces)
            yield from ((says, piece, at == 0, scale) for at, piece in enumerate(pieces))


def _paper(rows: Sequence[str], wide: float, high: float) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:g} {high:g}" '
        f'font-family="Atkinson Hyperlegible Next, sans-serif" font-size="12">{"".join(rows)}</svg>'
    )
