"""Correcting an entry from a plain form and taking it back: never over the head of somebody who did so meanwhile."""

from __future__ import annotations

import threading
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from pinfold.actions.clock import now_local
from pinfold.actions.log_book import DEVICE, new_id
from pinfold.actions.looking import clock_of
from pinfold.actions.taking import Taken, log_of, take_entries
from pinfold.actions.writing_down import Draft, draft_of, form_of, read_form, write_down
from pinfold.errors import InputError
from pinfold.logbook.cells import cell_of
from pinfold.logbook.current import standing
from pinfold.logbook.entries import Entry
from pinfold.logbook.kinds import WITHDRAWN, entry_kind

_CORRECTING = threading.Lock()


@dataclass(frozen=True, kw_only=True)
class Corrected:
    """What came of a correction.

    Attributes:
        draft: the form as sent; filled from the version that stands now where that is another one.
        taken: what came of its entry; None where the entry was changed since the form was filled: nothing is written.
        newer: then by key of the field, `at` and `who`, what stands now and was something else in the form.
    """

    draft: Draft
    taken: Taken | None
    newer: Mapping[str, str]


def correction_draft(folder: Path, name: str) -> Draft:
    """The form of an entry as it stands.

    Raises:
        NotFoundError: there is none such.
        InputError: it was taken back.
        StoreError, NewerFileError: the log cannot be read.
    """
    found = standing(log_of(folder).history(name))
    if not found:
        raise _gone()
    entry = found[0]
    draft = draft_of(
        form_of(folder, entry.kind), entry.typed, name=new_id(), at=clock_of(entry.at), who=entry.who
    )  # fmt: skip
    return replace(draft, version=entry.id)


def correct(
    folder: Path, name: str, sent: Mapping[str, str], *, pictures: Mapping[str, bytes], device: str = ""
) -> Corrected:
    """Write a correction, unless the entry was changed since its form was filled; sent twice it is written once.

    Args:
        folder: of the site
        name: id of any version of the entry
        sent: the form's fields
        pictures: bytes of photos by key of their field
        device: that the form was filled in on; this computer unless told

    Raises:
        NotFoundError: there is no such entry.
        InputError: it was taken back; a picture that cannot be opened.
        StoreError, NewerFileError: the log cannot be written.
    """
    with _CORRECTING:
        history = log_of(folder).history(name)
        stands = next(iter(standing(history)), None)
        version = next((each for each in history if each.id == sent.get("version")), None)
        again = version is not None and any(
            each.id == sent.get("id") and each.corrects == version.id for each in history
        )  # fmt: skip
        base = version if again else stands
        if base is None:
            raise _gone()
        draft = _kept_photos(replace(read_form(form_of(folder, base.kind), sent), version=base.id), base)
        if version is None or base.id != version.id:
            return Corrected(draft=draft, taken=None, newer=_newer(base, version))
        at = _moment(draft.at, base)
        taken = write_down(folder, draft, device=device, corrects=base.id, at=at, pictures=pictures)
        return Corrected(draft=draft, taken=taken, newer={})


def take_back(folder: Path, name: str, sent: Mapping[str, str], *, device: str = "") -> Taken:
    """Take an entry back; it stays in the log and no longer counts. Sent twice it is taken back once.

    Args:
        folder: of the site
        name: id of any version of the entry
        sent: the form's fields: `id` of the entry that says so, made when the form was shown, `why` and `who`
        device: that the form was filled in on; this computer unless told

    Raises:
        NotFoundError: there is no such entry.
        InputError: it was taken back by another form.
        StoreError, NewerFileError: the log cannot be written.
    """
    with _CORRECTING:
        history = log_of(folder).history(name)
        said = next((each for each in history if (each.id, each.kind) == (sent.get("id"), WITHDRAWN)), None)
        if said is not None:
            return Taken(place=0, id=said.id, state="known", seq=said.seq)
        stands = next(iter(standing(history)), None)
        if stands is None:
            raise _gone()
        why = sent.get("why", "")
        raw = {
            "id": sent.get("id", ""), "kind": WITHDRAWN, "at": now_local(), "who": sent.get("who") or stands.who,
            "device": device or DEVICE, "corrects": stands.id, "fields": {"text": why} if why else {},
        }  # fmt: skip
        return take_entries(folder, [raw])[0]


def _gone() -> InputError:
    return InputError("this entry was taken back; write a new one")


def _kept_photos(draft: Draft, base: Entry) -> Draft:
    kept = {field.key: base.text(field.key) for field in draft.form.fields if field.sort == "photo"}
    kind = entry_kind(base.kind)
    read, unasked = (
        tuple((key, cell_of(typed)) for key, typed in base.typed.items() if key in keys)
        for keys in (kind.from_photo, kind.unasked)
    )
    return replace(draft, values={**draft.values, **kept}, from_photo=read, unasked=unasked)


def _newer(stands: Entry, version: Entry | None) -> dict[str, str]:
    now, was = _cells(stands), _cells(version) if version else {}
    return {key: now.get(key, "nothing") for key in {**was, **now} if now.get(key) != was.get(key)}


def _cells(entry: Entry) -> dict[str, str]:
    return {key: cell_of(typed) for key, typed in entry.typed.items()} | {"at": entry.at, "who": entry.who}


def _moment(text: str, base: Entry) -> str:
    """When a corrected entry happened: by the clock of its own place, unless an offset was typed."""
    if text == clock_of(base.at):
        return base.at
    try:
        found = datetime.fromisoformat(text)
    except ValueError:
        return text
    return text if found.tzinfo else found.replace(tzinfo=base.when.tzinfo).isoformat(timespec="seconds")
