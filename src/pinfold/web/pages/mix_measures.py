"""Measures of the site and its sand, and forms to try a reading before it is written down."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.answering import desk_of, page


def measures(request: Request) -> Response:
    """What is known, one form for each kind of reading, and what comes of the one that was tried."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.mix_measures import TRIED, measures_of, reading_form

    folder, kind = desk_of(request).folder, request.query_params.get("kind", "")
    sent = {key: text.strip()[:80] for key, text in request.query_params.items()}
    forms, tried, form = [], "", ""
    for each in TRIED:
        shown, answer = reading_form(folder, each, sent if each == kind else {})
        forms.append(shown)
        if answer is not None:
            tried, form = as_html(answer), getattr(answer.record, "form", "")
    answer = measures_of(folder)
    wrong = any(each.wrong for each in forms)
    return page(
        request, "mix_measures.html", status=400 if wrong else 200, title=answer.page.title,
        body=as_html(answer, titled=False), forms=forms, tried=tried, form=form, kind=kind,
    )  # fmt: skip


ROUTES = (Route("/mix/measures", measures),)
