"""What a person at the page or the terminal can ask for, as values; nothing is checked here but its form."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from narrate2report.records.base import Seconds, Value
from narrate2report.records.findings import Action, Assertion, Kind, Looked, Outcome, Party, Severity
from narrate2report.records.plain import NOT_TEXT, can_be_seen

LONGEST_TEXT = 2_000
"""Characters of anything typed: a remark is no letter."""
LONGEST_NAME = 200
"""Characters of who decides or seals."""


def _is_text(words: str) -> str:
    if NOT_TEXT.search(words):
        raise ValueError("holds characters that are no text")
    return words if can_be_seen(words) else ""


def _is_said(words: str) -> str:
    if not words:
        raise ValueError("holds nothing that can be seen")
    return words


Text = Annotated[str, StringConstraints(strip_whitespace=True, max_length=LONGEST_TEXT), AfterValidator(_is_text)]
"""What a person typed; what nobody could see of it is nothing."""
Said = Annotated[Text, AfterValidator(_is_said)]
"""What must be said: a name, a reason, a declaration."""
Name = Annotated[
    str,
    StringConstraints(strip_whitespace=True, max_length=LONGEST_NAME),
    AfterValidator(_is_text),
    AfterValidator(_is_said),
]
"""Who decides or seals."""
Identifier = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_]*(\.[a-z0-9_]+)?$", max_length=80)]
Ids = Annotated[tuple[str, ...], Field(min_length=1)]


class Asked(Value):
    """Anything that can be asked for names what it is."""

    action: str


class Facts(Value):
    """The fields of an entry that a person may set. What is not named stays as it was; null or "" empties it."""

    kind: Kind | None = None
    room: Identifier | None = None
    component: Identifier | None = None
    condition: Identifier | None = None
    assertion: Assertion | None = None
    outcome: Outcome | None = None
    action: Action | None = None
    party: Party | None = None
    quantity: Annotated[int, Field(ge=0, le=9_999)] | None = None
    direction: Literal["given", "returned"] | None = None
    attribute: Literal["material", "type", "count", "colour", "age"] | None = None
    value: Text | None = None
    where: Text | None = None
    size: Text | None = None
    severity: Severity | None = None
    pre_existing: bool | None = None
    note: Text | None = None
    start: Seconds | None = None
    end: Seconds | None = None


class Stretch(Value):
    """A piece of a recording."""

    recording: str
    start: Seconds
    end: Seconds


class Accept(Asked):
    """These entries are as they were read."""

    action: Literal["accept"] = "accept"
    entries: Ids


class Change(Asked):
    """This entry, with other facts."""

    action: Literal["change"] = "change"
    entry: str
    facts: Facts


class Drop(Asked):
    """These entries were read wrong."""

    action: Literal["drop"] = "drop"
    entries: Ids
    why: Text | None = None


class Withdraw(Asked):
    """This was said, but does not stand; the reason is part of the record."""

    action: Literal["withdraw"] = "withdraw"
    entry: str
    why: Said


class Reopen(Asked):
    """These entries are to be decided again."""

    action: Literal["reopen"] = "reopen"
    entries: Ids


class Add(Asked):
    """An entry that the reading did not find: of sentences, or of a stretch in which nothing was understood."""

    action: Literal["add"] = "add"
    sentences: tuple[str, ...] = ()
    stretch: Stretch | None = None
    facts: Facts


class Merge(Asked):
    """Several entries that say the same: the first takes over the evidence of the others."""

    action: Literal["merge"] = "merge"
    entries: Annotated[tuple[str, ...], Field(min_length=2)]


class Split(Asked):
    """One entry that says two things: a second one like it, to be changed on its own."""

    action: Literal["split"] = "split"
    entry: str


class TakeStill(Asked):
    """A picture for an entry: at a moment, or the sharpest of its statement where no moment is named."""

    action: Literal["still"] = "still"
    entry: str
    at: Seconds | None = None


class RemoveStill(Asked):
    """A picture that is not wanted."""

    action: Literal["no_still"] = "no_still"
    entry: str
    sha256: str


class Gap(Value):
    """A component of a room that one would expect to be spoken of."""

    room: str
    component: str


class Acknowledge(Asked):
    """What is to be said of components that were not spoken of."""

    action: Literal["acknowledge"] = "acknowledge"
    gaps: Annotated[tuple[Gap, ...], Field(min_length=1)]
    looked: Looked
    note: Text | None = None


class Undo(Asked):
    """Take back the newest decision that stands."""

    action: Literal["undo"] = "undo"


class Redo(Asked):
    """Let the newest decision that was taken back stand again."""

    action: Literal["redo"] = "redo"


Decide = Annotated[
    Accept | Change | Drop | Withdraw | Reopen | Add | Merge | Split | TakeStill | RemoveStill | Acknowledge,
    Field(discriminator="action"),
]
"""A request that decides something about the record as it stands."""

Request = Annotated[Decide | Undo | Redo, Field(discriminator="action")]
"""Anything that can be asked for."""
