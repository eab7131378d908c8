"""Which walk this is, as far as the speaker says so: kind, date, unit and inspector, each with the time it was said."""

from __future__ import annotations

import re
from calendar import monthrange
from collections.abc import Iterable, Sequence

from narrate2report.read.speech.sentences import Sentence
from narrate2report.records.findings import Header, Sourced
from narrate2report.records.header import OWN_CLOCK, SPOKEN, clashes, in_common
from narrate2report.records.moments import clock
from narrate2report.records.number_words import ONES, TENS
from narrate2report.records.transcript import Transcript

OPENING, CLOSING = 8, 4
"""In how many sentences at the start and at the end the header facts are looked for."""

LEAP_YEAR = 2000
"""A day without a year may be the 29th of February."""

MONTHS = "january february march april may june july august september october november december".split()
ORDINALS = {
    word: value
    for value, word in enumerate(
        "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth"
        " fifteenth sixteenth seventeenth eighteenth nineteenth twentieth".split(),
        1,
    )
} | {"thirtieth": 30}
NUMBERS = "|".join(sorted((*ONES, *TENS), key=len, reverse=True))
COUNTED = "|".join(sorted(ORDINALS, key=len, reverse=True))
MONTH = "|".join(MONTHS)
DAY = rf"(?:\d{{1,2}}(?:st|nd|rd|th)?|(?:twenty|thirty)[ -](?:{COUNTED}|{NUMBERS})|{COUNTED}|{NUMBERS})"
YEAR = rf"(?:,? (?P<year>\d{{4}}|twenty[ -](?:{NUMBERS})(?:[ -](?:{NUMBERS}))?))?"
DATES = (
    re.compile(rf"\b(?P<day>{DAY}) of (?P<month>{MONTH})\b{YEAR}", re.I),
    re.compile(rf"\b(?P<month>{MONTH}) (?:the )?(?P<day>{DAY})\b{YEAR}", re.I),
)
ISO_DATE = re.compile(r"\b(20\d\d)-(\d\d)-(\d\d)\b")
HOME = r"(?:to )?(?:the )?(?:unit|flat|apartment|suite|apt)\b"
WALK = rf"(?:inspection|visit|walk|walkthrough|walk-through|video|report|check|tour|day|for|of|at|today|{HOME}|,|\.|$)"
VISIT = r"(?:inspection|visit|check|walk|for\b|at\b|of\b|,|\.|$)"
KINDS = (
    ("move_out", re.compile(rf"\b(?:move|moving|check|checking)[ -]?out\b(?= ?{WALK})|\bmove[ -]out\b", re.I)),
    ("move_in", re.compile(rf"\b(?:move|moving|check|checking)[ -]?in\b(?= ?{WALK})|\bmove[ -]in\b", re.I)),
    ("periodic", re.compile(rf"\b(?:periodic|routine|annual|quarterly|mid-?term)\b(?= ?{VISIT})", re.I)),
)
NUMBER = rf"(?:\d+|\b(?:{NUMBERS})\b)(?:[ -](?:\d+|(?:{NUMBERS})\b))*"
AS_HEARD = {"b": "be bee bi by", "c": "ce cee sea see", "d": "de dee di", "e": "ee", "f": "ef eff", "g": "ge gee jee"}
"""How a recogniser writes the letter after a number when it takes the two for one word: `two-by` of "two B"."""

HEARD = {spelling: letter for letter, spellings in AS_HEARD.items() for spelling in spellings.split()}
UNIT = re.compile(
    rf"\b(?:unit|flat|apartment|suite|apt)\b (?:number )?"
    rf"(?:(?P<number>{NUMBER})(?:[ -]?(?P<letter>[A-Ha-h])\b|-(?P<heard>{'|'.join(HEARD)})\b)?|(?P<alone>[B-H])\b)",
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
        Sourced(value=recording.recorded_at[:10], source=OWN_CLOCK)
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


def _distinct(found: Iterable[tuple[str | None, Sentence]]) -> tuple[Sourced, ...]:
    """Each value once, with the first time it was said. A number in words and in figures is one value."""
    facts: dict[str, Sourced] = {}
    for value, sentence in found:
        if value and in_common(value) not in facts:
            facts[in_common(value)] = Sourced(value=value, source=f"{SPOKEN}{clock(sentence.start)}")
    return tuple(facts.values())


def _with_year(spoken: Sourced, clocked: Sequence[Sourced]) -> Sourced:
    """A spoken `--03-04` with the year of the recording's clock, if it has one and the days agree."""
    for one in clocked:
        if one.value[4:] == spoken.value[1:]:
            return Sourced(value=one.value, source=spoken.source)
    return spoken


def _spoken_date(text: str) -> str | None:
    """A day as ISO 8601, without its year (`--03-04`) where none was said. No impossible day is read."""
    if written := _written_date(text):
        return written
    for pattern in DATES:
        for match in pattern.finditer(text):
            month, day = MONTHS.index(match["month"].lower()) + 1, _day(match["day"])
            year = _year(match["year"]) if match["year"] else None
            if day is not None and 1 <= day <= monthrange(year or LEAP_YEAR, month)[1]:
                return f"{year if year else '-'}-{month:02d}-{day:02d}"
    return None


def _written_date(text: str) -> str | None:
    """`2026-03-09`, as notes and captions have it."""
    for match in ISO_DATE.finditer(text):
        year, month, day = (int(part) for part in match.groups())
        if 1 <= month <= len(MONTHS) and 1 <= day <= monthrange(year, month)[1]:
            return match.group()
    return None


def _day(word: str) -> int | None:
    digits = re.match(r"\d+", word)
    if digits:
        return int(digits.group())
    tens, _, ones = word.lower().replace("-", " ").partition(" ")
    if not ones:
        return ORDINALS.get(tens, ONES.get(tens))
    return TENS[tens] + (ORDINALS.get(ones) or ONES.get(ones, 99))


def _year(words: str) -> int:
    """`2026`, `twenty twenty-six`."""
    if words.isdigit():
        return int(words)
    century, *rest = re.split(r"[ -]", words.lower())
    return 100 * TENS[century] + sum(TENS.get(word, 0) + ONES.get(word, 0) for word in rest)


def _kind(text: str) -> str | None:
    return next((kind for kind, pattern in KINDS if pattern.search(text)), None)


def _unit(text: str) -> str | None:
    match = UNIT.search(text) or UNIT.search(text.lower())
    if match is None:
        return None
    if match["alone"]:
        return match["alone"].lower()
    if match["heard"]:
        return f"{match['number']}-{HEARD[match['heard']]}".lower()
    return text.lower()[match.start("number") : match.end("letter") if match["letter"] else match.end("number")]


def _inspector(text: str) -> str | None:
    match = INSPECTOR.search(text)
    if match and match.group(1).split()[0] not in NOT_NAMES:
        return match.group(1)
    return None
