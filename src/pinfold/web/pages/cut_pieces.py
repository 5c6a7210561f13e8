"""Cut plans with their pictures, and labels to print."""

from __future__ import annotations

from collections.abc import Mapping

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InputError, InvalidPlan
from pinfold.web.answering import desk_of, page
from pinfold.web.bodies import fields_of
from pinfold.web.pages.records import get_route
from pinfold.web.pairing import caller_of

_ASKED = ("section", "kerf", "trim", "keep")
_DONE = ("item", "length", "width", "count", "pile", "parts", "kept", "spoiled")


def pieces(request: Request) -> Response:
    """Which piece gives which parts, with the saw as asked."""
    from pinfold.actions.cut_pieces import asked_as, section_names
    from pinfold.actions.cut_shown import CutShown, pieces_shown

    folder = desk_of(request).folder
    typed = {key: request.query_params.get(key, "").strip()[:60] for key in _ASKED}
    wrong: dict[str, str] = {}
    try:
        shown = pieces_shown(folder, asked_as(typed))
    except InputError as mistake:
        wrong = {mistake.place: mistake.message}
        shown = CutShown(title="Which piece gives which parts", opening="", sections=(), legend="",
                         names=section_names(folder))  # fmt: skip
    return page(
        request, "cut_pieces.html", status=400 if wrong else 200, title=shown.title, shown=shown, typed=typed,
        wrong=wrong, asks=True, ticks="pieces",
    )  # fmt: skip


def sheets(request: Request) -> Response:
    """Which sheet gives which parts."""
    from pinfold.actions.cut_shown import sheets_shown

    shown = sheets_shown(desk_of(request).folder)
    return page(request, "cut_pieces.html", title=shown.title, shown=shown, typed={}, wrong={}, asks=False,
                ticks="sheets")  # fmt: skip


def rolls(request: Request) -> Response:
    """Which roll goes where."""
    from pinfold.actions.cut_shown import rolls_shown

    shown = rolls_shown(desk_of(request).folder)
    return page(request, "cut_pieces.html", title=shown.title, shown=shown, typed={}, wrong={}, asks=False,
                ticks="rolls")  # fmt: skip


def labels(request: Request) -> Response:
    """Sheets of labels to print."""
    from pinfold.actions.cut_labels import labels_shown

    first = request.query_params.get("from", "1")
    if not (first.isascii() and first.isdigit() and len(first) < 9):
        raise InputError(f"{first[:20]!r} is no sheet; a whole number is wanted", place="from")
    each = request.query_params.get("each", "") == "yes"
    shown = labels_shown(desk_of(request).folder, each=each, first=int(first))
    return page(request, "cut_labels.html", title=f"{shown.name}: labels", shown=shown)


def done(request: Request) -> Response:
    """The form of what was really cut, filled in as the address says."""
    return _done(request, {key: request.query_params.get(key, "")[:200] for key in _DONE})


def write_done(request: Request) -> Response:
    """Write it down, or show it again with what is wrong."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.cut_done import Done, cut_done

    fields = fields_of(request)
    typed = {key: fields.get(key, "").strip()[:400] for key in _DONE}
    try:
        answer = cut_done(desk_of(request).folder, Done(**typed), device=caller_of(request).name)
    except InvalidPlan as refused:
        wrong = {problem.place: problem.message for problem in refused.problems}
        return _done(request, typed, wrong=wrong)
    return _done(request, {}, told=as_html(answer, titled=False))


def _done(
    request: Request, typed: Mapping[str, str], *, wrong: Mapping[str, str] | None = None, told: str = ""
) -> Response:  # fmt: skip
    from pinfold.actions.cut_done import done_shown

    shown = done_shown(desk_of(request).folder)
    values = {key: typed.get(key, "") for key in _DONE}
    return page(
        request, "cut_done.html", status=400 if wrong else 200, title=shown.title, shown=shown, typed=values,
        wrong=wrong or {}, told=told,
    )  # fmt: skip


ROUTES = (
    get_route("/cut/done", done),
    Route("/cut/done", write_done, methods=["POST"]),
    Route("/cut/pieces", pieces),
    Route("/cut/sheets", sheets),
    Route("/cut/rolls", rolls),
    Route("/cut/labels", labels),
)
