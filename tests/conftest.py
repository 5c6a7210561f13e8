"""Options of the test run."""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

settings.register_profile("at home", deadline=None, max_examples=60)
settings.register_profile("ci", deadline=None, max_examples=60, derandomize=True, print_blob=True)
settings.load_profile("ci" if os.environ.get("CI") else "at home")


def pytest_addoption(parser):
    parser.addoption("--fuzz", action="store_true", help="run the long fuzz of the plan reader too")


def pytest_collection_modifyitems(config, items):
    if config.getoption("--fuzz"):
        return
    for item in items:
        if "fuzz" in item.keywords:
            item.add_marker(pytest.mark.skip(reason="the long fuzz runs with make fuzz"))
