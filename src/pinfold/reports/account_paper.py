"""An account as a PDF that says neither who made it nor when."""

from __future__ import annotations

import base64
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import NamedTuple

from pinfold.reports.account_chart import svg_of
from pinfold.reports.binder.papers import page_of
from pinfold.reports.binder.records import Paper
from pinfold.reports.binder.typeset import compiler_of
from pinfold.reports.binder.wording import worded
from pinfold.reports.reckon_account import ADVICE, Section, caption_of, sections_of, title_of
from pinfold.studies.account.records import Account, SharedWords
from pinfold.units import System

_TEMPLATE = Path(__file__).parent / "account.typ"
_NO_DAY = datetime(2000, 1, 1, tzinfo=UTC)
_ACROSS = 83.0
"""Width of one of two columns, in mm."""
_HIGHEST = 62.0
"""Height that a photo gets at most, in mm."""


class Picture(NamedTuple):
    """A picture of an account.

    Attributes:
        jpeg: as it is shared.
        width: in pixels.
        height: in pixels.
    """

    jpeg: bytes
    width: int
    height: int


def account_paper(account: Account, pictures: Sequence[Picture], system: System, paper: Paper) -> bytes:
    """The account on paper, the same bytes for the same account.

    Args:
        account: what is shared
        pictures: one for each of its photos
        system: of units
        paper: a4 or letter

    Raises:
        RuntimeError: the typesetter warned of something; that is a fault of pinfold.
    """
    content = {
        "title": worded(title_of(account)), "advice": ADVICE, "page": page_of(paper),
        "photos": [
            _photo(number, *pair)
            for number, pair in enumerate(zip(account.photos, pictures, strict=True), start=1)
        ],
        "sections": [_section(each) for each in sections_of(account, system)],
    }  # fmt: skip
    compiler = compiler_of(_TEMPLATE, content)
    pages, warnings = compiler.compile_with_warnings(format="pdf", timestamp=_NO_DAY)
    if warnings or not isinstance(pages, bytes):
        raise RuntimeError("the typesetter warned: " + "; ".join(warning.message for warning in warnings))
    return pages


def _section(section: Section) -> dict[str, object]:
    found = section.picture
    picture = None
    if found is not None and found.inside:
        picture = {"svg": svg_of(found, named=True), "says": worded(found.says), "legend": found.legend}
    return {"title": section.title, "texts": [worded(text) for text in section.texts], "picture": picture}


def _photo(number: int, words: SharedWords, picture: Picture) -> dict[str, object]:
    """A photo inside a drawing, which is how data reaches the typesetter without a file."""
    _, width, height = picture
    inside = base64.b64encode(picture.jpeg).decode()
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}">'
        f'<image width="{width}" height="{height}" href="data:image/jpeg;base64,{inside}"/></svg>'
    )
    caption = worded(caption_of(words))
    high = min(_ACROSS * height / width, _HIGHEST)
    return {"svg": svg, "caption": caption, "says": caption or f"Photo {number}", "high": high}
