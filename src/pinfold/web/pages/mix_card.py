"""Batch cards: all of them, or by run, layer or mix on a page of their own, to hang beside the mixer."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InputError
from pinfold.web.answering import desk_of, page

if TYPE_CHECKING:
    from pinfold.actions.mix_card import CardsAsked


def card(request: Request) -> Response:
    """The cards that a name picks out, or all of them."""
    return cards_page(request, "mix_card.html")


def cards_page(request: Request, template: str, **values: object) -> Response:
    """Cards for the size of batch and the warmth that are asked for; for the plan's own where those cannot be read.

    A template takes the cards, or the list of them that stands before.
    """
    from pinfold.actions.answers import as_cards, as_opening
    from pinfold.actions.mix_card import COUNTED, WARMTHS, mix_cards

    folder, asked, wrong = desk_of(request).folder, _asked(request), {}
    try:
        answer = mix_cards(folder, asked)
    except InputError as refused:
        wrong = {refused.place.removeprefix("--").replace("-", "_"): refused.message}
        answer = mix_cards(folder, replace(asked, batch="", temperature="", sand_by=""))
    title = f"Batch cards: {asked.name}" if asked.name else answer.page.title
    query = f"?{request.url.query}" if request.url.query and not wrong else ""
    return page(
        request, template, status=400 if wrong else 200, title=title, cards=as_cards(answer),
        opening=as_opening(answer), asked=asked, wrong=wrong, query=query, warmths=tuple(WARMTHS), measures=COUNTED,
        **values,
    )  # fmt: skip


def _asked(request: Request) -> CardsAsked:
    from pinfold.actions.mix_card import CardsAsked
    from pinfold.web.pairing import caller_of

    desk, typed = desk_of(request), request.query_params
    host = request.headers.get("host", "")
    return CardsAsked(
        name=request.path_params.get("name", ""), batch=typed.get("batch", "").strip()[:40],
        temperature=typed.get("temperature", "").strip()[:40], at=desk.pairing_at,
        sand_by=typed.get("sand_by", "").strip()[:40],
        own=f"{request.url.scheme}://{host}/" if caller_of(request).here else "",
    )  # fmt: skip


ROUTES = (Route("/mix/card", card), Route("/mix/card/{name:path}", card))
