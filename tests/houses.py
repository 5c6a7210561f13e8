"""A server that tests of the phone can stop, start again at the same address, and have swallow its answers."""

from __future__ import annotations

import asyncio
import shutil
import socket
import threading
import time

import uvicorn

from pinfold.store.log import open_log
from pinfold.web.app import make_app
from pinfold.web.desk import Desk

CHROMIUM = shutil.which("chromium") or "/usr/bin/chromium"
ARGUMENTS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip
NAME = "pinfold.test"
"""Leads to this machine by a rule of the browser; a page from there is no secure context."""


class House:
    """A server on a site folder."""

    def __init__(self, folder):
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]
        self.folder, self.url, self.plain = folder, f"http://127.0.0.1:{self.port}", f"http://{NAME}:{self.port}"
        hosts = frozenset({f"127.0.0.1:{self.port}", f"{NAME}:{self.port}"})
        self.app = make_app(Desk(folder=folder, hosts=hosts, home=hosts, secret=b"house" * 8))
        self.to_swallow, self.swallowed, self.asked = 0, 0, []
        self._server = self._thread = None

    def start(self):
        """Answer from now on."""
        settings = uvicorn.Config(
            self._answer, host="127.0.0.1", port=self.port, log_level="critical", lifespan="off", interface="asgi3",
            timeout_graceful_shutdown=1,
        )  # fmt: skip
        self._server = uvicorn.Server(settings)
        self._thread = threading.Thread(target=lambda: asyncio.run(self._server.serve()), daemon=True)
        self._thread.start()
        until = time.monotonic() + 10
        while not self._server.started:
            assert time.monotonic() < until, "the house did not start"
            time.sleep(0.01)
        return self

    def stop(self):
        """Answer nothing any more, as a laptop switched off."""
        if self._server is None:
            return
        self._server.force_exit = self._server.should_exit = True
        self._thread.join(10)
        assert not self._thread.is_alive()
        self._server = None
        with socket.socket() as probe:
            assert probe.connect_ex(("127.0.0.1", self.port)), "somebody still answers"

    async def _answer(self, scope, receive, send):
        if scope["type"] == "http":
            self.asked.append((scope["method"], scope["path"]))
        if self.to_swallow and scope["type"] == "http" and scope["method"] == "POST" and scope["path"] == "/api/log":
            self.to_swallow -= 1
            await self.app(scope, receive, _nowhere)  # all is written; the answer never leaves
            for protocol in list(self._server.server_state.connections):
                if protocol.client == tuple(scope["client"]):
                    protocol.transport.abort()
            self.swallowed += 1
            return
        await self.app(scope, receive, send)


async def _nowhere(message):
    pass


def entries(folder, **which):
    """All that is in the log, read anew."""
    with open_log(folder) as log:
        return log.entries(newest_first=False, **which)


def wait_for(found, *, seconds=12.0):
    """Ask until it is so; what it was at last."""
    until = time.monotonic() + seconds
    while not (last := found()) and time.monotonic() < until:
        time.sleep(0.05)
    return last


def so_many(folder, count, *, still=0.0):
    """Whether the log comes to hold so many entries, and holds no more a while later."""
    found = wait_for(lambda: len(entries(folder)) >= count)
    time.sleep(still)
    assert len(entries(folder)) == count, f"{len(entries(folder))} in the log, {count} wanted"
    return bool(found)
