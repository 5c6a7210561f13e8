"""What is recorded on site for the days goes through the log's own kinds."""

from __future__ import annotations

import pytest

from pinfold.actions.phone import phone_record
from pinfold.actions.taking import take_entries
from pinfold.store.starting import from_sample


@pytest.fixture
def site(tmp_path):
    from_sample(tmp_path / "quinta", "quinta")
    return tmp_path / "quinta"


def entry(kind, **fields):
    return {"id": f"made-{kind}-0001", "kind": kind, "at": "2026-05-04T11:10+01:00", "who": "Ana", "device": "phone",
            "fields": fields}  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "fields"),
    [
        ("wetting", {"place": "hill/1", "face": "outer", "layer": "lime coat", "water": "12 L"}),
        ("weather", {"temperature": "31 °C", "humidity": "24 %", "wind": "14 km/h", "sky": "clear", "rain": "0 mm"}),
        ("coat", {"place": "hill/1", "face": "outer", "layer": "lime coat", "area": "6 m2"}),
        ("batch", {"mix": "lime-plaster", "place": "hill/1", "batches": "2"}),
    ],
)
def test_what_the_days_ask_can_be_written_down(site, kind, fields):
    assert take_entries(site, [entry(kind, **fields)])[0].state == "new"


def test_a_wetting_without_a_place_is_refused(site):
    assert take_entries(site, [entry("wetting", water="12 L")])[0].state == "wrong"


def test_the_phone_has_a_form_for_each(site):
    forms = {form.kind for form in phone_record(site).forms}
    assert {"wetting", "weather", "coat", "batch"} <= forms
