"""Answers at the keyboard, one a line, typed or from a pipe: what all reviews in the terminal share.

The end of the answers ends the review. What cannot be decided is told in one line, and the next answer is asked for.
"""

from __future__ import annotations

import io
import sys
from abc import ABC, abstractmethod
from collections.abc import Callable, Sequence
from typing import Any, Generic, TypeVar

from pydantic import ValidationError
from rich.console import Console

from narrate2report.errors import NarrateError
from narrate2report.records.journal import Line
from narrate2report.records.plain import NOT_TEXT, can_be_seen
from narrate2report.review import requests as ask
from narrate2report.review.deciding import Deciding, Kept, Stale

AnyDesk = TypeVar("AnyDesk", bound=Deciding[Any, Any])
"""The desk of whatever is reviewed."""
Asked = Callable[[str], str]
"""Asks for a line with a prompt and gives what was typed."""


class Leave(Exception):
    """The person is done."""


class Answering(ABC, Generic[AnyDesk]):
    """What is at hand, what the person at the keyboard has seen, and what each letter does to it."""

    all_decided = "Everything is decided; q leaves."
    """What is told where nothing is left to go on to."""

    def __init__(self, desk: AnyDesk, console: Console, by: str, asked: Asked) -> None:
        self.desk, self.console, self.by, self.asked = desk, console, by, asked
        self.seen = len(desk.lines)
        self.current = self.next_open(-1)
        self.letters: dict[str, Callable[[str], None]] = {
            "n": lambda _: self.go(self.next_open(self.position())),
            "j": lambda _: self.go(self.beside(1)),
            "k": lambda _: self.go(self.beside(-1)),
        }

    def run(self) -> None:
        """Answer after answer, until the person leaves or the answers end."""
        try:
            self.console.print(f"\n{self.left()}. ? lists what you can answer.")
            self.show()
            while True:
                self._answer(self.asked("\n> "))
        except (Leave, EOFError, KeyboardInterrupt):
            self.console.print()

    @abstractmethod
    def left(self) -> str:
        """How much there is still to decide."""

    @abstractmethod
    def show(self) -> None:
        """Print what is at hand as it stands by now, in whichever window it was decided."""

    @abstractmethod
    def order(self) -> Sequence[tuple[str, bool]]:
        """The ids of all there is to decide about, in order, and whether each is still open."""

    def look(self) -> None:
        """Take in what was decided in other windows; the person sees it from now on."""
        self.desk.look()
        self.seen = len(self.desk.lines)

    def keep(self, wanted: ask.Asked, told: str) -> Line:
        """Keep a decision and say so; the line that was written. Raises what `decide` raises."""
        kept: Kept[Line] = self.desk.decide(wanted, self.by, self.seen)
        self.seen = len(self.desk.lines)
        if others := {line.by for line in kept.others if line.action != "begin"}:
            self.console.print(f"Decided in another window meanwhile, by {', '.join(sorted(others))}; that stands too.")
        self.console.print(f"Kept: {told}. {self.left()}.")
        return kept.line

    def agrees(self, what: str) -> bool:
        """Whether the person agrees to what was just listed."""
        return self.asked(f"{what}? (y, or Enter for no): ").lower() in ("y", "yes")

    def go(self, name: str | None) -> None:
        """Take up what has this id; where there is none, say that nothing is left."""
        if name is None:
            self.console.print(self.all_decided)
            return
        self.current = name
        self.show()

    def goes_to(self, typed: str) -> bool:
        """Whether what was typed is an id, which is gone to then."""
        known = typed not in self.letters and any(name == typed for name, _ in self.order())
        if known:
            self.go(typed)
        return known

    def position(self) -> int:
        """Where what is at hand stands in the order; -1 where nothing is at hand."""
        return next((place for place, (name, _) in enumerate(self.order()) if name == self.current), -1)

    def beside(self, steps: int) -> str | None:
        """So many steps on, or back, as far as there are any."""
        order = self.order()
        return order[min(max(self.position() + steps, 0), len(order) - 1)][0] if order else None

    def next_open(self, position: int) -> str | None:
        """The next one after this place that is open, round the end to the first."""
        order = self.order()
        after = (*order[position + 1 :], *order[: position + 1])
        return next((name for name, is_open in after if is_open), None)

    def _answer(self, typed: str) -> None:
        letter, _, rest = typed.partition(" ")
        if letter in ("q", "Q"):
            raise Leave
        if self.goes_to(typed):
            return None
        if not typed:
            return self.show()
        act = self.letters.get(letter)
        if act is None:
            return self.console.print(f"{typed!r} is no answer; ? lists them")
        try:
            act(rest.strip())
        except ValidationError as error:
            self.console.print(f"Not kept: {error.errors(include_url=False)[0]['msg']}")
        except NarrateError as error:
            self.console.print(f"Not kept: {' '.join(str(error).split())}", soft_wrap=True)
            if isinstance(error, Stale):
                self.show()
        return None


def asking(console: Console) -> Asked:
    """The keyboard; answers from a pipe are printed behind their prompt."""
    if isinstance(sys.stdin, io.TextIOWrapper):
        sys.stdin.reconfigure(errors="replace")

    def asked(prompt: str) -> str:
        typed = console.input(prompt, markup=False, emoji=False).strip()
        if not sys.stdin.isatty():
            console.print(typed)
        return typed

    return asked


def asked_name(asked: Asked, proposed: str) -> str:
    """Who decides. Raises EOFError where nobody says."""
    prompt = f"Who decides{f' [{proposed}]' if proposed else ''}: "
    while True:
        name = asked(prompt) or proposed
        named = can_be_seen(name) and any(letter.isalpha() for letter in name)
        if named and len(name) <= ask.LONGEST_NAME and not NOT_TEXT.search(name):
            return name
        prompt = "Your name goes beside each decision; type it: "
