"""A comparison as the page shows it: plain JSON, worded here so that every window words it alike."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict

from narrate2report.records.compared import Record, Records
from narrate2report.records.comparison import SIDES, TO_JUDGE, Compared, Comparison, FlawChange, Side
from narrate2report.records.comparison_fold import id_of
from narrate2report.records.comparison_journal import JudgingLine
from narrate2report.records.findings import Entry
from narrate2report.review.exchange import Json
from narrate2report.review.guidance import definitions, guidance_for, published
from narrate2report.review.judging import Standing, entries_of, tally
from narrate2report.review.judging_desk import JudgingDesk
from narrate2report.review.pairable import flaws_of
from narrate2report.review.undoing import standing
from narrate2report.review.view import evidence_view, still_view
from narrate2report.wording import BECAME, VERDICTS, WALKS, plain, room_name, said, unit_name

MEANS = {
    "unchanged": "The same flaw is in both records.",
    "worse": "It was there before, and is plainly more, larger or graver now.",
    "better": "It was there before, and is plainly less now.",
    "gone": "It was there before; the component was spoken of again, and it is not there any more.",
    "not_mentioned": "It was there before; the component was not spoken of again. That says nothing of how it is now.",
    "new": "It is there now; the earlier record speaks of this component, and not of this flaw.",
    "no_baseline": "It is there now; the earlier record does not speak of this component. "
    "These two records do not show that it came with this tenancy.",
}
"""What each outcome says, and what it does not."""

UNSEALED = "is not sealed, so nothing shows that it was not altered since"
ADDED = "has an addendum that was sealed after it was compared ({}); compare again"
RESEALED = "is sealed otherwise than when it was compared; compare again"


def whole_view(desk: JudgingDesk) -> Json:
    """Everything that the page shows when it opens."""
    here = desk.standing
    return {
        "title": title(desk.comparison),
        "records": {side: _record(desk, side) for side in SIDES},
        "recordings": [
            {"number": number, "side": side, "file": one.file, "media": one.media}
            for number, (side, one) in enumerate(
                (side, one) for side in SIDES for one in desk.records[side].findings.recordings
            )
        ],
        "entries": {side: _entries(desk, side) for side in SIDES},
        "changes": [change_view(change, desk.records, here) for change in desk.comparison.changes],
        "words": {"became": BECAME, "means": MEANS, "verdicts": VERDICTS, "to_judge": sorted(TO_JUDGE)},
        "guidance": {name: asdict(row) for name, row in published().items()},
        "definitions": [row.id for row in definitions()],
        **_progress(desk),
    }


def changes_view(desk: JudgingDesk, new: Sequence[JudgingLine]) -> Json:
    """What these new lines have changed, as it stands now, for a window that has seen everything before them."""
    now = {change.id: change for change in desk.comparison.changes}
    touched = dict.fromkeys(id_of(altered) for line in new for altered in line.changes)
    here = desk.standing
    return {
        "order": list(now),
        "changes": {name: change_view(now[name], desk.records, here) if name in now else None for name in touched},
        "by": sorted({line.by for line in new}),
        **_progress(desk),
    }


def change_view(change: FlawChange, records: Records, here: Standing) -> Json:
    """One change in words, with what can be decided about it and what was published about its kind."""
    flaws = flaws_of(change, records, here)
    first = flaws[0]
    fitting, others = guidance_for(*flaws)
    return {
        "id": change.id,
        "room": first.room,
        "room_name": room_name(first.room),
        "title": components_of(flaws),
        "outcome": change.outcome,
        "before": list(change.before),
        "after": list(change.after),
        "because": list(change.because),
        "confirmed": change.confirmed,
        "decided": change.decided.model_dump() if change.decided else None,
        "judgement": change.judgement.model_dump() if change.judgement else None,
        "open": change.is_open,
        "fitting": list(here.fitting(entries_of(change))),
        "guidance": list(fitting),
        "more_guidance": list(others),
    }


def components_of(flaws: Sequence[Entry]) -> str:
    """`countertop, sink`: what these flaws are about, each once."""
    return ", ".join(dict.fromkeys(plain(entry.component) for entry in flaws))


def title(comparison: Comparison) -> str:
    """`unit 2B · move-in 2026-03-06 · move-out 2027-03-01`."""
    unit = comparison.after.unit or comparison.before.unit
    return " · ".join([*([unit_name(unit)] if unit else []), *(called(one) for one in heads(comparison).values())])


def heads(comparison: Comparison) -> dict[Side, Compared]:
    """What the comparison says of the two records."""
    return {"before": comparison.before, "after": comparison.after}


def called(compared: Compared) -> str:
    """`move-in 2026-03-06`, or the file's name where the record does not know."""
    known = [WALKS.get(compared.kind, compared.kind) if compared.kind else None, compared.date]
    return " ".join(filter(None, known)) or compared.file


def warning(compared: Compared, record: Record) -> str | None:
    """What a reader must know of a record before relying on it; None where it is sealed as it was compared."""
    seal = record.findings.seal
    if (seal.sha256 if seal else None) != compared.last_seal:
        return RESEALED
    if record.late:
        return ADDED.format(", ".join(record.late))
    return None if seal else UNSEALED


def _record(desk: JudgingDesk, side: Side) -> Json:
    compared = heads(desk.comparison)[side]
    return {"name": called(compared), "file": compared.stands_in, "warning": warning(compared, desk.records[side])}


def _entries(desk: JudgingDesk, side: Side) -> Json:
    earlier = len(desk.records["before"].findings.recordings) if side == "after" else 0
    record = desk.records[side]
    numbers = {file: number + earlier for file, number in record.findings.numbers().items()}
    shown = {entry for change in desk.comparison.changes for entry in change.of(side)}
    every = {name: entry for name, entry in record.entries.items() if name in shown or name in desk.adverse[side]}
    return {name: _entry(entry, numbers, name in desk.adverse[side]) for name, entry in every.items()}


def _entry(entry: Entry, numbers: Mapping[str, int], adverse: bool) -> Json:
    return {
        "id": entry.id,
        "room_name": room_name(entry.room),
        "title": plain(entry.component),
        "says": said(entry),
        "adverse": adverse,
        "undecided": entry.is_open,
        "left_out": not entry.stands,
        "evidence": [evidence_view(piece, numbers) for piece in entry.evidence],
        "stills": [still_view(still, numbers) for still in entry.stills],
    }


def _progress(desk: JudgingDesk) -> Json:
    done, undone = standing(desk.lines)
    return {
        "head": len(desk.lines),
        **asdict(tally(desk.comparison)),
        "can_undo": bool(done),
        "can_redo": bool(undone),
    }
