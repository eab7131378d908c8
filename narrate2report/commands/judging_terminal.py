"""`review CHANGES --terminal`: go through the changes between two walks and judge them, by letters and lines."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from rich.console import Console

from narrate2report.commands import judging_pages as pages
from narrate2report.commands.answering import asked_name, asking
from narrate2report.commands.judging_answers import JudgingAnswers
from narrate2report.commands.review import spoken_name
from narrate2report.commands.review_changes import open_comparison


def judge_in_terminal(file: Path, *, by: str | None) -> None:
    """Ask for decisions until the person leaves or the answers end, then put them into the comparison's file.

    Raises NarrateError for a comparison or a record that cannot be reviewed.
    """
    console = Console(highlight=False, markup=False)
    asked = asking(console)
    with open_comparison(file, console) as desk, suppress(EOFError, KeyboardInterrupt):
        name = by or asked_name(asked, spoken_name(desk.records["after"].findings))
        JudgingAnswers(desk, console, name, asked).run()
    console.print(f"{file}: {pages.left(desk.comparison)}.", soft_wrap=True)
