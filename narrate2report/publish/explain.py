"""The whole reading, a line a sentence: when it was said, what became of it and why."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from narrate2report.publish.wording import REASONS, room_name
from narrate2report.records.moments import clock


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
    """Every sentence of the transcript, none left out."""
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="dim", expand=True)
    table.add_column("time", justify="right", no_wrap=True)
    table.add_column("room", max_width=18)
    table.add_column("sentence", ratio=4)
    table.add_column("became", ratio=2)
    table.add_column("because", ratio=4)
    for sentence in sentences:
        table.add_row(
            clock(sentence.start),
            room_name(sentence.room) if sentence.room else "",
            Text(sentence.text),
            Text(became(sentence), style="" if sentence.entries else "dim"),
            Text("; ".join(sentence.because), style="dim"),
        )
    return table


def became(sentence: ReadSentence) -> str:
    """The ids of the entries that a sentence gave, or the reason why it gave none."""
    return ", ".join(sentence.entries) if sentence.entries else REASONS.get(sentence.fate, sentence.fate)
