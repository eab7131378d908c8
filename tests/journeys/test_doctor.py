"""Whether all that is needed is here, and what to do where it is not."""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate2report.cli import main
from narrate2report.intake import decoders


def test_all_parts_of_this_installation_are_well(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "300")
    assert main(["doctor"]) == 0
    told = capsys.readouterr().out
    for part in ("speech model", "language model", "words", "recordings", "reports", "search", "browser", "free space"):
        assert f" {part} " in told
    assert "FAULT" not in told
    assert "All that is needed is here." in told


def test_a_part_at_fault_is_told_with_what_to_do(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "300")
    (tmp_path / "words").mkdir()
    (tmp_path / "words" / "components.yaml").write_text("sink:\n  sya: [basin]\n", encoding="utf-8")
    monkeypatch.setenv("NARRATE2REPORT_VOCAB", str(tmp_path / "words"))
    monkeypatch.setattr(decoders, "WANTED", {"Wax cylinder": "wax"})
    assert main(["doctor"]) == 2
    lines = capsys.readouterr().out.splitlines()
    (faulty,) = [line for line in lines if line.startswith("FAULT")]
    assert "components.yaml:2: sink.sya: no such key; use say" in faulty
    assert any(line.startswith("note") and "Wax cylinder" in line for line in lines)
    assert lines[-1].startswith("1 of ")


def test_a_cache_that_cannot_be_written_is_told_with_where_to_put_another(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").touch()
    monkeypatch.setenv("NARRATE2REPORT_CACHE", str(tmp_path / "file" / "cache"))
    monkeypatch.setenv("COLUMNS", "300")
    assert main(["doctor"]) == 2
    faulty = [line for line in capsys.readouterr().out.splitlines() if line.startswith("FAULT")]
    assert any("cache" in line and "NARRATE2REPORT_CACHE" in line for line in faulty)
    assert not any("install narrate2report again" in line for line in faulty)
