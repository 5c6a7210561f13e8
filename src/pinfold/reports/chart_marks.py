"""Strokes and letters of all charts as SVG, with inks for paper; a page colors them by their classes."""

from __future__ import annotations

from html import escape

INK, QUIET, RULE = "#1f2326", "#545b60", "#c9c4b8"
"""What is said, what is said in passing, and lines behind both."""


def stroke(d: str, sort: str, ink: str, *, weight: float = 1.0, dashes: str = "") -> str:
    """A path that is not filled.

    Args:
        d: the way it goes
        sort: class that a page colors it by
        ink: on paper
        weight: width of the stroke
        dashes: lengths of dashes and gaps; none where it is whole
    """
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f'<path class="{sort}" d="{d}" fill="none" stroke="{ink}" stroke-width="{weight:g}"{dashed}/>'


def letters(
    x: float, y: float, text: str, anchor: str, *, loud: bool = False, bold: bool = False, ink: str = ""
) -> str:  # fmt: skip
    """A line of text.

    Args:
        x: of its start, middle or end, as the anchor says
        y: of its foot
        text: as read
        anchor: start, middle or end
        loud: whether it is said, not in passing
        bold: whether in heavy letters
        ink: on paper; that of its loudness where not given
    """
    sort, usual = ("loud", INK) if loud else ("quiet", QUIET)
    heavy = ' font-weight="700"' if bold else ""
    return (
        f'<text class="{sort}" x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" fill="{ink or usual}"{heavy}>'
        f"{escape(text)}</text>"
    )
