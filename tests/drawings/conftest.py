"""Both samples laid out, once for all tests of drawings."""

from __future__ import annotations

from importlib.resources import files

import pytest

from pinfold.drawings.sides import side_views
from pinfold.store.planfile import plan_of
from pinfold.studies.layout.resolve import lay_out


@pytest.fixture(scope="session", params=["seed-garden", "quinta"])
def layout(request):
    text = files("pinfold.store").joinpath("samples", request.param, "plan.toml").read_text(encoding="utf-8")
    return lay_out(plan_of(text))


@pytest.fixture(scope="session")
def views(layout):
    return {view.side.name: view for view in side_views(layout)}
