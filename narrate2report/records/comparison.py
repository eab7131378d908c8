"""What a comparison file holds: what became of every flaw between an earlier and a later walk of the same unit."""

from __future__ import annotations

from datetime import datetime
from pathlib import PurePosixPath
from typing import Annotated, Final, Literal, get_args

from pydantic import AfterValidator, Field

from narrate2report.records.base import Sha256, Value
from narrate2report.records.findings import Decision

CHANGES_SCHEMA: Final = "narrate2report/changes/1"

Became = Literal["unchanged", "worse", "better", "gone", "not_mentioned", "new", "no_baseline"]
"""What became of a flaw, as the contract words it."""

OUTCOMES: Final[tuple[Became, ...]] = get_args(Became)

Side = Literal["before", "after"]
"""Which of the two records."""

SIDES: Final[tuple[Side, ...]] = get_args(Side)

TO_JUDGE: Final[frozenset[Became]] = frozenset({"worse", "new", "no_baseline"})
"""What came with this tenancy, or may have: only these wait for a judgement. The others may be judged as well."""

Verdict = Literal["ordinary_wear", "beyond_ordinary_wear", "owners_matter", "open"]
"""How a person judges a change. The program never does."""

VERDICTS: Final[tuple[Verdict, ...]] = get_args(Verdict)


class Added(Value):
    """An addendum to a sealed record: its file in the folder of that record, and its seal."""

    file: str
    seal: Sha256
    sealed_at: str = Field(description="ISO 8601, by the clock of the computer that sealed")


class Compared(Value):
    """One of the two records: its file as it lies beside the comparison, and its seal, if it has one."""

    file: str
    seal: Sha256 | None = None
    addenda: tuple[Added, ...] = Field(
        default=(),
        description="the sealed addenda that were read with it, in order: the last one's entries were compared",
    )
    kind: str | None = None
    date: str | None = Field(default=None, description="ISO 8601")
    unit: str | None = None

    @property
    def stands_in(self) -> str:
        """The file whose entries were compared, beside the comparison: the record's, or that of its last addendum."""
        return self.files[-1]

    @property
    def last_seal(self) -> str | None:
        """The seal of that file, if it has one."""
        return self.addenda[-1].seal if self.addenda else self.seal

    @property
    def files(self) -> tuple[str, ...]:
        """The record and the addenda that were read with it, as they lie beside the comparison."""
        return (self.file, *(str(PurePosixPath(self.file).with_name(one.file)) for one in self.addenda))


class SameRoom(Value):
    """A room of the earlier record and what the later one calls it, where the names differ."""

    before: str
    after: str
    because: str = Field(default="", description="why they are taken to be one room")
    given: bool = Field(default=False, description="whether a person said so")


class UnclearRoom(Value):
    """A room of the later record of which it is not clear which earlier one it is, if any: a person is asked."""

    after: str
    candidates: tuple[str, ...] = Field(description="rooms of the earlier record that it may be")


def _somebody(by: str) -> str:
    if not by.strip():
        raise ValueError("nobody is named; a judgement is a person's")
    return by


def _moment(at: str) -> str:
    try:
        datetime.fromisoformat(at)
    except ValueError as error:
        raise ValueError(f"{at!r} is no moment of ISO 8601 such as 2026-05-10T09:00:00Z") from error
    return at


class Judgement(Value):
    """What a person says of a change, and when (ISO 8601)."""

    verdict: Verdict
    by: Annotated[str, AfterValidator(_somebody)]
    at: Annotated[str, AfterValidator(_moment)]
    why: str | None = None


class FlawChange(Value):
    """What became of one flaw, or of several that belong together, with the entries that show it."""

    id: str = Field(description="stands for good: named after the first entry that it was made for")
    outcome: Became
    before: tuple[str, ...] = Field(default=(), description="ids of entries of the earlier record")
    after: tuple[str, ...] = Field(default=(), description="ids of entries of the later record")
    because: tuple[str, ...] = Field(min_length=1)
    confirmed: bool = Field(default=False, description="whether a person has agreed to the pairing and its outcome")
    decided: Decision | None = Field(default=None, description="who agreed to it, or set it so, and when")
    judgement: Judgement | None = None

    def of(self, side: Side) -> tuple[str, ...]:
        """The ids of its entries in one of the two records."""
        return self.before if side == "before" else self.after

    @property
    def is_open(self) -> bool:
        """Whether a person still has to confirm it, or to judge it where it may have come with this tenancy."""
        return not self.confirmed or (self.outcome in TO_JUDGE and self.judgement is None)


class Comparison(Value):
    """The whole comparison of two records."""

    schema_: Literal["narrate2report/changes/1"] = Field(default=CHANGES_SCHEMA, alias="schema")
    before: Compared
    after: Compared
    rooms: tuple[SameRoom, ...] = Field(default=(), description="rooms that the two records name differently")
    unclear_rooms: tuple[UnclearRoom, ...] = Field(default=(), description="rooms that a person is asked about")
    changes: tuple[FlawChange, ...]

    @property
    def afterthoughts(self) -> tuple[Added, ...]:
        """Addenda to the earlier record that were sealed when the later walk was made, or after it."""
        day = self.after.date
        return tuple(one for one in self.before.addenda if day and one.sealed_at[: len(day)] >= day)
