"""`verify FILE`: whether a sealed record and all it rests on are as they were, and everything that is not."""

from __future__ import annotations

from pathlib import Path

from rich.console import Console

from narrate2report.commands.sealed_walk import telling
from narrate2report.errors import BadInput
from narrate2report.records.findings import Findings
from narrate2report.seal.signing import read_public_key
from narrate2report.seal.verifying import Expected, Verified
from narrate2report.seal.verifying import verify as check
from narrate2report.wording import counted

MATCHES, DIFFERS = 0, 1
HEX_DIGITS = 64


def verify(file: Path, sha256: str | None, key: Path | None, *, quiet: bool = False) -> int:
    """Print one line a mismatch, or what holds; 0 when all matches, 1 when not.

    Raises BadInput where there is nothing to verify: no such file, no seal, no such key.
    """
    wanted = Expected(sha256=_hash(sha256), public_key=read_public_key(key) if key else None)
    hashes = telling(Console(stderr=True, highlight=False, markup=False), quiet=quiet)
    verified = check(file, wanted, hashes)
    console = Console(highlight=False, markup=False)
    for mismatch in verified.mismatches:
        console.print(str(mismatch), soft_wrap=True)
    if verified.mismatches:
        console.print(f"{file}: {counted(len(verified.mismatches), 'mismatch', 'mismatches')}", soft_wrap=True)
        return DIFFERS
    if not quiet:
        _tell(console, verified)
    return MATCHES


def _hash(typed: str | None) -> str | None:
    """The 64 digits as they may be copied out of a letter: in capitals, in groups."""
    if typed is None:
        return None
    digits = "".join(typed.split()).lower()
    if len(digits) != HEX_DIGITS or not set(digits) <= set("0123456789abcdef"):
        raise BadInput(f"--seal: a seal has {HEX_DIGITS} digits from 0 to 9 and a to f; copy it anew")
    return digits


def _tell(console: Console, verified: Verified) -> None:
    for path, findings in verified.records:
        for line in _told(path, findings):
            console.print(line, soft_wrap=True)
    console.print("All of it matches. Compare the seal with the one that was sent when it was made.")


def _told(path: Path, findings: Findings) -> list[str]:
    seal = findings.seal
    if seal is None:
        return []
    signed = f"signed with key {seal.signature.public_key}" if seal.signature else "not signed"
    entries = counted(len(findings.entries), "entry", "entries")
    return [
        f"{path}: sealed by {seal.sealed_by} at {seal.sealed_at}, {signed}",
        f"  “{seal.statement}”",
        f"  seal {seal.sha256}, over {entries} and {counted(len(seal.files), 'file')}",
        *([f"  adds to {findings.amends.file}, seal {findings.amends.sha256}"] if findings.amends else []),
    ]
