"""What goes into a batch: cards to hang beside the mixer."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InputError
from pinfold.web.answering import desk_of, page
from pinfold.web.pages import mix_families
from pinfold.web.pages.records import VerbPage


def mix(request: Request) -> Response:
    """All batch cards, or one alone; for another size of batch where one is asked for."""
    from pinfold.actions.answers import as_cards
    from pinfold.actions.mix_family import family_choices
    from pinfold.actions.mixing import mix_site

    folder, only = desk_of(request).folder, request.path_params.get("name", "")
    size, wrong = request.query_params.get("batch", "").strip(), ""
    try:
        answer = mix_site(folder, None, size or None)
    except InputError as refused:
        answer, wrong = mix_site(folder, None, None), refused.message
    cards, names = as_cards(answer, address="/mix/card/", only=only)
    shared = getattr(answer.page.blocks[0], "text", "")
    return page(
        request, "mix.html", status=400 if wrong else 200, title=answer.page.title, cards=cards, count=len(names),
        only=only, size=size, wrong=wrong, shared=shared, families=family_choices(),
    )  # fmt: skip


PAGE = VerbPage(
    verb="mix", path="/mix", says="What goes into a batch?", group="work",
    routes=(Route("/mix", mix), Route("/mix/card/{name}", mix), *mix_families.ROUTES),
)  # fmt: skip
