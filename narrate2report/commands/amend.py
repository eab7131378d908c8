"""`amend FILE`: an addendum to a sealed record, which itself stays as it is."""

from __future__ import annotations

from pathlib import Path

from rich.console import Console

from narrate2report.seal.amending import amend as start


def amend(file: Path, out: Path | None) -> None:
    """Start an addendum and say where it lies. Raises what `seal.amending.amend` raises; nothing is written then."""
    made = start(file, out)
    console = Console(highlight=False, markup=False)
    console.print(f"Started: {made}", soft_wrap=True)
    console.print(f"It begins as {file.name} was sealed. Decide what changes, then seal it too.", soft_wrap=True)
