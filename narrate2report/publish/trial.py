"""Sentences that are tried out: the words found in each, how its parts are meant, and what it gives."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Protocol

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from narrate2report.publish.explain import ReadSentence, became
from narrate2report.records.findings import Entry, Heard
from narrate2report.wording import listed, misheard, plain, room_name, said

_NAME_WIDTH = 8


class Word(Protocol):
    """A phrase of the vocabulary that was found."""

    @property
    def said(self) -> str:
        """The phrase as it was spoken."""

    @property
    def kind(self) -> str:
        """Which kind of word: component, condition, cue, ..."""

    @property
    def means(self) -> str:
        """The id it stands for; empty where it stands for none."""

    @property
    def notes(self) -> Sequence[str]:
        """What else to know of it, in plain words."""


class Part(Protocol):
    """A stretch of the sentence."""

    @property
    def said(self) -> str:
        """Its words."""

    @property
    def meant(self) -> str:
        """How they are meant, in plain words."""

    @property
    def cue(self) -> str:
        """The words that decided it."""


class Trace(Protocol):
    """How a sentence was read."""

    @property
    def heard(self) -> Sequence[Heard]:
        """Mishearings that were repaired."""

    @property
    def words(self) -> Sequence[Word]:
        """The words found, in order."""

    @property
    def parts(self) -> Sequence[Part]:
        """The sentence in parts, in order."""


@dataclass(frozen=True)
class Tried:
    """A sentence with what became of it and how it was read."""

    sentence: ReadSentence
    trace: Trace


def trial(tried: Sequence[Tried], entries: Mapping[str, Entry]) -> RenderableType:
    """Every sentence as a page of its own; `entries` holds those that they gave, by id."""
    pages = [Group(*([Text()] if number else []), *_page(one, entries)) for number, one in enumerate(tried)]
    return Group(*pages)


def _page(one: Tried, entries: Mapping[str, Entry]) -> Iterator[RenderableType]:
    sentence, trace = one.sentence, one.trace
    yield Text(f"“{sentence.text}”", style="bold")
    if sentence.room:
        yield _row("room", Text(room_name(sentence.room)))
    for repair in trace.heard:
        yield _row("heard", Text(misheard(repair)))
    yield _row("words", _words(trace.words) if trace.words else Text("none that reading knows", style="dim"))
    for number, part in enumerate(trace.parts):
        told = Text(f"“{part.said}” ").append(_meant(part), style="dim")
        yield _row("" if number else "meant", told)
    yield from _gives(sentence, entries)


def _row(name: str, told: RenderableType) -> Table:
    table = Table(box=None, show_header=False, pad_edge=False, padding=(0, 2, 0, 0))
    table.add_column(style="dim", no_wrap=True, width=_NAME_WIDTH)
    table.add_column()
    table.add_row(name, told)
    return table


def _words(words: Sequence[Word]) -> Table:
    table = Table(box=None, show_header=False, pad_edge=False, padding=(0, 2, 0, 0))
    for style in ("", "", "", "dim"):
        # Of an empty column rich takes a column's width from the one before.
        table.add_column(style=style, min_width=1)
    for (phrase, kind, notes), alike in groupby(words, key=lambda word: (word.said, word.kind, tuple(word.notes))):
        table.add_row(Text(phrase), plain(kind), listed(word.means for word in alike), Text(", ".join(notes)))
    return table


def _meant(part: Part) -> str:
    cue = f": ‘{part.cue}’" if part.cue else ""
    return f"{part.meant}{cue}"


def _gives(sentence: ReadSentence, entries: Mapping[str, Entry]) -> Iterator[RenderableType]:
    if not sentence.entries:
        told = Text("no entry: ", style="bold").append(became(sentence), style="not bold")
        yield _row("gives", told.append(f" ({'; '.join(sentence.because)})", style="not bold dim"))
    for number, name in enumerate(sentence.entries):
        entry = entries[name]
        what = plain(entry.component) if entry.kind == "advice" else f"{plain(entry.component)}, {said(entry)}"
        told = Text(f"{plain(entry.kind)}: {what}", style="bold")
        told.append(f" ({entry.confidence:.0%} sure)", style="not bold")
        told.append(f"\nbecause {'; '.join(entry.because)}", style="not bold dim")
        yield _row("" if number else "gives", told)
