"""The next wall: weighed as shipped and as learned; where nothing moved it says so, where a price moved it tells."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pinfold.actions.reckon_next_wall import next_wall_of
from pinfold.logbook.entries import entry_of
from pinfold.store.log import open_log
from pinfold.store.starting import from_sample

NAMES = ("stone and mesh", "mesh-on-driven-posts")


def paid(cost):
    return entry_of({
        "id": "paid-000001", "kind": "purchase", "at": "2026-05-04T10:00+02:00", "who": "me", "device": "pc",
        "fields": {"item": "portland-cement", "packs": "10", "cost": cost},
    })  # fmt: skip


@pytest.fixture
def plot(tmp_path):
    folder = tmp_path / "quinta"
    from_sample(folder, "quinta")
    return folder


def test_where_nothing_was_learned_no_table_tells_the_same_twice(plot):
    answer = next_wall_of(plot, NAMES)

    assert answer.record.is_unmoved
    assert "as learned is as shipped" in answer.page.blocks[-1].text


def test_a_price_paid_moves_cash_and_nothing_else(plot):
    with open_log(plot) as log:
        log.append([paid("104.00")], received="2026-05-04T12:00:00+00:00")  # twice the price list's
    found = next_wall_of(plot, NAMES).record
    shipped, learned = found.shipped[0].scores, found.learned[0].scores

    assert not found.is_unmoved
    assert learned["cash_now"].value > shipped["cash_now"].value
    assert learned["water"].value == shipped["water"].value
    assert learned["hours"].value == pytest.approx(shipped["hours"].value)


def test_the_order_is_told_where_it_changes(plot):
    with open_log(plot) as log:
        log.append([paid("5200.00")], received="2026-05-04T12:00:00+00:00")
    found = next_wall_of(plot, NAMES).record
    order = next(each for each in found.orders if each.criterion == "cash_now")

    assert order.learned == tuple(
        sorted(
            order.learned,
            key=lambda name: next(each.scores["cash_now"].value for each in found.learned if each.option.name == name),
        )
    )
    assert replace(order, learned=order.shipped).changes is False
