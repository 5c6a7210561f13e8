"""A mix of any family by a wish: a form made from what the family asks, and what comes of it."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InvalidPlan, OutOfRangeError
from pinfold.web.answering import desk_of, page


def family(request: Request) -> Response:
    """One family: its form, and its mix once something was asked or nothing need be."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.mix_family import family_form, mix_family

    name = request.path_params["name"]
    typed = {key: text.strip()[:80] for key, text in request.query_params.items() if text.strip()}
    body, wrong = "", dict[str, str]()
    try:
        body = as_html(mix_family(desk_of(request).folder, name, typed), titled=False)
    except InvalidPlan as refused:
        wrong = {problem.place: problem.message for problem in refused.problems}
    except OutOfRangeError as refused:
        wrong = {"": str(refused)}
    form = family_form(name, typed, wrong)
    return page(
        request, "mix_family.html", status=400 if wrong and typed else 200, title=form.title, form=form, body=body,
        asked=bool(typed),
    )  # fmt: skip


ROUTES = (Route("/mix/family/{name}", family),)
