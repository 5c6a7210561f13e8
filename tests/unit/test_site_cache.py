"""A site is kept as long as its files are what they were, and every door answers from the same files and log."""

from __future__ import annotations

import os

import pytest

from pinfold.actions.editing import edited_plan
from pinfold.actions.editing_words import cost_record
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import SILENT, open_site
from pinfold.actions.taking import take_entries
from pinfold.logbook.kinds import entry_kinds
from pinfold.store.planfile import NAME
from pinfold.store.starting import from_sample
from pinfold.studies.days.progress import WORK_KINDS
from pinfold.studies.lessons.learned import TEACHING


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


def noted(number, **more):
    return {"id": f"noted-{number:05}", "kind": "note", "at": "2026-05-03T08:00+02:00", "who": "Ana", "device": "phone",
            "fields": {"text": f"rain {number}"}, **more}  # fmt: skip


def test_an_entry_that_nothing_is_reckoned_from_leaves_the_site_as_it_is(site):
    take_entries(site, [bought(1, "40.00"), noted(1)])
    before = open_site(site)
    take_entries(site, [noted(2)])
    assert open_site(site) is before
    take_entries(site, [bought(2, "41.00")])
    assert open_site(site) is not before


def test_an_entry_that_teaches_and_is_corrected_into_a_note_is_no_longer_reckoned_with(site):
    take_entries(site, [bought(1, "40.00")])
    before = open_site(site)
    take_entries(site, [noted(1, corrects="bought-00001")])
    assert before.entries
    assert not open_site(site).entries


def test_every_kind_that_teaches_or_tells_of_work_makes_another_site():
    assert not set(SILENT) & {*TEACHING, *WORK_KINDS, "trial", "weather", "wetting"}
    assert set(SILENT) <= set(entry_kinds())
