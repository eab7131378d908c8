"""The tables that travel with the program, as values: deposit law, the clocks of its deadlines, useful lives.

Every column of a table stays in its file, with the source of each row; what is read here is what is worked with.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from functools import cache

from narrate2report.records.law import Clock, LawRow, Leg
from narrate2report.records.life import LifeRow, Step
from narrate2report.records.nearest import close_to
from narrate2report.shipped import shipped

_LEG = re.compile(r"([a-z_]+)\+(\d+)([bm]?)")
_UNITS = {"": "calendar", "b": "business", "m": "month"}


@cache
def law_rows() -> Mapping[str, LawRow]:
    """Each jurisdiction's row, by its code (ISO 3166-2), such as `US-OH`."""
    return {row["code"]: LawRow.model_validate(_numbers(row)) for row in table("deposit-law.csv")}


def jurisdiction(name: str) -> LawRow | None:
    """The row of a place by its code (`US-OH`, `us-oh`), a state's letters alone (`OH`) or its name (`Ohio`)."""
    rows = law_rows()
    wanted = name.strip().upper()
    by_name = {row.jurisdiction.upper(): row for row in rows.values()}
    return rows.get(wanted) or rows.get(f"US-{wanted}") or by_name.get(wanted)


def like_jurisdiction(name: str) -> str:
    """What a name that is in no row may have meant, to be added to a complaint; nothing where nothing is close."""
    names = {row.jurisdiction.lower(): row for row in law_rows().values()}
    close = close_to(name, names)
    return f" (is it {names[close].code}, {names[close].jurisdiction}?)" if close else ""


@cache
def clocks() -> tuple[Clock, ...]:
    """What starts the days of each jurisdiction, as read from the column `clock_start` of its row."""
    return tuple(
        Clock(
            code=row["code"],
            duties=tuple(row["duties"].split(";")),
            applies=row["applies"] or None,
            holds_if=row["holds_if"] or None,
            whichever=row["whichever"],
            legs=tuple(_leg(text) for text in row["legs"].split(";")),
        )
        for row in table("deposit-clocks.csv")
    )


@cache
def life_rows() -> tuple[LifeRow, ...]:
    """Every row on how long a thing lasts; a range begins at its shorter end."""
    return tuple(
        LifeRow(
            name=row["item"],
            group=row["component_group"],
            years=Decimal(row["useful_life_years"] or row["life_low"]),
            high=Decimal(row["life_high"]) if row["life_high"] else None,
            source=row["source"],
            purpose=row["purpose_of_source"],
            verified=row["verified"],
            note=row["note"],
            use="share" if row["use"] == "share" else "shown_only",
        )
        for row in table("useful-life.csv")
        if row["row_type"] == "life"
    )


@cache
def life_groups() -> Mapping[str, tuple[str, ...]]:
    """The groups of the table of lives that a component may belong to, by its id."""
    return {row["component"]: tuple(row["groups"].split(";")) for row in table("life-groups.csv")}


@cache
def repaint_steps() -> tuple[Step, ...]:
    """The published schedule for repainting by length of stay, its steps in order."""
    return tuple(_step(row) for row in table("useful-life.csv") if row["row_type"] == "schedule")


def table(name: str) -> list[dict[str, str]]:
    """Every row of a table that travels with the program, by its columns."""
    with (shipped("references") / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _step(row: Mapping[str, str]) -> Step:
    since, _, below = row["tenancy_months"].removesuffix("+").partition("-")
    return Step(
        since=int(since),
        below=int(below) if below else None,
        share=Fraction(row["expected_tenant_share"]),
        source=row["source"],
        note=row["note"],
    )


def _leg(text: str) -> Leg:
    found = _LEG.fullmatch(text)
    if found is None:
        raise AssertionError(f"deposit-clocks.csv: {text!r} is no event with days")
    event, count, unit = found.groups()
    return Leg.model_validate({"event": event, "count": int(count), "unit": _UNITS[unit]})


def _numbers(row: Mapping[str, str]) -> dict[str, str | int | None]:
    whole = ("days_return", "days_itemised_notice", "safe_deadline_days")
    return {**row, **{name: int(row[name]) if row[name] else None for name in whole}}
