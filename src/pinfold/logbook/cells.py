"""A field as one piece of text, for command lines and the cells of a table."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from pinfold.errors import InputError
from pinfold.logbook.kinds import EntryKind, Sort


def cell_of(typed: object) -> str:
    """What was typed as one text: amounts as `sand=10 bucket; water=14 L`, all else as it is."""
    if isinstance(typed, str):
        return typed
    pairs = typed if isinstance(typed, Sequence) else ()
    return "; ".join(f"{item}={text}" for item, text in pairs)


def field_of(kind: EntryKind, key: str, cell: str) -> object:
    """What `entry_of` takes for a field out of such a text; text for a key that the kind does not have.

    Raises:
        InputError: a part of the amounts has no equals sign.
    """
    field = kind.field(key)
    return pairs_of(cell) if field is not None and field.sort is Sort.AMOUNTS else cell


def pairs_of(cell: str) -> list[list[str]]:
    """Amounts as item and text.

    Raises:
        InputError: a part has no equals sign.
    """
    parts = [part.partition("=") for part in cell.split(";") if part.strip()]
    for item, sign, text in parts:
        if not sign:
            raise InputError(f"{item.strip()[:40]!r} has no equals sign; write sand=10 bucket; water=14 L")
        if "=" in text:
            raise InputError(f"{text.strip()[:40]!r}: a semicolon is wanted between sand=10 bucket; water=14 L")
    return [[item.strip(), text.strip()] for item, _, text in parts]


def fields_of(kind: EntryKind, words: Mapping[str, str]) -> dict[str, object]:
    """Fields out of `key: text`, where `amounts.sand` is one of the amounts.

    Raises:
        InputError: as `field_of`, with its place.
    """
    fields: dict[str, object] = {}
    for word, text in words.items():
        key, _, item = word.partition(".")
        try:
            found = [[item, text]] if item else field_of(kind, key, text)
        except InputError as wrong:
            raise InputError(wrong.message, place=key) from None
        before = fields.get(key)
        fields[key] = [*before, *found] if isinstance(before, list) and isinstance(found, list) else found
    return fields
