"""An account as HTML: a part of a page, or a file that stands alone, its pictures in it and no address outside."""

from __future__ import annotations

import base64
from collections.abc import Iterator, Sequence
from functools import cache
from importlib.resources import files

from pinfold.reports.account_chart import svg_of
from pinfold.reports.html_text import safe
from pinfold.reports.reckon_account import ADVICE, Section, caption_of, sections_of, title_of
from pinfold.studies.account.records import Account
from pinfold.units import System

_ALONE = (
    ":root{color-scheme:light dark}"
    'body{margin:0 auto;padding:1rem;max-inline-size:60rem;font:1rem/1.5 "Atkinson Hyperlegible Next",Seravek,Ubuntu,'
    'Calibri,"DejaVu Sans",sans-serif;background:#f7f5ef;color:#1f2326}'
    "h1{line-height:1.15;margin-block:.5rem 1rem}"
    "@media (prefers-color-scheme:dark){body{background:#1d1e1f;color:#e9e5db}}"
    "@media print{body{background:none;color:#1f2326}}"
)
_CLOSED = "default-src 'none'; img-src data:; style-src 'unsafe-inline'"
"""What the file may load: nothing but what is in it."""


@cache
def account_style() -> str:
    """The style of an account."""
    return files("pinfold.reports").joinpath("account.css").read_text(encoding="utf-8")


def account_html(account: Account, pictures: Sequence[bytes], system: System, *, heading: str = "h3") -> str:
    """The account for the middle of a page, without its title.

    Args:
        account: what is shared
        pictures: a JPEG for each of its photos
        system: of units
        heading: tag of the headings of its parts
    """
    first, *others = sections_of(account, system)
    parts = ['<div class="account">', *_section(first, heading), *_photos(account, pictures), '<div class="parts">']
    for section in others:
        parts += _section(section, heading)
    return "\n".join([*parts, "</div>", f'<p class="told-of">{safe(ADVICE)}</p>', "</div>"])


def account_file(account: Account, pictures: Sequence[bytes], system: System) -> str:
    """The account as a file; takes what `account_html` takes."""
    title = safe(title_of(account))
    return "\n".join([
        "<!doctype html>", '<html lang="en">', "<head>", '<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{_CLOSED}">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        '<meta name="referrer" content="no-referrer">', f"<title>{title}</title>",
        f"<style>{_ALONE}\n{account_style()}</style>", "</head>", "<body>", "<main>", f"<h1>{title}</h1>",
        account_html(account, pictures, system, heading="h2"),
        "</main>", "</body>", "</html>", "",
    ])  # fmt: skip


def _photos(account: Account, pictures: Sequence[bytes]) -> Iterator[str]:
    if not pictures:
        return
    yield '<div class="photos">'
    for number, (words, jpeg) in enumerate(zip(account.photos, pictures, strict=True), start=1):
        caption = caption_of(words)
        shown = safe(caption) if caption else ""
        yield f'<figure><img src="data:image/jpeg;base64,{base64.b64encode(jpeg).decode()}" '
        yield f'alt="{shown or f"Photo {number}"}">'
        yield f"<figcaption>{shown}</figcaption></figure>" if shown else "</figure>"
    yield "</div>"


def _section(section: Section, heading: str) -> Iterator[str]:
    yield f"<section><{heading}>{safe(section.title)}</{heading}>"
    for text in section.texts:
        yield f"<p>{safe(text)}</p>"
    if section.picture is not None and section.picture.inside:
        legend = f"<figcaption>{safe(section.picture.legend)}</figcaption>" if section.picture.legend else ""
        yield f'<figure><div class="drawing">{svg_of(section.picture, named=False)}</div>{legend}</figure>'
    yield "</section>"
