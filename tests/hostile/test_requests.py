"""More than ten thousand hostile and broken requests to every page there is: none breaks anything, none learns anything.

Each is put to the whole application as the server would put it. Wanted of every answer: no 5xx, no trace, no folder of this
machine; and of every refusal that the files of the site are what they were, byte for byte.
"""

from __future__ import annotations

import asyncio
import contextlib
import json
import random
import re
import sqlite3
from collections import namedtuple

import pytest

from asking import HANDING, HERE, NEIGHBOR, OWN, PHONE, app_on, ask, scope_of
from hostile.corpus import (
    BROKEN_FORMS,
    BROKEN_JSON,
    BROKEN_PARTS,
    BROKEN_PHOTOS,
    PART_KINDS,
    PATHS,
    QUERIES,
    grown,
)
from pinfold.actions import pairing
from pinfold.web.guard import token_of
from pinfold.web.pages import PAGES
from pinfold.web.pairing import Caller

ENTRY = {
    "id": "hostile-entry-1", "kind": "batch", "at": "2026-05-03T14:20:05+02:00", "who": "Ada", "device": "phone",
    "fields": {"mix": "scratch", "batches": "2", "amounts": [["lime", "2 bucket"]]},
}  # fmt: skip
NAMES = {
    "{version}": "0", "{kind}": "batch", "{mark}": "0" * 12, "/mix/card/{name}": "/mix/card/scratch", "/log/{name}": "/log/hostile-entry-1",
    "/exports/{name}": "/exports/plan.toml", "/formula/{name}": "/formula/wind.velocity_pressure", "/photos/{name}": "/photos/" + "0" * 64,
    "{name}": "plan",
}  # fmt: skip
COSTLY = ("/binder.pdf", "/exports/drawings.zip", ".dxf")
ASKING = ("/mix", "/log", "/formula", "/api/log/since", "/drawings/plan.svg")
"""Pages that read questions get all of them; others a third, those that take long one."""
LEAKS = re.compile(
    rb"Traceback|site-packages|\.py\"|, line \d|uvicorn|starlette|python/3|/tmp/|/root|/home/|sqlite3\.|Errno", re.I
)
FORM = b"application/x-www-form-urlencoded"
Target = namedtuple("Target", "method path")


def targets(method):
    """Every route of every page that is asked so, with something in the place of its variables."""
    found = []
    for route in (route for page in PAGES for route in page.routes):
        path = route.path
        for variable, name in NAMES.items():
            path = path.replace(variable, name)
        if method in route.methods:
            found.append(Target(method, path))
    return [*found, *([Target("GET", "/static/0/pinfold.css"), Target("GET", "/nothing")] if method == "GET" else [])]


class Plot:
    """A site being asked, and what its files were."""

    def __init__(self, folder):
        self.app, self.desk = app_on(folder)
        self.folder = folder
        self.loop = asyncio.new_event_loop()
        self.token = token_of(self.desk).encode()
        self.asked = 0

    def ask(self, scope, chunks=(b"",)):
        self.asked += 1
        return self.loop.run_until_complete(ask(self.app, scope, chunks))

    def change(self, path, kind, body, *, headers=(), chunks=None):
        """A change that is right in all but its content."""
        given = [(b"content-type", kind), (b"origin", OWN.encode()), (b"x-pinfold-token", self.token), *headers]
        return self.ask(scope_of("POST", path, headers=given), chunks or (body,))

    def files(self):
        """Content of all files but the log, which its library tidies while it is read: see `log_rows`."""
        return {
            path.relative_to(self.folder).as_posix(): path.read_bytes()
            for path in sorted(self.folder.rglob("*")) if path.is_file() and not path.name.startswith("log.sqlite")
        }  # fmt: skip

    def log_rows(self):
        """All that stands in the log."""
        with contextlib.closing(sqlite3.connect(self.folder / "log.sqlite")) as log:
            tables = [name for (name,) in log.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
            return {name: log.execute(f'SELECT * FROM "{name}"').fetchall() for name in tables}

    def put_back(self, files):
        """Make the files what they were; the log is only ever added to."""
        for name, content in self.files().items():
            if name not in files:
                (self.folder / name).unlink()
            elif files[name] != content:
                (self.folder / name).write_bytes(files[name])


@pytest.fixture(scope="module")
def plot(tmp_path_factory):
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CONFIG_HOME", str(tmp_path_factory.mktemp("settings")))
        made = Plot(tmp_path_factory.mktemp("hostile") / "plot")
        body = json.dumps({"entries": [ENTRY]}).encode()
        assert made.change("/api/log", b"application/json", body).status == 200
        yield made
        made.loop.close()


def harmless(answer, about):
    """Nothing broke and nothing was learned."""
    assert answer.status < 500, (about, answer.body[:300])
    found = LEAKS.search(answer.body) if answer.status >= 400 else re.search(rb"Traceback|/tmp/pytest", answer.body)
    assert not found, (about, found)
    for name, value in answer.headers.items():
        assert b"\n" not in value, (about, name)
        assert b"\r" not in value, (about, name)


def right(desk):
    """Origin, token and two content types that are right."""
    token = (b"x-pinfold-token", token_of(desk).encode())
    return (b"origin", OWN.encode()), token, (b"content-type", FORM), (b"content-type", b"application/json")


def heads(desk, phone_token):
    """Heads of requests that must be refused whatever they ask for: what is wrong, what is asked with it, what is said."""
    yield from of_strangers(desk)
    yield from of_broken_ones(desk)
    yield from of_forgers(desk)
    yield from of_phones(desk, phone_token)


def of_strangers(desk):
    own, token, form, _ = right(desk)
    for host in (
        None,
        "",
        "evil.example",
        "evil.example:8765",
        "127.0.0.1",
        "localhost",
        "127.0.0.1:80",
        "192.168.7.5",
        "[::1]:8765",
        "127.0.0.1:8765\t",
        "127.0.0.1:8765/",
        "user@127.0.0.1:8765",
        "127.1:8765",
        "0x7f000001:8765",
        "x" * 3000,
        b"\xff",
    ):
        yield "host", {"host": host}, ()
    for name in (
        "x-forwarded-for",
        "x-forwarded-host",
        "x-forwarded-proto",
        "x-forwarded-prefix",
        "forwarded",
        "x-real-ip",
        "via",
    ):
        yield "forwarded", {}, ((name.encode(), b"127.0.0.1"),)
    for name in (b"host", b"origin", b"content-length", b"content-type", b"sec-fetch-site", b"x-pinfold-token"):
        yield "twice", {}, ((name, HERE.encode()), (name, HERE.encode()))
    for address in (NEIGHBOR, "8.8.8.8", "::2", "", "127.0.0.2", "localhost", None):
        yield "address", {"client": address}, (own, token, form)


def of_broken_ones(desk):
    own, token, _, js = right(desk)
    yield "too much", {}, ((b"cookie", b"a" * 20_000),)
    yield "too many", {}, tuple((b"x-%d" % number, b"") for number in range(100))
    yield "too long", {"query": b"a" * 5000}, ()
    yield "null", {"query": b"a=%00"}, ()
    for method in (
        "PUT",
        "DELETE",
        "PATCH",
        "OPTIONS",
        "TRACE",
        "CONNECT",
        "PROPFIND",
        "get",
        "",
        "GET ",
        "PO\0ST",
        "X" * 500,
    ):
        yield "method", {"method": method}, (own, token, js)


def of_forgers(desk):
    own, token, form, js = right(desk)
    for origin in (
        b"null",
        b"http://evil.example",
        b"http://127.0.0.1",
        b"https://127.0.0.1:8765",
        b"http://127.0.0.1:8765.evil.example",
        b"",
        b"\xff",
    ):
        yield "origin", {"method": "POST"}, ((b"origin", origin), token, form)
    for site in (b"cross-site", b"same-site", b"", b"x"):
        yield "site", {"method": "POST"}, (own, (b"sec-fetch-site", site), token, form)
        yield "part", {}, ((b"sec-fetch-site", site), (b"sec-fetch-mode", b"no-cors"))
    yield "no origin", {"method": "POST"}, (token, form)
    for wrong in (b"", b"x", token[1][:-1], token[1].upper(), b"\xff" * 64, b"0" * 64):
        yield "token", {"method": "POST"}, (own, (b"x-pinfold-token", wrong), form)
    for kind in (
        b"",
        b"text/plain",
        b"application/xml",
        b"application/jsonx",
        b"\xff",
        b"multipart/mixed; boundary=x",
        b";;;",
        b"x" * 2000,
    ):
        yield "kind", {"method": "POST"}, (own, token, (b"content-type", kind))
    for length in (b"-1", b"1e9", b"99999999999999999999", b"26000000", b"x", b"0x10", b"\xd9\xa1"):
        yield "length", {"method": "POST"}, (own, token, js if length else form, (b"content-length", length))


def of_phones(desk, phone_token):
    own, token, form, _ = right(desk)
    cookie, phone = (b"cookie", b"pinfold=" + phone_token.encode()), {"host": PHONE, "client": NEIGHBOR}
    for value in (
        b"",
        b"x",
        b"a" * 43,
        b"a" * 5000,
        b"\xff" * 43,
        b'"',
        b"../../etc/passwd",
        b"{}",
        b"%00",
        phone_token.encode()[:-1] + b"_",
    ):
        yield "unpaired", phone, ((b"cookie", b"pinfold=" + value),)
    yield "other cookie", phone, ((b"cookie", b"__Host-pinfold=" + phone_token.encode()),)
    yield "other cookie", {**phone, "scheme": "https"}, (cookie,)
    yield "two cookies", phone, ((b"cookie", b"pinfold=x; pinfold=y"),)
    yield "handing", {"host": HANDING, "client": NEIGHBOR}, (cookie,)
    yield "phone's origin", {**phone, "method": "POST"}, (cookie, own, token, form)
    yield "laptop's token", {**phone, "method": "POST"}, (cookie, (b"origin", f"http://{PHONE}".encode()), token, form)


def test_what_must_be_refused_is_refused_by_every_page(plot):
    token = pairing.pair_device(plot.folder, "Phone")
    assert pairing.device_with(plot.folder, token) is not None
    before, rows, started = plot.files(), plot.log_rows(), plot.asked
    open_to_all = {"/pair", "/pair/trust", "/ca.pem", "/static/0/pinfold.css"}
    for method in ("GET", "POST"):
        for target in targets(method):
            for what, about, headers in heads(plot.desk, token):
                if about.get("method") == "POST" and method != "POST":
                    continue
                if (
                    what in {"unpaired", "other cookie", "two cookies", "address", "handing"}
                    and target.path in open_to_all
                ):
                    continue
                given = {"method": method, **about}
                answer = plot.ask(scope_of(given.pop("method"), target.path, headers=headers, **given))
                harmless(answer, (what, about, target))
                assert 400 <= answer.status < 500, (what, about, headers, target, answer.status)
    assert plot.files() == before
    assert plot.log_rows() == rows
    assert plot.asked - started > 4500
    pairing.unpair_device(plot.folder, pairing.devices(plot.folder)[0].mark)


def test_hostile_addresses_and_questions_break_nothing(plot):
    before, rows, started = plot.files(), plot.log_rows(), plot.asked
    for number, target in enumerate(targets("GET")):
        few = QUERIES[number % 3 :: 3] if not any(each in target.path for each in COSTLY) else QUERIES[:1]
        for query in QUERIES if target.path.startswith(ASKING) else few:
            answer = plot.ask(scope_of("GET", target.path, query=query.encode("utf-8", "replace")))
            harmless(answer, (target, query))
    inside = {re.sub(r"[^/]*$", "", target.path) for target in targets("GET")} | {
        "/static/",
        "/static/0/",
        "/drawings/../",
    }
    endings = ("", ".svg", ".jpg")
    for folder in sorted(inside):
        for number, path in enumerate(PATHS):
            answer = plot.ask(scope_of("GET", folder + path + endings[number % 3]))
            harmless(answer, (folder, path))
            if ".." in path or "\0" in path or "passwd" in path:
                assert b"root:" not in answer.body
    assert plot.files() == before
    assert plot.log_rows() == rows
    assert plot.asked - started > 2800


def test_broken_content_breaks_nothing(plot):
    started, before = plot.asked, plot.files()
    for target in targets("POST"):
        if target.path.startswith("/api/"):
            bodies = [(b"application/json", body) for body in BROKEN_JSON]
            bodies += [(b"application/octet-stream", body) for body in BROKEN_PHOTOS] + [
                (b"image/png", body) for body in BROKEN_PHOTOS
            ]
        else:
            bodies = [(FORM, body) for body in BROKEN_FORMS]
            bodies += [(kind.encode(), body) for kind in PART_KINDS for body in BROKEN_PARTS]
        for kind, body in bodies:
            _changed_or_untouched(plot, before, target.path, kind, body)
    assert plot.asked - started > 2000


def _changed_or_untouched(plot, before, path, kind, body):
    rows = plot.log_rows()
    answer = plot.change(path, kind, body)
    harmless(answer, (path, kind, body[:200]))
    if answer.status >= 400:
        assert plot.files() == before, (path, body[:200])
        assert plot.log_rows() == rows
    else:
        plot.put_back(before)


def good_records(plot):
    """For every script's change a record that is right."""
    opened = json.loads(plot.ask(scope_of("GET", "/api/plan")).body)
    gate = {"gate": opened["parts"].get("gate", {})}
    return {
        "/api/plan/try": {"changes": gate, "serial": 1},
        "/api/plan/save": {"changes": gate, "revision": opened["revision"], "renamed": {"gate": {"a": "b"}}, "beside": False},
        "/api/plan/measure": {"texts": ["1 m", "2 ft"]},
        "/api/log": {"entries": [{**ENTRY, "id": "hostile-entry-2", "corrects": ENTRY["id"]}]},
        "/api/photo": {"a": [1]},
    }  # fmt: skip


def test_wrong_types_in_every_field_break_nothing(plot):
    started, before = plot.asked, plot.files()
    chance = random.Random(7)
    for path, record in good_records(plot).items():
        wrong = grown(record)
        for each in chance.sample(wrong, min(len(wrong), 900 if path == "/api/log" else 250)):
            _changed_or_untouched(plot, before, path, b"application/json", json.dumps(each).encode())
    assert plot.asked - started > 1500


def test_wrong_values_in_every_field_of_a_form_break_nothing(plot):
    from urllib.parse import urlencode

    started, before = plot.asked, plot.files()
    values = [value for value in PATHS if value != "\ud800"]
    for path in (target.path for target in targets("POST") if not target.path.startswith("/api/")):
        shown = plot.ask(scope_of("GET", path)).body.decode("utf-8", "replace")
        names = sorted(set(re.findall(r'name="([^"]+)"', shown)) | {"mark", "do", "id", "why", "waiting"})
        for number, value in enumerate(values):
            name = names[number % len(names)]
            body = urlencode({**dict.fromkeys(names, "1"), name: value}).encode()
            _changed_or_untouched(plot, before, path, FORM, body)
    assert plot.asked - started > 500


def test_what_grows_past_its_limit_while_it_comes_in_is_cut_off(plot):
    before = plot.files()
    for path, kind, most in (("/api/log", b"application/json", 2), ("/api/photo", b"application/octet-stream", 25),
                             ("/pair", FORM, 2), ("/log/import", b"multipart/form-data; boundary=X", 25)):  # fmt: skip
        sent = []

        def endless(sent=sent):
            while True:
                sent.append(1)
                yield b" " * 1_000_000

        source = endless()
        chunks = [next(source) for _ in range(most + 3)]
        answer = plot.change(path, kind, b"", chunks=chunks)
        assert answer.status == 413, (path, answer.status)
    assert plot.files() == before


def test_random_bytes_as_heads_and_content_break_nothing(plot):
    chance, before, started = random.Random(11), plot.files(), plot.asked
    posts, gets = targets("POST"), [each for each in targets("GET") if not any(word in each.path for word in COSTLY)]
    for _ in range(1500):
        junk = bytes(chance.randrange(256) for _ in range(chance.randrange(1, 60)))
        names = (
            b"accept",
            b"cookie",
            b"range",
            b"if-none-match",
            b"accept-language",
            b"user-agent",
            b"content-encoding",
            b"expect",
        )
        headers = [(chance.choice(names), junk)]
        if chance.random() < 0.3:
            answer = plot.ask(scope_of("GET", chance.choice(gets).path, headers=headers))
        else:
            path = chance.choice(posts).path
            kinds = (
                (b"application/json", b"application/octet-stream")
                if path.startswith("/api/")
                else (FORM, PART_KINDS[0].encode())
            )
            answer = plot.change(path, chance.choice(kinds), junk * chance.randrange(1, 40), headers=headers)
        harmless(answer, (headers,))
        plot.put_back(before)
    assert plot.asked - started == 1500


def test_a_paired_phone_is_as_bounded_as_the_laptop(plot):
    token = pairing.pair_device(plot.folder, "Phone")
    before = plot.files()
    device = pairing.device_with(plot.folder, token)
    own = token_of(plot.desk, Caller(name=device.name, proof=device.proof)).encode()
    headers = [
        (b"cookie", b"pinfold=" + token.encode()),
        (b"origin", f"http://{PHONE}".encode()),
        (b"x-pinfold-token", own),
    ]
    for path in (
        "/pairing",
        "/pairing/code",
        "/pairing/unpair",
        "/pairing/home",
        "/pairing/",
        "/pairing/../pairing",
        "/PAIRING",
    ):
        for method in ("GET", "POST"):
            scope = scope_of(method, path, host=PHONE, client=NEIGHBOR, headers=[*headers, (b"content-type", FORM)])
            answer = plot.ask(scope, (b"mark=1&do=remove",))
            assert 400 <= answer.status < 500, (method, path)
    assert plot.files() == before
    pairing.unpair_device(plot.folder, device.mark)
