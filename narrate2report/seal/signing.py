"""Seals signed with a key of the firm's: Ed25519 (RFC 8032). Keys are PEM files as other tools write them.

What is signed is one line of ASCII, `narrate2report seal ` and the hash of the seal, so that a signature can be
checked without this program.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

from cryptography.exceptions import InvalidSignature, UnsupportedAlgorithm
from cryptography.hazmat.primitives import serialization as pem
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey

from narrate2report.errors import BadInput
from narrate2report.records.files import read_bytes
from narrate2report.records.findings import Signature

SigningKey = Ed25519PrivateKey


def signed_text(sha256: str) -> bytes:
    """The bytes that a signature of a seal is over."""
    return f"narrate2report seal {sha256}".encode("ascii")


def sign(sha256: str, key: SigningKey) -> Signature:
    """A seal's hash, signed."""
    return Signature(public_key=_hex(key.public_key()), signature=key.sign(signed_text(sha256)).hex())


def is_signed(sha256: str, signature: Signature) -> bool:
    """Whether the holder of the key that the signature names signed this hash."""
    try:
        key = Ed25519PublicKey.from_public_bytes(bytes.fromhex(signature.public_key))
        key.verify(bytes.fromhex(signature.signature), signed_text(sha256))
    except (InvalidSignature, ValueError):
        return False
    return True


def read_signing_key(path: Path, passphrase: Callable[[], str]) -> SigningKey:
    """A private key (PKCS#8 PEM); `passphrase` is called where the file is locked by one.

    Raises BadInput where it is no such key or does not open.
    """
    raw = read_bytes(path)
    try:
        try:
            key = pem.load_pem_private_key(raw, password=None)
        except TypeError:  # how the library says that a passphrase is needed
            key = pem.load_pem_private_key(raw, password=passphrase().encode("utf-8"))
    except (ValueError, UnsupportedAlgorithm, TypeError) as error:
        raise BadInput(f"{path}: is no private key in PEM form, or this is not its passphrase") from error
    if not isinstance(key, Ed25519PrivateKey):
        raise BadInput(f"{path}: is a key of another kind; make one with: narrate2report key new FILE")
    return key


def read_public_key(path: Path) -> str:
    """A public key (PEM) as 64 hex digits. Raises BadInput where it is none."""
    try:
        key = pem.load_pem_public_key(read_bytes(path))
    except (ValueError, UnsupportedAlgorithm) as error:
        raise BadInput(f"{path}: is no public key in PEM form; ask the firm for its public key") from error
    if not isinstance(key, Ed25519PublicKey):
        raise BadInput(f"{path}: is a key of another kind than seals are signed with (Ed25519)")
    return _hex(key)


def public_beside(path: Path) -> Path:
    """`firm.public.pem` for `firm.pem`."""
    return path.with_name(f"{path.stem}.public.pem")


def make_key(path: Path, passphrase: str) -> Path:
    """Make a key pair: the private key at `path`, readable by its owner alone; the public one beside it, returned.

    An empty passphrase leaves the private key unlocked. Raises BadInput where either file is there already.
    """
    key = Ed25519PrivateKey.generate()
    lock = pem.BestAvailableEncryption(passphrase.encode("utf-8")) if passphrase else pem.NoEncryption()
    private = key.private_bytes(pem.Encoding.PEM, pem.PrivateFormat.PKCS8, lock)
    public = key.public_key().public_bytes(pem.Encoding.PEM, pem.PublicFormat.SubjectPublicKeyInfo)
    if public_beside(path).exists():
        raise BadInput(f"{public_beside(path)}: is there already; a key is never overwritten, choose another name")
    _write_new(path, private, 0o600)
    _write_new(public_beside(path), public, 0o644)
    return public_beside(path)


def _hex(key: Ed25519PublicKey) -> str:
    return key.public_bytes_raw().hex()


def _write_new(path: Path, content: bytes, mode: int) -> None:
    try:
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode)
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
    except FileExistsError as error:
        raise BadInput(f"{path}: is there already; a key is never overwritten, choose another name") from error
    except OSError as error:
        raise BadInput(f"{path}: cannot be written ({error.strerror or error}); choose another place") from error
