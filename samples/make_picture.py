"""Draw the beginning of a findings file's summary and one entry, as the terminal shows them, for README.md.

    python samples/make_picture.py FINDINGS.json samples/summary.svg [--lines 30] [--width 92]

The picture holds text, no font from elsewhere and no link, so it looks the same without a network.
"""

from __future__ import annotations

import argparse
import io
from pathlib import Path

from rich.console import Console
from rich.segment import Segment
from rich.terminal_theme import TerminalTheme
from rich.text import Text

from narrate2report.publish.detail import detail
from narrate2report.publish.summary import first_to_look_at, summary
from narrate2report.records.files import read_record, write_whole
from narrate2report.records.findings import Entry, Findings

PAPER = TerminalTheme(
    background=(250, 249, 246),
    foreground=(32, 36, 40),
    normal=[(32, 36, 40)] * 8,
    bright=[(32, 36, 40)] * 8,
)
"""Dark on light: what is wrong stands out by weight alone."""
TYPED = "#2f5d62"
"""The colour of what is typed, told apart from what is printed."""
_MARGIN = 2
"""Columns left free at the right, as wide as the margin at the left."""

PAGE = """\
<svg xmlns="http://www.w3.org/2000/svg" viewBox="-12 0 {width} {height}" role="img">
<style>
.{unique_id}-matrix {{
  font-family: ui-monospace, Menlo, Consolas, "DejaVu Sans Mono", monospace;
  font-size: {char_height}px;
}}
{styles}
</style>
<defs>
<clipPath id="{unique_id}-clip-terminal">
<rect x="0" y="0" width="{terminal_width}" height="{terminal_height}" />
</clipPath>
{lines}
</defs>
<rect x="-12" width="{width}" height="{height}" rx="10" fill="#faf9f6" stroke="#d5d3cd" />
<g transform="translate({terminal_x}, 22)" clip-path="url(#{unique_id}-clip-terminal)">
{backgrounds}
<g class="{unique_id}-matrix">
{matrix}
</g>
</g>
</svg>
"""


def main() -> None:
    """Read, crop, draw."""
    parser = argparse.ArgumentParser(description="Draw a summary for README.md.")
    parser.add_argument("findings", type=Path)
    parser.add_argument("picture", type=Path)
    parser.add_argument("--lines", type=int, default=30, help="lines of the summary, cut where a room ends")
    parser.add_argument("--width", type=int, default=92)
    wanted = parser.parse_args()
    findings = read_record(wanted.findings, Findings)
    write_whole(wanted.picture, draw(findings, wanted.findings.name, wanted.lines, wanted.width))


def draw(findings: Findings, name: str, lines: int, width: int) -> bytes:
    """The first rooms of the summary, then one entry with its words and its link, as SVG."""
    console = Console(
        file=io.StringIO(),
        record=True,
        width=width + _MARGIN,
        highlight=False,
        force_terminal=True,
        color_system="truecolor",
    )
    console.print(Text(f"$ narrate2report show {name}\n", style=TYPED))
    inner = console.options.update_width(width)
    for line in whole_rooms(console.render_lines(summary(findings), inner, pad=False), lines):
        console.print(Segments(line), end="")
    console.print(Text("…", style="dim"))
    if (one := to_show(findings)) is not None:
        console.print(Text(f"\n$ narrate2report show {name} {one.id}\n", style=TYPED))
        console.print(detail(one, findings), width=width)
    return console.export_svg(theme=PAPER, code_format=PAGE, unique_id="summary").encode()


def whole_rooms(rendered: list[list[Segment]], most: int) -> list[list[Segment]]:
    """The lines up to the last blank one among the first `most`: no room is cut in its middle."""
    blank = [at for at, line in enumerate(rendered[:most]) if not "".join(part.text for part in line).strip()]
    return rendered[: blank[-1]] if blank else rendered[:most]


def to_show(findings: Findings) -> Entry | None:
    """A flaw that was misheard and read right, where there is one: it shows quote, repair and link at once."""
    repaired = (entry for entry in findings.entries if entry.heard and entry.is_adverse)
    return next(repaired, first_to_look_at(findings))


class Segments:
    """One rendered line, to be printed as it is."""

    def __init__(self, line: list[Segment]) -> None:
        """Keep the line's segments."""
        self.line = line

    def __rich_console__(self, *_: object) -> list[Segment]:
        return [*self.line, Segment.line()]


if __name__ == "__main__":
    main()
