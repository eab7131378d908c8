"""Many recordings at once: what is drafted, what is left alone, what is told, and what a stop or a fault leaves."""

from __future__ import annotations

import json
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import IO

import fsspec
import numpy as np
import psutil
import pytest

from narrate2report.cli import main
from narrate2report.records.clip import RATE
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings
from tests.intake.recordings import write_recording
from tests.journeys.test_draft import NOTES
from tests.journeys.test_plan import UNIT
from tests.journeys.test_recordings import AUDIO, spoken

CAPTIONS = "WEBVTT\n\n00:00.000 --> 00:03.000\nIn the kitchen.\n\n00:03.000 --> 00:07.000\nThe tap drips.\n"


def machine(capsys: pytest.CaptureFixture[str]) -> tuple[dict[str, dict[str, object]], dict[str, int]]:
    *lines, last = capsys.readouterr().out.splitlines()
    outcomes = [json.loads(line) for line in lines]
    return {Path(each["recording"]).name: each for each in outcomes}, json.loads(last)


def test_what_is_new_is_drafted_as_draft_does_and_only_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "walks"
    (folder / "2b").mkdir(parents=True)
    walk = write_recording(folder / "2b" / "walk.m4a", AUDIO, spoken(37, 50))
    shutil.copyfile(walk, folder / "2b" / "walk copy.m4a")
    (folder / "bad.mp4").write_bytes(b"\0no recording" * 99)
    assert main(["batch", str(folder), "--json"]) == 2
    outcomes, counts = machine(capsys)
    assert counts == {"drafted": 1, "already": 1, "failed": 1}
    assert outcomes["walk.m4a"]["note"] == "is the same recording as walk copy.m4a"
    assert str(outcomes["bad.mp4"]["note"]).startswith(f"{folder}/bad.mp4: ")
    made = folder / "2b" / "walk copy.findings.json"
    assert outcomes["walk copy.m4a"]["findings"] == str(made)
    assert outcomes["walk copy.m4a"]["entries"] == len(read_record(made, Findings).entries) > 0
    by_hand = tmp_path / "by hand.findings.json"
    assert main(["draft", str(folder / "2b" / "walk copy.m4a"), "--out", str(by_hand), "--quiet"]) == 0
    assert by_hand.read_bytes() == made.read_bytes()

    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    assert main(["batch", str(folder)]) == 2
    told = capsys.readouterr().out.splitlines()
    assert told[-1] == "3 recordings: 0 drafted, 2 drafted already, 1 failed"
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before


def test_facts_and_words_of_the_batch_stand_in_each_record_and_other_words_are_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "words").mkdir()
    (tmp_path / "words" / "components.yaml").write_text("boot_bench:\n  label: boot bench\n  say: [boot bench]\n")
    (tmp_path / "walks").mkdir()
    (tmp_path / "walks" / "a.vtt").write_text(CAPTIONS.replace("The tap drips", "The boot bench is scratched"))
    ask = ["batch", f"{tmp_path}/walks/*.vtt"]
    own = ["--vocab", str(tmp_path / "words"), "--inspector", "Ida Pell", "--kind", "move_out", "--jobs", "1"]
    assert main([*ask, *own, "--quiet"]) == 0
    record = read_record(tmp_path / "walks" / "a.findings.json", Findings)
    assert [entry.component for entry in record.entries] == ["boot_bench"]
    assert [fact.value for fact in record.walkthrough.inspector] == ["Ida Pell"]
    capsys.readouterr()
    assert main(ask) == 0
    assert "a.vtt: was drafted with other words" in capsys.readouterr().out


def test_track_plan_and_repair_by_text_are_those_of_draft(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = tmp_path / "unit.yaml"
    plan.write_text(UNIT, encoding="utf-8")
    silence = np.zeros(10 * RATE, np.float32)
    walk = write_recording(tmp_path / "walk.m4a", AUDIO, silence, more_tracks=(spoken(27, 37),))
    asked = ["--track", "2", "--plan", str(plan), "--repair-by-text", "--quiet"]
    assert main(["batch", str(walk), *asked]) == 0
    made = tmp_path / "walk.findings.json"
    record = read_record(made, Findings)
    assert [track.chosen for track in record.recordings[0].tracks] == [False, True]
    assert record.walkthrough.unit[-1].value == "5C"
    by_hand = tmp_path / "by hand.findings.json"
    assert main(["draft", str(walk), "--out", str(by_hand), *asked]) == 0
    assert by_hand.read_bytes() == made.read_bytes()
    plan.write_text(UNIT.replace("kitchen:", "kitchn:"), encoding="utf-8")
    (tmp_path / "new.vtt").write_text(CAPTIONS)
    capsys.readouterr()
    assert main(["batch", str(tmp_path / "new.vtt"), "--plan", str(plan)]) == 2
    told = capsys.readouterr().err
    assert f"{plan}:10: " in told
    assert told.count("\n") == 1
    assert not (tmp_path / "new.findings.json").exists()


def test_decisions_of_a_person_and_files_in_the_way_are_left_alone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in ("decided", "lost"):
        (tmp_path / f"{name}.txt").write_text(f"{NOTES}[0:50] This is {name}.\n")
    ask = ["batch", f"{tmp_path}/*.txt", "--quiet"]
    assert main(ask) == 0
    out = tmp_path / "decided.findings.json"
    drafted = read_record(out, Findings)
    first = drafted.entries[0].model_copy(update={"state": "accepted"})
    write_record(out, drafted.model_copy(update={"entries": (first, *drafted.entries[1:])}))
    decided = out.read_bytes()
    (tmp_path / "lost.findings.json").unlink()
    (tmp_path / "lost.journal.jsonl").write_text("{}\n")
    (tmp_path / "decided.txt").write_text(NOTES + "[1:00] And now the garage.\n")
    assert main(ask) == 2
    told = capsys.readouterr().out
    assert "decided.findings.json: is the record of another recording" in told
    assert "lost.journal.jsonl: is there, with the decisions about an earlier draft" in told
    assert out.read_bytes() == decided
    assert not (tmp_path / "lost.findings.json").exists()


def test_recordings_at_an_address_are_drafted_there(tmp_path: Path) -> None:
    """What a worker does with a task at an address: fetched, drafted, sent back, and nothing written over."""
    from narrate2report.commands.batch_work import draft_task, settings_now
    from narrate2report.errors import BadInput
    from narrate2report.records.task import Task

    files = fsspec.filesystem("memory")
    walk = write_recording(tmp_path / "walk.m4a", AUDIO, spoken(37, 50))
    files.put_file(str(walk), "/stored/walk.m4a")
    settings = settings_now(model=None, vocabulary=None)
    place = "memory://stored/walk"
    task = Task(f"{place}.m4a", f"{place}.findings.json", walk.stat().st_size, settings)
    told: list[float] = []
    outcome = draft_task(task, lambda done_s, _: told.append(done_s))
    assert outcome.entries
    assert told
    assert told == sorted(told)
    out = tmp_path / "walk.findings.json"
    assert main(["draft", str(walk), "--out", str(out), "--quiet"]) == 0
    assert files.cat_file("/stored/walk.findings.json") == out.read_bytes()
    assert files.cat_file("/stored/walk.transcript.json") == (tmp_path / "walk.transcript.json").read_bytes()
    assert len(files.ls("/stored")) == 3
    files.pipe_file("/stored/walk.journal.jsonl", b"{}\n")
    with pytest.raises(BadInput, match="decisions about an earlier draft"):
        draft_task(task, lambda *_: None)
    files.rm("/stored", recursive=True)


@pytest.mark.parametrize(
    "options",
    [
        ["none"],
        ["walks/*.mkv"],
        ["walks", "--jobs", "0"],
        ["walks", "--model", "none"],
        ["walks", "--vocab", "none"],
        ["walks", "--jobs", "2", "--scheduler", "tcp://127.0.0.1:1"],
        ["walks", "--scheduler", "127.0.0.1:1"],
        ["walks", "--scheduler", "tls://127.0.0.1:1"],
        ["walks/walk.vtt", "--watch"],
        ["memory://walks", "--watch"],
        ["nowhere://walks"],
    ],
    ids=lambda options: " ".join(options),
)
def test_what_cannot_be_begun_is_one_line(
    options: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "walks").mkdir()
    (tmp_path / "walks" / "walk.vtt").write_text(CAPTIONS)
    assert main(["batch", *options]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.count("\n") == 1


def lines_until(output: IO[str], word: str) -> list[str]:
    lines = []
    for line in output:
        lines.append(line)
        if word in line:
            return lines
    raise AssertionError(f"no {word} in {lines}")


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C is sent otherwise there")
def test_a_watched_folder_drafts_what_is_whole_until_it_is_stopped(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "narrate2report", "batch", str(tmp_path), "--watch", "--json"]
    source = write_recording(tmp_path.parent / "source.m4a", AUDIO, spoken(37, 50)).read_bytes()
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        with (tmp_path / "walk.m4a").open("wb", buffering=0) as copying:
            for at in range(0, len(source), len(source) // 7):
                copying.write(source[at : at + len(source) // 7])
                time.sleep(1)
        lines = lines_until(running.stdout, "drafted")
        time.sleep(3)
        running.send_signal(signal.SIGINT)
        assert running.wait(60) == 130
        lines += running.stdout.readlines()
        assert "the same command goes on from there" in running.stderr.read()
    (walk, counts) = map(json.loads, lines)
    assert (walk["recording"], walk["became"]) == (str(tmp_path / "walk.m4a"), "drafted")
    assert counts == {"drafted": 1, "already": 0, "failed": 0}
    assert (tmp_path / "walk.findings.json").exists()


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C is sent otherwise there")
def test_a_batch_that_is_stopped_keeps_what_was_heard_and_leaves_nothing_running(tmp_path: Path) -> None:
    folder = tmp_path / "walks"
    folder.mkdir()
    write_recording(folder / "long.m4a", AUDIO, spoken(0, 75))
    kept = folder / ".long.heard.jsonl"
    command = [sys.executable, "-m", "narrate2report", "batch", str(folder)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as running:
        until = time.monotonic() + 120
        while not (kept.exists() and kept.stat().st_size) and time.monotonic() < until:
            time.sleep(0.02)
        running.send_signal(signal.SIGINT)
        assert running.wait(60) == 130
        assert running.stdout is not None
        assert running.stdout.read() == "1 recording: 0 drafted, 0 drafted already, 0 failed, 1 left to do\n"
    before = kept.read_bytes()
    assert before
    assert not (folder / "long.findings.json").exists()
    time.sleep(3)
    assert kept.read_bytes() == before
    assert main(["batch", str(folder), "--quiet"]) == 0
    assert kept.read_bytes().startswith(before)
    assert (folder / "long.findings.json").exists()


@pytest.mark.skipif(sys.platform == "win32", reason="a process is killed otherwise there")
def test_a_batch_killed_hard_in_the_middle_is_taken_up_where_it_was(tmp_path: Path) -> None:
    folder, apart = tmp_path / "walks", tmp_path / "apart"
    folder.mkdir()
    apart.mkdir()
    (folder / "notes.vtt").write_text(CAPTIONS, encoding="utf-8")
    write_recording(folder / "long.m4a", AUDIO, spoken(0, 75))
    shutil.copy(folder / "long.m4a", apart)
    kept = folder / ".long.heard.jsonl"
    command = [sys.executable, "-m", "narrate2report", "batch", str(folder), str(folder / "*.vtt")]
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as running:
        until = time.monotonic() + 120
        while not (kept.exists() and kept.stat().st_size) and time.monotonic() < until:
            time.sleep(0.02)
        children = psutil.Process(running.pid).children(recursive=True)
        running.kill()
    _, alive = psutil.wait_procs(children, timeout=60)
    assert not alive, "nobody is left behind by a program that was killed"
    before = kept.read_bytes()
    assert before
    assert not (folder / "long.findings.json").exists()
    assert main(["batch", str(folder), str(folder / "*.vtt"), "--quiet"]) == 0
    assert kept.read_bytes().startswith(before[: before.rfind(b"\n") + 1])
    assert main(["draft", str(apart / "long.m4a"), "--out", str(apart / "long.findings.json"), "--quiet"]) == 0
    for name in ("long.findings.json", "long.transcript.json"):
        assert (folder / name).read_bytes() == (apart / name).read_bytes(), "as if nothing had happened"
    made = {path.name for path in folder.iterdir() if not path.name.startswith(".")}
    assert made == {"long.m4a", "long.findings.json", "long.transcript.json", "notes.vtt", "notes.findings.json"}
