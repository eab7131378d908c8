"""What must be said wherever a settlement is shown: what it rests on, what it is not, what the place wants too."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from narrate2report.records.comparison import Comparison
from narrate2report.records.findings import Findings
from narrate2report.records.law import CHECK_THE_STATUTE, LawRow
from narrate2report.records.money import told
from narrate2report.records.settlement import Balance, Charge, DueDate
from narrate2report.records.unit import Unit
from narrate2report.settle.flaws import Flaw, Sorted
from narrate2report.settle.last_days import day_cautions, days_open
from narrate2report.wording import afterthought, counted, told_day

FROM_A_TABLE = (
    "A useful life from a table is a default that both sides can see. A dated receipt, the maker's word and the firm's "
    "own records come first."
)
NOT_DECIDED = "The program decides nothing: what is wear, what is damage and what is chargeable was judged by a person."


Walks = tuple[Findings, Findings]
"""Both records, the earlier one first."""


@dataclass(frozen=True)
class Worked:
    """What a settlement has come to so far."""

    unit: Unit
    comparison: Comparison
    by_kind: Sorted
    charges: tuple[Charge, ...]
    balance: Balance
    law: LawRow | None
    due: tuple[DueDate, ...]


def cautions_of(worked: Worked, minds: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Every caution, the gravest first; `minds` is what could not be held against a seal."""
    told_ = (
        CHECK_THE_STATUTE,
        *_of_days(worked.due, worked.law),
        *day_cautions(worked.unit.dates, worked.comparison),
        *minds,
        *_of_evidence(worked.comparison, worked.by_kind),
        *_of_money(worked.unit, worked.charges, worked.balance),
        *(_of_law(worked.law, worked.unit) if worked.law else ()),
        NOT_DECIDED,
    )
    return tuple(dict.fromkeys(told_))


def provisional_because(worked: Worked, walks: Walks, today: date) -> tuple[str, ...]:
    """Why a settlement is not to be sent as final; nothing where it may be."""
    comparison, by_kind, unit, law = worked.comparison, worked.by_kind, worked.unit, worked.law
    told_ = []
    if unclear := [room.after for room in comparison.unclear_rooms]:
        told_.append(
            f"Of {counted(len(unclear), 'room')} of the move-out record it is not clear which it was at move-in "
            f"({', '.join(unclear)}): say so with compare --rooms, and judge again."
        )
    if by_kind.open:
        told_.append(f"{counted(len(by_kind.open), 'change')} not judged yet: {_ids(by_kind.open)}.")
    unsure = tuple(flaw for flaw in by_kind.to_charge if not flaw.change.confirmed)
    if unsure:
        told_.append(f"{counted(len(unsure), 'pairing')} not confirmed by a person: {_ids(unsure)}.")
    if law is not None and law.interest == "yes" and unit.deposit.interest is None:
        told_.append(
            f"By the table, {law.jurisdiction} wants interest on the deposit ({law.interest_note}), and the unit file "
            "gives none; write interest under deposit, with amount 0 and the basis where none is due."
        )
    return (*told_, *_undecided(walks, worked), *days_open(unit.dates, comparison, today))


def _undecided(walks: Walks, worked: Worked) -> Iterator[str]:
    """What no person has decided about in either record: it may still be changed or dropped."""
    charged = {name for charge in worked.charges for name in (*charge.before, *charge.after)}
    sides = (
        ("move-in", worked.comparison.before.stands_in, walks[0]),
        ("move-out", worked.comparison.after.stands_in, walks[1]),
    )
    for name, file, findings in sides:
        undecided = [entry.id for entry in findings.entries if entry.is_open]
        if undecided:
            number = counted(len(undecided), "entry", "entries")
            behind = charged.intersection(undecided)
            rest = f", {len(behind)} of them behind a charge" if behind else ""
            yield (
                f"{number} of the {name} record ({file}) no person has decided about{rest}: "
                "review it, and settle again."
            )


def _of_days(due: tuple[DueDate, ...], law: LawRow | None) -> Iterator[str]:
    for one in due:
        case = f" (where {one.applies})" if one.applies else ""
        if one.day is not None and one.days_left is not None and one.days_left < 0:
            ago = f"{counted(-one.days_left, 'day')} ago"
            yield f"THE LAST DAY HAS PASSED{case}: {one.label}, {told_day(one.day)}, {ago}."
        elif one.plan_by is not None and one.plan_days_left is not None and one.plan_days_left < 0:
            ago = f"{counted(-one.plan_days_left, 'day')} ago"
            yield f"THE DAY TO KEEP HAS PASSED{case}: {one.label}, {told_day(one.plan_by)}, {ago}."
    if any(one.given for one in due):
        yield "Days to return the deposit were given at the keyboard and come from no statute of the table."
    if law is None:
        yield "No jurisdiction of the table is named: nothing here says what the law of the place wants."


def _of_evidence(comparison: Comparison, by_kind: Sorted) -> Iterator[str]:
    for name, record in (("move-in", comparison.before), ("move-out", comparison.after)):
        if record.seal is None:
            yield f"THE {name.upper()} RECORD IS NOT SEALED ({record.file}): it can have been changed since the walk."
    yield from (f"{afterthought(one)}." for one in comparison.afterthoughts)
    if by_kind.without_baseline:
        yield (
            f"{counted(len(by_kind.without_baseline), 'flaw')} of the move-out record NOT CHARGED: the move-in "
            f"record says nothing of that component ({_ids(by_kind.without_baseline)}). Alone they prove nothing here."
        )
    for name, wanted, found in (
        ("move-in", "move_in", comparison.before.kind),
        ("move-out", "move_out", comparison.after.kind),
    ):
        if found not in (None, wanted):
            yield f"What stands for the {name} record says that it is one of another kind ({found})."


def _of_money(unit: Unit, charges: tuple[Charge, ...], balance: Balance) -> Iterator[str]:
    if balance.above_deposit:
        yield balance.told
    lives = [charge.proration.life for charge in charges if charge.proration.life]
    if any(life.whose == "built_in_table" for life in lives):
        yield FROM_A_TABLE
    for life in lives:
        if life.mark:
            yield f"The useful life of {life.name} ({life.years} years) is marked: {life.mark}."
    for one in unit.sums:
        if one.owed_by == "resident":
            amount = told(one.amount, unit.currency)
            yield f"{one.what}, {amount}: whether it may be kept from the deposit is for local law."


def _of_law(law: LawRow, unit: Unit) -> Iterator[str]:
    yield (
        f"Facts on {law.jurisdiction}, as of {law.facts_as_of}; read from {law.source} ({law.verification}; "
        f"confidence {law.confidence})."
    )
    if law.doubtful_cells:
        yield f"Doubtful in the table: {law.doubtful_cells}."
    if law.days_max_extended:
        yield f"What the table says of a longer time: {law.days_max_extended}."
    if law.cost_evidence_requirement not in ("", "none"):
        yield f"Evidence of cost that the table names: {law.cost_evidence_requirement}."
    if law.photo_requirement not in ("", "none"):
        yield f"Photographs: {law.photo_requirement}."
    if law.movein_checklist != "no" or law.movein_checklist_note:
        yield f"Move-in list: {'; '.join(part for part in (law.movein_checklist, law.movein_checklist_note) if part)}."
    if law.tenant_objection_days or law.objection_note:
        within = f"{law.tenant_objection_days} days" if law.tenant_objection_days else ""
        yield f"Objections of the resident: {'; '.join(part for part in (within, law.objection_note) if part)}."
    if law.interest not in ("", "no") and unit.deposit.interest is None:
        yield f"Interest: {law.interest}{f'; {law.interest_note}' if law.interest_note else ''}. None is given here."
    if law.needs_forwarding_address.startswith("yes") and unit.dates.forwarding_address_received is None:
        yield f"Forwarding address: {law.needs_forwarding_address}. No day of its receipt is given."
    if law.special_rules:
        yield f"Special rules: {law.special_rules}."


def _ids(flaws: tuple[Flaw, ...]) -> str:
    return ", ".join(flaw.change.id for flaw in flaws)
