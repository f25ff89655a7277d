"""Makes the shop's own certificate authority, which can vouch for the shop's server only, and its certificates."""

from collections.abc import Iterable
from datetime import datetime, timedelta
from ipaddress import ip_address, ip_network
from typing import NamedTuple

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric.ec import SECP256R1, EllipticCurvePrivateKey, generate_private_key
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from server.upkeep.certificate_names import Names, Network

AUTHORITY_DAYS = 3650
# Devices refuse certificates that run for longer than some 13 months, whoever vouches for them (from memory).
SERVER_DAYS = 397
_CLOCKS_DIFFER = timedelta(hours=1)
_FOR_SERVERS_ONLY = x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH])


class Issued(NamedTuple):
    """A certificate and its secret key."""

    certificate: x509.Certificate
    key: EllipticCurvePrivateKey


def make_authority(names: Names, networks: Iterable[Network], now: datetime) -> Issued:
    """Make an authority that devices will believe for these names, addresses and networks, and for no others."""
    key = generate_private_key(SECP256R1())
    subject = _named(f"Strawline authority of {names.hosts[0]}")
    allowed: list[x509.GeneralName] = [x509.DNSName(host) for host in names.hosts]
    allowed += [x509.IPAddress(ip_network(address)) for address in names.addresses]
    allowed += [x509.IPAddress(network) for network in networks]
    builder = (
        _begun(subject, subject, key, now, AUTHORITY_DAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_use(signs_certificates=True), critical=True)
        .add_extension(x509.NameConstraints(permitted_subtrees=allowed, excluded_subtrees=None), critical=True)
        .add_extension(_FOR_SERVERS_ONLY, critical=False)
    )
    return Issued(builder.sign(key, hashes.SHA256()), key)


def issue(authority: Issued, names: Names, now: datetime) -> Issued:
    """Make a server certificate for these names and addresses."""
    key = generate_private_key(SECP256R1())
    told: list[x509.GeneralName] = [x509.DNSName(host) for host in names.hosts]
    told += [x509.IPAddress(address) for address in names.addresses]
    issuer = x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.key.public_key())
    builder = (
        _begun(_named(names.hosts[0]), authority.certificate.subject, key, now, SERVER_DAYS)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_use(signs_certificates=False), critical=True)
        .add_extension(x509.SubjectAlternativeName(told), critical=False)
        .add_extension(_FOR_SERVERS_ONLY, critical=False)
        .add_extension(issuer, critical=False)
    )
    return Issued(builder.sign(authority.key, hashes.SHA256()), key)


def names_in(certificate: x509.Certificate) -> Names:
    """Give the names and addresses a server certificate carries."""
    told = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    addresses = told.get_values_for_type(x509.IPAddress)
    return Names(tuple(told.get_values_for_type(x509.DNSName)), tuple(ip_address(str(each)) for each in addresses))


def beyond(authority: x509.Certificate, names: Names) -> list[str]:
    """Give the names and addresses an authority cannot vouch for."""
    allowed = authority.extensions.get_extension_for_class(x509.NameConstraints).value.permitted_subtrees or []
    hosts = [each.value for each in allowed if isinstance(each, x509.DNSName)]
    networks = [ip_network(str(each.value)) for each in allowed if isinstance(each, x509.IPAddress)]
    outside = [name for name in names.hosts if not any(name == host or name.endswith(f".{host}") for host in hosts)]
    return outside + [str(each) for each in names.addresses if not any(each in network for network in networks)]


def _named(common_name: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, common_name[:64])])


def _begun(
    subject: x509.Name, issuer: x509.Name, key: EllipticCurvePrivateKey, now: datetime, days: int
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - _CLOCKS_DIFFER)
        .not_valid_after(now - _CLOCKS_DIFFER + timedelta(days=days))
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )


def _use(*, signs_certificates: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs_certificates,
        key_cert_sign=signs_certificates,
        crl_sign=signs_certificates,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        encipher_only=False,
        decipher_only=False,
    )
