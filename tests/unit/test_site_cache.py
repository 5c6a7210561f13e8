"""A site is kept as long as its files are what they were, and every door answers from the same files and log."""

from __future__ import annotations

import os

import pytest

from pinfold.actions.editing import edited_plan
from pinfold.actions.editing_words import cost_record
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import open_site
from pinfold.actions.taking import take_entries
from pinfold.store.planfile import NAME
from pinfold.store.starting import from_sample


@pytest.fixture
def site(tmp_path):
    from_sample(tmp_path / "quinta", "quinta")
    return tmp_path / "quinta"


def bought(number, cost):
    fields = {"item": "portland-cement", "packs": "1", "cost": cost}
    return {
        "id": f"bought-{number:05}", "kind": "purchase", "at": "2026-05-03T08:00+02:00", "who": "Ana", "device": "phone",
        "fields": fields,
    }  # fmt: skip


def test_the_same_files_give_the_same_site(site):
    assert open_site(site) is open_site(site)


def test_a_file_put_in_its_place_with_the_same_size_and_time_is_read_anew(site):
    first, path = open_site(site), site / NAME
    old = path.stat()
    text = path.read_text(encoding="utf-8")
    fresh = site / "fresh"
    fresh.write_text(text.replace('name = "Quinta"', 'name = "Quanta"', 1), encoding="utf-8")
    os.utime(fresh, ns=(old.st_atime_ns, old.st_mtime_ns))
    os.replace(fresh, path)
    assert path.stat().st_size == old.st_size
    assert path.stat().st_mtime_ns == old.st_mtime_ns
    assert open_site(site).plan.name != first.plan.name


def test_a_new_entry_is_counted_by_every_door_alike(site):
    before = reckon_all(open_site(site)).costs.total
    assert take_entries(site, [bought(1, "40.00")])[0].state == "new"
    site_now = open_site(site)
    after = reckon_all(site_now).costs
    assert after.total > before
    assert edited_plan(site)["cost"] == cost_record(after, site_now.plan.units)
