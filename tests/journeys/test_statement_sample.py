"""The sample flat, from its two walks to the statement: real words, real pictures' places, the sample unit file."""

from __future__ import annotations

import shutil
from pathlib import Path

from narrate2report.cli import main
from narrate2report.records.comparison import Comparison, FlawChange
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings
from narrate2report.records.settlement import Settlement
from tests.drafted import SAMPLES, Drafted
from tests.publish.pdf import ReadBack
from tests.settle.hand_made import judged


def entry_of(record: Findings, component: str, condition: str) -> tuple[str, ...]:
    return (next(one.id for one in record.entries if (one.component, one.condition) == (component, condition)),)


def change(name: str, outcome: str, before: tuple[str, ...], after: tuple[str, ...]) -> FlawChange:
    fields = {"outcome": outcome, "before": before, "after": after, "because": ["compared by hand"]}
    return FlawChange.model_validate({"id": name, "confirmed": True, "judgement": judged(), **fields})


def test_the_sample_flat_gets_its_statement(move_in: Drafted, tmp_path: Path) -> None:
    shutil.copy(move_in.out, tmp_path / "in.findings.json")
    shutil.copy(move_in.recording, tmp_path)
    after_file = tmp_path / "out.findings.json"
    assert main(["draft", str(SAMPLES / "move-out.txt"), "--out", str(after_file), "--quiet"]) == 0
    before, after = read_record(tmp_path / "in.findings.json", Findings), read_record(after_file, Findings)
    blinds = (entry_of(before, "blinds", "broken"), entry_of(after, "blinds", "broken"))
    changes = (
        change("blinds", "worse", *blinds),
        change("carpet", "new", (), entry_of(after, "carpet", "stain")),
        change("oven", "new", (), entry_of(after, "oven", "grease")),
    )
    sides = ({"file": "in.findings.json", "date": "2025-03-06"}, {"file": "out.findings.json", "date": "2026-05-07"})
    whole = Comparison.model_validate({"before": sides[0], "after": sides[1], "changes": changes})
    write_record(tmp_path / "changes.json", whole)
    out = tmp_path / "flat.settlement.json"
    files = [str(tmp_path / "changes.json"), "--unit", str(SAMPLES / "unit.yaml"), "--out", str(out)]
    assert main(["settle", *files, "--today", "2026-05-20", "--quiet"]) == 0
    assert main(["statement", str(out), "--to", str(tmp_path / "papers"), "--quiet"]) == 0
    read = ReadBack((tmp_path / "papers" / "flat.statement.resident.pdf").read_bytes())
    amounts = {one.component: one.amount for one in read_record(out, Settlement).charges}
    assert set(amounts) == {"blinds", "carpet", "oven"}
    for words in ("the right side", "Four slats", "The inside of the oven is greasy", "The carpet was cleaned"):
        assert words in read.text
    for amount in amounts.values():
        assert f"− {amount}" in read.pages[0]
    assert any(link.startswith("../move-in.mp4#t=") for link in read.links)
    assert "NOT REVIEWED" in read.text
    assert all("RECORD NOT SEALED" in page for page in read.pages)
