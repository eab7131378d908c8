"""Drafting a narration that was written down: what is written, what is printed, what is never overwritten."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from narrate2report.cli import main
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Acknowledged, Decision, Findings, Seal
from narrate2report.records.schema import published

NOTES = """\
[0:00] This is unit 5C, move-in, and we start in the kitchen.
[0:06] There's a chip on the front edge of the counter, about a quarter inch.
[0:12] I'm checking for any cracks in the sink.
[0:17] All four burners light.
[0:21] If the seal on the fridge tears, let us know.
[0:27] Now the hall bathroom.
[0:30] No rust around the drain.
[0:34] You get two door keys.
"""


@pytest.fixture
def notes(tmp_path: Path) -> Path:
    path = tmp_path / "walk.txt"
    path.write_text(NOTES, encoding="utf-8")
    return path


def drafted(source: Path, *options: str) -> Findings:
    out = source.with_name("walk.findings.json")
    assert main(["draft", str(source), "--out", str(out), "--quiet", *options]) == 0
    return read_record(out, Findings)


def test_what_was_said_becomes_entries_of_its_kind(notes: Path) -> None:
    told = {
        (entry.kind, entry.room.partition(".")[0], entry.condition or entry.outcome) for entry in drafted(notes).entries
    }
    assert ("condition", "kitchen", "chip") in told
    assert ("check", "kitchen", "works") in told
    assert ("condition", "bathroom", "rust") in told
    assert ("handover", "bathroom", None) in told
    assert not [row for row in told if row[2] in {"crack", "torn", "tear"}]


def test_the_file_holds_what_its_schema_says_and_leaves_nothing_beside_it(notes: Path) -> None:
    drafted(notes)
    out = notes.with_name("walk.findings.json")
    Draft202012Validator(published("findings.schema.json")).validate(json.loads(out.read_bytes()))
    assert {path.name for path in notes.parent.iterdir()} == {"walk.txt", "walk.findings.json"}


def test_every_sentence_is_evidence_or_stands_with_its_reason(notes: Path) -> None:
    record = drafted(notes)
    evidence = {s for entry in record.entries for piece in entry.evidence for s in piece.sentences}
    unused = {sentence.id for sentence in record.unused}
    quoted = " ".join([p.quote for entry in record.entries for p in entry.evidence] + [s.text for s in record.unused])
    assert evidence & unused == set()
    for line in NOTES.splitlines():
        assert line.partition("] ")[2] in quoted


def test_the_same_notes_give_the_same_bytes_wherever_they_lie(notes: Path, tmp_path: Path) -> None:
    drafted(notes)
    elsewhere = tmp_path / "another folder"
    elsewhere.mkdir()
    (elsewhere / "walk.txt").write_text(NOTES, encoding="utf-8")
    drafted(elsewhere / "walk.txt")
    first, second = (path / "walk.findings.json" for path in (tmp_path, elsewhere))
    assert first.read_bytes() == second.read_bytes()


@pytest.mark.parametrize(
    "change",
    [
        lambda text: b"\xef\xbb\xbf" + text.encode(),
        lambda text: text.replace("\n", "\r\n").encode(),
        lambda text: text.rstrip("\n").encode(),
    ],
    ids=["byte order mark", "CRLF", "no last newline"],
)
def test_how_a_text_was_saved_makes_no_difference(notes: Path, change: object) -> None:
    plain = drafted(notes)
    assert callable(change)
    notes.write_bytes(change(NOTES))
    saved = drafted(notes)
    assert saved.entries == plain.entries
    assert saved.unused == plain.unused


def test_captions_give_the_entries_of_their_words(notes: Path) -> None:
    plain = drafted(notes)
    captions = notes.with_suffix(".vtt")
    starts = [line[1:5] for line in NOTES.splitlines()]
    ends = [*starts[1:], "0:38"]
    cues = [
        f"0{start}.000 --> 0{end}.000\n{line.partition('] ')[2]}\n"
        for start, end, line in zip(starts, ends, NOTES.splitlines(), strict=True)
    ]
    captions.write_text("WEBVTT\n\n" + "\n".join([*cues[:4], "00:20.000 --> 00:20.500\n\n", *cues[4:]]))
    keys = [(entry.kind, entry.room, entry.component) for entry in drafted(captions).entries]
    assert keys == [(entry.kind, entry.room, entry.component) for entry in plain.entries]


def test_facts_of_the_walk_stand_with_where_they_came_from(notes: Path) -> None:
    record = drafted(notes, "--unit", "5D", "--kind", "move_in", "--inspector", "Ida Pell", "--resident", "Jo Marr")
    walk = record.walkthrough
    assert [(fact.value, fact.source) for fact in walk.inspector if fact.source == "given"] == [("Ida Pell", "given")]
    assert [fact.value for fact in walk.residents] == ["Jo Marr"]
    assert {fact.source for fact in walk.unit} > {"given"}
    assert len(walk.clashes) == 1
    assert "5D" in walk.clashes[0]


def test_the_summary_for_machines_is_one_json_object(notes: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = notes.with_name("walk.findings.json")
    assert main(["draft", str(notes), "--out", str(out), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    record = read_record(out, Findings)
    assert told["findings"] == str(out)
    assert told["entries"] == len(record.entries)
    assert sum(told["unused"].values()) == len(record.unused)


def test_a_file_name_is_printed_as_it_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    names = ["walk [1] – café.txt", "[red]two[/red].txt"]
    for name in names:
        (tmp_path / name.replace("/", "")).write_text(NOTES, encoding="utf-8")
    sources = [str(path) for path in sorted(tmp_path.iterdir())]
    out = tmp_path / "[bold]walk.findings.json"
    assert main(["draft", *sources, "--out", str(out)]) == 0
    told = "".join(capsys.readouterr().out.split())
    assert "walk[1]–café.txt0:06" in told
    assert "[red]two[red].txt0:06" in told
    assert str(out).replace(" ", "") in told
    assert main(["show", str(out), read_record(out, Findings).entries[0].id]) == 0
    assert "at 0:0" in capsys.readouterr().out


def test_quiet_prints_nothing(notes: Path, capsys: pytest.CaptureFixture[str]) -> None:
    drafted(notes)
    told = capsys.readouterr()
    assert (told.out, told.err) == ("", "")


def test_explain_prints_every_sentence(
    notes: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("COLUMNS", "400")
    drafted(notes, "--explain")
    told = capsys.readouterr().out
    for line in NOTES.splitlines():
        assert line.partition("] ")[2] in told


def test_a_new_draft_takes_the_place_of_an_old_one(notes: Path) -> None:
    drafted(notes)
    notes.write_text("[0:00] The oven is dirty.\n", encoding="utf-8")
    assert len(drafted(notes).entries) == 1


@pytest.mark.parametrize("by", ["a decision", "a gap that is settled", "a seal"])
def test_a_new_draft_never_takes_the_place_of_what_a_person_decided(
    notes: Path, by: str, capsys: pytest.CaptureFixture[str]
) -> None:
    record = drafted(notes)
    if by == "a seal":
        at = "2026-03-06T10:00:00Z"
        seal = Seal(sha256="0" * 64, sealed_at=at, sealed_by="Ida Pell", statement="As I saw it.", files=())
        record = record.model_copy(update={"seal": seal})
    elif by == "a gap that is settled":
        said = Acknowledged(looked="not_looked_at", by="Ida Pell", at="2026-03-06T10:00:00Z")
        gap = next(row for row in record.coverage if row.status == "not_noted").model_copy(
            update={"acknowledged": said}
        )
        record = record.model_copy(update={"coverage": (gap,)})
    else:
        who = {"state": "accepted", "decided": Decision(by="Ida Pell", at="2026-03-06T10:00:00Z")}
        record = record.model_copy(update={"entries": (record.entries[0].model_copy(update=who),)})
    out = notes.with_name("walk.findings.json")
    write_record(out, record)
    before = out.read_bytes()
    assert main(["draft", str(notes), "--out", str(out)]) == 2
    assert "choose another name" in capsys.readouterr().err
    assert out.read_bytes() == before
