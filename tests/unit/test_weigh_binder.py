"""Weighing and the next wall in the binder: what is given up for what with its picture, what if, and what is not there."""

from __future__ import annotations

import re
from datetime import date

import pytest

from pinfold.actions.binding import CHAPTERS
from pinfold.actions.reckon_next_wall import next_wall_part
from pinfold.actions.sites import open_site
from pinfold.actions.weigh_binder import TITLES, weigh_parts
from pinfold.actions.weigh_trade import TradeAsked, trade_of
from pinfold.reports.pages import Heading, Paragraph, Table
from pinfold.store.starting import SAMPLES, from_sample

WIDE = 170.0


@pytest.fixture(scope="module", params=SAMPLES)
def site(request, tmp_path_factory):
    folder = tmp_path_factory.mktemp(request.param)
    from_sample(folder, request.param, today=date(2026, 5, 4))
    return open_site(folder)


def texts(blocks, sort=Paragraph):
    return [block.text for block in blocks if isinstance(block, sort)]


def test_its_chapters_are_among_those_of_the_binder_in_their_order(site):
    titles = tuple(part.title for part in weigh_parts(site, wide_mm=WIDE))

    assert titles == TITLES == tuple(title for title in CHAPTERS if title in TITLES)


def test_what_for_what_has_its_words_and_a_picture_whose_numbers_are_told(site):
    part = weigh_parts(site, wide_mm=WIDE)[1]
    (sheet,) = part.sheets
    front = trade_of(site, TradeAsked()).front

    assert "What is given up for what" in texts(part.blocks, Heading)
    assert all(any(f"{name} (bettered by none)" in text for text in texts(part.blocks)) for name in front)
    assert sheet.width_mm == WIDE
    assert 'width="170mm"' in sheet.svg
    assert sheet.svg.count('class="front"') == len(front)
    assert not re.search(r"<(figure|ol)", sheet.svg)


def test_what_if_has_a_table_for_each_thing_supposed_and_says_where_drivers_are_asked(site):
    part = weigh_parts(site, wide_mm=WIDE)[2]

    assert {"cement +20 %", "sand twice as far"} < set(texts(part.blocks, Heading))
    assert sum(isinstance(block, Table) for block in part.blocks) >= 4
    assert "pinfold weigh drivers" in texts(part.blocks)[-1]


def test_nothing_is_supposed_that_cannot_be(tmp_path):
    from_sample(tmp_path / "plot", "quinta", today=date(2026, 5, 4))
    plan = tmp_path / "plot" / "plan.toml"
    plan.write_text(f"{plan.read_text()}\n[people]\ncount = 1\n")
    part = weigh_parts(open_site(tmp_path / "plot"), wide_mm=WIDE)[2]

    assert "a helper less" not in texts(part.blocks, Heading)
    assert "wind one up" in texts(part.blocks, Heading)


def test_before_anything_is_learned_the_next_wall_says_so_and_where_an_account_comes_from(site):
    blocks = next_wall_part(site)

    assert any("as learned is as shipped" in text for text in texts(blocks))
    assert not any(isinstance(block, Table) for block in blocks)
    assert "pinfold reckon account" in texts(blocks)[-1]
