"""Charges, and changes that make none, as a statement tells them: evidence, judgement, cost, working, alternatives."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from narrate2report.errors import BadInput
from narrate2report.publish.report_values import Fact
from narrate2report.publish.statement_evidence import Pair
from narrate2report.publish.statement_values import Judged, Kept, Other, Told
from narrate2report.publish.statement_words import BASES, BECAME, SHARES, VERDICTS, WHOSE_LIFE, WORKS, day_of
from narrate2report.records.comparison import Became, FlawChange, Judgement
from narrate2report.records.money import told
from narrate2report.records.settlement import Alternative, Charge, LifeUsed, NotCharged
from narrate2report.wording import capital, plain, room_name


@dataclass(frozen=True)
class Grounds:
    """What a charge rests on: both records, the currency, and the changes of the comparison where it lies at hand."""

    pair: Pair
    currency: str
    changes: Mapping[str, FlawChange] = field(default_factory=dict)

    def money(self, charge: Charge) -> str:
        """The charge with its currency."""
        return told(charge.amount, self.currency)


def told_charge(charge: Charge, number: int, grounds: Grounds) -> Told:
    """One charge in full. Raises BadInput where its changes, outcomes and judgements are not as many."""
    if not len(charge.changes) == len(charge.outcomes) == len(charge.judgements):
        raise BadInput(f"charge {charge.id} has not one outcome and one judgement for each change; settle again")
    called = f" ({charge.called})" if charge.called else ""
    before, after = grounds.pair.sides(charge.before, charge.after, (charge.room, charge.component))
    life, office = charge.proration.life, grounds.pair.reader == "office"
    return Told(
        number=str(number),
        title=f"{room_name(charge.room)}, {plain(charge.component)}{called}",
        says=charge.says,
        amount=grounds.money(charge),
        before=before,
        after=after,
        judged=tuple(
            _judged(change, outcome, judgement, grounds)
            for change, outcome, judgement in zip(charge.changes, charge.outcomes, charge.judgements, strict=True)
        ),
        facts=tuple(_facts(charge, grounds.currency)),
        working=charge.working,
        marks=(_marked(life),) if life and life.mark else (),
        others=tuple(_other(one, grounds.currency) for one in charge.alternatives),
        sources=life.others if life and office else (),
        cautions=charge.cautions,
    )


def told_kept(kept: NotCharged, grounds: Grounds) -> Kept:
    """One change that makes no charge."""
    return Kept(
        says=kept.says,
        judged=_judged(kept.change, kept.outcome, kept.judgement, grounds),
        why=kept.why,
        before=grounds.pair.before.moments(kept.before),
        after=grounds.pair.after.moments(kept.after),
    )


def _judged(change: str, outcome: Became, judgement: Judgement | None, grounds: Grounds) -> Judged:
    paired = grounds.changes.get(change) if grounds.pair.reader == "office" else None
    return Judged(
        id=change,
        became=BECAME[outcome],
        verdict=VERDICTS[judgement.verdict if judgement else "open"],
        by=f"by {judgement.by}, {day_of(judgement.at)}" if judgement else "",
        why=(judgement.why or "") if judgement else "",
        because=paired.because if paired else (),
        unconfirmed="No person has confirmed this pairing." if paired and not paired.confirmed else "",
    )


def _facts(charge: Charge, currency: str) -> Iterator[Fact]:
    cost, proration = charge.cost, charge.proration
    yield Fact("Work", f"{WORKS[charge.work]}: {charge.what}")
    yield Fact("Cost in full", told(cost.total, currency), BASES[cost.basis])
    yield Fact("Receipt", cost.receipt or "NONE NAMED")
    if cost.hours is not None and cost.rate is not None:
        yield Fact("Own labour", f"{cost.hours} hours at {told(cost.rate, currency)}", told(cost.labour, currency))
    yield Fact("Prorated", capital(proration.rule))
    if proration.age_months is not None:
        yield Fact("Age", f"{proration.age_months:.4g} months", proration.age_basis or "no record of its age named")
    if proration.stay_months is not None:
        yield Fact("Length of stay", f"{proration.stay_months} whole months")
    if proration.life:
        life = proration.life
        source = f"{life.source or 'NO SOURCE'}; {WHOSE_LIFE[life.whose]}"
        yield Fact("Useful life", f"{life.years.normalize():f} years, {life.name}", source)
    yield Fact("Share of the cost", SHARES.get(proration.share, proration.share))
    if charge.portion_percent is not None:
        yield Fact("The resident’s part", f"{charge.portion_percent.normalize():f} %", charge.portion_why or "")


def _marked(life: LifeUsed) -> str:
    return f"Marked: the useful life of {life.years.normalize():f} years ({life.name}): {(life.mark or '').upper()}."


def _other(other: Alternative, currency: str) -> Other:
    would_be = told(other.would_be, currency) if other.would_be is not None else "not worked out"
    return Other(f"{WORKS[other.work]}: {other.what}", told(other.cost, currency), would_be, other.why_not)
