"""What stands on blocks: how it lies, a run of readings, the jacking sheet, settlement, and setting out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.web.answering import desk_of, page
from pinfold.web.bodies import fields_of
from pinfold.web.pages.records import VerbPage, get_route
from pinfold.web.pairing import caller_of

_ASKED = ("neighbor", "survey", "tolerance")
_RUN = ("setup", "instrument", "survey", "unit", "who")
_LONGEST = 20_000


def level(request: Request) -> Response:
    """How it lies, the least moves, and a form for a run of readings."""
    return _level(request)


def _level(
    request: Request, *, typed: Mapping[str, str] | None = None, complaints: tuple[str, ...] = ()
) -> Response:  # fmt: skip
    from pinfold.actions.level_pages import level_shown, run_form

    folder, asked = desk_of(request).folder, _typed(request, _ASKED) if request.method == "GET" else {}
    wrong = ""
    try:
        shown = level_shown(folder, asked)
    except (InputError, InvalidPlan, NotFoundError) as refused:
        wrong = _words(refused)
        shown = level_shown(folder, {})
    bad = bool(wrong or complaints)
    form = run_form(folder, typed or {}, who=caller_of(request).name)
    return page(
        request, "level.html", status=400 if bad else 200, title=shown.title, shown=shown, asked=asked, wrong=wrong,
        form=form, complaints=complaints,
    )  # fmt: skip


def run(request: Request) -> Response:
    """Write a run of readings down, or show it again with what is wrong."""
    from pinfold.actions.level_pages import take_run

    fields = fields_of(request)
    typed = {key: fields.get(key, "").strip()[:80] for key in (*_RUN, "id")} | {
        "lines": fields.get("lines", "")[:_LONGEST]
    }
    try:
        take_run(desk_of(request).folder, typed, device=caller_of(request).name)
    except InvalidPlan as refused:
        return _level(request, typed=typed, complaints=tuple(str(problem) for problem in refused.problems))
    return RedirectResponse("/level#run", status_code=303)


def jack(request: Request) -> Response:
    """The jacking sheet, to print, and a form for what was done."""
    return _jack(request)


def _jack(
    request: Request, *, typed: Mapping[str, str] | None = None, complaints: tuple[str, ...] = ()
) -> Response:  # fmt: skip
    from pinfold.actions.level_pages import done_form, jack_shown

    asked = {key: typed.get(key, "") for key in _ASKED} if typed is not None else _typed(request, _ASKED)
    folder, wrong = desk_of(request).folder, ""
    try:
        shown = jack_shown(folder, asked)
    except (InputError, InvalidPlan, NotFoundError) as refused:
        wrong = _words(refused)
        shown = jack_shown(folder, {})
    form = done_form(folder, {} if wrong else asked, typed or {})
    return page(
        request, "level_jack.html", status=400 if wrong or complaints else 200, title=shown.title, shown=shown,
        asked=asked, wrong=wrong, form=form, complaints=complaints,
    )  # fmt: skip


def done(request: Request) -> Response:
    """Write down what was jacked, or show it again with what is wrong."""
    from pinfold.actions.level import LevelAsked
    from pinfold.actions.level_done import JackingDone, write_jacking

    fields, caller = fields_of(request), caller_of(request).name
    asked = {key: fields.get(key, "").strip()[:60] for key in _ASKED}
    typed = asked | {"id": fields.get("id", "").strip()[:80], "lines": fields.get("lines", "")[:_LONGEST]}
    told = JackingDone(lines=tuple(typed["lines"].splitlines()), asked=LevelAsked(**asked), id=typed["id"])
    try:
        write_jacking(desk_of(request).folder, replace(told, who=caller, device=caller) if caller else told)
    except InvalidPlan as refused:
        return _jack(request, typed=typed, complaints=tuple(str(problem) for problem in refused.problems))
    return RedirectResponse("/level/jack", status_code=303)


def settle(request: Request) -> Response:
    """How it has settled."""
    from pinfold.actions.level_pages import settle_shown

    folder, asked, wrong = desk_of(request).folder, _typed(request, ("neighbor", "since")), ""
    try:
        shown = settle_shown(folder, asked)
    except (InputError, NotFoundError) as refused:
        wrong = _words(refused)
        shown = settle_shown(folder, {})
    return page(
        request, "level_settle.html", status=400 if wrong else 200, title=shown.title, shown=shown, asked=asked,
        wrong=wrong,
    )  # fmt: skip


def set_out(request: Request) -> Response:
    """Cut, fill and string heights."""
    from pinfold.actions.level_pages import set_out_shown

    folder, asked, wrong = desk_of(request).folder, _typed(request, ("survey", "string", "down", "course")), ""
    try:
        shown = set_out_shown(folder, asked)
    except (InputError, InvalidPlan, NotFoundError) as refused:
        wrong = _words(refused)
        shown = set_out_shown(folder, {})
    return page(
        request, "level_set_out.html", status=400 if wrong else 200, title=shown.title, shown=shown, asked=asked,
        wrong=wrong,
    )  # fmt: skip


def _typed(request: Request, keys: tuple[str, ...]) -> dict[str, str]:
    return {key: request.query_params.get(key, "").strip()[:60] for key in keys}


def _words(refused: Exception) -> str:
    if isinstance(refused, InvalidPlan):
        return "; ".join(str(problem) for problem in refused.problems)
    return refused.message if isinstance(refused, InputError) else str(refused)


PAGE = VerbPage(
    verb="level", path="/level", says="Does it stand level, and how do I jack it?", group="work",
    routes=(
        get_route("/level", level), Route("/level", run, methods=["POST"]), get_route("/level/jack", jack),
        Route("/level/jack", done, methods=["POST"]), Route("/level/settle", settle), Route("/level/set-out", set_out),
    ),
)  # fmt: skip
