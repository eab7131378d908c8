"""Words of one's own: laid over the built-in ones, checked before use, and tried out on a sentence."""

from __future__ import annotations

import io
import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from narrate2report.cli import main
from narrate2report.commands.words import SWITCH
from narrate2report.records.files import read_record
from narrate2report.records.findings import Findings

WORDS = {
    "components": (
        "dumbwaiter:\n  label: Dumbwaiter\n  group: appliances\n  say: [dumbwaiter, little lift]\n  works: [go up]\n"
        "range_hood:\n  say: [sucker]\n"
    ),
    "rooms": "mail_alcove:\n  label: Mail alcove\n  say: [mail alcove]\n  expects: [mailbox, wall]\n",
    "conditions": "worn:\n  adjectives: [a grade four]\n",
    "cues": "policy: [page nine]\n",
}

WALK = """\
[0:00] Okay, into the kitchen.
[0:04] The sucker is greasy.
[0:08] The dumbwaiter's door is dented, and the little lift is loose.
[0:14] Page nine, a burn on the counter.
[0:19] Now the mail alcove.
[0:22] The mailbox is a grade four.
"""


@pytest.fixture
def words(tmp_path: Path) -> Path:
    return folder_of(tmp_path / "my words", WORDS)


def folder_of(folder: Path, files: dict[str, str]) -> Path:
    folder.mkdir(parents=True)
    for name, content in files.items():
        (folder / f"{name}.yaml").write_text(content, encoding="utf-8")
    return folder


def drafted(folder: Path, *options: str) -> Findings:
    notes, out = folder / "walk.txt", folder / "walk.findings.json"
    notes.write_text(WALK, encoding="utf-8")
    assert main(["draft", str(notes), "--out", str(out), "--quiet", *options]) == 0
    return read_record(out, Findings)


def said_of(findings: Findings) -> set[tuple[str, str, str | None]]:
    return {(entry.room, entry.component, entry.condition) for entry in findings.entries}


OWN_WAY = {
    ("kitchen", "range_hood", "grease"),
    ("kitchen", "dumbwaiter", "loose"),
    ("mail_alcove", "mailbox", "worn"),
}


# --- drafting with one's own words


def test_a_walk_in_the_words_of_the_house_is_read_as_meant(
    words: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    plain, own = drafted(tmp_path), drafted(tmp_path, "--vocab", str(words))
    assert said_of(own) >= OWN_WAY
    assert not said_of(plain) & OWN_WAY
    assert ("kitchen", "countertop", "burn") in said_of(plain)
    assert ("kitchen", "countertop", "burn") not in said_of(own)
    assert [(row.component, row.status) for row in own.coverage if row.room == "mail_alcove"] == [
        ("mailbox", "noted"),
        ("wall", "not_noted"),
    ]
    assert own.transcript.vocabulary_version != plain.transcript.vocabulary_version

    loose = next(entry for entry in own.entries if (entry.component, entry.condition) == ("dumbwaiter", "loose"))
    assert main(["show", str(tmp_path / "walk.findings.json"), loose.id]) == 0
    assert "Kitchen · dumbwaiter · loose" in capsys.readouterr().out


def test_the_draft_says_whose_words_it_was_read_with(
    words: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "walk.txt").write_text(WALK, encoding="utf-8")
    draft = ["draft", str(tmp_path / "walk.txt"), "--out", str(tmp_path / "walk.findings.json")]
    assert main(draft) == 0
    assert "your words" not in capsys.readouterr().out
    assert main([*draft, "--vocab", str(words)]) == 0
    assert f"Read with your words from {words}" in capsys.readouterr().out


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The place for the words of who works here, on any system; the switch of the tests is taken off."""
    monkeypatch.delenv(SWITCH)
    place = tmp_path / "home" / "narrate2report"
    monkeypatch.setattr("platformdirs.user_config_dir", lambda *_, **__: str(place))
    return place / "vocab"


def test_ones_own_folder_is_used_in_every_draft_until_it_is_switched_off(
    home: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    plain = drafted(tmp_path)
    folder_of(home, WORDS)
    assert said_of(drafted(tmp_path)) >= OWN_WAY
    monkeypatch.setenv(SWITCH, "")
    assert drafted(tmp_path) == plain


def test_the_switch_names_another_folder(words: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    by_option = drafted(tmp_path, "--vocab", str(words))
    monkeypatch.setenv(SWITCH, str(words))
    assert drafted(tmp_path) == by_option
    assert drafted(tmp_path, "--vocab", str(words)) == by_option


def test_the_folder_of_the_command_has_the_last_word(
    home: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder_of(home, {"components": "range_hood:\n  say: [sucker]\ncarpet:\n  say: [trampled]\n"})
    house = folder_of(tmp_path / "house", {"components": "microwave:\n  say: [sucker]\n"})
    assert ("kitchen", "microwave", "grease") in said_of(drafted(tmp_path, "--vocab", str(house)))
    assert main(["vocab", "check", str(house)]) == 0
    assert "‘sucker’ was the component range hood; now it is the component microwave" in capsys.readouterr().out


@pytest.mark.skipif(sys.platform != "linux", reason="the place differs from system to system")
def test_ones_own_folder_lies_where_settings_lie(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(SWITCH)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "settings"))
    folder_of(tmp_path / "settings" / "narrate2report" / "vocab", WORDS)
    assert said_of(drafted(tmp_path)) >= OWN_WAY


# --- checking


def test_a_check_tells_what_words_add_and_writes_nothing(
    words: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = sorted(tmp_path.rglob("*"))
    assert main(["vocab", "check", str(words)]) == 0
    told = capsys.readouterr().out
    assert f"{words}: no mistake." in told
    assert "components.yaml    adds 4 words; new: dumbwaiter" in told
    assert "rooms.yaml         adds 1 word; new: mail_alcove" in told
    assert "No word of yours means something else already." in told
    version = drafted(tmp_path, "--vocab", str(words)).transcript.vocabulary_version
    assert version in told
    (tmp_path / "walk.txt").unlink()
    (tmp_path / "walk.findings.json").unlink()
    assert sorted(tmp_path.rglob("*")) == before


def test_a_check_of_nothing_says_where_words_would_lie(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["vocab", "check"]) == 0
    assert str(home) in capsys.readouterr().out
    folder_of(home, WORDS)
    assert main(["vocab", "check"]) == 0
    assert f"{home}: no mistake." in capsys.readouterr().out


def test_a_check_warns_of_a_word_with_another_meaning_and_is_done(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = folder_of(tmp_path / "words", {"components": "range_hood:\n  say:\n    - sucker\n    - dishwasher\n"})
    assert main(["vocab", "check", str(folder)]) == 0
    told = capsys.readouterr().out
    assert "Mind 1 word with another meaning:" in told
    assert f"{folder / 'components.yaml'}:4: ‘dishwasher’ was the component dishwasher" in told


@pytest.mark.parametrize("command", ["check", "try", "draft"])
@pytest.mark.parametrize("by", ["option", "switch"])
def test_a_mistake_is_one_line_with_its_place_and_status_2(
    command: str, by: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = folder_of(tmp_path / "words", {"components": "range_hod:\n  say: [sucker]\n"})
    (tmp_path / "walk.txt").write_text(WALK, encoding="utf-8")
    line: dict[str, list[str]] = {
        "check": ["vocab", "check"],
        "try": ["vocab", "try", "The sucker is greasy."],
        "draft": ["draft", str(tmp_path / "walk.txt"), "--out", str(tmp_path / "walk.findings.json")],
    }
    option = [str(folder)] if command == "check" else ["--vocab", str(folder)]
    if by == "switch":
        monkeypatch.setenv(SWITCH, str(folder))
    assert main([*line[command], *(option if by == "option" else [])]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err == (
        f"narrate2report: {folder / 'components.yaml'}:1: range_hod: not known; did you mean range_hood?"
        " to add it as new, give it a label\n"
    )
    assert not (tmp_path / "walk.findings.json").exists()


@pytest.mark.parametrize("state", ["missing", "a file", "empty"])
def test_a_folder_without_words_is_refused(state: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "words"
    if state == "a file":
        folder.touch()
    if state == "empty":
        folder.mkdir()
    assert main(["vocab", "check", str(folder)]) == 2
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert told.startswith(f"narrate2report: {folder}: ")
    assert "components.yaml" in told


def test_a_switch_to_a_folder_that_is_not_there_says_how_to_do_without(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv(SWITCH, str(tmp_path / "gone"))
    assert main(["vocab", "check"]) == 2
    assert SWITCH in capsys.readouterr().err


# --- trying


def tried(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(["vocab", "try", *arguments]) == 0
    return capsys.readouterr().out


def tried_for_machines(capsys: pytest.CaptureFixture[str], *arguments: str) -> list[dict[str, Any]]:
    told = json.loads(tried(capsys, "--json", *arguments))
    assert len(told["vocabulary_version"]) == 64
    sentences: list[dict[str, Any]] = told["sentences"]
    return sentences


def test_a_sentence_is_shown_with_its_words_and_what_it_gives(
    words: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    told = tried(capsys, "The sucker might be loose.", "--room", "kitchen", "--vocab", str(words))
    assert [" ".join(line.split()) for line in told.splitlines()] == [
        "“The sucker might be loose.”",
        "room Kitchen",
        "words sucker component range hood what is spoken of",
        "might be cue hedge, hedge after",
        "loose condition loose adjective",
        "meant “The sucker might be loose” said of this place now",
        "gives condition: range hood, loose, not certain (60% sure)",
        "because 'loose' means loose; said of 'sucker'; possible because of",
        "'might be'",
    ]


def test_a_page_fits_a_narrow_terminal_and_needs_no_colour(
    words: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    long = "The sucker over the range is greasy, the little lift's loose, and if you scratch the counter that's on you."
    told = tried(capsys, long, "--room", "kitchen", "--vocab", str(words))
    assert max(len(line) for line in told.splitlines()) <= len(long) + 2
    assert max(len(line) for line in told.splitlines()[2:]) <= 80
    assert "\x1b" not in told


def test_what_is_only_talked_about_says_by_which_words(capsys: pytest.CaptureFixture[str]) -> None:
    (told,) = tried_for_machines(capsys, "If this counter gets a burn, call us.", "--room", "kitchen")
    assert {"said": "If", "kind": "cue", "means": "condition", "notes": []} in told["words"]
    assert told["parts"][0]["cue"] == "If"
    assert told["parts"][0]["meant"] == "what would be, not what is"
    assert [entry["kind"] for entry in told["entries"]] in (["advice"], [])


def test_a_repair_is_shown(capsys: pytest.CaptureFixture[str]) -> None:
    (told,) = tried_for_machines(capsys, "The base bored is scuffed.", "--room", "hallway")
    assert [(one["heard"], one["read"]) for one in told["heard"]] == [("base bored", "baseboard")]
    assert told["read"] == "The baseboard is scuffed."
    assert [(one["component"], one["condition"]) for one in told["entries"]] == [("baseboard", "scuff")]
    assert "read as “baseboard”" in tried(capsys, "The base bored is scuffed.")


def test_a_sentence_that_gives_nothing_says_why(capsys: pytest.CaptureFixture[str]) -> None:
    (told,) = tried_for_machines(capsys, "Hang on a second.")
    assert (told["entries"], told["reason"]) == ([], "talk")
    assert "no entry: talk" in tried(capsys, "Hang on a second.")


def test_sentences_are_read_one_after_another(capsys: pytest.CaptureFixture[str]) -> None:
    told = tried_for_machines(capsys, "Into the kitchen.", "The sink is chipped. It's stained too.")
    assert [sentence["room"] for sentence in told] == ["kitchen"] * 3
    assert [entry["component"] for sentence in told for entry in sentence["entries"]] == ["sink", "sink"]


@pytest.mark.parametrize(
    ("named", "room"),
    [
        ("kitchen", "kitchen"),
        ("bedroom.2", "bedroom.2"),
        ("Mail  alcove", "mail_alcove"),
        ("hall bathroom", "bathroom.hall"),
    ],
)
def test_a_room_is_named_by_its_id_or_as_it_is_called(
    named: str, room: str, words: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (told,) = tried_for_machines(capsys, "The wall has a chip.", "--room", named, "--vocab", str(words))
    assert [entry["room"] for entry in told["entries"]] == [room]


def test_lines_from_standard_input_are_read(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    piped = io.TextIOWrapper(io.BytesIO(b"The sink is chipped.\r\n\nThe oven is dirty.\n"), encoding="ascii")
    monkeypatch.setattr(sys, "stdin", piped)
    told = tried_for_machines(capsys, "-", "--room", "kitchen")
    assert [sentence["text"] for sentence in told] == ["The sink is chipped.", "The oven is dirty."]


@pytest.mark.parametrize(
    ("arguments", "piped", "told"),
    [
        (["-"], b"", "no sentence"),
        ([" ", "?!"], b"", "no sentence"),
        (["-"], b"The sink.\nThe caf\xe9.\n", "line 2"),
        (["-"], b"The sink is clean. " * 60_000, "over 1 MB"),
        (["The sink.", "--room", "ballroom"], b"", "no such room"),
        (["The sink.", "--room", "kitchen.\x1b"], b"", "cannot be printed"),
        ([], b"", "SENTENCE"),
    ],
    ids=["nothing piped", "no words", "not UTF-8", "too much", "no such room", "a terminal command", "no sentence"],
)
def test_what_cannot_be_tried_is_one_line_and_status_2(
    arguments: list[str],
    piped: bytes,
    told: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(piped)))
    assert main(["vocab", "try", *arguments]) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert shown.err.count("\n") == 1
    assert told in shown.err


def test_what_a_terminal_would_obey_is_left_out(capsys: pytest.CaptureFixture[str]) -> None:
    assert "\x1b" not in tried(capsys, "The \x1b[31msink is chipped.")


def test_the_program_itself_tries_a_sentence_that_is_piped() -> None:
    command = [sys.executable, "-m", "narrate2report", "vocab", "try", "-", "--room", "kitchen"]
    done = subprocess.run(command, input=b"The sink is chipped.\n", capture_output=True, check=True)
    assert b"condition: sink, chip" in done.stdout
    assert done.stderr == b""
