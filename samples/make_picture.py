"""Draw the beginning of a findings file's summary, as the terminal shows it, for README.md.

    python samples/make_picture.py FINDINGS.json samples/summary.svg [--lines 40] [--width 108]

The picture holds text, no font from elsewhere and no link, so it looks the same without a network.
"""

from __future__ import annotations

import argparse
import io
from pathlib import Path

from rich.console import Console
from rich.segment import Segment
from rich.terminal_theme import TerminalTheme

from narrate2report.publish.summary import summary
from narrate2report.records.files import read_record, write_whole
from narrate2report.records.findings import Findings

PAPER = TerminalTheme(
    background=(250, 249, 246),
    foreground=(32, 36, 40),
    normal=[(32, 36, 40)] * 8,
    bright=[(32, 36, 40)] * 8,
)
"""Dark on light, no colours: what is wrong stands out by weight alone."""

PAGE = """\
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" role="img">
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
<rect width="{width}" height="{height}" rx="10" fill="#faf9f6" stroke="#d5d3cd" />
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
    parser.add_argument("--lines", type=int, default=40)
    parser.add_argument("--width", type=int, default=108)
    wanted = parser.parse_args()
    write_whole(wanted.picture, draw(read_record(wanted.findings, Findings), wanted.lines, wanted.width))


def draw(findings: Findings, lines: int, width: int) -> bytes:
    """The first lines of the summary as SVG."""
    console = Console(
        file=io.StringIO(),
        record=True,
        width=width,
        highlight=False,
        force_terminal=True,
        color_system="truecolor",
    )
    for line in console.render_lines(summary(findings), pad=False)[:lines]:
        console.print(Segments(line), end="")
    return console.export_svg(theme=PAPER, code_format=PAGE, unique_id="summary").encode()


class Segments:
    """One rendered line, to be printed as it is."""

    def __init__(self, line: list[Segment]) -> None:
        """Keep the line's segments."""
        self.line = line

    def __rich_console__(self, *_: object) -> list[Segment]:
        return [*self.line, Segment.line()]


if __name__ == "__main__":
    main()
