"""The letter that goes with a deposit statement: plain text, with what is not known marked as a place to fill in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap
from typing import Final

from narrate2report.publish.statement_account import balance_told, left_of, sums_of
from narrate2report.publish.statement_law import ASK_FOR_COSTS, DISPUTE, LOCAL_ADVICE
from narrate2report.publish.statement_words import NOT_SEALED, PROVISIONAL, by_whom, figure
from narrate2report.records.duties import applying
from narrate2report.records.law import CHECK_THE_STATUTE
from narrate2report.records.settlement import SettledUnit, Settlement
from narrate2report.wording import counted, told_day, unit_name

WIDTH: Final = 76
"""Characters of a line."""
_AMOUNT: Final = 14
"""Characters of the column of amounts."""


def to_fill_in(what: str) -> str:
    """A place for what no file says, so that nobody can overlook it."""
    return f"[TO FILL IN: {what}]"


def letter_of(settlement: Settlement, *, sealed: bool, late: Sequence[str] = ()) -> str:
    """The whole letter, ending with a line break. `sealed` says whether both records are, `late` what was not read."""
    marks = _marks(settlement, sealed=sealed, late=late)
    parts = [part for part in (*marks, *_parts(settlement)) if part]
    return "\n\n".join(parts) + "\n"


def _parts(settlement: Settlement) -> Iterator[str]:
    unit = settlement.unit
    sender = unit.manager or unit.owner or to_fill_in("who sends this")
    yield "\n".join((_line(sender), to_fill_in("address, telephone and e-mail of the sender")))
    yield "\n".join((*map(_line, _residents(unit)), _line(unit.forwarding_address or to_fill_in("forwarding address"))))
    yield told_day(settlement.today)
    place = ", ".join(dict.fromkeys(part for part in (unit_name(unit.unit), unit.address) if part))
    yield _paragraph(f"Your deposit for {place}")
    yield _paragraph(f"Dear {' and '.join(_residents(unit))},")
    yield _paragraph(_opening(settlement))
    yield _account(settlement)
    yield _paragraph(balance_told(settlement))
    yield _paragraph(_payment(settlement))
    yield from _days(settlement)
    yield _paragraph(f"{DISPUTE} {ASK_FOR_COSTS}")
    yield from map(_paragraph, _objections(settlement))
    yield _paragraph(LOCAL_ADVICE)
    yield _paragraph(CHECK_THE_STATUTE)
    yield "Yours sincerely,"
    yield "\n".join((_line(sender), "", "Enclosed: the itemised statement"))


def _marks(settlement: Settlement, *, sealed: bool, late: Sequence[str]) -> Iterator[str]:
    yield from (_paragraph(f"*** {told} ***") for told in late if told not in settlement.provisional_because)
    if settlement.provisional:
        yield _paragraph(f"*** {PROVISIONAL} *** {' '.join(settlement.provisional_because)}")
    if not sealed:
        yield _paragraph(
            f"*** {NOT_SEALED} *** A record that this rests on has no seal: seal both, compare and settle again before "
            "you send this, or say so in the letter."
        )


def _residents(unit: SettledUnit) -> tuple[str, ...]:
    return unit.residents or (to_fill_in("name of the resident"),)


def _opening(settlement: Settlement) -> str:
    days = {one.name: one.day for one in settlement.dates}
    returned = days.get("possession_returned")
    thanks = f"Thank you for giving the unit back on {told_day(returned)}. " if returned else ""
    number = len(settlement.charges)
    charged = f"We make {counted(number, 'charge')} for its condition." if number else "We charge nothing for it."
    return (
        f"{thanks}This letter tells you what becomes of your deposit. We filmed and "
        "described the unit when you moved in and when you moved out, and set the two records beside each other. "
        f"{charged} The statement that comes with this letter shows, for each charge, what both records say, with "
        "pictures and links into the recordings, who judged it and why, and how the amount was worked out. It also "
        "lists what we did not charge, and why."
    )


def _account(settlement: Settlement) -> str:
    currency = settlement.currency
    rows = [
        (f"{one.number}. {one.told}: {one.basis}" if one.number else one.told, one.amount)
        for one in sums_of(settlement)
    ]
    rows.append(("What is left" if left_of(settlement) >= 0 else "Above the deposit", left_of(settlement)))
    lines: list[str] = [_row("", currency)]
    for number, (told, amount) in enumerate(rows):
        if number == len(rows) - 1:
            lines.append("-" * WIDTH)
        lines += [_row(told, figure(amount, currency))]
    return "\n".join(lines)


def _row(told: str, amount: str) -> str:
    first, *rest = wrap(_line(told), WIDTH - _AMOUNT - 2, subsequent_indent="   ") or [""]
    return "\n".join((f"{first:<{WIDTH - _AMOUNT}}{amount:>{_AMOUNT}}", *rest))


def _payment(settlement: Settlement) -> str:
    if settlement.balance.to != "resident":
        return "This letter makes no claim on you for anything beyond the deposit."
    how = to_fill_in("how it is paid, such as by cheque to your forwarding address")
    return f"We pay this amount {how} on {to_fill_in('day of the payment')}."


def _days(settlement: Settlement) -> Iterator[str]:
    for one in applying(settlement):
        if one.day is None:
            # What the program still wants of the unit file is no matter of the resident's, and no law gives a blank.
            yield _paragraph(f"{one.told}: the last day is {to_fill_in('the last day')}.")
            continue
        source, keep = by_whom(one, settlement.law), one.plan_by or one.day
        words = (
            "" if keep == one.day else f" By the words of the table that we use, the last day is {told_day(one.day)}."
        )
        yield _paragraph(f"{one.told}: the day that we keep is {told_day(keep)} ({source}).{words}")
    if not settlement.due:
        yield _paragraph(f"The last day for this is {to_fill_in('the last day by your local law')}.")


def _objections(settlement: Settlement) -> Iterator[str]:
    law = settlement.law
    if law is not None and law.objection_note:
        days = f"{law.tenant_objection_days} days; " if law.tenant_objection_days else ""
        yield f"Of objections in {law.jurisdiction}, the table of law that we use has: {days}{law.objection_note}."


def _line(text: str) -> str:
    """In one line, whatever stands in the file."""
    return " ".join(text.split())


def _paragraph(text: str) -> str:
    return "\n".join(wrap(_line(text), WIDTH, break_long_words=False, break_on_hyphens=False))
