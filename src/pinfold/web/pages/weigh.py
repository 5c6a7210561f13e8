"""Which build-up to choose."""

from __future__ import annotations

from pinfold.web.pages import weigh_options
from pinfold.web.pages.records import VerbPage

PAGE = VerbPage(
    verb="weigh", path="/weigh", says="Which build-up should I choose?", routes=(*weigh_options.ROUTES,)
)  # fmt: skip
