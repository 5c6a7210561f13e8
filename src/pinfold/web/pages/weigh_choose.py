"""Choosing a build-up, with a look before it is written; and this plan beside another."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InputError, NotFoundError
from pinfold.web.answering import desk_of, page
from pinfold.web.pages.records import get_route
from pinfold.web.waiting import awaited, working


def choosing(request: Request) -> Response:
    """What may be chosen; and of one what it brings and takes, before it is written."""
    return _asked(request, request.query_params.get("name", "")[:60])


def _asked(request: Request, name: str, wrong: str = "") -> Response:
    from pinfold.actions.weigh_choose import choices, offered

    folder = desk_of(request).folder
    title, names, is_undone = choices(folder)
    offer = offered(folder, name) if name else None
    return page(
        request, "weigh_choose.html", status=409 if wrong else 200, title=title, names=names, offer=offer,
        is_undone=is_undone, wrong=wrong,
    )  # fmt: skip


async def choose(request: Request) -> Response:
    """Write it into the plan, or bring back what was there."""
    async with request.form(max_files=0, max_fields=10) as form:
        told = {key: str(form.get(key, "")) for key in ("name", "revision", "undo")}
    return await run_in_threadpool(_choose, request, told)


def _choose(request: Request, told: dict[str, str]) -> Response:
    from pinfold.actions.weigh_choose import choose, undo

    folder = desk_of(request).folder
    try:
        words = undo(folder) if told["undo"] else choose(
            folder, told["name"], revision=told["revision"], on_page=True
        )  # fmt: skip
    except InputError as refused:
        return _asked(request, told["name"], wrong=str(refused))
    return page(
        request, "weigh_chosen.html", title="Written into the plan", words=desk_of(request).without_paths(words)
    )


def plans(request: Request) -> Response:
    """This plan beside a plan file of the same folder."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.weigh_plans import compare_plans, other_plans, plans_title

    folder, name = desk_of(request).folder, request.query_params.get("other", "")[:80]
    names, body = other_plans(folder), ""
    if name:
        if name not in names:
            raise NotFoundError("there is no such plan file in the site folder")
        other = folder / Path(name).name
        found = awaited(request, lambda: as_html(compare_plans(folder, other), titled=False), also=_stamp(other))
        if found is None:
            return working(request, plans_title(folder), f"This plan and {name} are being weighed against each other.")
        body = found
    return page(request, "weigh_plans.html", title=plans_title(folder), names=names, other=name, body=body)


def _stamp(file: Path) -> tuple[int, int]:
    """What changes whenever a file does; nothing for one that is gone."""
    with suppress(OSError):
        found = file.stat()
        return found.st_mtime_ns, found.st_size
    return 0, 0


ROUTES = (
    get_route("/weigh/choose", choosing), Route("/weigh/choose", choose, methods=["POST"]),
    Route("/weigh/plans", plans),
)  # fmt: skip
