"""A batch put right in the mixer: a form for what was measured, and what comes of it."""

from __future__ import annotations

from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InvalidPlan, NotFoundError, OutOfRangeError
from pinfold.web.answering import desk_of, page


def correct(request: Request) -> Response:
    """The form, and what puts the batch right once something was measured."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.mix_correct import correct_form, correct_mix

    folder = desk_of(request).folder
    typed = {key: text.strip()[:80] for key, text in request.query_params.items() if text.strip()}
    mix = typed.pop("mix", "")
    body, wrong, asked = "", dict[str, str](), bool(typed.keys() - {"sand_by"})
    try:
        if mix and asked:
            body = as_html(correct_mix(folder, mix, typed), titled=False)
        elif asked:
            wrong = {"": "choose the mix that is in the mixer"}
    except InvalidPlan as refused:
        wrong = {problem.place: problem.message for problem in refused.problems}
    except (NotFoundError, OutOfRangeError) as refused:
        wrong = {"": str(refused)}
    form = correct_form(folder, mix, typed, wrong)
    return page(
        request, "mix_correct.html", status=400 if wrong else 200, form=form, body=body, asked=asked,
        title=f"{mix}: put right in the mixer" if body else "Put a batch right in the mixer",
        logged=_logged(request, mix, typed) if body else "",
    )  # fmt: skip


def _logged(request: Request, mix: str, typed: dict[str, str]) -> str:
    """Address of the log's own form with the reading filled in."""
    from pinfold.actions.mix_correct import reading_pairs

    pairs = reading_pairs(desk_of(request).folder, mix, typed)
    return f"/log/new/batch?{urlencode(pairs)}"


ROUTES = (Route("/mix/correct", correct),)
