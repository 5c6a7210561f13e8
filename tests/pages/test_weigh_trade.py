"""The trade-off, what if, what a plan hangs on, and choosing, in a real browser."""

from __future__ import annotations

import pytest

from looks import READERS, fits, open_to_all


@pytest.mark.parametrize("sample", ["seed-garden"])
def test_from_limits_over_the_picture_to_a_choice_written_and_undone(tab, site):
    before = (site / "plan.toml").read_bytes()
    tab.goto("/weigh")
    tab.locator("main").get_by_role("link", name="What for what").click()
    tab.wait_for_load_state()
    assert tab.locator("figure.trade svg").get_attribute("role") == "img"
    open_to_all(tab)
    tab.locator("#limits").fill("cash under 9000, tools at most 20")
    tab.get_by_role("button", name="Show it").click()
    tab.wait_for_load_state()
    assert "at most USD" in tab.locator("main").inner_text().replace("\u00a0", " ")
    assert tab.locator("figure.trade .missing").count() > 0
    assert tab.locator("figure.trade .limit").count() == 1

    tab.locator("main").get_by_role("link", name="Choose one of them").click()
    tab.wait_for_load_state()
    tab.locator("#name").select_option("mesh-on-driven-posts")
    tab.get_by_role("button", name="Look at it first").click()
    tab.wait_for_load_state()
    assert "Beside the plan as it stands" in tab.locator("main").inner_text()
    assert (site / "plan.toml").read_bytes() == before
    open_to_all(tab)
    tab.get_by_role("button", name="Write it into the plan").click()
    tab.wait_for_load_state()
    assert '"mesh-on-driven-posts" # before: block and mesh' in (site / "plan.toml").read_text(encoding="utf-8")

    tab.goto("/weigh/plans")
    tab.get_by_role("button", name="Compare").click()
    tab.wait_for_load_state()
    assert "the other" in tab.locator("main table").first.inner_text()
    open_to_all(tab)

    tab.goto("/weigh/choose")
    tab.get_by_role("button", name="Bring it back").click()
    tab.wait_for_load_state()
    assert (site / "plan.toml").read_bytes() == before


@pytest.mark.reads
@pytest.mark.parametrize("sample", ["quinta"])
def test_what_is_supposed_is_shown_before_and_after(tab):
    tab.goto("/weigh/what-if")
    open_to_all(tab)
    tab.locator("#change-1").fill("cement +20 %")
    tab.locator("#change-2").fill("a helper less")
    tab.get_by_role("button", name="What then?").click()
    tab.wait_for_load_state()
    assert tab.locator("main h2").all_text_contents() == ["cement +20 %", "a helper less", "all together"]
    open_to_all(tab)


@pytest.mark.reads
def test_what_cannot_be_supposed_or_limited_is_told_in_full(tab):
    tab.watch.expected.append("400")
    tab.goto("/weigh/what-if?change=gold+%2B3+%25&change=nobody")
    assert tab.locator("#wrong li").count() == 2
    tab.goto("/weigh/trade-off?limits=gold+under+3,+wombats+out&across=cash_now&up=hours")
    assert tab.locator("#wrong li").count() == 2
    assert tab.locator("figure.trade").count() == 1


@pytest.mark.reads
def test_what_the_plan_hangs_on_comes_while_the_page_says_so(tab):
    tab.goto("/weigh/drivers")
    tab.locator("section h2", has_text="to spare").wait_for(timeout=120_000)
    assert tab.locator("main table").count() >= 3
    open_to_all(tab)
    tab.locator("select[name=of]").select_option("mesh-on-driven-posts")
    tab.get_by_role("button", name="Show").click()
    tab.locator("h1", has_text="mesh-on-driven-posts: what it hangs on").wait_for()
    tab.locator("section h2", has_text="to spare").wait_for(timeout=120_000)
    fits(tab)


@pytest.mark.parametrize(
    "path", ["/weigh/trade-off", "/weigh/what-if?change=wind+%2B5+%25", "/weigh/choose?name=adobe"]
)
@READERS
@pytest.mark.reads
def test_no_page_of_trading_off_is_wider_than_its_screen(browser, served, settings, path):
    context = browser.new_context(base_url=served, **settings)
    page = context.new_page()
    page.goto(path)
    assert page.locator("main form").count() > 0
    if settings.get("java_script_enabled", True):
        fits(page)
    context.close()
