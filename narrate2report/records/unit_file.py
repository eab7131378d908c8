"""A unit file, and a table of useful lives of one's own, from YAML to values: mistakes with file and line.

What single values must look like is checked here; whether they fit together in `unit_checks`.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, TypeAdapter, ValidationError

from narrate2report.errors import BadUnit
from narrate2report.records.base import Value
from narrate2report.records.life import LifeRow
from narrate2report.records.money import is_currency, places
from narrate2report.records.nearest import close_to, nearest
from narrate2report.records.unit import Text, Unit
from narrate2report.records.yaml_lines import FileKind, LinedYaml, Location

UNIT_FILE = FileKind("facts of a unit", BadUnit, "see: narrate2report guide settling")
LIVES_FILE = FileKind("useful lives", BadUnit, "see: narrate2report guide settling")

SUMS = frozenset({"amount", "held", "rate", "principal"})
"""Keys whose values are money."""

_SUM = re.compile(r"(?:(?P<before>[A-Z]{3}) )?(?P<sum>\d+(?:\.(?P<places>\d+))?)(?: (?P<after>[A-Z]{3}))?", re.ASCII)
_FAULTS = {
    "date_from_datetime_parsing": "is no day; write it as 2026-05-07",
    "date_parsing": "is no day; write it as 2026-05-07",
    "decimal_parsing": "is no number; write it as 7.5",
    "bool_parsing": "write yes or no",
    "greater_than_equal": "is negative; nothing here can be",
    "greater_than": "must be more than 0",
    "less_than_equal": "is too large to be meant",
    "string_type": "words are wanted here, without a list or block",
    "tuple_type": "a list is wanted here: lines that start with a dash",
    "dict_type": "a block is wanted here: indented lines, each a name, a colon and what belongs to it",
    "model_type": "a block is wanted here: indented lines, each a name, a colon and what belongs to it",
    "model_attributes_type": "a block is wanted here: indented lines, each a name, a colon and what belongs to it",
    "string_pattern_mismatch": "is no currency code; write three capital letters such as USD",
}

Kind = TypeVar("Kind")


@dataclass(frozen=True)
class UnitFile:
    """A unit file that was read, with where each of its values stands."""

    unit: Unit
    lines: LinedYaml


class OwnLife(Value):
    """How long a thing lasts by one's own records."""

    years: Decimal
    source: Text | None = None


def read_unit(path: Path) -> UnitFile:
    """The unit file at `path`. Raises BadUnit with file and line of the first value that cannot stand there."""
    lines = LinedYaml(path, UNIT_FILE)
    facts = lines.data
    if not isinstance(facts, dict) or not facts:
        raise lines.mistake((), "holds no facts of a unit; narrate2report unit new FILE asks for them and writes them")
    currency = facts.get("currency")
    if isinstance(currency, str) and re.fullmatch("[A-Z]{3}", currency):
        if not is_currency(currency):
            raise lines.mistake(("currency",), f"{currency} is no currency of ISO 4217; write one such as USD")
        facts = _plain_sums(facts, (), currency, lines)
    return UnitFile(_checked(TypeAdapter(Unit), facts, lines), lines)


def read_own_lives(path: Path, known: Collection[str]) -> tuple[LifeRow, ...]:
    """A table of useful lives of one's own, each for one of the `known` names.

    Raises BadUnit with file and line of the first mistake: a misspelt name would let another table speak silently.
    """
    lines = LinedYaml(path, LIVES_FILE)
    table = _checked(TypeAdapter(dict[str, OwnLife]), lines.data, lines)
    for name, life in table.items():
        if name not in known:
            wanted = close_to(name, known) or "a component or a group of the built-in table"
            raise lines.mistake((name,), f"{name} is nothing that a unit file can name; use {wanted}")
        if life.years <= 0:
            raise lines.mistake((name, "years"), f"{name}.years: must be more than 0")
    return tuple(
        LifeRow(name=name.replace("_", " "), group=name, years=life.years, source=life.source)
        for name, life in table.items()
    )


def _plain_sums(told: Any, at: Location, currency: str, lines: LinedYaml) -> Any:
    """The same facts with every sum as a bare number, its currency and places checked."""
    if isinstance(told, dict):
        return {key: _plain_sums(value, (*at, key), currency, lines) for key, value in told.items()}
    if isinstance(told, list):
        return [_plain_sums(value, (*at, number), currency, lines) for number, value in enumerate(told)]
    if at[-1] not in SUMS:
        return told
    return _plain_sum(str(told).strip(), at, currency, lines)


def read_sum(told: str, currency: str) -> str:
    """The bare figure of a sum as it was typed, `480`, `480.00` or `480.00 USD`. Raises ValueError, saying why not."""
    found = _SUM.fullmatch(told)
    if found is None:
        wanted = Decimal("1480").quantize(Decimal(1).scaleb(-places(currency)))
        fault = "is negative; say who owes it instead" if told.startswith("-") else "is no sum of money"
        raise ValueError(f"{told!r} {fault}; write it as {wanted}, without sign or thousands comma")
    for code in (found["before"], found["after"]):
        if code is not None and code != currency:
            raise ValueError(f"{told} where the currency is {currency}; convert it first")
    if len(found["places"] or "") > places(currency):
        raise ValueError(f"{told} has more than {places(currency)} decimal places")
    return found["sum"]


def _plain_sum(told: str, at: Location, currency: str, lines: LinedYaml) -> str:
    try:
        return read_sum(told, currency)
    except ValueError as error:
        raise lines.mistake(at, f"{_name(at)}: {error}") from error


def _checked(shape: TypeAdapter[Kind], facts: Any, lines: LinedYaml) -> Kind:
    try:
        return shape.validate_python(facts)
    except ValidationError as error:
        at, problem = first_problem(error, facts)
        raise lines.mistake(at, f"{_name(at)}: {problem}") from error


def first_problem(error: ValidationError, facts: Any) -> tuple[Location, str]:
    """Where the first mistake in some facts stands, and what is wrong there, in plain words.

    A misspelt name is told before the name that it was meant to be is said to be missing.
    """
    faults = error.errors(include_url=False)
    first = next((fault for fault in faults if fault["type"] == "extra_forbidden"), faults[0])
    at = tuple(part for part in first["loc"] if isinstance(part, str | int) and part != "[key]")
    return at, _told(first, at, facts)


def _told(fault: Mapping[str, Any], at: Location, facts: Any) -> str:
    kind = fault["type"]
    if kind == "missing":
        return "is missing"
    if kind == "extra_forbidden":
        return f"no such name here; use {nearest(str(at[-1]), _names_beside(at))}"
    if kind == "literal_error":
        return f"{_value(at, facts)!r} is not known here; use one of {fault['ctx']['expected']}"
    if kind == "value_error":
        return str(fault["msg"]).removeprefix("Value error, ")
    told = _FAULTS.get(kind, f"cannot be read ({fault['msg']})")
    value = _value(at, facts)
    return f"{value!r} {told}" if isinstance(value, str) and told.startswith(("is ", "must ")) else told


def _names_beside(at: Location) -> tuple[str, ...]:
    """The names that may stand where `at` does."""
    kind: Any = Unit
    for part in at[:-1]:
        if isinstance(part, str) and isinstance(kind, type) and issubclass(kind, BaseModel):
            field = kind.model_fields.get(part)
            kind = _model_in(field.annotation) if field else None
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        return tuple(kind.model_fields)
    return tuple(OwnLife.model_fields)


def _model_in(annotation: Any) -> Any:
    """The record type in `tuple[Thing, ...]` or `InterestTerms | None`."""
    for one in (annotation, *getattr(annotation, "__args__", ())):
        if isinstance(one, type) and issubclass(one, BaseModel):
            return one
    return None


def _value(at: Location, facts: Any) -> Any:
    for part in at:
        try:
            facts = facts[part]
        except (KeyError, IndexError, TypeError):
            return None
    return facts


def _name(at: Location) -> str:
    """`components 3, remedies 1, amount`: where it stands, in words; lists count from 1."""
    told: list[str] = []
    for part in at:
        if isinstance(part, int) and told:
            told[-1] += f" {part + 1}"
        else:
            told.append(str(part))
    return ", ".join(told) or "the file"
