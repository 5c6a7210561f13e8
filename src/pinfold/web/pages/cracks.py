"""Cracks: whether they move, the scale card to print, and measuring one from a photo."""

from __future__ import annotations

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InputError, InvalidPlan
from pinfold.web.answering import desk_of, page
from pinfold.web.pages.records import VerbPage
from pinfold.web.pairing import caller_of

_TOLD = ("id", "mark", "place", "temperature", "who")


def cracks(request: Request) -> Response:
    """All cracks by their mark."""
    from pinfold.actions.cracks import cracks_as_html
    from pinfold.actions.log_book import new_id

    body = cracks_as_html(desk_of(request).folder)
    return page(
        request, "cracks.html", title="Cracks", body=body, measured=False, wrong="", told={"id": new_id()},
        placed=False,
    )  # fmt: skip


async def measure(request: Request) -> Response:
    """Measure one from a photo; write it down where it has a mark."""
    async with request.form(max_files=1, max_fields=20) as form:
        file = form.get("photo")
        raw = await file.read() if isinstance(file, UploadFile) else b""
        keep_place = form.get("keep_place") == "yes"
        told = {key: text.strip() for key in _TOLD if isinstance(text := form.get(key, ""), str)}
    told["device"] = caller_of(request).name
    return await run_in_threadpool(_measured, request, raw, told, keep_place=keep_place)


def _measured(request: Request, raw: bytes, told: dict[str, str], *, keep_place: bool) -> Response:
    from pinfold.actions.cracks import crack_as_html, cracks_as_html

    folder = desk_of(request).folder
    try:
        if not raw:
            raise InputError("choose the photo first")
        body = crack_as_html(folder, raw, told, keep_place=keep_place)
    except (InputError, InvalidPlan) as wrong:
        words = "; ".join(map(str, wrong.problems)) if isinstance(wrong, InvalidPlan) else wrong.message
        body = cracks_as_html(folder)
        return page(
            request, "cracks.html", title="Cracks", body=body, measured=False, wrong=words, told=told,
            placed=keep_place, status=400,
        )  # fmt: skip
    return page(request, "cracks.html", title="A crack in a photo", body=body, measured=True, wrong="", told={})


def card(request: Request) -> Response:
    """The scale card, to print at 100 %."""
    from pinfold.actions.cracks import scale_card

    kept = {"Content-Disposition": 'inline; filename="pinfold-scale-card.svg"'}
    return Response(scale_card(), media_type="image/svg+xml", headers=kept)


PAGE = VerbPage(
    verb="cracks",
    path="/cracks",
    says="Which cracks move?",
    routes=(
        Route("/cracks", cracks),
        Route("/cracks/measure", measure, methods=["POST"]),
        Route("/cracks/card.svg", card),
    ),
    group="look up",
)
