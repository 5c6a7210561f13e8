"""Labels on sheets to print and cut apart: a large code, what it is, where it goes, an arrow to the kept side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from textwrap import wrap
from typing import NamedTuple

from pinfold.reports.cut_words import fine
from pinfold.reports.pages import Block, Page, Paragraph, table
from pinfold.studies.parts.labels import Label
from pinfold.units import System

HOW = (
    "Stick or staple each label beside the line before the saw runs: a part's at its right end, its arrow pointing "
    "left to the part; an offcut's at its left end. What the arrow points to is kept, so that no one cuts up the wrong "
    "side. A bundle of more than a dozen alike shares one label; write its mark on each of them."
)
_INK, _QUIET, _LINE = "#1f2326", "#545b60", "#9a948a"
_WIDE_LETTER = 0.53
"""Width of a letter over its size, about."""


class LabelSheet(NamedTuple):
    """How labels lie on a sheet of paper, in mm.

    Attributes:
        wide: of the part of the sheet that is printed.
        high: likewise.
        across: labels beside each other.
        down: labels under each other.
    """

    wide: float
    high: float
    across: int
    down: int

    @property
    def many(self) -> int:
        """Labels on a sheet."""
        return self.across * self.down


SHEETS = {"letter": LabelSheet(wide=190.0, high=246.0, across=3, down=7),
          "a4": LabelSheet(wide=186.0, high=264.0, across=3, down=8)}  # fmt: skip


def label_sheets(labels: Sequence[Label], paper: str, system: System) -> Iterator[str]:
    """An SVG for each sheet of labels, in mm."""
    sheet = SHEETS[paper]
    for first in range(0, len(labels), sheet.many):
        yield _sheet(labels[first : first + sheet.many], sheet, system)


def _sheet(labels: Sequence[Label], sheet: LabelSheet, system: System) -> str:
    wide, high = sheet.wide / sheet.across, sheet.high / sheet.down
    inside = "".join(
        f'<g transform="translate({at % sheet.across * wide:.2f} {at // sheet.across * high:.2f})">'
        f"{_label(label, wide, high, system)}</g>"
        for at, label in enumerate(labels)
    )
    said = ", ".join(dict.fromkeys(label.code for label in labels))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="labels" viewBox="0 0 {sheet.wide:g} {sheet.high:g}" '
        f'width="{sheet.wide:g}mm" height="{sheet.high:g}mm" role="img" aria-label="labels {escape(said)}" '
        f'font-family="Atkinson Hyperlegible Next, sans-serif">{inside}</svg>'
    )


def _label(label: Label, wide: float, high: float, system: System) -> str:
    dash = ' stroke-dasharray="1.4 1"' if label.kept else ""
    frame = (
        f'<rect x="1.2" y="1.2" width="{wide - 2.4:.2f}" height="{high - 2.4:.2f}" fill="#fff" stroke="{_LINE}" '
        f'stroke-width=".25"/>'
        f'<path d="M3.6 13.4H{wide - 3.6:.2f}" stroke="{_INK}" stroke-width=".45"{dash}/>'
    )
    count, source = _count(label), f"out of {label.source}" if label.source and not label.kept else ""
    return "".join(
        (frame, _text(label.code, (3.6, 10.9), _code_size(label.code, wide)), _arrow(label, wide),
         _text(count, (wide - 15.5, 5.4), 3.0, ink=_QUIET, anchor="end"),
         _text(source, (wide - 15.5, 9.6), 2.7, ink=_QUIET, anchor="end"), *_lines(label, wide, high, system))
    )  # fmt: skip


def _code_size(code: str, wide: float) -> float:
    """As large as it goes beside the arrow and what stands left of that."""
    return min(9.4, (wide - 39.0) / (len(code) * _WIDE_LETTER * 1.06))


def _count(label: Label) -> str:
    if not label.number:
        return f"all {label.many} of the bundle"
    return f"{label.number} of {label.many}" if label.many > 1 else ""


def _arrow(label: Label, wide: float) -> str:
    """To the kept side: left for a part, right for an offcut; nothing on a bundle."""
    if not label.number:
        return ""
    tip, tail = (wide - 13.5, wide - 3.8) if not label.kept else (wide - 3.8, wide - 13.5)
    way = 1 if tail > tip else -1
    return (
        f'<path d="M{tip:.2f} 8.2l{way * 3.4:.2f} -2.6v1.5H{tail:.2f}v2.2H{tip + way * 3.4:.2f}v1.5z" fill="{_INK}"/>'
        + _text("keep", ((tip + tail) / 2, 12.6), 2.3, ink=_QUIET, anchor="middle")
    )


def _lines(label: Label, wide: float, high: float, system: System) -> Iterator[str]:
    """Size, what and where, how its ends are cut, which way up, as far down as there is room."""
    room = wide - 7.2
    both = f"{label.says}: {label.where}"
    names = [both] if len(both) <= _letters(room, 3.1) else [label.says, _short(label.where, room, 3.1)]
    ends = wrap(label.ends, _letters(room, 2.5)) if label.ends != "square" else []
    told = [
        (_size(label, system), 4.0, _INK),
        *((name, 3.1, _INK) for name in names),
        *((line, 2.5, _INK) for line in ends),
        *((line, 2.5, _QUIET) for line in wrap(label.up, _letters(room, 2.5))),
    ]
    y = 14.0
    for text, letters, ink in told:
        y += letters * 1.28
        if y > high - 1.4:
            break
        yield _text(text, (3.6, y), letters, ink=ink)


def _size(label: Label, system: System) -> str:
    length = fine(label.length, system)
    return length if label.width is None else f"{fine(label.width, system)} x {length}"


def _letters(room: float, size: float) -> int:
    """About how many letters go into a line."""
    return int(room / (size * _WIDE_LETTER))


def _short(text: str, room: float, size: float) -> str:
    most = _letters(room, size)
    return text if len(text) <= most else text[: most - 1].rstrip(" ,") + "…"


def _text(text: str, spot: tuple[float, float], size: float, *, ink: str = _INK, anchor: str = "start") -> str:
    if not text:
        return ""
    x, y = spot
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-size="{size:g}" fill="{ink}" text-anchor="{anchor}">{escape(text)}</text>'
    )


def labels_page(name: str, labels: Sequence[Label], sheets: int, system: System) -> Page:
    """All labels as a list to tick off; they are printed from the page of labels and in the binder."""
    rows = [
        (label.code, _count(label), _size(label, system), label.says, label.where, label.source) for label in labels
    ]
    heads = ("code", "which", "length", "what", "where", "out of")
    told = f"{len(labels)} labels on {sheets} sheets of paper: print them from the page /cut/labels or in the binder."
    blocks: list[Block] = [Paragraph(text=told), Paragraph(text=HOW)]
    if rows:
        blocks.append(table(heads, rows, right=(2,), wide=4))
    return Page(title=f"{name}: labels", blocks=tuple(blocks))
