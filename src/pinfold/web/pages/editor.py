"""The plan editor: drawing the plot, with findings, quantities and cost beside it."""

from __future__ import annotations

from collections.abc import Mapping

from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from pinfold.errors import InputError
from pinfold.web.answering import desk_of, page
from pinfold.web.bodies import json_of
from pinfold.web.pages.records import VerbPage

MOST_PARTS = 60_000
"""Values in one request; a larger one is no plan."""
_LARGEST = 10**15
_LONGEST = 2000


def editor(request: Request) -> Response:
    """The page; it asks for the plan itself."""
    return page(request, "editor.html", title="Draw the plan")


def plan(request: Request) -> Response:
    """The plan as the page draws it."""
    from pinfold.actions.editing import edited_plan

    return JSONResponse(edited_plan(desk_of(request).folder), headers={"Cache-Control": "no-store"})


def tried(request: Request) -> Response:
    """The plan as it would be; nothing is saved."""
    from pinfold.actions.editing import try_plan

    asked = _asked(request)
    changes = _table(asked, "changes")
    answer = try_plan(desk_of(request).folder, changes)
    return JSONResponse(answer | {"serial": asked.get("serial")})


def saved(request: Request) -> Response:
    """The plan file changed, or told that somebody else changed it; under another name where asked so."""
    from pinfold.actions.editing import save_mine, save_plan

    asked = _asked(request)
    changes, renamed = _table(asked, "changes"), _names(asked)
    folder = desk_of(request).folder
    if asked.get("beside") is True:
        return JSONResponse(save_mine(folder, changes, renamed))
    revision = asked.get("revision")
    if not isinstance(revision, str):
        raise InputError("the revision that was opened is wanted, as text", place="revision")
    answer = save_plan(folder, revision, changes, renamed)
    return JSONResponse(answer, status_code=409 if answer.get("conflict") else 200)


def measured(request: Request) -> Response:
    """Typed lengths and angles in SI."""
    from pinfold.actions.editing import measured as measure

    return JSONResponse(measure(_asked(request).get("texts")))


def _asked(request: Request) -> dict[str, object]:
    """The request's record; the guard saw to it that it is plain JSON, here it must be no more than a plan holds.

    Raises:
        InputError: it is none.
    """
    found = json_of(request)
    if not isinstance(found, dict):
        raise InputError("a JSON object is wanted")
    waiting: list[object] = [found]
    seen = 0
    while waiting:
        value = waiting.pop()
        seen += 1
        if seen > MOST_PARTS:
            raise InputError("too much for a plan")
        waiting += [*value, *value.values()] if isinstance(value, dict) else value if isinstance(value, list) else ()
        _check_plain(value)
    return found


def _check_plain(value: object) -> None:
    if isinstance(value, int) and abs(value) > _LARGEST:
        raise InputError("a number too large for a plan")
    if isinstance(value, str) and len(value) > _LONGEST:
        raise InputError("a text too long for a plan")


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
    verb="draw", path="/plan/edit", says="Where do corners, gates and neighbors go?",
    routes=(
        Route("/plan/edit", editor), Route("/api/plan", plan), Route("/api/plan/try", tried, methods=["POST"]),
        Route("/api/plan/save", saved, methods=["POST"]), Route("/api/plan/measure", measured, methods=["POST"]),
    ),
)  # fmt: skip
