"""An entry in a person's words: `nail hole ×2, there before`, `works`, `advice: "keep this fan on"`.

Every page that shows an entry words it here, so that the same fact reads the same everywhere. The words are English;
a report in another language brings its own `Phrases`.
"""

from __future__ import annotations

from calendar import month_name
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from narrate2report.records.comparison import Added, Became, Verdict
from narrate2report.records.findings import Entry, Findings, Heard
from narrate2report.records.moments import clock
from narrate2report.records.silence import rooms_never_walked, silent_alarms

CHECKED = {"works": "works", "fails": "does not work", "not_tested": "not tested"}
HANDED = {"given": "given to the resident", "returned": "returned by the resident"}
LOOKED = {
    "not_looked_at": "not looked at",
    "looked_at_since": "looked at since",
    "left_not_noted": "left as not noted",
}
REASONS = {
    "talk": "talk",
    "moving": "moving on",
    "checking_for": "only being looked for",
    "hypothetical": "only imagined or warned of",
    "policy": "a rule, nothing seen",
    "unclear": "unclear",
}
WALKS = {"move_in": "move-in", "move_out": "move-out", "periodic": "periodic visit"}
# What became of a flaw, in one or two words, as it is printed and typed. The statement words it otherwise on purpose.
BECAME: dict[Became, str] = {
    "unchanged": "unchanged",
    "worse": "worse",
    "better": "better",
    "gone": "gone",
    "not_mentioned": "not mentioned",
    "new": "new",
    "no_baseline": "no baseline",
}
VERDICTS: dict[Verdict, str] = {
    "ordinary_wear": "ordinary wear",
    "beyond_ordinary_wear": "beyond ordinary wear",
    "owners_matter": "the owner’s matter",
    "open": "left open",
}

Sort = Literal["rooms", "suffixes", "components", "conditions", "actions"]
"""What an id names; a suffix is what stands behind the dot of a room's id."""


@dataclass(frozen=True)
class Phrases:
    """How one language words an entry. Where `names` lacks an id, the id itself is shown in plain words.

    In braces stands what is put there; what the speaker said (a place, a size, a colour) is never translated.
    """

    names: Mapping[Sort, Mapping[str, str]] = field(default_factory=dict)
    checked: Mapping[str, str] = field(default_factory=lambda: CHECKED)
    handed: Mapping[str, str] = field(default_factory=lambda: HANDED)
    handed_counted: str = "{count} {handed}"
    room_of_several: str = "{name} {number}"
    room_of_a_kind: str = "{suffix} {name}"
    unit: str = "unit {name}"
    absent: str = "no {name}"
    possible: str = "{name}, not certain"
    work: str = "to do: {action}{by}"
    by: str = " (by the {party})"
    parties: Mapping[str, str] = field(default_factory=dict)
    attributes: Mapping[str, str] = field(default_factory=dict)
    severities: Mapping[str, str] = field(default_factory=dict)
    described: str = "described"
    advice: str = "advice"
    before: str = "there before"

    def name(self, sort: Sort, identifier: str) -> str:
        """A room, component, condition or action by its id."""
        return self.names.get(sort, {}).get(identifier) or plain(identifier)


ENGLISH = Phrases()


@dataclass(frozen=True)
class Piece:
    """A part of what an entry states; `spoken` says that these are the speaker's own words."""

    text: str
    spoken: bool = False
    glue: str = ", "


_INITIALS = frozenset({"ac", "co", "gfci", "tv"})
_BARE_UNIT = 5
"""A unit of so few letters and digits is a number (`2b`, `1204c`) and no name."""


def plain(identifier: str) -> str:
    """`window_sill` as `window sill`, `co_alarm` as `CO alarm`."""
    return " ".join(word.upper() if word in _INITIALS else word for word in identifier.split("_"))


def room_name(room: str, phrases: Phrases = ENGLISH) -> str:
    """`bathroom.hall` as `Hall bathroom`, `bedroom.2` as `Bedroom 2`."""
    base, _, suffix = room.partition(".")
    name = phrases.name("rooms", base)
    if suffix and not suffix[0].isdigit():
        name = phrases.room_of_a_kind.format(suffix=phrases.name("suffixes", suffix), name=name)
    elif suffix:
        name = phrases.room_of_several.format(number=suffix, name=name)
    return capital(name.strip())


def unit_name(unit: str, phrases: Phrases = ENGLISH) -> str:
    """`2b` as `unit 2B`; what holds words of its own, such as `flat 3`, stays as it is."""
    return phrases.unit.format(name=unit.upper()) if len(unit) <= _BARE_UNIT and " " not in unit else unit


def said(entry: Entry) -> str:
    """What the entry states of its component, with the speaker's details after it."""
    return joined(pieces(entry))


def joined(told: Iterable[Piece]) -> str:
    """Pieces as one line."""
    line = ""
    for piece in told:
        line += piece.glue + piece.text if line else piece.text
    return line


def pieces(entry: Entry, phrases: Phrases = ENGLISH) -> list[Piece]:
    """The same in parts, so that the speaker's own words can be told from the program's."""
    return [*_statement(entry, phrases), *_details(entry, phrases)]


def misheard(one: Heard) -> str:
    """`“cock” read as “caulk” (why)`, or the question whether it was said, with how the sound of both compares."""
    why = "; ".join(filter(None, (one.why, weighed(one))))
    if one.asked:
        return f"“{one.heard}”, left as heard: was “{one.read}” said? ({why})"
    return f"“{one.heard}” read as “{one.read}” ({why})"


def weighed(one: Heard) -> str:
    """How a reading fares against what was heard on the recording itself, in nats; empty where it was not weighed."""
    if one.sound is None:
        return ""
    among = "" if one.sound.context is None else f", {one.sound.context:+.1f} among words of the trade"
    return f"by its sound {one.sound.plain:+.1f}{among}"


def named(entry: Entry) -> str:
    """`Kitchen, countertop: chip`: an entry where it stands among those of other rooms."""
    return f"{room_name(entry.room)}, {plain(entry.component)}: {said(entry)}"


def moment(recording: str, start: float, recordings: int) -> str:
    """`1:15`, or `part2.mp4 1:15` where the walk has several recordings."""
    return clock(start) if recordings < 2 else f"{recording} {clock(start)}"


def capital(words: str) -> str:
    """With a capital first letter; the others stay as they are."""
    return words[:1].upper() + words[1:]


def counted(number: int, noun: str, plural: str | None = None) -> str:
    """`1 entry`, `3 entries`."""
    return f"{number} {noun if number == 1 else plural or noun + 's'}"


def told_day(day: date) -> str:
    """`7 May 2026`."""
    return f"{day.day} {month_name[day.month]} {day.year}"


def afterthought(added: Added) -> str:
    """What must be minded of an addendum to the earlier record that was sealed once the later walk was made."""
    return (
        f"{added.file} adds to the earlier record and was sealed at {added.sealed_at}, when the later walk was made or "
        "after it: what it says of the earlier state was settled then, and may be doubted"
    )


def listed(names: Iterable[str]) -> str:
    """`sink, oven, fan`: ids in plain words, in the order given."""
    return ", ".join(plain(name) for name in names)


def _statement(entry: Entry, phrases: Phrases) -> Iterator[Piece]:
    times = f" ×{entry.quantity}" if entry.quantity not in (None, 1) else ""
    match entry.kind:
        case "condition":
            yield Piece(_condition(entry, phrases) + times)
        case "check":
            yield Piece(phrases.checked[entry.outcome or "not_tested"] + times)
        case "handover":
            handed = phrases.handed[entry.direction or "given"]
            counted_too = phrases.handed_counted.format(count=entry.quantity, handed=handed)
            yield Piece(handed if entry.quantity is None else counted_too)
        case "follow_up":
            by = phrases.by.format(party=phrases.parties.get(entry.party, entry.party)) if entry.party else ""
            action = phrases.name("actions", entry.action or "inspect")
            yield Piece(phrases.work.format(action=action, by=by) + times)
        case "description" if entry.attribute:
            yield Piece(phrases.attributes.get(entry.attribute.name, entry.attribute.name))
            yield Piece(entry.attribute.value, spoken=True, glue=": ")
        case "description":
            yield Piece(phrases.described)
        case "advice":
            yield Piece(phrases.advice)
            yield Piece(f"“{entry.evidence[0].quote}”", spoken=True, glue=": ")


def _condition(entry: Entry, phrases: Phrases) -> str:
    name = phrases.name("conditions", entry.condition or "")
    if entry.assertion == "absent":
        return phrases.absent.format(name=name)
    if entry.assertion == "possible":
        return phrases.possible.format(name=name)
    return name


def _details(entry: Entry, phrases: Phrases) -> Iterator[Piece]:
    size = entry.size.text if entry.size else None
    if size and entry.where and size in entry.where:
        # The place as it was spoken holds the size already: `along the front about half an inch`.
        size = None
    where = None if _only_names(entry.where, entry.component) else entry.where
    if entry.severity:
        yield Piece(phrases.severities.get(entry.severity, entry.severity))
    yield from (Piece(text, spoken=True) for text in (size, where) if text)
    if entry.pre_existing:
        yield Piece(phrases.before)


def _only_names(where: str | None, component: str) -> bool:
    """`on the ceiling` said of the ceiling tells nothing more."""
    words = (where or "").lower().split()
    return words[:1] in (["on"], ["in"]) and " ".join(words[1:]) == f"the {plain(component).lower()}"


def called_out(findings: Findings) -> tuple[str, ...]:
    """What is told of silence before all else: each alarm that nobody spoke of, then the rooms never walked."""
    missed, lines = rooms_never_walked(findings), list[str]()
    for alarm, rooms in silent_alarms(findings).items():
        where = (
            f" in {', '.join(_silent_room(room, alarm, findings, missed) for room in rooms)}" if rooms else " anywhere"
        )
        lines.append(f"{capital(plain(alarm))} not spoken of{where}.")
    if missed:
        lines.append(f"Expected and never walked: {', '.join(map(room_name, missed))}.")
    return tuple(lines)


def _silent_room(room: str, alarm: str, findings: Findings, missed: tuple[str, ...]) -> str:
    """The room's name, and what a person said of the silence, or what else is known of it."""
    settled = next((row.acknowledged for row in findings.coverage if (row.room, row.component) == (room, alarm)), None)
    named = any((entry.room, entry.component) == (room, alarm) for entry in findings.entries if entry.stands)
    known = "never walked" if room in missed else "only advice or work to be done" if named else ""
    told = LOOKED[settled.looked] if settled else known
    return f"{room_name(room)} ({told})" if told else room_name(room)
