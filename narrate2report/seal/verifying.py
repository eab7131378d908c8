"""A sealed record checked in layers, from the bytes of its file to what it rests on; every mismatch is listed.

Reading only. Where a layer cannot be reached (the file is no record any more) it says so and ends there.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from narrate2report.errors import BadInput, BrokenRecord
from narrate2report.records.beside import journal_beside, place_of, transcript_beside
from narrate2report.records.canonical import readable_bytes
from narrate2report.records.digest import Hashes
from narrate2report.records.files import as_it_stands, parse_record, read_bytes, read_record
from narrate2report.records.findings import Findings, Seal, SealedFile
from narrate2report.records.transcript import Transcript
from narrate2report.seal.covering import belongings
from narrate2report.seal.decided import Open, decided
from narrate2report.seal.evidence import unsupported
from narrate2report.seal.history import broken_history, draft_of
from narrate2report.seal.mismatch import MISSING, PRESENT, Mismatch
from narrate2report.seal.sealing import seal_sha256
from narrate2report.seal.signing import is_signed


@dataclass(frozen=True)
class Expected:
    """What the person at the keyboard holds elsewhere: the hash that was told them, the firm's public key."""

    sha256: str | None = None
    public_key: str | None = None


@dataclass(frozen=True)
class Verified:
    """What was found. `records` are the sealed records that were read: the one asked for, then those it adds to."""

    records: tuple[tuple[Path, Findings], ...]
    mismatches: tuple[Mismatch, ...]


@dataclass
class _Check:
    """One run. Without `hashes` the files of a record are not read, but for its transcript and journal."""

    hashes: Hashes | None
    records: list[tuple[Path, Findings]] = field(default_factory=list)
    found: list[Mismatch] = field(default_factory=list)


def verify(path: Path, expected: Expected | None = None, hashes: Hashes | None = None) -> Verified:
    """Check a sealed record, its files and the sealed records before it; all mismatches, in the order of the layers.

    `hashes` is shared by whoever verifies several records, so that no film is read twice. Raises BadInput where the
    file cannot be read or holds a record without a seal: then there is nothing to verify.
    """
    return _verified(_Check(hashes or Hashes()), path, expected or Expected())


def verify_words(path: Path) -> Verified:
    """As `verify`, but for recordings and pictures, which are not read: what a record says, and what led to it."""
    return _verified(_Check(None), path, Expected())


def _verified(check: _Check, path: Path, expected: Expected) -> Verified:
    raw = read_bytes(path)
    findings = _record(check, path, raw)
    if findings is not None and findings.seal is None:
        raise BadInput(f"{path}: is not sealed, so nothing can be verified; to seal it: narrate2report seal FILE")
    while findings is not None and findings.seal is not None:
        check.records.append((path, findings))
        check.found += _seal(findings.seal, findings, path)
        if len(check.records) == 1:
            check.found += _held_elsewhere(findings.seal, path, expected)
        if check.hashes is not None:
            check.found += _files(check.hashes, findings, findings.seal, path)
        check.found += _journal(findings, path)
        check.found += _evidence(findings, path)
        check.found += _decisions(findings)
        findings, path = _before(check, findings, path)
    return Verified(tuple(check.records), tuple(check.found))


def check_seal(path: Path) -> tuple[Findings, tuple[Mismatch, ...]]:
    """A sealed record with what is wrong with its own file: form, hash, signature. Its other files stay unread.

    Raises BadInput where it cannot be read or is not sealed, BrokenRecord where it is no record.
    """
    check = _Check(None)
    findings = _record(check, path, read_bytes(path))
    if findings is None:
        raise BrokenRecord(f"{path}: {check.found[0].found}")
    if findings.seal is None:
        raise BadInput(f"{path}: is not sealed; only a sealed record gets an addendum, this one can just be reviewed")
    return findings, (*check.found, *_seal(findings.seal, findings, path))


def _record(check: _Check, path: Path, raw: bytes) -> Findings | None:
    """The record in the file. It is kept byte for byte as the program writes it, so that no flip goes unseen."""
    try:
        findings = parse_record(raw.decode("utf-8"), Findings)
    except (BrokenRecord, UnicodeDecodeError) as error:
        check.found.append(Mismatch("record", path.name, "its content", "a findings record", str(error)))
        return None
    written = readable_bytes(as_it_stands(findings))
    if findings.seal is not None and raw != written:
        line = _first_difference(raw, written)
        told = f"white space, order or spelling changed in line {line}"
        check.found.append(Mismatch("record", path.name, "its form", "the bytes that were sealed", told))
    return findings


def _first_difference(raw: bytes, written: bytes) -> int:
    same = next(
        (at for at, (a, b) in enumerate(zip(raw, written, strict=False)) if a != b), min(len(raw), len(written))
    )
    return raw[:same].count(b"\n") + 1


def _seal(seal: Seal, findings: Findings, path: Path) -> Iterator[Mismatch]:
    sha256 = seal_sha256(as_it_stands(findings))
    if sha256 != seal.sha256:
        yield Mismatch("seal", path.name, "the SHA-256 of the record", seal.sha256, sha256)
    if seal.signature is not None and not is_signed(seal.sha256, seal.signature):
        key = f"key {seal.signature.public_key[:16]}…"
        yield Mismatch("signature", path.name, "the signature", f"one by {key} over this seal", "another")


def _held_elsewhere(seal: Seal, path: Path, expected: Expected) -> Iterator[Mismatch]:
    if expected.sha256 is not None and seal.sha256 != expected.sha256:
        yield Mismatch("seal", path.name, "the seal that you hold", expected.sha256, seal.sha256)
    if expected.public_key is not None:
        found = seal.signature.public_key if seal.signature else "no signature"
        if found != expected.public_key:
            yield Mismatch("signature", path.name, "the key that signed", expected.public_key, found)


def _files(hashes: Hashes, findings: Findings, seal: Seal, path: Path) -> Iterator[Mismatch]:
    for file in seal.files:
        yield from _file(hashes, file, path)
    covered = {(file.role, file.file): file.sha256 for file in seal.files}
    for one in belongings(findings, path):
        sha256 = covered.get((one.role, one.file))
        if sha256 is None and one.needed:
            yield Mismatch("files", one.file, f"the {one.role}", "covered by the seal", "not among its files")
        elif sha256 is not None and one.sha256 not in {None, sha256}:
            yield Mismatch("files", one.file, f"the {one.role} that the record names", str(one.sha256), sha256)


def _file(hashes: Hashes, file: SealedFile, path: Path) -> Iterator[Mismatch]:
    try:
        place = place_of(file.file, path)
    except BrokenRecord as error:
        yield Mismatch("files", file.file, f"the {file.role}", "a file beside the record", str(error))
        return
    found = hashes.of(place)
    if found is None:
        is_there = place.exists() or place.is_symlink()
        yield Mismatch("files", file.file, f"the {file.role}", PRESENT, "not to be read" if is_there else MISSING)
        return
    if found.bytes != file.bytes:
        yield Mismatch("files", file.file, "its size", f"{file.bytes} bytes", f"{found.bytes} bytes")
    if found.sha256 != file.sha256:
        yield Mismatch("files", file.file, "its SHA-256", file.sha256, found.sha256)


def _journal(findings: Findings, path: Path) -> tuple[Mismatch, ...]:
    journal = journal_beside(path)
    return broken_history(findings, journal.read_bytes(), journal.name) if journal.is_file() else ()


def _evidence(findings: Findings, path: Path) -> Iterator[Mismatch]:
    transcript, heard = transcript_beside(path), None
    if transcript.is_file():
        try:
            heard = read_record(transcript, Transcript)
        except BrokenRecord as error:
            yield Mismatch("evidence", transcript.name, "its content", "a transcript", str(error))
    yield from unsupported(findings, heard)


def _decisions(findings: Findings) -> Iterator[Mismatch]:
    record = decided(findings)
    if isinstance(record, Open):
        for told in (*record.named_entries(), *record.named_gaps()):
            yield Mismatch("decisions", told, "decided by a person", "yes", "no")


def _before(check: _Check, findings: Findings, path: Path) -> tuple[Findings | None, Path]:
    """The sealed record that this one adds to, with what does not fit between the two put down."""
    amends, seal = findings.amends, findings.seal
    if amends is None:
        if seal is not None and seal.previous is not None:
            check.found.append(
                Mismatch("addendum", path.name, "the seal before it", "none, as it adds to nothing", seal.previous)
            )
        return None, path
    if seal is not None and seal.previous != amends.sha256:
        check.found.append(Mismatch("addendum", path.name, "the seal before it", amends.sha256, str(seal.previous)))
    try:
        place = place_of(amends.file, path)
        if place in [one for one, _ in check.records]:
            raise BrokenRecord("a record that adds to itself")
        before = _record(check, place, read_bytes(place))
    except (BadInput, BrokenRecord) as error:
        check.found.append(Mismatch("addendum", amends.file, "the record before it", "present", str(error)))
        return None, path
    if before is not None:
        check.found += _continued(findings, path, before, amends.file)
    return before, place


def _continued(findings: Findings, path: Path, before: Findings, name: str) -> Iterator[Mismatch]:
    """An addendum starts from the record that it names, sealed as it names it."""
    wanted = findings.amends.sha256 if findings.amends else None
    found = before.seal.sha256 if before.seal else "no seal"
    if found != wanted:
        yield Mismatch("addendum", name, "its seal", str(wanted), found)
    journal = journal_beside(path)
    if not journal.is_file():
        return
    try:
        start = draft_of(findings, journal.read_bytes())
    except BrokenRecord:
        return  # told in the layer of the journal
    if start.model_copy(update={"amends": before.amends}) != before.model_copy(update={"seal": None}):
        yield Mismatch("addendum", path.name, "what it started from", f"the record in {name}", "another")
