"""Typesetting: the binder's data and the template become a PDF. User text goes in as data only, never as markup."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import UTC, datetime, time
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from pinfold.reports.binder.content import content_of, day_of
from pinfold.reports.binder.records import Binder

if TYPE_CHECKING:
    import typst

_HERE = Path(__file__).parent
FONTS = _HERE.parent / "fonts"
_NO_DAY = datetime(2000, 1, 1, tzinfo=UTC)


def typeset(binder: Binder, *, accessible: bool = False) -> bytes:
    """The binder as a tagged PDF, the same bytes for the same binder.

    Args:
        binder: what to print
        accessible: refuse to make a PDF that breaks the rules of PDF/UA-1, and say in the file that it keeps them

    Raises:
        RuntimeError: the typesetter warned of something, such as a missing font; that is a fault of pinfold.
    """
    pages = _compiled(binder, "pdf", standards=["ua-1"] if accessible else [])
    assert isinstance(pages, bytes)
    return pages


def pictures(binder: Binder, *, ppi: float = 90.0) -> tuple[bytes, ...]:
    """The binder's pages as PNG pictures, so many points to the inch; raises as `typeset`."""
    pages = _compiled(binder, "png", ppi=ppi)
    return (pages,) if isinstance(pages, bytes) else tuple(pages)


def _compiled(
    binder: Binder,
    form: Literal["pdf", "png"],
    *,
    ppi: float | None = None,
    standards: list[Literal["ua-1"]] | None = None,
) -> bytes | list[bytes]:
    day = day_of(binder.printed_on)
    pages, warnings = compiler_of(_HERE / "binder.typ", content_of(binder)).compile_with_warnings(
        format=form,
        ppi=ppi,
        pdf_standards=list(standards or []),
        timestamp=datetime.combine(day, time(), tzinfo=UTC) if day else _NO_DAY,
    )
    if warnings or pages is None:
        raise RuntimeError("the typesetter warned: " + "; ".join(warning.message for warning in warnings))
    return pages


def compiler_of(template: Path, content: Mapping[str, object]) -> typst.Compiler:
    """A template with the data that it sets, and only the fonts that pinfold brings."""
    import typst

    return typst.Compiler(
        input=str(template),
        root=str(template.parent),
        font_paths=_fonts(),
        ignore_system_fonts=True,
        sys_inputs={"data": json.dumps(content, ensure_ascii=False, allow_nan=False)},
    )


@cache
def _fonts() -> typst.Fonts:
    """Only the fonts pinfold brings, never those of the machine."""
    import typst

    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(FONTS)])
