"""The weather of a site: its files, and a file that is sent here to be looked at and taken."""

from __future__ import annotations

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InputError
from pinfold.web.answering import desk_of, page
from pinfold.web.bodies import fields_of
from pinfold.web.pages.records import get_route


def weather(request: Request) -> Response:
    """All of the site's files and which is used."""
    return _page(request)


async def look(request: Request) -> Response:
    """What a file says that was sent, or taking the one that was looked at."""
    from pinfold.actions.days_weather import largest, look_at, take_in

    folder, waiting = desk_of(request).folder, fields_of(request).get("waiting", "")
    if waiting:
        looked = await run_in_threadpool(take_in, folder, waiting)
    else:
        async with request.form(max_files=2, max_fields=20) as form:
            file, typed = form.get("file"), form.get("typed")
            content, name = b"", ""
            if isinstance(file, UploadFile) and file.size:
                if file.size > largest():
                    raise InputError(
                        f"is larger than {largest() // 1_000_000} MB, the most a file may have", place="file"
                    )
                content, name = await file.read(), file.filename or "file"
            elif isinstance(typed, str):
                content = typed.strip().encode()
        if not content:
            raise InputError("choose a file, or type days like 2026-05-03 41 78 F", place="file")
        looked = await run_in_threadpool(look_at, folder, name, content)
    return await run_in_threadpool(_page, request, looked)


def _page(request: Request, looked: object = None) -> Response:
    from pinfold.actions.answers import as_html
    from pinfold.actions.days_weather import Looked, days_weather

    assert looked is None or isinstance(looked, Looked)
    answer = days_weather(desk_of(request).folder)
    status = 400 if looked is not None and looked.wrong else 200
    return page(
        request, "days_weather.html", status=status, title=answer.page.title, body=as_html(answer, titled=False),
        looked=looked,
    )  # fmt: skip


ROUTES = (get_route("/days/weather", weather), Route("/days/weather", look, methods=["POST"]))
