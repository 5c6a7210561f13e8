"""The phone's page in a real browser: out of reach, with answers lost, tabs killed, storage full, clocks wrong."""

from __future__ import annotations

import json
import re
from io import BytesIO

import pytest
from PIL import Image

from houses import ARGUMENTS, CHROMIUM, NAME, House, entries, so_many, wait_for
from looks import enlarge, fits, open_to_all
from pinfold.store import starting
from pinfold.store.log import open_log

PHONE = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True}
AWAY = ["Failed to load resource", "ERR_", "net::"]
"""What a browser says to its console when nobody answers; that is what these tests are about."""


@pytest.fixture
def sample():
    return "quinta"


@pytest.fixture
def house(site):
    house = House(site).start()
    yield house
    house.stop()


@pytest.fixture
def served(house):
    return house.url


@pytest.fixture
def phone(new_tab):
    return opened(new_tab(**PHONE))


def opened(page, *, who="Ana", device="phone", address="/phone"):
    """The page with its names given, the log in reach."""
    if hasattr(page, "watch"):
        page.watch.expected += AWAY
    page.goto(address)
    page.locator("#who").fill(who)
    page.locator("#device").fill(device)
    page.locator("#names-keep").click()
    page.locator("#batch-0").wait_for()
    page.get_by_text("the log is in reach").wait_for()
    return page


def keeps_itself(page):
    """Wait until the page is kept for when nobody answers."""
    page.evaluate("""async () => {
        const found = await navigator.serviceWorker.ready;
        while (found.active.state !== "activated") await new Promise((again) => setTimeout(again, 30));
    }""")


def note(page, text):
    """Write a note down; it is kept when this returns."""
    page.locator("#kind-note").tap()
    page.locator("#field-text").fill(text)
    page.locator("#keep").tap()
    page.locator("#kind-note").wait_for()


def comes_back(page):
    """What a browser tells a page when there is a network again; without it the page's own clock would do, later."""
    page.evaluate("dispatchEvent(new Event('online'))")


def texts(folder):
    return sorted(entry.text("text") for entry in entries(folder, kind="note"))


def test_a_batch_like_the_last_one_takes_two_taps(phone, site):
    phone.locator("#batch-0").tap()
    phone.get_by_role("button", name="more building sand").tap()
    phone.get_by_role("button", name="more how many alike").tap()
    phone.locator("#keep").tap()
    assert so_many(site, 1)
    phone.get_by_text("2 of 98 in the log").wait_for()
    phone.reload()
    phone.locator("#batch-0").tap()
    phone.locator("#keep").tap()
    assert so_many(site, 2)
    first, second = entries(site, kind="batch")
    assert second.typed["amounts"] == first.typed["amounts"]
    assert ["sand", "3.75 bucket"] in second.typed["amounts"]
    assert (second.text("mix"), second.text("layer"), second.number("batches")) == ("concrete-footing", "footing", 1)
    phone.get_by_text("3 of 98 in the log").wait_for()


COVERED = """() => {
    const bar = document.querySelector('.keep').getBoundingClientRect();
    const field = document.activeElement.getBoundingClientRect();
    return document.querySelector('.keep').contains(document.activeElement) ? 0 : Math.min(field.bottom, innerHeight) - Math.max(bar.top, field.top);
}"""


@pytest.mark.parametrize("letters", ["", "150%", "212.5%"], ids=["as they are", "larger", "twice as large"])
def test_the_bar_below_covers_no_field_that_is_typed_into(phone, letters):
    enlarge(phone, letters)
    phone.evaluate("location.hash = '#write/crack'")
    phone.locator("summary", has_text="More").tap()
    phone.evaluate("scrollTo(0, 0)")
    for _ in range(30):
        phone.keyboard.press("Tab")
        if phone.evaluate("document.activeElement.matches('input, select, textarea')"):
            assert phone.evaluate(COVERED) <= 0, phone.evaluate("document.activeElement.outerHTML")


def test_a_hole_and_a_lean_are_taken_down_where_they_are_seen(phone, site):
    phone.locator("#kind-hole").tap()
    phone.locator("#field-mark").fill("P4")
    phone.locator("#field-depth").fill("31 in")
    phone.locator("summary", has_text="More").tap()
    phone.get_by_text("stiff-clay", exact=True).tap()
    phone.get_by_text("runs in", exact=True).tap()
    phone.locator("#keep").tap()
    phone.locator("#kind-plumb").tap()
    phone.locator("#field-mark").fill("P4")
    phone.locator("#field-out").fill("-3/8 in")
    phone.locator("#field-over").fill("4 ft")
    phone.locator("#keep").tap()
    phone.locator(".written li.sent").nth(1).wait_for()
    (hole,), (lean,) = entries(site, kind="hole"), entries(site, kind="plumb")
    assert (hole.values["ground"], hole.number("depth")) == ("stiff-clay", pytest.approx(0.7874))
    assert (lean.number("out"), lean.number("over")) == (pytest.approx(-0.009525), pytest.approx(1.2192))


def test_what_was_bought_left_over_and_worked_is_taken_down_on_the_spot_and_stands_in_the_ledger(phone, site):
    phone.locator("#kind-purchase").tap()
    phone.locator("#field-item").select_option("sand")
    phone.locator("#field-packs").fill("3")
    phone.locator("#field-cost").fill("90.00")
    phone.locator("summary", has_text="More").tap()
    phone.locator("#field-tax").fill("16.83")
    phone.locator("#field-bill").fill("17")
    phone.locator("#keep").tap()
    phone.locator("#kind-leftover").tap()
    phone.locator("#field-item").select_option("sand")
    phone.locator("#field-packs").fill("0.5")
    phone.locator("summary", has_text="More").tap()
    phone.locator("#field-worth").fill("12")
    phone.locator("#keep").tap()
    phone.locator("#kind-hours").tap()
    phone.locator("#field-time").fill("6")
    phone.locator("summary", has_text="More").tap()
    phone.locator("#field-people").fill("2")
    phone.locator("#field-layer").fill("footing")
    phone.locator("#keep").tap()
    phone.locator(".written li.sent").nth(2).wait_for()
    (bought,), (left,) = entries(site, kind="purchase"), entries(site, kind="leftover")
    assert (bought.values["cost"], bought.values["tax"], bought.text("bill")) == (9000, 1683, "17")
    assert left.number("packs") == pytest.approx(0.5)

    phone.goto("/reckon/ledger")
    told = " ".join(phone.locator("main").inner_text().replace("\u00a0", " ").split())
    assert "EUR 78.00 spent so far, 12 h of own work counted at nothing" in told
    assert phone.get_by_role("table").last.get_by_role("link").all_inner_texts() == ["3", "2", "1"]


def test_two_quick_taps_on_keep_write_one_entry(phone, site):
    phone.locator("#batch-0").tap()
    phone.locator("#keep").dblclick()
    assert so_many(site, 1, still=0.5)


def test_a_day_out_of_reach_comes_in_once(phone, site, house):
    keeps_itself(phone)
    house.stop()
    phone.context.set_offline(True)
    phone.goto("/phone")
    phone.get_by_text("out of reach").wait_for()
    for number in range(4):
        note(phone, f"away {number}")
    phone.reload()
    phone.locator("#batch-1").tap()
    phone.locator("#keep").tap()
    phone.get_by_text("5 not in the log yet").wait_for()
    assert phone.locator(".written li.kept").count() == 5
    assert phone.locator(".written li.kept").first.inner_text().endswith("kept on this phone")
    assert entries(site) == ()
    house.start()
    phone.context.set_offline(False)
    comes_back(phone)
    assert so_many(site, 5, still=0.5)
    assert texts(site) == [f"away {number}" for number in range(4)]
    phone.locator("#reach", has_text="nothing waits here").wait_for()
    assert phone.locator(".written li.sent").count() == 5


def test_an_entry_whose_answer_was_lost_is_in_the_log_once(phone, site, house):
    house.to_swallow = 1
    note(phone, "lost answer")
    assert wait_for(lambda: house.swallowed == 1), "the answer was to be lost"
    assert so_many(site, 1)
    phone.locator("#reach", has_text="nothing waits here").wait_for(timeout=15_000)
    assert so_many(site, 1, still=0.5)
    assert house.asked.count(("POST", "/api/log")) >= 2, "it was sent again"


def test_what_is_kept_outlives_its_tab(phone, site, house):
    keeps_itself(phone)
    house.stop()
    note(phone, "before the tab was killed")
    phone.get_by_text("1 not in the log yet").wait_for()
    context = phone.context
    phone.close(run_before_unload=False)
    again = context.new_page()
    again.goto("/phone")
    again.get_by_text("1 not in the log yet").wait_for()
    assert "before the tab was killed" in again.locator(".written li.kept").inner_text()
    house.start()
    assert so_many(site, 1)


def test_an_entry_is_called_kept_only_once_it_is_on_disk(phone):
    order = phone.evaluate("""async () => {
        const version = document.getElementById("main").dataset.version;
        const { openOutbox } = await import(`/static/${version}/phone_outbox.js`);
        const seen = [];
        const plain = IDBDatabase.prototype.transaction;
        IDBDatabase.prototype.transaction = function (stores, mode, options) {
          const turn = plain.call(this, stores, mode, options);
          if (mode === "readwrite") { seen.push(options.durability); turn.addEventListener("complete", () => seen.push("complete")); }
          return turn;
        };
        const outbox = await openOutbox();
        await outbox.put({ id: "order-1", raw: {}, state: "sent", photos: [], kept: "", site: "" });
        seen.push("kept");
        return seen;
    }""")
    assert order == ["strict", "complete", "kept"]


def test_a_full_storage_is_told_and_the_entry_stays_in_sight(phone, site, house):
    house.stop()
    phone.evaluate("""() => {
        window.plainPut = IDBObjectStore.prototype.put;
        IDBObjectStore.prototype.put = () => { throw new DOMException("full", "QuotaExceededError"); };
    }""")
    phone.locator("#kind-note").tap()
    phone.locator("#field-text").fill("no room for this")
    phone.locator("#keep").tap()
    phone.get_by_role("heading", name="This entry is not kept").wait_for()
    assert "storage is full" in phone.get_by_role("alert").inner_text()
    assert "no room for this" in phone.locator("#unkept-text").input_value()
    phone.locator("#unkept-again").tap()
    phone.get_by_role("alert").wait_for()
    phone.evaluate("location.hash = ''")
    phone.get_by_text("An entry is NOT kept").wait_for()
    phone.get_by_role("link", name="See to it").tap()
    phone.evaluate("() => { IDBObjectStore.prototype.put = window.plainPut; }")
    phone.locator("#unkept-again").tap()
    phone.get_by_text("1 not in the log yet").wait_for()
    house.start()
    assert so_many(site, 1)


def test_an_entry_that_cannot_be_kept_can_go_straight_to_the_log(phone, site):
    phone.evaluate(
        "() => { IDBObjectStore.prototype.put = () => { throw new DOMException('full', 'QuotaExceededError'); }; }"
    )
    phone.locator("#kind-note").tap()
    phone.locator("#field-text").fill("straight")
    phone.locator("#keep").tap()
    phone.locator("#unkept-send").tap()
    assert so_many(site, 1)
    phone.locator("#kind-note").wait_for()


LATE = """(() => {
    const Real = Date, ahead = 2 * 86400000;
    class Late extends Real {
      constructor(...given) { if (given.length) super(...given); else super(Real.now() + ahead); }
      static now() { return Real.now() + ahead; }
    }
    window.Date = Late;
})()"""


def test_a_clock_two_days_off_is_told_and_can_be_put_right(new_tab, site):
    page = new_tab(**PHONE)
    page.add_init_script(LATE)
    opened(page)
    page.get_by_text("2 days ahead of the log").wait_for()
    page.locator("#clock-log").tap()
    note(page, "at the log's time")
    assert so_many(site, 1)
    (entry,) = entries(site)
    assert abs(entry.when.timestamp() - _received(entry)) < 60
    page.get_by_text("2 days earlier than this phone").wait_for()
    page.locator("#clock-own").tap()
    page.get_by_text("2 days ahead of the log").wait_for()
    note(page, "at its own time")
    assert so_many(site, 2)
    late = entries(site)[1]
    assert late.when.timestamp() - _received(late) == pytest.approx(2 * 86400, abs=60)


def _received(entry):
    from datetime import datetime

    return datetime.fromisoformat(entry.received).timestamp()


FILL = """async (name) => {
    const version = document.getElementById("main").dataset.version;
    const { openOutbox } = await import(`/static/${version}/phone_outbox.js`);
    const { newId } = await import(`/static/${version}/phone_basics.js`);
    const outbox = await openOutbox();
    for (let number = 0; number < 100; number += 1) {
      const id = newId();
      const raw = { id, kind: "note", at: "2026-05-03T14:20:00+02:00", who: name, device: name, fields: { text: `${name} ${number}` } };
      await outbox.put({ id, raw, site: "Quinta", state: "kept", complaints: [], photos: [], tried: false, kept: new Date().toISOString(), turn: id });
    }
}"""


def test_two_phones_at_once_bring_a_hundred_entries_each(new_tab, site, house):
    phones = [opened(new_tab(**PHONE), who=name, device=name) for name in ("Ana", "Rui")]
    house.stop()
    for page, name in zip(phones, ("Ana", "Rui"), strict=True):
        page.evaluate(FILL, name)
    house.start()
    for page in phones:
        comes_back(page)
    assert so_many(site, 200, still=0.5)
    assert len({entry.id for entry in entries(site)}) == 200
    assert texts(site) == sorted(f"{name} {number}" for name in ("Ana", "Rui") for number in range(100))
    for page in phones:
        page.locator("#reach", has_text="nothing waits here").wait_for()


def test_two_tabs_of_one_phone_send_in_turn(phone, site, house):
    other = phone.context.new_page()
    other.goto("/phone")
    other.locator("#batch-0").wait_for()
    phone.evaluate(FILL, "Ana")
    house.asked.clear()
    for page in (phone, other):
        comes_back(page)
    assert so_many(site, 100, still=0.5)
    assert house.asked.count(("POST", "/api/log")) == 2, "two lots of fifty, each sent by one tab alone"


def test_a_wrong_entry_is_shown_with_its_complaint_and_mended(phone, site):
    phone.locator("#kind-crack").tap()
    phone.locator("#field-mark").fill("C1")
    phone.locator("#field-width").fill("three fingers")
    phone.locator("#keep").tap()
    line = phone.locator(".written li.wrong")
    line.wait_for()
    assert "refused" in line.inner_text()
    note(phone, "a good one after it")
    assert so_many(site, 1)
    phone.goto("/phone#unsent")
    assert "width" in phone.locator("li.wrong .told").inner_text()
    phone.get_by_role("link", name="Mend it").tap()
    assert phone.locator("#field-width").input_value() == "three fingers"
    assert phone.locator("#complaint-width").is_visible()
    phone.locator("#field-width").fill("0,3")
    phone.locator("#keep").tap()
    assert so_many(site, 2)
    assert entries(site, kind="crack")[0].typed["width"] == "0.3 mm"
    phone.locator("#reach", has_text="nothing waits here").wait_for()


def test_what_cannot_be_is_told_before_it_is_kept(phone, site):
    phone.locator("#kind-crack").tap()
    phone.locator("#keep").tap()
    assert phone.locator("#complaint-mark").inner_text() == "This is needed."
    phone.locator("#field-mark").fill("C1")
    phone.locator("#field-width").fill("500")
    phone.locator("#keep").tap()
    assert "cannot be" in phone.locator("#complaint-width").inner_text()
    assert phone.locator("#field-width").get_attribute("aria-describedby") == "complaint-width"
    assert entries(site) == ()


def test_a_change_on_the_phone_is_a_correction_and_a_removal_takes_back(phone, site):
    note(phone, "first words")
    phone.locator(".written li.sent a").first.tap()
    phone.get_by_role("link", name="Change it").tap()
    phone.locator("#field-text").fill("better words")
    phone.locator("#keep").tap()
    assert so_many(site, 2)
    assert [entry.text("text") for entry in entries(site)] == ["first words", "better words"]
    assert [entry.text("text") for entry in entries(site, standing=True)] == ["better words"]
    phone.locator("#reach", has_text="nothing waits here").wait_for()
    phone.locator(".written li.sent a", has_text="better words").tap()
    phone.get_by_role("button", name="Take it back").tap()
    phone.get_by_role("button", name="Sure? Tap again").tap()
    assert so_many(site, 3)
    assert entries(site, standing=True) == ()


def test_values_written_last_are_one_tap_away(phone, site):
    phone.locator("#kind-crack").tap()
    phone.locator("#field-mark").fill("by the cart gate")
    phone.locator("#field-width").fill("0.4")
    phone.locator("#keep").tap()
    assert so_many(site, 1)
    phone.reload()
    phone.locator("#kind-crack").tap()
    phone.get_by_role("button", name="by the cart gate").tap()
    phone.get_by_role("button", name="0.4 mm").tap()
    phone.locator("#keep").tap()
    assert so_many(site, 2)
    assert entries(site)[1].typed == {"mark": "by the cart gate", "width": "0.4 mm"}


def test_a_photo_is_made_small_kept_out_of_reach_and_sent_with_its_entry(phone, site, house):
    keeps_itself(phone)
    house.stop()
    out = BytesIO()
    Image.effect_noise((3000, 2000), 60).convert("RGB").save(out, "JPEG", quality=95)
    phone.locator("#kind-photo").tap()
    phone.locator("#field-photo").set_input_files(
        {"name": "wall.jpg", "mimeType": "image/jpeg", "buffer": out.getvalue()}
    )
    phone.locator("img.taken").wait_for()
    phone.locator("#keep").tap()
    phone.get_by_text("1 not in the log yet").wait_for()
    phone.reload()
    phone.get_by_text("1 not in the log yet").wait_for()
    house.start()
    comes_back(phone)
    assert so_many(site, 1)
    name = entries(site)[0].text("photo")
    stored = open_log(site).photo(name)
    assert (stored.width, stored.height) == (1600, 1067)
    phone.locator("#reach", has_text="nothing waits here").wait_for()
    left = phone.evaluate("""() => new Promise((done) => { indexedDB.open("pinfold-phone").onsuccess = ({ target }) => {
        target.result.transaction("pictures").objectStore("pictures").count().onsuccess = (found) => done(found.target.result); }; })""")
    assert left == 0, "pictures that are in the log take no room here"


def shot(*, place=True, order=">"):
    """A photo as a phone's camera makes it, held sideways, with where it was taken, its bytes in either order."""
    out, exif = BytesIO(), Image.Exif()
    exif.endian = order
    exif[0x0112], exif[0x010F] = 6, "a maker's name"
    if place:
        exif.get_ifd(0x8825).update({1: "S", 2: (38.0, 30.0, 36.25), 3: "E", 4: (9.0, 15.0, 0.0), 7: (8.0, 1.0, 2.0)})
    Image.effect_noise((2000, 1500), 60).convert("RGB").save(out, "JPEG", exif=exif)
    return {"name": "wall.jpg", "mimeType": "image/jpeg", "buffer": out.getvalue()}


def told_by(site, entry):
    """What the stored photo of an entry tells beside its picture."""
    exif = Image.open(BytesIO((site / "photos" / f"{entry.text('photo')}.jpg").read_bytes())).getexif()
    return {**exif, **exif.get_ifd(0x8825)}


KEPT = {1: "S", 2: (38.0, 30.0, 36.25), 3: "E", 4: (9.0, 15.0, 0.0)}
BOX = "keep the place the photo was taken"


@pytest.mark.parametrize(("wish", "order"), [(True, ">"), (True, "<"), (False, ">")])
def test_the_place_of_a_photo_goes_with_it_only_where_it_is_wished_and_out_of_reach_too(
    phone, site, house, wish, order
):
    keeps_itself(phone)
    house.stop()
    phone.locator("#kind-photo").tap()
    assert not phone.get_by_label(BOX).is_checked()
    phone.locator("#field-photo").set_input_files(shot(order=order))
    phone.locator("img.taken").wait_for()
    if wish:
        phone.get_by_text(BOX).tap()
    phone.locator("#keep").tap()
    phone.get_by_text("1 not in the log yet").wait_for()
    phone.reload()
    phone.get_by_text("1 not in the log yet").wait_for()
    house.start()
    comes_back(phone)
    assert so_many(site, 1)
    (entry,) = entries(site)
    place = {key: text for key, text in entry.typed.items() if key != "photo"}
    assert place == ({"latitude": "-38.51007 deg", "longitude": "9.25000 deg"} if wish else {})
    told = told_by(site, entry)
    assert told == ({0x8825: told[0x8825], **KEPT} if wish else {})
    stored = open_log(site).photo(entry.text("photo"))
    assert (stored.width, stored.height) == (1200, 1600), "turned once, not twice"
    phone.locator("#kind-photo").tap()
    assert not phone.get_by_label(BOX).is_checked(), "the wish is of one photo"


def test_a_photo_that_tells_no_place_is_told_so_at_once(phone, site):
    phone.locator("#kind-photo").tap()
    phone.get_by_text(BOX).tap()
    phone.locator("#field-photo").set_input_files(shot(place=False))
    phone.get_by_text("does not tell where it was taken").wait_for()
    phone.locator("#keep").tap()
    assert so_many(site, 1)
    assert set(entries(site)[0].typed) == {"photo"}


def test_the_wish_waits_with_its_entry_and_can_be_taken_back_as_long_as_that_waits(phone, site, house):
    house.stop()
    for text in ("stays placed", "was placed"):
        phone.locator("#kind-photo").tap()
        phone.locator("#field-photo").set_input_files(shot())
        phone.locator("img.taken").wait_for()
        phone.get_by_text(BOX).tap()
        phone.locator("#field-text").fill(text)
        phone.locator("#keep").tap()
        phone.locator("#kind-photo").wait_for()
    for text in ("stays placed", "was placed"):
        phone.locator(".written a", has_text=text).tap()
        phone.get_by_role("link", name="Change it").tap()
        phone.locator("#keep").wait_for()
        assert phone.get_by_label(BOX).is_checked()
        if text == "was placed":
            phone.get_by_text(BOX).tap()
        phone.locator("#keep").tap()
        phone.locator("#kind-photo").wait_for()
    house.start()
    comes_back(phone)
    assert so_many(site, 2)
    by_text = {entry.text("text"): entry for entry in entries(site)}
    assert by_text["stays placed"].typed["latitude"] == "-38.51007 deg"
    assert "latitude" not in by_text["was placed"].typed
    assert told_by(site, by_text["was placed"]) == {}


def test_changing_what_was_sent_keeps_its_place_until_another_photo_is_taken(phone, site):
    phone.locator("#kind-photo").tap()
    phone.locator("#field-photo").set_input_files(shot())
    phone.locator("img.taken").wait_for()
    phone.get_by_text(BOX).tap()
    phone.locator("#keep").tap()
    assert so_many(site, 1)
    for count, again in ((2, False), (3, True)):
        phone.locator(".written li.sent a").first.tap()
        phone.get_by_role("link", name="Change it").tap()
        phone.locator("#field-text").fill(f"the lane {count}")
        if again:
            phone.locator("#field-photo").set_input_files(shot())
            phone.locator("img.taken").wait_for()
        phone.locator("#keep").tap()
        assert so_many(site, count)
        assert ("latitude" in entries(site)[-1].typed) is not again
        phone.locator("#reach", has_text="nothing waits here").wait_for()


def test_the_wish_goes_by_file_to_the_laptop_too(phone, site, house, new_tab):
    house.stop()
    for wish in (True, False):
        phone.locator("#kind-photo").tap()
        phone.locator("#field-photo").set_input_files(shot())
        phone.locator("img.taken").wait_for()
        if wish:
            phone.get_by_text(BOX).tap()
        phone.locator("#field-text").fill("placed" if wish else "not")
        phone.locator("#keep").tap()
        phone.locator("#kind-photo").wait_for()
    phone.evaluate("location.hash = 'unsent'")
    with phone.expect_download() as download:
        phone.locator("#export").tap()
    path = download.value.path()
    saved = json.loads(path.read_text())
    assert [each.get("placed") for each in saved["entries"]] == [["photo"], None]
    house.start()
    laptop = new_tab(java_script_enabled=False)
    phone.context.set_offline(True)
    laptop.goto("/log/import")
    laptop.locator("#file").set_input_files(path)
    laptop.get_by_role("button", name="See what would come of it").click()
    laptop.get_by_role("button", name="Write 2 new entries into the log").click()
    assert so_many(site, 2)
    by_text = {entry.text("text"): entry for entry in entries(site)}
    assert by_text["placed"].typed["longitude"] == "9.25000 deg"
    assert "longitude" not in by_text["not"].typed
    phone.context.set_offline(False)
    comes_back(phone)
    phone.locator("#reach", has_text="nothing waits here").wait_for(timeout=15_000)
    assert so_many(site, 2)


def bought(page, item):
    page.locator("#kind-purchase").tap()
    page.locator("#field-item").select_option(label="another …")
    page.locator("#field-item-other").fill(item)
    page.locator("#field-packs").fill("1")
    page.locator("#field-cost").fill("3")
    page.locator("#keep").tap()
    page.locator("#kind-purchase").wait_for()


def test_a_name_nothing_is_known_by_is_told_once_the_log_has_it_and_can_be_put_right(phone, site):
    bought(phone, "gold nails")
    banner = phone.locator("#banners .caution", has_text="the plan has no item called 'gold nails'")
    banner.wait_for()
    assert so_many(site, 1)
    assert "a name in it is not known" in phone.locator(".written li.sent.doubted").inner_text()
    open_to_all(phone)
    banner.get_by_role("link", name="See to it").tap()
    assert "nothing is learned from it until it is corrected" in phone.locator(".one .caution").inner_text()
    phone.get_by_role("link", name="Change it").tap()
    assert "gold nails" in phone.locator("#complaint-item").inner_text()
    phone.locator("#field-item").select_option("sand")
    phone.locator("#keep").tap()
    assert so_many(site, 2, still=0.3)
    assert [entry.text("item") for entry in entries(site, standing=True)] == ["sand"]
    phone.locator("#reach", has_text="nothing waits here").wait_for()
    assert banner.count() == 0
    bought(phone, "silver nails")
    phone.get_by_role("link", name="See to it").tap()
    phone.get_by_role("button", name="Leave it as it is").tap()
    phone.locator("#kind-note").wait_for()
    assert phone.locator("#banners .caution", has_text="no item called").count() == 0
    assert so_many(site, 3)


def take_picture(page, name, size):
    out = BytesIO()
    Image.effect_noise(size, 60).convert("RGB").save(out, "JPEG")
    page.locator("#kind-photo").tap()
    page.locator("#field-photo").set_input_files({"name": "a.jpg", "mimeType": "image/jpeg", "buffer": out.getvalue()})
    page.locator("img.taken").wait_for()
    page.locator("#field-text").fill(name)
    page.locator("#keep").tap()
    page.locator("#kind-photo").wait_for()


NEVER_ANSWERED = """() => {
    const real = window.fetch;
    let first = null;
    Object.assign(window, { hung: 0, answered: false });
    window.fetch = (address, options = {}) => {
      if (!String(address).startsWith("/api/photo") || window.answered) return real(address, options);
      first ??= options.body.size;
      if (options.body.size !== first) return real(address, options);
      window.hung += 1;
      return new Promise((_, late) => options.signal.addEventListener("abort", () => late(new Error("no answer"))));
    };
}"""


def test_a_photo_that_gets_no_answer_keeps_nothing_else_waiting_and_comes_in_once_later(new_tab, site, house):
    page = new_tab(**PHONE, service_workers="block")
    page.clock.install()
    opened(page)
    house.stop()
    for name, size in (("first", (300, 200)), ("second", (400, 300))):
        take_picture(page, name, size)
    note(page, "behind them")
    page.evaluate(NEVER_ANSWERED)
    house.start()
    comes_back(page)
    assert wait_for(lambda: page.evaluate("window.hung") == 1), "the photo was to be sent"
    assert so_many(site, 1), "what has no photo goes first"
    page.clock.fast_forward(91_000)
    assert so_many(site, 2, still=0.3), "the other photo goes too"
    assert [entry.text("text") for entry in entries(site)] == ["behind them", "second"]
    page.get_by_text("a photo did not get through yet").wait_for()
    page.get_by_text("1 not in the log yet").wait_for()
    page.evaluate("window.answered = true")
    page.clock.fast_forward(91_000)
    assert so_many(site, 3, still=0.5)
    page.locator("#reach", has_text="nothing waits here").wait_for()
    assert {entry.text("text") for entry in entries(site)} == {"behind them", "second", "first"}
    assert (
        len({entry.text("photo") for entry in entries(site, kind="photo")})
        == len(list((site / "photos").iterdir()))
        == 2
    )


def test_while_the_log_cannot_be_read_the_page_shows_its_cards_and_keeps_all(new_tab, site, house):
    page = opened(new_tab(**PHONE))
    page.watch.expected.append("409")
    for each in site.glob("log.sqlite*"):
        each.unlink()
    (site / "log.sqlite").write_bytes(b"no log of anything" * 400)
    page.goto("/phone")
    page.locator("#batch-0").wait_for()
    assert "The log cannot be read" in page.locator("#banners").inner_text()
    note(page, "kept all the same")
    page.get_by_text("1 not in the log yet; the log cannot write just now").wait_for()
    (site / "log.sqlite").unlink()
    comes_back(page)
    assert so_many(site, 1)


def test_the_outbox_goes_by_file_to_the_laptop(phone, site, house, new_tab):
    house.stop()
    note(phone, "carried by hand")
    phone.evaluate("location.hash = 'unsent'")
    with phone.expect_download() as download:
        phone.locator("#export").tap()
    path = download.value.path()
    assert json.loads(path.read_text())["pinfold-log"] == 1
    house.start()
    laptop = new_tab(java_script_enabled=False)
    phone.context.set_offline(True)
    laptop.goto("/log/import")
    laptop.locator("#file").set_input_files(path)
    laptop.get_by_role("button", name="See what would come of it").click()
    assert entries(site) == ()
    laptop.get_by_role("button", name="Write 1 new entry into the log").click()
    assert texts(site) == ["carried by hand"]
    phone.context.set_offline(False)
    comes_back(phone)
    phone.locator("#reach", has_text="nothing waits here").wait_for(timeout=15_000)
    assert so_many(site, 1)


def test_entries_of_another_site_are_not_sent_into_this_log(phone, site, tmp_path, house):
    house.stop()
    note(phone, "of the first site")
    other = tmp_path / "other"
    starting.from_sample(other, "seed-garden")
    second = House(other)
    second.port, second.url = house.port, house.url
    hosts = frozenset({f"127.0.0.1:{house.port}"})
    from pinfold.web.app import make_app
    from pinfold.web.desk import Desk

    second.app = make_app(Desk(folder=other, hosts=hosts, home=hosts, secret=b"other" * 8))
    second.start()
    try:
        comes_back(phone)
        phone.get_by_text("were written for Quinta").wait_for()
        assert entries(other) == ()
    finally:
        second.stop()
    house.start()
    comes_back(phone)
    assert so_many(site, 1)


# ---- the laptop in trouble, and what is changed while it is asked


PICTURE = BytesIO()
Image.new("RGB", (60, 40), "peru").save(PICTURE, "JPEG")


def photo(page, text):
    """Take a photo down; it is kept when this returns."""
    page.locator("#kind-photo").tap()
    page.locator("#field-photo").set_input_files(
        {"name": "wall.jpg", "mimeType": "image/jpeg", "buffer": PICTURE.getvalue()}
    )
    page.locator("img.taken").wait_for()
    page.locator("#field-text").fill(text)
    page.locator("#keep").tap()
    page.locator("#kind-photo").wait_for()


def answers(page, path, status, error="store"):
    """Let requests there be answered like this."""
    page.route(f"**{path}", lambda route: route.fulfill(status=status, json={"error": error, "message": "so it is"}))


@pytest.fixture
def routed(new_tab):
    """The page, its requests in the hands of the test."""
    return opened(new_tab(**PHONE, service_workers="block"))


@pytest.mark.parametrize("status", [404, 408, 409, 429, 500])
def test_a_passing_fault_refuses_no_photo_and_keeps_no_other_entry_waiting(routed, site, status):
    answers(routed, "/api/photo", status)
    with routed.expect_response("**/api/photo"):
        photo(routed, "by the lane")
    note(routed, "beside it")
    routed.get_by_text("1 not in the log yet; the log cannot write just now").wait_for()
    assert texts(site) == ["beside it"]
    assert routed.locator(".written li.kept").count() == 1
    routed.unroute("**/api/photo")
    comes_back(routed)
    assert so_many(site, 2)
    assert entries(site, kind="photo")[0].text("text") == "by the lane"


@pytest.mark.parametrize("status", [404, 408, 409, 429, 500])
def test_a_passing_fault_refuses_no_entry(routed, site, status):
    answers(routed, "/api/log", status)
    with routed.expect_response("**/api/log"):
        note(routed, "again later")
    routed.get_by_text("1 not in the log yet; the log cannot write just now").wait_for()
    assert routed.locator(".written li.kept").count() == 1
    routed.unroute("**/api/log")
    comes_back(routed)
    assert so_many(site, 1)


@pytest.mark.parametrize("status", [400, 413, 415, 422])
@pytest.mark.parametrize(("path", "write"), [("/api/photo", photo), ("/api/log", note)])
def test_what_is_said_of_the_thing_itself_refuses_it(routed, path, write, status):
    answers(routed, path, status, "refused")
    write(routed, "not to be had")
    routed.locator(".written li.wrong").wait_for()
    routed.evaluate("location.hash = 'unsent'")
    assert "so it is" in routed.locator("li.wrong .told").inner_text()


def test_a_plan_list_being_written_keeps_only_those_waiting_that_need_it(routed, site, house):
    house.stop()
    note(routed, "needs none")
    routed.locator("#kind-crack").tap()
    routed.locator("#field-mark").fill("C1")
    routed.locator("#field-width").fill("0.4")
    routed.locator("#keep").tap()
    routed.get_by_text("2 not in the log yet").wait_for()

    def answer(route):
        if '"crack"' in route.request.post_data:
            route.fulfill(status=400, json={"error": "invalid-plan", "message": "prices.toml has 1 complaint"})
        else:
            route.continue_()

    routed.route("**/api/log", answer)
    house.start()
    comes_back(routed)
    routed.get_by_text("1 not in the log yet; the log cannot write just now").wait_for()
    assert texts(site) == ["needs none"]
    assert routed.locator(".written li.wrong").count() == 0
    routed.unroute("**/api/log")
    comes_back(routed)
    assert so_many(site, 2)


def test_what_is_removed_or_changed_while_a_picture_goes_up_is_not_sent_as_it_was(routed, site, house):
    house.stop()
    for text in ("goes up slowly", "to be removed", "to be changed"):
        photo(routed, text)
    held = []
    routed.route("**/api/photo", lambda route: route.continue_() if held else held.append(route))
    with routed.expect_request("**/api/photo"):
        house.start()
        comes_back(routed)
    routed.locator(".written li a", has_text="to be removed").tap()
    routed.get_by_role("button", name="Remove it").tap()
    routed.get_by_role("button", name="Sure? Tap again").tap()
    routed.locator(".written li a", has_text="to be changed").tap()
    routed.get_by_role("link", name="Change it").tap()
    routed.locator("#field-text").fill("changed")
    routed.locator("#keep").tap()
    routed.locator("#kind-note").wait_for()
    held[0].continue_()
    routed.locator("#reach", has_text="nothing waits here").wait_for()
    assert so_many(site, 2, still=0.5)
    assert sorted(entry.text("text") for entry in entries(site, kind="photo")) == ["changed", "goes up slowly"]
    assert routed.locator(".written li.clash").count() == 0


def test_what_is_removed_while_it_is_on_its_way_is_taken_back(routed, site, house):
    house.stop()
    note(routed, "on its way")
    routed.evaluate("location.hash = 'unsent'")
    routed.get_by_role("button", name="Remove it").tap()
    held = []
    routed.route("**/api/log", lambda route: route.continue_() if held else held.append(route))
    with routed.expect_request("**/api/log"):
        house.start()
        comes_back(routed)
    routed.get_by_role("button", name="Sure? Tap again").tap()
    routed.locator("#kind-note").wait_for()
    held[0].continue_()
    routed.locator("#reach", has_text="nothing waits here").wait_for()
    assert so_many(site, 2, still=0.3)
    assert entries(site, standing=True) == ()


@pytest.mark.parametrize("store", ["database", "small"])
def test_only_what_is_as_it_was_read_is_claimed_and_what_is_underway_is_spared(phone, store):
    found = phone.evaluate(
        """async (store) => {
        const version = document.getElementById("main").dataset.version;
        const { openOutbox } = await import(`/static/${version}/phone_outbox.js`);
        if (store === "small") Object.defineProperty(window, "indexedDB", { value: undefined });
        const outbox = await openOutbox();
        const item = (id, text) => ({ id, raw: { fields: { text } }, site: "elsewhere", state: "kept", photos: [], tried: false, kept: id, turn: "1" });
        const read = ["same", "gone", "turned", "reworded", "moved"].map((id) => item(id, "first"));
        for (const each of read) await outbox.put(each);
        await outbox.remove("gone");
        await outbox.put({ ...item("turned", "first"), turn: "2" });
        await outbox.put(item("reworded", "second"));
        await outbox.update("moved", (held) => ({ ...held, site: "here" }));
        const claimed = await outbox.claim(read);
        const tried = (await outbox.all()).filter((each) => each.tried).map((each) => each.id);
        const underway = (held) => held.tried;
        const written = [await outbox.put(item("same", "third"), {}, underway), await outbox.put(item("turned", "third"), {}, underway)];
        const gone = [await outbox.remove("same", underway), await outbox.remove("turned", underway), await outbox.remove("nothing", underway)];
        const left = (await outbox.get("same")).raw.fields.text;
        return [outbox.kind, claimed, tried, written, gone, left, await outbox.get("turned")];
    }""",
        store,
    )
    assert found == [store, ["same"], ["same"], [False, True], [False, True, True], "first", None]


def test_an_entry_stays_when_there_is_no_room_to_take_it_back(phone, site):
    note(phone, "to be taken back")
    assert so_many(site, 1)
    phone.locator(".written li.sent a").first.tap()
    phone.evaluate("""() => {
        window.plainPut = IDBObjectStore.prototype.put;
        IDBObjectStore.prototype.put = () => { throw new DOMException("full", "QuotaExceededError"); };
    }""")
    phone.get_by_role("button", name="Take it back").tap()
    phone.get_by_role("button", name="Sure? Tap again").tap()
    phone.get_by_role("heading", name="This entry is not kept").wait_for()
    phone.wait_for_timeout(300)
    assert phone.evaluate("location.hash") == "#unkept"
    phone.evaluate("() => { IDBObjectStore.prototype.put = window.plainPut; location.hash = ''; }")
    phone.locator(".written li.sent a", has_text="to be taken back").wait_for()
    phone.get_by_role("link", name="See to it").tap()
    phone.locator("#unkept-again").tap()
    assert so_many(site, 2)
    assert entries(site, standing=True) == ()


def stamped():
    from datetime import UTC, datetime

    return datetime.now(UTC).isoformat(timespec="milliseconds")


def test_a_paired_phone_goes_by_the_name_it_was_paired_under(new_tab, site):
    page = new_tab(**PHONE, service_workers="block")

    def paired(route):
        route.fulfill(json={**hello, "time": stamped(), "device": "Shed phone"})

    page.goto("/phone")
    hello = page.request.get("/api/phone/hello").json()
    page.route("**/api/phone/hello", paired)
    page.reload()
    page.get_by_text("the log is in reach").wait_for()
    page.reload()
    assert page.locator("#device").input_value() == "Shed phone"
    assert not page.locator("#device").is_editable()
    page.locator("#who").fill("Ana")
    page.locator("#names-keep").tap()
    note(page, "under that name")
    page.locator("#reach", has_text="nothing waits here").wait_for()
    assert so_many(site, 1)
    assert entries(site)[0].device == "Shed phone"


# ---- without a certificate: http by name, no service worker, no locks


@pytest.fixture
def plain_phone(browser, house):
    chromium = browser.browser_type.launch(
        executable_path=CHROMIUM, args=[*ARGUMENTS, f"--host-resolver-rules=MAP {NAME} 127.0.0.1"]
    )
    context = chromium.new_context(base_url=house.plain, **PHONE)
    context.set_default_timeout(8_000)
    yield context.new_page()
    chromium.close()


def test_over_plain_http_entries_are_kept_and_sent_and_the_page_opens_by_its_link(plain_phone, site, house):
    opened(plain_phone)
    assert not plain_phone.evaluate("isSecureContext")
    assert re.search(r"/phone/kept/[0-9a-f]+", plain_phone.url)
    assert "do not reload" in plain_phone.locator("#banners").inner_text()
    address = plain_phone.url.partition("#")[0]
    house.stop()
    note(plain_phone, "plain")
    plain_phone.get_by_text("1 not in the log yet").wait_for()
    again = plain_phone.context.new_page()
    again.goto(address)
    again.get_by_text("1 not in the log yet").wait_for()
    house.start()
    assert so_many(site, 1, still=0.3)
    plain_phone.locator("#reach", has_text="nothing waits here").wait_for(timeout=15_000)


def test_a_browser_without_a_database_keeps_entries_in_its_small_store(plain_phone, site, house):
    plain_phone.add_init_script("Object.defineProperty(window, 'indexedDB', { value: undefined })")
    opened(plain_phone)
    assert "little room" in plain_phone.locator("#banners").inner_text()
    address = plain_phone.url.partition("#")[0]
    house.stop()
    note(plain_phone, "small store")
    plain_phone.goto("about:blank")
    plain_phone.goto(address)
    plain_phone.get_by_text("1 not in the log yet").wait_for()
    assert any("item" in key for key in plain_phone.evaluate("Object.keys(localStorage)"))
    house.start()
    assert so_many(site, 1)


# ---- for wet gloves, low sun, old eyes, thin lines

SCREENS = ("", "write/batch/0", "write/crack", "write/coat", "write/photo", "write/purchase", "names", "unsent")
TOUCHED = "button, a[href], input:not([type=file]), select, textarea, summary, label.button, label.choice"


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_screen_is_open_to_all_and_wide_enough_for_gloves(new_tab, site, house, scheme):
    page = opened(new_tab(**PHONE, color_scheme=scheme))
    note(page, "something to show")
    page.locator("#reach", has_text="nothing waits here").wait_for()
    for screen in SCREENS:
        page.evaluate(f"location.hash = '{screen}'")
        page.wait_for_timeout(120)
        page.evaluate("document.querySelectorAll('main details').forEach((each) => { each.open = true; })")
        open_to_all(page)
        assert small(page) == [], screen


def small(page):
    """What is touched and less than 44 px high or wide."""
    return page.evaluate(
        """(which) => [...document.querySelectorAll(which)].filter((each) => {
        const box = each.getBoundingClientRect();
        const radio = each.matches("label.choice input, .skip, .unseen");
        return !radio && each.checkVisibility() && box.width > 0 && (box.height < 44 || box.width < 44);
    }).map((each) => `${each.outerHTML.slice(0, 90)} ${each.getBoundingClientRect().width}x${each.getBoundingClientRect().height}`)""",
        TOUCHED,
    )


@pytest.mark.parametrize("width", [320, 390])
def test_text_at_twice_its_size_wraps_and_stays_on_the_screen(new_tab, width):
    page = opened(new_tab(viewport={"width": width, "height": 700}, has_touch=True))
    enlarge(page)
    for screen in SCREENS:
        page.evaluate(f"location.hash = '{screen}'")
        page.wait_for_timeout(80)
        page.evaluate("document.querySelectorAll('main details').forEach((each) => { each.open = true; })")
        fits(page)
        cut = page.evaluate("""() => [...document.querySelectorAll("main button, main a.button, main label, main h1, main h2")]
            .filter((each) => each.checkVisibility() && !each.matches(".unseen") && each.scrollWidth > each.clientWidth + 1).map((each) => each.outerHTML.slice(0, 90))""")
        assert cut == [], screen


def test_the_first_load_is_light_and_asks_nobody_else(new_tab):
    page = new_tab(**PHONE)
    loaded = []
    page.on("response", lambda answer: loaded.append((answer.url, answer)))
    page.goto("/phone")
    page.locator("#who").wait_for()
    page.wait_for_load_state("networkidle")
    sizes = {url: len(answer.body()) for url, answer in loaded if answer.status == 200}
    assert sum(sizes.values()) <= 150_000, sizes


def test_without_scripts_the_page_leads_to_the_log(new_tab):
    page = new_tab(java_script_enabled=False)
    page.goto("/phone")
    page.get_by_role("link", name="the log").click()
    assert page.get_by_role("heading", name="The log").is_visible()
