"""Whether a desk kept what it was asked for, whatever it is a desk for."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from narrate2report.errors import NarrateError
from narrate2report.records.beside import journal_beside
from narrate2report.review.deciding import Deciding
from narrate2report.review.requests import Asked

AnyDesk = TypeVar("AnyDesk", bound=Deciding[Any, Any])


def keeping(record_of: Callable[[AnyDesk], object], by: str) -> Callable[[AnyDesk, Asked], bool]:
    """Asks a desk, and says whether a decision was kept; one that was refused has changed nothing at all."""

    def stands(desk: AnyDesk) -> object:
        journal = journal_beside(desk.path)
        return record_of(desk), desk.lines, journal.exists() and journal.read_bytes()

    def kept(desk: AnyDesk, wanted: Asked) -> bool:
        before = stands(desk)
        try:
            desk.decide(wanted, by, len(desk.lines))
        except NarrateError as error:
            refused = str(error)
        else:
            return True
        assert refused.splitlines() == [refused]
        assert stands(desk) == before
        return False

    return kept
