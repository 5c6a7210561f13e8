"""Entries of the log to read: a line each, one whole with its corrections, the kinds there are."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from pinfold.errors import InputError
from pinfold.logbook.cells import cell_of
from pinfold.logbook.entries import Amount, Entry, Value
from pinfold.logbook.kinds import WITHDRAWN, EntryKind, Field, Sort, entry_kinds
from pinfold.logbook.seen import seen
from pinfold.reports.pages import Block, Page, Paragraph, table
from pinfold.reports.record import suffix
from pinfold.units import KILOGRAM, System, show

_BARE = {Sort.TEXT, Sort.CHOICE, Sort.PLACE, Sort.MIX, Sort.ITEM, Sort.AMOUNTS}
"""What says enough without its key."""


def entry_record(entry: Entry) -> dict[str, object]:
    """An entry for JSON: what was typed, and in SI with the unit in the key."""
    return {
        "seq": entry.seq, "id": entry.id, "kind": entry.kind, "at": entry.at, "who": entry.who,
        "device": entry.device, "corrects": entry.corrects or None, "received": entry.received,
        "typed": dict(entry.typed), "values": dict(_values(entry)),
    }  # fmt: skip


def written_page(entry: Entry, *, untold: bool = False) -> Page:
    """What was written down just now.

    Args:
        entry: as the log has it
        untold: whether its photo was to tell where it was taken, and does not
    """
    what = "Taken back" if entry.kind == WITHDRAWN else "Corrected" if entry.corrects else "Written down"
    notes = (Paragraph(text="The photo does not tell where it was taken."),) if untold else ()
    return Page(title=f"{what} as entry {entry.seq}", blocks=(_fields(entry), *notes))


def list_page(entries: Sequence[Entry], count: int, clock: str) -> Page:
    """One line an entry.

    Args:
        entries: to list
        count: of all that are like them
        clock: by which days and times were asked for, in a sentence; may be empty
    """
    rows = [(str(each.seq), _when(each), each.kind, line_of(each), each.who) for each in entries]
    shown = table(("no.", "when", "kind", "what", "who"), rows, right=(0,), wide=3)
    told = "No entry." if not count else "1 entry." if count == 1 else f"{count} entries."
    more = f" The newest {len(entries)} are shown; --limit shows more." if count > len(entries) else ""
    return Page(title="The log", blocks=(shown, Paragraph(text=f"{told}{more} {clock}".rstrip())))


def show_page(asked: Entry, stands: Entry | None, history: Sequence[Entry]) -> Page:
    """One entry as it stands, then what came before."""
    blocks: list[Block] = [_fields(stands or asked)]
    if stands is None:
        blocks.insert(0, Paragraph(text="It was taken back and is no longer counted."))
    elif stands.id != asked.id:
        blocks.insert(0, Paragraph(text=f"Corrected since; entry {stands.seq} stands for it and is shown."))
    if len(history) > 1:
        rows = [(str(each.seq), _when(each), each.kind, line_of(each), each.who) for each in history]
        title = "All that was written about it"
        blocks.append(table(("no.", "when", "kind", "what", "who"), rows, right=(0,), title=title, wide=3))
    return Page(title=f"Entry {asked.seq}", blocks=tuple(blocks))


def kinds_page(kinds: Sequence[EntryKind], *, fields: bool) -> Page:
    """All kinds, or the fields of one."""
    if not fields:
        rows = [(kind.name, kind.says, ", ".join(f.key for f in kind.fields if f.needed)) for kind in kinds]
        note = "'pinfold log kinds KIND' tells all fields of one."
        return Page(title="Kinds of entries", blocks=(table(("kind", "what", "needed"), rows, wide=1, note=note),))
    kind = kinds[0]
    each = [(field.key, field.says, "yes" if field.needed else "", takes(field)) for field in kind.fields]
    return Page(title=f"{kind.name}: {kind.says}", blocks=(table(("field", "what", "needed", "takes"), each, wide=3),))


def takes(field: Field) -> str:
    """What is to be typed into a field."""
    if field.from_photo:
        return "--keep-place, where the photo tells it"
    if field.sort is Sort.CHOICE:
        return " | ".join(field.choices)
    if field.sort is Sort.QUANTITY and field.unit is not None:
        return f"a {field.unit.kind}, from {field.ends}"
    if field.sort is Sort.COUNT:
        return f"a whole number from {field.ends}"
    return _TAKES.get(field.sort, "text")


_TAKES: Mapping[Sort, str] = {
    Sort.MONEY: "money, like 12.50",
    Sort.PLACE: "a side or stretch of the plan, or your own word for the place",
    Sort.MIX: "name of a mix",
    Sort.ITEM: "name of an item",
    Sort.AMOUNTS: "amounts.sand='10 bucket' amounts.water='14 L' …, in bag, bucket, pail, shovel, barrow, L, kg, lb …",
    Sort.PHOTO: "--photo FILE",
}


def line_of(entry: Entry) -> str:
    """An entry in one line, its fields in the order of the form."""
    kind = entry_kinds().get(entry.kind)
    fields = kind.fields if kind else ()
    known = [_part(field, entry.typed[field.key]) for field in fields if field.key in entry.typed]
    others = {key: typed for key, typed in entry.typed.items() if key not in {field.key for field in fields}}
    return ", ".join([*known, *(f"{key} {cell_of(typed)}" for key, typed in others.items())])


def _part(field: Field, typed: object) -> str:
    if field.sort is Sort.PHOTO:
        return "with a photo"
    text = worded(field.sort, typed)
    return text if field.sort in _BARE else f"{field.key.replace('_', ' ')} {text}"


def worded(sort: Sort, typed: object) -> str:
    """What was typed into a field, as one reads it."""
    text = cell_of(typed)
    return text.replace("=", " ").replace(";", ",") if sort is Sort.AMOUNTS else text


def _fields(entry: Entry) -> Block:
    kind = entry_kinds().get(entry.kind)
    says = {field.key: field.says for field in kind.fields} if kind else {}
    head = [("kind", entry.kind), ("when", entry.at), ("who", entry.who), ("id", entry.id)]
    rows = [(says[key], cell_of(entry.typed[key])) for key in says if key in entry.typed]
    rows += [(key, cell_of(typed)) for key, typed in entry.typed.items() if key not in says]
    rows += made_of(entry)
    return table(("what", "as written"), [*head, *rows], wide=1)


def made_of(entry: Entry) -> tuple[tuple[str, str], ...]:
    """What is made of what was seen: label and figure; nothing where an entry says its figures itself."""
    try:
        found = seen(entry.kind, entry.values)
    except InputError as wrong:
        return (("cannot be", wrong.message),)
    if not found.working:
        return ()
    return tuple((f"makes {_MADE[key][0]}", _MADE[key][1](value)) for key, value in found.figures.items())


def _both_ways(mass: float) -> str:
    return " = ".join(show(mass, KILOGRAM, system) for system in (System.METRIC, System.US))


_MADE: Mapping[str, tuple[str, Callable[[float], str]]] = {
    "moisture": ("water over dry mass", "{:.1%}".format), "bulking": ("swollen by", "{:.0%}".format),
    "silt": ("silt over the sand under it", "{:.1%}".format), "mass": ("weight of what was in it", _both_ways),
}  # fmt: skip


def _when(entry: Entry) -> str:
    return entry.when.strftime("%Y-%m-%d %H:%M")


def _values(entry: Entry) -> Iterator[tuple[str, object]]:
    kind = entry_kinds().get(entry.kind)
    for key, value in entry.values.items():
        field = kind.field(key) if kind else None
        yield key + suffix(field.unit if field else None), _plain(value)


def _plain(value: Value) -> object:
    if isinstance(value, tuple):
        return [{"item": each.item, "amount": each.amount, "measure": each.measure} for each in value if _is(each)]
    return value


def _is(found: object) -> bool:
    return isinstance(found, Amount)
