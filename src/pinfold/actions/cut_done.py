"""What was really cut: the piece off the pile, its parts, what goes back; told to the log in one go."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import NamedTuple
from urllib.parse import urlencode

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.cut_pieces import CutAsked, cut_so_far, parts_by_mark, pieces_of
from pinfold.actions.log_book import DEVICE, WHO, new_id, now_at
from pinfold.actions.sites import Site, open_site
from pinfold.actions.taking import take_entries
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.plan.stock import RawEnds
from pinfold.reports.cut_done import DoneTold, done_page
from pinfold.studies.cutting.sawing import Falls
from pinfold.studies.lessons.paid import item_named
from pinfold.studies.parts.sawn import PieceCut, raw_ends_of
from pinfold.studies.quantities.records import Part
from pinfold.studies.quantities.standing import TAPE_STEP
from pinfold.units import METER, Meter, System, read, tape

_MOST_PIECES = 10_000
_SLACK: Meter = 0.02
_SAME: Meter = 0.005


class _Read(NamedTuple):
    """What was typed, read."""

    length: Meter
    many: int
    each: Counter[str]
    spoiled: Counter[str]
    back: tuple[Meter, ...]


@dataclass(frozen=True, kw_only=True)
class Done:
    """What was done to pieces alike, as typed.

    Attributes:
        item: what was cut.
        length: of each piece, raw ends in it.
        width: of sheets, and the height of rolls; empty for lengths.
        count: how many pieces were cut so; one where empty.
        pile: `yes` where they lay on the pile; new ones else.
        parts: marks of what one piece gave, with commas: `T8, T1, T1`.
        kept: lengths of what of one piece goes back on the pile, with semicolons.
        spoiled: marks of parts that came out wrong and are cut anew, of all pieces, with commas.
    """

    item: str = ""
    length: str = ""
    width: str = ""
    count: str = ""
    pile: str = ""
    parts: str = ""
    kept: str = ""
    spoiled: str = ""


def cut_done(folder: Path, done: Done, *, code: str = "", device: str = "") -> Answer:
    """Write down what was really cut.

    Args:
        folder: of the site
        done: as typed; what is empty stands as planned where a code is given
        code: of a piece of the cut plan as it is now; empty where all is typed
        device: that it is told from

    Raises:
        NotFoundError: no such code, no site.
        InvalidPlan: what is wrong with what is told, all at once; nothing is written.
        StoreError, NewerFileError: the log cannot be written; nothing is.
    """
    site = open_site(folder)
    piece = _piece_of(site, code) if code else None
    filled = _as_planned(piece, done, site.plan.units) if piece else done
    typed = _read(site, filled)
    raws = _entries(site, filled, typed, piece=piece or _like(site, filled, typed), device=device)
    record = _told(site, typed, off_pile=bool(filled.pile))
    taken = take_entries(folder, raws, write=False)
    problems = [wrong for each in taken for wrong in each.complaints]
    if problems:
        raise InvalidPlan("what was cut", problems)
    take_entries(folder, raws)
    return answer_from(site, record, done_page(site.plan.name, record, site.plan.units))


def done_of(piece: PieceCut, system: System) -> Done:
    """What a piece of the plan gives, as it would be typed."""
    return Done(
        item=piece.item, length=_typed(piece.length, system), count=str(piece.times), pile="yes" if piece.row else "",
        parts=", ".join(step.code for step in piece.steps if step.falls is Falls.PART),
        kept="; ".join(_typed(step.measure, system) for step in piece.steps if step.falls is Falls.KEPT),
    )  # fmt: skip


def _typed(length: Meter, system: System) -> str:
    """A length down to the mark of the tape, as it would be typed."""
    mark = TAPE_STEP[system]
    return tape(math.floor(length / mark + 1e-6) * mark, system).replace("\u00a0", " ")


def address_of(piece: PieceCut, system: System) -> str:
    """The page where a piece is told as cut, filled in as planned; it stays true however the plan is numbered."""
    done = done_of(piece, system)
    fields = {key: getattr(done, key) for key in ("item", "length", "count", "pile", "parts", "kept")}
    return "/cut/done?" + urlencode({key: text for key, text in fields.items() if text})


def _piece_of(site: Site, code: str) -> PieceCut:
    pieces = {piece.code: piece for section in pieces_of(site, CutAsked()) for piece in section.pieces}
    if code not in pieces:
        raise NotFoundError(
            f"there is no piece {code[:20]!r} in the cut plan as it is now: it is cut already, or plan, pile or saw "
            "changed; 'pinfold cut pieces' shows what there is"
        )
    return pieces[code]


def _like(site: Site, done: Done, read: _Read) -> PieceCut | None:
    """The piece of the plan that was cut just so, where it was not named."""
    for section in pieces_of(site, CutAsked()):
        for piece in section.pieces:
            parts = Counter(step.code for step in piece.steps if step.falls is Falls.PART)
            alike = piece.item == done.item and abs(piece.length - read.length) < TAPE_STEP[site.plan.units]
            if alike and parts == read.each and bool(piece.row) == bool(done.pile) and read.many <= piece.times:
                return piece
    return None


def _as_planned(piece: PieceCut, done: Done, system: System) -> Done:
    plan = done_of(piece, system)
    typed = {key: value for key in ("length", "count", "parts", "kept", "spoiled") if (value := getattr(done, key))}
    return replace(plan, **typed)


def _read(site: Site, done: Done) -> _Read:
    """What was typed, read and checked.

    Raises:
        InvalidPlan: all complaints at once.
    """
    problems: list[InputError] = []
    by_mark = parts_by_mark(site)
    found = _Read(
        length=_length(done.length, "length", problems), many=_count(done.count, problems),
        each=_marks(done.parts, "parts", by_mark, problems), spoiled=_marks(done.spoiled, "spoiled", by_mark, problems),
        back=tuple(_length(text, "kept", problems) for text in done.kept.split(";") if text.strip()),
    )  # fmt: skip
    if not found.each and not problems:
        problems.append(InputError("name at least one part that was cut, such as T8", place="parts"))
    whole = sum(found.back) + sum(_least(by_mark[mark]) * many for mark, many in found.each.items())
    if done.width:
        _length(done.width, "width", problems)
    elif whole > found.length + _SLACK and not problems:
        problems.append(InputError("parts and offcuts are longer than the piece; measure it again", place="length"))
    problems += [InputError(f"{mark} was not cut", place="spoiled") for mark in found.spoiled if mark not in found.each]
    problems += _item_wrongs(site, done, found)
    if problems:
        raise InvalidPlan("what was cut", problems)
    return found


def _item_wrongs(site: Site, done: Done, found: _Read) -> Iterator[InputError]:
    """What is cut is something that is known, and where it is said to lie on the pile there is such a piece on it."""
    name, system = item_named(done.item), site.plan.units
    if not name:
        yield InputError(
            f"nothing is known as {done.item[:40]!r}; name it as the pile or the price list does", place="item"
        )
    elif done.pile and found.length:
        rows = [row for row in site.lessons.pile if row.item == name]
        there = sum(row.count for row in rows if row.length is None or abs(row.length - found.length) < _SAME)
        if there < found.many:
            lie = ", ".join(f"{row.count} of {tape(row.length, system)}" for row in rows if row.length) or "none at all"
            yield InputError(
                f"{there or 'no'} {name} of {tape(found.length, system)} on the pile, which has {lie}; measure it "
                "again, or leave pile out where it was bought", place="pile",
            )  # fmt: skip


def _least(part: Part) -> Meter:
    """What a part takes of a piece at the least, its slanting ends nested with those of others."""
    return part.length - part.deep * math.tan(max(abs(part.left), abs(part.right)))


def _told(site: Site, read: _Read, *, off_pile: bool) -> DoneTold:
    made = {mark: many * read.many for mark, many in read.each.items()}
    spoiled = read.spoiled.total()
    left = sum(part.count for part in cut_so_far(site).left) - sum(made.values()) + spoiled
    return DoneTold(
        parts=made, spoiled=spoiled, off_pile=read.many if off_pile else 0, back=read.back * read.many,
        left=max(left, 0),
    )  # fmt: skip


def _entries(site: Site, done: Done, read: _Read, *, piece: PieceCut | None, device: str) -> list[object]:
    now, system = now_at(site.folder), site.plan.units
    told = list(_fields(done, read, parts_by_mark(site), system))
    if piece is not None:
        told = _by_plan(told, piece, read.many, system)
    return [
        {"id": new_id(), "kind": kind, "at": now, "who": WHO, "device": device or DEVICE, "fields": fields}
        for kind, fields in told
    ]


_Told = tuple[str, dict[str, str]]


def _by_plan(told: list[_Told], piece: PieceCut, many: int, system: System) -> list[_Told]:
    """The same with the code of the piece; its flaws tell it from others of its length, one part tells how many."""
    first = next(at for at, (kind, _) in enumerate(told) if kind == "cut")
    lies = {"out": _lies(piece, 0.0, piece.length, system), **_kept_lie(piece, system)}
    found = []
    for at, (kind, fields) in enumerate(told):
        own = {"piece": piece.code} | ({"pieces": str(many)} if at == first else {})
        of = fields["length"] if fields.get("way") == "in" else fields.get("way", "")
        found.append((kind, fields | own | (lies.get(of, {}) if kind == "pile" else {})))
    return found


def _kept_lie(piece: PieceCut, system: System) -> dict[str, dict[str, str]]:
    """Flaws and raw ends of what goes back on the pile, by its length as it is typed."""
    return {
        _typed(step.measure, system): _lies(piece, step.running - step.measure, step.running, system)
        for step in piece.steps
        if step.falls is Falls.KEPT
    }


def _lies(piece: PieceCut, start: Meter, end: Meter, system: System) -> dict[str, str]:
    """What is to be known of a stretch of a piece, as fields of the pile."""
    mark, raw = TAPE_STEP[system], piece.raw_ends
    left = start < mark / 2 and raw in (RawEnds.LEFT, RawEnds.BOTH)
    right = end > piece.length - mark / 2 and raw in (RawEnds.RIGHT, RawEnds.BOTH)
    told = {"flaws": _flaws(piece, start, end, system), "raw_ends": str(raw_ends_of(left=left, right=right))}
    return {key: text for key, text in told.items() if text and text != RawEnds.NONE}


def _flaws(piece: PieceCut, start: Meter, end: Meter, system: System) -> str:
    """The flaws in a stretch of a piece, measured from its left end and out to the next mark of the tape."""
    mark, found = TAPE_STEP[system], []
    whole = math.floor((end - start) / mark + 1e-6) * mark
    for flaw in piece.flaws:
        first = math.floor(max(flaw.start - start, 0.0) / mark + 1e-6) * mark
        last = min(math.ceil((flaw.end - start) / mark - 1e-6) * mark, whole)
        if last > first + mark / 2:
            found.append(f"{flaw.kind} {_typed(first, system)} to {_typed(last, system)}")
    return "; ".join(found)


def _fields(done: Done, read: _Read, parts: Mapping[str, Part], system: System) -> Iterator[_Told]:
    """Kind and fields of each entry: the piece off the pile, its parts, what goes back."""
    size = {"item": done.item} | ({"width": done.width} if done.width else {})
    if done.pile:
        yield "pile", {"way": "out", **size, "count": str(read.many), "length": done.length}
    for mark, many in read.each.items():
        fields = {"part": mark, "item": done.item, "count": str(many * read.many)}
        fields |= {} if parts[mark].splice else {"length": _typed(parts[mark].length, system)}
        yield "cut", fields | ({"spoiled": str(read.spoiled[mark])} if read.spoiled[mark] else {})
    for length, many in Counter(read.back).items():
        count = str(many * read.many)
        yield "pile", {"way": "in", **size, "count": count, "length": _typed(length, system)}


def _length(text: str, place: str, problems: list[InputError]) -> Meter:
    """As typed; 0 after a complaint."""
    try:
        value = read(text.strip(), like=METER)
    except InputError as mistake:
        problems.append(InputError(mistake.message, place=place))
        return 0.0
    if not 0 < value <= 1000:
        problems.append(InputError(f"{text!r} found; a length above nothing is wanted", place=place))
        return 0.0
    return value


def _count(text: str, problems: list[InputError]) -> int:
    typed = text.strip() or "1"
    if typed.isdecimal() and 0 < int(typed[:9]) <= _MOST_PIECES:
        return int(typed)
    problems.append(InputError(f"{text!r} found; a whole number from 1 to {_MOST_PIECES} is wanted", place="count"))
    return 1


def _marks(text: str, place: str, parts: Mapping[str, Part], problems: list[InputError]) -> Counter[str]:
    words = [word.strip() for word in text.split(",") if word.strip()]
    unknown = sorted({word for word in words if word not in parts})
    if unknown:
        problems.append(InputError(f"the part list has no {', '.join(unknown)[:80]}", place=place))
    return Counter(word for word in words if word in parts)


@dataclass(frozen=True, kw_only=True)
class DoneShown:
    """What a page shows.

    Attributes:
        title: of it.
        pieces: of the plan as it stands: code, what it gives, address of its form.
        items: names of what is cut.
        left: parts still to be cut.
    """

    title: str
    pieces: tuple[tuple[str, str, str], ...]
    items: tuple[str, ...]
    left: int


def done_shown(folder: Path) -> DoneShown:
    """Pieces of the plan that can be told as cut; raises as reading the site tells."""
    site = open_site(folder)
    sections = pieces_of(site, CutAsked())
    pieces = [piece for section in sections for piece in section.pieces]
    system = site.plan.units
    return DoneShown(
        title=f"{site.plan.name}: what was really cut",
        pieces=tuple((piece.code, _gives(piece, system), address_of(piece, system)) for piece in pieces),
        items=tuple(dict.fromkeys(piece.item for piece in pieces)),
        left=sum(part.count for part in cut_so_far(site).left),
    )


def _gives(piece: PieceCut, system: System) -> str:
    done = done_of(piece, system)
    times = f"{piece.times} x " if piece.times > 1 else ""
    return f"{times}{piece.item}, {done.length}: {done.parts}" + (f"; back {done.kept}" if done.kept else "")
