"""The fixed wording of the deposit statement and its letter, in one place; nothing here is read from a file."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal
from typing import Final

from narrate2report.publish.statement_values import Reader
from narrate2report.records.comparison import Became, Verdict
from narrate2report.records.law import LawRow
from narrate2report.records.money import told
from narrate2report.records.settlement import DueDate
from narrate2report.records.unit import Basis, Work
from narrate2report.wording import VERDICTS as JUDGED
from narrate2report.wording import counted, told_day

LANGUAGE: Final = "en"
MINUS: Final = "−"

READERS: Final[dict[Reader, str]] = {"resident": "the resident", "office": "the office"}
BECAME: Final[dict[Became, str]] = {
    "unchanged": "There at move-in, unchanged",
    "worse": "There at move-in, now worse",
    "better": "There at move-in, now less",
    "gone": "There at move-in, not there any more",
    "not_mentioned": "There at move-in, not spoken of at move-out",
    "new": "New since move-in",
    "no_baseline": "No baseline at move-in",
}
"""For a resident: in whole phrases, since they know none of the words that the office judges by."""

VERDICTS: Final[dict[Verdict, str]] = {
    **{name: f"Judged {words}" for name, words in JUDGED.items()},
    "open": "OPEN: not judged yet",
}
BASES: Final[dict[Basis, str]] = {"invoice": "invoice", "estimate": "estimate", "own_labour": "own labour"}
WORKS: Final[dict[Work, str]] = {
    "replace": "replace",
    "repaint": "repaint",
    "repair": "repair",
    "clean": "clean",
    "touch_up": "touch up",
    "secure": "secure",
    "treat": "treat",
    "supply": "supply again",
}
WHOSE_LIFE: Final = {
    "unit_file": "given for this thing in the unit file",
    "own_table": "from the firm’s own table",
    "built_in_table": "from the built-in table, a default that both sides can see",
}
LAW_COLUMNS: Final = {
    "statute": "Statute",
    "clock_start": "What starts the days",
    "days_return": "Days to return",
    "days_itemised_notice": "Days to itemise",
    "day_unit": "Kind of days",
    "days_max_extended": "At most, if extended",
    "safe_deadline_days": "Cautious days to plan with (not law)",
    "needs_forwarding_address": "Forwarding address needed",
    "movein_checklist": "Move-in list",
    "movein_checklist_note": "Of the move-in list",
    "tenant_objection_days": "Days to object",
    "objection_note": "Of objections",
    "photo_requirement": "Photographs",
    "cost_evidence_requirement": "Evidence of cost",
    "interest": "Interest",
    "interest_note": "Of interest",
    "special_rules": "Special rules",
}
"""Columns of the table of law that are printed, besides where and when it was read."""

PAGE: Final = {
    "prepared_for": "This copy is for",
    "account": "The account",
    "number": "No.",
    "line": "What",
    "when": "By when",
    "keep": "Keep this day",
    "left": "Left",
    "by_words": "Last day by the table’s words",
    "source": "Counted by",
    "when_none": "No day is counted, because nothing says from when and how long. Ask locally, and do not wait.",
    "can_do": "What the resident can do",
    "charges": "The charges, one by one",
    "charges_none": "Nothing is charged.",
    "records": "What the two walks show",
    "said": "Said",
    "also": "What else that record says of it:",
    "judgement": "The judgement",
    "change": "Change",
    "cost": "The cost",
    "working": "How the amount was worked out",
    "others": "Not charged instead",
    "other_what": "Other way",
    "other_cost": "Cost",
    "other_would_be": "Would be",
    "other_why_not": "Why it was not taken",
    "sources_of_life": "What other sources say of the useful life",
    "mind": "To mind",
    "open": "Not judged yet",
    "open_note": "No person has judged these changes. They are open: nothing is charged for them as things stand.",
    "bare": "Flaws without a baseline",
    "bare_note": (
        "The move-in record says nothing of these components. On this evidence alone nothing is charged for them."
    ),
    "kept": "What was not charged, and why",
    "kept_none": "No other change was found.",
    "became": "What became of it",
    "why": "Why no charge",
    "seen": "When said",
    "before": "Move-in",
    "after": "Move-out",
    "nowhere": "not named",
    "because": "From the comparison",
    "deadlines": "How the days were counted",
    "asks": "Missing",
    "law": "What the table of law has",
    "law_none": (
        "No jurisdiction of the table is named in this settlement. Nothing here says what the law of the place wants."
    ),
    "law_doubt": "Doubtful in this row",
    "law_silent": "The row says nothing of",
    "method": "How this statement was made",
    "method_told": (
        "Two walks of the unit were filmed and spoken, and each became a record that a person reviewed. A program set "
        "the two beside each other; a person judged each change; the program then worked out the sums below by "
        "the stated rules. It decides nothing about wear, damage or what may be charged."
    ),
    "files": "Files that it rests on",
    "sha256": "SHA-256",
    "recordings": "Recordings",
    "cautions": "Please mind",
    "sign": "Signature",
    "sign_note": (
        "The signature says who answers for this statement. The resident signs nothing: receiving it is no agreement."
    ),
    "name": "Name",
    "signature": "Signature",
    "date": "Date",
    "page": "Page",
    "of": "of",
    "picture_missing": "Picture not shown",
    "unreviewed": "NOT REVIEWED",
    "as_of": "Statement as of",
}

PROVISIONAL: Final = "PROVISIONAL – not to be sent as final"
NOT_SEALED: Final = "RECORD NOT SEALED"
NOT_KNOWN: Final = "not known"
SAME_DAY: Final = "the same"
DOES_NOT_APPLY: Final = "does not apply"
SHARES: Final = {"1": "1 (all of it)", "0": "0 (nothing is left to charge)"}


def day_of(text: str) -> str:
    """The day of a moment as records carry it; what is no date stays as it is."""
    try:
        return told_day(datetime.fromisoformat(text).date())
    except ValueError:
        return text


def figure(amount: Decimal, currency: str) -> str:
    """`1,480.00`, for a column whose head names the currency; a minus sign before what is taken away."""
    bare = told(abs(amount), currency).removesuffix(f" {currency}")
    return f"{MINUS} {bare}" if amount < 0 else bare


def days_left(days: int | None) -> str:
    """`12 days`, `today`, `passed 3 days ago`."""
    if days is None:
        return "–"
    if days < 0:
        return f"passed {counted(-days, 'day')} ago"
    return counted(days, "day") if days else "today"


def by_whom(due: DueDate, law: LawRow | None) -> str:
    """Who says when it is due: the statute that is cited, or the person at the keyboard."""
    if due.given or law is None:
        return "days given by a person, not by a statute of the table"
    return f"{law.statute} ({law.jurisdiction}); facts as of: {law.facts_as_of}"
