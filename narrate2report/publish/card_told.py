"""A prompt card in words: every text that paper and phone show, in the order in which they show it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from narrate2report.publish.card_words import CardWords, card_words
from narrate2report.publish.language import Language
from narrate2report.records.card import Again, Card, CardPart, CardRoom, Handed
from narrate2report.wording import capital


@dataclass(frozen=True)
class ToldAgain:
    """Something to be looked at again: of what sort it is, in a word, what the last walk said of it, and when.

    `says` is empty where there is nothing to add to `head`.
    """

    key: str
    head: str
    says: str
    when: str


@dataclass(frozen=True)
class ToldPart:
    """A line to tick; `how` is what to do with it, empty where it is only spoken of.

    `is_first` says that no room before has a line of the same kind.
    """

    key: str
    name: str
    how: str
    look_only: bool
    is_first: bool
    again: tuple[ToldAgain, ...]


@dataclass(frozen=True)
class ToldRoom:
    """A heading with its lines."""

    name: str
    parts: tuple[ToldPart, ...]


@dataclass(frozen=True)
class ToldHanded:
    """A thing to hand over or take back, with what was given last time."""

    key: str
    name: str
    told: str


@dataclass(frozen=True)
class ToldCaution:
    """A caution in short, in full as the report has it, and its source."""

    lead: str
    more: str
    full: str
    source: str


@dataclass(frozen=True)
class ToldCard:
    """Every text of a card, in the order in which it is shown."""

    title: str
    facts: tuple[tuple[str, str], ...]
    remarks: tuple[str, ...]
    begin: tuple[str, ...]
    rooms: tuple[ToldRoom, ...]
    handing: str
    handed: tuple[ToldHanded, ...]
    end: tuple[str, ...]
    cautions: tuple[ToldCaution, ...]
    words: CardWords


def told_card(card: Card, language: Language) -> ToldCard:
    """A card in words."""
    return _Telling(card, language, card_words()).card()


@dataclass(frozen=True)
class _Telling:
    of: Card
    language: Language
    words: CardWords

    def card(self) -> ToldCard:
        page = self.words.page
        title = page["unit"].format(title=self.words.titles[self.of.kind], unit=self.language.unit(self.of.unit))
        return ToldCard(
            title=title,
            facts=tuple(self._facts()),
            remarks=tuple(self._remarks()),
            begin=(*self.words.begin["any"], *self.words.begin.get(self.of.kind, ())),
            rooms=tuple(self._rooms()),
            handing=page[f"handing_{self.of.kind}"] if self.of.handed else "",
            handed=tuple(self._handed(number, one) for number, one in enumerate(self.of.handed, 1)),
            end=(*self.words.end["any"], *self.words.end.get(self.of.kind, ())),
            cautions=tuple(
                ToldCaution(one.lead, one.more, self.language.cautions[key], one.source)
                for key, one in self.words.cautions.items()
            ),
            words=self.words,
        )

    def _facts(self) -> Iterator[tuple[str, str]]:
        page = self.words.page
        if self.of.address:
            yield page["address"], self.of.address
        if self.of.residents:
            yield page["residents"], ", ".join(self.of.residents)

    def _remarks(self) -> Iterator[str]:
        page, last = self.words.page, self.of.last
        if last is not None:
            day = page["day"].format(day=self.language.day(last.day)) if last.day else ""
            told = page["looks_back"].format(walk=self._last_walk(), day=day)
            yield told if last.reviewed else f"{told} {page['undecided']}"
        yield from (page["clash"].format(clash=one) for one in self.of.clashes)
        if not self.of.rooms_are_planned:
            yield page["guessed"]

    def _last_walk(self) -> str:
        return self.words.last_walks[(self.of.last.kind if self.of.last else None) or "any"]

    def _rooms(self) -> Iterator[ToldRoom]:
        told: set[str] = set()
        for room in self.of.rooms:
            parts = tuple(self._part(room, part, is_first=part.component not in told) for part in room.parts)
            told |= {part.component for part in room.parts}
            yield ToldRoom(self.language.room(room.room), parts)

    def _part(self, room: CardRoom, part: CardPart, *, is_first: bool) -> ToldPart:
        name = capital(self.language.component(part.component))
        how = {"try": self.words.try_, "look": self.words.look}.get(part.trial, {})
        return ToldPart(
            key=f"{room.room}/{part.component}",
            name=f"{name} ({part.called})" if part.called else name,
            how=how.get(part.component) or how.get("any", ""),
            look_only=part.trial == "look",
            is_first=is_first,
            again=tuple(map(self._again, part.again)),
        )

    def _again(self, one: Again) -> ToldAgain:
        head = self.words.page[{"flaw": "again", "untested": "untested", "work": "work"}[one.sort]]
        page = self.words.page
        says = "" if one.sort == "untested" else one.says
        if one.room:
            room = self.language.room(one.room)
            says = page["in_room"].format(room=room, says=says) if says else room
        when = page["when"].format(moment=one.moment, walk=self._last_walk())
        return ToldAgain(f"again/{one.id}", head, says, when)

    def _handed(self, number: int, one: Handed) -> ToldHanded:
        name = capital(self.language.component(one.component))
        if one.moment is None:
            return ToldHanded(f"handed/{one.component}/{number}", name, "")
        wording = self.words.page["given_uncounted" if one.count is None else "given"]
        told = wording.format(count=one.count, moment=one.moment, walk=self._last_walk())
        return ToldHanded(f"handed/{one.component}/{number}", name, told)
