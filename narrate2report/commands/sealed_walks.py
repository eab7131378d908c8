"""The sealed walks below a folder, each checked against its own seal: what a person decided, and the draft before."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from narrate2report.errors import BadInput, NarrateError
from narrate2report.records.below import folders_below
from narrate2report.records.beside import FINDINGS_ENDING, journal_beside, place_of, transcript_beside
from narrate2report.records.digest import digest_file
from narrate2report.records.files import read_bytes, read_record
from narrate2report.records.findings import Findings
from narrate2report.records.transcript import Engine, Stretch, Transcript
from narrate2report.review.spine import sentences
from narrate2report.seal.history import broken_history, draft_of
from narrate2report.seal.verifying import check_seal

TEXTS = frozenset({"journal", "transcript"})
"""What learning reads of a walk besides its record; recordings and pictures are not looked at."""


@dataclass(frozen=True)
class SealedWalk:
    """A record that a person decided and sealed, with the draft that its review began with."""

    name: str
    """Its findings file, below the folder."""
    path: Path
    draft: Findings
    decided: Findings

    def transcript(self) -> Transcript:
        """What was heard; of captions and notes, and where it is not there any more, the sentences of the record."""
        heard = transcript_beside(self.path)
        return read_record(heard, Transcript) if heard.is_file() else _told(self.draft)


@dataclass
class Sealed:
    """The sealed walks below a folder, and what was passed over."""

    walks: list[SealedWalk] = field(default_factory=list)
    unsealed: int = 0
    faults: list[str] = field(default_factory=list)
    """A line for each record that cannot be read, or that does not match its seal."""


def sealed_below(folder: Path) -> Sealed:
    """All sealed walks below a folder, each once: an addendum takes the place of the record that it adds to.

    Raises BadInput where the folder cannot be read.
    """
    found = Sealed()
    for name in _findings(folder):
        path = folder / name
        try:
            if read_record(path, Findings).seal is None:
                found.unsealed += 1
            else:
                found.walks.append(_checked(name, path))
        except NarrateError as error:
            found.faults.append(str(error))
    found.walks = _each_once(found.walks)
    return found


def _findings(folder: Path) -> Iterator[str]:
    for below in folders_below(folder):
        yield from (below.inside + name for name in below.files if name.endswith(FINDINGS_ENDING))


def _checked(name: str, path: Path) -> SealedWalk:
    """Raises BadInput where anything that is read of it is not as it was sealed."""
    findings, mismatches = check_seal(path)
    journal = read_bytes(journal_beside(path))
    for told in (*mismatches, *broken_history(findings, journal, journal_beside(path).name)):
        raise BadInput(f"{path}: does not match its seal: {told}")
    for file in findings.seal.files if findings.seal else ():
        place = place_of(file.file, path)
        if file.role in TEXTS and (not place.is_file() or digest_file(place).sha256 != file.sha256):
            raise BadInput(f"{path}: does not match its seal: {file.file} is not the {file.role} that was sealed")
    return SealedWalk(name, path, draft_of(findings, journal), findings)


def _each_once(walks: list[SealedWalk]) -> list[SealedWalk]:
    """Without records that another one adds to, and without copies."""
    amended = {walk.decided.amends.sha256 for walk in walks if walk.decided.amends}
    newest: dict[tuple[str, ...], SealedWalk] = {}
    for walk in walks:
        seal = walk.decided.seal
        if seal is not None and seal.sha256 not in amended:
            newest.setdefault(tuple(one.sha256 for one in walk.decided.recordings), walk)
    return list(newest.values())


def _told(draft: Findings) -> Transcript:
    return Transcript(
        recordings=draft.recordings,
        engine=Engine(name=draft.transcript.engine),
        time_precision="line",
        stretches=tuple(
            Stretch(recording=one.recording, start=one.start, end=one.end, text=one.text)
            for one in sentences(draft)
            if one.text
        ),
    )
