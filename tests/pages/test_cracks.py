"""Cracks on their page: measured from a photo, written down, followed over time."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest

from looks import fits, open_to_all
from pinfold.actions.taking import take_entries
from pinfold.store.log import open_log

sys.path.insert(0, str(Path(__file__).parents[1] / "imaging"))


@pytest.fixture(scope="session")
def photo():
    """A rendered wall with a crack of 0.6 mm and the scale card beside it."""
    from wall_photos import Wall, photo_of

    return {"name": "wall.jpg", "mimeType": "image/jpeg", "buffer": photo_of(Wall(width=0.6, seed=5))}


def reading(number, width, day):
    fields = {"mark": "C1", "place": "south/1a", "width": f"{width} mm", "spread": "0.03 mm", "temperature": "12 °C"}
    return {
        "id": f"crack-{number:08}", "kind": "crack", "at": f"{day}T08:00+00:00", "who": "Ana", "device": "phone",
        "fields": fields,
    }  # fmt: skip


def test_a_crack_in_a_photo_is_measured_and_written_down_with_its_photo(tab, site, photo):
    tab.goto("/cracks")
    tab.get_by_label("Photo with the card").set_input_files(photo)
    tab.get_by_label("Mark of the crack").fill("C7")
    tab.get_by_label("Temperature").fill("54 °F")
    tab.get_by_role("button", name="Measure it").click()
    tab.get_by_role("heading", name="A crack in a photo").wait_for()
    (entry,) = open_log(site).entries(kind="crack")
    assert entry.text("mark") == "C7"
    assert abs(entry.number("width") - 0.6e-3) < 3 * entry.number("spread")
    assert entry.number("temperature") == pytest.approx(12.2, abs=0.1)
    assert tab.request.get(f"/photos/{entry.text('photo')}.jpg").status == 200
    tab.get_by_role("link", name="All cracks").click()
    tab.get_by_role("heading", name="Crack C7: not shown yet").wait_for()


def measured(tab, photo):
    """The page of a crack just measured."""
    tab.goto("/cracks")
    tab.get_by_label("Photo with the card").set_input_files(photo)
    tab.get_by_role("button", name="Measure it").click()
    tab.get_by_role("heading", name="A crack in a photo").wait_for()


def test_what_was_traced_is_shown_over_the_photo_with_words_for_it(tab, photo):
    measured(tab, photo)
    drawing = tab.get_by_role("img", name=re.compile("^The wall around the crack, with .* of it traced from the "))
    box = drawing.bounding_box()
    assert box["width"] > 300
    assert box["height"] > 300
    assert "The strokes end at the lips" in tab.locator("figcaption").inner_text()
    loaded = tab.evaluate("""async () => {
        const picture = new Image();
        picture.src = document.querySelector("figure image").getAttribute("href");
        await picture.decode();
        return picture.naturalWidth;
    }""")
    assert 200 < loaded <= 1000


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [1280, 390])
def test_a_crack_just_measured_keeps_nobody_out(new_tab, photo, scheme, width):
    tab = new_tab(color_scheme=scheme, viewport={"width": width, "height": 800})
    measured(tab, photo)
    open_to_all(tab)
    for narrow in (width, 320):
        tab.set_viewport_size({"width": narrow, "height": 800})
        fits(tab)


def test_the_place_of_a_photo_is_a_tick_that_is_off_each_time(tab, site, photo):
    box = "keep the place the photo was taken"
    tab.goto("/cracks")
    assert not tab.get_by_label(box).is_checked()
    tab.goto("/log/new/photo")
    assert not tab.get_by_label(box).is_checked()
    tab.get_by_label(box).check()
    tab.locator("input[type=file]").set_input_files(placed())
    tab.get_by_role("button", name="Write it down").click()
    tab.get_by_role("heading", name="a photo", exact=True).wait_for()
    assert "-38.51000 deg" in tab.locator("main").inner_text()
    tab.get_by_role("link", name="Write another one down").click()
    assert not tab.get_by_label(box).is_checked()


def placed():
    """A photo that tells where it was taken."""
    from io import BytesIO

    from PIL import Image

    out, exif = BytesIO(), Image.Exif()
    exif.get_ifd(0x8825).update({1: "S", 2: (38.0, 30.0, 36.0), 3: "E", 4: (9.0, 15.0, 0.0)})
    Image.new("RGB", (40, 30), "teal").save(out, "JPEG", exif=exif)
    return {"name": "lane.jpg", "mimeType": "image/jpeg", "buffer": out.getvalue()}


def test_the_same_form_sent_twice_writes_one_reading(tab, site, photo):
    tab.goto("/cracks")
    name = tab.locator("main form input[name=id]").input_value()
    token = tab.locator("main").get_attribute("data-token")
    for _ in range(2):
        sent = tab.request.post(
            "/cracks/measure", multipart={"token": token, "id": name, "mark": "C9", "photo": photo},
            headers={"Origin": tab.url.removesuffix("/cracks")},
        )  # fmt: skip
        assert sent.status == 200
    assert open_log(site).count() == 1


def test_a_photo_that_is_not_good_enough_is_told_and_what_was_typed_stays(tab, site):
    from io import BytesIO

    from PIL import Image

    gray = BytesIO()
    Image.new("RGB", (800, 600), (130, 130, 130)).save(gray, "JPEG")
    tab.goto("/cracks")
    tab.watch.expected.append("400")
    tab.get_by_label("Photo with the card").set_input_files(
        {"name": "g.jpg", "mimeType": "image/jpeg", "buffer": gray.getvalue()}
    )
    tab.get_by_label("Mark of the crack").fill("C8")
    tab.get_by_role("button", name="Measure it").click()
    assert "squares" in tab.get_by_role("alert").inner_text()
    assert tab.get_by_label("Mark of the crack").input_value() == "C8"
    assert open_log(site).count() == 0


def test_a_crack_that_moves_stands_first_with_its_picture(tab, site):
    days = [f"20{24 + month // 12}-{month % 12 + 1:02}-03" for month in range(18)]
    moving = [reading(number, 0.30 + 0.02 * number, day) for number, day in enumerate(days)]
    still = [reading(100 + number, 0.50, day) for number, day in enumerate(days)]
    for entry in still:
        entry["fields"]["mark"] = "A9"
    assert {each.state for each in take_entries(site, [*moving, *still])} == {"new"}
    tab.goto("/cracks")
    heads = [head for head in tab.locator("h2").all_inner_texts() if head.startswith("Crack")]
    assert heads == ["Crack C1, south/1a: moving", "Crack A9, south/1a: dead"]
    assert tab.locator("svg.widths").first.locator("circle").count() == len(moving)
    assert tab.locator("svg.widths").first.locator(".trend").count() == 1


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_page_of_cracks_keeps_nobody_out(new_tab, site, scheme):
    take_entries(site, [reading(number, 0.3, f"2025-0{number + 1}-03") for number in range(5)])
    tab = new_tab(color_scheme=scheme)
    tab.goto("/cracks")
    open_to_all(tab)


def test_the_scale_card_is_given_to_print(tab):
    answer = tab.request.get("/cracks/card.svg")
    assert answer.headers["content-type"].startswith("image/svg+xml")
    assert 'width="104mm"' in answer.text()
