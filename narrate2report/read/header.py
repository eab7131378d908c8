"""Which walk this is, as far as the speaker says so: kind, date, unit, people, each with the time it was said."""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate2report.read.numbers import ONES, TENS
from narrate2report.read.sentences import Sentence
from narrate2report.records.findings import Header, Sourced
from narrate2report.records.header import clashes
from narrate2report.records.moments import clock
from narrate2report.records.transcript import Transcript

OPENING, CLOSING = 8, 4
"""In how many sentences at the start and at the end the header facts are looked for."""

MONTHS = "january february march april may june july august september october november december".split()
ORDINAL_WORDS = {
    word: value
    for value, word in enumerate(
        "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth"
        " fifteenth sixteenth seventeenth eighteenth nineteenth twentieth".split(), 1
    )
} | {"thirtieth": 30}  # fmt: skip
DAY = r"(?:\d{1,2}(?:st|nd|rd|th)?|(?:twenty|thirty)[ -]\w+|\w+)"
DATES = (
    re.compile(rf"\b({DAY}) (?:of |day of )?({'|'.join(MONTHS)})\b", re.I),
    re.compile(rf"\b({'|'.join(MONTHS)}) (?:the )?({DAY})\b", re.I),
)
KINDS = (
    ("move_out", re.compile(r"\b(?:move|moving|check)[ -]?out\b|\bvacate\b|\boutgoing\b", re.I)),
    ("move_in", re.compile(r"\b(?:move|moving|check)[ -]?in\b|\bingoing\b", re.I)),
    (
        "periodic",
        re.compile(
            r"\b(?:periodic|routine|annual|quarterly|mid-?term)\b (?:\w+ )?(?:visit|inspection|check|walk)?",
            re.I,
        ),
    ),
)
NUMBER_WORD = "|".join((*ONES, *TENS))
UNIT = re.compile(
    rf"\b(?:unit|flat|apartment|suite|apt)\b (?:number )?"
    rf"((?:\d+|{NUMBER_WORD})(?:[ -](?:\d+|{NUMBER_WORD}))*(?: ?[a-h]\b)?|[a-h]\b)",
    re.I,
)
INSPECTOR = re.compile(
    r"\b(?:[Tt]his is|[Mm]y name is|[Mm]y name's|I'm|I am|[Ii]t's) (?:me, )?([A-Z][a-z]+(?: [A-Z][a-z]+)?)"
    r"(?=,| from| with| for| and|\.|$)"
)
DAYS = "Monday Tuesday Wednesday Thursday Friday Saturday Sunday".split()
OPENERS = "Okay Right Just Looking Going In Here Not The".split()
NOT_NAMES = frozenset({*DAYS, *OPENERS, *(month.title() for month in MONTHS)})


def read_header(sentences: Sequence[Sentence], transcript: Transcript) -> Header:
    """The facts that the speaker and the recording's clock give, with clashes shown and not settled."""
    spoken = (*sentences[:OPENING], *sentences[OPENING:][-CLOSING:])
    dates = _distinct((_spoken_date(s.text), s) for s in spoken)
    clocked = tuple(
        Sourced(value=recording.recorded_at[:10], source="the recording's own clock")
        for recording in transcript.recordings
        if recording.recorded_at
    )
    facts = {
        "kind": _distinct((_kind(s.text), s) for s in spoken)[:1],
        "unit": _distinct((_unit(s.text), s) for s in spoken),
        "inspector": _distinct((_inspector(s.text), s) for s in spoken)[:1],
        "date": (*(_with_year(date, clocked) for date in dates), *clocked),
    }
    return Header(**facts, clashes=clashes(facts))


def _distinct(found: object) -> tuple[Sourced, ...]:
    facts: dict[str, Sourced] = {}
    for value, sentence in found:  # type: ignore[attr-defined]
        if value and value not in facts:
            facts[value] = Sourced(value=value, source=f"spoken at {clock(sentence.start)}")
    return tuple(facts.values())


def _with_year(spoken: Sourced, clocked: Sequence[Sourced]) -> Sourced:
    """A spoken `--03-04` with the year of the recording's clock, if it has one and the days agree."""
    for one in clocked:
        if one.value[4:] == spoken.value[1:]:
            return Sourced(value=one.value, source=spoken.source)
    return spoken


def _spoken_date(text: str) -> str | None:
    """Month and day as ISO 8601 without a year: `--03-04`."""
    for order, pattern in enumerate(DATES):
        for match in pattern.finditer(text):
            day_word, month_word = (match.group(1), match.group(2)) if order == 0 else (match.group(2), match.group(1))
            day = _day(day_word)
            if day is not None:
                return f"--{MONTHS.index(month_word.lower()) + 1:02d}-{day:02d}"
    return None


def _day(word: str) -> int | None:
    word = word.lower().replace("-", " ")
    digits = re.match(r"\d+", word)
    if digits:
        value = int(digits.group())
    elif word in ORDINAL_WORDS:
        value = ORDINAL_WORDS[word]
    else:
        tens, _, ones = word.partition(" ")
        value = TENS.get(tens, -99) + ORDINAL_WORDS.get(ones, ONES.get(ones, -99)) if ones else ONES.get(word, 0)
    return value if 1 <= value <= 31 else None


def _kind(text: str) -> str | None:
    return next((kind for kind, pattern in KINDS if pattern.search(text)), None)


def _unit(text: str) -> str | None:
    match = UNIT.search(text)
    return re.sub(r"\s+", " ", match.group(1)).strip().lower() if match else None


def _inspector(text: str) -> str | None:
    match = INSPECTOR.search(text)
    if match and match.group(1).split()[0] not in NOT_NAMES:
        return match.group(1)
    return None
