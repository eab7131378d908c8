"""An addendum: a record that goes on from a sealed one, which stays as it is, and names its seal."""

from __future__ import annotations

from pathlib import Path

from narrate2report.errors import BadInput, BrokenRecord
from narrate2report.records.addenda import NUMBERED
from narrate2report.records.beside import (
    FINDINGS_ENDING,
    journal_beside,
    stills_beside,
    transcript_beside,
    walk_name,
)
from narrate2report.records.files import write_record, write_whole
from narrate2report.records.findings import Amended, Findings
from narrate2report.seal.verifying import check_seal


def addendum_beside(path: Path) -> Path:
    """`flat.addendum-1.findings.json` for `flat.findings.json`, and so on counting."""
    numbered = NUMBERED.fullmatch(walk_name(path))
    base, number = (numbered[1], int(numbered[2])) if numbered else (walk_name(path), 0)
    return path.with_name(f"{base}.addendum-{number + 1}{FINDINGS_ENDING}")


def amended(findings: Findings, path: Path) -> Findings:
    """The record that an addendum to the sealed one at `path` starts from: the same, unsealed, naming its seal."""
    if findings.seal is None:
        raise ValueError("a record without a seal")
    return findings.model_copy(
        update={"seal": None, "amends": Amended(file=path.name, sha256=findings.seal.sha256)},
    )


def amend(path: Path, out: Path | None = None) -> Path:
    """Start an addendum in the folder of the sealed record, with a transcript of its own; returns its place.

    Recordings and pictures are shared, and the journal begins with the first decision. Raises BadInput where the
    record is not sealed or a file is in the way, BrokenRecord where the seal does not match; nothing is written then.
    """
    findings, mismatches = check_seal(path)
    if mismatches:
        raise BrokenRecord(f"{path}: no longer matches its seal, so nothing is added to it: {mismatches[0]}")
    out = out or addendum_beside(path)
    _check_place(path, out)
    try:
        if transcript_beside(path).is_file():
            write_whole(transcript_beside(out), transcript_beside(path).read_bytes())
        write_record(out, amended(findings, path))
    except BaseException:
        transcript_beside(out).unlink(missing_ok=True)
        raise
    return out


def _check_place(path: Path, out: Path) -> None:
    if out.parent.resolve() != path.parent.resolve():
        raise BadInput(f"{out}: an addendum lies in the folder of {path.name}, whose recordings it shares")
    for place in (out, transcript_beside(out), journal_beside(out), stills_beside(out)):
        if place.exists() or place.is_symlink():
            raise BadInput(f"{place}: is there already; amend that one once it is sealed, or choose another --out")
