"""Square codes that a phone's camera reads: as SVG for page and paper, as text for a terminal."""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import segno

_QUIET = 4
"""Modules left white around it, as the standard wants."""


def _made(address: str) -> segno.QRCode:
    import segno

    return segno.make(address, error="m", micro=False)


@lru_cache(maxsize=64)  # the best of eight patterns is looked for, ten times what the rest of a card takes
def svg_of(address: str) -> str:
    """For inside a page, dark on white whatever the page's colors."""
    drawn: str = _made(address).svg_inline(omitsize=True, border=_QUIET, dark="#000", light="#fff", title="Square code")
    return drawn


def svg_file(address: str) -> str:
    """As a drawing of its own, for paper."""
    out = BytesIO()
    _made(address).save(out, kind="svg", scale=4, border=_QUIET, dark="#000", light="#fff")
    return out.getvalue().decode()


def lines_of(address: str) -> list[str]:
    """In half blocks, light on dark as most terminals are: two rows of modules to a line."""
    rows = [list(row) for row in _made(address).matrix_iter(border=2)]
    if len(rows) % 2:
        rows.append([0] * len(rows[0]))
    signs = {(0, 0): "\u2588", (0, 1): "\u2580", (1, 0): "\u2584", (1, 1): " "}
    return [
        "".join(signs[bool(high), bool(low)] for high, low in zip(upper, lower, strict=True))
        for upper, lower in zip(rows[::2], rows[1::2], strict=True)
    ]
