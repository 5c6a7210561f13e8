"""Answers that take long are worked out beside: nobody waits, nobody gets half of one."""

from __future__ import annotations

import threading

from pinfold.actions.beside import Beside, Latest

LONG = 20.0


def test_who_does_not_wait_gets_nothing_at_first_and_the_answer_later():
    beside, may_go = Beside(), threading.Event()

    def work():
        may_go.wait(LONG)
        return "done"

    assert beside.latest(1, work) == Latest(None, False)
    may_go.set()
    assert beside.latest(1, work, patience=LONG) == Latest("done", True)


def test_while_a_newer_one_is_worked_out_the_last_one_is_given():
    beside, may_go = Beside(), threading.Event()
    assert beside.latest(1, lambda: "first", patience=LONG).answer == "first"
    assert beside.latest(2, lambda: may_go.wait(LONG) and "second") == Latest("first", False)
    may_go.set()
    assert beside.latest(2, lambda: "never asked", patience=LONG) == Latest("second", True)


def test_the_same_is_worked_out_once():
    beside, asked = Beside(), []
    for _ in range(5):
        beside.latest(1, lambda: asked.append(1) or "done", patience=LONG)
    assert len(asked) == 1


def test_work_that_fails_keeps_the_last_answer_and_is_not_tried_over_and_over(monkeypatch):
    beside, tries = Beside(), []
    monkeypatch.setattr(threading, "excepthook", lambda told: None)

    def fails():
        tries.append(1)
        raise ValueError("no")

    beside.latest(1, lambda: "first", patience=LONG)
    for _ in range(3):
        assert beside.latest(2, fails, patience=LONG).answer == "first"
    assert len(tries) == 1
