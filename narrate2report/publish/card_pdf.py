"""A prompt card as a PDF, tagged and accessible (PDF/UA-1): on one page, in the largest letters that fit there.

It carries no date, since no walk has been yet, and is not archival, since it proves nothing.

The values go to the typesetter as JSON, so that no word of a unit file or a record is ever read as markup.
"""

from __future__ import annotations

import json
import shutil
import tempfile
from collections.abc import Mapping
from dataclasses import asdict
from pathlib import Path

import typst

from narrate2report.errors import BadInput
from narrate2report.publish.card_told import ToldCard
from narrate2report.publish.report_pdf import DESIGN, PAPERS, Paper, fit_for_print

TEMPLATE = Path(__file__).with_name("card.typ")
LAYOUTS: tuple[tuple[bool, tuple[float, ...]], ...] = (
    (False, tuple(12 - step / 4 for step in range(15))),
    (True, tuple(9 - step / 4 for step in range(7))),
)
"""Compact or not, with the letters in points, in the order in which they are tried. Compact, what to do with a thing
is told once; a second page follows only where that does not fit in 7.5 points, below which nobody reads while walking.
"""
ON_SEVERAL_PAGES = 9.0
"""The letters of a card that takes several pages anyway."""


def card_pdf_of(card: ToldCard, paper: Paper = "letter") -> bytes:
    """The card as PDF. The same card gives the same bytes.

    Raises BadInput where it cannot be set.
    """
    content = {"card": fit_for_print(_content(card)), "paper": PAPERS[paper]}
    with tempfile.TemporaryDirectory(prefix="narrate2report-") as folder:
        root = Path(folder)
        for file in (TEMPLATE, DESIGN):
            shutil.copyfile(file, root / file.name)
        (root / "card.json").write_text(json.dumps(content, ensure_ascii=False), encoding="utf-8")
        try:
            return _typeset(root)
        except RuntimeError as error:  # what counts the pages raises no TypstError, which is one of these
            raise BadInput(f"the card cannot be set: {error}") from error


def _content(card: ToldCard) -> dict[str, object]:
    told = {name: value for name, value in asdict(card).items() if name != "words"}
    words: Mapping[str, object] = card.words.model_dump(include={"page", "saying", "example", "also", "bold"})
    return {**told, "words": words}


def _typeset(root: Path) -> bytes:
    fonts = typst.Fonts(include_system_fonts=False)
    compilers = (_compiler(root, fonts, size, compact) for compact, sizes in LAYOUTS for size in sizes)
    fitting = next((one for one in compilers if _pages(one) == 1), None)
    made = (fitting or _compiler(root, fonts, ON_SEVERAL_PAGES, compact=False)).compile(
        format="pdf", pdf_standards=["ua-1"]
    )
    if not isinstance(made, bytes):
        raise AssertionError("a PDF is one file")
    return made


def _compiler(root: Path, fonts: typst.Fonts, size: float, compact: bool) -> typst.Compiler:
    inputs = {"size": str(size), "compact": "yes" if compact else "no"}
    return typst.Compiler(root / TEMPLATE.name, root=root, font_paths=fonts, sys_inputs=inputs)


def _pages(compiler: typst.Compiler) -> int:
    (pages,) = json.loads(compiler.query("<pages>", field="value"))
    return int(pages)
