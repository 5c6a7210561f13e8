"""A plan file's text cut into its tables, each with the comments that belong to it, and put together again."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

_HEADER = re.compile(r"\s*\[(\[?)\s*([^\]]*?)\s*\]")
_PART = re.compile(r"""\s*(?:"([^"]*)"|'([^']*)'|([\w-]+))\s*""")
_LINE = re.compile(r"[^\n]*\n|[^\n]+")
_QUOTES = ('"""', "'''", '"', "'")


@dataclass(frozen=True, kw_only=True)
class Block:
    """One table of the file as it is written.

    Attributes:
        kind: its key, such as `corner` or `ground`; empty for the head of the file.
        listed: whether it is written [[kind]].
        heading: blank lines and comments above it that stay where they are when it goes.
        lead: comments right above it that are its own.
        text: its header and all its lines.
    """

    kind: str
    listed: bool
    heading: str
    lead: str
    text: str


def blocks_of(text: str) -> list[Block]:
    """The file in order; joined again with `joined` it is the same text."""
    lines = _LINE.findall(text)
    starts = list(_starts(lines))
    ends = [number for number, _, _ in starts[1:]] + [len(lines)]
    if not starts:
        return [Block(kind="", listed=False, heading="", lead="", text=text)]
    blocks = [Block(kind="", listed=False, heading="", lead="", text="".join(lines[: starts[0][0]]))]
    for (number, kind, listed), end in zip(starts, ends, strict=True):
        blocks.append(Block(kind=kind, listed=listed, heading="", lead="", text="".join(lines[number:end])))
    return _with_comments(blocks)


def joined(blocks: list[Block]) -> str:
    """The whole text."""
    return "".join(block.heading + block.lead + block.text for block in blocks)


def _with_comments(blocks: list[Block]) -> list[Block]:
    """Each table gets the comments and blank lines above it from the end of the one before."""
    done, above, before = [], "", ""
    for number, block in enumerate(blocks):
        own, tail = _without_tail(block.text) if number + 1 < len(blocks) else (block.text, "")
        heading, lead = _split_comments(above) if block.kind == before else (above, "")
        done.append(Block(kind=block.kind, listed=block.listed, heading=heading, lead=lead, text=own))
        above, before = tail, block.kind
    return done


def _without_tail(text: str) -> tuple[str, str]:
    """The table, and what follows its last value from the first blank line on."""
    lines = _LINE.findall(text)
    end = len(lines)
    while end > 1 and _is_quiet(lines[end - 1]):
        end -= 1
    while end < len(lines) and lines[end].strip():
        end += 1
    if end == len(lines) and lines and lines[-1].strip():  # comments run on to the next table: they are that one's
        while end > 1 and _is_quiet(lines[end - 1]):
            end -= 1
    return "".join(lines[:end]), "".join(lines[end:])


def _split_comments(above: str) -> tuple[str, str]:
    """What lies above a table: what is set off from it by a blank line, and the comments right above it."""
    lines = _LINE.findall(above)
    start = len(lines)
    while start and lines[start - 1].strip():
        start -= 1
    return "".join(lines[:start]), "".join(lines[start:])


def _is_quiet(line: str) -> bool:
    return not line.strip() or line.lstrip().startswith("#")


def _starts(lines: list[str]) -> Iterator[tuple[int, str, bool]]:
    """The headers at which a block starts: a table inside of the one before, such as [[side.runs]], goes with it."""
    before = ""
    for number, key, listed in _headers(lines):
        kind, inner = _first(key)
        if not (inner and kind == before):
            yield number, kind, listed
        before = kind


def _first(key: str) -> tuple[str, bool]:
    """The first part of a key, and whether more parts follow."""
    found = _PART.match(key)
    if found is None:
        return key, False
    return found[1] or found[2] or found[3] or "", found.end() < len(key)


def _headers(lines: list[str]) -> Iterator[tuple[int, str, bool]]:
    """Every line that opens a table, by its number, with its key and whether it is listed."""
    quote, depth = "", 0
    for number, line in enumerate(lines):
        found = _HEADER.match(line) if not quote and depth == 0 else None
        if found and line.lstrip().startswith("["):
            yield number, found[2], bool(found[1])
            continue
        quote, depth = _after(line, quote, depth)


def _after(line: str, quote: str, depth: int) -> tuple[str, int]:
    """The string a line leaves open, and how many brackets."""
    place = 0
    while place < len(line):
        if quote:
            place, quote = _past_string(line, place, quote)
            continue
        letter = line[place]
        if letter == "#":
            break
        opened = next((mark for mark in _QUOTES if line.startswith(mark, place)), "")
        if opened:
            place, quote = place + len(opened), opened
            continue
        depth += {"[": 1, "{": 1, "]": -1, "}": -1}.get(letter, 0)
        place += 1
    return (quote if len(quote) == 3 else ""), max(depth, 0)


def _past_string(line: str, place: int, quote: str) -> tuple[int, str]:
    while place < len(line):
        if line[place] == "\\" and quote[0] == '"':
            place += 2
        elif line.startswith(quote, place):
            return place + len(quote), ""
        else:
            place += 1
    return place, quote
