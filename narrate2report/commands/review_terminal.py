"""`review FILE --terminal`: the decisions of the page, by letters and lines, for whoever has no browser.

Answers come one a line, typed or from a pipe; the end of them ends the review. Nothing is told as kept before it
is on disk.
"""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from rich.console import Console

from narrate2report.commands import terminal_pages as pages
from narrate2report.commands.answering import asked_name, asking
from narrate2report.commands.review import choices_of, open_walk, spoken_name
from narrate2report.commands.terminal_answers import Answers
from narrate2report.commands.typed import command
from narrate2report.commands.words import word_folders
from narrate2report.read.lexis.lexicon import load_vocabulary


def review_in_terminal(file: Path, *, by: str | None, vocabulary: Path | None) -> None:
    """Ask for decisions until the person leaves or the answers end, then put them into the findings file.

    Raises NarrateError for a file that cannot be reviewed.
    """
    choices = choices_of(load_vocabulary(*word_folders(vocabulary)))
    console = Console(highlight=False, markup=False)
    asked = asking(console)
    with open_walk(file, console) as (desk, _), suppress(EOFError, KeyboardInterrupt):
        name = by or asked_name(asked, spoken_name(desk.findings))
        Answers(desk, choices, console, name, asked).run()
    console.print(f"{file}: {pages.left(desk.findings)}.", soft_wrap=True)
    if not any(entry.state == "proposed" for entry in desk.findings.entries) and not pages.open_gaps(desk.findings):
        console.print(f"Next: {command('seal', file)}", soft_wrap=True)
