"""The law of a settlement as it is shown: by when, what the resident can do, the whole row of the table. Never advice.

What the table does not say is not said here either.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Final

from narrate2report.publish.report_values import Fact
from narrate2report.publish.statement_values import Due
from narrate2report.publish.statement_words import DOES_NOT_APPLY, LAW_COLUMNS, NOT_KNOWN, SAME_DAY, by_whom, days_left
from narrate2report.records.duties import Duty, duties_of
from narrate2report.records.law import CHECK_THE_STATUTE, LawRow
from narrate2report.records.settlement import DueDate, Settlement
from narrate2report.wording import told_day

_NOTHING: Final = frozenset({"", "none", "no"})

LOOK: Final = (
    "Look at the evidence. Every charge names the words and pictures of both walks, and each time opens the recording "
    "there. Ask in writing for the recordings and the two records if you do not have them."
)
DISPUTE: Final = (
    "If you disagree, say so in writing, with the date, and keep a copy. Name the number of the charge, say what is "
    "wrong, and add photographs, receipts or witnesses of your own. You can accept some charges and dispute others."
)
NO_TIME_NAMED: Final = (
    "By when: the table of law used here names no time in which you must object. That does not mean that there is "
    "none. Answer soon."
)
ASK_FOR_COSTS: Final = "Ask in writing for the invoice, receipt or estimate behind any charge."
LOCAL_ADVICE: Final = (
    "A local tenant advice office, a housing or consumer office, legal aid or a lawyer can tell you what holds where "
    "you live, and what it costs to go to court over it."
)


def told_due(settlement: Settlement) -> tuple[Due, ...]:
    """Every deadline with its citation; one that does not apply as things stand is marked so."""
    return tuple(_due(one, settlement.law) for one in duties_of(settlement))


def counted_alike(due: Iterable[Due]) -> tuple[Due, ...]:
    """Days with one and the same working stand once, with all that must be done by then."""
    found: dict[Due, list[str]] = {}
    for one in due:
        found.setdefault(replace(one, what=""), []).append(one.what)
    return tuple(replace(one, what="; ".join(what)) for one, what in found.items())


def can_do(settlement: Settlement) -> tuple[str, ...]:
    """What the resident can do about this statement."""
    return (*_first(settlement), *_by_law(settlement.law), *_last(settlement))


def told_law(law: LawRow | None) -> tuple[Fact, ...]:
    """Every column of the row that says something, and where and when it was read."""
    if law is None:
        return ()
    facts = [Fact("Jurisdiction", f"{law.jurisdiction} ({law.code})")]
    facts += [Fact(name, str(told)) for column, name in LAW_COLUMNS.items() if (told := getattr(law, column))]
    read = f"{law.source} ({law.verification})" if law.verification else law.source
    return (*facts, Fact("Facts as of", law.facts_as_of), Fact("Read from", read), Fact("Confidence", law.confidence))


def silent_columns(law: LawRow | None) -> str:
    """What the row says nothing of, which does not mean that the law does not."""
    if law is None:
        return ""
    return ", ".join(name.lower() for column, name in LAW_COLUMNS.items() if not getattr(law, column))


def _due(duty: Duty, law: LawRow | None) -> Due:
    due = duty.due
    if duty.why_not:
        source, nothing = by_whom(due, law), days_left(None)
        return Due(due.told, DOES_NOT_APPLY, nothing, nothing, source, working=(duty.why_not,), asks="")
    return Due(
        what=due.told,
        keep=told_day(due.plan_by) if due.plan_by else NOT_KNOWN,
        left=days_left(due.plan_days_left),
        by_words=_by_words(due),
        source=by_whom(due, law),
        working=due.working,
        asks=due.asks or "",
        late=due.plan_days_left is not None and due.plan_days_left < 0,
        over=due.days_left is not None and due.days_left < 0,
    )


def _by_words(due: DueDate) -> str:
    if due.day is None:
        return NOT_KNOWN
    return SAME_DAY if due.day == due.plan_by else f"{told_day(due.day)} ({days_left(due.days_left)})"


def _first(settlement: Settlement) -> Iterator[str]:
    if settlement.provisional:
        yield "This statement is provisional: amounts may still change. Wait for the final one before you agree to any."
    yield LOOK
    yield DISPUTE


def _by_law(law: LawRow | None) -> Iterator[str]:
    if law is None:
        yield NO_TIME_NAMED
        yield ASK_FOR_COSTS
        return
    days = f"{law.tenant_objection_days} days" if law.tenant_objection_days else ""
    told = "; ".join(part for part in (days, law.objection_note) if part)
    yield (
        NO_TIME_NAMED
        if not told
        else (
            f"By when: of objections in {law.jurisdiction}, the table of law has “{told}”. Check in the statute which "
            "objection is meant and from which day it counts."
        )
    )
    cost, photos = law.cost_evidence_requirement, law.photo_requirement
    yield (
        ASK_FOR_COSTS
        if cost in _NOTHING
        else (f"{ASK_FOR_COSTS} Of evidence of cost in {law.jurisdiction}, the table has “{cost}”.")
    )
    if photos not in _NOTHING:
        yield f"Ask for the photographs. Of these in {law.jurisdiction}, the table has “{photos}”."


def _last(settlement: Settlement) -> Iterator[str]:
    if settlement.unit.forwarding_address is None:
        yield "Give the manager your forwarding address in writing, and keep a copy: none is known here."
    yield LOCAL_ADVICE
    yield CHECK_THE_STATUTE
