"""Writing entries down from plain forms: what a form's fields become, and what it is filled with beforehand."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from pinfold.actions.clock import now_local
from pinfold.actions.entry_forms import EntryForm, FormField, at_hand, entry_forms
from pinfold.actions.log_book import DEVICE, WHO, new_id
from pinfold.actions.taking import Taken, log_of, take_pictured
from pinfold.errors import NotFoundError
from pinfold.units import UNIT_BY_SYMBOL

ROWS = 8
"""Rows of amounts that a form without script has at least."""
_SPLIT = re.compile(r"(-?[\d.\s/-]+?)\s*([^\W\d].*|[°%].*)?")
_ROW = re.compile(r"f\..+\.(\d{1,2})\.item")
_WORDED = re.compile(r"[^\d.,\s/-]")


@dataclass(frozen=True, kw_only=True)
class Draft:
    """A form filled in.

    Attributes:
        form: of the kind.
        id: the entry will have; made when the form is first shown, so that sending it twice writes it once.
        at: when it happened, as a form shows it: local time without offset.
        who: writes.
        values: by key the text of a field.
        units: by key the unit chosen.
        rows: by key of amounts the rows: item, number, measure.
        version: of a correction the id of the version that the form was filled from; empty otherwise.
        keep_place: whether the place where a photo chosen here was taken is kept; never unless ticked anew.
        from_photo: of a correction key and text of what was read from the photo there; it goes when another is chosen.
        unasked: of a correction key and text of what no form asks; it stays.
    """

    form: EntryForm
    id: str
    at: str
    who: str
    values: Mapping[str, str]
    units: Mapping[str, str]
    rows: Mapping[str, tuple[tuple[str, str, str], ...]]
    version: str = ""
    keep_place: bool = False
    from_photo: tuple[tuple[str, str], ...] = ()
    unasked: tuple[tuple[str, str], ...] = ()


def form_of(folder: Path, kind: str) -> EntryForm:
    """The form of a kind.

    Raises:
        NotFoundError: there is none such.
    """
    found = next((form for form in entry_forms(at_hand(folder)) if form.kind == kind), None)
    if found is None:
        raise NotFoundError(f"there is no form for {kind[:40]!r}")
    return found


def fresh_draft(folder: Path, kind: str, *, device: str = "") -> Draft:
    """An empty form.

    Args:
        folder: of the site
        kind: of the entry
        device: that it is filled in on; this computer unless told

    Raises:
        NotFoundError: there is no such kind.
    """
    form = form_of(folder, kind)
    now = now_local()[:16]
    return draft_of(form, {}, name=new_id(), at=now, who=_writer(folder, device or DEVICE))


def draft_of(form: EntryForm, fields: Mapping[str, object], *, name: str, at: str, who: str) -> Draft:
    """A form filled with an entry's fields."""
    values, units, rows = {}, {}, {}
    for field in form.fields:
        found = fields.get(field.key, "")
        if field.sort == "amounts":
            pairs = found if isinstance(found, list | tuple) else ()
            rows[field.key] = _rows(field, [(str(item), str(text)) for item, text in pairs])
        else:
            values[field.key], units[field.key] = _apart(field, str(found))
    return Draft(form=form, id=name, at=at[:16], who=who, values=values, units=units, rows=rows)


def read_form(form: EntryForm, sent: Mapping[str, str]) -> Draft:
    """A form as it was sent."""
    numbered = [found for found in map(_ROW.fullmatch, sent) if found]
    count = max(ROWS, *(int(found[1]) + 1 for found in numbered), 0)
    return Draft(
        form=form, id=sent.get("id", ""), at=sent.get("at", ""), who=sent.get("who", ""),
        version=sent.get("version", ""), keep_place=sent.get("keep_place") == "yes",
        values={field.key: sent.get(f"f.{field.key}", "") for field in form.fields},
        units={field.key: sent.get(f"u.{field.key}", "") for field in form.fields},
        rows={
            field.key: tuple(
                (sent.get(f"f.{field.key}.{row}.item", ""), sent.get(f"f.{field.key}.{row}.number", ""),
                 sent.get(f"f.{field.key}.{row}.unit", ""))
                for row in range(count)
            )
            for field in form.fields if field.sort == "amounts"
        },
    )  # fmt: skip


def write_down(
    folder: Path, draft: Draft, *, device: str = "", corrects: str = "", at: str = "",
    pictures: Mapping[str, bytes] | None = None,
) -> Taken:  # fmt: skip
    """Write a form's entry; a wrong one is told, not written.

    Args:
        folder: of the site
        draft: as sent
        device: that it was filled in on; this computer unless told
        corrects: the entry it stands for from now on
        at: with its offset, where the form left the time alone
        pictures: bytes of photos by key of their field

    Raises:
        InputError: a picture that cannot be opened.
        StoreError, NewerFileError: the log cannot be written.
    """
    fields: dict[str, object] = {field.key: _sent(draft, field) for field in draft.form.fields}
    fields |= dict(draft.unasked) | ({} if pictures else dict(draft.from_photo))
    raw = {
        "id": draft.id, "kind": draft.form.kind, "at": at or _local(draft.at), "who": draft.who or WHO,
        "device": device or DEVICE, "fields": {key: value for key, value in fields.items() if value},
    }  # fmt: skip
    raw |= {"corrects": corrects} if corrects else {}
    return take_pictured(folder, raw, pictures or {}, keep_place=draft.keep_place)


def texts_of(draft: Draft) -> dict[str, str]:
    """What was typed into a form, each with its unit, by key of the field; amounts apart."""
    found = {field.key: _sent(draft, field) for field in draft.form.fields if field.sort != "amounts"}
    return {key: text for key, text in found.items() if isinstance(text, str) and text}


def _writer(folder: Path, device: str) -> str:
    """Who wrote last on a device."""
    recent = log_of(folder).entries(limit=50)
    return next((entry.who for entry in recent if entry.device == device), WHO)


def _apart(field: FormField, text: str) -> tuple[str, str]:
    """Number and unit, where the unit is one of the field's; else the text as it is."""
    if not field.units:
        return text, ""
    found = _SPLIT.fullmatch(text.strip())
    if found and (found[2] or "") in field.units:
        return found[1], found[2] or ""
    return text, field.units[0]


def _rows(field: FormField, pairs: list[tuple[str, str]]) -> tuple[tuple[str, str, str], ...]:
    rows = [(item, *_apart(field, text)) for item, text in pairs]
    return (*rows, *[("", "", field.units[0])] * max(ROWS - len(rows), 2))


def _sent(draft: Draft, field: FormField) -> object:
    if field.sort == "amounts":
        return [[item, _measured(number, unit)] for item, number, unit in draft.rows[field.key] if item and number]
    text = draft.values[field.key].strip()
    return _measured(text, draft.units[field.key]) if text and field.units else text


def _measured(number: str, unit: str) -> str:
    """What was typed with the unit chosen, unless a unit was typed too."""
    known = unit in UNIT_BY_SYMBOL or unit.isalpha()
    return number if not known or _WORDED.search(number) else f"{number.strip()} {unit}"


def _local(text: str) -> str:
    """A form's local time with this machine's offset; what is no time is left for the entry's own complaint."""
    try:
        return datetime.fromisoformat(text).astimezone().isoformat(timespec="seconds")
    except (ValueError, OverflowError):
        return text
