"""What a richer or leaner mix does: a choice of mix and range, its picture and its tables."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InvalidPlan, NotFoundError, OutOfRangeError
from pinfold.web.answering import desk_of, page


def richer(request: Request) -> Response:
    """The first mix of the plan, or the one that is asked for."""
    from pinfold.actions.mix_richer import RicherAsked, richer_as_html, richer_choices

    folder = desk_of(request).folder
    choices = richer_choices(folder)
    typed = {key: request.query_params.get(key, "").strip()[:40] for key in ("of", "from", "to", "strength")}
    name = typed["of"] or (choices[0].name if choices else "")
    title, picture, body, wrong = "What a richer or leaner mix does", "", "", dict[str, str]()
    try:
        if name:
            asked = RicherAsked(name=name, low=typed["from"], high=typed["to"], strength=typed["strength"])
            title, picture, body = richer_as_html(folder, asked)
    except InvalidPlan as refused:
        wrong = {problem.place: problem.message for problem in refused.problems}
    except (NotFoundError, OutOfRangeError) as refused:
        wrong = {"of": str(refused)}
    return page(
        request, "mix_richer.html", status=400 if wrong else 200, title=title, choices=choices, name=name, typed=typed,
        wrong=wrong, picture=picture, body=body,
    )  # fmt: skip


ROUTES = (Route("/mix/richer", richer),)
