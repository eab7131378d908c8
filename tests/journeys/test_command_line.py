"""The command line itself: quick to start, one line for a mistake, and the exit status that was promised."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from narrate2report import __version__
from narrate2report.cli import main
from narrate2report.records.files import write_record
from narrate2report.shipped import shipped
from tests.publish.walk import entry, findings

HEAVY = {"av", "ctranslate2", "faster_whisper", "numpy", "pydantic", "rapidfuzz", "rich", "spacy", "typst", "yaml"}


@pytest.mark.parametrize("arguments", [["--help"], ["draft", "--help"], ["--version"], ["draft"], ["nonsense"]])
def test_help_and_mistakes_load_no_heavy_library(arguments: list[str]) -> None:
    program = (
        "import sys\n"
        "from narrate2report.cli import main\n"
        "try:\n"
        "    main(sys.argv[1:])\n"
        "except SystemExit:\n"
        "    pass\n"
        "print(*sorted({name.partition('.')[0] for name in sys.modules}), file=sys.stderr)\n"
    )
    done = subprocess.run([sys.executable, "-c", program, *arguments], capture_output=True, text=True, check=True)
    assert set(done.stderr.splitlines()[-1].split()) & HEAVY == set()


@pytest.mark.parametrize("arguments", [["--help"], ["show", "--help"], ["vocab", "--help"]], ids=" ".join)
def test_every_help_says_where_an_example_is(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(arguments)
    assert "narrate2report guide examples" in " ".join(capsys.readouterr().out.split())


def test_the_version_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        main(["--version"])
    assert stopped.value.code == 0
    assert capsys.readouterr().out == f"narrate2report {__version__}\n"


@pytest.mark.parametrize(
    "arguments",
    [
        [],
        ["nonsense"],
        ["draft"],
        ["draft", "walk.mp4"],
        ["draft", "walk.mp4", "--out"],
        ["draft", "walk.mp4", "--out", "x.json", "--kind", "holiday"],
        ["draft", "walk.mp4", "--out", "x.json", "--date", "31.3.2026"],
        ["draft", "walk.mp4", "--out", "x.json", "--unit", " "],
        ["review", "walk.findings.json", "--by", "\u200b\ufeff"],
        ["show"],
        ["guide", "cooking"],
        ["guide", "../README"],
    ],
    ids=" ".join,
)
def test_a_mistake_at_the_keyboard_is_one_line_and_status_2(
    arguments: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(arguments) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.startswith("narrate2report: ")
    assert told.err.count("\n") == 1


def test_the_module_runs_as_the_command_does() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "narrate2report", "nonsense"], capture_output=True, text=True, check=False
    )
    assert done.returncode == 2
    assert "Traceback" not in done.stderr


def test_stopping_it_gives_130_and_says_how_to_go_on(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def stop(_: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr("narrate2report.arguments.words._run_guide", stop)
    assert main(["guide"]) == 130
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "goes on from there" in told


def test_every_guide_is_listed_and_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["guide"]) == 0
    listed = capsys.readouterr().out.splitlines()
    shipped_guides = sorted(path.stem for path in shipped("guide").glob("*.md"))
    assert [line.split()[0] for line in listed] == [*shipped_guides, "schemas"]
    assert main(["guide", "speaking"]) == 0
    assert "Five habits" in capsys.readouterr().out


def test_show_prints_all_entries_or_one(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "walk.findings.json"
    write_record(file, findings(entry(id="e1"), entry(id="e2", component="sink")))
    assert main(["show", str(file)]) == 0
    whole = capsys.readouterr().out
    assert "countertop" in whole
    assert "sink" in whole
    assert main(["show", str(file), "e2"]) == 0
    one = capsys.readouterr().out
    assert "countertop" not in one.splitlines()[0]
    assert "walk.mp4#t=75.30,78.30" in one
    assert "open walk.mp4 at 1:15" in one


def test_show_names_the_entries_there_are_when_asked_for_another(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "walk.findings.json"
    write_record(file, findings(entry(id="e1"), entry(id="e2")))
    assert main(["show", str(file), "e9"]) == 2
    assert "no entry 'e9' among its 2" in capsys.readouterr().err


@pytest.mark.parametrize("content", ["", "{", '{"schema": "narrate2report/transcript/1"}', "\x00\x01"])
def test_show_refuses_what_is_no_findings_file(
    tmp_path: Path, content: str, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "other.json"
    file.write_text(content, encoding="utf-8")
    assert main(["show", str(file)]) == 2
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "other.json" in told


def test_a_reader_that_goes_away_is_no_error(tmp_path: Path) -> None:
    path = tmp_path / "walk.findings.json"
    write_record(path, findings(*(entry(id=f"e{number:08x}") for number in range(2_000))))
    command = [sys.executable, "-m", "narrate2report", "show", str(path)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as shown:
        assert shown.stdout is not None
        assert shown.stderr is not None
        shown.stdout.readline()
        shown.stdout.close()
        assert shown.stderr.read() == b""
        assert shown.wait() == 0


def test_a_terminal_without_the_characters_gets_the_rest() -> None:
    plain = {**os.environ, "PYTHONIOENCODING": "ascii"}
    for topic in ("draft", "vocabulary", "speaking", "findings", "sealing"):
        told = subprocess.run([sys.executable, "-m", "narrate2report", "guide", topic], env=plain, capture_output=True)
        assert told.returncode == 0, told.stderr
        assert told.stdout


@pytest.mark.parametrize("words", ["2B\x1b[31m", "2B\u202e"], ids=["terminal command", "turned direction"])
def test_a_unit_that_a_terminal_would_obey_is_refused(words: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["draft", "walk.txt", "--out", "x.json", "--unit", words]) == 2
    assert "\x1b" not in capsys.readouterr().err


@pytest.mark.parametrize("name", ["walk 9.41\u202fAM.txt", "walk\u00a02B.txt"], ids=["narrow space", "fixed space"])
def test_a_file_is_taken_under_the_name_that_a_computer_gave_it(tmp_path: Path, name: str) -> None:
    """Some systems put a space that does not break before AM and PM."""
    (tmp_path / name).write_text("[0:00] Kitchen.\n[0:03] The sink has a chip.\n", encoding="utf-8")
    assert main(["draft", str(tmp_path / name), "--out", str(tmp_path / "walk.json"), "--quiet"]) == 0
