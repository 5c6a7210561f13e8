"""Batch cards in a real browser: the code of a card opens its batch in the log, and the card counts it."""

from __future__ import annotations

import cv2
import numpy as np
import pytest

from looks import fits, open_to_all

PHONE = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True}
AWAY = ["Failed to load resource", "ERR_", "net::"]
CARD = "/mix/card/south/1a%20mortar"


def scanned(page):
    """What a camera reads of the card's code on the screen."""
    shot = cv2.imdecode(np.frombuffer(page.locator(".code svg").screenshot(), np.uint8), cv2.IMREAD_GRAYSCALE)
    large = cv2.resize(shot, None, fx=3, fy=3, interpolation=cv2.INTER_CUBIC)
    texts = {*cv2.QRCodeDetectorAruco().detectAndDecodeMulti(large)[1], cv2.QRCodeDetector().detectAndDecode(large)[0]}
    return next(text for text in texts if text)


def test_a_scanned_card_opens_its_batch_on_the_phone_is_kept_and_counted(tab, new_tab, served):
    tab.goto(CARD)
    assert "By the log" not in tab.locator("main").inner_text()
    address = scanned(tab)
    assert address.startswith(f"{served}/phone#fill/batch?")

    phone = new_tab(**PHONE)
    phone.watch.expected += AWAY
    phone.goto(address)
    phone.locator("#who").fill("Ana")
    phone.locator("#names-keep").tap()  # on to what was scanned
    phone.locator("#keep").wait_for()
    filled = phone.evaluate("[...document.querySelectorAll('main input, main select')].map((each) => each.value)")
    assert {"south/1a", "mortar-S", "mortar"} <= set(filled)
    assert "building sand" in phone.locator("main").inner_text()
    phone.locator("#keep").tap()
    phone.get_by_text("Written here today").wait_for()
    phone.locator("li.sent").wait_for()

    tab.reload()
    assert "By the log 1 of 3 mixed, 2 to go." in tab.locator("main").inner_text()


def test_the_card_opens_the_log_on_this_machine_without_script(browser, served):
    context = browser.new_context(base_url=served, java_script_enabled=False)
    page = context.new_page()
    page.goto(CARD)
    page.get_by_role("link", name="Open it here").click()

    assert page.locator("[name='f.mix']").input_value() == "mortar-S"
    assert page.locator("[name='f.place']").input_value() == "south/1a"
    assert page.locator("[name='f.amounts.0.item']").input_value() == "portland-cement"
    assert page.locator("[name='f.amounts.0.unit']").input_value() == "bag"
    page.get_by_role("button", name="Write it down").click()
    page.goto(CARD)
    assert "By the log 1 of 3 mixed" in page.locator("main").inner_text()
    assert (page.locator(".boxes .box").count(), page.locator(".boxes .box.done").count()) == (3, 1)
    context.close()


@pytest.mark.reads
def test_an_address_that_brings_nonsense_is_told_and_nothing_is_written(tab):
    tab.watch.expected += AWAY
    answer = tab.goto("/log/new/batch?mix=mortar-S&batches=9000&shoes=red&with=sand:loads")

    assert answer.status == 400
    told = tab.locator(".told").inner_text()
    assert "Nothing was written yet" in told
    assert "shoes" in told
    assert tab.locator("[name='f.mix']").input_value() == "mortar-S"


@pytest.mark.reads
@pytest.mark.parametrize(
    "settings",
    [{}, PHONE, {"color_scheme": "dark"}, {"viewport": {"width": 640, "height": 900}, "device_scale_factor": 2}],
    ids=["desk", "phone", "dark", "enlarged"],
)
@pytest.mark.parametrize("sample", ["seed-garden", "quinta"])
def test_cards_are_as_wide_as_the_screen_and_their_code_is_read(new_tab, settings):
    page = new_tab(**settings)
    page.goto("/mix/card/mortar?temperature=hot")

    fits(page)
    assert page.locator("article.card").count() == 1
    assert "/phone#fill/batch?mix=mortar-" in scanned(page)
    page.goto("/mix")
    fits(page)
    listed = page.get_by_role("region", name="card").get_by_role("link").count()
    page.get_by_role("link", name="All cards in full").click()
    fits(page)
    assert page.locator("article.card").count() == listed > 1


@pytest.mark.reads
def test_a_warmth_that_is_none_is_told_beside_the_plans_own_cards(tab):
    tab.watch.expected += AWAY
    answer = tab.goto("/mix/card/mortar?temperature=tepid")

    assert answer.status == 400
    assert "cold, cool, mild, warm, hot" in tab.locator("#wrong").inner_text()
    assert tab.locator("article.card").count() == 1


@pytest.mark.reads
def test_a_card_is_good_for_all(new_tab):
    page = new_tab()
    page.goto(CARD)
    open_to_all(page)
