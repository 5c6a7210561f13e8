"""One log entry, and making it out of what was sent or typed, with every complaint at once."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal, InvalidOperation
from typing import NamedTuple

from pinfold.errors import InputError, InvalidPlan, NotFoundError, QuantityError
from pinfold.logbook.kinds import MEASURES, WITHDRAWN, EntryKind, Field, Sort, entry_kind
from pinfold.logbook.seen import wrongs
from pinfold.units import CUBIC_METER, KILOGRAM, RATIO, decimals_of, read, unit_of

ID = re.compile(r"[A-Za-z0-9_-]{8,64}")
PHOTO = re.compile(r"[0-9a-f]{64}")
_NAME_LONGEST = 40
_MOST_AMOUNTS = 30
_YEARS = (2000, 2199)
_KEYS = {"id", "kind", "at", "who", "device", "corrects", "fields"}


class Amount(NamedTuple):
    """How much of one thing went in.

    Attributes:
        item: what.
        amount: kg, m3, or how many of the measure.
        measure: `kg`, `m3`, or a measure of the site such as `bucket`.
    """

    item: str
    amount: float
    measure: str


Value = float | int | str | tuple[Amount, ...]


@dataclass(frozen=True, kw_only=True)
class Entry:
    """One thing that happened, never changed once written.

    Attributes:
        id: made by whoever wrote it down; sending it twice changes nothing.
        kind: name of its kind.
        at: when it happened, ISO 8601 with the offset of the place.
        who: by the name the builder gives.
        device: likewise.
        values: by key of the field: SI for quantities, smallest coins for money, text for all else.
        typed: by key: the text as it was typed.
        corrects: id of the entry that this one stands for from now on; empty for a new one.
        seq: place in the log; 0 before it is written.
        received: when it was written, ISO 8601 in UTC; empty before.
    """

    id: str
    kind: str
    at: str
    who: str
    device: str
    values: Mapping[str, Value]
    typed: Mapping[str, object]
    corrects: str = ""
    seq: int = 0
    received: str = ""

    @property
    def when(self) -> datetime:
        """When it happened."""
        return datetime.fromisoformat(self.at)

    def number(self, key: str) -> float | None:
        """A quantity, count or money; None where the field is empty."""
        value = self.values.get(key)
        return None if value is None or isinstance(value, str | tuple) else float(value)

    def text(self, key: str) -> str:
        """A text; empty where the field is."""
        value = self.values.get(key, "")
        return value if isinstance(value, str) else ""


def entry_of(raw: object, *, digits: int = 2) -> Entry:
    """An entry out of what was sent or typed.

    Args:
        raw: `id`, `kind`, `at`, `who`, `device`, perhaps `corrects`, and `fields`: text by key, for amounts a list of
            [item, text] pairs
        digits: decimals of the site's currency; money of another that ISO 4217 knows has that one's

    Raises:
        InvalidPlan: every complaint, each with the field it is about.
    """
    if not isinstance(raw, Mapping):
        raise InvalidPlan("entry", [InputError("an entry is a table of fields")])
    complaints: list[InputError] = []
    kind = _kind_of(raw, complaints)
    complaints += [InputError("is no part of an entry", place=str(key)[:40]) for key in raw if key not in _KEYS]
    head = {key: _head(raw, key, complaints) for key in ("id", "at", "who", "device", "corrects")}
    values, typed = _values(kind, raw.get("fields"), digits, complaints) if kind else ({}, {})
    if kind is not None and kind.name == WITHDRAWN and not head["corrects"]:
        complaints.append(InputError("say which entry is taken back", place="corrects"))
    if head["corrects"] and head["corrects"] == head["id"]:
        complaints.append(InputError("an entry cannot correct itself; give it an id of its own", place="corrects"))
    if complaints or kind is None:
        raise InvalidPlan("entry", complaints)
    return Entry(
        id=head["id"], kind=kind.name, at=head["at"], who=head["who"], device=head["device"], values=values,
        typed=typed, corrects=head["corrects"],
    )  # fmt: skip


def raw_of(entry: Entry) -> dict[str, object]:
    """What `entry_of` makes the same entry from."""
    raw: dict[str, object] = {
        "id": entry.id, "kind": entry.kind, "at": entry.at, "who": entry.who, "device": entry.device,
        "fields": dict(entry.typed),
    }  # fmt: skip
    return {**raw, "corrects": entry.corrects} if entry.corrects else raw


def _kind_of(raw: Mapping[str, object], complaints: list[InputError]) -> EntryKind | None:
    try:
        return entry_kind(str(raw.get("kind", "")))
    except NotFoundError as none:
        complaints.append(InputError(str(none), place="kind"))
        return None


def _head(raw: Mapping[str, object], key: str, complaints: list[InputError]) -> str:
    found = raw.get(key, "")
    text = found.strip() if isinstance(found, str) else None
    wrong = "is no text" if text is None else _HEAD[key](text)
    if wrong:
        complaints.append(InputError(wrong, place=key))
    return text or ""


def _id_wrong(text: str) -> str:
    return "" if ID.fullmatch(text) else "8 to 64 letters, digits, - or _ are wanted"


def _corrects_wrong(text: str) -> str:
    return "" if not text or ID.fullmatch(text) else "no id of an entry"


def _at_wrong(text: str) -> str:
    try:
        at = datetime.fromisoformat(text)
    except ValueError:
        return f"{text[:40]!r} is no time; write it like 2026-05-03T14:20+02:00"
    if at.tzinfo is None:
        return "the offset from UTC is missing; write it like 2026-05-03T14:20+02:00"
    return "" if _YEARS[0] <= at.year <= _YEARS[1] else f"the year {at.year} cannot be; is the clock right?"


def _name_wrong(text: str) -> str:
    if not text:
        return "is missing; any name will do"
    return "" if len(text) <= _NAME_LONGEST and text.isprintable() else f"at most {_NAME_LONGEST} plain letters"


_HEAD = {"id": _id_wrong, "at": _at_wrong, "who": _name_wrong, "device": _name_wrong, "corrects": _corrects_wrong}


def _values(
    kind: EntryKind, fields: object, digits: int, complaints: list[InputError]
) -> tuple[dict[str, Value], dict[str, object]]:
    values: dict[str, Value] = {}
    typed: dict[str, object] = {}
    given = fields if isinstance(fields, Mapping) else {}
    digits = decimals_of(str(given.get("currency") or ""), digits)
    if not isinstance(fields, Mapping | None):
        complaints.append(InputError("fields are a table", place="fields"))
    complaints += [
        InputError(f"{kind.name} has no such field; it has {', '.join(f.key for f in kind.fields)}",
                   place=str(key)[:40])
        for key in given if kind.field(str(key)) is None
    ]  # fmt: skip
    for field in kind.fields:
        found = given.get(field.key)
        if _empty(found):
            if field.needed:
                complaints.append(InputError(_MISSING.get(field.sort, "is missing"), place=field.key))
            continue
        try:
            plain = _plain(found)
            values[field.key] = _value(field, plain, digits)
            typed[field.key] = plain
        except InputError as wrong:
            complaints.append(InputError(wrong.message, place=field.key))
    if not {wrong.place for wrong in complaints} & {key for way in kind.ways for key in way}:
        complaints += wrongs(kind, values)
    return values, typed


_MISSING = {Sort.PHOTO: "is missing; --photo FILE or the form adds one"}


def _empty(found: object) -> bool:
    return found is None or found in ([], ()) or (isinstance(found, str) and not found.strip())


def _plain(found: object) -> object:
    """What was typed without stray blanks around it, with plain line ends; pairs as lists, as JSON has them."""
    if isinstance(found, list | tuple):
        return [[_trimmed(part) for part in pair] if isinstance(pair, list | tuple) else pair for pair in found]
    return _trimmed(found)


def _trimmed(found: object) -> object:
    return found.replace("\r\n", "\n").strip() if isinstance(found, str) else found


def _value(field: Field, found: object, digits: int) -> Value:
    if field.sort is Sort.AMOUNTS:
        return _amounts(found)
    if not isinstance(found, str):
        raise InputError(f"{str(found)[:40]!r} found where text is wanted")
    if field.sort is Sort.QUANTITY:
        assert field.unit is not None
        return _bounded(field, read(found, like=field.unit), found)
    if field.sort is Sort.COUNT:
        return int(_bounded(field, _whole(found), found))
    if field.sort is Sort.MONEY:
        return _coins(found, digits)
    return _text(field, found)


def _bounded(field: Field, value: float, found: str) -> float:
    if not field.low <= value <= field.high:
        raise InputError(f"{found.strip()[:40]!r} cannot be; from {field.ends} is wanted")
    return value


def _whole(found: str) -> int:
    if not re.fullmatch(r"\d{1,9}", found.strip()):
        raise InputError(f"{found[:40]!r} found; a whole number is wanted")
    return int(found)


def _coins(found: str, digits: int) -> int:
    try:
        coins = Decimal(found.strip()).scaleb(digits) if len(found) < 30 else None
    except InvalidOperation:
        coins = None
    if coins is None or not coins.is_finite() or coins != coins.to_integral_value() or not 0 <= coins <= 10**12:
        raise InputError(
            f"{found[:40]!r} found; money from 0 up with at most {digits} decimals and no sign is wanted, "
            f"written like {28.5:.{digits}f}"
        )
    return int(coins)


def _text(field: Field, found: str) -> str:
    text = found.strip()
    if field.sort is Sort.CHOICE and text not in field.choices:
        raise InputError(f"{text[:40]!r} found; one of {', '.join(field.choices)} is wanted")
    if field.sort is Sort.PHOTO and not PHOTO.fullmatch(text):
        raise InputError("no name of a stored photo; --photo FILE or the form keeps one")
    if len(text) > field.longest:
        raise InputError(f"{len(text)} letters; at most {field.longest}")
    if any(not letter.isprintable() and letter not in "\n\t" for letter in text):
        raise InputError("holds a sign that cannot be printed")
    return text


def _amounts(found: object) -> tuple[Amount, ...]:
    if not isinstance(found, Sequence) or isinstance(found, str) or len(found) > _MOST_AMOUNTS:
        raise InputError(f"a list of at most {_MOST_AMOUNTS} pairs is wanted, like [['sand', '10 bucket']]")
    return tuple(_of_item(pair) for pair in found)


def _of_item(pair: object) -> Amount:
    try:
        return _amount(pair)
    except InputError as wrong:
        item = pair[0] if isinstance(pair, list | tuple) and pair and isinstance(pair[0], str) else ""
        raise InputError(f"{item[:40]}: {wrong.message}" if item else wrong.message) from None


def _amount(pair: object) -> Amount:
    if not isinstance(pair, Sequence) or isinstance(pair, str) or len(pair) != 2:
        raise InputError("each amount is a pair, like ['sand', '10 bucket']")
    item, text = pair
    if not isinstance(item, str) or not isinstance(text, str) or not 0 < len(item.strip()) <= _NAME_LONGEST:
        raise InputError("each amount is a pair of texts, like ['sand', '10 bucket']")
    if any(not letter.isprintable() or letter in "=;" for letter in item):
        raise InputError(f"{item[:40]!r}: a name without =, ; and signs that cannot be printed is wanted")
    number, _, word = text.strip().rpartition(" ")
    measure = word.removesuffix("s")
    if measure in MEASURES:
        return Amount(item.strip(), _number(number), measure)
    unit = unit_of(text)
    if unit.kind not in (CUBIC_METER.kind, KILOGRAM.kind):
        raise QuantityError(f"{text[:40]!r}: a mass, a volume or a number of {', '.join(MEASURES)} is wanted")
    return Amount(item.strip(), _positive(read(text, like=unit), text), unit.symbol)


def _number(text: str) -> float:
    return _positive(read(text or "1", like=RATIO), text)


def _positive(value: float, text: str) -> float:
    if not 0 < value <= 1e6:
        raise InputError(f"{text[:40]!r} cannot be; more than 0 is wanted")
    return value
