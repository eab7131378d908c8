"""`review FILE --terminal`: the decisions of the page, by letters and lines, for whoever has no browser.

Answers come one a line, typed or from a pipe; the end of them ends the review. Nothing is told as kept before it
is on disk.
"""

from __future__ import annotations

import io
import sys
from collections.abc import Callable
from pathlib import Path

from rich.console import Console

from narrate2report.commands import terminal_pages as pages
from narrate2report.commands.review import choices_of, open_walk, spoken_name
from narrate2report.commands.terminal_answers import Answers, Leave
from narrate2report.commands.typed import command
from narrate2report.commands.words import word_folders
from narrate2report.read.lexicon import load_vocabulary
from narrate2report.records.plain import NOT_TEXT, can_be_seen

LONGEST_NAME = 200
"""Characters of who decides, as on the page."""


def review_in_terminal(file: Path, *, by: str | None, vocabulary: Path | None) -> None:
    """Ask for decisions until the person leaves or the answers end, then put them into the findings file.

    Raises NarrateError for a file that cannot be reviewed.
    """
    choices = choices_of(load_vocabulary(*word_folders(vocabulary)))
    console = Console(highlight=False, markup=False)
    if isinstance(sys.stdin, io.TextIOWrapper):
        sys.stdin.reconfigure(errors="replace")

    def asked(prompt: str) -> str:
        typed = console.input(prompt, markup=False, emoji=False).strip()
        if not sys.stdin.isatty():
            console.print(typed)
        return typed

    with open_walk(file, console) as (desk, _):
        try:
            name = by or _asked_name(asked, spoken_name(desk.findings))
            Answers(desk, choices, console, name, asked).run()
        except (Leave, EOFError, KeyboardInterrupt):
            console.print()
    console.print(f"{file}: {pages.left(desk.findings)}.", soft_wrap=True)
    if not any(entry.state == "proposed" for entry in desk.findings.entries) and not pages.open_gaps(desk.findings):
        console.print(f"Next: {command('seal', file)}", soft_wrap=True)


def _asked_name(asked: Callable[[str], str], proposed: str) -> str:
    prompt = f"Who decides{f' [{proposed}]' if proposed else ''}: "
    while True:
        name = asked(prompt) or proposed
        named = can_be_seen(name) and any(letter.isalpha() for letter in name)
        if named and len(name) <= LONGEST_NAME and not NOT_TEXT.search(name):
            return name
        prompt = "Your name goes beside each decision; type it: "
