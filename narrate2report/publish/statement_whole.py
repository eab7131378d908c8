"""A settlement and its two records become a statement: every section of it, for one reader. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from narrate2report.publish.report_values import Fact
from narrate2report.publish.statement_account import account_of, balance_told, check_account, total_of
from narrate2report.publish.statement_charges import Grounds, told_charge, told_kept
from narrate2report.publish.statement_evidence import Pair
from narrate2report.publish.statement_law import can_do, counted_alike, silent_columns, told_due, told_law
from narrate2report.publish.statement_method import told_files, told_method
from narrate2report.publish.statement_values import Due, Statement
from narrate2report.publish.statement_words import (
    LANGUAGE,
    NOT_KNOWN,
    NOT_SEALED,
    PAGE,
    PROVISIONAL,
    READERS,
    SAME_DAY,
)
from narrate2report.records.comparison import FlawChange
from narrate2report.records.settlement import Settlement
from narrate2report.wording import capital, told_day, unit_name


@dataclass(frozen=True)
class Files:
    """What is known of the settlement's own files: name and SHA-256 of each, and the changes that were compared.

    `comparison_sha256` and `changes` are None and empty where the comparison does not lie beside the settlement.
    """

    name: str
    settlement: str
    settlement_sha256: str
    comparison_sha256: str | None = None
    changes: Sequence[FlawChange] = field(default=())


def statement_of(settlement: Settlement, pair: Pair, files: Files) -> Statement:
    """The whole statement. Raises BadInput where its lines do not come to its balance, or an entry is not there."""
    check_account(settlement)
    changes = {change.id: change for change in files.changes}
    grounds = Grounds(pair, settlement.currency, changes)
    due = told_due(settlement)
    return Statement(
        title=f"Itemised deposit statement, {unit_name(settlement.unit.unit)}",
        name=files.name,
        reader=pair.reader,
        reader_word=READERS[pair.reader],
        marks=" · ".join(_marks(settlement, pair)),
        alarms=tuple(_alarms(settlement, pair, due)),
        facts=tuple(_facts(settlement)),
        as_of=f"{PAGE['as_of']} {told_day(settlement.today)}",
        account=account_of(settlement),
        total=total_of(settlement),
        total_told=balance_told(settlement),
        unit_of_money=settlement.currency,
        interest=settlement.interest.working if settlement.interest else (),
        due=due,
        counted=counted_alike(due),
        counted_by=tuple(dict.fromkeys(one.source for one in due)),
        can_do=can_do(settlement),
        charges=tuple(told_charge(one, number, grounds) for number, one in enumerate(settlement.charges, start=1)),
        open=tuple(told_kept(one, grounds) for one in settlement.open),
        without_baseline=tuple(told_kept(one, grounds) for one in settlement.without_baseline),
        not_charged=tuple(told_kept(one, grounds) for one in settlement.not_charged),
        law=told_law(settlement.law),
        law_silent=silent_columns(settlement.law),
        law_doubt=settlement.law.doubtful_cells if settlement.law else "",
        method=told_method(settlement, files.changes, pair),
        sources=told_files(settlement, pair, files.settlement, files.settlement_sha256, files.comparison_sha256),
        cautions=settlement.cautions,
        signs=settlement.unit.manager or settlement.unit.owner or "",
        language=LANGUAGE,
        words=PAGE,
    )


def _unsealed(pair: Pair) -> Iterator[str]:
    """The walks whose record was not sealed when it was compared, or is not sealed now."""
    for name, walked in ((PAGE["before"], pair.before), (PAGE["after"], pair.after)):
        if not walked.sealed:
            yield name.lower()


def _marks(settlement: Settlement, pair: Pair) -> Iterator[str]:
    if settlement.provisional or pair.late:
        yield PROVISIONAL
    if not pair.sealed:
        yield NOT_SEALED


def _alarms(settlement: Settlement, pair: Pair, due: Sequence[Due]) -> Iterator[str]:
    if settlement.provisional:
        reasons = " ".join(settlement.provisional_because)
        yield f"{PROVISIONAL}. {reasons}".rstrip()
    # Where settling knew of it already, it stands among the reasons.
    yield from (told for told in pair.late if told not in settlement.provisional_because)
    for name in _unsealed(pair):
        yield (
            f"{NOT_SEALED}: the {name} record had no seal when it was compared or has none now, so nothing shows that "
            "it was not changed since the walk."
        )
    for one in due:
        if one.late:
            which = "LAST DAY" if one.over else "DAY TO KEEP"
            words = "" if one.by_words == SAME_DAY else f" By the table’s words the last day is {one.by_words}."
            yield f"THE {which} HAS PASSED. {one.what}: {one.keep}, {one.left}.{words}"


def _facts(settlement: Settlement) -> Iterator[Fact]:
    unit = settlement.unit
    yield Fact("Unit", ", ".join(dict.fromkeys(part for part in (unit_name(unit.unit), unit.address) if part)))
    yield Fact("Resident", ", ".join(unit.residents) or NOT_KNOWN)
    yield Fact("Forwarding address", unit.forwarding_address or NOT_KNOWN)
    if unit.owner:
        yield Fact("Owner", unit.owner)
    if unit.manager:
        yield Fact("Manager", unit.manager)
    for one in settlement.dates:
        yield Fact(capital(one.label), told_day(one.day))
    yield Fact(PAGE["as_of"], told_day(settlement.today))
