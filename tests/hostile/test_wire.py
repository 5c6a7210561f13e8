"""Malformed HTTP on a real socket to the real server: it answers with a refusal or hangs up, and goes on serving."""

from __future__ import annotations

import socket
import threading

import pytest

from pinfold.store import starting
from pinfold.web.guard import token_of
from pinfold.web.listening import Asked, listen


@pytest.fixture(scope="module")
def running(tmp_path_factory):
    folder = tmp_path_factory.mktemp("wire") / "plot"
    starting.from_sample(folder, "seed-garden")
    found, ready = [], threading.Event()
    thread = threading.Thread(
        target=listen,
        args=(Asked(folder=folder, port=0), lambda line: None, lambda it: (found.append(it), ready.set())),
    )
    thread.start()
    assert ready.wait(20)
    yield found[0]
    found[0].stop()
    thread.join(15)
    assert not thread.is_alive()


def port_of(running):
    return int(running.url.rsplit(":", 1)[1].strip("/"))


def said(running, *parts, patience=1.0, end=True):
    """What comes back for bytes on the wire; empty when the server hung up without a word."""
    found = b""
    with socket.create_connection(("127.0.0.1", port_of(running)), timeout=5) as wire:
        wire.settimeout(patience)
        try:
            for part in parts:
                wire.sendall(part)
            if end:
                wire.shutdown(socket.SHUT_WR)
            while chunk := wire.recv(65536):
                found += chunk
        except OSError:  # hung up in the middle of it, or nothing more came
            pass
    return found


def statuses(answer):
    return [int(line.split()[1]) for line in answer.split(b"\r\n") if line.startswith(b"HTTP/1.1 ")]


def good(running, path="/pair", more=b""):
    return b"GET %s HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n%sConnection: close\r\n\r\n" % (
        path.encode(),
        port_of(running),
        more,
    )


def post(running, headers, body=b"", path=b"/api/log"):
    token = token_of(running.desk).encode()
    host = b"127.0.0.1:%d" % port_of(running)
    head = b"POST %s HTTP/1.1\r\nHost: %s\r\nOrigin: http://%s\r\nX-Pinfold-Token: %s\r\nContent-Type: application/json\r\n"
    return head % (path, host, host, token) + headers + b"\r\n" + body


MALFORMED = [
    b"\r\n", b"\0" * 100, b"GET\r\n\r\n", b"GET /\r\n\r\n", b"GET / HTTP/9.9\r\n\r\n", b"GET / HTTP/1.1\r\n\r\n", b"GET  / HTTP/1.1\r\nHost: x\r\n\r\n",
    b"get / http/1.1\r\nhost: x\r\n\r\n", b"GET / HTTP/1.1\r\nHost : x\r\n\r\n", b"GET / HTTP/1.1\r\n Host: x\r\n\r\n", b"GET / HTTP/1.1\r\nHost: x\r\nHost: y\r\n\r\n",
    b"GET / HTTP/1.1\r\nHost:\r\n\r\n", b"GET / HTTP/1.1\r\nHost: x\0y\r\n\r\n", b"GET / HTTP/1.1\r\nA\r\n\r\n", b"GET / HTTP/1.1\r\n: b\r\n\r\n",
    b"GET /\xff\xfe HTTP/1.1\r\nHost: x\r\n\r\n", b"GET /%ff%fe HTTP/1.1\r\nHost: x\r\n\r\n", b"GET http://evil.example/ HTTP/1.1\r\nHost: x\r\n\r\n", b"GET * HTTP/1.1\r\nHost: x\r\n\r\n",
    b"CONNECT evil.example:443 HTTP/1.1\r\nHost: x\r\n\r\n", b"OPTIONS * HTTP/1.1\r\nHost: x\r\n\r\n", b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n", b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03",
    b"GET / HTTP/1.1\nHost: x\n\n", b"GET /a b HTTP/1.1\r\nHost: x\r\n\r\n", b"GET / HTTP/1.1\r\nHost: x\r\nX: a\r\n b\r\n\r\n", b"A" * 100_000, b"GET /" + b"a" * 100_000 + b" HTTP/1.1\r\n\r\n",
    b"GET / HTTP/1.1\r\n" + b"X: y\r\n" * 20_000 + b"\r\n", b"GET / HTTP/1.1\r\nHost: x\r\nX: " + b"a" * 200_000 + b"\r\n\r\n", b"USER anonymous\r\n", b"\x05\x01\x00", b"EHLO x\r\n",
    b"GET / HTTP/1.1\r\nHost: x\r\nContent-Length: -1\r\n\r\n", b"POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 5\r\nContent-Length: 6\r\n\r\nabcdef",
    b"POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 99999999999999999999999\r\n\r\n", b"POST / HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: gzip\r\n\r\n", b"POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 0x10\r\n\r\n",
    b"POST / HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n\r\n", b"POST / HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: chunked\r\n\r\nffffffffffffffffffff\r\n",
    b"POST / HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: chunked, chunked\r\n\r\n0\r\n\r\n", b"POST / HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: xchunked\r\nContent-Length: 3\r\n\r\nabc",
    b"DELETE / HTTP/1.1\r\nHost: x\r\n\r\n", b"GET / HTTP/1.0\r\n\r\n", b"GET / HTTP/0.9\r\n\r\n", b"GET /\r\n", b"GET /%00 HTTP/1.1\r\nHost: x\r\n\r\n", b"GET /..%2f..%2f..%2fetc/passwd HTTP/1.1\r\nHost: x\r\n\r\n",
]  # fmt: skip


@pytest.mark.parametrize("number", range(len(MALFORMED)))
def test_malformed_bytes_get_a_refusal_or_silence(running, number):
    for ours in (False, True):
        sent = MALFORMED[number].replace(
            b"Host: x\r\n", b"Host: 127.0.0.1:%d\r\n" % port_of(running) if ours else b"Host: x\r\n"
        )
        answer = said(running, sent)
        assert all(400 <= status < 500 for status in statuses(answer)), answer[:200]
        for leak in (b"Traceback", b"uvicorn", b"h11", b"site-packages", b"/tmp/", b"root:"):
            assert leak not in answer
    assert statuses(said(running, good(running), end=False)) == [200]


def test_a_request_cannot_be_hidden_in_another(running):
    """Length and chunks told together, and a request in the body of one that is refused: neither is taken for a request."""
    hidden = good(running, "/plan")
    both = post(running, b"Content-Length: 4\r\nTransfer-Encoding: chunked\r\n", b"0\r\n\r\n" + hidden)
    answer = said(running, both, end=False)
    assert 200 not in statuses(answer)
    refused = post(running, b"Content-Length: %d\r\n" % len(hidden), hidden, path=b"/stand")
    assert 200 not in statuses(said(running, refused, end=False))


def test_chunks_past_the_limit_are_cut_off_while_they_come_in(running):
    chunk = b"100000\r\n" + b" " * 0x100000 + b"\r\n"
    answer = said(running, post(running, b"Transfer-Encoding: chunked\r\n"), *[chunk] * 4, end=False)
    assert statuses(answer)[:1] in ([413], []), answer[:200]  # or the line was cut before the refusal was read
    assert statuses(said(running, good(running), end=False)) == [200]


def test_a_promise_past_the_limit_is_refused_before_anything_comes(running):
    answer = said(running, post(running, b"Content-Length: 3000000\r\n"), end=False)
    assert statuses(answer) == [413]
    answer = said(running, post(running, b"Content-Length: 3000000\r\nExpect: 100-continue\r\n"), end=False)
    assert statuses(answer) == [413]


def test_a_body_that_stops_halfway_writes_nothing(running):
    from pinfold.actions.taking import log_of

    answer = said(running, post(running, b"Content-Length: 100\r\n", b'{"entries": ['))
    assert 200 not in statuses(answer)
    assert log_of(running.desk.folder).tip() == 0


def test_many_slow_lines_do_not_keep_others_out(running):
    wires = [socket.create_connection(("127.0.0.1", port_of(running)), timeout=5) for _ in range(60)]
    try:
        for wire in wires:
            wire.sendall(b"GET / HTTP/1.1\r\nHost: ")
        assert statuses(said(running, good(running), end=False)) == [200]
    finally:
        for wire in wires:
            wire.close()


def test_a_socket_upgrade_is_not_followed(running):
    more = b"Upgrade: websocket\r\nSec-WebSocket-Key: x\r\nSec-WebSocket-Version: 13\r\n"
    answer = said(running, good(running, more=more).replace(b"Connection: close", b"Connection: Upgrade"))
    assert 101 not in statuses(answer)


def test_no_answer_names_the_server(running):
    answer = said(running, good(running), end=False).lower()
    assert b"\r\nserver:" not in answer
    assert b"uvicorn" not in answer
