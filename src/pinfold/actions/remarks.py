"""What is said at once of an entry that is written down all the same: names in it that nothing is known by."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from pinfold.errors import PinfoldError
from pinfold.logbook.entries import Entry
from pinfold.logbook.kinds import Sort, entry_kinds

if TYPE_CHECKING:
    from pinfold.plan.enclosure import Enclosure
    from pinfold.studies.lessons.naming import Names

NAMING = (Sort.MIX, Sort.ITEM, Sort.AMOUNTS, Sort.PLACE)
"""What a field takes that names something."""


class Remark(NamedTuple):
    """Something to be said of an entry.

    Attributes:
        place: the field it is about, `amounts.sandd` for one of the amounts.
        message: in the builder's words.
    """

    place: str
    message: str

    def __str__(self) -> str:
        return f"{self.place}: {self.message}"


def remarks_on(folder: Path, entries: Sequence[Entry]) -> tuple[tuple[Remark, ...], ...]:
    """Remarks on each of several entries; nothing of it keeps one from being written.

    Args:
        folder: of the site; while its plan has complaints names are judged by what is shipped
        entries: as they are written
    """
    return tuple(_remarks(folder, entries)) if any(map(_names_something, entries)) else ((),) * len(entries)


def _names_something(entry: Entry) -> bool:
    kind = entry_kinds().get(entry.kind)
    return kind is not None and any(
        (field.sort in NAMING or field.suggest == "works") and field.key in entry.values for field in kind.fields
    )


def _remarks(folder: Path, entries: Sequence[Entry]) -> Iterator[tuple[Remark, ...]]:
    from pinfold.studies.lessons.naming import doubts, told

    plan = _plan_of(folder)
    found = [doubts(entry, plan) for entry in entries]
    names = _names_of(folder, plan) if any(found) else None
    for each in found:
        yield tuple(Remark(doubt.key, told(doubt, names)) for doubt in each) if names is not None else ()


def _plan_of(folder: Path) -> Enclosure | None:
    from pinfold.actions.sites import open_site

    try:
        return open_site(folder).plan
    except PinfoldError:
        return None


def _names_of(folder: Path, plan: Enclosure | None) -> Names:
    from pinfold.actions.entry_forms import at_hand, offers_of
    from pinfold.studies.lessons.naming import Names, places_of
    from pinfold.tables.shelf import shelf

    site = at_hand(folder).site
    if site is None or plan is None:
        return Names(
            mixes=tuple(shelf("mixes")), items=tuple(shelf("materials")), coats=tuple(shelf("coats")), places=()
        )
    offers = offers_of(site)
    coats = dict.fromkeys(coat.kind.name for buildup in plan.buildups.values() for coat in buildup.coats)
    places = dict.fromkeys((*offers["places"], *places_of(plan)))
    return Names(mixes=offers["mixes"], items=offers["items"], coats=tuple(coats), places=tuple(places))
