"""Signatures as RFC 8032 computes them, and keys as other tools write them."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat, PublicFormat
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.errors import BadInput
from narrate2report.records.files import write_record
from narrate2report.records.findings import Signature
from narrate2report.seal.decided import Decided
from narrate2report.seal.sealing import STATEMENT, Sealer, sealed
from narrate2report.seal.signing import (
    is_signed,
    make_key,
    public_beside,
    read_public_key,
    read_signing_key,
    sign,
    signed_text,
)
from narrate2report.seal.verifying import Expected, verify
from tests.records.makers import sha256
from tests.seal.walk import on_disk

RFC_8032 = [  # section 7.1, tests 1 to 3: secret key, public key, message, signature
    (
        "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        "",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
    ),
    (
        "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
    ),
    (
        "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
        "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
        "af82",
        "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
    ),
]


def unasked() -> str:
    raise AssertionError("no passphrase is needed")


@pytest.mark.parametrize(("secret", "public", "message", "signature"), RFC_8032)
def test_signatures_are_those_of_the_standard(
    secret: str, public: str, message: str, signature: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("narrate2report.seal.signing.signed_text", lambda _: bytes.fromhex(message))
    key = Ed25519PrivateKey.from_private_bytes(bytes.fromhex(secret))
    assert sign("0" * 64, key) == Signature(public_key=public, signature=signature)
    assert is_signed("0" * 64, Signature(public_key=public, signature=signature))


@given(sha256, st.integers(0, 127), st.integers(1, 15))
def test_a_signature_holds_for_its_seal_and_key_alone(seal: str, at: int, flip: int) -> None:
    key, other = Ed25519PrivateKey.generate(), Ed25519PrivateKey.generate()
    signature = sign(seal, key)
    assert is_signed(seal, signature)
    changed = f"{signature.signature[:at]}{int(signature.signature[at], 16) ^ flip:x}{signature.signature[at + 1 :]}"
    assert not is_signed(seal, signature.model_copy(update={"signature": changed}))
    assert not is_signed(seal[1:] + ("1" if seal[0] == "0" else "0"), signature)
    assert not is_signed(seal, signature.model_copy(update={"public_key": sign(seal, other).public_key}))


def test_a_key_pair_is_made_once_and_opens_with_its_passphrase(tmp_path: Path) -> None:
    public = make_key(tmp_path / "firm.pem", "open sesame")
    assert public == tmp_path / "firm.public.pem"
    key = read_signing_key(tmp_path / "firm.pem", lambda: "open sesame")
    assert sign("0" * 64, key).public_key == read_public_key(public)
    if os.name == "posix":
        assert (tmp_path / "firm.pem").stat().st_mode & 0o077 == 0
    with pytest.raises(BadInput, match="not its passphrase"):
        read_signing_key(tmp_path / "firm.pem", lambda: "guess")
    before = (tmp_path / "firm.pem").read_bytes()
    with pytest.raises(BadInput, match="never overwritten"):
        make_key(tmp_path / "firm.pem", "")
    public.unlink()
    with pytest.raises(BadInput, match="never overwritten"):
        make_key(tmp_path / "firm.pem", "")
    assert (tmp_path / "firm.pem").read_bytes() == before


def test_what_is_no_such_key_is_refused(tmp_path: Path) -> None:
    place = tmp_path / "other.pem"
    curve = ec.generate_private_key(ec.SECP256R1())
    place.write_bytes(curve.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption()))
    with pytest.raises(BadInput, match="key of another kind"):
        read_signing_key(place, unasked)
    with pytest.raises(BadInput, match="no public key"):
        read_public_key(place)
    place.write_bytes(curve.public_key().public_bytes(Encoding.PEM, PublicFormat.SubjectPublicKeyInfo))
    with pytest.raises(BadInput, match="another kind"):
        read_public_key(place)
    with pytest.raises(BadInput, match="no private key"):
        read_signing_key(place, unasked)
    with pytest.raises(BadInput, match="cannot be read"):
        read_public_key(tmp_path / "none.pem")


def test_a_signed_seal_tells_which_key_signed_it(ready: Path, tmp_path: Path) -> None:
    public = read_public_key(make_key(tmp_path / "firm.pem", ""))
    other = read_public_key(make_key(tmp_path / "rival.pem", ""))
    key = read_signing_key(tmp_path / "firm.pem", unasked)
    write_record(ready, sealed(Decided(on_disk(ready)), ready, Sealer("Ida Pell", STATEMENT, key)))
    assert verify(ready).mismatches == ()
    assert verify(ready, Expected(public_key=public)).mismatches == ()
    (wrong,) = verify(ready, Expected(public_key=other)).mismatches
    assert (wrong.layer, wrong.expected, wrong.found) == ("signature", other, public)


def test_an_unsigned_seal_is_not_that_of_a_key(closed: Path, tmp_path: Path) -> None:
    public = read_public_key(make_key(tmp_path / "firm.pem", ""))
    (missing,) = verify(closed, Expected(public_key=public)).mismatches
    assert missing.found == "no signature"


@pytest.mark.skipif(shutil.which("openssl") is None, reason="openssl is not on this machine")
def test_a_general_tool_takes_the_signature_too(tmp_path: Path) -> None:
    public = make_key(tmp_path / "firm.pem", "")
    signature = sign("ab" * 32, read_signing_key(tmp_path / "firm.pem", unasked))
    (tmp_path / "text").write_bytes(signed_text("ab" * 32))
    (tmp_path / "sig").write_bytes(bytes.fromhex(signature.signature))
    tool = ["openssl", "pkeyutl", "-verify", "-pubin", "-inkey", str(public), "-rawin"]
    done = subprocess.run([*tool, "-in", str(tmp_path / "text"), "-sigfile", str(tmp_path / "sig")], check=False)
    assert done.returncode == 0
    assert public == public_beside(tmp_path / "firm.pem")
