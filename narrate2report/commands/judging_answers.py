"""What each answer in the terminal does to a comparison, and the change that is at hand after it."""

from __future__ import annotations

from functools import partial

from rich.console import Console

from narrate2report.commands import judging_pages as pages
from narrate2report.commands.answering import Answering, Asked
from narrate2report.commands.show import at_hand
from narrate2report.errors import CannotDecide
from narrate2report.records.comparison import OUTCOMES, SIDES, Became, FlawChange, Side, Verdict
from narrate2report.records.findings import Entry
from narrate2report.review import judging_requests as ask
from narrate2report.review.judging import entries_of
from narrate2report.review.judging_desk import JudgingDesk
from narrate2report.review.pairable import flaws_of, pairable
from narrate2report.review.requests import Redo, Undo
from narrate2report.wording import BECAME, VERDICTS, room_name

VERDICT_KEYS: dict[str, Verdict] = {
    "1": "ordinary_wear",
    "2": "beyond_ordinary_wear",
    "3": "owners_matter",
    "0": "open",
}


class JudgingAnswers(Answering[JudgingDesk]):
    """The change at hand, and what can be answered to it."""

    all_decided = "Every change is decided; q leaves, l lists what is left open."

    def __init__(self, desk: JudgingDesk, console: Console, by: str, asked: Asked) -> None:
        super().__init__(desk, console, by, asked)
        self.places = {side: at_hand(record.findings, record.path) for side, record in desk.records.items()}
        self.letters |= {
            "a": lambda _: self._settle(ask.Confirm(changes=(self._change().id,)), "agreed"),
            "A": lambda _: self._agree_to_room(),
            "e": self._correct,
            "g": lambda _: self.console.print(pages.guidance_page(self._flaws())),
            "t": self._pair,
            "m": self._join,
            "s": self._split,
            "o": lambda _: self._stay(ask.Reopen(changes=(self._change().id,)), "to decide again"),
            "l": lambda _: self._list(),
            "u": lambda _: self._stay(Undo(), "taken back"),
            "r": lambda _: self._stay(Redo(), "it stands again"),
            "?": lambda _: self.console.print(pages.keys()),
            **{key: partial(self._judge, verdict) for key, verdict in VERDICT_KEYS.items()},
        }
        for told in pages.warnings(desk):
            console.print(f"Mind: {told}", soft_wrap=True)

    def left(self) -> str:
        """How much there is still to decide."""
        return pages.left(self.desk.comparison)

    def show(self) -> None:
        """Print the change at hand as it stands by now, in whichever window it was decided."""
        self.look()
        found = [change for change in self.desk.comparison.changes if change.id == self.current]
        if not found:
            return self.console.print("No change is at hand; l lists what is left, j goes to the first, q leaves.")
        return self.console.print(pages.change_page(found[0], self.desk, self.places), crop=False)

    def _settle(self, wanted: ask.Request, told: str, *, stays: bool = True) -> None:
        """Keep a decision, and go on to what is open: the same change, where it `stays` and is still to be judged."""
        position = self.position()
        self.keep(wanted, told)
        self.go(self.next_open(position - 1 if stays else position))

    def _stay(self, wanted: ask.Request, told: str) -> None:
        self.keep(wanted, told)
        if self.position() < 0:
            self.current = next((name for name, _ in self.order()), None)
        self.show()

    def _judge(self, verdict: Verdict, why: str) -> None:
        wanted = ask.Judge(changes=(self._change().id,), verdict=verdict, why=why or None)
        self._settle(wanted, VERDICTS[verdict], stays=verdict != "open")

    def _correct(self, rest: str) -> None:
        change = self._change()
        fitting = self.desk.standing.fitting(entries_of(change))
        typed = rest or self.asked(f"What became of it ({', '.join(BECAME[one] for one in fitting)}): ")
        self._settle(ask.SetOutcome(change=change.id, outcome=_outcome(typed)), typed)

    def _pair(self, rest: str) -> None:
        change = self._change()
        every = dict(enumerate(pairable(change, self.desk.records, self.desk.standing), 1))
        if not rest:
            self.console.print("t and a number takes that entry into this change; what became of it may follow it.")
            return self.console.print(pages.entry_list(every, self.desk))
        number, _, outcome = rest.partition(" ")
        side, entry = _numbered(every, number)
        became = _outcome(outcome) if outcome else None
        return self._stay(ask.Pair(change=change.id, side=side, entry=entry.id, outcome=became), "paired otherwise")

    def _join(self, rest: str) -> None:
        other, _, outcome = rest.partition(" ")
        if not other:
            return self.console.print(pages.change_list(self.desk.comparison.changes, self.desk))
        became = _outcome(outcome) if outcome else None
        return self._stay(ask.Join(changes=(self._change().id, other), outcome=became), "joined")

    def _split(self, rest: str) -> None:
        """Without numbers a pair comes apart where that is plain: one record's flaws from the other's."""
        change = self._change()
        every = entries_of(change)
        if rest:
            listed = self._numbered_entries(change)
            chosen = [_numbered(listed, number) for number in rest.replace(",", " ").split()]
            parts = {side: tuple(entry.id for one, entry in chosen if one == side) for side in SIDES}
            return self._stay(ask.Split(change=change.id, **parts), "split")
        flaws = {side: self.desk.standing.flaws(every, side) for side in SIDES}
        if all(len(ids) == 1 for ids in flaws.values()):
            return self._stay(ask.Split(change=change.id, after=change.after), "split")
        self.console.print("s and their numbers puts these into a change of their own:")
        return self.console.print(pages.entry_list(self._numbered_entries(change), self.desk))

    def _agree_to_room(self) -> None:
        room = self._flaws()[0].room
        here = self.desk.standing
        same = [
            one
            for one in self.desk.comparison.changes
            if not one.confirmed
            and one.outcome in ("unchanged", "better", "gone", "not_mentioned")
            and flaws_of(one, self.desk.records, here)[0].room == room
        ]
        if not same:
            raise CannotDecide(f"nothing that needs no judgement is left to agree to in: {room_name(room)}")
        self.console.print(pages.change_list(same, self.desk))
        if self.agrees(f"Agree to these {len(same)} together"):
            self._settle(ask.Confirm(changes=tuple(one.id for one in same)), f"agreed, {len(same)} together")

    def _list(self) -> None:
        open_ones = [change for change in self.desk.comparison.changes if change.is_open]
        self.console.print(pages.change_list(open_ones, self.desk) if open_ones else "Nothing is left.")

    def _numbered_entries(self, change: FlawChange) -> dict[int, tuple[Side, Entry]]:
        both = ((side, self.desk.records[side].entries[name]) for side in SIDES for name in change.of(side))
        return dict(enumerate(both, 1))

    def _flaws(self) -> list[Entry]:
        return flaws_of(self._change(), self.desk.records, self.desk.standing)

    def _change(self) -> FlawChange:
        if self.current is None or self.position() < 0:
            raise CannotDecide("no change is at hand; n goes to the next one")
        return self.desk.standing.change(self.current)

    def order(self) -> list[tuple[str, bool]]:
        """The ids of all changes, and whether each is open."""
        return [(change.id, change.is_open) for change in self.desk.comparison.changes]


def _outcome(typed: str) -> Became:
    """An outcome by its id or its words. Raises CannotDecide for what is none."""
    wanted = typed.strip().lower()
    for outcome in OUTCOMES:
        if wanted in (outcome, BECAME[outcome]):
            return outcome
    raise CannotDecide(f"{typed!r} is no outcome; there are: {', '.join(BECAME.values())}")


def _numbered(entries: dict[int, tuple[Side, Entry]], typed: str) -> tuple[Side, Entry]:
    number = int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 10 else 0
    if number not in entries:
        raise CannotDecide(f"there is no number {typed} here; the letter alone lists them")
    return entries[number]
