"""The log on the laptop: looking it up, writing into it without script, mending it by corrections, files in and out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING
from urllib.parse import urlencode

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from pinfold.errors import InputError, InvalidPlan, NotFoundError, PinfoldError, StoreError
from pinfold.web.answering import desk_of, page
from pinfold.web.bodies import fields_of
from pinfold.web.files import CSV, to_save
from pinfold.web.pages.records import VerbPage, get_route
from pinfold.web.pairing import caller_of

if TYPE_CHECKING:
    from pinfold.actions.bringing import Brought
    from pinfold.actions.taking import Taken
    from pinfold.actions.writing_down import Draft

_FINDS = ("kind", "day", "who", "place", "text")


def sheet(request: Request) -> Response:
    """A sheet of the log, newest first."""
    from pinfold.actions.entry_forms import at_hand, entry_forms
    from pinfold.actions.looking import log_sheet

    folder, asked = desk_of(request).folder, request.query_params
    finds = {key: asked.get(key, "").strip() for key in _FINDS}
    everything = asked.get("everything", "") == "yes"
    found = log_sheet(folder, before=_place(asked.get("before", "")), everything=everything, **finds)
    wanted = {key: value for key, value in finds.items() if value} | ({"everything": "yes"} if everything else {})
    older = urlencode({**wanted, "before": found.before}) if found.before else ""
    forms = entry_forms(at_hand(folder))
    return page(
        request, "log.html", title="The log", sheet=found, finds=finds, everything=everything, older=older,
        forms=forms, places=_places(forms), first="before" not in asked, narrowed=bool(wanted),
    )  # fmt: skip


def _place(text: str) -> int | None:
    if not text:
        return None
    if not (text.isascii() and text.isdigit() and len(text) < 16):
        raise InputError(f"{text[:20]!r} is no place in the log; a whole number is wanted", place="before")
    return int(text)


def _places(forms: object) -> tuple[str, ...]:
    assert isinstance(forms, tuple)
    return next((field.offers for form in forms for field in form.fields if field.sort == "place"), ())


def one(request: Request) -> Response:
    """An entry with all its versions."""
    from pinfold.actions.log_book import new_id
    from pinfold.actions.looking import entry_history

    name = request.path_params["name"]
    history = entry_history(desk_of(request).folder, name)
    return page(request, "log_entry.html", title="An entry of the log", history=history, new_id=new_id())


def blank(request: Request) -> Response:
    """A form, with what the address brings filled in."""
    from pinfold.actions.prefilling import filled_draft

    folder, kind = desk_of(request).folder, request.path_params["kind"]
    draft, wrong = filled_draft(folder, kind, request.query_params.multi_items(), device=caller_of(request).name)
    title = f"Write down: {draft.form.says}"
    return _form(request, draft, title=title, complaints=wrong, status=400 if wrong else 200)


def correcting(request: Request) -> Response:
    """The form of an entry as it stands."""
    from pinfold.actions.correcting import correction_draft

    draft = correction_draft(desk_of(request).folder, request.path_params["name"])
    return _form(request, draft, title=f"Correct: {draft.form.says}")


async def write(request: Request) -> Response:
    """Write a new entry down."""
    pictures = await _pictures(request)
    return await run_in_threadpool(_written, request, request.path_params["kind"], pictures)


async def correct(request: Request) -> Response:
    """Write a correction down; what was there stays as it was."""
    pictures = await _pictures(request)
    return await run_in_threadpool(_corrected, request, pictures)


def _written(request: Request, kind: str, pictures: Mapping[str, bytes]) -> Response:
    from pinfold.actions.writing_down import form_of, read_form, write_down

    folder = desk_of(request).folder
    draft = read_form(form_of(folder, kind), fields_of(request))
    taken = write_down(folder, draft, device=caller_of(request).name, pictures=pictures)
    return _then(request, draft, taken, title=f"Write down: {draft.form.says}")


def _corrected(request: Request, pictures: Mapping[str, bytes]) -> Response:
    from pinfold.actions.correcting import correct

    folder, name, device = desk_of(request).folder, request.path_params["name"], caller_of(request).name
    came = correct(folder, name, fields_of(request), pictures=pictures, device=device)
    title = f"Correct: {came.draft.form.says}"
    if came.taken is None:
        return _form(request, came.draft, title=title, newer=came.newer, status=409)
    return _then(request, came.draft, came.taken, title=title)


def withdraw(request: Request) -> Response:
    """Take an entry back."""
    from pinfold.actions.correcting import take_back

    name = request.path_params["name"]
    taken = take_back(desk_of(request).folder, name, fields_of(request), device=caller_of(request).name)
    if taken.state in {"wrong", "conflict"}:
        raise taken.complaints[0]
    return RedirectResponse(f"/log/{name}", status_code=303)


def _then(request: Request, draft: Draft, taken: Taken, *, title: str) -> Response:
    if taken.state in {"new", "known"}:
        return RedirectResponse(f"/log/{taken.id}", status_code=303)
    return _form(request, draft, title=title, complaints=taken.complaints, status=400)


def _form(
    request: Request, draft: Draft, *, title: str, complaints: tuple[InputError, ...] = (),
    newer: Mapping[str, str] | None = None, status: int = 200,
) -> Response:  # fmt: skip
    keys = {field.key for field in draft.form.fields}
    by_key = {wrong.place: wrong.message for wrong in complaints if wrong.place in keys}
    others = [wrong for wrong in complaints if wrong.place not in keys]
    return page(
        request, "log_form.html", title=title, draft=draft, complaints=by_key, others=others, newer=newer,
        status=status, photos=any(field.sort == "photo" for field in draft.form.fields),
    )  # fmt: skip


async def _pictures(request: Request) -> dict[str, bytes]:
    if not request.headers.get("content-type", "").startswith("multipart/"):
        return {}
    async with request.form(max_files=10, max_fields=200) as form:
        files = {key: each for key, each in form.items() if isinstance(each, UploadFile) and each.size}
        return {key.removeprefix("p."): await each.read() for key, each in files.items()}


def importing(request: Request) -> Response:
    """Where a file is chosen."""
    return _import_page(request)


async def look(request: Request) -> Response:
    """Tell what would come of a file, or write the one that was looked into; what is no such file is told there."""
    from pinfold.actions.bringing import bring_in, look_into

    folder, waiting = desk_of(request).folder, fields_of(request).get("waiting", "")
    if waiting:
        return _import_page(request, brought=await run_in_threadpool(bring_in, folder, waiting))
    async with request.form(max_files=2, max_fields=20) as form:
        file = form.get("file")
        content, name = (await file.read(), file.filename or "") if isinstance(file, UploadFile) else (b"", "")
    try:
        if not content:
            raise InputError("nothing is in it" if name else "choose the file first")
        return _import_page(request, brought=await run_in_threadpool(look_into, folder, name[-80:], content))
    except (InputError, InvalidPlan, StoreError) as refused:
        return _import_page(request, refused=refused, name=name[-80:])


def _import_page(
    request: Request, *, brought: Brought | None = None, refused: PinfoldError | None = None, name: str = ""
) -> Response:
    problems = refused.problems if isinstance(refused, InvalidPlan) else (refused,) if refused else ()
    return page(
        request, "log_import.html", status=refused.http_status if refused else 200, title="Bring a file into the log",
        brought=brought, wrong=[desk_of(request).without_paths(str(each)) for each in problems], name=name,
    )  # fmt: skip


def csv(request: Request) -> Response:
    """All of the log as CSV."""
    from pinfold.actions.looking import csv_text

    return to_save(csv_text(desk_of(request).folder), name="log.csv", media=CSV)


def no_kind(request: Request) -> Response:
    """Someone asked for a form of nothing."""
    raise NotFoundError("say what is to be written down; the log's page lists the kinds")


PAGE = VerbPage(
    verb="log",
    path="/log",
    says="What happened: look it up, write it down, correct it",
    routes=(
        get_route("/log", sheet), get_route("/log/new", no_kind), get_route("/log/new/{kind}", blank),
        Route("/log/new/{kind}", write, methods=["POST"]), get_route("/log/import", importing),
        Route("/log/import", look, methods=["POST"]), get_route("/log/csv", csv),
        get_route("/log/{name}", one), get_route("/log/{name}/correct", correcting),
        Route("/log/{name}/correct", correct, methods=["POST"]),
        Route("/log/{name}/withdraw", withdraw, methods=["POST"]),
    ),
    group="work",
)  # fmt: skip
