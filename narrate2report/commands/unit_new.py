"""`unit new FILE`: a unit's facts, asked for one a line in the terminal, and written as a unit file.

An answer that cannot be is told and asked for again; nothing is written before all of it fits together.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from pydantic import ValidationError
from rich.console import Console

from narrate2report.commands.typed import command
from narrate2report.commands.words import word_folders
from narrate2report.errors import BadInput
from narrate2report.read.lexicon import load_vocabulary
from narrate2report.records.files import write_whole
from narrate2report.records.money import is_currency
from narrate2report.records.references import jurisdiction, like_jurisdiction
from narrate2report.records.unit import Unit
from narrate2report.records.unit_checks import KnownNames, first_fault
from narrate2report.records.unit_file import SUMS, read_sum
from narrate2report.records.unit_text import unit_text

REQUIRED: tuple[tuple[str, str], ...] = (
    ("unit", "Unit, as you call it"),
    ("currency", "Currency (such as USD)"),
    ("dates.lease_start", "First day of the lease (YYYY-MM-DD)"),
    ("deposit.held", "Deposit held"),
)
OPTIONAL: tuple[tuple[str, str], ...] = (
    ("address", "Address"),
    ("jurisdiction", "Jurisdiction (such as US-OH)"),
    ("people.owner", "Owner"),
    ("people.manager", "Manager"),
    ("people.residents", "Residents, with commas between them"),
    ("forwarding_address", "Forwarding address"),
    ("deposit.received", "Day the deposit was received"),
    ("dates.lease_end", "Last day of the lease"),
    ("dates.possession_returned", "Day possession and keys were returned"),
    ("dates.vacated", "Day of moving out, where that was another one"),
    ("dates.forwarding_address_received", "Day the forwarding address came"),
    ("dates.demand_received", "Day the resident asked for the deposit in writing"),
)
OF_A_THING: tuple[tuple[str, str], ...] = (
    ("called", "  What it is (such as grey laminate top)"),
    ("installed", "  Day it was installed, if known"),
    ("age_years", "  Else its age in years when possession was returned"),
    ("age_basis", "  What shows its age (such as a receipt)"),
    ("useful_life_years", "  Years such a thing lasts; nothing for the tables'"),
    ("life_source", "  Who says so"),
    ("life_as", "  Else its kind in the tables (such as laminate_floor)"),
)
OF_A_REMEDY: tuple[tuple[str, str], ...] = (
    ("what", "    What is done, in words"),
    ("basis", "    Basis of the cost (invoice, estimate, own_labour)"),
    ("amount", "    Amount; of own labour, the materials"),
    ("hours", "    Hours of own labour"),
    ("rate", "    Rate per hour"),
    ("receipt", "    Number or file of the invoice or estimate"),
)
LISTS = frozenset({"people.residents"})


def new_unit(file: Path, *, vocabulary: Path | None) -> None:
    """Ask for a unit and write it. Raises BadInput where the file is there already or the answers end too early."""
    if file.exists():
        raise BadInput(f"{file}: is there already and stays as it is; choose another name, or change it in an editor")
    words = load_vocabulary(*word_folders(vocabulary))
    console = Console(highlight=False, markup=False)
    asking = _Asking(console, KnownNames(frozenset(words.rooms), frozenset(words.components)))
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
        while room := self._ask("Room (such as bedroom.2)"):
            self._thing(room)
        self._tell("Rooms that a walk is expected to speak of; Enter when there are no more.")
        while room := self._ask("Room"):
            self._expected(room)
        return Unit.model_validate(self._facts)

    def _required(self, name: str, prompt: str) -> None:
        """Asked until it is given and can be read; the others of its kind are not there yet to be checked with it."""
        while True:
            typed = self._ask(prompt)
            problem = self._problem_of(name, typed) if typed else "this one is needed"
            if problem is None:
                self._put(name, typed)
                return
            self._tell(f"  {problem}")

    def _optional(self, name: str, prompt: str) -> None:
        while typed := self._ask(prompt):
            before = self._put(name, [one.strip() for one in typed.split(",")] if name in LISTS else typed)
            problem = self._problem_of(name, typed) or self._problem()
            if problem is None:
                return
            self._put(name, before)
            self._tell(f"  {problem}")

    def _thing(self, room: str) -> None:
        thing: dict[str, Any] = {"room": room, "component": self._ask("  Component (such as carpet)")}
        thing |= self._answers(OF_A_THING)
        remedies = []
        while work := self._ask(
            "  Work (replace, repaint, repair, clean, touch_up, secure, treat, supply); Enter for none"
        ):
            remedies.append({"work": work, **self._answers(OF_A_REMEDY)})
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

    def _answers(self, questions: tuple[tuple[str, str], ...]) -> dict[str, str]:
        answers = {}
        for name, prompt in questions:
            while typed := self._ask(prompt):
                if problem := self._sum_problem(name, typed):
                    self._tell(f"  {problem}")
                    continue
                answers[name] = typed
                break
        return answers

    def _problem_of(self, name: str, typed: str) -> str | None:
        return self._sum_problem(name.rpartition(".")[2], typed) or _problem_of(name, typed)

    def _sum_problem(self, name: str, typed: str) -> str | None:
        if name not in SUMS:
            return None
        try:
            read_sum(typed, self._facts["currency"])
        except ValueError as error:
            return str(error)
        return None

    def _problem(self) -> str | None:
        try:
            return first_fault(Unit.model_validate(self._facts), self._known)
        except ValidationError as error:
            first = error.errors(include_url=False)[0]
            return f"{', '.join(str(part) for part in first['loc'])}: {first['msg']}"

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


def _problem_of(name: str, typed: str) -> str | None:
    """What is wrong with one answer by itself."""
    if name == "currency" and not is_currency(typed):
        return f"{typed!r} is no currency of ISO 4217; type three capital letters such as USD"
    if name == "jurisdiction" and jurisdiction(typed) is None:
        hint = like_jurisdiction(typed)
        return f"{typed!r} is not in the table of deposit law{hint}; leave it out where the table has none"
    trial: dict[str, Any] = {"unit": "1", "currency": "USD", "people": {}, "dates": {"lease_start": "1900-01-01"}}
    trial["deposit"] = {"held": "0"}
    if name in LISTS:
        return None
    *above, last = name.split(".")
    (trial[above[0]] if above else trial)[last] = typed
    try:
        Unit.model_validate(trial)
    except ValidationError as error:
        fault = error.errors(include_url=False)[0]["msg"]
        return fault.removeprefix("Value error, ") if typed in fault else f"{typed!r} cannot be read: {fault}"
    return None
