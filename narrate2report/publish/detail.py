"""One entry with its evidence: the exact words, the link that plays them, and why it was read that way."""

from __future__ import annotations

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from narrate2report.publish.wording import plain, room_name, said
from narrate2report.records.findings import Entry, Evidence, Findings
from narrate2report.records.moments import clock


def detail(entry: Entry, findings: Findings) -> RenderableType:
    """One entry as a page of its own."""
    title = Text(f"{room_name(entry.room)} · {plain(entry.component)} · {said(entry)}", style="bold")
    rows = Table(box=None, show_header=False, pad_edge=False, padding=(0, 2, 0, 0))
    rows.add_column(style="dim", no_wrap=True)
    rows.add_column()
    rows.add_row("id", entry.id)
    rows.add_row("kind", plain(entry.kind))
    rows.add_row("state", _state(entry))
    media = {recording.file for recording in findings.recordings if recording.media}
    for piece in entry.evidence:
        rows.add_row("said", Text(f"“{piece.quote}”"))
        rows.add_row("", Text(_open_at(piece, piece.recording in media)))
        rows.add_row("link", Text(piece.link))
    for repair in entry.heard:
        rows.add_row("heard", Text(f"“{repair.heard}” read as “{repair.read}” ({repair.why})"))
    for index, reason in enumerate(entry.because):
        rows.add_row("" if index else "because", Text(reason))
    rows.add_row("sureness", f"{entry.confidence:.0%}")
    return Group(title, rows)


def _state(entry: Entry) -> str:
    if entry.decided is None:
        return entry.state
    return f"{entry.state} by {entry.decided.by}, {entry.decided.at}"


def _open_at(piece: Evidence, is_media: bool) -> str:
    """Where to look: a player opens a recording at a moment, a transcript is read at its line."""
    return f"{'open' if is_media else 'read'} {piece.recording} at {clock(piece.start)}"
