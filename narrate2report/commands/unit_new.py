"""`unit new FILE`: a unit's facts, asked for one a line in the terminal, and written as a unit file.

An answer that cannot be is told and asked for again; nothing is written before all of it fits together.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from pydantic import ValidationError
from rich.console import Console

from narrate2report.commands.planned import known_names
from narrate2report.commands.typed import command
from narrate2report.commands.unit_questions import (
    LISTS,
    OF_A_REMEDY,
    OF_A_THING,
    OPTIONAL,
    REQUIRED,
    WORKS,
    Question,
    problem_of,
)
from narrate2report.commands.words import word_folders
from narrate2report.errors import BadInput
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.records.files import write_whole
from narrate2report.records.unit import Unit
from narrate2report.records.unit_checks import KnownNames, first_fault, name_fault
from narrate2report.records.unit_file import first_problem
from narrate2report.records.unit_text import unit_text


def new_unit(file: Path, *, vocabulary: Path | None) -> None:
    """Ask for a unit and write it. Raises BadInput where the file is there already or the answers end too early."""
    if file.exists():
        raise BadInput(f"{file}: is there already and stays as it is; choose another name, or change it in an editor")
    words = load_vocabulary(*word_folders(vocabulary))
    console = Console(highlight=False, markup=False)
    asking = _Asking(console, known_names(words))
    try:
        unit = asking.unit()
    except EOFError as error:
        raise BadInput(f"{file}: the answers ended before all was asked; nothing was written") from error
    write_whole(file, unit_text(unit).encode("utf-8"))
    console.print(f"Written: {file}. Add to it in any editor; see: {command('guide', 'settling')}", soft_wrap=True)


class _Asking:
    """The questions, and the facts as far as they are known."""

    def __init__(self, console: Console, known: KnownNames) -> None:
        self._console = console
        self._known = known
        self._facts: dict[str, Any] = {"people": {}, "dates": {}, "deposit": {}}

    def unit(self) -> Unit:
        """Ask for everything. Raises EOFError where the answers end."""
        self._tell("Enter leaves out what is not known.")
        for name, prompt in REQUIRED:
            self._required(name, prompt)
        for name, prompt in OPTIONAL:
            self._optional(name, prompt)
        self._tell("Components to settle, one after the other; Enter when there are no more.")
        while room := self._ask_name("Room (such as bedroom.2)", "room"):
            self._thing(room)
        self._tell("Rooms that a walk is expected to speak of; Enter when there are no more.")
        while room := self._ask_name("Room", "room"):
            self._expected(room)
        return Unit.model_validate(self._facts)

    def _required(self, name: str, prompt: str) -> None:
        while not (typed := self._answer(name, prompt)):
            self._tell("  this one is needed")
        self._put(name, typed)

    def _optional(self, name: str, prompt: str) -> None:
        """Asked again where it does not fit what is known already."""
        while typed := self._answer(name, prompt):
            before = self._put(name, [one.strip() for one in typed.split(",")] if name in LISTS else typed)
            problem = self._problem()
            if problem is None:
                return
            self._put(name, before)
            self._tell(f"  {problem}")

    def _thing(self, room: str) -> None:
        component = self._ask_name("  Component (such as carpet)", "component")
        if not component:
            return
        thing: dict[str, Any] = {"room": room, "component": component, **self._answers("thing", OF_A_THING)}
        remedies = []
        while work := self._answer("remedy.work", WORKS):
            remedies.append({"work": work, **self._answers("remedy", OF_A_REMEDY)})
        thing |= {"remedies": remedies} if remedies else {}
        self._keep("components", [*self._facts.get("components", []), thing])

    def _expected(self, room: str) -> None:
        typed = self._ask(f"  Components expected in {room}, with commas between them")
        names = [one.strip() for one in typed.split(",") if one.strip()]
        self._keep("rooms", {**self._facts.get("rooms", {}), room: names})

    def _keep(self, name: str, value: Any) -> None:
        """Keep it where all fits together; else say why not and leave it out."""
        before = self._put(name, value)
        if problem := self._problem():
            self._put(name, before)
            self._tell(f"  {problem}. Left out; give it again.")

    def _answers(self, block: str, questions: tuple[Question, ...]) -> dict[str, str]:
        told = ((name, self._answer(f"{block}.{name}", prompt)) for name, prompt in questions)
        return {name: typed for name, typed in told if typed}

    def _answer(self, name: str, prompt: str) -> str:
        """What is typed, asked for again until it can stand by itself; nothing where it is left out."""
        while typed := self._ask(prompt):
            problem = problem_of(name, typed, self._facts.get("currency", ""))
            if problem is None:
                break
            self._tell(f"  {problem}")
        return typed

    def _ask_name(self, prompt: str, what: str) -> str:
        """A room or component of the vocabulary, asked for again until it is one."""
        while typed := self._ask(prompt):
            problem = name_fault(what, typed, self._known)
            if problem is None:
                break
            self._tell(f"  {problem}")
        return typed

    def _problem(self) -> str | None:
        """What does not fit together in the facts so far."""
        try:
            return first_fault(Unit.model_validate(self._facts), self._known)
        except ValidationError as error:
            return first_problem(error, self._facts)[1]

    def _put(self, name: str, value: Any) -> Any:
        """Set a fact, or take it away, and give what stood there before."""
        *above, last = name.split(".")
        block = self._facts
        for part in above:
            block = block[part]
        before = block.pop(last, None)
        if value is not None:
            block[last] = value
        return before

    def _ask(self, prompt: str) -> str:
        typed = self._console.input(f"{prompt}: ", markup=False, emoji=False).strip()
        if not sys.stdin.isatty():
            self._tell(typed)
        return typed

    def _tell(self, line: str) -> None:
        self._console.print(line, soft_wrap=True)
