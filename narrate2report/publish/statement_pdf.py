"""A deposit statement as a PDF, in the design of the report, with the settlement’s own file inside."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Mapping
from dataclasses import asdict
from datetime import datetime
from pathlib import Path
from typing import Final

from narrate2report.publish.report_pdf import PAPERS, Paper, copied_stills, fit_for_print, typeset
from narrate2report.publish.statement_values import Statement

TEMPLATE = Path(__file__).with_name("statement.typ")
INSIDE: Final = "settlement.json"
"""What the attached settlement is called, whatever its file is called."""
INSIDE_TOLD: Final = "The settlement that this statement prints, byte for byte as it was read, for machines"


def statement_pdf(
    statement: Statement,
    stills: Mapping[str, Path],
    settlement: bytes,
    made_at: datetime,
    paper: Paper = "letter",
) -> bytes:
    """The statement as PDF. `stills` holds the file of each picture by its SHA-256, `settlement` is attached.

    The same input gives the same bytes. Raises BadInput where a picture cannot be read as one.
    """
    with tempfile.TemporaryDirectory(prefix="narrate2report-") as folder:
        root = Path(folder)
        (root / INSIDE).write_bytes(settlement)
        content = {
            "statement": fit_for_print(asdict(statement)),
            "stills": copied_stills(stills, root),
            "paper": PAPERS[paper],
            "attached": [{"file_name": INSIDE, "kind": "application/json", "told": INSIDE_TOLD}],
        }
        (root / "statement.json").write_text(json.dumps(content, ensure_ascii=False), encoding="utf-8")
        return typeset(TEMPLATE, root, made_at)
