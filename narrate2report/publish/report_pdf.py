"""A report as a PDF: tagged and accessible (PDF/UA-1), archival (PDF/A-3a), with the typesetter's own fonts.

The values go to the typesetter as JSON, so that no word of a record is ever read as markup.
"""

from __future__ import annotations

import json
import shutil
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import asdict, replace
from datetime import UTC, datetime
from math import isqrt
from pathlib import Path
from typing import Literal
from xml.etree.ElementTree import Element

import typst

from narrate2report.errors import BadInput
from narrate2report.publish.language import language
from narrate2report.publish.pictures import wrapped
from narrate2report.publish.report_attached import Attached
from narrate2report.publish.report_glyphs import printable
from narrate2report.publish.report_values import Report
from narrate2report.publish.timeline_svg import as_file, drawn

Paper = Literal["letter", "a4"]
PAPERS: Mapping[Paper, str] = {"letter": "us-letter", "a4": "a4"}
STANDARDS: list[Literal["ua-1", "a-3a"]] = ["ua-1", "a-3a"]
TEMPLATE = Path(__file__).with_name("report.typ")
DESIGN = Path(__file__).with_name("design.typ")
"""What the templates of all papers share."""

TIMELINE_WIDTH = 482.0
"""Points between the margins of letter paper."""
ALL_PIXELS = 150_000_000
"""Of all pictures together: some 30 to 80 MB of JPEG, of which the typesetter holds a few copies."""
SMALLEST_SIDE = 640
"""Pixels that the longer side of a picture has at least: some 200 to the inch, as it is printed."""

_AS_THEY_ARE = frozenset({"link", "sha256", "file_name"})
"""Fields that are addresses, not words."""
_HEADINGS = frozenset({"title", "name"})
"""Fields that become headings, of which PDF/UA allows none without words."""
NAMELESS = "–"


def pdf_of(
    report: Report,
    stills: Mapping[str, Path],
    made_at: datetime,
    paper: Paper = "letter",
    attached: Sequence[Attached] = (),
) -> bytes:
    """The report as PDF with its attachments. The same input gives the same bytes.

    `stills` holds the file of each picture by its SHA-256, `made_at` is the time that the PDF carries.

    Raises BadInput where a picture cannot be read as one.
    """
    with tempfile.TemporaryDirectory(prefix="narrate2report-") as folder:
        root = Path(folder)
        names = copied_stills(stills, root)
        content = {
            "report": fit_for_print(_without_drawing(report)),
            "timeline": [as_file(one) for one in _timeline(report)],
            "stills": names,
            "paper": PAPERS[paper],
            "attached": [_laid_down(one, number, root, report) for number, one in enumerate(attached)],
        }
        (root / "report.json").write_text(json.dumps(content, ensure_ascii=False), encoding="utf-8")
        return typeset(TEMPLATE, root, made_at)


def longest_side(pictures: int) -> int:
    """How many pixels the longer side of each picture may have, so that many of them do not fill the memory."""
    each = ALL_PIXELS // max(pictures, 1)
    return max(SMALLEST_SIDE, isqrt(each * 16 // 9))


def fit_for_print(content: object) -> object:
    """The same JSON with every text made printable; addresses stay as they are."""
    if isinstance(content, str):
        return printable(content)
    if isinstance(content, dict):
        return {name: _field(name, one) for name, one in content.items()}
    if isinstance(content, (list, tuple)):
        return [fit_for_print(one) for one in content]
    return content


def _field(name: str, content: object) -> object:
    if name in _AS_THEY_ARE:
        return content
    fitted = fit_for_print(content)
    return NAMELESS if name in _HEADINGS and isinstance(fitted, str) and not fitted.strip() else fitted


def trial_page() -> bytes:
    """A page of a few words, set as a report is: whether that can be done here. Raises typst's own errors."""
    made = typst.compile(
        b'#set document(title: "A report")\n= A report\nof few words',
        format="pdf",
        pdf_standards=list(STANDARDS),
        ignore_system_fonts=True,
    )
    if not isinstance(made, bytes):
        raise AssertionError("a PDF is one file")
    return made


def _timeline(report: Report) -> tuple[Element, ...]:
    return drawn(report.timeline, TIMELINE_WIDTH, report.words["timeline_more"], printable)


def _without_drawing(report: Report) -> dict[str, object]:
    """The report's fields without those that only the drawing of the timeline needs."""
    lanes = tuple(replace(lane, spots=(), stays_s=()) for lane in report.timeline.lanes)
    return asdict(replace(report, timeline=replace(report.timeline, lanes=lanes, ticks=())))


def _laid_down(one: Attached, number: int, root: Path, report: Report) -> dict[str, str]:
    """An attachment as a file for the typesetter, and what it is told of it."""
    file = f"attached-{number}"
    (root / file).write_bytes(one.content)
    told = printable(language(report.language).attached[one.told].format(recording=one.about))
    return {"file": file, "name": one.name, "kind": one.kind, "relationship": one.relationship, "told": told}


def copied_stills(stills: Mapping[str, Path], root: Path) -> dict[str, str]:
    """The name, by SHA-256, of each picture's copy in the typesetter's folder."""
    return {sha256: _copied(file, root, sha256) for sha256, file in stills.items()}


def _copied(file: Path, root: Path, sha256: str) -> str:
    name = f"{sha256}.svg"
    (root / name).write_text(wrapped(file), encoding="ascii")
    return name


def typeset(template: Path, root: Path, made_at: datetime) -> bytes:
    """The PDF that a template makes of what lies in the folder `root`, which it can read and nothing else.

    Raises BadInput where something there cannot be set.
    """
    for file in (template, DESIGN):
        shutil.copyfile(file, root / file.name)
    fonts = typst.Fonts(include_system_fonts=False)
    compiler = typst.Compiler(root / template.name, root=root, font_paths=fonts)
    seconds = int(made_at.astimezone(UTC).timestamp())
    try:
        made = compiler.compile(format="pdf", pdf_standards=list(STANDARDS), timestamp=seconds)
    except typst.TypstError as error:
        raise BadInput(f"the report cannot be set: {error.message}") from error
    if not isinstance(made, bytes):
        raise AssertionError("a PDF is one file")
    return made
