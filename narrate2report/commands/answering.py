"""Answers at the keyboard, one a line, typed or from a pipe: what all reviews in the terminal share.

The end of the answers ends the review. What cannot be decided is told in one line, and the next answer is asked for.
"""

from __future__ import annotations

import io
import sys
from abc import ABC, abstractmethod
from collections.abc import Callable

from pydantic import ValidationError
from rich.console import Console

from narrate2report.errors import NarrateError
from narrate2report.records.plain import NOT_TEXT, can_be_seen
from narrate2report.review.deciding import Stale

LONGEST_NAME = 200
"""Characters of who decides, as on the page."""
Asked = Callable[[str], str]
"""Asks for a line with a prompt and gives what was typed."""


class Leave(Exception):
    """The person is done."""


class Answering(ABC):
    """What is at hand, and what each letter does to it."""

    def __init__(self, console: Console, by: str, asked: Asked) -> None:
        self.console, self.by, self.asked = console, by, asked
        self.letters: dict[str, Callable[[str], None]] = {}

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
    def goes_to(self, typed: str) -> bool:
        """Whether what was typed names something to go to; it is gone to then."""

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
        if named and len(name) <= LONGEST_NAME and not NOT_TEXT.search(name):
            return name
        prompt = "Your name goes beside each decision; type it: "
