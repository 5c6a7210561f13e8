"""Pages of the days come at once: quick ones are waited for, slow ones are shown as last worked out."""

from __future__ import annotations

import threading
import time

import pytest

from pinfold.actions import days_lately
from pinfold.actions.days_lately import Lately, lately
from pinfold.errors import NotFoundError
from pinfold.store import starting

LONG = 20.0


@pytest.fixture
def site(tmp_path):
    folder = tmp_path / "quinta"
    starting.from_sample(folder, "quinta")
    return folder


def changed(site, number=1):
    plan = site / "plan.toml"
    plan.write_text(f"{plan.read_text(encoding='utf-8')}\n# {'x' * number}\n", encoding="utf-8")


def settled(site, what):
    """What is worked out beside has come to its end."""
    until = time.monotonic() + LONG
    while not (found := lately(site, what, lambda: "later")).is_of_now:
        assert time.monotonic() < until
        time.sleep(0.01)
    return found


def test_the_first_answer_is_waited_for(site):
    def slow():
        time.sleep(0.1)
        return "first"

    assert lately(site, "a", slow) == Lately("first", True)
    assert lately(site, "a", lambda: "never asked") == Lately("first", True)


def test_after_a_change_what_was_quick_is_waited_for(site):
    lately(site, "b", lambda: "first")
    changed(site)
    assert lately(site, "b", lambda: "second") == Lately("second", True)


def test_after_a_change_what_was_slow_is_shown_as_it_was_and_told_so(site, monkeypatch):
    monkeypatch.setattr(days_lately, "_SOON", 0.0)
    may_go = threading.Event()
    lately(site, "c", lambda: "first")
    changed(site)
    assert lately(site, "c", lambda: may_go.wait(LONG) and "second") == Lately("first", False)
    may_go.set()
    assert settled(site, "c") == Lately("second", True)


def test_what_cannot_be_answered_is_told_each_time_and_mends_with_the_plan(site):
    def refused():
        raise NotFoundError("no such day")

    for _ in range(2):
        with pytest.raises(NotFoundError, match="no such day"):
            lately(site, "d", refused)
    changed(site)
    assert lately(site, "d", lambda: "first") == Lately("first", True)


def test_each_question_and_each_site_has_its_own_answer(site, tmp_path):
    other = tmp_path / "other"
    starting.from_sample(other, "seed-garden")
    assert [lately(folder, what, lambda text=f"{folder.name} {what}": text).answer
            for folder in (site, other) for what in ("e", "f")] == ["quinta e", "quinta f", "other e", "other f"]  # fmt: skip
