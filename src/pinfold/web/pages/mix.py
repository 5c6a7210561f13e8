"""What goes into a batch: cards to hang beside the mixer."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.pages import mix_card, mix_correct, mix_families, mix_measures, mix_richer, mix_strength, mix_trials
from pinfold.web.pages.records import VerbPage


def mix(request: Request) -> Response:
    """All batch cards; for another size of batch or another warmth where one is asked for."""
    from pinfold.actions.mix_family import family_choices

    return mix_card.cards_page(request, "mix.html", families=family_choices())


PAGE = VerbPage(
    verb="mix", path="/mix", says="What goes into a batch?", group="work",
    routes=(
        Route("/mix", mix), *mix_card.ROUTES, *mix_correct.ROUTES, *mix_families.ROUTES, *mix_measures.ROUTES,
        *mix_richer.ROUTES, *mix_strength.ROUTES, *mix_trials.ROUTES,
    ),
)  # fmt: skip
