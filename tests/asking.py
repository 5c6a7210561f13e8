"""Asking the whole application in this process, byte for byte, without a client that mends what is sent."""

from __future__ import annotations

from collections import namedtuple

from pinfold.store import starting
from pinfold.web.app import make_app
from pinfold.web.desk import Desk

HERE = "127.0.0.1:8765"
OWN = f"http://{HERE}"
PHONE = "192.168.7.5:8765"
HANDING = "192.168.7.5:8766"
LOOPBACK, NEIGHBOR = "127.0.0.1", "192.168.7.40"
Answer = namedtuple("Answer", "status headers body")


def desk_on(folder, **changes):
    """A desk that serves this machine and a home network in the clear."""
    given = {
        "folder": folder, "hosts": frozenset({HERE, "localhost:8765", PHONE, HANDING}),
        "home": frozenset({HERE, "localhost:8765"}), "secret": b"of this run", "handing": frozenset({HANDING}),
        "pairing_at": f"http://{PHONE}/", **changes,
    }  # fmt: skip
    return Desk(**given)


def app_on(folder, sample="seed-garden", **changes):
    """The application and its desk, on a folder made from a sample."""
    starting.from_sample(folder, sample)
    desk = desk_on(folder, **changes)
    return make_app(desk), desk


def scope_of(method, path, *, host=HERE, headers=(), query=b"", client=LOOPBACK, scheme="http", raw_path=None):
    """A request's head as the server would give it."""
    first = () if host is None else ((b"host", host if isinstance(host, bytes) else host.encode("latin-1")),)
    return {
        "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": method, "scheme": scheme,
        "path": path, "raw_path": raw_path or path.encode("utf-8", "replace"), "query_string": query, "root_path": "",
        "headers": [*first, *headers], "client": (client, 40000) if client else None, "server": ("127.0.0.1", 8765),
        "state": {},
    }  # fmt: skip


async def ask(app, scope, chunks=(b"",)):
    """One request with its body in chunks; a chunk None stands for the other side going away."""
    given, found = list(chunks), []

    async def receive():
        if not given:
            return {"type": "http.disconnect"}
        chunk = given.pop(0)
        if chunk is None:
            return {"type": "http.disconnect"}
        return {"type": "http.request", "body": chunk, "more_body": bool(given)}

    async def send(message):
        found.append(message)

    await app(scope, receive, send)
    head = next(message for message in found if message["type"] == "http.response.start")
    body = b"".join(message.get("body", b"") for message in found if message["type"] == "http.response.body")
    return Answer(head["status"], dict(head["headers"]), body)
