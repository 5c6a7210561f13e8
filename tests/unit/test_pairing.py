"""Pairing: codes that are good once and not long, devices that are known again, and nothing shown to others."""

from __future__ import annotations

import asyncio
import json
import re
import stat
import threading

import pytest

from asking import HANDING, HERE, LOOPBACK, NEIGHBOR, OWN, PHONE, app_on, ask, scope_of
from pinfold.actions import home, pairing
from pinfold.actions.pairing import LONGEST_NAME, device_name
from pinfold.errors import InputError, NotFoundError, StoreError
from pinfold.store.pairings import MOST_DEVICES, NAME, read_pairings
from pinfold.web.guard import OPEN, OPEN_STATIC, token_of
from pinfold.web.pages import PAGES
from pinfold.web.pairing import CODE_LENGTH, CODE_SECONDS, LETTERS, WRONG_SECONDS, WRONG_TRIES, Codes

FORM = (b"content-type", b"application/x-www-form-urlencoded")


class Clock:
    def __init__(self):
        self.now = 1000.0

    def __call__(self):
        return self.now


def test_a_code_is_good_once():
    codes = Codes()
    code = codes.make()
    assert len(code) == CODE_LENGTH
    assert set(code) <= set(LETTERS)
    assert codes.spend(f" {code[:4].lower()}-{code[4:]} ")
    assert not codes.spend(code)
    assert codes.current() == ("", 0.0)


def test_a_code_ends_after_five_minutes():
    clock = Clock()
    codes = Codes(clock=clock)
    code = codes.make()
    clock.now += CODE_SECONDS - 1
    assert codes.current() == (code, 1.0)
    clock.now += 1
    assert codes.current() == ("", 0.0)
    assert not codes.spend(code)


def test_a_new_code_ends_the_one_before():
    codes = Codes()
    first = codes.make()
    second = codes.make()
    assert not codes.spend(first)
    assert codes.spend(second)


def test_after_five_wrong_codes_no_code_is_taken_for_a_minute():
    clock = Clock()
    codes = Codes(clock=clock)
    code = codes.make()
    for _ in range(WRONG_TRIES):
        assert not codes.locked()
        assert not codes.spend("WRONGONE")
    assert codes.locked()
    assert not codes.spend(code)
    clock.now += WRONG_SECONDS
    assert not codes.locked()
    assert codes.spend(code)


def test_no_code_is_good_before_one_is_made():
    codes = Codes()
    assert not codes.spend("")
    assert not codes.spend("é²")


def test_only_one_of_many_at_once_gets_a_code():
    codes = Codes()
    code, taken = codes.make(), []
    threads = [threading.Thread(target=lambda: taken.append(codes.spend(code))) for _ in range(20)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert taken.count(True) == 1


def test_the_file_holds_no_token_and_is_for_its_owner_only(tmp_path):
    token = pairing.pair_device(tmp_path, "Kitchen  tablet")
    text = (tmp_path / NAME).read_text()
    assert token not in text
    assert len(token) == 43  # 256 bits
    assert stat.S_IMODE((tmp_path / NAME).stat().st_mode) == 0o600
    found = pairing.device_with(tmp_path, token)
    assert found.name == "Kitchen tablet"
    assert pairing.device_with(tmp_path, token[:-1] + "!") is None
    assert pairing.device_with(tmp_path, found.proof) is None


def test_an_unpaired_device_is_unknown_at_once(tmp_path):
    kept, gone = pairing.pair_device(tmp_path, "a"), pairing.pair_device(tmp_path, "b")
    mark = pairing.device_with(tmp_path, gone).mark
    assert pairing.unpair_device(tmp_path, mark) == "b"
    assert pairing.device_with(tmp_path, gone) is None
    assert pairing.device_with(tmp_path, kept).name == "a"
    with pytest.raises(NotFoundError):
        pairing.unpair_device(tmp_path, mark)


def test_names_are_told_apart_and_bounded(tmp_path):
    for _ in range(3):
        pairing.pair_device(tmp_path, "Phone")
    assert [device.name for device in pairing.devices(tmp_path)] == ["Phone", "Phone 2", "Phone 3"]
    for name in ("", "  ", "x" * 41, "a\x1b[2J", "a\u202eb"):
        with pytest.raises(InputError):
            pairing.pair_device(tmp_path, name)
    for _ in range(MOST_DEVICES - 3):
        pairing.pair_device(tmp_path, "Phone")
    with pytest.raises(InputError, match="unpair one"):
        pairing.pair_device(tmp_path, "one more")


def test_a_number_behind_a_name_never_makes_it_too_long_for_an_entry(tmp_path):
    names = ["n" * LONGEST_NAME, f"{'n' * (LONGEST_NAME - 2)} n", "short"]
    for name in (*names, *names, *names):
        pairing.pair_device(tmp_path, name)
    paired = [device.name for device in pairing.devices(tmp_path)]

    assert len({name.casefold() for name in paired}) == len(paired) == 9
    assert max(map(len, paired)) == LONGEST_NAME
    assert [device_name(name) for name in paired] == paired


def test_the_day_a_device_was_seen_is_noted(tmp_path, monkeypatch):
    from datetime import date

    token = pairing.pair_device(tmp_path, "a")
    monkeypatch.setattr(pairing, "_today", lambda: date(2031, 5, 1))
    pairing.device_with(tmp_path, token)
    assert read_pairings(tmp_path)[0].seen == date(2031, 5, 1)


def test_devices_paired_at_once_are_all_kept(tmp_path):
    threads = [threading.Thread(target=pairing.pair_device, args=(tmp_path, f"d{number}")) for number in range(12)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(read_pairings(tmp_path)) == 12


@pytest.mark.parametrize(
    "text", ["", "[]", "{}", '{"format": 2, "devices": []}', '{"format": 1, "devices": [{}]}', "\xff", "[" * 50_000,
             '{"format": 1, "devices": [{"name": 1, "proof": "x", "paired": "a", "seen": "b"}]}'],
)  # fmt: skip
def test_a_damaged_file_is_told_and_lets_nobody_in(tmp_path, text):
    folder = tmp_path / "plot"
    app, _ = app_on(folder)
    (folder / NAME).write_text(text)
    with pytest.raises(StoreError, match="damaged"):
        read_pairings(folder)
    cookie = (b"cookie", b"pinfold=" + b"a" * 43)
    answer = asyncio.run(ask(app, scope_of("GET", "/stand", host=PHONE, client=NEIGHBOR, headers=[cookie])))
    assert answer.status == 409


@pytest.fixture
def plot(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "settings"))
    folder = tmp_path / "plot"
    app, desk = app_on(folder)

    def asks(method, path, *headers, body=b"", **about):
        return asyncio.run(ask(app, scope_of(method, path, headers=headers, **about), (body,)))

    asks.desk, asks.folder, asks.app = desk, folder, app
    return asks


def _phone(plot, method, path, *headers, body=b"", **about):
    return plot(method, path, *headers, body=body, **{"host": PHONE, "client": NEIGHBOR, **about})


def _try_code(plot, code, name="Phone", **about):
    page = _phone(plot, "GET", "/pair", **about).body.decode()
    token = re.search(r'name="token" value="(\w+)"', page)[1]
    body = f"token={token}&code={code}&name={name}".encode()
    origin = f"{about.get('scheme', 'http')}://{PHONE}".encode()
    return _phone(plot, "POST", "/pair", FORM, (b"origin", origin), body=body, **about)


def _paired(plot, **about):
    plot.desk.codes.make()
    answer = _try_code(plot, plot.desk.codes.current()[0], **about)
    assert answer.status == 303
    return answer.headers[b"set-cookie"].decode()


def test_a_device_that_is_not_paired_sees_nothing(plot):
    paths = {route.path.split("{")[0] for page in PAGES for route in page.routes} | {"/nothing", "/static/x/mark.svg"}
    for path in sorted(paths - OPEN):
        answer = _phone(plot, "GET", path)
        assert answer.status == 403, path
        assert b"garden" not in answer.body.lower()
        leads = re.findall(rb'href="([^"]*)"', answer.body)
        assert all(each == b"/pair" or each.endswith((b"/pinfold.css", b"/pairing.css")) for each in leads)


def test_what_it_does_see_says_nothing_of_the_site(plot):
    for path in sorted(OPEN | {f"/static/x/{name}" for name in OPEN_STATIC} | {"/static/x/no/pinfold.css"}):
        answer = _phone(plot, "GET", path)
        assert answer.status in {200, 404}, path
        assert b"garden" not in answer.body.lower()
        assert b"/stand" not in answer.body
        assert token_of(plot.desk).encode() not in answer.body


def test_a_phone_swaps_a_code_for_a_cookie_no_script_reads(plot):
    cookie = _paired(plot)
    assert cookie.startswith("pinfold=")
    for mark in ("HttpOnly", "SameSite=strict", "Path=/"):
        assert mark in cookie
    shown = (b"cookie", cookie.partition(";")[0].encode())
    assert _phone(plot, "GET", "/stand", shown).status == 200
    assert plot("GET", "/pairing").body.count(b"Unpair Phone") == 1


def test_over_tls_the_cookie_is_bound_to_host_and_tls(plot):
    cookie = _paired(plot, scheme="https")
    assert cookie.startswith("__Host-pinfold=")
    assert "Secure" in cookie
    token = cookie.partition(";")[0].partition("=")[2]
    assert _phone(plot, "GET", "/stand", (b"cookie", f"__Host-pinfold={token}".encode()), scheme="https").status == 200
    assert _phone(plot, "GET", "/stand", (b"cookie", f"pinfold={token}".encode()), scheme="https").status == 403
    assert _phone(plot, "GET", "/stand", (b"cookie", f"__Host-pinfold={token}".encode())).status == 403


def test_tokens_of_pages_are_bound_to_the_device(plot):
    shown = (b"cookie", _paired(plot).partition(";")[0].encode())
    other = (b"cookie", _paired(plot).partition(";")[0].encode())
    page = _phone(plot, "GET", "/stand", shown).body.decode()
    token = re.search(r'data-token="(\w+)"', page)[1].encode()
    change = (FORM, (b"origin", f"http://{PHONE}".encode()))
    assert _phone(plot, "POST", "/pair", *change, shown, body=b"token=" + token).status == 400  # the code is missing
    assert _phone(plot, "POST", "/pair", *change, other, body=b"token=" + token).status == 403
    own = token_of(plot.desk).encode()
    assert _phone(plot, "POST", "/pair", *change, other, body=b"token=" + own).status == 403


def test_an_unpaired_device_is_refused_from_its_next_request_on(plot):
    shown = (b"cookie", _paired(plot).partition(";")[0].encode())
    assert _phone(plot, "GET", "/stand", shown).status == 200
    mark = pairing.devices(plot.folder)[0].mark
    body = f"token={token_of(plot.desk)}&mark={mark}".encode()
    assert plot("POST", "/pairing/unpair", FORM, (b"origin", OWN.encode()), body=body).status == 303
    assert _phone(plot, "GET", "/stand", shown).status == 403


def test_codes_are_made_and_devices_let_go_on_this_machine_only(plot):
    shown = (b"cookie", _paired(plot).partition(";")[0].encode())
    for path in ("/pairing", "/pairing/home"):
        assert _phone(plot, "GET", path, shown).status == 403
        assert plot("GET", path).status == 200
    change = (FORM, (b"origin", f"http://{PHONE}".encode()), shown)
    for path in ("/pairing/code", "/pairing/unpair", "/pairing/home"):
        assert _phone(plot, "POST", path, *change).status == 403
        assert plot("POST", path, FORM, (b"origin", OWN.encode()), body=b"token=wrong").status == 403


def test_six_wrong_codes_are_told_to_wait(plot):
    plot.desk.codes.make()
    answers = [_try_code(plot, "WRONGONE").status for _ in range(6)]
    assert answers == [400] * 5 + [429]
    answer = _try_code(plot, plot.desk.codes.current()[0])
    assert answer.status == 429
    assert b"Wait a minute" in answer.body
    assert pairing.devices(plot.folder) == ()


def test_a_code_is_not_spent_on_a_name_that_is_none(plot):
    code = plot.desk.codes.make()
    assert _try_code(plot, code, name="").status == 400
    assert _try_code(plot, code, name="Shed").status == 303


def test_the_code_is_shown_as_letters_and_as_a_square(plot):
    body = f"token={token_of(plot.desk)}".encode()
    assert plot("POST", "/pairing/code", FORM, (b"origin", OWN.encode()), body=body).status == 303
    page = plot("GET", "/pairing").body.decode()
    code = plot.desk.codes.current()[0]
    assert f"{code[:4]}-{code[4:]}" in page
    assert f"http://{PHONE}/pair#{code}" in page
    assert "style=" not in page


def test_the_authority_is_given_in_the_clear_and_its_key_never(plot):
    assert _phone(plot, "GET", "/ca.pem").status == 404
    body = f"token={token_of(plot.desk)}&do=make".encode()
    change = (FORM, (b"origin", OWN.encode()))
    assert plot("POST", "/pairing/home", *change, body=body).status == 303
    given = plot("GET", "/ca.pem", host=HANDING, client=NEIGHBOR)
    assert given.status == 200
    assert given.body == home.kept("ca.pem")
    assert b"PRIVATE" not in given.body
    assert _phone(plot, "GET", "/ca.pem", scheme="https").status == 404
    for name in ("/ca.key", "/leaf.key", "/leaf.pem", "/pairing/ca.key"):
        assert plot("GET", name).status == 404
    fingerprint = re.search(rb"([0-9A-F]{2}:){31}[0-9A-F]{2}", plot("GET", "/pairing/home").body)[0]
    from pinfold.web.home_ca import fingerprint as of

    assert fingerprint.decode() == of(given.body)
    body = f"token={token_of(plot.desk)}&do=remove".encode()
    assert plot("POST", "/pairing/home", *change, body=body).status == 303
    assert plot("GET", "/ca.pem").status == 404


def test_where_the_authority_is_handed_out_nothing_else_is(plot):
    shown = (b"cookie", _paired(plot).partition(";")[0].encode())
    assert plot("GET", "/pair/trust", host=HANDING, client=NEIGHBOR).status == 200
    for path in ("/", "/stand", "/pair", "/pairing"):
        assert plot("GET", path, shown, host=HANDING, client=NEIGHBOR).status == 403
        assert plot("GET", path, shown, host=HANDING, client=LOOPBACK).status == 403


def test_a_refusal_of_a_script_is_json_with_a_word_it_can_act_on(plot):
    answer = _phone(plot, "GET", "/api/phone/hello", (b"accept", b"application/json"))
    assert answer.status == 403
    assert json.loads(answer.body)["error"] == "unpaired"
    assert HERE.encode() not in answer.body
