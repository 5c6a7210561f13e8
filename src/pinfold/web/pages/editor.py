"""The plan editor: drawing the plot, with findings, quantities and cost beside it."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from pinfold.errors import InputError
from pinfold.web.answering import desk_of, page
from pinfold.web.pages.records import VerbPage

MOST_BYTES = 2_000_000
"""A larger request is no plan."""
DEEPEST = 8
"""Tables in tables; a plan's outline has fewer."""
MOST_PARTS = 60_000
"""Values in one request."""


def editor(request: Request) -> Response:
    """The page; it asks for the plan itself."""
    return page(request, "editor.html", title="Draw the plan")


def plan(request: Request) -> Response:
    """The plan as the page draws it."""
    from pinfold.actions.editing import edited_plan

    return JSONResponse(edited_plan(desk_of(request).folder), headers={"Cache-Control": "no-store"})


async def tried(request: Request) -> Response:
    """The plan as it would be; nothing is saved."""
    from pinfold.actions.editing import try_plan

    asked = await _asked(request)
    changes = _table(asked, "changes")
    answer = await run_in_threadpool(try_plan, desk_of(request).folder, changes)
    return JSONResponse(answer | {"serial": asked.get("serial")})


async def saved(request: Request) -> Response:
    """The plan file changed, or told that somebody else changed it; under another name where asked so."""
    from pinfold.actions.editing import save_mine, save_plan

    asked = await _asked(request)
    changes, renamed = _table(asked, "changes"), _names(asked)
    folder = desk_of(request).folder
    if asked.get("beside") is True:
        return JSONResponse(await run_in_threadpool(save_mine, folder, changes, renamed))
    revision = asked.get("revision")
    if not isinstance(revision, str):
        raise InputError("the revision that was opened is wanted, as text", place="revision")
    answer = await run_in_threadpool(save_plan, folder, revision, changes, renamed)
    return JSONResponse(answer, status_code=409 if answer.get("conflict") else 200)


async def measured(request: Request) -> Response:
    """Typed lengths and angles in SI."""
    from pinfold.actions.editing import measured as measure

    return JSONResponse(measure((await _asked(request)).get("texts")))


async def _asked(request: Request) -> dict[str, object]:
    """The request's record, checked for size, depth and numbers before anything looks at it.

    Raises:
        InputError: it is none.
    """
    content = bytearray()
    async for part in request.stream():
        content += part
        if len(content) > MOST_BYTES:
            raise InputError(f"more than {MOST_BYTES // 1_000_000} MB sent; that is no plan")
    try:
        found = json.loads(bytes(content))
    except (ValueError, RecursionError):
        raise InputError("no readable JSON was sent") from None
    if not isinstance(found, dict):
        raise InputError("a JSON object is wanted")
    _check(found)
    return found


def _check(found: object) -> None:
    """Refuse what no plan holds: too deep, too many, no finite numbers, text that is none."""
    waiting, seen = [(found, 0)], 0
    while waiting:
        value, depth = waiting.pop()
        seen += 1
        if depth > DEEPEST or seen > MOST_PARTS:
            raise InputError("too deep or too much for a plan")
        if isinstance(value, dict):
            waiting += [(part, depth + 1) for pair in value.items() for part in pair]
        elif isinstance(value, list):
            waiting += [(part, depth + 1) for part in value]
        else:
            _check_plain(value)


def _check_plain(value: object) -> None:
    if isinstance(value, float) and not math.isfinite(value):
        raise InputError(f"{value} is no number a plan can hold")
    if isinstance(value, int) and not isinstance(value, bool) and abs(value) > 10**15:
        raise InputError("a number too large for a plan")
    if isinstance(value, str) and (len(value) > 2000 or any(0xD800 <= ord(letter) < 0xE000 for letter in value)):
        raise InputError("a text too long for a plan, or no text")


def _table(asked: Mapping[str, object], key: str) -> dict[str, object]:
    found = asked.get(key)
    if not isinstance(found, dict):
        raise InputError("an object is wanted", place=key)
    _refuse_nothing(found, key)
    return found


def _refuse_nothing(found: dict[str, object], key: str) -> None:
    """A plan file has no word for nothing: null takes a whole part out, inside one it is a slip."""
    waiting: list[object] = [part for part in found.values() if part is not None]
    while waiting:
        value = waiting.pop()
        if value is None:
            raise InputError("null stands for a value; leave the key out instead", place=key)
        if isinstance(value, dict):
            waiting += value.values()
        elif isinstance(value, list):
            waiting += value


def _names(asked: Mapping[str, object]) -> dict[str, dict[str, str]]:
    found = asked.get("renamed", {})
    if not isinstance(found, dict) or not all(
        isinstance(names, dict) and all(isinstance(name, str) for name in names.values()) for names in found.values()
    ):
        raise InputError("by kind, new and old names are wanted", place="renamed")
    return found


PAGE = VerbPage(
    verb="draw", path="/plan/edit", says="What is to be built?",
    routes=(
        Route("/plan/edit", editor), Route("/api/plan", plan), Route("/api/plan/try", tried, methods=["POST"]),
        Route("/api/plan/save", saved, methods=["POST"]), Route("/api/plan/measure", measured, methods=["POST"]),
    ),
)  # fmt: skip
