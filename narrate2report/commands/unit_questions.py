"""What `unit new` asks, and what is wrong with one answer alone; how they fit together is for the unit's checks."""

from __future__ import annotations

from typing import Any

from pydantic import ValidationError

from narrate2report.records.money import is_currency
from narrate2report.records.references import jurisdiction, like_jurisdiction
from narrate2report.records.unit import Unit
from narrate2report.records.unit_file import SUMS, first_problem, read_sum

Question = tuple[str, str]
"""The name of a fact, dotted where it stands in a block, and the words in which it is asked for."""

REQUIRED: tuple[Question, ...] = (
    ("unit", "Unit, as you call it"),
    ("currency", "Currency (such as USD)"),
    ("dates.lease_start", "First day of the lease (YYYY-MM-DD)"),
    ("deposit.held", "Deposit held"),
)
OPTIONAL: tuple[Question, ...] = (
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
OF_A_THING: tuple[Question, ...] = (
    ("called", "  What it is (such as grey laminate top)"),
    ("installed", "  Day it was installed, if known"),
    ("age_years", "  Else its age in years when possession was returned"),
    ("age_basis", "  What shows its age (such as a receipt)"),
    ("useful_life_years", "  Years such a thing lasts; nothing for the tables'"),
    ("life_source", "  Who says so"),
    ("life_as", "  Else its kind in the tables (such as laminate_floor)"),
)
OF_A_REMEDY: tuple[Question, ...] = (
    ("what", "    What is done, in words"),
    ("basis", "    Basis of the cost (invoice, estimate, own_labour)"),
    ("amount", "    Amount; of own labour, the materials"),
    ("hours", "    Hours of own labour"),
    ("rate", "    Rate per hour"),
    ("receipt", "    Number or file of the invoice or estimate"),
)
LISTS = frozenset({"people.residents"})
WORKS = "    Work (replace, repaint, repair, clean, touch_up, secure, treat, supply); Enter for none"


def problem_of(name: str, typed: str, currency: str) -> str | None:
    """What is wrong with one answer, in words; None where it can stand."""
    if name == "currency" and not is_currency(typed):
        return f"{typed!r} is no currency of ISO 4217; type three capital letters such as USD"
    if name == "jurisdiction" and jurisdiction(typed) is None:
        hint = like_jurisdiction(typed)
        return f"{typed!r} is not in the table of deposit law{hint}; leave it out where the table has none"
    if name in LISTS:
        return None
    if name.rpartition(".")[2] in SUMS:
        try:
            typed = read_sum(typed, currency)
        except ValueError as error:
            return str(error)
    trial = _with(name, typed)
    try:
        Unit.model_validate(trial)
    except ValidationError as error:
        return first_problem(error, trial)[1]
    return None


def _with(name: str, typed: str) -> dict[str, Any]:
    """The facts of some unit with this one among them."""
    remedy = {"work": "repair", "what": "mend it", "basis": "estimate"}
    thing: dict[str, Any] = {"room": "kitchen", "component": "carpet", "remedies": [remedy]}
    trial: dict[str, Any] = {
        "unit": "1",
        "currency": "USD",
        "people": {},
        "dates": {"lease_start": "2000-01-01"},
        "deposit": {"held": "0"},
        "components": [thing],
    }
    block, _, last = name.rpartition(".")
    {"": trial, "thing": thing, "remedy": remedy}.get(block, trial.get(block, {}))[last] = typed
    return trial
