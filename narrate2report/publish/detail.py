"""One entry with its evidence: the exact words, the link that plays them, and why it was read that way."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from narrate2report.records.findings import Entry, Evidence, Findings
from narrate2report.records.moments import clock
from narrate2report.wording import misheard, plain, room_name, said

_NAME_WIDTH = 8


def detail(entry: Entry, findings: Findings, places: Mapping[str, str] | None = None) -> RenderableType:
    """One entry as a page of its own.

    `places` holds the address (a URI) of each recording that is at hand, by file name: with it, a link is
    printed as an address that a browser opens. Links are one line each, however narrow the page is.
    """
    title = Text(f"{room_name(entry.room)} · {plain(entry.component)} · {said(entry)}", style="bold")
    parts: list[RenderableType] = [
        title,
        named_rows(("id", entry.id), ("kind", plain(entry.kind)), ("state", _state(entry))),
    ]
    for piece in entry.evidence:
        parts.append(named_rows(("said", f"“{piece.quote}”"), ("", open_at(piece, findings))))
        parts.append(_whole_line("link", address_of(piece, places or {})))
    for repair in entry.heard:
        parts.append(named_rows(("heard", misheard(repair))))
    parts.append(named_rows(*(("" if index else "because", reason) for index, reason in enumerate(entry.because))))
    parts.append(named_rows(("sureness", f"{entry.confidence:.0%}"), *_by_a_person(entry)))
    return Group(*parts)


def _by_a_person(entry: Entry) -> Iterator[tuple[str, str]]:
    """What a person added to it: why they decided so, their remark, their pictures."""
    if entry.decided is not None and entry.decided.why:
        yield "why", entry.decided.why
    if entry.note:
        yield "remark", entry.note
    for still in entry.stills:
        yield "picture", f"{still.file} ({still.recording} at {clock(still.time)})"


def named_rows(*rows: tuple[str, str], width: int = _NAME_WIDTH) -> Table:
    """Each name, at most `width` characters long, with what is told beside it."""
    table = Table(box=None, show_header=False, pad_edge=False, padding=(0, 2, 0, 0))
    table.add_column(style="dim", no_wrap=True, width=width)
    table.add_column()
    for name, told in rows:
        table.add_row(name, Text(told))
    return table


def _whole_line(name: str, told: str) -> Text:
    """A row that is never broken, so that it can be copied whole."""
    line = Text(no_wrap=True, overflow="ignore")
    return line.append(name.ljust(_NAME_WIDTH + 2), style="dim").append(told)


def address_of(piece: Evidence, places: Mapping[str, str]) -> str:
    """The link to a statement: an address that a browser opens, where its recording is among these places."""
    if piece.recording not in places:
        return piece.link
    return places[piece.recording] + piece.link[piece.link.rindex("#") :]


def _state(entry: Entry) -> str:
    if entry.decided is None:
        return entry.state
    return f"{entry.state} by {entry.decided.by}, {entry.decided.at}"


def open_at(piece: Evidence, findings: Findings) -> str:
    """Where to look: a player opens a recording at a moment, a transcript is read at its line."""
    is_media = any(recording.media for recording in findings.recordings if recording.file == piece.recording)
    return f"{'open' if is_media else 'read'} {piece.recording} at {clock(piece.start)}"
