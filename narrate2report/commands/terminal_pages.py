"""What the review in the terminal prints: the entry at hand, lists to decide from, the keys, what is left."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from narrate2report.records.findings import Coverage, Entry, Findings
from narrate2report.records.moments import clock
from narrate2report.review.spine import Sentence
from narrate2report.review.view import STATES
from narrate2report.wording import LOOKED, REASONS, moment, named, plain, room_name

KEYS = (
    ("n", "next entry that is to decide"),
    ("j  k", "next entry, entry before; an entry's id goes to that entry"),
    ("a", "accept: it is as it was read"),
    ("A", "accept all that the same sentence gave"),
    ("e", "change it field by field: Enter keeps a field, - empties it, . keeps the rest"),
    ("e FIELD WORDS", "change one field alone, such as: e where left of the sink"),
    ("x [WHY]", "leave out: it was read wrong"),
    ("w [WHY]", "withdraw: it was said but does not stand"),
    ("m", "merge with the one before that says the same"),
    ("s", "split in two; then change the second"),
    ("o", "decide it again"),
    ("g", "the entries of this room that are plainly in order: listed, then accepted together"),
    ("t [TIME]", "keep a picture: the sharpest of the statement, or the one at a time; t no takes the last off"),
    ("i [NUMBER|all]", "what was said or not understood and gave no entry; with a number, make an entry of that one"),
    ("c [all]", "what was not spoken of; c all also shows what is settled"),
    ("l", "list what is left to decide"),
    ("u  r", "undo, redo"),
    ("?", "this list"),
    ("q", "leave; everything that was decided is kept"),
)


def keys() -> RenderableType:
    """What can be answered."""
    return rows((key, what) for key, what in KEYS)


def entry_heading(entry: Entry, findings: Findings) -> Text:
    """`3 of 56, to decide`, above the entry itself."""
    place = [one.id for one in findings.entries].index(entry.id) + 1
    return Text(f"\n{place} of {len(findings.entries)}, {STATES[entry.state]}", style="dim")


def left(findings: Findings) -> str:
    """How much there is still to decide."""
    entries = sum(entry.state == "proposed" for entry in findings.entries)
    gaps = len(open_gaps(findings))
    told = f"{entries} of {len(findings.entries)} entries to decide" if entries else "every entry is decided"
    return f"{told}, {gaps} not spoken of (c)" if gaps else f"{told}, no open gaps"


def open_gaps(findings: Findings) -> list[Coverage]:
    """What was not spoken of and nobody has settled."""
    return [row for row in findings.coverage if row.is_open]


def entry_list(entries: Sequence[Entry], findings: Findings, with_id: bool = False) -> RenderableType:
    """Entries one a line: when, what, its words."""
    return rows(
        (
            moment(entry.evidence[0].recording, entry.evidence[0].start, len(findings.recordings)),
            named(entry) + (f"  ({entry.id})" if with_id else ""),
            f"“{entry.evidence[0].quote}”",
        )
        for entry in entries
    )


def gap_list(gaps: Mapping[int, Coverage]) -> RenderableType:
    """The gaps of one room by their numbers, with what was said of them."""
    told = [(str(number), f"{plain(gap.component)}{_settled(gap)}") for number, gap in gaps.items()]
    (room,) = {gap.room for gap in gaps.values()}
    return Group(Text(f"\n{room_name(room)}", style="bold"), rows(told))


def sentence_list(sentences: Mapping[int, Sentence]) -> RenderableType:
    """What gave no entry, by number: when, its words and the reason, or that it is to be listened to."""
    return rows((str(number), clock(one.start), _silence(one)) for number, one in sentences.items())


def _silence(one: Sentence) -> str:
    if one.unused is not None:
        return f"“{one.text}”  ({REASONS[one.unused.reason]})"
    return f"someone speaks for {one.end - one.start:.0f} s and was not understood; listen to {one.recording}"


def _settled(gap: Coverage) -> str:
    if gap.acknowledged is None:
        return ""
    note = f": {gap.acknowledged.note}" if gap.acknowledged.note else ""
    return f" – {LOOKED[gap.acknowledged.looked]}{note}"


def rows(lines: Iterable[tuple[str, ...]]) -> Table:
    """Lines in columns, the first one never broken."""
    table = Table(box=None, show_header=False, pad_edge=False, padding=(0, 2, 0, 0))
    for row in lines:
        if not table.columns:
            for column in range(len(row)):
                table.add_column(no_wrap=column == 0)
        table.add_row(*(Text(cell) for cell in row))
    return table
