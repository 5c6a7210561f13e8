"""How strong a mix is at an age: all of the plan in a table, or one with its picture and its tests."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InputError, NotFoundError, OutOfRangeError
from pinfold.web.answering import desk_of, page


def strength(request: Request) -> Response:
    """The form, and below it one mix or all."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.mix_strength import mix_strength, strength_form, strength_picture

    folder = desk_of(request).folder
    mix, at = (request.query_params.get(key, "").strip()[:80] for key in ("mix", "at"))
    wrong, picture = "", ""
    try:
        answer = mix_strength(folder, mix, at)
        picture = strength_picture(folder, mix) if mix else ""
    except (InputError, NotFoundError, OutOfRangeError) as refused:
        wrong = refused.message if isinstance(refused, InputError) else str(refused)
        answer = mix_strength(folder, "", "")
    return page(
        request, "mix_strength.html", status=400 if wrong else 200, title=answer.page.title, picture=picture,
        body=as_html(answer, titled=False), form=strength_form(folder, "" if wrong else mix, at, wrong),
    )  # fmt: skip


ROUTES = (Route("/mix/strength", strength),)
