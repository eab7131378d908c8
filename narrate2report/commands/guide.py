"""`guide [TOPIC]`: the guides that come with the program."""

from __future__ import annotations

from pathlib import Path

from rich.console import Console
from rich.markdown import Markdown

from narrate2report.errors import BadInput
from narrate2report.shipped import shipped


def topics() -> dict[str, Path]:
    """Each topic with its file, by name."""
    return {path.stem: path for path in sorted(shipped("guide").glob("*.md"))}


def guide(topic: str | None) -> None:
    """Print a guide, or the list of topics with their titles. Raises BadInput for an unknown topic."""
    console = Console(highlight=False, markup=False)
    if topic is None:
        for name, path in topics().items():
            console.print(f"{name:12} {_title(path)}")
        return
    if topic not in topics():
        raise BadInput(f"no guide on {topic!r}; there are: {', '.join(topics())}")
    console.print(Markdown(topics()[topic].read_text(encoding="utf-8")))


def _title(path: Path) -> str:
    return path.read_text(encoding="utf-8").partition("\n")[0].lstrip("# ")
