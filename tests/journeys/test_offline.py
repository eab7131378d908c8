"""Nothing leaves the machine: the whole line runs where nothing can be connected, sent or looked up."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from narrate2report.records.files import read_record
from narrate2report.records.findings import Findings
from narrate2report.records.transcript import Transcript
from tests.intake.recordings import write_recording
from tests.journeys.test_recordings import AUDIO, spoken, words

GUARD = """
import socket, sys

def forbid(event, arguments):
    # Nothing is reached but through these. A library that is loaded tries whether there is IPv6 by taking a port of
    # the machine's own loopback address, and lets it go.
    if event == "socket.bind" and arguments[1][0] in ("::1", "127.0.0.1"):
        return
    if event in ("socket.connect", "socket.bind", "socket.sendto", "socket.sendmsg", "socket.getaddrinfo",
                 "socket.gethostbyname", "socket.gethostbyaddr", "urllib.Request"):
        print("FORBIDDEN", event, arguments, file=sys.stderr)
        raise PermissionError(event)

sys.addaudithook(forbid)
from narrate2report.cli import main
sys.exit(main(sys.argv[1:]))
"""


def guarded(*arguments: str | Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-c", GUARD, *map(str, arguments)], capture_output=True, text=True)


def test_the_guard_would_notice() -> None:
    code = GUARD.replace("from narrate2report.cli import main", "socket.create_connection(('192.0.2.1', 80), 1)")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.returncode != 0
    assert "FORBIDDEN" in done.stderr


def test_from_recording_to_entries_without_a_socket(tmp_path: Path) -> None:
    walk = write_recording(tmp_path / "walk.m4a", AUDIO, spoken(27, 50))
    out, transcript = tmp_path / "walk.findings.json", tmp_path / "walk.transcript.json"
    (tmp_path / "many").mkdir()
    (tmp_path / "many" / "other.vtt").write_text("WEBVTT\n\n00:00.000 --> 00:03.000\nThe tap in the kitchen drips.\n")
    for arguments in (
        ("draft", walk, "--out", out),
        ("show", out),
        ("captions", transcript, "--to", tmp_path / "walk.vtt"),
        ("draft", tmp_path / "walk.vtt", "--out", tmp_path / "again.findings.json", "--json"),
        ("batch", tmp_path / "many" / "*.vtt"),
        ("models",),
        ("vocab", "try", "The sink is chipped."),
        ("guide", "speaking"),
    ):
        done = guarded(*arguments)
        assert "FORBIDDEN" not in done.stderr
        assert done.returncode == 0, done.stderr
    assert read_record(out, Findings).entries
    assert "front door" in words(read_record(transcript, Transcript))
