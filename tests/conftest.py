"""Options of the test run."""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

settings.register_profile("at home", deadline=None, max_examples=60)
settings.register_profile("ci", deadline=None, max_examples=60, derandomize=True, print_blob=True)
settings.load_profile("ci" if os.environ.get("CI") else "at home")


OPT_IN = {
    "fuzz": ("the long fuzz of the plan reader", "make fuzz"),
    "cutting": ("the long run of cutting instances", "--cutting"),
}
"""Markers of what runs only when asked for."""


def pytest_addoption(parser):
    for name, (says, _) in OPT_IN.items():
        parser.addoption(f"--{name}", action="store_true", help=f"run {says} too")


def pytest_collection_modifyitems(config, items):
    for name, (says, how) in OPT_IN.items():
        if not config.getoption(f"--{name}"):
            for item in items:
                if item.get_closest_marker(name):
                    item.add_marker(pytest.mark.skip(reason=f"{says} runs with {how}"))


@pytest.fixture(autouse=True, scope="session")
def unhurried():
    """Pages are waited for, however busy the machine is; what they tell meanwhile has tests of its own."""
    from pinfold.web import waiting

    usual, waiting.PATIENCE_S = waiting.PATIENCE_S, None
    yield
    waiting.PATIENCE_S = usual
