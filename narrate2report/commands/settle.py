"""`settle CHANGES --unit UNIT.yaml --out SETTLEMENT.json`: what judged changes come to in money, and by when."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from rich.console import Console

from narrate2report.commands.out_file import earlier_at
from narrate2report.commands.planned import read_plan
from narrate2report.commands.sealed_walk import telling, walk_to_settle
from narrate2report.commands.words import word_folders
from narrate2report.errors import BadInput
from narrate2report.publish.settlement_summary import print_settlement
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.records.compared import read_comparison
from narrate2report.records.comparison import Comparison
from narrate2report.records.files import write_record
from narrate2report.records.law import LawRow
from narrate2report.records.references import (
    clocks,
    jurisdiction,
    life_groups,
    life_rows,
    like_jurisdiction,
    repaint_steps,
)
from narrate2report.records.settlement import Settlement
from narrate2report.records.unit import Unit
from narrate2report.records.unit_file import read_own_lives
from narrate2report.settle.charges import check_flaw_names
from narrate2report.settle.deadlines import GivenDays
from narrate2report.settle.settling import Grounds, Tables, settle
from narrate2report.settle.useful_life import Lives


@dataclass(frozen=True)
class WantedSettlement:
    """What the person at the keyboard asked for."""

    changes: Path
    unit: Path
    out: Path
    law: str | None = None
    lives: Path | None = None
    days: int | None = None
    clock_start: date | None = None
    today: date | None = None
    vocabulary: Path | None = None
    quiet: bool = False


def settle_deposit(wanted: WantedSettlement) -> Settlement:
    """Work the settlement out, write it and print it. Raises NarrateError, with nothing written, where it cannot be."""
    earlier_at(wanted.out, Settlement, "settlement")
    given = _given_days(wanted)
    vocabulary = load_vocabulary(*word_folders(wanted.vocabulary))
    unit = read_plan(wanted.unit, vocabulary).unit
    comparison = read_comparison(wanted.changes)
    check_flaw_names(unit, comparison, vocabulary.conditions)
    law = _law(wanted.law or unit.jurisdiction, given)
    own = read_own_lives(wanted.lives, _with_lives(unit, vocabulary.components)) if wanted.lives else ()
    grounds = _grounds(wanted, comparison, unit)
    tables = Tables(Lives(own, life_rows(), life_groups()), repaint_steps(), law, clocks(), given)
    made = settle(grounds, tables, wanted.today or date.today())
    write_record(wanted.out, made)
    if not wanted.quiet:
        _tell(made, wanted)
    return made


def _with_lives(unit: Unit, components: Iterable[str]) -> set[str]:
    """What a row on useful lives may be for: components, groups of the built-in table, the unit file's own kinds."""
    kinds = (thing.life_as for thing in unit.components if thing.life_as)
    return {*components, *(row.group for row in life_rows()), *kinds}


def _tell(made: Settlement, wanted: WantedSettlement) -> None:
    print_settlement(made, Console(highlight=False, markup=False))
    Console(highlight=False, markup=False).print(f"Written: {wanted.out}", soft_wrap=True)


def _grounds(wanted: WantedSettlement, comparison: Comparison, unit: Unit) -> Grounds:
    """The comparison with both records, held against their seals. Raises what `walk_to_settle` raises."""
    hashes = telling(Console(stderr=True, highlight=False, markup=False), quiet=wanted.quiet)
    before = walk_to_settle(comparison.before, wanted.changes, "move-in", hashes)
    after = walk_to_settle(comparison.after, wanted.changes, "move-out", hashes)
    return Grounds(
        comparison=comparison,
        comparison_file=wanted.changes.name,
        before=before.findings,
        after=after.findings,
        unit=unit,
        late=(*before.late, *after.late),
        minds=(*before.minds, *after.minds),
    )


def _given_days(wanted: WantedSettlement) -> GivenDays | None:
    if (wanted.days is None) != (wanted.clock_start is None):
        raise BadInput("days to return the deposit need both: --days N --clock-start YYYY-MM-DD")
    if wanted.days is None or wanted.clock_start is None:
        return None
    if not 0 < wanted.days <= 365:
        raise BadInput(f"--days {wanted.days}: write a number of days from 1 to 365")
    return GivenDays(wanted.days, wanted.clock_start)


def _law(name: str | None, given: GivenDays | None) -> LawRow | None:
    """The row of the table for a jurisdiction. Raises BadInput, asking for the days, where it gives none."""
    ask = "give what the statute says as --days N --clock-start YYYY-MM-DD"
    if name is None:
        if given is None:
            raise BadInput(f"no jurisdiction: write it in the unit file or --law CODE such as US-OH, or {ask}")
        return None
    row = jurisdiction(name)
    if row is None:
        if given is None:
            hint = like_jurisdiction(name)
            raise BadInput(f"{name}: not in the table of deposit law{hint}; no days are invented: {ask}")
        return None
    if given is None and not any(clock.code == row.code for clock in clocks()):
        raise BadInput(f"{row.code} ({row.jurisdiction}): its statute gives no number of days; none is invented: {ask}")
    return row
