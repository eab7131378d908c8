"""`review CHANGES`: go through the changes between two walks and judge them, in the browser."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path

from rich.console import Console

from narrate2report.commands.both_recordings import BothRecordings
from narrate2report.commands.judging_pages import left
from narrate2report.commands.review import opening, put_down_in_the_end
from narrate2report.review.judging_desk import JudgingDesk
from narrate2report.review.judging_site import JudgingSite
from narrate2report.review.serving import serve


def review_changes(file: Path, *, by: str | None, browser: bool) -> None:
    """Serve the page of a comparison until interrupted, then put the decisions into the file.

    Raises NarrateError for a comparison or a record that cannot be reviewed.
    """
    console = Console(stderr=True, highlight=False, markup=False)
    with (
        open_comparison(file, console) as desk,
        closing(BothRecordings(desk.records)) as recordings,
        suppress(KeyboardInterrupt),
    ):
        serve(JudgingSite(desk, recordings, by or ""), opening(console, browser=browser))
    console.print(f"{file}: {left(desk.comparison)}.", soft_wrap=True)
    sys.stderr.flush()


@contextmanager
def open_comparison(file: Path, console: Console) -> Iterator[JudgingDesk]:
    """A comparison ready for decisions; in the end they are put into its file."""
    desk = JudgingDesk(file)
    with put_down_in_the_end(desk, console):
        yield desk
