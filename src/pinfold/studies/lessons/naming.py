"""Names in an entry that are known of nothing, so that nothing is learned from it: judged here for every door.

What is known is asked of the lessons themselves: a name that is doubted here is one that they set aside.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.logbook.entries import Amount, Entry
from pinfold.logbook.kinds import Field, Sort, entry_kinds
from pinfold.logbook.works import Work, named_works
from pinfold.plan.enclosure import Enclosure
from pinfold.studies.batching.loose import parts_of
from pinfold.studies.lessons.coverage import coat_of
from pinfold.studies.lessons.paid import item_named
from pinfold.studies.lessons.things import part_named, thing
from pinfold.tables.shelf import Kind, shelf

_ADDED = ("water", "foam")
"""What goes into a batch beside the parts of its mix."""
_LISTED = 8
"""Names that are told one by one."""
_ALIKE = 0.6
_SLIP = 0.8
"""How like a known place a word must be to be taken for a slip; any other is the builder's own."""


@dataclass(frozen=True, kw_only=True)
class Names:
    """The names that a site's plan, price list and pile have for things.

    Attributes:
        mixes: that are mixed.
        items: bought, gathered, on the pile.
        coats: laid.
        places: sides, stretches, gates.
        works: that hours are spent at.
    """

    mixes: tuple[str, ...]
    items: tuple[str, ...]
    coats: tuple[str, ...]
    places: tuple[str, ...]
    works: tuple[str, ...] = tuple(work.value for work in Work)


class Doubt(NamedTuple):
    """A name in an entry that nothing is known by.

    Attributes:
        key: of the field, `amounts.sandd` for one of the amounts.
        what: it should be the name of: mix, item, material, sand, coat, work, place.
        name: as written; empty where a coat is not named and cannot be told otherwise.
    """

    key: str
    what: str
    name: str


def doubts(entry: Entry, plan: Enclosure | None) -> tuple[Doubt, ...]:
    """The names in an entry that nothing is known by, in the order of its fields.

    Args:
        entry: as written
        plan: of the site; None while it has complaints: coats and places are not judged then
    """
    kind = entry_kinds().get(entry.kind)
    fields = [field for field in kind.fields if field.key in entry.values] if kind else []
    found = [doubt for field in fields if field.sort in _JUDGED for doubt in _JUDGED[field.sort](entry, field, plan)]
    if entry.kind == "coat" and plan is not None and coat_of(entry, plan) is None:
        found.append(Doubt("layer", "coat", entry.text("layer")))
    if entry.kind == "hours" and entry.text("layer") and not named_works(entry.text("layer")):
        found.append(Doubt("layer", "work", entry.text("layer")))
    return tuple(found)


def _mix(entry: Entry, field: Field, plan: Enclosure | None) -> Iterator[Doubt]:
    if thing("mixes", entry.text(field.key)) is None:
        yield Doubt(field.key, "mix", entry.text(field.key))


def _item(entry: Entry, field: Field, plan: Enclosure | None) -> Iterator[Doubt]:
    name = entry.text(field.key)
    material = thing("materials", name)
    if entry.kind == "moisture":
        if material is None or material is not thing("materials", "sand"):
            yield Doubt(field.key, "sand", name)
    elif entry.kind == "bucket":
        if material is None:
            yield Doubt(field.key, "material", name)
    elif not item_named(name):
        yield Doubt(field.key, "item", name)


def _amounts(entry: Entry, field: Field, plan: Enclosure | None) -> Iterator[Doubt]:
    mix, amounts = thing("mixes", entry.text("mix")), entry.values[field.key]
    parts = parts_of(mix) if mix is not None else ()
    for amount in amounts if isinstance(amounts, tuple) else ():
        if _is_doubtful(amount, parts):
            yield Doubt(f"{field.key}.{amount.item}", "material", amount.item)


def _is_doubtful(amount: Amount, parts: Iterable[tuple[str, Kind]]) -> bool:
    known = amount.item.strip().casefold() in _ADDED or thing("materials", amount.item) is not None
    return not known and not part_named(amount.item, parts)


def _place(entry: Entry, field: Field, plan: Enclosure | None) -> Iterator[Doubt]:
    """A place of the builder's own is none; a slip of the pen in one of the plan's is."""
    name = entry.text(field.key)
    if plan is None or _is_place(name, plan):
        return
    if difflib.get_close_matches(_plain(name), [_plain(each) for each in places_of(plan)], n=1, cutoff=_SLIP):
        yield Doubt(field.key, "place", name)


_JUDGED: Mapping[Sort, Callable[[Entry, Field, Enclosure | None], Iterator[Doubt]]] = {
    Sort.MIX: _mix, Sort.ITEM: _item, Sort.AMOUNTS: _amounts, Sort.PLACE: _place,
}  # fmt: skip


def places_of(plan: Enclosure) -> tuple[str, ...]:
    """Sides, runs, gates and neighbors by name; a stretch is a run with a letter behind it."""
    named = (plan.sides, [run for _, run in plan.runs], plan.gates, plan.neighbors)
    return tuple(dict.fromkeys(each.name for group in named for each in group))


def _is_place(name: str, plan: Enclosure) -> bool:
    return bool({name, re.sub(r"(?<=\d)[a-z]+$", "", name)} & set(places_of(plan)))


def told(doubt: Doubt, names: Names) -> str:
    """A doubt in the builder's words: what is not known, what is, what may be meant, and what comes of it."""
    known = _known(doubt.what, names)
    near = _nearest(doubt.name, known) or _nearest(doubt.name, _shipped(doubt.what))
    head = f"the plan has no {doubt.what} called {doubt.name!r}" if doubt.name else "which coat it was cannot be told"
    meant = f"; did you mean {near}?" if near else ";"
    listed = f" Known are {_listed(doubt.name, known)}." if near else f" known are {_listed(doubt.name, known)}."
    if doubt.what == "place":
        return f"{head}{meant} It is written down as it is, as a place of your own."
    if doubt.what == "work":
        return f"{head}{meant}{listed} The ledger counts the hours; plan against actual and forecast cannot place them."
    return f"{head}{meant}{listed} It is written down as it is, and nothing is learned from it until it is corrected."


def _known(what: str, names: Names) -> tuple[str, ...]:
    materials = tuple(name for name in names.items if thing("materials", name) is not None)
    return {
        "mix": names.mixes, "item": names.items, "material": materials, "sand": ("sand",), "coat": names.coats,
        "place": names.places, "work": names.works,
    }[what]  # fmt: skip


def _shipped(what: str) -> tuple[str, ...]:
    shelves = {"mix": "mixes", "material": "materials", "item": "materials"}
    return tuple(shelf(shelves[what])) if what in shelves else ()


def _nearest(name: str, known: Iterable[str]) -> str:
    """The name most like one, first one that holds it whole or is held by it; empty for none."""
    by_plain = {_plain(each): each for each in reversed(tuple(known))}
    plain = _plain(name)
    holding = [each for each in by_plain if len(plain) > 2 and (plain in each or each in plain)]
    near = difflib.get_close_matches(plain, holding or by_plain, n=1, cutoff=0.0 if holding else _ALIKE)
    return by_plain[near[0]] if near else ""


def _listed(name: str, known: tuple[str, ...]) -> str:
    if len(known) <= _LISTED:
        return ", ".join(known) or "none"
    likeness = {each: difflib.SequenceMatcher(None, _plain(name), _plain(each)).ratio() for each in known}
    shown = sorted(known, key=lambda each: -likeness[each])[:_LISTED]
    return f"{', '.join(shown)} and {len(known) - _LISTED} more"


def _plain(name: str) -> str:
    return "-".join(name.split()).casefold()
