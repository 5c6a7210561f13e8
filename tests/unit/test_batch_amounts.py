"""What goes into a batch, as a form of the log offers it."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from pinfold.actions.batch_amounts import amounts_of
from pinfold.logbook.entries import entry_of
from pinfold.units import System


@pytest.mark.parametrize(
    ("bags", "text"), [(1 / 3, "1/3 bag"), (0.5, "1/2 bag"), (1.25, "1 1/4 bag"), (2.0, "2 bag"), (2 / 3, "2/3 bag")]
)
def test_a_part_of_a_bag_is_offered_as_one_says_it_and_read_again(bags, text):
    part = SimpleNamespace(kind=SimpleNamespace(name="portland-cement"), bags=bags, buckets=1.0)
    charge = SimpleNamespace(ingredients=(part,), water_to_add=0.0, foam=None)
    pairs = amounts_of(charge, System.METRIC)
    raw = {"id": "entry-00001", "kind": "batch", "at": "2026-05-03T14:20Z", "who": "ana", "device": "pc",
           "fields": {"mix": "mortar-O", "amounts": [list(pair) for pair in pairs]}}  # fmt: skip

    assert pairs == (("portland-cement", text),)
    assert entry_of(raw).values["amounts"][0].amount == pytest.approx(bags)
