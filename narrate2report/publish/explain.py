"""The whole reading, sentence by sentence: when it was said, what became of it and why."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from narrate2report.records.moments import clock
from narrate2report.wording import REASONS, room_name


class ReadSentence(Protocol):
    """What explaining needs of a sentence that was read."""

    @property
    def start(self) -> float:
        """Seconds into its recording."""

    @property
    def text(self) -> str:
        """Its words as transcribed."""

    @property
    def room(self) -> str | None:
        """The room it was said in, where one is known."""

    @property
    def fate(self) -> str:
        """`entries`, or the reason why it gave none."""

    @property
    def entries(self) -> Sequence[str]:
        """The ids of the entries it gave."""

    @property
    def because(self) -> Sequence[str]:
        """The rules and words that decided, in plain words."""


def explain(sentences: Sequence[ReadSentence]) -> RenderableType:
    """Every sentence of the transcript, none left out: the words, then what became of them, then why."""
    table = Table(box=None, show_header=False, pad_edge=False, padding=(0, 2, 0, 0))
    table.add_column(justify="right", no_wrap=True)
    table.add_column()
    room: str | None = None
    for sentence in sentences:
        if sentence.room and sentence.room != room:
            table.add_row("", Text(room_name(sentence.room), style="bold"))
            room = sentence.room
        table.add_row(clock(sentence.start), Text(sentence.text))
        table.add_row("", _told(sentence))
    return table


def _told(sentence: ReadSentence) -> Text:
    told = Text(f"– {became(sentence)}", style="bold" if sentence.entries else "dim")
    return told.append(f": {'; '.join(sentence.because)}\n", style="not bold dim")


def became(sentence: ReadSentence) -> str:
    """The ids of the entries that a sentence gave, or the reason why it gave none."""
    return ", ".join(sentence.entries) if sentence.entries else REASONS.get(sentence.fate, sentence.fate)
