"""Serving: this machine always, the home network when asked, until the owner stops it."""

from __future__ import annotations

import asyncio
import contextlib
import secrets
import signal
import socket
import threading
import webbrowser
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from ipaddress import IPv4Address
from pathlib import Path
from types import FrameType

import uvicorn
from starlette.types import ASGIApp

from pinfold.actions.scanning import keep_served
from pinfold.errors import NotFoundError, StoreError
from pinfold.web.desk import Desk
from pinfold.web.home_server import Home, home_of, renewing

HERE = "127.0.0.1"
PORT = 8765
MOST_AT_ONCE = 200
_HEAD_BYTES = 32_768
_GRACE_SECONDS = 3
Say = Callable[[str], None]


@dataclass(frozen=True, kw_only=True)
class Asked:
    """How to serve.

    Attributes:
        folder: the site folder.
        port: the same for this machine and the home network; 0 takes a free one.
        home: also the home network.
        plain: the home network without a certificate even where there is one.
        open_browser: open the first page.
        address: of this machine in the home network; found out when absent.
    """

    folder: Path
    port: int = PORT
    home: bool = False
    plain: bool = False
    open_browser: bool = False
    address: IPv4Address | None = None


def listen(asked: Asked, say: Say, ready: Callable[[Running], None] | None = None) -> None:
    """Serve until Ctrl-C, SIGTERM or `Running.stop`.

    Args:
        asked: how
        say: takes each line that the owner should read
        ready: called once everything answers; from then on `stop` may be called from any thread

    Raises:
        NotFoundError: there is no such site folder.
        StoreError: the port is taken, or the home network or its certificate cannot be used.
    """
    if not asked.folder.is_dir():
        raise NotFoundError(f"there is no folder {asked.folder}; 'pinfold new FOLDER' starts a site folder")
    with contextlib.ExitStack() as stack:
        sockets = [stack.enter_context(contextlib.closing(_bound(HERE, asked.port)))]
        port = int(sockets[0].getsockname()[1])
        home = home_of(address=asked.address, port=port, plain=asked.plain) if asked.home else None
        if home is not None:
            sockets += [stack.enter_context(contextlib.closing(_bound(*at))) for at in home.places]
        if home is not None:
            keep_served(asked.folder, home.url)
        desk = desk_for(asked.folder, port, home)
        running = Running(servers=_servers(desk, home, len(sockets)), url=f"http://{HERE}:{port}/", desk=desk)
        for line in (f"pinfold is at {running.url}", *(home.says if home else ()), "Ctrl-C stops it."):
            say(line)
        with _stopped_by_signals(running):
            asyncio.run(_serve(running, sockets, home, lambda: _ready(asked, running, ready)))


def desk_for(folder: Path, port: int, home: Home | None) -> Desk:
    """The desk of a server on a port, with a secret of its own."""
    here = frozenset({f"{HERE}:{port}", f"localhost:{port}"})
    return Desk(
        folder=folder, hosts=here | (home.hosts | home.handing if home else frozenset()), home=here,
        secret=secrets.token_bytes(32), handing=home.handing if home else frozenset(),
        pairing_at=home.url if home else "", home_note=" ".join(home.says) if home else "",
    )  # fmt: skip


@dataclass(frozen=True, kw_only=True, eq=False)
class Running:
    """What is being served.

    Attributes:
        servers: this machine's first.
        url: where this machine finds it.
        desk: of all of them.
    """

    servers: tuple[uvicorn.Server, ...]
    url: str
    desk: Desk

    def stop(self) -> None:
        """End all of them; answers under way are finished first."""
        for server in self.servers:
            server.should_exit = True


class _Server(uvicorn.Server):
    @contextlib.contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Signals are seen to once for all servers."""
        yield


def _servers(desk: Desk, home: Home | None, count: int) -> tuple[uvicorn.Server, ...]:
    from pinfold.web.app import make_app

    app = make_app(desk)
    configs = [_config(app)]
    if count > 1 and home is not None:
        configs.append(_config(app, home.files) if home.files else _config(app))
        configs += [_config(app) for _ in range(count - 2)]
    return tuple(_Server(config) for config in configs)


def _config(app: ASGIApp, files: tuple[Path, Path] | None = None) -> uvicorn.Config:
    config = uvicorn.Config(
        app, http="h11", ws="none", lifespan="off", log_config=None, log_level="critical", access_log=False,
        proxy_headers=False, server_header=False, h11_max_incomplete_event_size=_HEAD_BYTES, timeout_keep_alive=15,
        limit_concurrency=MOST_AT_ONCE, timeout_graceful_shutdown=_GRACE_SECONDS,
        ssl_certfile=files[0] if files else None, ssl_keyfile=files[1] if files else None,
    )  # fmt: skip
    config.load()
    return config


async def _serve(running: Running, sockets: list[socket.socket], home: Home | None, ready: Callable[[], None]) -> None:
    tasks = [
        asyncio.create_task(server.serve(sockets=[each])) for server, each in zip(running.servers, sockets, strict=True)
    ]
    extra = []
    context = running.servers[1].config.ssl if home is not None and home.files else None
    if home is not None and context is not None:
        extra.append(asyncio.create_task(renewing(home, context)))
    while not all(server.started for server in running.servers) and not any(task.done() for task in tasks):
        await asyncio.sleep(0.01)
    ready()
    try:
        await asyncio.gather(*tasks)
    finally:
        for task in extra:
            task.cancel()
        await asyncio.gather(*extra, return_exceptions=True)


def _ready(asked: Asked, running: Running, then: Callable[[Running], None] | None) -> None:
    if asked.open_browser:
        threading.Thread(target=webbrowser.open, args=(running.url,), daemon=True).start()
    if then is not None:
        then(running)


@contextlib.contextmanager
def _stopped_by_signals(running: Running) -> Iterator[None]:
    if threading.current_thread() is not threading.main_thread():
        yield
        return

    def stop(number: int, frame: FrameType | None) -> None:
        if running.servers[0].should_exit:
            for server in running.servers:
                server.force_exit = True
        running.stop()

    before = {number: signal.signal(number, stop) for number in (signal.SIGINT, signal.SIGTERM)}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


def _bound(address: str, port: int) -> socket.socket:
    made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        if hasattr(signal, "SIGHUP"):  # where it means that a port just left may be taken at once, and nothing more
            made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        made.bind((address, port))
        made.listen(128)
    except (OSError, OverflowError) as fault:
        made.close()
        why = getattr(fault, "strerror", None) or str(fault)
        raise StoreError(
            f"port {port} on {address} cannot be had ({why.lower()}); another program has it, or pinfold is being "
            "served already: stop that, or choose another with --port"
        ) from None
    made.settimeout(0)  # never waits
    return made
