"""Kinds of log entries and their fields, read from one file that every form is made from."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib.resources import files

from pinfold.errors import NotFoundError
from pinfold.units import RATIO, SECOND, UNIT_BY_SYMBOL, System, Unit, show, significant

_SYSTEMS = (System.METRIC, System.US)
WITHDRAWN = "withdrawn"
"""The kind that takes an earlier entry back."""
MEASURES = ("bag", "bucket", "pail", "shovel", "barrow")
"""Measures as they are on site, beside units of mass and volume."""


class Sort(StrEnum):
    """What a field takes."""

    QUANTITY = "quantity"
    COUNT = "count"
    MONEY = "money"
    TEXT = "text"
    CHOICE = "choice"
    PLACE = "place"
    MIX = "mix"
    ITEM = "item"
    AMOUNTS = "amounts"  # several things with a quantity or a number of measures each
    PHOTO = "photo"  # the content's name of a stored photo


@dataclass(frozen=True, kw_only=True)
class Field:
    """One field of a kind of entry.

    Attributes:
        key: its name in files.
        sort: what it takes.
        says: its label.
        needed: whether the entry says nothing without it.
        unit: SI unit of a quantity; None for all else.
        choices: of a choice.
        low: least value, in the unit.
        high: greatest.
        longest: letters of a text.
        suggest: what a form offers: places, mixes, items, layers, works, marks, last, or nothing.
        from_photo: whether it is read from the entry's photo where that is wished, and asked in no form.
        first: whether a small form asks it at once though it is not needed.
        asked: whether forms ask it; not what pinfold itself writes down.
    """

    key: str
    sort: Sort
    says: str
    needed: bool = False
    unit: Unit | None = None
    choices: tuple[str, ...] = ()
    low: float = -math.inf
    high: float = math.inf
    longest: int = 200
    suggest: str = ""
    from_photo: bool = False
    first: bool = False
    asked: bool = True

    @property
    def ends(self) -> str:
        """Least and greatest value as a builder reads them, in both systems where those differ."""
        metric, american = (" to ".join(_end(end, self.unit, by) for end in (self.low, self.high)) for by in _SYSTEMS)
        return metric if metric == american else f"{metric} ({american})"


def _end(value: float, unit: Unit | None, system: System) -> str:
    if unit is None:
        return significant(value)
    if unit != SECOND:
        return show(value, unit, system)
    return show(value, unit, system, in_unit=next((sign for least, sign in _TIMES if value >= least), "s"))


_TIMES = ((48 * 3600.0, "day"), (3600.0, "h"), (60.0, "min"))
"""From how many seconds on a time is told in days, hours, minutes."""


@dataclass(frozen=True, kw_only=True)
class EntryKind:
    """A kind of entry.

    Attributes:
        name: its name in files and addresses.
        says: what it is.
        group: work, money, reading or note.
        fields: in the order of a form.
        ways: keys that together say it, of which at least one way is filled in; none where the needed fields do.
    """

    name: str
    says: str
    group: str
    fields: tuple[Field, ...]
    ways: tuple[tuple[str, ...], ...] = ()

    def field(self, key: str) -> Field | None:
        """A field by its key; None where the kind has none such."""
        return next((field for field in self.fields if field.key == key), None)

    @property
    def from_photo(self) -> frozenset[str]:
        """Keys of what is read from its photo, and goes when that one does."""
        return frozenset(field.key for field in self.fields if field.from_photo)

    @property
    def unasked(self) -> frozenset[str]:
        """Keys of what pinfold itself writes down, and what stays when a form corrects the rest."""
        return frozenset(field.key for field in self.fields if not field.asked)


@cache
def entry_kinds() -> Mapping[str, EntryKind]:
    """All kinds by name, in the order of the file."""
    text = files("pinfold.logbook").joinpath("entry_kinds.toml").read_text(encoding="utf-8")
    return {name: _kind(name, row) for name, row in tomllib.loads(text).items()}


def entry_kind(name: str) -> EntryKind:
    """A kind by name.

    Raises:
        NotFoundError: there is none such; the message says which there are.
    """
    found = entry_kinds().get(name)
    if found is None:
        raise NotFoundError(f"there is no kind of entry {name!r}; there are {', '.join(entry_kinds())}")
    return found


def _kind(name: str, row: Mapping[str, object]) -> EntryKind:
    fields = row["field"]
    assert isinstance(fields, dict)
    return EntryKind(
        name=name, says=str(row["says"]), group=str(row["group"]),
        fields=tuple(_field(key, each) for key, each in fields.items()), ways=_ways(row.get("ways", [])),
    )  # fmt: skip


def _ways(listed: object) -> tuple[tuple[str, ...], ...]:
    assert isinstance(listed, list)
    return tuple(tuple(map(str, way)) for way in listed)


def _field(key: str, row: Mapping[str, object]) -> Field:
    known: dict[str, object] = {**row, "sort": Sort(str(row["sort"])), "choices": tuple(row.get("choices", ()))}  # type: ignore[arg-type]
    if "unit" in row:
        known["unit"] = RATIO if row["unit"] == "ratio" else UNIT_BY_SYMBOL[str(row["unit"])]
    return Field(key=key, **known)  # type: ignore[arg-type]
