"""Changing a plan file as the plan editor does: corners, sides, gates, neighbors, lines, banks, ground; comments stay.

Each table that changed is read by itself with a style-keeping TOML library and its values are put in place; tables that
went are taken out with the comments that are theirs, new ones are written like those beside them. What comes out is
read again and must be the table that was wanted, else the file is left alone.
"""

from __future__ import annotations

import hashlib
import json
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from pinfold.errors import InputError, InvalidPlan, StoreError
from pinfold.store.lengths import spelled, style_of
from pinfold.store.plan_blocks import Block, blocks_of, joined
from pinfold.store.plan_values import changed_values, fresh
from pinfold.store.planfile import plan_of
from pinfold.store.writing import read_text, write_bytes

EDITED = ("ground", "corner", "side", "gate", "neighbor", "line", "bank")
"""Tables that are edited, in the order a new one finds its place in the file."""
MINE = "plan-mine.toml"
"""Where a plan goes whose file was changed by another hand meanwhile."""
Table = Mapping[str, object]


def read_edited(path: Path) -> tuple[str, str, dict[str, object]]:
    """A plan file as revision, text and table; the table need not be a good plan.

    Raises:
        NotFoundError, StoreError: as reading tells.
        InvalidPlan: it is no TOML.
    """
    read_text(path)  # for its complaints
    content = path.read_bytes()
    text = content.decode("utf-8-sig")
    try:
        table = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError) as fault:
        raise InvalidPlan(path.name, [InputError(f"not readable as TOML: {fault}")]) from None
    return revision_of(content), text, table


def revision_of(content: bytes) -> str:
    """Mark of a file's bytes."""
    return hashlib.sha256(content).hexdigest()[:32]


def put_into(table: Table, changes: Table) -> dict[str, object]:
    """The table with the edited parts in place of its own, lengths written out in the plan's style; None takes out.

    Raises:
        InputError: a change of something that is not edited here, or a number that is no length.
    """
    odd = sorted(set(changes) - set(EDITED))
    if odd:
        raise InputError(f"cannot be changed here; write it in the plan file: {', '.join(odd)[:200]}", place="changes")
    style = style_of(table)
    whole = {**table, **spelled(changes, style)}
    return {key: value for key, value in whole.items() if value is not None}


def edited(text: str, wanted: Table, renamed: Mapping[str, Mapping[str, str]] | None = None) -> str:
    """The plan text with the edited tables as wanted and all comments of what stays.

    Args:
        text: of the plan as it stands
        wanted: the whole table as it should read afterwards
        renamed: by kind, new name and the name that the same thing bears in the text

    Raises:
        StoreError: the file is written in a way that cannot be changed without losing something.
    """
    blocks, table = blocks_of(text), tomllib.loads(text)
    end = "\r\n" if "\r\n" in text else "\n"
    for kind in EDITED:
        if _same(wanted.get(kind), table.get(kind)):
            continue
        if kind == "ground":
            blocks = _with_ground(blocks, wanted.get(kind), end)
        else:
            blocks = _with_rows(blocks, kind, _rows(wanted.get(kind)), (renamed or {}).get(kind, {}), end=end)
    result = joined(blocks)
    if not _reads_as(result, wanted):
        result = _wholesale(text, wanted)
    if not _reads_as(result, wanted):
        raise StoreError("this plan file is written in a way the editor cannot change; change it by hand")
    return result


def save_edited(path: Path, content: bytes | None, text: str) -> None:
    """Write a changed plan whole, after reading it as a plan.

    Args:
        path: of the plan
        content: bytes that stood there, for their byte order mark
        text: to write

    Raises:
        InvalidPlan: it does not read; nothing is written.
        StoreError: it cannot be written.
    """
    plan_of(text, name=path.name)
    mark = b"\xef\xbb\xbf" if content is not None and content.startswith(b"\xef\xbb\xbf") else b""
    write_bytes(path, mark + text.encode("utf-8"))


def beside(folder: Path) -> Path:
    """A file beside the plan that is not there yet: `plan-mine.toml`, or numbered."""
    names = (MINE, *(f"plan-mine-{number}.toml" for number in range(2, 1000)))
    return next((folder / name for name in names if not (folder / name).exists()), folder / MINE)


def _same(one: object, other: object) -> bool:
    return json.dumps(one, sort_keys=True, default=str) == json.dumps(other, sort_keys=True, default=str)


def _reads_as(text: str, wanted: Table) -> bool:
    try:
        return _same(tomllib.loads(text), {key: value for key, value in wanted.items() if value not in ([], None)})
    except (tomllib.TOMLDecodeError, RecursionError):
        return False


def _rows(found: object) -> list[Table]:
    return [row for row in found if isinstance(row, Mapping)] if isinstance(found, list) else []


def _with_ground(blocks: list[Block], wanted: object, end: str) -> list[Block]:
    place = next((number for number, block in enumerate(blocks) if block.kind == "ground"), None)
    if place is None:
        new = fresh("ground", wanted, end) if isinstance(wanted, Mapping) else ""
        return _inserted(blocks, "ground", [_new_block("ground", new, end)], end=end) if new else blocks
    if not isinstance(wanted, Mapping):
        return _taken_out(blocks, {place})
    changed = replace(blocks[place], text=changed_values(blocks[place].text, "ground", wanted))
    return [*blocks[:place], changed, *blocks[place + 1 :]]


def _with_rows(
    blocks: list[Block], kind: str, rows: Sequence[Table], renamed: Mapping[str, str], *, end: str
) -> list[Block]:  # fmt: skip
    """The blocks with those of one kind as wanted: kept ones in the old places, new ones after."""
    slots = [number for number, block in enumerate(blocks) if block.kind == kind]
    old = {_name(blocks[number]): blocks[number] for number in slots}
    wanted = []
    for row in rows:
        name = str(row.get("name"))
        block = old.get(renamed.get(name, name))
        text = changed_values(block.text, kind, row) if block else fresh(kind, row, end)
        wanted.append(replace(block, text=text) if block else _new_block(kind, text, end))
    if not slots:
        return _inserted(blocks, kind, wanted, end=end)
    return _filled(blocks, slots, wanted, end)


def _filled(blocks: list[Block], slots: list[int], wanted: list[Block], end: str) -> list[Block]:
    """The wanted blocks in the old ones' places: the place's heading stays, each takes its own comments along."""
    blank = end
    placed = dict(zip(slots, wanted, strict=False))
    extra, last = wanted[len(slots) :], slots[-1]
    gone = {number for number in slots if number not in placed}
    done: list[Block] = []
    for number, block in enumerate(blocks):
        if number in placed:
            new = placed[number]
            done.append(replace(new, heading=block.heading, text=_ended(new.text, end)))
        else:
            done.append(block)
        if number == last:
            done += [replace(new, heading=blank, text=_ended(new.text, end)) for new in extra]
    return _taken_out(done, gone) if gone else done


def _taken_out(blocks: list[Block], gone: set[int]) -> list[Block]:
    """Without some; a heading that is more than blank lines stays with what follows."""
    done: list[Block] = []
    kept = ""
    for number, block in enumerate(blocks):
        if number in gone:
            kept += block.heading if block.heading.strip() else ""
            continue
        done.append(replace(block, heading=kept + block.heading) if kept else block)
        kept = ""
    if kept and done:
        done[-1] = replace(done[-1], text=done[-1].text + kept)
    return done


def _inserted(blocks: list[Block], kind: str, new: list[Block], *, end: str) -> list[Block]:
    """New ones of a kind that the file has not yet: after the last of the kinds that come before it, or as the last
    thing before build-ups."""
    before = EDITED[: EDITED.index(kind)]
    places = [number for number, block in enumerate(blocks) if block.kind in before]
    others = [number for number, block in enumerate(blocks) if block.kind in ("", "place", "haul", "mixing")]
    place = max(places or others) + 1
    head = blocks[place - 1]
    ready = [replace(block, heading=end, text=_ended(block.text, end)) for block in new]
    return [*blocks[: place - 1], replace(head, text=_ended(head.text, end)), *ready, *blocks[place:]]


def _ended(text: str, end: str) -> str:
    return text if text.endswith("\n") or not text else text + end


def _new_block(kind: str, text: str, end: str) -> Block:
    return Block(kind=kind, listed=kind != "ground", heading=end, lead="", text=text)


def _name(block: Block) -> str:
    rows = tomllib.loads(block.text).get(block.kind)
    row = rows[0] if isinstance(rows, list) and rows else {}
    return str(row.get("name")) if isinstance(row, Mapping) else ""


def _wholesale(text: str, wanted: Table) -> str:
    """Another try for files written in unusual ways: whole keys replaced, comments inside of them lost."""
    import tomlkit

    document = tomlkit.parse(text)
    table = tomllib.loads(text)
    for kind in EDITED:
        if _same(wanted.get(kind), table.get(kind)):
            continue
        if kind in document:
            del document[kind]
        if wanted.get(kind):
            document[kind] = tomlkit.item(wanted[kind])
    return tomlkit.dumps(document)
