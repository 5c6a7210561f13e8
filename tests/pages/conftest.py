"""What tests of the pages share: a site, a server on a free port, one browser, a tab that lets nothing pass unseen."""

from __future__ import annotations

import threading
from contextlib import ExitStack, contextmanager

import pytest

from houses import ARGUMENTS, CHROMIUM, entries
from pinfold.store import starting


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
    """A site folder made from the sample, for one test to write into."""
    folder = tmp_path / sample
    starting.from_sample(folder, sample)
    return folder


@pytest.fixture
def served(request, sample):
    """Address of a server without a slash at its end: on the site, or on one for all where a test `reads` only."""
    if request.node.get_closest_marker("reads"):
        yield from _only_read(*request.getfixturevalue("shelf")(sample))
        return
    with serving(request.getfixturevalue("site")) as running:
        yield running.url.rstrip("/")


@pytest.fixture(scope="session")
def shelf(tmp_path_factory):
    """By the name of a sample the folder and address of a server for all tests that only read it, so that what is worked
    out for one is there for the next."""
    with ExitStack() as servers:
        found = {}

        def standing(sample):
            if sample not in found:
                folder = tmp_path_factory.mktemp("shelf") / sample
                starting.from_sample(folder, sample)
                found[sample] = folder, servers.enter_context(serving(folder)).url.rstrip("/")
            return found[sample]

        yield standing


def _only_read(folder, url):
    """The address; nothing in the folder is another afterwards."""
    before = _kept_in(folder)
    yield url
    assert _kept_in(folder) == before, "a test that only reads has written"


def _kept_in(folder):
    files = {
        path: path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and not path.name.startswith("log.sqlite")
    }
    return files, len(entries(folder)) if (folder / "log.sqlite").exists() else 0


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
