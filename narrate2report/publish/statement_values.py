"""A deposit statement as values: what is printed and in which order, worded, but not yet laid out."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from narrate2report.publish.report_values import Fact, Moment, Picture

Reader = Literal["resident", "office"]
"""For whom it is printed: the office reads also how the records were paired and all sources of useful lives."""


@dataclass(frozen=True)
class Line:
    """A line of the account. `amount` has its sign; `number` is that of the charge, if it is one."""

    number: str
    told: str
    basis: str
    amount: str


@dataclass(frozen=True)
class Due:
    """A day by which something must be done, how it was counted, and who says so.

    `keep` is the safe day, with what is left to it; `by_words` the last one by the words of the table of law.
    """

    what: str
    keep: str
    left: str
    by_words: str
    source: str
    working: tuple[str, ...]
    asks: str
    late: bool = False
    """Whether the day to keep has passed."""
    over: bool = False
    """Whether the last day has passed too."""


@dataclass(frozen=True)
class Shown:
    """One entry of a record: what it says, in which words, when, and what was to be seen."""

    says: str
    quotes: tuple[str, ...]
    moments: tuple[Moment, ...]
    pictures: tuple[Picture, ...]
    remarks: tuple[str, ...] = ()
    unreviewed: bool = False


@dataclass(frozen=True)
class Side:
    """What one of the two walks shows. `none` says so where it shows nothing; `also` is what else it says there."""

    walk: str
    shown: tuple[Shown, ...]
    none: str = ""
    also: tuple[Shown, ...] = ()


@dataclass(frozen=True)
class Judged:
    """One change: what became of it, how a person judged it, and (for the office) why it was paired so."""

    id: str
    became: str
    verdict: str
    by: str
    why: str = ""
    because: tuple[str, ...] = ()
    unconfirmed: str = ""


@dataclass(frozen=True)
class Other:
    """Another way to put it right that was not charged."""

    what: str
    cost: str
    would_be: str
    why_not: str


@dataclass(frozen=True)
class Told:
    """A charge in full."""

    number: str
    title: str
    says: str
    amount: str
    before: Side
    after: Side
    judged: tuple[Judged, ...]
    facts: tuple[Fact, ...]
    working: tuple[str, ...]
    marks: tuple[str, ...] = ()
    others: tuple[Other, ...] = ()
    sources: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True)
class Kept:
    """A change that makes no charge, and why."""

    says: str
    judged: Judged
    why: str
    before: tuple[Moment, ...]
    after: tuple[Moment, ...]


@dataclass(frozen=True)
class Source:
    """A file that the statement rests on."""

    title: str
    file: str
    sha256: str
    facts: tuple[Fact, ...] = ()
    recordings: tuple[Fact, ...] = ()


@dataclass(frozen=True)
class Statement:
    """Everything that is printed, in order. `marks` stand on every page, `alarms` on the first.

    `due` holds every day, `counted` those that were counted alike as one.
    """

    title: str
    name: str
    reader: Reader
    reader_word: str
    marks: str
    alarms: tuple[str, ...]
    facts: tuple[Fact, ...]
    as_of: str
    account: tuple[Line, ...]
    total: Line
    total_told: str
    unit_of_money: str
    interest: tuple[str, ...]
    due: tuple[Due, ...]
    counted_by: tuple[str, ...]
    counted: tuple[Due, ...]
    can_do: tuple[str, ...]
    charges: tuple[Told, ...]
    open: tuple[Kept, ...]
    without_baseline: tuple[Kept, ...]
    not_charged: tuple[Kept, ...]
    law: tuple[Fact, ...]
    law_silent: str
    law_doubt: str
    method: tuple[Fact, ...]
    sources: tuple[Source, ...]
    cautions: tuple[str, ...]
    signs: str
    language: str = "en"
    words: dict[str, str] = field(default_factory=dict)
