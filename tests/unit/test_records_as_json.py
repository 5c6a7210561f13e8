"""Answers as JSON are the same in every run."""

from __future__ import annotations

from pinfold.reports.record import as_json


def test_a_set_is_told_in_order():
    assert as_json(frozenset({"wane", "knot", "stain"})) == ["knot", "stain", "wane"]
    assert as_json({"flaws": {"twist", "bow"}}) == {"flaws": ["bow", "twist"]}


def test_a_list_stays_in_its_own_order():
    assert as_json(("wane", "knot")) == ["wane", "knot"]
