"""Forms for log entries as a page asks for them: the kinds' fields with the plan's units and what can be offered."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from pinfold.actions.sites import Site, open_site
from pinfold.errors import InputError, InvalidPlan, OutOfRangeError
from pinfold.logbook.kinds import MEASURES, WITHDRAWN, EntryKind, Field, Sort, entry_kinds
from pinfold.units import RATIO, UNIT_BY_SYMBOL, System, printed

_SMALL = 1.0
"""Lengths that never pass this many meters are asked in millimeters or inches."""
_CUPS = 1.0
"""Volumes that never pass this many cubic meters are asked in liters or gallons."""
_HEAPED = 2.5
"""Plain numbers that never pass this are asked in percent: shares, and how full a heaped measure is."""
_LONG = 1e6
"""Times that may pass this many seconds are asked in days."""
_UNITS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {  # kind of quantity: (US, metric), the usual one first
    "small length": (("in", "ft", "mm"), ("mm", "cm", "m")), "length": (("ft", "in", "m"), ("m", "cm", "mm")),
    "area": (("ft2", "yd2", "m2"), ("m2", "cm2")), "small volume": (("gal", "ft3", "L"), ("L", "m3", "mL")),
    "volume": (("ft3", "gal", "yd3", "L"), ("L", "m3")), "mass": (("lb", "oz", "kg"), ("kg", "g", "t")),
    "density": (("lb/ft3", "kg/m3"), ("kg/m3", "g/L")), "temperature": (("°F", "°C"), ("°C", "°F")),
    "time": (("h", "min"), ("h", "min")), "long time": (("day", "h", "week"), ("day", "h", "week")),
    "force": (("lbf", "kN", "N"), ("kN", "N", "lbf")),
    "pressure or stress": (("psi", "MPa"), ("MPa", "N/mm2", "psi")), "speed": (("mph", "m/s"), ("m/s", "km/h")),
    "share": (("%",), ("%",)), "plain number": (("",), ("",)), "angle": (("deg",), ("deg",)),
}  # fmt: skip
_GROUPS = ("work", "money", "reading", "note")


@dataclass(frozen=True, kw_only=True)
class FormField:
    """One field of a form.

    Attributes:
        key: its name in the entry.
        sort: what it takes, as the kinds' file names it.
        says: its label.
        needed: whether it must be filled in.
        first: whether it is asked at once though it need not be.
        units: symbols to choose from, the usual one first; of amounts measures too; empty for what has none.
        shown: the same as printed.
        least: least number, in each unit; None where there is no limit.
        most: greatest, likewise.
        choices: of a choice.
        longest: letters of a text.
        offers: what can be picked instead of typed.
    """

    key: str
    sort: str
    says: str
    needed: bool
    first: bool
    units: tuple[str, ...]
    shown: tuple[str, ...]
    least: tuple[float | None, ...]
    most: tuple[float | None, ...]
    choices: tuple[str, ...]
    longest: int
    offers: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class EntryForm:
    """The form of one kind of entry.

    Attributes:
        kind: its name.
        says: what it is.
        group: work, money, reading or note.
        fields: in the order of the form.
    """

    kind: str
    says: str
    group: str
    fields: tuple[FormField, ...]


@dataclass(frozen=True, kw_only=True)
class AtHand:
    """What of a site there is to keep a log with; there is always enough.

    Attributes:
        name: of the plot; of the folder where the plan does not tell.
        system: the plan's units; metric where the plan does not tell.
        site: the site as read; None while its files have complaints.
    """

    name: str
    system: System
    site: Site | None


def at_hand(folder: Path) -> AtHand:
    """What a log is kept with: the site, or what can be told of it while the plan has complaints.

    Raises:
        NotFoundError, StoreError, NewerFileError: as the readers tell.
    """
    from pinfold.actions.reckonings import reckon_all

    try:
        site = open_site(folder)
        name, system = site.plan.name, site.plan.units
    except InvalidPlan:
        return _told_of(folder)
    try:
        reckon_all(site)
    except (InvalidPlan, InputError, OutOfRangeError):
        return AtHand(name=name, system=system, site=None)
    return AtHand(name=name, system=system, site=site)


def entry_forms(known: AtHand) -> tuple[EntryForm, ...]:
    """Every kind that can be written down anew, group by group; without offers while the plan has complaints."""
    offers = offers_of(known.site) if known.site else {}
    kinds = [kind for kind in entry_kinds().values() if kind.name != WITHDRAWN]
    kinds.sort(key=lambda kind: _GROUPS.index(kind.group))
    return tuple(_form(kind, known.system, offers) for kind in kinds)


def _told_of(folder: Path) -> AtHand:
    """Name and units out of the head of a plan file that does not read."""
    from pinfold.store import planfile
    from pinfold.store.writing import read_text

    head = _head(read_text(folder / planfile.NAME))
    name, family = head.get("name"), head.get("family", "us" if head else "")
    named = isinstance(name, str) and name.strip()
    units = head.get("units", "us" if family == "us" else "metric")
    return AtHand(
        name=name.strip() if isinstance(name, str) and named else folder.absolute().name,
        system=System.US if units == "us" else System.METRIC, site=None,
    )  # fmt: skip


def _head(text: str) -> dict[str, object]:
    """What stands before the first table, line by line, so that a slip in one line hides no other."""
    found: dict[str, object] = {}
    for line in text.splitlines():
        if line.lstrip().startswith("["):
            break
        with suppress(ValueError, RecursionError):
            found |= tomllib.loads(line)
    return found


def units_of(field: Field, system: System) -> tuple[str, ...]:
    """Symbols that a field is asked in, the usual one first; empty for what takes no quantity."""
    if field.sort is Sort.AMOUNTS:
        return (*MEASURES[:2], *(("lb", "gal") if system is System.US else ("kg", "L")), *MEASURES[2:])
    if field.unit is None:
        return ()
    return _UNITS[_sized(field, field.unit.kind)][0 if system is System.US else 1]


def _sized(field: Field, kind: str) -> str:
    sizes = {
        "length": ("small length", _SMALL), "volume": ("small volume", _CUPS), "plain number": ("share", _HEAPED),
    }  # fmt: skip
    if kind == "time":
        return "long time" if field.high > _LONG else kind
    small, limit = sizes.get(kind, ("", 0.0))
    return small if small and field.high <= limit else kind


def _form(kind: EntryKind, system: System, offers: Mapping[str, tuple[str, ...]]) -> EntryForm:
    return EntryForm(
        kind=kind.name, says=kind.says, group=kind.group,
        fields=tuple(_field(field, system, offers) for field in kind.fields if field.asked and not field.from_photo),
    )  # fmt: skip


_OFFERED_BY_SORT = {Sort.PLACE: "places", Sort.MIX: "mixes", Sort.ITEM: "items", Sort.AMOUNTS: "items"}


def _field(field: Field, system: System, offers: Mapping[str, tuple[str, ...]]) -> FormField:
    units = units_of(field, system)
    return FormField(
        key=field.key, sort=field.sort.value, says=field.says, needed=field.needed, first=field.first, units=units,
        shown=tuple(printed(unit) for unit in units), least=_limits(field, units, field.low),
        most=_limits(field, units, field.high), choices=field.choices, longest=field.longest,
        offers=offers.get(_OFFERED_BY_SORT.get(field.sort, field.suggest), ()),
    )  # fmt: skip


def _limits(field: Field, units: tuple[str, ...], limit: float) -> tuple[float | None, ...]:
    """A limit of a quantity in each unit that it can be written in; of a count as it is."""
    if field.sort is Sort.COUNT:
        return (limit if math.isfinite(limit) else None,)
    if field.sort is not Sort.QUANTITY or not math.isfinite(limit):
        return tuple(None for _ in units)
    chosen = [UNIT_BY_SYMBOL[symbol] if symbol else RATIO for symbol in units]
    return tuple(round((limit - unit.offset) / unit.factor, 9) for unit in chosen)


def offers_of(site: Site) -> dict[str, tuple[str, ...]]:
    """The names that a site has for `places`, `mixes`, `layers`, `works`, `marks` and `items`."""
    from pinfold.actions.reckonings import reckon_all
    from pinfold.logbook.works import Work

    reckoned = reckon_all(site)
    parts = [part.kind.name for card in reckoned.cards for part in card.totals]
    return {
        "places": _each(
            [each.name for group in (site.layout.stretches, site.plan.gates, site.plan.sides) for each in group]
        ),
        "mixes": _each([card.mix.name for card in reckoned.cards]),
        "layers": _each([quantity.layer for quantity in reckoned.quantities]),
        "works": tuple(work.value for work in Work),
        "marks": _marks(site),
        "items": _each([*parts, "water", *site.prices.by_item, *(piece.item for piece in site.pile)]),
    }


def _marks(site: Site) -> tuple[str, ...]:
    """Where levels are read: the marks that stay, and the supports of what stands on blocks."""
    levelings = [each.blocks.leveling for each in site.plan.neighbors if each.blocks is not None]
    fixed = [each.fixed for each in levelings if each.fixed]
    return _each([*fixed, *(support.mark for each in levelings for support in each.supports)])


def _each(names: list[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(names))
