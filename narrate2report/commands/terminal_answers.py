"""What each answer in the terminal review does to the walk, and the entry that is at hand after it."""

from __future__ import annotations

from typing import Any

from rich.console import Console

from narrate2report.commands import terminal_pages as pages
from narrate2report.commands.answering import Answering, Asked
from narrate2report.commands.show import at_hand
from narrate2report.commands.terminal_gaps import settle_gaps
from narrate2report.commands.typed_facts import NAMES, asked_facts, facts, read_field, seconds
from narrate2report.errors import CannotDecide
from narrate2report.publish.detail import detail
from narrate2report.records.findings import Entry, Findings
from narrate2report.records.journal import Line
from narrate2report.review import requests as ask
from narrate2report.review.choices import Choices
from narrate2report.review.decisions import keeper_before
from narrate2report.review.desk import Desk
from narrate2report.review.fields import stands
from narrate2report.review.spine import Sentence, room_at, silent_stretches
from narrate2report.wording import counted, plain, room_name


class Answers(Answering[Desk]):
    """The entry at hand, and what can be answered to it."""

    all_decided = "Every entry is decided; q leaves, c goes to what was not spoken of."

    def __init__(self, desk: Desk, choices: Choices, console: Console, by: str, asked: Asked) -> None:
        super().__init__(desk, console, by, asked)
        self.choices = choices
        self.places = at_hand(desk.findings, desk.path)
        self.letters |= {
            "a": lambda _: self._settle(ask.Accept(entries=(self._entry().id,)), "accepted"),
            "A": lambda _: self._accept_sentence(),
            "e": self._change,
            "x": lambda why: self._settle(ask.Drop(entries=(self._entry().id,), why=why or None), "left out"),
            "w": self._withdraw,
            "m": lambda _: self._merge(),
            "s": lambda _: self._split(),
            "o": lambda _: self._reopen(),
            "g": lambda _: self._accept_room(),
            "t": self._picture,
            "i": self._make,
            "c": self._gaps,
            "l": lambda _: self._list(),
            "u": lambda _: self._take_back(ask.Undo(), "taken back"),
            "r": lambda _: self._take_back(ask.Redo(), "it stands again"),
            "?": lambda _: self.console.print(pages.keys()),
        }

    def left(self) -> str:
        """How much there is still to decide."""
        return pages.left(self.desk.findings)

    def _settle(self, wanted: ask.Request, told: str) -> None:
        """Keep a decision that ends the work on the entry at hand, and go on."""
        position = self.position()
        self.keep(wanted, told)
        self.go(self.next_open(position))

    def show(self) -> None:
        """Print the entry at hand as it stands by now, in whichever window it was decided."""
        self.look()
        found = [entry for entry in self.desk.findings.entries if entry.id == self.current]
        if not found:
            self.console.print("No entry is at hand; l lists those to decide, c what was not spoken of, q leaves.")
            return
        self.console.print(pages.entry_heading(found[0], self.desk.findings))
        self.console.print(detail(found[0], self.desk.findings, self.places), crop=False)

    def _entry(self) -> Entry:
        found = [entry for entry in self.desk.findings.entries if entry.id == self.current]
        if not found:
            raise CannotDecide("no entry is at hand; n goes to the next one")
        return found[0]

    def order(self) -> list[tuple[str, bool]]:
        """The ids of all entries, and whether each is open."""
        return [(entry.id, entry.state == "proposed") for entry in self.desk.findings.entries]

    def _accept_sentence(self) -> None:
        sentences = set(self._entry().evidence[0].sentences)
        same = [
            entry.id
            for entry in self.desk.findings.entries
            if entry.state == "proposed" and sentences & set(entry.evidence[0].sentences)
        ]
        if not same:
            raise CannotDecide("nothing that this sentence gave is left to decide")
        self._settle(ask.Accept(entries=tuple(same)), f"accepted, {len(same)} of one sentence")

    def _accept_room(self) -> None:
        room = self._entry().room
        sound = [
            entry
            for entry in self.desk.findings.entries
            if entry.room == room and entry.state == "proposed" and self.choices.is_plain_and_sound(entry)
        ]
        if not sound:
            raise CannotDecide(f"nothing is left to decide that is plainly in order in: {room_name(room)}")
        self.console.print(pages.entry_list(sound, self.desk.findings))
        if self.agrees(f"Accept these {len(sound)} together"):
            self._settle(ask.Accept(entries=tuple(entry.id for entry in sound)), f"accepted, {len(sound)} together")

    def _change(self, rest: str) -> None:
        entry = self._entry()
        name, _, words = rest.partition(" ")
        if rest and name not in NAMES:
            raise CannotDecide(f"{name!r} is no field; there are: {', '.join(NAMES)}")
        if rest:
            wanted = facts({name: read_field(name, words.strip() or "-", self.choices)})
        else:
            wanted = self._typed(stands(entry))
        if not wanted.model_fields_set:
            raise CannotDecide("nothing was changed; a accepts it as it is")
        self._settle(ask.Change(entry=entry.id, facts=wanted), f"changed, {plain(entry.component)}")

    def _typed(self, given: dict[str, Any]) -> ask.Facts:
        return asked_facts(given, self.choices, self.asked, self.console.print)

    def _reopen(self) -> None:
        self.keep(ask.Reopen(entries=(self._entry().id,)), "to decide again")
        self.show()

    def _withdraw(self, why: str) -> None:
        entry = self._entry()
        why = why or self.asked("It was said, but does not stand, because: ")
        if not why:
            raise CannotDecide("a reason is part of the record; x leaves out what was read wrong")
        self._settle(ask.Withdraw(entry=entry.id, why=why), "withdrawn")

    def _merge(self) -> None:
        entry = self._entry()
        before = keeper_before(self.desk.findings, entry)
        if before is None:
            raise CannotDecide("there is no entry before this one")
        self.keep(ask.Merge(entries=(before.id, entry.id)), "merged with the one before")
        self.go(before.id)

    def _split(self) -> None:
        whole = self._entry().id
        (second,) = _touched(self.keep(ask.Split(entry=whole), "split in two; e changes the second")) - {whole}
        self.go(second)

    def _picture(self, rest: str) -> None:
        entry = self._entry()
        if rest == "no":
            if not entry.stills:
                raise CannotDecide("it has no picture")
            self.keep(ask.RemoveStill(entry=entry.id, sha256=entry.stills[-1].sha256), "picture taken off")
        else:
            self.keep(ask.TakeStill(entry=entry.id, at=seconds(rest) if rest else None), "picture kept")
        self.show()

    def _take_back(self, wanted: ask.Undo | ask.Redo, told: str) -> None:
        touched = _touched(self.keep(wanted, told))
        self.go(next((entry for entry, _ in self.order() if entry in touched), self.beside(0)))

    def _list(self) -> None:
        open_entries = [entry for entry in self.desk.findings.entries if entry.state == "proposed"]
        self.console.print(pages.entry_list(open_entries, self.desk.findings, with_id=True))
        self.console.print(f"{pages.left(self.desk.findings)}.")

    def _make(self, rest: str) -> None:
        silent = silent_stretches(self.desk.findings, self.desk.spine)
        if not rest.isdecimal():
            near = {number: one for number, one in silent.items() if rest == "all" or self._is_near(one)}
            self.console.print(pages.sentence_list(near))
            hint = "" if rest == "all" else "; i all lists those of all rooms"
            self.console.print(f"{counted(len(near), 'sentence')} without an entry; i NUMBER makes one of it{hint}.")
            return
        if int(rest) not in silent:
            raise CannotDecide(f"there is no sentence {rest} without an entry; i all lists them")
        one = silent[int(rest)]
        self.console.print(pages.sentence_list({int(rest): one}))
        room = room_at(self.desk.findings, one.recording, one.start)
        given: dict[str, Any] = {"kind": "condition", "room": room, "start": one.start, "end": one.end}
        wanted = facts(given | self._typed(given).model_dump(exclude_unset=True))
        stretch = ask.Stretch(recording=one.recording, start=one.start, end=one.end)
        add = ask.Add(sentences=(one.id,), facts=wanted) if one.id else ask.Add(stretch=stretch, facts=wanted)
        touched = _touched(self.keep(add, "made an entry of it"))
        self.go(next(iter(touched)))

    def _is_near(self, one: Sentence) -> bool:
        findings = self.desk.findings
        at = [entry.evidence[0] for entry in findings.entries if entry.id == self.current]
        room = room_at(findings, one.recording, one.start)
        return not at or room == room_at(findings, at[0].recording, at[0].start)

    def _gaps(self, rest: str) -> None:
        def now() -> Findings:
            self.look()
            return self.desk.findings

        def settle(wanted: ask.Acknowledge) -> None:
            self.keep(wanted, f"settled, {len(wanted.gaps)} not spoken of")

        settle_gaps(now, settle, self.asked, self.console.print, again=rest == "all")


def _touched(line: Line) -> set[str]:
    """The ids of the entries that a decision touched."""
    parts = [part for change in line.changes for part in (change.before, change.after)]
    return {part.id for part in parts if isinstance(part, Entry)}
