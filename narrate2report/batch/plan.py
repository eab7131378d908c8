"""Which recordings of a folder are to be drafted: those whose content no record beside them is of.

A recording is known by its SHA-256. It is hashed only where that can matter: where it has the size of another one.
Without that it is taken for the one of its name and size in a record, if it was not written to since.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import PurePosixPath

from narrate2report.batch.known import Known
from narrate2report.batch.places import Here, beside, name_of
from narrate2report.errors import NarrateError
from narrate2report.records.beside import FINDINGS_ENDING
from narrate2report.records.task import Lying, Outcome, Settings, Task


@dataclass(frozen=True)
class Plan:
    """What is to be done in a folder, and what became of all else in it."""

    tasks: tuple[Task, ...]
    settled: tuple[Outcome, ...]
    """Recordings that are drafted already, and those that cannot be."""


def plan(here: Here, records: Sequence[Known], settings: Settings, digest: Callable[[str], str]) -> Plan:
    """Tasks for the recordings of a folder that has these records. `digest` tells the SHA-256 of a place."""
    return _Planning(here, records, settings, digest).planned()


class _Planning:
    def __init__(self, here: Here, records: Sequence[Known], settings: Settings, digest: Callable[[str], str]) -> None:
        self._here, self._records, self._settings, self._digest = here, records, settings, digest
        self._sizes = Counter(lying.bytes for lying in here.recordings)
        self._sizes.update({kept.bytes for record in records if record.head for kept in record.head.recordings})
        self._tasks: dict[str, Task] = {}
        """By the record that each will make."""
        self._new: dict[str, str] = {}
        """Recordings to be drafted, by their SHA-256, as far as that was asked for."""

    def planned(self) -> Plan:
        settled = [outcome for lying in self._here.recordings if (outcome := self._settle(lying)) is not None]
        return Plan(tuple(self._tasks.values()), tuple(settled))

    def _settle(self, lying: Lying) -> Outcome | None:
        """What became of a recording; None where it is to be drafted."""
        if (record := self._by_name(lying)) is not None:
            return self._already(lying, record, None)
        sha256 = None
        if self._sizes[lying.bytes] > 1:
            try:
                sha256 = self._digest(lying.place)
            except NarrateError as error:
                return Outcome(lying.place, "failed", note=str(error))
            if (found := self._by_content(sha256)) is not None:
                return self._already(lying, found[0], f"is the same recording as {found[1]}")
            if (twin := self._new.get(sha256)) is not None:
                return Outcome(lying.place, "already", note=f"is the same recording as {name_of(twin)}")
        refused = self._to_draft(lying)
        if refused is None and sha256 is not None:
            self._new[sha256] = lying.place
        return refused

    def _to_draft(self, lying: Lying) -> Outcome | None:
        name = PurePosixPath(name_of(lying.place)).stem + FINDINGS_ENDING
        findings = beside(lying.place, name)
        taken = next((record for record in self._records if name_of(record.place) == name), None)
        fault = None
        if taken is not None:
            fault = taken.fault or f"{findings}: is the record of another recording; give {name_of(lying.place)} a name"
        elif (other := self._tasks.get(findings)) is not None:
            fault = f"{lying.place}: its record would have the name of that of {name_of(other.recording)}; rename one"
        if fault is not None:
            return Outcome(lying.place, "failed", note=fault)
        self._tasks[findings] = Task(lying.place, findings, lying.bytes, self._settings)
        return None

    def _by_name(self, lying: Lying) -> Known | None:
        """The record that holds a recording of this name and size, which was not written to since."""
        name = name_of(lying.place)
        for record in self._records:
            for kept in record.head.recordings if record.head else ():
                if (kept.file, kept.bytes) == (name, lying.bytes) and lying.changed_s <= record.changed_s:
                    return record
        return None

    def _by_content(self, sha256: str) -> tuple[Known, str] | None:
        for record in self._records:
            for kept in record.head.recordings if record.head else ():
                if kept.sha256 == sha256:
                    return record, kept.file
        return None

    def _already(self, lying: Lying, record: Known, copy: str | None) -> Outcome:
        assert record.head is not None
        if copy is not None and copy.endswith(f" {name_of(lying.place)}"):
            copy = None  # the very file, written to without being changed
        made, now = record.head.transcript, self._settings
        otherwise = []
        if made.model_sha256 not in (None, now.model_sha256):
            otherwise.append(f"with another speech model ({made.model})")
        if made.vocabulary_version != now.vocabulary_version:
            otherwise.append("with other words")
        note = copy or (f"was drafted {' and '.join(otherwise)}" if otherwise else None)
        return Outcome(lying.place, "already", record.place, note=note)
