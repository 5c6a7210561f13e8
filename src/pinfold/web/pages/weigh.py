"""Which build-up to choose."""

from __future__ import annotations

from pinfold.web.pages import weigh_choose, weigh_options, weigh_search, weigh_trade
from pinfold.web.pages.records import VerbPage

PAGE = VerbPage(
    verb="weigh", path="/weigh", says="Which build-up should I choose?",
    routes=(*weigh_options.ROUTES, *weigh_search.ROUTES, *weigh_trade.ROUTES, *weigh_choose.ROUTES),
)  # fmt: skip
