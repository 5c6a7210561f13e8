"""`make demo`: runs through every verb that answers, and keeps what stands in its folder."""

from __future__ import annotations

import runpy
from pathlib import Path

import pytest

DEMO = Path(__file__).parents[2] / "scripts" / "demo.py"


@pytest.fixture
def demo(tmp_path):
    """What the script defines, with its site in a folder of the test."""
    names = runpy.run_path(str(DEMO))
    names["run"].__globals__["SITE"] = tmp_path / "demo-site"
    return names["run"]


def test_the_demo_tells_what_every_verb_found_and_keeps_what_was_changed_there(demo, tmp_path, capsys):
    demo()
    plan = tmp_path / "demo-site" / "plan.toml"
    plan.write_text(plan.read_text(encoding="utf-8").replace("Seed garden", "Bean garden"), encoding="utf-8")
    demo()

    table = capsys.readouterr().out
    for verb in ("plan", "stand", "mix", "gather", "cut", "level", "reckon", "binder", "formula"):
        assert f"\n  {verb} " in table
    assert (tmp_path / "demo-site" / "binder.pdf").stat().st_size > 100_000
    assert "Bean garden" in plan.read_text(encoding="utf-8")
