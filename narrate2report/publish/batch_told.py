"""What became of the recordings of a batch: a line for each, and one for all. Plain text, or values for machines."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import asdict

from narrate2report.records.task import Outcome
from narrate2report.wording import counted

MOST_NAMED = 5


def outcome_line(outcome: Outcome) -> str:
    """What became of one recording, in a line."""
    if outcome.became == "failed":
        # The line of a fault names its file itself, though it may be another one than the recording.
        note = outcome.note or "failed"
        return f"failed   {note if outcome.recording in note else f'{outcome.recording}: {note}'}"
    if outcome.became == "already":
        return f"already  {outcome.recording}" + (f": {outcome.note}" if outcome.note else "")
    entries = counted(outcome.entries, "entry", "entries")
    return f"drafted  {outcome.findings}: {entries}, {outcome.adverse} of them about something wrong"


def outcome_values(outcome: Outcome) -> dict[str, object]:
    """The same for machines, as plain JSON."""
    return asdict(outcome)


def ending(outcomes: Sequence[Outcome], left: int = 0) -> list[str]:
    """The lines at the end: what failed and why, which drafts are of other settings or of a copy, and the counts.

    `left` is how many were begun or waited when it was stopped.
    """
    lines = failures(outcomes)
    noted: dict[str, list[str]] = {}
    for outcome in outcomes:
        if outcome.became == "already" and outcome.note:
            noted.setdefault(outcome.note, []).append(outcome.recording)
    for note, recordings in noted.items():
        more = f" and {len(recordings) - MOST_NAMED} more" if len(recordings) > MOST_NAMED else ""
        lines.append(f"already  {', '.join(recordings[:MOST_NAMED])}{more}: {note}")
    return [*lines, totals_line(outcomes, left)]


def failures(outcomes: Sequence[Outcome]) -> list[str]:
    """A line for each that failed."""
    return [outcome_line(outcome) for outcome in outcomes if outcome.became == "failed"]


def totals_line(outcomes: Sequence[Outcome], left: int = 0) -> str:
    """How many became what, and how many are still to be done."""
    counts = totals(outcomes)
    told = f"{counts['drafted']} drafted, {counts['already']} drafted already, {counts['failed']} failed"
    return f"{counted(len(outcomes) + left, 'recording')}: {told}" + (f", {left} left to do" if left else "")


def totals(outcomes: Sequence[Outcome]) -> dict[str, int]:
    """How many became what, for machines."""
    counts = Counter(outcome.became for outcome in outcomes)
    return {"drafted": counts["drafted"], "already": counts["already"], "failed": counts["failed"]}
