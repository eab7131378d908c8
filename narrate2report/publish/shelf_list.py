"""Many walks, a line each; and where words stand in them. Plain text: a table of ten thousand is not laid out."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from narrate2report.records.moments import clock
from narrate2report.records.plain import one_line
from narrate2report.records.shelved import Hit, Shelved
from narrate2report.wording import WALKS, counted, unit_name

STANDING = {
    "broken": "broken",
    "to_draft": "to draft",
    "to_review": "to review",
    "reviewed": "to seal",
    "sealed": "sealed",
    "settled": "settled",
}
"""What has to be done next, the most urgent first."""

_WIDEST = 40


def shelf_list(walks: Sequence[Shelved]) -> str:
    """A line for each walk: what is to be done, by when, how much is open, which walk, where it lies."""
    if not walks:
        return "No walk here."
    urgent = {standing: place for place, standing in enumerate(STANDING)}
    order = sorted(walks, key=lambda walk: (urgent[walk.standing], walk.due or "9999", walk.date or "", walk.path))
    rows = [_row(walk) for walk in order]
    widths = [min(_WIDEST, max(len(row[column]) for row in rows)) for column in range(len(rows[0]) - 1)]
    lines = [
        "  ".join([*(cell.ljust(width) for cell, width in zip(row, widths, strict=False)), row[-1]]) for row in rows
    ]
    counts = {standing: sum(walk.standing == standing for walk in walks) for standing in STANDING}
    told = ", ".join(f"{count} {STANDING[standing]}" for standing, count in counts.items() if count)
    return "\n".join([*(line.rstrip() for line in lines), "", f"{counted(len(walks), 'walk')}: {told}"])


def _row(walk: Shelved) -> tuple[str, ...]:
    return (
        STANDING[walk.standing],
        f"{walk.open} open" if walk.open else "",
        f"by {walk.due}" if walk.due else "",
        (walk.date or "").removeprefix("--"),
        WALKS.get(walk.kind or "", walk.kind or ""),
        one_line(unit_name(walk.unit)) if walk.unit else "",
        one_line(walk.path + (f": {walk.fault}" if walk.fault else "")),
    )


def hit_list(hits: Sequence[Hit], shelf: Path, more: bool) -> str:
    """A few lines for each place: which walk, what was made of it, the words, the link that plays them."""
    if not hits:
        return "Found nowhere. Every word must stand in the same entry or sentence; try fewer."
    pieces = []
    for hit in hits:
        walk = ", ".join(filter(None, (unit_name(hit.unit) if hit.unit else None, hit.date, hit.path)))
        recording, _, fragment = hit.link.rpartition("#")
        link = f"{(shelf / hit.path).parent.resolve().as_uri()}/{recording}#{fragment}"
        pieces.append(f"{one_line(walk)}\n  {clock(hit.start):>7}  {one_line(hit.told)}")
        if hit.quote not in hit.told:
            pieces.append(f"           “{one_line(hit.quote)}”")
        pieces.append(f"           {one_line(link)}")
    end = "\nThere is more; name another word, or --most." if more else ""
    return "\n".join(pieces) + end
