"""What was told to the log of a cut, and what is left."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pinfold.reports.cut_words import fine
from pinfold.reports.pages import Page, Paragraph
from pinfold.units import Meter, System


@dataclass(frozen=True, kw_only=True)
class DoneTold:
    """What went into the log.

    Attributes:
        parts: how many of each were cut, by mark.
        spoiled: how many of them came out wrong.
        off_pile: pieces that went off the pile.
        back: lengths that went back onto it.
        left: parts still to be cut after this.
    """

    parts: Mapping[str, int]
    spoiled: int
    off_pile: int
    back: tuple[Meter, ...]
    left: int


def done_page(name: str, done: DoneTold, system: System) -> Page:
    """A few sentences."""
    parts = ", ".join(f"{many} of {mark}" for mark, many in done.parts.items())
    back = ", ".join(fine(length, system) for length in done.back[:8]) or "nothing"
    more = f" and {len(done.back) - 8} more" if len(done.back) > 8 else ""
    told = [f"Written down: {parts}."]
    told += [f"{done.spoiled} of them spoiled, to be cut anew."] if done.spoiled else []
    told.append(f"Off the pile: {done.off_pile or 'nothing'}. Back onto it: {back}{more}.")
    told.append(f"{done.left} parts are left to cut.")
    return Page(title=f"{name}: cut", blocks=tuple(Paragraph(text=text) for text in told))
