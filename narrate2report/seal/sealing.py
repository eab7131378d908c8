"""A decided record becomes a sealed one: a hash over all of it and over every file that it rests on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from narrate2report.errors import BadInput, BrokenRecord
from narrate2report.records.beside import journal_beside, place_of, transcript_beside
from narrate2report.records.canonical import canonical_sha256
from narrate2report.records.files import read_record, record_json
from narrate2report.records.findings import Findings, Seal
from narrate2report.records.moments import stamp
from narrate2report.records.plain import NOT_TEXT, can_be_seen
from narrate2report.records.transcript import Transcript
from narrate2report.seal.covering import covered_files
from narrate2report.seal.decided import Decided
from narrate2report.seal.evidence import unsupported
from narrate2report.seal.history import broken_history
from narrate2report.seal.signing import SigningKey, sign

STATEMENT = (
    "I have gone through every entry of this record. To the best of my knowledge it states what was seen and said"
    " on this walk; what was not looked at is named as such."
)
"""What a person may declare when sealing; their own words are as good."""

UNSET = "0" * 64


@dataclass(frozen=True)
class Sealer:
    """Who seals, and what they declare; with a key of the firm's where the seal is to be signed."""

    by: str
    statement: str
    key: SigningKey | None = None

    def __post_init__(self) -> None:
        for what, words in (("name", self.by), ("statement", self.statement)):
            if not can_be_seen(words) or NOT_TEXT.search(words):
                raise BadInput(f"a seal needs a {what} in plain words, not {words!a}")


def sealed(record: Decided, path: Path, sealer: Sealer, at: datetime | None = None) -> Findings:
    """The record as it is to be written to `path`: sealed at `at` (now), byte for byte as `write_record` writes it.

    Nothing is written here. Raises BadInput for a sealed record or a file that is missing or another one, and
    BrokenRecord where journal or evidence do not fit, since such a seal would not verify.
    """
    findings = record.findings
    if findings.seal is not None:
        raise BadInput(f"{path}: is sealed already and stays as it is; to add to it: narrate2report amend FILE")
    _check_amended(findings, path)
    files = covered_files(findings, path)
    _check_it_would_verify(findings, path)
    seal = Seal(
        sha256=UNSET,
        sealed_at=stamp(at, "seconds"),
        sealed_by=sealer.by.strip(),
        statement=sealer.statement.strip(),
        previous=findings.amends.sha256 if findings.amends else None,
        files=files,
    )
    sha256 = seal_sha256(record_json(findings.model_copy(update={"seal": seal})))
    signature = sign(sha256, sealer.key) if sealer.key else None
    return findings.model_copy(update={"seal": seal.model_copy(update={"sha256": sha256, "signature": signature})})


def seal_sha256(content: Mapping[str, object]) -> str:
    """SHA-256 over the canonical form of a sealed record without that hash and without the signature.

    `content` is the record as the JSON object that stands in its file.
    """
    seal = content["seal"]
    if not isinstance(seal, dict):
        raise ValueError("a record without a seal")
    bare = {name: value for name, value in seal.items() if name not in {"sha256", "signature"}}
    return canonical_sha256({**content, "seal": bare})


def _check_amended(findings: Findings, path: Path) -> None:
    if findings.amends is None:
        return
    place = place_of(findings.amends.file, path)
    before = read_record(place, Findings)
    if before.seal is None or before.seal.sha256 != findings.amends.sha256:
        raise BadInput(f"{place}: has another seal than the one that {path.name} adds to")


def _check_it_would_verify(findings: Findings, path: Path) -> None:
    journal, transcript = journal_beside(path), transcript_beside(path)
    heard = read_record(transcript, Transcript) if transcript.is_file() else None
    found = [*broken_history(findings, journal.read_bytes(), journal.name), *unsupported(findings, heard)]
    if found:
        more = f", and {len(found) - 1} more" if len(found) > 1 else ""
        raise BrokenRecord(f"{path}: cannot be sealed, since it would not verify: {found[0]}{more}")
