"""What a change brings along: read to a limit while it comes in, and looked through before any page gets it."""

from __future__ import annotations

import asyncio
import json
import math
from collections.abc import Mapping
from contextlib import aclosing
from typing import NoReturn

from starlette.datastructures import FormData, Headers
from starlette.exceptions import HTTPException
from starlette.formparsers import FormParser, MultiPartException, MultiPartParser
from starlette.requests import Request
from starlette.types import Message, Receive

LARGEST = 25_000_000
"""Bytes of the largest request: a photo from a phone."""
LARGEST_TEXT = 2_000_000
"""Bytes of the largest request that is JSON or a plain form."""
SECONDS = 120.0
"""So long a request may take to come in."""
DEEPEST = 40
"""How far lists and objects of JSON may stand in each other."""
LONGEST_NUMBER = 30
MOST_FIELDS = 200
PHOTOS = frozenset({"application/octet-stream"})
FORMS = frozenset({"application/x-www-form-urlencoded", "multipart/form-data"})


class Refused(Exception):  # noqa: N818 - it is the answer, no error of ours
    """A request that no page will see.

    Attributes:
        status: of the answer.
        words: of the answer.
        code: short word for scripts.
    """

    def __init__(self, status: int, words: str, *, code: str = "refused") -> None:
        super().__init__(words)
        self.status, self.words, self.code = status, words, code


def kind_of(headers: Headers) -> str:
    """The content type without its parameters."""
    return headers.get("content-type", "").partition(";")[0].strip().lower()


def largest_for(kind: str) -> int:
    """Most bytes of a request of that content type."""
    return LARGEST if kind in {"multipart/form-data", *PHOTOS} or kind.startswith("image/") else LARGEST_TEXT


def told_length(headers: Headers) -> int:
    """The length that the request promises; 0 when it promises none.

    Raises:
        Refused: it is no number.
    """
    text = headers.get("content-length", "0")
    if not (text.isascii() and text.isdigit() and len(text) <= 15):
        raise Refused(400, "the length of the request is no number")
    return int(text)


async def read_body(receive: Receive, largest: int) -> bytes:
    """All of a request's body.

    Raises:
        Refused: it is larger, takes too long, or the other side went away.
    """
    chunks, size = [], 0
    try:
        async with asyncio.timeout(SECONDS):
            while True:
                message = await receive()
                if message["type"] != "http.request":
                    raise Refused(400, "the request ended early")
                chunks.append(message.get("body", b""))
                size += len(chunks[-1])
                if size > largest:
                    raise Refused(413, f"too large; {largest // 1_000_000 or 1} MB are the most", code="too-large")
                if not message.get("more_body", False):
                    return b"".join(chunks)
    except TimeoutError:
        raise Refused(408, "the request took too long to come in") from None


def replay(body: bytes, receive: Receive) -> Receive:
    """A `receive` that gives what was read already, then goes on."""
    given = False

    async def again() -> Message:
        nonlocal given
        if given:
            return await receive()
        given = True
        return {"type": "http.request", "body": body, "more_body": False}

    return again


async def form_of(headers: Headers, kind: str, body: bytes) -> FormData:
    """The fields of a form.

    Raises:
        Refused: it cannot be read, or holds signs that no field can hold.
    """
    request = Request({"type": "http", "headers": headers.raw, "method": "POST"}, receive=replay(body, _nothing_more))
    try:
        async with aclosing(request.stream()) as stream:
            parser = (
                MultiPartParser(headers, stream, max_files=10, max_fields=MOST_FIELDS)
                if kind == "multipart/form-data"
                else FormParser(headers, stream, max_fields=MOST_FIELDS)
            )
            fields = await parser.parse()
    except (MultiPartException, HTTPException, ValueError):
        raise Refused(400, "the form cannot be read") from None
    for name, value in fields.multi_items():
        if "\0" in name or (isinstance(value, str) and "\0" in value):
            raise Refused(400, "the form holds signs that no field can hold")
    return fields


async def _nothing_more() -> Message:
    return {"type": "http.disconnect"}


def strict_json(body: bytes) -> object:
    """A body as JSON that means one thing only.

    Raises:
        Refused: no JSON in UTF-8; keys twice; numbers that are none, or too large; too deep; unprintable signs.
    """
    try:
        found: object = json.loads(
            body.decode("utf-8"), object_pairs_hook=_once, parse_constant=_no_number, parse_float=_float,
            parse_int=_int,
        )  # fmt: skip
    except RecursionError:
        raise _bad("lists stand too deep in each other") from None
    except ValueError:
        raise _bad("it is no JSON in UTF-8") from None
    _look_through(found)
    return found


def _bad(why: str) -> Refused:
    return Refused(400, f"the request cannot be read: {why}", code="json")


def _once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise _bad("a key stands twice in one object")
    return found


def _no_number(text: str) -> NoReturn:
    raise _bad(f"{text} is no number")


def _float(text: str) -> float:
    value = float(text)
    if not math.isfinite(value) or len(text) > LONGEST_NUMBER:
        raise _bad("a number is too large or too long")
    return value


def _int(text: str) -> int:
    if len(text) > LONGEST_NUMBER:
        raise _bad("a number is too large or too long")
    return int(text)


def _look_through(found: object) -> None:
    level: list[object] = [found]
    for _ in range(DEEPEST):
        inner: list[object] = []
        for each in level:
            if isinstance(each, Mapping):
                inner += [*each.keys(), *each.values()]
            elif isinstance(each, list):
                inner += each
            elif isinstance(each, str) and not _plain(each):
                raise _bad("a text holds signs that cannot be printed")
        if not inner:
            return
        level = inner
    raise _bad("lists stand too deep in each other")


def _plain(text: str) -> bool:
    if text.isprintable():
        return True
    return not any(
        (sign < " " and sign not in "\n\r\t") or sign == "\x7f" or "\ud800" <= sign <= "\udfff" for sign in text
    )


def fields_of(request: Request) -> Mapping[str, str]:
    """The text fields of a form that the guard let pass; the last one where a name stands twice."""
    fields = getattr(request.state, "fields", {})
    assert isinstance(fields, dict)
    return fields


def json_of(request: Request) -> object:
    """The JSON of a change that the guard let pass; None when it brought none."""
    return getattr(request.state, "json", None)
