"""The sample's shed in a real browser: from a misread reading and a twist to what is level, simulated lift by lift."""

from __future__ import annotations

import pytest

from looks import open_to_all
from pinfold.actions.log_files import csv_in
from pinfold.store import starting
from pinfold.units import METER, read


@pytest.fixture
def served(tmp_path, serve):
    """The sample with its shed and the surveys that come with it."""
    folder = tmp_path / "seed-garden"
    starting.from_sample(folder, "seed-garden")
    csv_in(folder, folder / "levels.csv")
    with serve(folder) as running:
        yield running.url.rstrip("/")


TRUE = {"sill": 0.0, "S1": 5.0, "S2": 4.75, "S3": 4.1875, "N1": 4.875, "N2": 4.8125, "N3": 4.5625}
"""Heights in inches that the sample's last survey was made from."""


def test_the_samples_shed_from_a_misread_reading_to_level(tab, served):
    tab.goto(f"{served}/level")
    text = tab.locator("main").inner_text()
    assert "Set aside: the reading at N2 in setup 2" in text
    assert "It is twisted" in text
    tab.get_by_role("link", name="The jacking sheet").click()
    lifts = dict.fromkeys(TRUE, 0.0)
    for row in tab.locator("table").first.locator("tbody tr").all():
        _, _, mark, by, *_ = [cell.inner_text() for cell in row.locator("td").all()]
        lifts[mark] += read(by.lstrip("+"), like=METER) / 0.0254
    open_to_all(tab)
    tab.get_by_role("button", name="Write down").click()
    tab.wait_for_load_state()
    assert "read all supports anew" in tab.locator("main").inner_text()

    for setup, water in (("1", 41.0), ("2", 43.5)):
        tab.goto(f"{served}/level")
        tab.locator("#setup").fill(setup)
        tab.locator("#instrument").select_option("water level")
        rods = {mark: water - height - lifts[mark] for mark, height in TRUE.items()}
        tab.locator("#lines").fill("\n".join(f"{mark} {rod:.3f}" for mark, rod in rods.items()))
        tab.get_by_role("button", name="Write down").click()
        tab.wait_for_load_state()
    assert "Nothing is to be moved" in tab.locator("main").inner_text()
    tab.goto(f"{served}/level/settle")
    assert "Counted since it was jacked" in tab.locator("main").inner_text()
