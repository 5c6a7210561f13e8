"""Lettering: how wide a text will be, its lines, and where they stand once placed (millimeters on paper).

Widths are those of Atkinson Hyperlegible Next, each rounded up to the next fiftieth of its em, so that a box holds its
text with a little to spare. Another face may be wider: pinfold ships the one it measures with.
"""

from __future__ import annotations

import math
import unicodedata
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from pinfold.drawings.boxes import Slab
from pinfold.drawings.scenes import PaperMm, Point

FAMILY = "Atkinson Hyperlegible Next"
CAPITAL = 0.668
"""Height of a capital letter in ems."""
BELOW_BASELINE = 0.24
"""From the foot of a line's box to its baseline in ems; the box is one em high."""
LINE_STEP = 1.3
"""From baseline to baseline in ems."""
STEEPEST = math.radians(105)
"""Texts within 15° of upright are all written upward, so that a leaning side does not read both ways."""
SPARE = 1.03
"""Widths are taken this much larger than the table says."""

_REGULAR: dict[float, str] = {
    0.18: "'", 0.22: ',.:;', 0.24: '|', 0.26: '`ij', 0.28: ' \u00a0\u202fl', 0.3: '!()', 0.32: '"[f', 0.34: 't',
    0.36: ']r{}', 0.38: '-_', 0.4: '/I\\²³°', 0.42: '1', 0.46: 'yz', 0.48: '?sv', 0.5: '*ckx', 0.52: '7J',
    0.54: 'aeu', 0.56: '2<>FLT^ghno~', 0.58: '3EYbdpq', 0.6: '$569PSV', 0.62: '+48BRZ±×−', 0.64: '=AKX≤≥≈–',
    0.66: '#0C', 0.68: 'D', 0.7: 'GHNUw', 0.72: 'OØ', 0.74: '&Q', 0.78: '@', 0.84: 'M¼½—', 0.86: 'Wm', 0.88: '¾',
    0.92: '%',
}  # fmt: skip
_BOLD: dict[float, str] = {
    0.22: "'", 0.26: 'j|', 0.28: ',.:;', 0.3: '`i', 0.32: ' \u00a0\u202f!l', 0.34: '()[', 0.36: ']', 0.38: '-frt',
    0.4: '"_{}', 0.44: '/1I\\²³°', 0.5: '*', 0.52: 'csz', 0.54: '7vxy~', 0.56: '?Lak', 0.58: '29<>FJehnou',
    0.6: '+3E^bdgpq', 0.62: '$5=STZ', 0.64: '468P±×−≤≥≈–', 0.66: '0BCRVY', 0.68: 'AK', 0.7: 'DUX', 0.72: 'GHN',
    0.74: '&w', 0.76: 'OQØ', 0.78: '#', 0.8: '@', 0.86: 'M¼½—', 0.9: 'Wm', 0.92: '¾', 0.98: '%',
}  # fmt: skip
_WIDEST = 1.0
_EM_BY_LETTER = {letter: em for em, letters in _REGULAR.items() for letter in letters}
_BOLD_BY_LETTER = {letter: em for em, letters in _BOLD.items() for letter in letters}


@dataclass(frozen=True, kw_only=True)
class PlacedText:
    """A text with its place on paper.

    Attributes:
        lines: what is written, top line first.
        size: height of a capital letter.
        slab: the box it stands in, y upward from the scene's origin.
        align: side on which the lines begin flush.
        leader: the line that ties it to its point, from the point to the text; empty when it stands beside it.
    """

    layer: str
    lines: tuple[str, ...]
    size: PaperMm
    slab: Slab
    align: Literal["start", "middle", "end"] = "middle"
    leader: tuple[Point, ...] = ()
    bold: bool = False


def em_of(size: PaperMm) -> PaperMm:
    """The font size whose capital letters are so high."""
    return size / CAPITAL


@lru_cache(maxsize=4096)
def lines_of(text: str) -> tuple[str, ...]:
    """The lines of a text, without characters that cannot be written."""
    return tuple(clean(line) for line in text.splitlines()) or ("",)


def clean(text: str) -> str:
    """A text on one line: control characters become spaces, characters that no file may hold a lozenge."""
    return "".join(_clean(letter) for letter in text)


def _clean(letter: str) -> str:
    if unicodedata.category(letter) in {"Cc", "Zl", "Zp"}:
        return " "
    return "◊" if "\ud800" <= letter <= "\udfff" or ord(letter) & 0xFFFE == 0xFFFE else letter


def width_of(text: str, size: PaperMm, *, bold: bool = False) -> PaperMm:
    """The width of one line, a little on the large side."""
    table = _BOLD_BY_LETTER if bold else _EM_BY_LETTER
    return SPARE * em_of(size) * sum(_em(letter, table) for letter in text)


def _em(letter: str, table: dict[str, float]) -> float:
    if letter in table:
        return table[letter]
    plain = unicodedata.normalize("NFD", letter)[0]  # é is as wide as e
    return table.get(plain, 0.0 if unicodedata.combining(letter) else _WIDEST)


@lru_cache(maxsize=4096)
def block_size(lines: tuple[str, ...], size: PaperMm, *, bold: bool = False) -> tuple[PaperMm, PaperMm]:
    """Width and height of the box round some lines."""
    em = em_of(size)
    return max(width_of(line, size, bold=bold) for line in lines), em * (1 + LINE_STEP * (len(lines) - 1))


def baselines(text: PlacedText) -> tuple[tuple[Point, str], ...]:
    """Each line with the point on its baseline from which, about which or up to which it is written."""
    em, slab = em_of(text.size), text.slab
    across = {"start": -slab.width / 2, "middle": 0.0, "end": slab.width / 2}[text.align]
    first = slab.height / 2 - em * (1 - BELOW_BASELINE)
    return tuple(
        (slab.outward((across, first - em * LINE_STEP * row)), line) for row, line in enumerate(text.lines) if line
    )


def wrapped(text: str, size: PaperMm, width: PaperMm, *, bold: bool = False) -> tuple[str, ...]:
    """A text broken at spaces into lines no wider than asked; a word that is wider stands alone.

    Spaces that hold figure and unit together do not break.
    """
    lines: list[str] = []
    for word in filter(None, clean(text).split(" ")):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(longer, size, bold=bold) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)


def upright(turn: float) -> float:
    """The direction of writing that reads from below or from the right: above −75° and up to 105°."""
    turned = math.remainder(turn, math.tau)
    if turned > STEEPEST + 1e-9:
        return turned - math.pi
    return turned + math.pi if turned <= STEEPEST - math.pi + 1e-9 else turned
