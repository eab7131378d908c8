"""What the records of a folder are of: the head of each findings file, read again only when it changed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pydantic import ConfigDict

from narrate2report.batch.places import read_place
from narrate2report.errors import BrokenRecord, NarrateError
from narrate2report.records.base import Value
from narrate2report.records.files import parse_record
from narrate2report.records.findings import TranscriptFacts
from narrate2report.records.task import Lying
from narrate2report.records.transcript import Recording


class Head(Value):
    """What stands in a findings file of its recordings and of how they were read; all else is passed over."""

    model_config = ConfigDict(frozen=True, extra="ignore")

    recordings: tuple[Recording, ...]
    transcript: TranscriptFacts


@dataclass(frozen=True)
class Known:
    """A record that lies in a folder."""

    place: str
    changed_s: float
    head: Head | None
    fault: str | None = None
    """Why it cannot be read."""


class Records:
    """Reads records, and remembers those that did not change since."""

    def __init__(self) -> None:
        self._read: dict[Lying, Known] = {}

    def of(self, lying: Iterable[Lying]) -> list[Known]:
        """The records that lie there. One that cannot be read says why."""
        return [self._one(each) for each in lying]

    def _one(self, lying: Lying) -> Known:
        if lying not in self._read:
            self._read[lying] = _known(lying)
        return self._read[lying]


def _known(lying: Lying) -> Known:
    try:
        text = read_place(lying.place).decode("utf-8")
        head = parse_record(text, Head, "findings file")
    except UnicodeDecodeError:
        return Known(lying.place, lying.changed_s, None, f"{lying.place}: not JSON")
    except BrokenRecord as error:
        return Known(lying.place, lying.changed_s, None, f"{lying.place}: {error}")
    except NarrateError as error:
        return Known(lying.place, lying.changed_s, None, str(error))
    return Known(lying.place, lying.changed_s, head)
