"""Trials of a mix: what they show, a picture along each factor, and the next ones, each a form away."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.web.answering import desk_of, page

if TYPE_CHECKING:
    from pinfold.actions.mix_trials import TrialsAsked

_WEIGHT = "weight."


def trials(request: Request) -> Response:
    """What the trials of a mix show, as it is asked; as found out where that cannot be."""
    from pinfold.actions.mix_trials import mix_trials, trials_as_html, trials_form

    folder, asked = desk_of(request).folder, _asked(request)
    wrong: tuple[str, ...] = ()
    try:
        answer = mix_trials(folder, asked)
    except InvalidPlan as refused:
        wrong = tuple(str(problem) for problem in refused.problems)
    except (InputError, NotFoundError) as refused:
        wrong = (str(refused),)
    if wrong:
        answer = mix_trials(folder, replace(asked, mix="", factors=(), weights=(), batch=""))
    return page(
        request, "mix_trials.html", status=400 if wrong else 200, title=answer.page.title, body=trials_as_html(answer),
        form=trials_form(answer, asked), wrong=wrong,
    )  # fmt: skip


def _asked(request: Request) -> TrialsAsked:
    from pinfold.actions.mix_trials import TrialsAsked
    from pinfold.web.pairing import caller_of

    typed, host = request.query_params, request.headers.get("host", "")
    weights = [(key.removeprefix(_WEIGHT), text.strip()[:20]) for key, text in typed.items() if key.startswith(_WEIGHT)]
    return TrialsAsked(
        mix=typed.get("mix", "").strip()[:60], factors=tuple(text[:40] for text in typed.getlist("factor"))[:12],
        weights=tuple(f"{name[:40]}={text}" for name, text in weights if text)[:12],
        outside=typed.get("outside") == "yes", batch=typed.get("batch", "").strip()[:40],
        at=desk_of(request).pairing_at, own=f"{request.url.scheme}://{host}/" if caller_of(request).here else "",
    )  # fmt: skip


ROUTES = (Route("/mix/trials", trials),)
