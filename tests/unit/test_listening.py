"""Serving: what is listened at, how it ends, what it says; the home network with a certificate that is renewed live."""

from __future__ import annotations

import os
import signal
import socket
import ssl
import subprocess
import sys
import threading
import time
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from ipaddress import IPv4Address

import pytest
from cryptography import x509

from pinfold.actions import home as kept
from pinfold.errors import NotFoundError, StoreError
from pinfold.store import starting
from pinfold.web import home_ca, home_server
from pinfold.web.listening import Asked, listen

HOME = IPv4Address("127.0.0.2")
"""Stands for this machine's address in a home network."""


@pytest.fixture
def site(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "settings"))
    folder = tmp_path / "plot"
    starting.from_sample(folder, "seed-garden")
    return folder


def free_port():
    """One that is free at both addresses, and the next one too."""
    while True:
        with socket.socket() as asks:
            asks.bind(("127.0.0.1", 0))
            port = asks.getsockname()[1]
        with socket.socket() as one, socket.socket() as two:
            try:
                one.bind((str(HOME), port))
                two.bind((str(HOME), port + 1))
            except OSError:
                continue
            return port


@contextmanager
def served(asked):
    lines, found, ready = [], [], threading.Event()
    thread = threading.Thread(target=listen, args=(asked, lines.append, lambda it: (found.append(it), ready.set())))
    thread.start()
    assert ready.wait(20)
    try:
        yield found[0], lines
    finally:
        found[0].stop()
        thread.join(15)
    assert not thread.is_alive()


def fetch(address, port, path, *, host=None, trusts=None):
    """Status and body, over TLS where an authority is trusted, and the server's certificate."""
    near = (address, 0) if address == str(HOME) else None  # so that the caller is no address of this machine's own
    with socket.create_connection((address, port), timeout=10, source_address=near) as wire:
        shown = None
        if trusts is not None:
            wire = ssl.create_default_context(cadata=trusts.decode()).wrap_socket(wire, server_hostname=address)
            shown = wire.getpeercert(binary_form=True)
        with wire:
            wire.sendall(
                f"GET {path} HTTP/1.1\r\nHost: {host or f'{address}:{port}'}\r\nConnection: close\r\n\r\n".encode()
            )
            answer = b""
            while chunk := wire.recv(65536):
                answer += chunk
    return int(answer.split()[1]), answer.partition(b"\r\n\r\n")[2], shown


def test_this_machine_alone_is_answered_unless_asked(site):
    with served(Asked(folder=site, port=0)) as (running, lines):
        port = int(running.url.rsplit(":", 1)[1].strip("/"))
        assert fetch("127.0.0.1", port, "/stand")[0] == 200
        with pytest.raises(ConnectionRefusedError):
            fetch(str(HOME), port, "/stand")
        assert lines == [f"pinfold is at {running.url}", "Ctrl-C stops it."]


def test_a_taken_port_is_told(site):
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        with pytest.raises(StoreError, match=f"port {port} on 127.0.0.1 cannot be had"):
            listen(Asked(folder=site, port=port), lambda line: None)
    for port in (-1, 70_000):
        with pytest.raises(StoreError, match="cannot be had"):
            listen(Asked(folder=site, port=port), lambda line: None)


def test_a_folder_that_is_none_is_told(tmp_path):
    with pytest.raises(NotFoundError, match="pinfold new"):
        listen(Asked(folder=tmp_path / "none"), lambda line: None)


@pytest.mark.parametrize("address", ["8.8.8.8", "127.0.0.1"])
def test_the_open_internet_is_not_served(site, address, monkeypatch):
    monkeypatch.setattr(home_server, "home_address", lambda: IPv4Address(address))
    with pytest.raises(StoreError, match="no address of a home network"):
        listen(Asked(folder=site, port=0, home=True), lambda line: None)


def test_without_a_certificate_the_home_network_is_served_in_the_clear_and_told_so(site):
    with served(Asked(folder=site, port=free_port(), home=True, address=HOME)) as (running, lines):
        port = int(running.url.rsplit(":", 1)[1].strip("/"))
        assert fetch(str(HOME), port, "/pair")[0] == 200
        assert fetch(str(HOME), port, "/stand")[0] == 403
        assert fetch(str(HOME), port, "/stand", host=f"127.0.0.1:{port}")[0] == 403
        assert f"http://{HOME}:{port}/" in " ".join(lines)
        assert "in the clear" in " ".join(lines)


@pytest.fixture
def authority(site):
    made = home_ca.make_ca(HOME, home_server.machine_name(), datetime.now(UTC))
    kept.keep("ca.key", made.key)
    kept.keep("ca.pem", made.certificate)
    return made


def test_with_a_certificate_the_home_network_is_served_over_tls(site, authority):
    with served(Asked(folder=site, port=free_port(), home=True, address=HOME)) as (running, lines):
        port = int(running.url.rsplit(":", 1)[1].strip("/"))
        assert fetch(str(HOME), port, "/pair", trusts=authority.certificate)[0] == 200
        assert fetch(str(HOME), port + 1, "/ca.pem")[1] == authority.certificate
        assert fetch(str(HOME), port + 1, "/pair/trust")[0] == 200
        assert fetch(str(HOME), port + 1, "/pair")[0] == 403
        assert fetch("127.0.0.1", port, "/stand")[0] == 200
        with pytest.raises((ssl.SSLError, ConnectionError)):
            fetch(str(HOME), port, "/pair", trusts=home_ca.make_ca(HOME, "x", datetime.now(UTC)).certificate)
        assert f"https://{HOME}:{port}/" in " ".join(lines)


def test_plain_is_plain_even_with_a_certificate(site, authority):
    with served(Asked(folder=site, port=free_port(), home=True, plain=True, address=HOME)) as (running, _):
        port = int(running.url.rsplit(":", 1)[1].strip("/"))
        assert fetch(str(HOME), port, "/pair")[0] == 200


def test_the_certificate_is_renewed_while_serving(site, authority, monkeypatch):
    monkeypatch.setattr(home_server, "_LOOKED_AFTER", 0.05)
    monkeypatch.setattr(home_server.renewing, "__kwdefaults__", {"every": 0.05})
    with served(Asked(folder=site, port=free_port(), home=True, address=HOME)) as (running, _):
        port = int(running.url.rsplit(":", 1)[1].strip("/"))
        first = fetch(str(HOME), port, "/pair", trusts=authority.certificate)[2]
        real = datetime.now(UTC)
        monkeypatch.setattr(kept, "now", lambda: real + timedelta(days=370))
        monkeypatch.setattr(home_ca, "_BACKDATED", timedelta(days=371))  # so that today's clock takes the new one
        end = time.monotonic() + 10
        while (later := fetch(str(HOME), port, "/pair", trusts=authority.certificate)[2]) == first:
            assert time.monotonic() < end, "it was not renewed"
            time.sleep(0.05)
        old, new = x509.load_der_x509_certificate(first), x509.load_der_x509_certificate(later)
        assert new.not_valid_before_utc != old.not_valid_before_utc


def test_a_home_certificate_of_another_network_is_told(site):
    made = home_ca.make_ca(IPv4Address("192.168.7.5"), "x", datetime.now(UTC))
    kept.keep("ca.key", made.key)
    kept.keep("ca.pem", made.certificate)
    with pytest.raises(StoreError, match="another network"):
        listen(Asked(folder=site, port=free_port(), home=True, address=HOME), lambda line: None)


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_a_signal_ends_it_cleanly(site, number):
    program = (
        "import sys\nfrom pathlib import Path\nfrom pinfold.web.listening import Asked, listen\n"
        "listen(Asked(folder=Path(sys.argv[1]), port=0), print, lambda it: print('ready', flush=True))\nprint('ended')\n"
    )
    made = subprocess.Popen(
        [sys.executable, "-c", program, str(site)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env=os.environ,
    )
    try:
        while "ready" not in made.stdout.readline():
            pass
        made.send_signal(number)
        out, err = made.communicate(timeout=15)
    finally:
        made.kill()
    assert (made.returncode, out.strip(), err) == (0, "ended", "")
