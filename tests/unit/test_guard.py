"""The guard: what is refused before any page is asked, and what every answer carries."""

from __future__ import annotations

import asyncio
import json

import pytest
from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.responses import JSONResponse
from starlette.routing import Route

from asking import HERE, LOOPBACK, NEIGHBOR, OWN, PHONE, app_on, ask, desk_on, scope_of
from pinfold.errors import StoreError
from pinfold.web import bodies
from pinfold.web.bodies import Refused, fields_of, json_of, strict_json
from pinfold.web.guard import Guard, token_of
from pinfold.web.pairing import HERE as THIS_MACHINE
from pinfold.web.pairing import NOBODY, Caller

FORM = (b"content-type", b"application/x-www-form-urlencoded")
JSON = (b"content-type", b"application/json")
ORIGIN = (b"origin", OWN.encode())


def _echo(request):
    return JSONResponse({"fields": dict(fields_of(request)), "json": json_of(request)})


def _breaks(request):
    raise ZeroDivisionError("a secret at /home/builder/plot/plan.toml")


def _no_disk(request):
    raise StoreError("/home/builder/plot/plan.toml cannot be read: input/output error")


@pytest.fixture
def desk(tmp_path):
    return desk_on(tmp_path)


@pytest.fixture
def asked(desk):
    routes = [
        Route("/echo", _echo, methods=["GET", "POST"]), Route("/api/echo", _echo, methods=["GET", "POST"]),
        Route("/breaks", _breaks), Route("/disk", _no_disk),
    ]  # fmt: skip
    app = Starlette(routes=routes, middleware=[Middleware(Guard, desk=desk)])

    def asks(method, path, *headers, chunks=(b"",), **about):
        return asyncio.run(ask(app, scope_of(method, path, headers=headers, **about), chunks))

    return asks


@pytest.fixture
def token(desk):
    return (b"x-pinfold-token", token_of(desk).encode())


def test_this_machine_asks_freely(asked):
    assert asked("GET", "/echo").status == 200
    assert asked("HEAD", "/echo").status == 200


@pytest.mark.parametrize(
    "host",
    [None, "", "evil.example", "evil.example:8765", "127.0.0.1", "127.0.0.1:80", "127.0.0.1:8765.evil.example",
     "127.0.0.1:8765@evil", "LOCALHOST:8765 ", b"\xff\xfe", "[::1]:8765", "0.0.0.0:8765", "2130706433:8765"],
)  # fmt: skip
def test_a_host_that_is_not_listed_is_refused(asked, host):
    assert asked("GET", "/echo", host=host).status == 400


@pytest.mark.parametrize(
    "name", ["x-forwarded-for", "x-forwarded-host", "x-forwarded-proto", "forwarded", "x-real-ip", "via",
             "x-http-method-override", "x-original-url"],
)  # fmt: skip
def test_a_go_between_is_refused(asked, name):
    assert asked("GET", "/echo", (name.encode(), b"127.0.0.1")).status == 400


@pytest.mark.parametrize("name", [b"host", b"origin", b"content-length", b"content-type", b"sec-fetch-site"])
def test_what_may_be_said_once_is_refused_when_said_twice(asked, name):
    value = HERE.encode() if name == b"host" else b"0"
    assert asked("GET", "/echo", (name, value), (name, value)).status == 400


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "get", "", "X" * 99])
def test_methods_other_than_three_are_refused(asked, method, token):
    assert asked(method, "/echo", ORIGIN, token).status == 405


@pytest.mark.parametrize(
    "path", ["/../etc/passwd", "/a/../b", "//evil.example/", "/a\\b", "/a\0b", "/a\nb", "", "x", "*"]
)
def test_an_address_that_could_mislead_is_refused(asked, path):
    assert asked("GET", path).status == 400


def test_too_long_an_address_and_too_much_in_the_head_are_refused(asked):
    assert asked("GET", "/" + "a" * 5000).status == 414
    assert asked("GET", "/echo", query=b"a" * 5000).status == 414
    assert asked("GET", "/echo", *((b"x-%d" % number, b"") for number in range(200))).status == 431
    assert asked("GET", "/echo", (b"cookie", b"a" * 20000)).status == 431


def test_the_host_of_this_machine_counts_only_from_this_machine(asked):
    """A neighbor may write any host in its request; its address tells."""
    assert asked("GET", "/echo", client=NEIGHBOR).status == 403
    assert asked("GET", "/echo", client=None).status == 403
    assert asked("GET", "/echo", host=PHONE, client=LOOPBACK).status == 403


def test_a_change_needs_our_own_origin(asked, token):
    change = (FORM, token)
    assert asked("POST", "/echo", *change, ORIGIN).status == 200
    assert asked("POST", "/echo", *change, (b"sec-fetch-site", b"same-origin")).status == 200
    assert asked("POST", "/echo", *change).status == 403
    for origin in (
        b"null",
        b"http://evil.example",
        b"https://127.0.0.1:8765",
        b"http://127.0.0.1:9999",
        b"",
        b"http://",
    ):
        assert asked("POST", "/echo", *change, (b"origin", origin)).status == 403
    for site in (b"cross-site", b"same-site", b"", b"Same-Origin", b"bogus"):
        assert asked("POST", "/echo", *change, (b"sec-fetch-site", site)).status == 403
        assert asked("POST", "/echo", *change, ORIGIN, (b"sec-fetch-site", site)).status == 403


def test_pages_of_others_link_here_but_take_no_part_of_it(asked):
    cross = (b"sec-fetch-site", b"cross-site")
    assert (
        asked("GET", "/echo", cross, (b"sec-fetch-mode", b"navigate"), (b"sec-fetch-dest", b"document")).status == 200
    )
    assert asked("GET", "/echo", cross, (b"sec-fetch-mode", b"navigate"), (b"sec-fetch-dest", b"iframe")).status == 403
    assert asked("GET", "/echo", cross, (b"sec-fetch-mode", b"no-cors"), (b"sec-fetch-dest", b"image")).status == 403
    assert asked("GET", "/echo", (b"sec-fetch-site", b"same-site"), (b"sec-fetch-mode", b"cors")).status == 403


def test_a_change_needs_the_token_in_header_or_form(asked, desk, token):
    for given in (b"", b"x", token[1][:-1], token[1] + b"0", token[1].upper(), "é".encode()):
        assert asked("POST", "/echo", FORM, ORIGIN, (b"x-pinfold-token", given)).status == 403
    assert asked("POST", "/echo", FORM, ORIGIN, chunks=(b"token=" + token[1] + b"&a=1",)).status == 200
    assert asked("POST", "/echo", FORM, ORIGIN, chunks=(b"token=wrong",)).status == 403
    assert asked("POST", "/api/echo", JSON, ORIGIN, token, chunks=(b"{}",)).status == 200
    assert asked("POST", "/api/echo", JSON, ORIGIN, chunks=(b"{}",)).status == 403


def test_a_token_is_good_for_one_run_and_one_device(tmp_path):
    desk, later = desk_on(tmp_path), desk_on(tmp_path, secret=b"of the next run")
    callers = (THIS_MACHINE, NOBODY, Caller(name="a", proof="0" * 64), Caller(name="b", proof="1" * 64))
    tokens = {token_of(each, caller) for each in (desk, later) for caller in callers}
    assert len(tokens) == 8


def test_scripts_send_json_and_pages_send_forms(asked, token):
    for kind in (
        b"text/plain",
        b"application/x-www-form-urlencoded",
        b"multipart/form-data; boundary=a",
        b"",
        b"text/json",
    ):
        assert asked("POST", "/api/echo", (b"content-type", kind), ORIGIN, token).status == 415
    for kind in (b"application/json", b"text/plain", b"", b"image/png"):
        assert asked("POST", "/echo", (b"content-type", kind), ORIGIN, token).status == 415
    for kind in (b"image/jpeg", b"application/octet-stream"):
        assert asked("POST", "/api/echo", (b"content-type", kind), ORIGIN, token, chunks=(b"\xff\xd8",)).status == 200


def test_size_is_limited_by_promise_and_while_it_comes_in(asked, token):
    promise = (b"content-length", b"2000001")
    assert asked("POST", "/api/echo", JSON, ORIGIN, token, promise).status == 413
    grown = iter([b" " * 500_000] * 5)
    assert asked("POST", "/api/echo", JSON, ORIGIN, token, chunks=tuple(grown)).status == 413
    photo = (b"content-type", b"image/jpeg")
    assert asked("POST", "/api/echo", photo, ORIGIN, token, chunks=(b"x" * 10_000_000, b"x" * 10_000_000)).status == 200
    assert asked("POST", "/api/echo", photo, ORIGIN, token, chunks=(b"x" * 10_000_000,) * 3).status == 413
    for length in (b"-1", b"1e3", b"x", b"9" * 40, "١".encode()):
        assert asked("POST", "/api/echo", JSON, ORIGIN, token, (b"content-length", length)).status == 400


def test_a_request_that_ends_early_or_takes_too_long_reaches_no_page(asked, token, monkeypatch):
    assert asked("POST", "/api/echo", JSON, ORIGIN, token, chunks=(b"{", None)).status == 400
    monkeypatch.setattr(bodies, "SECONDS", 0.01)

    async def never():
        await asyncio.sleep(5)

    with pytest.raises(Refused, match="too long"):
        asyncio.run(bodies.read_body(never, 10))


def test_pages_get_fields_and_json_as_they_came(asked, token):
    answer = asked("POST", "/api/echo", JSON, ORIGIN, token, chunks=(b'{"a": [1, 2.5,', b' "\xc3\xa9\\n"]}'))
    assert json.loads(answer.body)["json"] == {"a": [1, 2.5, "é\n"]}
    answer = asked("POST", "/echo", FORM, ORIGIN, token, chunks=(b"a=1&a=2&b=%C3%A9",))
    assert json.loads(answer.body)["fields"] == {"a": "2", "b": "é"}
    parts = b'--X\r\nContent-Disposition: form-data; name="a"\r\n\r\n7\r\n--X--\r\n'
    answer = asked(
        "POST", "/echo", (b"content-type", b"multipart/form-data; boundary=X"), ORIGIN, token, chunks=(parts,)
    )
    assert json.loads(answer.body)["fields"] == {"a": "7"}


@pytest.mark.parametrize(
    "body",
    [b"", b"{", b"{'a': 1}", b"\xff", b"\xef\xbb\xbf{}", b'{"a": 1, "a": 2}', b"NaN", b"[Infinity]", b"-Infinity", b"1e999",
     b"9" * 5000, b"0." + b"1" * 500, b"[" * 100_000, b"[" * 60 + b"]" * 60, b'"\\ud800"', b'{"\\udc00": 1}', b'"\\u0000"',
     b'"\\u001b[2J"', b"{} {}", b'"\x00"', b'{"a": "\\u007f"}'],
)  # fmt: skip
def test_json_that_could_mean_two_things_is_refused(body):
    with pytest.raises(Refused) as refused:
        strict_json(body)
    assert refused.value.status == 400


@pytest.mark.parametrize(
    "body", [b"null", b"1", b'"a\\tb"', b"[]", '"²³±Ø≥☐ 👷"'.encode(), b"[" * 30 + b"]" * 30, b"-1.5e-3"]
)
def test_json_that_means_one_thing_is_read(body):
    assert strict_json(body) == json.loads(body)


def test_every_answer_carries_the_headers(asked, token):
    for answer in (
        asked("GET", "/echo"),
        asked("GET", "/nothing"),
        asked("GET", "/echo", host="evil"),
        asked("PUT", "/echo"),
    ):
        names = answer.headers
        policy = names[b"content-security-policy"].decode()
        assert "default-src 'self'" in policy
        assert "frame-ancestors 'none'" in policy
        assert "unsafe" not in policy
        assert names[b"x-content-type-options"] == b"nosniff"
        assert names[b"referrer-policy"] == b"same-origin"
        assert names[b"cross-origin-resource-policy"] == b"same-origin"
        assert names[b"cache-control"] == b"no-store"
        assert b"permissions-policy" in names
        assert b"server" not in names
        assert b"access-control-allow-origin" not in names
    assert asked("GET", "/echo").headers[b"cross-origin-opener-policy"] == b"same-origin"


def test_what_breaks_in_a_page_is_told_without_its_trace(asked, capsys):
    answer = asked("GET", "/breaks")
    assert answer.status == 500
    assert b"fault of its own" in answer.body
    assert b"secret" not in answer.body
    assert b"/home" not in answer.body
    assert b"Traceback" not in answer.body
    assert "ZeroDivisionError" in capsys.readouterr().err


def test_an_error_in_words_loses_the_folder_it_names(asked):
    answer = asked("GET", "/disk")
    assert answer.status == 409
    assert answer.body == b"plan.toml cannot be read: input/output error"


def test_paths_are_taken_out_of_words_and_other_strokes_left(tmp_path):
    desk = desk_on(tmp_path / "my plot")
    assert desk.without_paths(f"{tmp_path}/my plot/plan.toml is not there") == "plan.toml is not there"
    assert desk.without_paths("there is no /var/lib/x/plan.toml") == "there is no plan.toml"
    assert desk.without_paths(r"C:\Users\me\plan.toml is locked") == "plan.toml is locked"
    for kept in ("25 kg/m2 or 1/2 in", "see pairing/home", "wall/coat/scratch", "http://a/b/c"):
        assert desk.without_paths(kept) == kept


def test_a_broken_plan_is_told_on_a_page_without_its_folder(tmp_path):
    app, _ = app_on(tmp_path / "plot")
    (tmp_path / "plot" / "plan.toml").unlink()
    answer = asyncio.run(ask(app, scope_of("GET", "/stand")))
    assert answer.status == 404
    assert str(tmp_path).encode() not in answer.body


def test_sockets_that_stay_open_are_closed(desk):
    sent = []

    async def send(message):
        sent.append(message)

    asyncio.run(Guard(None, desk)({"type": "websocket"}, None, send))
    assert sent == [{"type": "websocket.close", "code": 1008}]
