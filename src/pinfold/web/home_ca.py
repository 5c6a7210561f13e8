"""A certificate authority for one home network, and the server's certificate that it signs.

Made on request only. It is bound to one home network and to names under .local and home.arpa: a browser that honors
name constraints trusts it for nothing else. Its key lies in a file for its owner only and is never sent.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from ipaddress import IPv4Address, IPv4Network

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from pinfold.errors import StoreError

CA_DAYS = 3650
LEAF_DAYS = 397
"""Phones refuse servers' certificates that are good for longer."""
RENEWED_DAYS = 30
"""A certificate with fewer days left is made anew."""
ENDINGS = ("local", "home.arpa")
"""Names of machines in a home network end so."""
_BACKDATED = timedelta(hours=26)
"""Clocks off the grid run ahead and behind; a certificate is good from yesterday on."""


@dataclass(frozen=True, kw_only=True)
class Pair:
    """A certificate and its key.

    Attributes:
        certificate: PEM.
        key: PEM, without a password; for its owner's eyes only.
    """

    certificate: bytes
    key: bytes = field(repr=False)


def network_of(address: IPv4Address) -> IPv4Network:
    """The home network an address is in, taken as its 256 neighbors (common practice of home routers)."""
    return IPv4Network(f"{address}/24", strict=False)


def make_ca(address: IPv4Address, machine: str, now: datetime) -> Pair:
    """An authority for one home network alone.

    Args:
        address: of this machine in it
        machine: this machine's name, by which a phone's owner knows the authority again
        now: the moment
    """
    key = ec.generate_private_key(ec.SECP256R1())
    words = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, f"pinfold home of {machine}"[:60])])
    permitted = [*(x509.DNSName(ending) for ending in ENDINGS), x509.IPAddress(network_of(address))]
    certificate = (
        _begun(words, words, key.public_key(), (now - _BACKDATED, now + timedelta(days=CA_DAYS)))
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs_certificates=True), critical=True)
        .add_extension(x509.NameConstraints(permitted_subtrees=permitted, excluded_subtrees=None), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(key, hashes.SHA256())
    )
    return _pair(certificate, key)


def make_leaf(ca: Pair, address: IPv4Address, machine: str, now: datetime) -> Pair:
    """The server's own certificate, for its address and its names in the home network.

    Raises:
        StoreError: the authority's files are damaged, or the address lies outside its network.
    """
    issuer, signer = _certificate(ca.certificate), _key(ca.key)
    if not covers(ca.certificate, address):
        raise StoreError(
            f"the home certificate was made for another network than that of {address}; remove it on the page "
            "pairing/home and make one anew, or serve with --plain"
        )
    key = ec.generate_private_key(ec.SECP256R1())
    words = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, f"{machine}.local"[:60])])
    until = min(now + timedelta(days=LEAF_DAYS) - _BACKDATED, issuer.not_valid_after_utc)
    names = [x509.DNSName(name) for name in names_of(machine)]
    certificate = (
        _begun(words, issuer.subject, key.public_key(), (now - _BACKDATED, until))
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs_certificates=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName([*names, x509.IPAddress(address)]), critical=False)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(signer.public_key()), critical=False)
        .sign(signer, hashes.SHA256())
    )
    return _pair(certificate, key)


def names_of(machine: str) -> tuple[str, ...]:
    """A machine's names in a home network."""
    return tuple(f"{machine}.{ending}" for ending in ENDINGS)


def wants_renewal(leaf: bytes, ca: bytes, now: datetime, hosts: Iterable[str]) -> bool:
    """Whether the server's certificate is to be made anew.

    It is when few days are left, when it lies wholly in the future (a clock was put right), when an address or name is
    asked for that is not in it, when another authority signed it, or when it cannot be read.
    """
    try:
        certificate, issuer = _certificate(leaf), _certificate(ca)
        certificate.verify_directly_issued_by(issuer)
        held = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except (StoreError, ValueError, TypeError, InvalidSignature, x509.ExtensionNotFound):
        return True
    names = {*held.get_values_for_type(x509.DNSName), *(str(ip) for ip in held.get_values_for_type(x509.IPAddress))}
    left = certificate.not_valid_after_utc - now
    return left < timedelta(days=RENEWED_DAYS) or certificate.not_valid_before_utc > now or not names >= set(hosts)


def covers(ca: bytes, address: IPv4Address) -> bool:
    """Whether the authority may vouch for an address.

    Raises:
        StoreError: its file is damaged.
    """
    held = _certificate(ca).extensions.get_extension_for_class(x509.NameConstraints).value
    permitted = (each.value for each in held.permitted_subtrees or () if isinstance(each, x509.IPAddress))
    return any(isinstance(network, IPv4Network) and address in network for network in permitted)


def fingerprint(certificate: bytes) -> str:
    """SHA-256 of a certificate as phones show it.

    Raises:
        StoreError: its file is damaged.
    """
    return _certificate(certificate).fingerprint(hashes.SHA256()).hex(":").upper()


def good_until(certificate: bytes) -> datetime:
    """The moment a certificate ends, in UTC.

    Raises:
        StoreError: its file is damaged.
    """
    return _certificate(certificate).not_valid_after_utc


def bound_to(ca: bytes) -> str:
    """What the authority may vouch for, in words.

    Raises:
        StoreError: its file is damaged.
    """
    held = _certificate(ca).extensions.get_extension_for_class(x509.NameConstraints).value
    words = [
        f"names ending in .{each.value}" if isinstance(each, x509.DNSName) else f"addresses in {each.value}"
        for each in held.permitted_subtrees or ()
    ]
    return ", ".join(words)


def _begun(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePublicKey, good: tuple[datetime, datetime]
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder().subject_name(subject).issuer_name(issuer).public_key(key)
        .serial_number(x509.random_serial_number()).not_valid_before(good[0]).not_valid_after(good[1])
    )  # fmt: skip


def _usage(*, signs_certificates: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs_certificates, key_cert_sign=signs_certificates, crl_sign=False,
        content_commitment=False, key_encipherment=False, data_encipherment=False, key_agreement=False,
        encipher_only=False, decipher_only=False,
    )  # fmt: skip


def _pair(certificate: x509.Certificate, key: ec.EllipticCurvePrivateKey) -> Pair:
    form, plain = serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    pem = serialization.Encoding.PEM
    return Pair(certificate=certificate.public_bytes(pem), key=key.private_bytes(pem, form, plain))


def _certificate(pem: bytes) -> x509.Certificate:
    try:
        return x509.load_pem_x509_certificate(pem)
    except ValueError:
        raise StoreError("the home certificate's file is damaged; remove it on the page pairing/home") from None


def _key(pem: bytes) -> ec.EllipticCurvePrivateKey:
    try:
        key = serialization.load_pem_private_key(pem, password=None)
    except (ValueError, TypeError):
        key = None
    if not isinstance(key, ec.EllipticCurvePrivateKey):
        raise StoreError("the home certificate's key is damaged; remove it on the page pairing/home")
    return key
