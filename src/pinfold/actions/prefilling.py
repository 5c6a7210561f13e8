"""A form of the log that an address fills in, such as the square code of a batch card; checked as if typed."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from pinfold.actions.clock import now_local
from pinfold.actions.entry_forms import EntryForm, FormField
from pinfold.actions.log_book import new_id
from pinfold.actions.scanning import WITH
from pinfold.actions.writing_down import Draft, draft_of, fresh_draft
from pinfold.errors import InputError, InvalidPlan
from pinfold.logbook.entries import entry_of

MOST = 40
"""Values that an address may bring."""


def filled_draft(
    folder: Path, kind: str, given: Sequence[tuple[str, str]], *, device: str = ""
) -> tuple[Draft, tuple[InputError, ...]]:
    """A form with what an address brings, and what is wrong with that; what is wrong and unreadable is left out.

    Args:
        folder: of the site
        kind: of the entry
        given: key and text, as the address has them; an amount as `with` and `sand:3 bucket`
        device: that it is filled in on

    Raises:
        NotFoundError: there is no such kind.
    """
    empty = fresh_draft(folder, kind, device=device)
    complaints: list[InputError] = []
    fields: dict[str, object] = {}
    if len(given) > MOST:
        complaints.append(InputError(f"it brings {len(given)} values; {MOST} are the most", place="address"))
    for key, text in given[:MOST]:
        _put(empty.form, fields, key, text, complaints)
    complaints += _checked(kind, fields)
    draft = draft_of(empty.form, fields, name=empty.id, at=empty.at, who=empty.who)
    return draft, tuple(complaints)


def _put(form: EntryForm, fields: dict[str, object], key: str, text: str, complaints: list[InputError]) -> None:
    field = _field(form, key)
    if field is None:
        there = ", ".join([each.key for each in form.fields if each.sort != "amounts"] + [WITH])
        complaints.append(InputError(f"the form has no such field; it has {there}", place=key[:40] or "address"))
    elif not text.isprintable() or len(text) > max(field.longest, 60):
        complaints.append(InputError("cannot be read; a short text on one line is wanted", place=field.key))
    elif key == WITH:
        item, _, amount = text.partition(":")
        rows = fields.setdefault(field.key, [])
        assert isinstance(rows, list)
        rows.append([item.strip(), amount.strip()])
    else:
        fields[field.key] = text


def _field(form: EntryForm, key: str) -> FormField | None:
    fields = [each for each in form.fields if each.sort != "photo"]
    if key == WITH:
        return next((each for each in fields if each.sort == "amounts"), None)
    return next((each for each in fields if each.key == key and each.sort != "amounts"), None)


def _checked(kind: str, fields: dict[str, object]) -> list[InputError]:
    """What the log would say of what was brought; what was not is left to be filled in."""
    if not fields:
        return []
    raw = {"id": new_id(), "kind": kind, "at": now_local(), "who": "builder", "device": "form", "fields": fields}
    try:
        entry_of(raw)
    except InvalidPlan as wrong:
        return [each for each in wrong.problems if each.place.partition(".")[0] in fields]
    return []
