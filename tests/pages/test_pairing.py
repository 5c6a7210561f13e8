"""Pairing in a browser: the owner's page and a phone's, over TLS and in the clear."""

from __future__ import annotations

import base64
import hashlib
import threading
from contextlib import contextmanager
from datetime import UTC, datetime
from ipaddress import IPv4Address

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

from houses import ARGUMENTS, CHROMIUM
from looks import fits, open_to_all
from pinfold.actions import home as kept
from pinfold.store import starting
from pinfold.web import home_ca, home_server
from pinfold.web.listening import Asked, listen
from unit.test_listening import free_port

HOME = IPv4Address("127.0.0.2")
"""Stands for this machine's address in a home network."""


@contextmanager
def serving(asked):
    found, ready = [], threading.Event()
    thread = threading.Thread(
        target=listen, args=(asked, lambda line: None, lambda it: (found.append(it), ready.set()))
    )
    thread.start()
    assert ready.wait(20)
    try:
        yield found[0], int(found[0].url.rsplit(":", 1)[1].strip("/"))
    finally:
        found[0].stop()
        thread.join(15)


@pytest.fixture
def plot(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "settings"))
    folder = tmp_path / "plot"
    starting.from_sample(folder, "seed-garden")
    return folder


@pytest.fixture
def certified(plot):
    """A home certificate, and the mark by which the browser is told to take the server's as trusted."""
    machine = home_server.machine_name()
    made = home_ca.make_ca(HOME, machine, datetime.now(UTC))
    kept.keep("ca.key", made.key)
    kept.keep("ca.pem", made.certificate)
    files = home_server.leaf_files(HOME, machine)
    key = x509.load_pem_x509_certificate(files[0].read_bytes()).public_key()
    spki = key.public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
    return base64.b64encode(hashlib.sha256(spki).digest()).decode()


@contextmanager
def chromium(engine, *more):
    names = f"--host-resolver-rules=MAP {home_server.machine_name()}.local {HOME}"
    browser = engine.chromium.launch(executable_path=CHROMIUM, args=[*ARGUMENTS, names, *more])
    yield browser
    browser.close()


def tab_of(browser, complaints, **settings):
    context = browser.new_context(**settings)
    context.set_default_timeout(10_000)
    tab = context.new_page()
    tab.on("console", lambda message: complaints.append(message.text) if message.type == "error" else None)
    tab.on("pageerror", lambda error: complaints.append(str(error)))
    return tab


def make_code(laptop, port):
    laptop.goto(f"http://127.0.0.1:{port}/pairing")
    laptop.locator("main button.primary").click()
    return laptop.locator("#code").inner_text()


def pair(phone, base, code, name):
    phone.goto(f"{base}/pair#{code.replace('-', '')}")
    assert phone.locator("#code").input_value() == code
    assert phone.evaluate("location.hash") == ""
    phone.locator("#name").fill(name)
    phone.locator("button").click()
    phone.wait_for_url("**/phone**")


def status_of(tab, path):
    return tab.evaluate("path => fetch(path, {cache: 'no-store'}).then(answer => answer.status)", path)


def test_a_phone_pairs_over_tls_keeps_its_page_and_is_let_go(plot, certified, engine):
    complaints = []
    asked = Asked(folder=plot, port=free_port(), home=True, address=HOME)
    with serving(asked) as (_, port), chromium(engine, f"--ignore-certificate-errors-spki-list={certified}") as browser:
        base = f"https://{home_server.machine_name()}.local:{port}"
        laptop, phone = tab_of(browser, complaints), tab_of(browser, complaints, viewport={"width": 390, "height": 800})
        pair(phone, base, make_code(laptop, port), "Ada's phone")
        assert phone.evaluate("isSecureContext")
        assert phone.evaluate("navigator.serviceWorker.ready.then(it => it.active !== null)")
        assert phone.evaluate("document.cookie") == ""
        cookies = phone.context.cookies()
        assert [(each["name"], each["secure"], each["httpOnly"], each["sameSite"]) for each in cookies] == [
            ("__Host-pinfold", True, True, "Strict")
        ]
        assert status_of(phone, "/api/phone/hello") == 200
        assert status_of(phone, "/pairing") == 403
        laptop.reload()
        row = laptop.locator("tr", has_text="Ada's phone")
        assert row.count() == 1
        row.locator("button").click()
        laptop.locator("text=No phone is paired").wait_for()
        assert status_of(phone, "/api/phone/hello") == 403
        assert status_of(phone, "/stand") == 403
        assert status_of(laptop, "/stand") == 200
    assert [each for each in complaints if "403" not in each] == []


def test_a_browser_does_not_take_the_certificate_on_its_word(plot, certified, engine):
    asked = Asked(folder=plot, port=free_port(), home=True, address=HOME)
    with serving(asked) as (_, port), chromium(engine) as browser:
        tab = tab_of(browser, [])
        with pytest.raises(Exception, match="ERR_CERT"):
            tab.goto(f"https://{home_server.machine_name()}.local:{port}/pair")


def test_a_phone_pairs_in_the_clear_and_wrong_codes_are_stopped(plot, engine):
    complaints = []
    asked = Asked(folder=plot, port=free_port(), home=True, address=HOME)
    with serving(asked) as (_, port), chromium(engine) as browser:
        base = f"http://{home_server.machine_name()}.local:{port}"
        laptop, phone = tab_of(browser, complaints), tab_of(browser, complaints)
        code = make_code(laptop, port)
        pair(phone, base, code, "Shed tablet")
        stranger = tab_of(browser, [])
        stranger.goto(f"{base}/stand")
        assert "not paired" in stranger.locator("body").inner_text()
        assert "garden" not in stranger.content().lower()
        for number in range(6):
            stranger.goto(f"{base}/pair")
            stranger.locator("#code").fill(code if number == 0 else "WRONG234")
            stranger.locator("#name").fill("Stranger")
            with stranger.expect_response("**/pair") as answered:
                stranger.locator("button").click()
            assert answered.value.status == (429 if number == 5 else 400)
        assert "Wait a minute" in stranger.locator("[role=alert]").inner_text()
        laptop.goto(f"http://127.0.0.1:{port}/pairing")
        assert "Five wrong codes" in laptop.locator("main").inner_text()
        assert laptop.locator("tbody tr").count() == 1
    assert complaints == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_pages_of_pairing_keep_nobody_out(plot, certified, scheme, engine):
    complaints = []
    asked = Asked(folder=plot, port=free_port(), home=True, address=HOME)
    with serving(asked) as (running, port), chromium(engine) as browser:
        tab = tab_of(browser, complaints, color_scheme=scheme, viewport={"width": 390, "height": 800})
        make_code(tab, port)
        open_to_all(tab)
        for path in ("/pairing/home", "/pair", "/pair/trust"):
            tab.goto(f"http://127.0.0.1:{port}{path}")
            open_to_all(tab)
            fits(tab)
        for button in tab.locator("button").all():
            assert button.bounding_box()["height"] >= 44
        tab.goto(f"http://{HOME}:{port + 1}/pair/trust")
        open_to_all(tab)
        assert running.desk.codes.current()[0]
    assert complaints == []
