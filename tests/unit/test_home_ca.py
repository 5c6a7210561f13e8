"""The home certificate, seen through another program's eyes: the verifier of the cryptography library, and TLS itself."""

from __future__ import annotations

import socket
import ssl
import stat
import threading
from datetime import UTC, datetime, timedelta
from ipaddress import IPv4Address, ip_address

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID
from cryptography.x509.verification import PolicyBuilder, Store, VerificationError

from pinfold.actions import home as kept
from pinfold.errors import StoreError
from pinfold.web import home_ca, home_server
from pinfold.web.home_ca import Pair

NOW = datetime(2026, 5, 1, 12, tzinfo=UTC)
ADDRESS = IPv4Address("192.168.7.5")


@pytest.fixture(scope="module")
def ca():
    return home_ca.make_ca(ADDRESS, "shed", NOW)


@pytest.fixture(scope="module")
def leaf(ca):
    return home_ca.make_leaf(ca, ADDRESS, "shed", NOW)


def verified(ca, leaf, name, moment=NOW):
    """Whether a verifier that trusts the authority takes the certificate for that name."""
    subject = x509.IPAddress(ip_address(name)) if name[0].isdigit() else x509.DNSName(name)
    authority = x509.load_pem_x509_certificate(ca.certificate)
    verifier = PolicyBuilder().store(Store([authority])).time(moment).build_server_verifier(subject)
    try:
        verifier.verify(x509.load_pem_x509_certificate(leaf), [])
    except VerificationError:
        return False
    return True


def forged(ca, *names):
    """A certificate that the authority's own key signs for any names: what its thief would make."""
    signer = home_ca._key(ca.key)
    issuer = x509.load_pem_x509_certificate(ca.certificate)
    key = ec.generate_private_key(ec.SECP256R1())
    return (
        x509.CertificateBuilder().subject_name(x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "x")]))
        .issuer_name(issuer.subject).public_key(key.public_key()).serial_number(7).not_valid_before(NOW)
        .not_valid_after(NOW + timedelta(days=9))
        .add_extension(x509.SubjectAlternativeName(names), critical=False)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(signer.public_key()), critical=False)
        .sign(signer, hashes.SHA256()).public_bytes(home_ca.serialization.Encoding.PEM)
    )  # fmt: skip


@pytest.mark.parametrize("name", ["192.168.7.5", "shed.local", "shed.home.arpa"])
def test_its_own_names_are_vouched_for(ca, leaf, name):
    assert verified(ca, leaf.certificate, name)


@pytest.mark.parametrize("name", ["192.168.7.6", "other.local", "shed", "example.org"])
def test_no_other_names_are(ca, leaf, name):
    assert not verified(ca, leaf.certificate, name)


def test_a_stolen_key_vouches_for_nothing_outside_its_network(ca):
    assert verified(ca, forged(ca, x509.DNSName("other.local")), "other.local")
    assert verified(ca, forged(ca, x509.IPAddress(ip_address("192.168.7.99"))), "192.168.7.99")
    for name in ("bank.example", "local.example", "example.com"):
        assert not verified(ca, forged(ca, x509.DNSName(name)), name)
        assert not verified(ca, forged(ca, x509.DNSName("other.local"), x509.DNSName(name)), "other.local")
    for address in ("192.168.8.1", "8.8.8.8", "10.0.0.1"):
        assert not verified(ca, forged(ca, x509.IPAddress(ip_address(address))), address)


def test_another_authority_is_not_taken(leaf):
    assert not verified(home_ca.make_ca(ADDRESS, "shed", NOW), leaf.certificate, "shed.local")


def test_it_is_good_from_yesterday_for_less_than_398_days(ca, leaf):
    """Phones refuse longer ones; 397 days are the whole span, first to last moment."""
    assert verified(ca, leaf.certificate, "shed.local", NOW - timedelta(hours=25))
    assert not verified(ca, leaf.certificate, "shed.local", NOW - timedelta(hours=27))
    assert verified(ca, leaf.certificate, "shed.local", NOW + timedelta(days=395))
    assert not verified(ca, leaf.certificate, "shed.local", NOW + timedelta(days=397))
    held = x509.load_pem_x509_certificate(leaf.certificate)
    assert held.not_valid_after_utc - held.not_valid_before_utc == timedelta(days=397)


def test_what_phones_ask_of_it_is_in_it(ca, leaf):
    authority, held = (x509.load_pem_x509_certificate(each) for each in (ca.certificate, leaf.certificate))
    basic = authority.extensions.get_extension_for_class(x509.BasicConstraints)
    assert (basic.critical, basic.value.ca, basic.value.path_length) == (True, True, 0)
    assert authority.extensions.get_extension_for_class(x509.NameConstraints).critical
    usage = held.extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
    assert list(usage) == [ExtendedKeyUsageOID.SERVER_AUTH]
    assert isinstance(held.public_key().curve, ec.SECP256R1)
    assert isinstance(held.signature_hash_algorithm, hashes.SHA256)
    assert not held.extensions.get_extension_for_class(x509.BasicConstraints).value.ca


def test_it_is_renewed_when_due(ca, leaf):
    names = ("192.168.7.5", "shed.local")
    due = home_ca.good_until(leaf.certificate) - timedelta(days=home_ca.RENEWED_DAYS)
    assert not home_ca.wants_renewal(leaf.certificate, ca.certificate, NOW, names)
    assert not home_ca.wants_renewal(leaf.certificate, ca.certificate, due, names)
    assert home_ca.wants_renewal(leaf.certificate, ca.certificate, due + timedelta(seconds=1), names)
    assert home_ca.wants_renewal(leaf.certificate, ca.certificate, NOW - timedelta(days=30), names)
    assert home_ca.wants_renewal(leaf.certificate, ca.certificate, NOW, ("192.168.7.6",))
    assert home_ca.wants_renewal(b"damaged", ca.certificate, NOW, names)
    assert home_ca.wants_renewal(leaf.certificate, home_ca.make_ca(ADDRESS, "shed", NOW).certificate, NOW, names)


def test_another_network_needs_another_authority(ca):
    with pytest.raises(StoreError, match="another network"):
        home_ca.make_leaf(ca, IPv4Address("192.168.8.5"), "shed", NOW)
    assert (
        home_ca.bound_to(ca.certificate)
        == "names ending in .local, names ending in .home.arpa, addresses in 192.168.7.0/24"
    )


@pytest.mark.parametrize("key", [b"", b"damaged"])
def test_damaged_files_are_told(ca, key):
    with pytest.raises(StoreError, match="damaged"):
        home_ca.make_leaf(Pair(certificate=ca.certificate, key=key), ADDRESS, "shed", NOW)
    with pytest.raises(StoreError, match="damaged"):
        home_ca.fingerprint(key)


def test_a_key_is_not_shown_with_its_record(ca):
    assert "PRIVATE" not in repr(ca)


@pytest.fixture
def settings(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "settings"))
    monkeypatch.setattr(kept, "now", lambda: NOW)
    return tmp_path / "settings" / "pinfold" / "home"


def test_keys_are_for_their_owner_only_and_go_when_removed(settings, ca):
    assert home_server.leaf_files(ADDRESS, "shed") is None
    kept.keep("ca.key", ca.key)
    kept.keep("ca.pem", ca.certificate)
    files = home_server.leaf_files(ADDRESS, "shed")
    assert files == (settings / "leaf.pem", settings / "leaf.key")
    for path in settings.iterdir():
        assert stat.S_IMODE(path.stat().st_mode) == 0o600, path
    assert stat.S_IMODE(settings.stat().st_mode) == 0o700
    kept.remove()
    assert list(settings.iterdir()) == []


def test_the_servers_certificate_is_kept_while_it_is_good(settings, ca, monkeypatch):
    kept.keep("ca.key", ca.key)
    kept.keep("ca.pem", ca.certificate)
    first = home_server.leaf_files(ADDRESS, "shed")[0].read_bytes()
    assert home_server.leaf_files(ADDRESS, "shed")[0].read_bytes() == first
    assert home_server.leaf_files(IPv4Address("192.168.7.77"), "shed")[0].read_bytes() != first
    monkeypatch.setattr(kept, "now", lambda: NOW + timedelta(days=380))
    later = home_server.leaf_files(ADDRESS, "shed")[0].read_bytes()
    assert verified(ca, later, "192.168.7.5", NOW + timedelta(days=500))


def test_tls_itself_takes_it_for_its_names_and_for_no_others():
    """A handshake by the standard library, which trusts this authority alone; the moment is the real one."""
    now = datetime.now(UTC)
    ca = home_ca.make_ca(ADDRESS, "shed", now)
    leaf = home_ca.make_leaf(ca, ADDRESS, "shed", now)
    assert handshake(ca, leaf, "shed.local")
    assert handshake(ca, leaf, "192.168.7.5")
    assert not handshake(ca, leaf, "other.local")


def handshake(ca, leaf, name):
    import tempfile
    from pathlib import Path

    with tempfile.TemporaryDirectory() as folder:
        held, key = Path(folder, "leaf.pem"), Path(folder, "leaf.key")
        held.write_bytes(leaf.certificate)
        key.write_bytes(leaf.key)
        server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        server.load_cert_chain(held, key)
    client = ssl.create_default_context(cadata=ca.certificate.decode())
    near, far = socket.socketpair()
    near.settimeout(5)
    far.settimeout(5)

    def serve():
        try:
            server.wrap_socket(far, server_side=True).close()
        except OSError:
            far.close()

    thread = threading.Thread(target=serve)
    thread.start()
    try:
        client.wrap_socket(near, server_hostname=name).close()
        return True
    except ssl.SSLCertVerificationError:
        return False
    finally:
        near.close()
        thread.join(5)
