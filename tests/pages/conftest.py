"""What tests of the pages share: a site, a server on a free port, one browser, a tab that lets nothing pass unseen."""

from __future__ import annotations

import shutil
import threading
from contextlib import contextmanager

import pytest

from pinfold.store import starting

CHROMIUM = shutil.which("chromium") or "/usr/bin/chromium"
ARGUMENTS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip


ALIKE = (
    ".drawing svg g", "details:is(.finding, .alike):nth-of-type(n+12)", "tbody tr:nth-child(n+6)", "ul.rows li:nth-child(n+4)",
)  # fmt: skip
"""What is not looked at again and again: the insides of drawings, and rows like those before them."""


@contextmanager
def serving(folder):
    """A server on a folder; gives what is `Running`."""
    from pinfold.web.listening import Asked, listen

    found, ready = [], threading.Event()

    def started(running):
        found.append(running)
        ready.set()

    thread = threading.Thread(
        target=listen, args=(Asked(folder=folder, port=0), lambda line: None, started), daemon=True
    )
    thread.start()
    assert ready.wait(20), "the server did not start"
    yield found[0]
    found[0].stop()
    thread.join(10)


@pytest.fixture(scope="session")
def serve():
    """`serving`, for fixtures that need a server of another scope or folder."""
    return serving


@pytest.fixture
def sample():
    """Name of the sample a site is made from; parametrize to change it."""
    return "seed-garden"


@pytest.fixture
def site(sample, tmp_path):
    """A site folder made from the sample."""
    folder = tmp_path / sample
    starting.from_sample(folder, sample)
    return folder


@pytest.fixture
def served(site):
    """Address of a server on the site, without a slash at its end."""
    with serving(site) as running:
        yield running.url.rstrip("/")


@pytest.fixture(scope="session")
def engine():
    """What drives browsers; one of it is all that runs in a process."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        yield driver


@pytest.fixture(scope="session")
def browser(engine):
    """One Chromium for all tests."""
    chromium = engine.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
    yield chromium
    chromium.close()


class Watch:
    """What a tab did that it should not have."""

    def __init__(self, own):
        self.own, self.complaints, self.expected = own, [], []

    def over(self, page):
        """Listen to a page."""
        page.on("console", lambda message: self._console(message))
        page.on("pageerror", lambda error: self.complaints.append(f"script: {error}"))
        page.on("request", lambda request: self._request(request.url))

    def _console(self, message):
        if message.type == "error" and not any(each in message.text for each in self.expected):
            self.complaints.append(f"console: {message.text}")

    def _request(self, url):
        if not url.startswith((self.own, "data:", "blob:", "about:")):
            self.complaints.append(f"asked elsewhere: {url}")


@pytest.fixture
def new_tab(browser, served):
    """Makes watched tabs with settings of their own, such as `color_scheme` or `viewport`."""
    watch, contexts = Watch(served), []

    def made(**settings):
        context = browser.new_context(base_url=served, accept_downloads=True, **settings)
        context.set_default_timeout(20_000)
        contexts.append(context)
        page = context.new_page()
        page.watch = watch
        watch.over(page)
        return page

    yield made
    for context in contexts:
        context.close()
    assert watch.complaints == []


@pytest.fixture
def tab(new_tab):
    """One watched tab."""
    return new_tab()


@pytest.fixture
def axe():
    """Looks at a tab for what keeps people out; contrast that could not be settled counts too. The insides of drawings
    are left out, whose inks are proved by themselves, and long rows of things alike. `only` names the rules that are looked at."""
    from axe_playwright_python.sync_playwright import Axe

    def look(page, only=None):
        options = {"runOnly": {"type": "rule", "values": only}} if only else None
        found = Axe().run(page, context={"exclude": [[each] for each in ALIKE]}, options=options).response
        wrong = found["violations"] + [each for each in found["incomplete"] if each["id"] == "color-contrast"]
        return [f"{each['id']}: {node['html'][:120]} {node.get('failureSummary', '')[:200]}"
                for each in wrong for node in each["nodes"]]  # fmt: skip

    return look
