"""Journeys through the pages of the verbs, in a real browser: by keyboard, on a phone, enlarged, after dark, on paper."""

from __future__ import annotations

import csv
import io
import re
from zipfile import ZipFile

import pytest

from looks import enlarge, fits, open_to_all
from pinfold.cli import main
from pinfold.store import starting

PAGES = (
    "/", "/plan", "/plan/drawing/gate-cart-gate", "/plan/file", "/stand", "/stand/storms", "/stand/mends",
    "/mix", "/gather", "/cut", "/reckon", "/formula", "/formula/wind.velocity_pressure", "/binder", "/exports",
)  # fmt: skip
LISTED = ("plan", "stand", "reckon", "gather", "cut", "mix", "formula", "binder", "files", "today")


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    folder = tmp_path_factory.mktemp("verbs") / "seed-garden"
    starting.from_sample(folder, "seed-garden")
    return folder


@pytest.fixture(scope="module")
def served(site, serve):
    with serve(site) as running:
        yield running.url.rstrip("/")


@pytest.fixture
def metric(tmp_path_factory, serve):
    folder = tmp_path_factory.mktemp("verbs") / "quinta"
    starting.from_sample(folder, "quinta")
    with serve(folder) as running:
        yield running.url.rstrip("/")


def _open_first(tab):
    """Opens the first check that was asked of several things, and the first finding in it."""
    tab.locator("details.alike > summary").first.click()
    tab.locator("details.alike[open] > details.finding > summary").first.click()


def test_every_page_is_reached_from_the_way_about_by_keyboard_alone(tab):
    tab.goto("/")
    listed = tab.locator("nav.about a").all_inner_texts()
    assert set(LISTED) <= set(listed)
    for verb in LISTED:
        for _ in range(3 + listed.index(verb)):  # past the skip link and the plot's name
            tab.keyboard.press("Tab")
        assert tab.evaluate("document.activeElement.innerText") == verb
        assert tab.evaluate("getComputedStyle(document.activeElement).outlineStyle") == "solid", verb
        tab.keyboard.press("Enter")
        tab.locator("nav.about [aria-current]", has_text=re.compile(f"^{verb}$")).wait_for()
        assert tab.locator("h1").count() == 1


def test_the_skip_link_leads_past_the_way_about(tab):
    tab.goto("/stand")
    tab.keyboard.press("Tab")
    tab.keyboard.press("Enter")
    tab.keyboard.press("Tab")
    assert tab.evaluate("document.activeElement.closest('main') !== null")


def test_a_finding_opens_to_its_working_by_keyboard(tab):
    tab.goto("/stand")
    alike = tab.locator("details.alike:has(.use:not(:empty))").first
    alike.locator("summary").first.focus()
    tab.keyboard.press("Enter")
    finding = alike.locator("details.finding").first
    finding.locator("summary").focus()
    tab.keyboard.press("Enter")
    gives = finding.locator(".working .gives")
    gives.first.wait_for()
    assert finding.locator(".equation").count() > 0
    assert re.search(
        r"\((read|derived|from memory|common practice|given)", finding.locator(".source").first.inner_text()
    )


def test_the_first_page_leads_to_the_finding_it_names(tab):
    tab.goto("/")
    link = tab.locator("ul.points a").first
    name = link.get_attribute("href").partition("#")[2]
    link.click()
    tab.locator(f"#{name}[open]").wait_for()
    tab.locator(f"#{name} summary:focus").wait_for()


def test_working_is_there_without_script_too(new_tab):
    tab = new_tab(java_script_enabled=False)
    tab.goto("/stand")
    _open_first(tab)
    tab.locator("details[open] a.more").first.click()
    assert "/stand/working/" in tab.url
    assert tab.locator("h1").count() == 1
    assert tab.locator("#sources").count() == 1


def test_ticks_survive_a_reload_and_go_when_told(tab):
    tab.goto("/gather")
    box = tab.get_by_role("checkbox", name=re.compile("portland cement"))
    box.check()
    tab.reload()
    assert box.is_checked()
    assert tab.locator("tr.ticked").count() == 1
    tab.get_by_role("button", name="take all ticks away").click()
    tab.reload()
    assert not box.is_checked()


def test_ticks_of_one_list_are_not_those_of_another(tab):
    tab.goto("/cut")
    tab.locator("input[data-tick]").first.check()
    tab.goto("/gather")
    assert tab.locator("input[data-tick]:checked").count() == 0
    tab.goto("/cut")
    assert tab.locator("input[data-tick]:checked").count() == 1


def _saved(tab, link):
    with tab.expect_download() as waiting:
        link.click()
    return waiting.value


def test_the_shopping_list_is_what_the_command_line_writes(tab, site, tmp_path, capsys):
    tab.goto("/gather")
    saved = _saved(tab, tab.get_by_role("link", name="the list for the shop, as CSV"))
    main(["gather", "--site", str(site), "--csv", str(tmp_path / "list.csv")])
    capsys.readouterr()
    assert saved.suggested_filename == "gather.csv"
    assert saved.path().read_bytes() == (tmp_path / "list.csv").read_bytes()
    assert len(list(csv.reader(io.StringIO(saved.path().read_text())))) > 10


def test_the_binder_is_what_the_command_line_prints_and_leaves_no_file(tab, site, tmp_path, capsys):
    before = sorted(path.name for path in site.iterdir())
    tab.set_default_timeout(90_000)  # a whole binder, with nothing remembered
    tab.goto("/binder")
    saved = _saved(tab, tab.get_by_role("link", name="make the binder"))
    main(["binder", "--site", str(site), "--out", str(tmp_path / "b.pdf")])
    capsys.readouterr()
    assert saved.path().read_bytes() == (tmp_path / "b.pdf").read_bytes()
    assert sorted(path.name for path in site.iterdir()) == before


def test_drawings_can_be_picked_and_taken_away(tab):
    tab.goto("/plan")
    tab.get_by_role("link", name="cart gate", exact=True).first.click()
    assert "cart gate" in tab.locator(".drawing svg title").text_content()
    archive = ZipFile(_saved(tab, tab.get_by_role("link", name="all drawings, zipped")).path())
    names = set(archive.namelist())
    assert {"plan.svg", "plan.dxf", "gate-cart-gate.svg"} <= names
    assert archive.read("plan.svg").startswith(b"<svg")


def test_drawings_are_lettered_in_the_face_they_were_measured_in(tab):
    tab.goto("/plan")
    tab.evaluate("document.fonts.ready.then(() => true)")
    assert tab.evaluate("document.fonts.check('12px \"Atkinson Hyperlegible Next\"')")
    assert tab.evaluate("[...document.fonts].filter(face => face.status === 'loaded').length") >= 1


def test_a_formula_works_out_figures_in_either_units_and_says_what_is_wrong(tab):
    tab.watch.expected.append("400")
    tab.goto("/formula")
    tab.get_by_label("A word to look for").fill("gust brought to rest")
    tab.keyboard.press("Enter")
    tab.get_by_role("link", name="velocity pressure", exact=True).click()
    tab.get_by_label("speed").fill("115 mph")
    tab.get_by_label("air density").fill("1.226 kg/m3")
    for name in ("exposure coefficient", "topographic factor", "elevation factor"):
        tab.get_by_label(name).fill("1")
    tab.get_by_label("elevation factor").fill("one")
    tab.get_by_role("button", name="work it out").click()
    assert tab.get_by_label("elevation factor").get_attribute("aria-invalid") == "true"
    assert tab.get_by_label("speed").input_value() == "115 mph"
    tab.get_by_label("elevation factor").fill("1")
    tab.get_by_role("button", name="work it out").click()
    gives = tab.locator(".gives").inner_text()
    assert "33.8 psf" in gives or "33.9 psf" in gives  # 0.00256 × 115² = 33.86
    assert "kPa" in gives or "Pa" in gives


def test_another_size_of_batch_is_worked_out_and_a_wrong_one_is_told(tab):
    tab.watch.expected.append("400")
    tab.goto("/mix/card")
    before = tab.locator(".card").first.inner_text()
    tab.get_by_label("Another size of batch").fill("20 L")
    tab.keyboard.press("Enter")
    tab.wait_for_url("**batch=*")
    assert tab.locator(".card").first.inner_text() != before
    tab.get_by_label("Another size of batch").fill("20")
    tab.keyboard.press("Enter")
    tab.locator("#wrong").wait_for()
    assert tab.locator(".card").first.inner_text() == before


def test_one_card_can_be_printed_alone(tab):
    tab.goto("/mix?temperature=hot")
    listed = tab.get_by_role("region", name="card").get_by_role("link")
    assert listed.count() > 1
    listed.nth(1).click()
    assert tab.locator(".card").count() == 1
    assert tab.get_by_label("Air").input_value() == "hot"
    tab.emulate_media(media="print")
    assert not tab.locator("nav.about").is_visible()
    assert not tab.locator("form").first.is_visible()
    assert tab.locator(".card").is_visible()


def test_on_paper_findings_are_open_and_the_way_about_is_gone(tab):
    tab.goto("/stand")
    tab.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    tab.emulate_media(media="print")
    assert tab.locator("details:not([open])").count() == 0
    assert not tab.locator("nav.about").is_visible()
    assert tab.evaluate("getComputedStyle(document.querySelector('main')).backgroundColor") == "rgb(255, 255, 255)"


@pytest.mark.parametrize(("width", "height"), [(640, 450), (390, 844), (320, 640)], ids=["200 %", "phone", "400 %"])
def test_no_page_is_wider_than_the_window(new_tab, width, height):
    tab = new_tab(viewport={"width": width, "height": height})
    for page in PAGES:
        tab.goto(page)
        fits(tab)


@pytest.mark.parametrize("letters", ["", "212.5%"], ids=["as they are", "twice as large"])
def test_the_way_about_folds_on_a_small_screen_and_leaves_it_to_the_answer(new_tab, letters):
    tab = new_tab(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    tab.goto("/stand")
    enlarge(tab, letters)
    assert not tab.locator("nav.about").is_visible()
    assert tab.locator("main").bounding_box()["y"] < 844 / 3
    tab.get_by_role("button", name="pages").tap()
    assert tab.locator("nav.about a").count() >= len(LISTED)
    tab.keyboard.press("Escape")
    assert not tab.locator("nav.about").is_visible()
    tab.get_by_role("button", name="pages").tap()
    tab.locator("nav.about").get_by_role("link", name="gather", exact=True).tap()
    tab.get_by_role("heading", name="what to gather").wait_for()


def test_letters_twice_as_large_lose_nothing(tab):
    tab.goto("/gather")
    for page in PAGES:
        tab.goto(page)
        enlarge(tab)
        fits(tab)
        clipped = tab.evaluate(
            """[...document.querySelectorAll('main p, main li, h1, h2, nav a, button, .button, summary')].filter(
                 each => each.scrollWidth > each.clientWidth + 2 && getComputedStyle(each).overflow === 'hidden'
                         && !each.closest('.unseen') && !each.matches('.unseen')).length"""
        )
        assert clipped == 0, page


def test_what_is_touched_on_a_phone_is_large_enough(new_tab):
    tab = new_tab(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    for page in PAGES:
        tab.goto(page)
        small = tab.evaluate(
            """[...document.querySelectorAll('nav a, button, .button, summary, select, input:not([type=checkbox]), td.tick label')]
                 .filter(each => each.checkVisibility())
                 .map(each => [each.innerText.slice(0, 30), each.getBoundingClientRect()])
                 .filter(([text, box]) => box.height < 43.5 || box.width < 43.5)
                 .map(([text, box]) => `${text} ${box.width} ${box.height}`)"""
        )
        assert small == [], page


@pytest.mark.parametrize(("scheme", "rules"), [("light", None), ("dark", ["color-contrast"])])
def test_nothing_on_any_page_keeps_people_out(new_tab, scheme, rules):
    tab = new_tab(color_scheme=scheme)
    for page in PAGES:
        tab.goto(page)
        if page == "/stand":
            _open_first(tab)
            tab.locator("details[open] .working, details[open] .put").first.wait_for()
        open_to_all(tab, rules)


def test_the_metric_sample_speaks_metric_and_keeps_nobody_out(browser, metric):
    context = browser.new_context(base_url=metric, color_scheme="dark", viewport={"width": 390, "height": 844})
    tab = context.new_page()
    for page in ("/", "/plan", "/stand", "/stand/storms", "/mix", "/gather", "/cut", "/reckon"):
        tab.goto(page)
        assert "in metric units" in tab.locator(".plot").inner_text()
        fits(tab)
        said = tab.locator("main").inner_text().partition("\nSources\n")[0]  # titles speak their own units
        assert not re.search(r"\d (ft|lb|psf|gal)\b", said), page
    open_to_all(tab)
    context.close()


@pytest.fixture
def broken(tmp_path, serve):
    folder = tmp_path / "broken"
    starting.from_sample(folder, "seed-garden")
    text = (folder / "plan.toml").read_text()
    (folder / "plan.toml").write_text(text.replace('units = "us"', 'units = "furlongs"') + "\n[strange]\nthing = 1\n")
    with serve(folder) as running:
        yield running.url.rstrip("/")


def test_a_broken_plan_is_told_on_every_page_with_the_way_to_mend_it(browser, broken):
    context = browser.new_context(base_url=broken)
    tab = context.new_page()
    for page in ("/", "/plan", "/stand", "/mix", "/gather", "/cut", "/reckon", "/binder", "/gather.csv"):
        answer = tab.goto(page)
        assert answer.status == 400, page
        told = tab.locator("ul.told").inner_text()
        assert "furlongs" in told, page
        assert "strange" in told, page
        assert tab.get_by_role("link", name="change the plan").get_attribute("href") == "/plan/edit"
    open_to_all(tab)
    for page in ("/plan/file", "/formula", "/exports"):
        assert tab.goto(page).status == 200, page
    context.close()
