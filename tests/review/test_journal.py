"""Never lost: what was told as kept is there after a kill, a torn line or a full disk, and nothing else is."""

from __future__ import annotations

import errno
import os
import random
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
from filelock import FileLock

from narrate2report.errors import BadInput, BrokenRecord
from narrate2report.records.beside import journal_beside
from narrate2report.records.journal_file import line_sha256
from narrate2report.review import journal as journal_module
from narrate2report.review import requests as ask
from narrate2report.review.desk import Desk
from tests.review import compared, hand_made
from tests.review.hand_made import WHO, draft, opened, written

KILLS = 30


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return opened(written(tmp_path))


def accept(desk: Desk, name: str) -> None:
    desk.decide(ask.Accept(entries=(name,)), WHO, len(desk.lines))


def accepted(desk: Desk) -> list[str]:
    return [entry.id for entry in desk.findings.entries if entry.state == "accepted"]


class Victim:
    """A program that decides without end, until it is killed."""

    def __init__(self, findings: Path, piece: int) -> None:
        command = [sys.executable, "-m", "tests.review.decide_until_killed", str(findings), str(piece)]
        self.process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE)

    def go(self) -> None:
        stdin, stdout = self.process.stdin, self.process.stdout
        assert stdin is not None
        assert stdout is not None
        assert stdout.readline().strip() == b"ready"
        stdin.write(b"go\n")
        stdin.close()

    def killed_after(self, lines: int, more_s: float) -> dict[int, str]:
        """Let it keep so many decisions and some time more; the hash of each line that it told as kept."""
        stdout = self.process.stdout
        assert stdout is not None
        told = [stdout.readline() for _ in range(lines)]
        time.sleep(more_s)
        assert self.process.poll() is None
        self.process.kill()
        told += stdout.readlines()
        self.process.wait()
        stdout.close()
        whole = [line.decode().split() for line in told if line.endswith(b"\n")]
        return {int(number): sha256 for number, sha256 in whole}


@pytest.mark.parametrize("made", [hand_made, compared], ids=["a walk", "a comparison"])
def test_a_program_killed_at_any_moment_has_lost_no_decision_that_it_told_as_kept(tmp_path: Path, made: Any) -> None:
    chance = random.Random(20_260_306)
    place = made.written(tmp_path)
    told: dict[int, str] = {}
    torn = 0
    for turn in range(KILLS):
        victim = Victim(place, piece=16 if turn % 2 else 0)
        victim.go()
        told |= victim.killed_after(chance.randrange(3), chance.uniform(0, 0.02))
        desk = made.opened(place)
        torn += desk.set_aside is not None
        there = {line.number: line_sha256(line) for line in desk.lines}
        assert told.items() <= there.items()
        assert made.record_of(made.opened(place)) == made.record_of(desk)
    assert len(told) > KILLS / 2
    assert torn > 0, "no kill has found a line half written; the test does not test"


def test_two_programs_that_decide_at_once_lose_nothing_and_share_no_line(tmp_path: Path) -> None:
    place = written(tmp_path)
    victims = Victim(place, piece=0), Victim(place, piece=0)
    for victim in victims:
        victim.go()
    first, second = (victim.killed_after(8, 0) for victim in victims)
    there = {line.number: line_sha256(line) for line in opened(place).lines}
    assert len(first) >= 8
    assert len(second) >= 8
    assert first.keys() & second.keys() == set()
    assert (first | second).items() <= there.items()


def test_a_decision_is_on_disk_before_it_is_told_as_kept(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """No kill shows what a power cut would: whether the system was made to write before the decision was told."""
    synced: list[bytes] = []
    fsync = os.fsync

    def watched(handle: int) -> None:
        fsync(handle)
        if journal_beside(desk.path).exists():
            synced.append(journal_beside(desk.path).read_bytes())

    monkeypatch.setattr(os, "fsync", watched)
    for name in ("e1", "e2"):
        accept(desk, name)
        assert synced[-1] == journal_beside(desk.path).read_bytes()
        assert synced[-1].endswith(b"\n")


@pytest.mark.parametrize("ends_with", ["the last decision", "the first line of all"])
def test_a_line_torn_at_any_byte_is_set_aside_and_every_decision_before_it_is_there(desk: Desk, ends_with: str) -> None:
    if ends_with == "the last decision":
        accept(desk, "e1")
    accept(desk, "e2")
    journal = journal_beside(desk.path)
    *before, last, _ = journal.read_bytes().split(b"\n")
    if ends_with == "the first line of all":
        before, last = [], before[0]
    start = b"".join(line + b"\n" for line in before)
    for cut in range(len(last) + 1):
        journal.write_bytes(start + last[:cut])
        again = opened(desk.path)
        assert [line_sha256(line) for line in again.lines] == [line_sha256(line) for line in desk.lines[: len(before)]]
        assert accepted(again) == (["e1"] if before else [])
        assert journal.read_bytes() == start
        if cut == 0:
            assert again.set_aside is None
            continue
        assert again.set_aside is not None
        assert again.set_aside.read_bytes() == last[:cut]
        again.set_aside.unlink()
        if cut % 50 == 1:
            accept(again, "e3")
            assert accepted(opened(desk.path)) == (["e1", "e3"] if before else ["e3"])


def test_two_torn_ends_at_the_same_place_are_both_kept(desk: Desk) -> None:
    accept(desk, "e1")
    journal = journal_beside(desk.path)
    whole = journal.read_bytes()
    places = []
    for torn in (b'{"action":"acc', b'{"action":"dr'):
        journal.write_bytes(whole + torn)
        places.append(opened(desk.path).set_aside)
    assert [place.read_bytes() for place in places if place] == [b'{"action":"acc', b'{"action":"dr']


def test_a_window_that_is_open_sets_a_torn_line_of_another_program_aside(desk: Desk) -> None:
    accept(desk, "e1")
    journal = journal_beside(desk.path)
    journal.write_bytes(journal.read_bytes() + b'{"action":"acc')
    accept(desk, "e2")
    assert accepted(opened(desk.path)) == ["e1", "e2"]
    assert desk.set_aside is not None


@pytest.mark.parametrize("earlier", [0, 1], ids=["the first decision", "a later one"])
def test_a_decision_that_the_disk_does_not_take_is_refused_and_the_next_one_works(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, earlier: int
) -> None:
    for name in ("e1", "e2")[:earlier]:
        accept(desk, name)
    before, lines = desk.findings, desk.lines

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        with pytest.raises(BadInput, match=r"cannot be written \(No space left on device\)") as told:
            accept(desk, "e3")
    assert "\n" not in str(told.value)
    assert (desk.findings, desk.lines) == (before, lines)
    accept(desk, "e4")
    assert accepted(desk)[-1] == "e4"
    assert "e3" not in accepted(desk)
    assert opened(desk.path).findings == desk.findings


def test_a_line_of_which_the_disk_takes_only_a_part_is_not_kept(desk: Desk) -> None:
    """The system itself breaks the write off: no file of this process may grow beyond a part of the next line."""
    resource = pytest.importorskip("resource")
    accept(desk, "e1")
    journal = journal_beside(desk.path)
    whole = journal.read_bytes()
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (len(whole) + 100, hard))
    try:
        with pytest.raises(BadInput, match="this was not kept"):
            accept(desk, "e2")
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert journal.read_bytes() == whole
    accept(desk, "e3")
    assert accepted(desk) == accepted(opened(desk.path)) == ["e1", "e3"]
    assert desk.set_aside is None


def test_where_a_refused_line_cannot_be_taken_off_again_nobody_is_told_that_it_was_not_kept(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    accept(desk, "e1")

    def broken(*_: Any) -> None:
        raise OSError(errno.EIO, "Input/output error")

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", broken)
        patched.setattr(journal_module.Journal, "_cut", broken)
        with pytest.raises(BadInput, match="open it again to see what was kept"):
            accept(desk, "e2")


def test_a_journal_shortened_from_outside_is_told(desk: Desk) -> None:
    accept(desk, "e1")
    journal_beside(desk.path).write_bytes(b"")
    with pytest.raises(BrokenRecord, match="changed from outside"):
        accept(desk, "e2")


def test_a_decision_changed_within_the_journal_is_told_with_its_line(desk: Desk) -> None:
    for name in ("e1", "e2"):
        accept(desk, name)
    journal = journal_beside(desk.path)
    journal.write_bytes(journal.read_bytes().replace(b"Ida Pell", b"Ada Pell", 2))
    with pytest.raises(BrokenRecord, match="line 2"):
        opened(desk.path)


def test_a_program_that_does_not_let_go_is_told_of(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(journal_module, "PATIENCE_S", 0.05)
    with (
        FileLock(journal_beside(desk.path).with_name(f".{journal_beside(desk.path).name}.lock")),
        pytest.raises(BadInput, match="another program is writing"),
    ):
        accept(desk, "e1")
    accept(desk, "e1")


def test_a_folder_that_cannot_be_written_is_told_in_one_line(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: Any, **__: Any) -> None:
        raise PermissionError(errno.EACCES, "Permission denied")

    monkeypatch.setattr(FileLock, "acquire", refused)
    with pytest.raises(BadInput, match=r"cannot be written \(Permission denied\)"):
        accept(desk, "e1")
    assert desk.findings == draft()
    assert not journal_beside(desk.path).exists()
