"""The phone's page, what it asks for, and what it sends."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from pinfold.errors import InputError, StoreError
from pinfold.web.answering import desk_of, page
from pinfold.web.bodies import json_of
from pinfold.web.desk import static_bytes
from pinfold.web.guard import token_for
from pinfold.web.pages.records import VerbPage, get_route
from pinfold.web.pairing import caller_of

if TYPE_CHECKING:
    from pinfold.actions.taking import Taken

_MODULES = (
    "phone_basics.js", "phone_forms.js", "phone_outbox.js", "phone_place.js", "phone_state.js", "phone_sync.js",
    "phone_today.js", "phone_writing.js",
)  # fmt: skip
_FILES = ("phone.js", *_MODULES, "phone.css", "pinfold.css", "phone_mark.svg")
_OWN = frozenset({"localhost", "127.0.0.1", "::1"})
_MOST_SINCE = 500


def phone(request: Request) -> Response:
    """The page; over plain http under an address that changes with the page, so that it may be kept for long."""
    if not _is_secure(request):
        return RedirectResponse(f"/phone/kept/{desk_of(request).version}", headers={"Cache-Control": "no-store"})
    return _phone(request, kept="no-store")


def kept_phone(request: Request) -> Response:
    """The page as a browser without a service worker keeps it."""
    if request.path_params["version"] != desk_of(request).version:
        return RedirectResponse("/phone", headers={"Cache-Control": "no-store"})
    return _phone(request, kept="private, max-age=31536000, immutable")


def _phone(request: Request, *, kept: str) -> Response:
    from pinfold.actions.phone import phone_json

    desk = desk_of(request)
    record, device = phone_json(desk.folder), caller_of(request).name
    answer = page(request, "phone.html", title="Phone", record=record, modules=_MODULES, device=device)
    answer.headers["Cache-Control"] = kept
    answer.headers["X-Pinfold-Page"] = desk.version
    return answer


def _is_secure(request: Request) -> bool:
    """Whether the browser will let the page have a service worker."""
    name = request.url.hostname or ""
    return request.url.scheme == "https" or name in _OWN or name.endswith(".localhost")


def service_worker(request: Request) -> Response:
    """The script that keeps the page; it holds nothing of the site."""
    version = desk_of(request).version
    files = '", "'.join(f"/static/{version}/{name}" for name in _FILES)
    text = static_bytes("sw.js").decode().replace("{version}", version).replace("{files}", files)
    headers = {"Cache-Control": "no-cache", "Service-Worker-Allowed": "/"}
    return Response(text, media_type="text/javascript", headers=headers)


def manifest(request: Request) -> Response:
    """What a phone needs to put the page on its first screen; it holds nothing of the site."""
    mark = f"/static/{desk_of(request).version}/phone_mark.svg"
    record = {
        "name": "pinfold", "short_name": "pinfold", "start_url": "/phone", "scope": "/phone", "display": "standalone",
        "background_color": "#f7f5ef", "theme_color": "#70430f",
        "icons": [{"src": mark, "sizes": "any", "type": "image/svg+xml", "purpose": "any"}],
    }  # fmt: skip
    return JSONResponse(record, media_type="application/manifest+json", headers={"Cache-Control": "no-cache"})


def record_now(request: Request) -> Response:
    """What the page shows, as it is now."""
    from pinfold.actions.phone import phone_json

    return _answer(phone_json(desk_of(request).folder))


def hello(request: Request) -> Response:
    """What a phone asks before it sends: the site, its name here, the token, the time here, and what is new.

    Raises:
        StoreError: the log cannot be read; what a phone keeps had better stay there.
    """
    from pinfold.actions.phone import phone_json

    desk = desk_of(request)
    record = phone_json(desk.folder)
    if isinstance(cautions := record["cautions"], list) and cautions:
        raise StoreError(" ".join(map(str, cautions)))
    wanted = {key: record[key] for key in ("site", "mark", "days_mark")}
    wanted["device"] = caller_of(request).name
    return _answer({**wanted, "time": record["made"], "token": token_for(request), "version": desk.version})


def take(request: Request) -> Response:
    """Take entries; each has its receipt. Those of a paired phone carry the name it was given at pairing."""
    sent = json_of(request)
    entries = sent.get("entries") if isinstance(sent, dict) else None
    if not isinstance(entries, list):
        raise InputError('a list of entries is wanted, like {"entries": [...]}')
    taken = _taken(desk_of(request).folder, entries, caller_of(request).name)
    receipts = [
        {"place": each.place, "id": each.id, "state": each.state, "seq": each.seq,
         "complaints": [{"place": wrong.place, "message": wrong.message} for wrong in each.complaints],
         "remarks": [{"place": remark.place, "message": remark.message} for remark in each.remarks]}
        for each in taken
    ]  # fmt: skip
    return _answer({"receipts": receipts})


def _taken(folder: Path, entries: Sequence[object], device: str) -> Sequence[Taken]:
    """What came of entries of a device of that name; empty leaves each the name it brings."""
    from pinfold.actions.taking import take_entries

    taken = list(take_entries(folder, [_of_device(entry, device) for entry in entries]))
    others = [each.place for each in taken if device and each.state == "conflict"]
    if others:  # one that came in by a file, or before the phone was paired anew, is known under the name it brings
        for place, again in zip(others, take_entries(folder, [entries[place] for place in others]), strict=True):
            if again.state == "known":
                taken[place] = replace(again, place=place)
    return taken


def _of_device(entry: object, device: str) -> object:
    return {**entry, "device": device} if device and isinstance(entry, Mapping) else entry


def since(request: Request) -> Response:
    """What came into the log after a place in it."""
    from pinfold.actions.looking import entries_since

    text = request.query_params.get("seq", "0")
    if not (text.isascii() and text.isdigit() and len(text) < 16):
        raise InputError(f"{text[:20]!r} is no place in the log; a whole number is wanted", place="seq")
    return _answer(entries_since(desk_of(request).folder, int(text), most=_MOST_SINCE))


async def take_photo(request: Request) -> Response:
    """Keep a photo; its name goes into an entry, and so does its place where that was wished and is told."""
    from pinfold.actions.taking import take_photo

    raw = await request.body()
    keep_place = request.query_params.get("keep_place") == "yes"
    photo = await run_in_threadpool(take_photo, desk_of(request).folder, raw, keep_place=keep_place)
    return _answer({"name": photo.name, "place": dict(photo.place)})


def photo(request: Request) -> Response:
    """A stored photo; a name stands for one content for ever."""
    from pinfold.actions.taking import photo_bytes

    jpeg = photo_bytes(desk_of(request).folder, request.path_params["name"])
    return Response(jpeg, media_type="image/jpeg", headers={"Cache-Control": "private, max-age=31536000, immutable"})


def _answer(record: object) -> Response:
    return JSONResponse(record, headers={"Cache-Control": "no-store"})


PAGE = VerbPage(
    verb="phone",
    path="/phone",
    says="What is in hand today, and writing it down out of reach",
    routes=(
        get_route("/phone", phone), get_route("/phone/kept/{version}", kept_phone), get_route("/sw.js", service_worker),
        get_route("/phone.webmanifest", manifest), get_route("/api/phone", record_now),
        get_route("/api/phone/hello", hello),
        Route("/api/log", take, methods=["POST"]),
        get_route("/api/log/since", since),
        Route("/api/photo", take_photo, methods=["POST"]), get_route("/photos/{name}.jpg", photo),
    ),
    group="work",
)  # fmt: skip
