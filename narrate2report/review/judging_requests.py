"""What a person can ask for of a comparison, as values; nothing is checked here but its form."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from narrate2report.records.comparison import Became, Side, Verdict
from narrate2report.review.requests import Asked, Ids, Redo, Text, Undo


class Confirm(Asked):
    """These changes are paired rightly, and became what they are said to have become."""

    action: Literal["confirm"] = "confirm"
    changes: Ids


class SetOutcome(Asked):
    """This change became something else than it is said to have become."""

    action: Literal["outcome"] = "outcome"
    change: str
    outcome: Became


class Pair(Asked):
    """This entry of one of the records is what the change is about, in place of those of that record that it has."""

    action: Literal["pair"] = "pair"
    change: str
    side: Side
    entry: str
    outcome: Became | None = None


class Join(Asked):
    """These changes are one: the first takes over the entries of the others."""

    action: Literal["join"] = "join"
    changes: Annotated[tuple[str, ...], Field(min_length=2)]
    outcome: Became | None = None


class Split(Asked):
    """These entries are another flaw: they go into a change of their own."""

    action: Literal["split"] = "split"
    change: str
    before: tuple[str, ...] = ()
    after: tuple[str, ...] = ()


class Judge(Asked):
    """What a person makes of these changes."""

    action: Literal["judge"] = "judge"
    changes: Ids
    verdict: Verdict
    why: Text | None = None


class Reopen(Asked):
    """These changes are to be decided again."""

    action: Literal["reopen"] = "reopen"
    changes: Ids


Decide = Annotated[Confirm | SetOutcome | Pair | Join | Split | Judge | Reopen, Field(discriminator="action")]
"""A request that decides something about the comparison as it stands."""

Request = Annotated[Decide | Undo | Redo, Field(discriminator="action")]
"""Anything that can be asked for."""
