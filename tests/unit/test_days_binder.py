"""The days in the binder: one chapter where there is weather, one line of what is missing where there is none."""

from __future__ import annotations

from datetime import date

import pytest

from pinfold.actions.binding import CHAPTERS
from pinfold.actions.days_binder import SHEETS, TITLE, days_parts
from pinfold.actions.sites import open_site
from pinfold.reports.binder.records import Card
from pinfold.reports.pages import Paragraph
from pinfold.store.starting import SAMPLES, from_sample

DAY = date(2026, 5, 4)
WIDE = 170.0


def parts_of(folder):
    return days_parts(open_site(folder), day=DAY, wide_mm=WIDE)


@pytest.mark.parametrize("sample", SAMPLES)
def test_the_chapter_has_sheets_to_hang_up_the_job_and_pictures(sample, tmp_path):
    from_sample(tmp_path / sample, sample, today=DAY)
    days, *others = parts_of(tmp_path / sample)
    cards = [block for block in days.blocks if isinstance(block, Card)]
    assert len(cards) == SHEETS
    assert cards[0].title.startswith("Mon 4 May")
    assert {sheet.title.partition(",")[0].partition(" on 2026")[0] for sheet in days.sheets} >= {
        "The job in days", "Sun on the faces",
    }  # fmt: skip
    assert all(0 < sheet.height_mm < 230 for sheet in days.sheets)
    assert [part.title for part in (days, *others)] == [title for title in CHAPTERS if title in _TITLES]


_TITLES = {TITLE, "The season's rules", "Sun and shade"}


def test_without_weather_one_line_says_what_is_missing(tmp_path):
    from_sample(tmp_path / "quinta", "quinta", today=DAY)
    for path in (tmp_path / "quinta" / "weather").iterdir():
        path.unlink()
    days = parts_of(tmp_path / "quinta")[0]
    assert [type(block) for block in days.blocks] == [Paragraph]
    assert "No weather is known" in days.blocks[0].text
    assert days.sheets == ()


def test_a_forecast_long_past_is_told_in_the_chapter(tmp_path):
    from_sample(tmp_path / "quinta", "quinta", today=date(2026, 2, 1))
    texts = [block.text for block in parts_of(tmp_path / "quinta")[0].blocks if isinstance(block, Paragraph)]
    assert any("over and not used" in text for text in texts)
